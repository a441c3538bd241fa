// Layer: values.

package solve

import (
	"slices"

	"fullfree/linkage"
	"fullfree/solve/survey"
)

// Verdict is an answer of three values: the arithmetic near a limit or a
// singular place may not be able to tell.
type Verdict int

// The verdicts. The zero value is CannotTell.
const (
	CannotTell Verdict = iota
	Holds
	FallsShort
)

// Result is a run judged. Angles are degrees, lengths the run's unit. No
// number in it is NaN or infinite; a pointer is nil where there is no figure. Once
// made it may be read by any number of goroutines at once, its sweeps too.
type Result struct {
	Run *linkage.Run
	// Survey is what the drawing was adjusted by; nil where it is as the file has it.
	Survey *survey.Survey
	// Surveys are the same of the runs of an aircraft, by member: nil where one is as its file
	// has it; nil of a run by itself.
	Surveys []*survey.Survey
	// Verdict is FallsShort if any requirement or label falls short or anything is Unfit, else
	// CannotTell if any can't be judged or nothing was required.
	Verdict      Verdict
	Requirements []Judgement // in the order of Run.Requirements
	// Unfit is what the run can't be set to, as UnfitSettings lists it. Nobody writes its
	// kind, so it counts among no requirements.
	Unfit []Judgement
	// Labels is how the words of controls and outputs go with the drawing, of those that
	// can be judged: controls first, each in the file's order. Nobody writes their kind, so
	// they count among no requirements, but one that contradicts the drawing FallsShort.
	Labels []Judgement
	// NotJudged are the controls and outputs of which nothing tells which way they go.
	NotJudged []linkage.Subject
	// CyclicNotJudged are the hands of which it wasn't judged where around the turn they take
	// the pitch off a blade.
	CyclicNotJudged []CyclicWay
	// SecondPaths are what the second paths need over all sweeps, in the file's order.
	SecondPaths []SecondPathNeeds
	// NotChecked are the kinds among sense, travel, stops, over-center,
	// rod-angle, misalignment and clearance that the run doesn't require, and
	// engagement and second-path where it has threaded ends or a second path, and
	// taut where it has pairs of cables.
	NotChecked []linkage.Kind
	// Sweeps are one for each control and combination of the others' held settings, but
	// for SweepsLeftOut of them, since there is more to compute than is for one answer.
	// No requirement Holds that is about one of these.
	Sweeps        []*Sweep
	SweepsLeftOut int
	// SweepsSkipped are further settings of the others at which controls of an aircraft were
	// not swept: beyond 27 a control, and combinations of the ends of travels that can't be
	// reached together.
	SweepsSkipped int
	// Rotor is what the controls do to the pitch of a rotor's blades (AddRotor); nil where
	// there is none.
	Rotor *Rotor
	// BandsLeftOut says that how sure the answers are was not reckoned, or not of all,
	// for the same reason.
	BandsLeftOut bool
}

// Contradicted lists the labels that the drawing contradicts.
func (r *Result) Contradicted() (list []*Judgement) {
	for i := range r.Labels {
		if j := &r.Labels[i]; j.Verdict == FallsShort {
			list = append(list, j)
		}
	}
	return list
}

// Judged lists the labels that are Contradicted, the stops that are missing, how every
// other requirement came out, then Settings: what comes first is what others may follow from.
func (r *Result) Judged() []*Judgement {
	list := r.Contradicted()
	missing := func(j *Judgement) bool { return j.Requirement.Kind == linkage.Stops && j.Verdict == FallsShort }
	for _, first := range []bool{true, false} {
		for i := range r.Requirements {
			if j := &r.Requirements[i]; missing(j) == first {
				list = append(list, j)
			}
		}
	}
	return append(list, r.Settings()...)
}

// Settings lists what is unfit but for what a required "engagement" tells already.
func (r *Result) Settings() (list []*Judgement) {
	if len(r.Unfit) == 0 {
		return nil
	}
	engagement := func(j *Judgement) bool {
		return slices.ContainsFunc(r.Run.Requirements, func(q *linkage.Requirement) bool {
			return q.Kind == linkage.Engagement && (q.In == nil || q.In == j.Member())
		})
	}
	for i := range r.Unfit {
		if j := &r.Unfit[i]; !j.OfThread() || !engagement(j) {
			list = append(list, j)
		}
	}
	return list
}

// Judgement is how one requirement came out.
type Judgement struct {
	// Requirement is one of the run's; or of the kind linkage.AsSet, with the name of
	// the end that it is about; or linkage.LabelKind, with that of a control or output.
	Requirement *linkage.Requirement
	Verdict     Verdict
	Worst       *float64 // see the kind; nil where there is no figure
	At          *float64 // control position of Worst in Sweep; nil where nothing depends on it
	Sweep       int      // index into Result.Sweeps of the worst
	Limit       float64
	Unit        linkage.Unit
	// Band is how much worse the worst is than Worst, in size and in Unit, for what the
	// drawing may be out by (two standard deviations), over the whole travel. Sure
	// says that the verdict is the same then, and that no survey leaves open or in
	// doubt what it is told from (AddBands); nil where there is no telling, and NoBand
	// says why.
	Band   *float64
	Sure   *bool
	NoBand NoBand
	// Untied says that Worst, or the verdict where that has no figure, hangs on
	// places that the survey leaves open (AddBands); nil without a survey.
	Untied *bool
	// NoneFound: over-center found no critical point; Worst is how far beyond
	// an end was explored, at least.
	NoneFound bool
	// NotMet: order: one of the two stops bites nowhere on that side as far as
	// was looked, so Worst is at least (the second isn't met) or at most (the
	// first isn't).
	NotMet bool
	// Aside are the stretches of the travel that are left out of a sense told by places,
	// since the first place hardly goes along its direction there.
	Aside []Aside
	// Why tells apart what Verdict alone doesn't.
	Why Why
	// Rod, Cable, Part and End name what Worst belongs to, where the kind has
	// such; Cable is set where a cable drives, not a rod, of taut, and of
	// engagement and setting where it is the end of a conduit.
	Rod   *linkage.Rod
	Cable *linkage.Cable
	Part  *linkage.Part
	// End is "from" or "to" (misalignment, engagement, setting, of a conduit
	// "conduit-from" or "conduit-to"), "low" or "high" (travel: which
	// figure is missed most; order, over-center: the side of the travel), "plus", "minus"
	// or "turns" (label: the word that goes least with the drawing), "there" or "back"
	// (cyclic-sense: the hand as the file says it, or the other way).
	End string
	// Reaches is what was reached where Limit is about something else:
	// travel: the reading at the worst end; second-path: the misfit, play not taken off;
	// reading: what is read; neutral: where it
	// stands, with its sign; symmetrical: how far the travel goes to either sign; cyclic-sense:
	// the azimuth of least pitch, degrees.
	Reaches float64
	// By is how far the hand moves the cyclic pitch there, degrees (cyclic-sense); where
	// that is too little to tell its place, the least of all settings.
	By float64
}

// Member is the member of an aircraft that a judgement is of; nil for what is required
// across runs, and of a run by itself.
func (j *Judgement) Member() *linkage.Member {
	switch {
	case j == nil || j.Requirement == nil:
		return nil
	case j.Requirement.Kind == linkage.LabelKind:
		return j.Requirement.Of[0].In()
	case j.Requirement.Kind != linkage.AsSet:
		return j.Requirement.In
	case j.Rod != nil:
		return j.Rod.In
	case j.Cable != nil:
		return j.Cable.In
	}
	return nil
}

// Aside is a stretch of a sweep, in the unit of its control.
type Aside struct {
	Sweep    int // index into Result.Sweeps
	From, To float64
}

// Why is the reason of an unusual verdict.
type Why int

// The reasons.
const (
	Plain             Why = iota // Worst against Limit says it all
	NotExplored                  // over-center: less than least could be explored; order: one of the stops was not met as far as was looked
	HaltsOrNoise                 // sense: it stands still somewhere, so no sense there
	NeverMoves                   // sense: nothing to judge: the first of the two never moves
	DrivesReversed               // sense: the first reverses while the second goes on
	NeitherBites                 // order: neither stop is met
	NeverMeet                    // clearance: the two share no height
	BottomsOut                   // engagement, setting: an end has more thread in the rod, or in its nuts, than it can take
	ComesOut                     // setting: no thread of an end is left in
	ThreadShort                  // setting: less thread of an end is in than its least
	PastShank                    // setting: more thread is asked to be in than the end's shank has
	OffStep                      // setting: the end's step can't make the turns
	NeverAlong                   // sense, cyclic-sense: the first place goes nowhere along its direction
	NotReached                   // reading: the travel ends before that place; At is its end
	OneSided                     // symmetrical: the travel goes to one sign of the control only
	LostTrack                    // the run couldn't be followed as far as it was to be explored, and why isn't known
	HandsUnit                    // over-center, order: the limit is in the unit of its run's own control, and the hand that moves that in the aircraft has another
	PlayUntold                   // free-play: with the run on center, or an output at rest, there is no telling by derivatives
	PlayOfTwoDrawings            // free-play: two drawings show one joint, and don't say how they lie to each other
	NoFullTurn                   // collective-pitch, cyclic-pitch, cyclic-sense: no control makes a full turn, or it is stopped before
	NoCycle                      // the same: the output doesn't come round again with the control, or not smoothly
	NoLeadingEdge                // collective-pitch, cyclic-sense: the file doesn't say which edge leads, or where up is
	NoBlade                      // cyclic-sense: the output isn't of what the rotor's hub carries, so where it is can't be told
	HeldAtOnePlace               // cyclic-sense: its control is held at one place only while the rotor turns
	TooLittleCyclic              // cyclic-sense: the hand moves the cyclic pitch by too little to tell where; By is how much
	LeftOut                      // some sweeps, or the ends of some, were left out for want of work (Result.SweepsLeftOut, Sweep.CutShort)
)

// Sweep is one control moved through all that was explored, the others held.
type Sweep struct {
	Index   int
	Control *linkage.Control
	Unit    linkage.Unit // of the control: deg, mm or in
	Held    []Held       // the other controls, in the file's order
	// Low and High are the travel, stop to stop.
	Low, High float64
	// Explored is where looking ended on each side.
	Explored [2]float64
	Ends     [2]End // low, high
	Stops    []StopBite
	Parts    []PartTravel // every part that is not Fixed; three entries for one that floats
	Outputs  []OutputTravel
	Rods     []RodTravel
	Cables   []CableTravel
	// LostMotion is the free turn of the part that floats most between the
	// cables of a pair that are both slack; nil where none does.
	LostMotion *LostMotion
	Critical   []Critical // by At
	// FreePlay is how far the control can be rocked with the outputs held, and each output
	// with the control held, in the file's order; none where no joint is said to give.
	FreePlay []FreePlay
	// Lost says that on a side the run couldn't be followed to where looking was
	// to end, and that it isn't known why: what lies beyond can't be judged.
	Lost bool
	// CutShort says that looking ended before it was to on a side, since there is more
	// to compute than is for one answer: what lies beyond Explored was left out.
	CutShort bool

	// only and whole are set of what a sweep of an aircraft tells of one run (Result.Only).
	only  *onlyOne
	whole *Sweep

	of      *sweeper // its path is the explorer's: read with borrow
	readers *readers
}

// Held is where a control stands while another is swept.
type Held struct {
	Control *linkage.Control
	At      float64
}

// Cause is what ends the travel on one side.
type Cause string

// The causes.
const (
	ByStop        Cause = "stop"
	ByToggle      Cause = "toggle"
	ByChangePoint Cause = "change-point"
	ByLimit       Cause = "explored" // nothing did, as far as was looked or could be followed
	ByCable       Cause = "cable"    // of Past: the slack cable comes taut again and pulls its part back off the stop
)

// End is one end of the travel.
type End struct {
	At    float64
	Cause Cause
	Stop  *linkage.Stop // for ByStop
	Part  *linkage.Part // for ByToggle and ByChangePoint: the part that locks; for ByCable: that it pulls
	// Wear is how far the control goes on for each unit of length worn off the
	// contact; nil where that doesn't apply.
	Wear *float64
	// Slack is a cable that only pulls and past this stop hangs slack, since a
	// spring holds what it moves against the stop: the control itself goes on.
	// nil: there is none.
	Slack *linkage.Cable
	// Past is how the control itself ends past the stop, as far as the file
	// explores; nil where Slack is, and where it can't be told.
	Past *End
}

// HoldsControl reports whether a stop makes the end and holds the control itself,
// or where a cable hangs slack past it a later one does.
func (e End) HoldsControl() bool {
	if e.Slack != nil {
		return e.Past != nil && e.Past.HoldsControl()
	}
	return e.Cause == ByStop
}

// StopBite is where a stop bites or would bite. A stop that would bite on
// both sides has two.
type StopBite struct {
	Stop  *linkage.Stop
	At    *float64 // nil: nowhere explored
	Bites bool     // it ends the travel
	// Miss is how it is missed where it bites nowhere, or nearly so on the other side,
	// or what lies on center before At; nil where none of these is so.
	Miss *StopMiss
}

// Extent is a quantity over the travel: at neutral, at the two ends, and its
// least and most anywhere between.
type Extent struct {
	Neutral, AtLow, AtHigh, Least, Most float64
}

// PartTravel is how one part, or one freedom of a floating part, moves: travel
// from the drawn position.
type PartTravel struct {
	Part *linkage.Part
	Name string // "beam", or "beam.x", "beam.y", "beam.turn"
	Unit linkage.Unit
	Extent
}

// OutputTravel is how an output reads.
type OutputTravel struct {
	Output *linkage.Output
	Unit   linkage.Unit
	Extent
	Ratio Ratio
	// Cycle is how it goes over a full turn of the control; nil where that makes none, and
	// of what doesn't come round again with it.
	Cycle *Cycle
}

// Ratio is d(output)/d(control). Least and Most are by size, with their sign.
// nil at a toggle.
type Ratio struct {
	Unit                 linkage.Unit
	Neutral, Least, Most *float64
	// Low and High are its range, by sign.
	Low, High float64
	// Reverses are the places inside the travel, ascending, where the output
	// halts at its least or most reading and turns back.
	Reverses []float64
}

// RodTravel is how one rod stands.
type RodTravel struct {
	Rod    *linkage.Rod
	Length float64 // as set, run units
	// TiltFrom and TiltTo are the most that its ends tilt (misalignment), degrees.
	TiltFrom, TiltTo float64
	// Angle is the least angle between the rod and the arm that it drives
	// (transmission angle), degrees. A second path drives nothing and has none.
	Angle RodAngle
	// SecondPath is what a second path would need; nil for a rod that drives.
	SecondPath *SecondPathFit
}

// SecondPathFit is how the set length of a second path fits what it would need
// as the run moves, hole to hole.
type SecondPathFit struct {
	NeedsLeast, NeedsMost float64
	Misfit                float64  // the most that it is off, before play
	At                    *float64 // where; nil: it needs the same everywhere
	BestLength            float64  // the middle of what it needs
	// Binds are the stretches of the travel, ascending, where it needs more than
	// its play: there the two paths bind.
	Binds [][2]float64
}

// SecondPathNeeds is how a second path fits over all sweeps, in run units.
type SecondPathNeeds struct {
	Rod *linkage.Rod
	Set float64 // its length as set
	// SecondPathFit is over all sweeps: At is in Sweep; Binds are in Bound.
	SecondPathFit
	Sweep *Sweep // where Misfit is
	// Beyond is what of Misfit its play doesn't take up: 0 where it doesn't bind.
	Beyond float64
	Bound  []BoundSweep // where it binds
	// Turn brings it nearest to BestLength; nil where no end changes its length.
	Turn *TurnToLength
}

// BoundSweep is where a second path binds in a sweep.
type BoundSweep struct {
	Sweep     *Sweep
	Stretches [][2]float64 // as SecondPathFit.Binds
}

// RodAngle is a rod's least angle to what it drives.
type RodAngle struct {
	Least float64
	At    *float64 // nil: it doesn't change
	Part  string   // the driven part
}

// CriticalKind is a kind of on-center point.
type CriticalKind string

// The kinds of critical points.
const (
	Toggle      CriticalKind = "toggle"       // the driven part locks up: it can be driven no further
	ChangePoint CriticalKind = "change-point" // two assemblies meet: it may go over to the other
	DeadCenter  CriticalKind = "dead-center"  // the driven part halts and reverses
)

// Critical is a place where a part is on center, or an output turns back.
type Critical struct {
	Kind CriticalKind
	At   float64       // control
	Part *linkage.Part // nil where Output is set
	// Output is set of a dead center at which no part halts whole, but an output
	// turns back by itself, as a point does at the top of its arc; then no rod or
	// cable is told.
	Output *linkage.Output
	Rod    *linkage.Rod   // nil where a cable or a joint drives
	Cable  *linkage.Cable // or the first of a pair
	Joint  *linkage.Joint // where one drives, and no rod or cable
	InLine *linkage.Cable // of a pair at a toggle, the one that comes in line and holds the part fast; nil: neither does
	Margin float64        // from the end of the travel on its side; negative inside
}

// CableTravel is how one cable is drawn. Tensions are in N or lbf; they are nil
// for a cable that acts alone, whose tension isn't known.
type CableTravel struct {
	Cable                *linkage.Cable
	Part                 *linkage.Part // that it holds; nil where several hang together
	Unit                 linkage.Unit
	Neutral, Least, Most *float64
	At                   *float64     // where Least is; nil: it is the same everywhere, or not known
	Slack                [][2]float64 // the stretches of the travel in which it hangs loose, ascending
}

// LostMotion is how far a part can be moved by hand while what drives it stands.
type LostMotion struct {
	Part *linkage.Part
	Unit linkage.Unit
	Most float64 // from one end to the other
	At   float64 // of the control
}
