package render

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// Says returns the sentences that tell a builder how one requirement came
// out: the worst figure, where it is, what was asked for and what is in hand.
func Says(r *solve.Result, j *solve.Judgement) string {
	t := telling{j, r, SweepAt(r, j.Sweep)}
	if j.Requirement.Kind == linkage.AsSet {
		return t.setting()
	}
	if j.Requirement.Kind == linkage.LabelKind {
		return t.label()
	}
	if t.sweep == nil {
		return "There was no sweep to judge it in."
	}
	if t.Why == solve.HandsUnit {
		return "It can't be judged: its limit counts the run's own control, and the hand that moves that in the aircraft counts otherwise, degrees against a length. Require it in the aircraft's file."
	}
	if t.Why == solve.LostTrack {
		return t.lost()
	}
	if t.Why == solve.LeftOut {
		return t.leftOut()
	}
	switch j.Requirement.Kind {
	case linkage.Opposite:
		return t.pair("turn equal and opposite", "are not equal and opposite")
	case linkage.Together:
		return t.pair("move as one", "do not move as one")
	case linkage.Steady:
		return t.steady()
	case linkage.Sense:
		return t.sense()
	case linkage.Travel:
		return t.travel()
	case linkage.OverCenter:
		return t.overCenter()
	case linkage.RodAngle:
		return t.rodAngle()
	case linkage.Clearance:
		return t.clearance()
	case linkage.Misalignment:
		return t.misalignment()
	case linkage.Stops:
		return t.stops()
	case linkage.Order:
		return t.order()
	case linkage.Engagement:
		return t.engagement()
	case linkage.SecondPath:
		return t.secondPath()
	case linkage.Taut:
		return t.taut()
	case linkage.Meets:
		return t.meets()
	case linkage.Neutral:
		return t.neutral()
	case linkage.Symmetrical:
		return t.symmetrical()
	case linkage.Reading:
		return t.readsAt()
	case linkage.FreePlay:
		return t.freePlay()
	case linkage.CollectivePitch, linkage.CyclicPitch:
		return t.pitch()
	case linkage.CyclicSense:
		return t.cyclicSense()
	}
	return t.undecided()
}

// SweepAt is the sweep of a number; nil where there is none.
func SweepAt(r *solve.Result, i int) *solve.Sweep {
	if i < 0 || i >= len(r.Sweeps) {
		return nil
	}
	return r.Sweeps[i]
}

// telling is one judgement being put into words.
type telling struct {
	*solve.Judgement
	result *solve.Result
	sweep  *solve.Sweep // where the worst is
}

// pair tells opposite and together.
func (t telling) pair(good, bad string) string {
	names := figure.List([]string{t.Requirement.Of[0].Name(), t.Requirement.Of[1].Name()})
	switch t.known() {
	case solve.Holds:
		return fmt.Sprintf("%s %s to within %s%s. %s.", names, good, t.worst(), t.place(", worst "), t.allowed())
	case solve.FallsShort:
		return fmt.Sprintf("%s %s: %s out at worst%s. %s.", names, bad, t.worst(), t.place(", "), t.allowed())
	}
	return t.undecided()
}

func (t telling) steady() string {
	name, mover := t.Requirement.Of[0].Name(), t.sweep.Control.Name
	switch t.known() {
	case solve.Holds:
		if *t.Worst == 0 {
			return fmt.Sprintf("%s doesn't move at all while %s does; %s allowed.", name, mover, t.limit())
		}
		return fmt.Sprintf("%s moves no more than %s while %s does%s. %s.", name, t.worst(), mover, t.place(", most "), t.allowed())
	case solve.FallsShort:
		return fmt.Sprintf("%s moves %s by %s%s. %s.", mover, name, t.worst(), t.place(", at most "), t.allowed())
	}
	return t.undecided()
}

func (t telling) sense() string {
	if t.Requirement.Places != nil {
		return t.sensePlaces()
	}
	driver, driven := t.Requirement.Of[0].Name(), t.Requirement.Of[1].Name()
	right, wrong := fmt.Sprintf("it goes minus where %s goes plus", driver), fmt.Sprintf("it goes plus where %s goes plus", driver)
	if turnAlike(t.Requirement.Of[0], t.Requirement.Of[1]) {
		right, wrong = "as drawn it turns the opposite way to "+driver, "as drawn it turns the same way as "+driver
	}
	if t.Requirement.Same {
		right, wrong = wrong, right
	}
	switch t.Why {
	case solve.NeverMoves:
		return fmt.Sprintf("%s never moves, so there is no sense to judge.", driver)
	case solve.HaltsOrNoise:
		return fmt.Sprintf("%s stands still while %s moves%s, so it has no sense there.", driven, driver, t.place(", "))
	case solve.DrivesReversed:
		return fmt.Sprintf("%s reverses while %s goes on%s, so the sense turns round there.", driver, driven, t.place(", "))
	}
	switch t.known() {
	case solve.Holds:
		return fmt.Sprintf("%s moves the right way all through: %s, at least %s%s.", driven, right, t.ratio(), t.place(", "))
	case solve.FallsShort:
		return fmt.Sprintf("%s moves the wrong way%s: %s, %s.", driven, t.place(", worst "), wrong, figure.Joined(" ", t.byWord(), t.ratio()))
	}
	return t.undecided()
}

// turnAlike says whether two subjects turn about axes that point the same way,
// so that plus of both is the same turn in the drawing.
func turnAlike(a, b linkage.Subject) bool {
	p, q := turningPart(a), turningPart(b)
	return p != nil && q != nil && p.Axis.Sub(q.Axis).Norm() < SquareToDrawing
}

// turningPart is the part whose turn a subject is; nil where it is a length.
func turningPart(s linkage.Subject) *linkage.Part {
	p := s.Part
	switch {
	case s.Output != nil:
		p = s.Output.Part
	case s.Control != nil:
		p = s.Control.Of
	}
	if p == nil || !p.Angular() {
		return nil
	}
	return p
}

// byWord is the word before a ratio, which one beyond measure has not.
func (t telling) byWord() string {
	if t.ratio() == figure.BeyondMeasure {
		return ""
	}
	return "by"
}

// ratio tells the worst ratio of sense by its size: the words around it tell
// which way.
func (t telling) ratio() string { return figure.Ratio(math.Abs(*t.Worst), t.Unit) }

func (t telling) travel() string {
	name, wanted, way := t.Requirement.Of[0].Name(), t.Requirement.Low, "down to"
	beyond := t.Reaches < t.Requirement.Low
	if t.End == "high" {
		wanted, way = t.Requirement.High, "up to"
		beyond = t.Reaches > t.Requirement.High
	}
	shown := t.against(way, t.reached, t.Reaches, wanted) + t.place(", ")
	switch t.known() {
	case solve.Holds:
		return fmt.Sprintf("%s reaches both its figures, and no further, to within %s: %s. %s.", name, t.worst(), shown, t.allowed())
	case solve.FallsShort:
		if beyond {
			return fmt.Sprintf("%s goes %s too far: %s. %s.%s%s", name, t.worst(), shown, t.allowed(), t.ending(), t.otherFigure())
		}
		return fmt.Sprintf("%s stops %s short: it gets %s. %s.%s%s%s", name, t.worst(), shown, t.allowed(), t.ending(), t.gain(), t.otherFigure())
	}
	return t.undecided()
}

// against tells a reading against the one that is wanted: with the words for their sides
// of an output that reads 0 as drawn and has such, else with which way it goes.
func (t telling) against(way string, told func(reading, wanted float64) string, reading, wanted float64) string {
	of := t.Requirement.Of[0].Output
	if of != nil && of.Reads == 0 {
		side := func(v float64) string {
			if v < 0 {
				return figure.Clean(of.Minus)
			}
			return figure.Clean(of.Plus)
		}
		if got, want := side(reading), side(wanted); got != "" && want != "" && reading != 0 && wanted != 0 {
			if want == got {
				want = ""
			}
			return fmt.Sprintf("%s %s where %s is wanted", told(math.Abs(reading), math.Abs(wanted)), got, figure.Joined(" ", figure.Given(math.Abs(wanted), t.Unit), want))
		}
	}
	return figure.Joined(" ", way, fmt.Sprintf("%s where %s is wanted", told(reading, wanted), figure.Given(wanted, t.Unit)))
}

// reached tells a reading that was reached, as finely as the miss is told.
func (t telling) reached(reading, wanted float64) string {
	if figure.Rounded(*t.Worst, t.Unit) == 0 && math.Abs(*t.Worst) < figure.LeastUsable {
		return figure.Quantity(reading, t.Unit)
	}
	return figure.Against(reading, wanted, t.Unit)
}

// end is the end of the travel that the worst is at; -1 where it is inside.
func (t telling) end() int {
	return slices.IndexFunc(t.sweep.Ends[:], func(e solve.End) bool { return t.At != nil && e.At == *t.At })
}

// ending tells what ends the travel where a figure is missed at an end of it.
func (t telling) ending() string {
	if end := t.end(); end >= 0 {
		return " " + EndSays(t.result, t.sweep, end)
	}
	return ""
}

func (t telling) rodAngle() string {
	what := "a rod and the arm that it drives"
	for _, rod := range t.sweep.Rods {
		if t.Worst != nil && rod.SecondPath == nil && rod.Angle.Least == *t.Worst {
			what = fmt.Sprintf("%s and the arm of %s that it drives", rod.Rod.Name, rod.Angle.Part)
			break
		}
	}
	switch t.known() {
	case solve.Holds, solve.FallsShort:
		return fmt.Sprintf("Flattest, at %s, stand %s%s. %s.", t.worst(), what, t.place(", "), t.wanted())
	}
	return t.undecided()
}

func (t telling) clearance() string {
	a, b := t.Requirement.Between[0].String(), t.Requirement.Between[1].String()
	if t.Why == solve.NeverMeet {
		return fmt.Sprintf("%s and %s share no height, so they never meet.", a, b)
	}
	switch t.known() {
	case solve.Holds, solve.FallsShort:
		if *t.Worst < 0 {
			return fmt.Sprintf("%s and %s foul each other by %s%s. %s wanted between them.", a, b, figure.Against(-*t.Worst, 0, t.Unit), t.place(", worst "), t.limit())
		}
		if *t.Worst == 0 {
			return fmt.Sprintf("%s and %s touch%s. %s.", a, b, t.place(", "), t.wanted())
		}
		return fmt.Sprintf("%s and %s keep %s apart at the nearest%s. %s.", a, b, t.worst(), t.place(", "), t.wanted())
	}
	return t.undecided()
}

func (t telling) misalignment() string {
	what := "a rod end"
	if t.Rod != nil {
		what = fmt.Sprintf("the %q end of %s", t.End, t.Rod.Name)
	}
	if t.known() == solve.CannotTell {
		return t.undecided()
	}
	tilt, most := *t.Worst, t.Limit
	if t.Requirement.Most == nil && t.Rod != nil && t.Rod.Misalignment != nil {
		// Worst is the excess over the rod's own limit.
		most = *t.Rod.Misalignment
		tilt = *t.Worst + most
	}
	said := fmt.Sprintf("Nearest to its limit, %s tilts %s%s. ", what, figure.Against(tilt, most, t.Unit), t.place(", "))
	if t.Verdict == solve.FallsShort {
		said = fmt.Sprintf("Furthest over its limit, %s tilts %s%s. ", what, figure.Against(tilt, most, t.Unit), t.place(", "))
	}
	return said + inHand(most-tilt, most, "allowed", t.Unit) + "."
}

func (t telling) stops() string {
	if t.known() == solve.CannotTell {
		return t.undecided()
	}
	if t.Verdict == solve.Holds {
		return "A stop ends the travel" + t.ofControl() + " on each side." + t.heldPast()
	}
	var open []string
	for i, end := range t.sweep.Ends {
		if end.HoldsControl() {
			continue
		}
		if end.Slack != nil {
			open = append(open, fmt.Sprintf("No stop holds the %s side of %s%s: %s Put a stop on %s itself.",
				SideName(i), t.sweep.Control.Name, t.heldClause(), figure.Joined(" ", slackPast(t.sweep, end), missesSays(t.sweep, i)), t.sweep.Control.Of.Name))
			continue
		}
		what := "nothing was met, looking to " + figure.Quantity(end.At, t.sweep.Unit)
		if end.Cause != solve.ByLimit {
			what = fmt.Sprintf("on center ends it at %s (%s)", figure.Quantity(end.At, t.sweep.Unit), CenterTerm(solve.CriticalKind(end.Cause)))
		}
		open = append(open, figure.Joined(" ", fmt.Sprintf("No stop ends the %s side of %s%s: %s.", SideName(i), t.sweep.Control.Name, t.heldClause(), what), missesSays(t.sweep, i)))
	}
	return strings.Join(open, " ")
}

// heldPast tells of each end that a later stop holds the control, with a cable
// hanging slack: once, however many sweeps show it.
func (t telling) heldPast() string {
	said := ""
	for _, s := range t.result.Sweeps {
		if t.Requirement.Control != nil && t.Requirement.Control != s.Control {
			continue
		}
		for _, end := range s.Ends {
			words := ""
			for e := &end; e != nil && e.Slack != nil; e = e.Past {
				words = fmt.Sprintf(" Past %s the cable %s goes slack, and the stop %s holds %s.", figure.Quoted(e.Stop.Name), e.Slack.Name, figure.Quoted(e.Past.Stop.Name), s.Control.Name)
			}
			if !strings.Contains(said, words) {
				said += words
			}
		}
	}
	return said
}

func (t telling) order() string {
	first, then := figure.Quoted(t.Requirement.First.Name), figure.Quoted(t.Requirement.Then.Name)
	if t.Why == solve.NeitherBites {
		return fmt.Sprintf("Neither the stop %s nor the stop %s bites anywhere as far as was looked.", first, then)
	}
	if t.Worst == nil {
		return t.undecided()
	}
	control := t.sweep.Control.Name
	if t.NotMet {
		switch {
		case t.Verdict == solve.FallsShort && *t.Worst <= 0:
			return fmt.Sprintf("The wrong way round: the stop %s bites%s, and the stop %s was not met within %s of %s after it. %s the other way wanted.",
				then, t.place(", "), first, figure.Against(-*t.Worst, 0, t.Unit), control, t.limit())
		case t.Why == solve.NotExplored:
			return fmt.Sprintf("The stop %s bites first%s, but the stop %s was not met in the %s of %s that were looked at after it and %s is wanted: %s.",
				first, t.place(", "), then, t.worst(), control, t.limit(), t.wider())
		case *t.Worst < t.Limit:
			return fmt.Sprintf("The stop %s bites first%s: %s of %s after it the run is on center, before the stop %s could bite.", first, t.place(", "), t.worst(), control, then)
		}
		return fmt.Sprintf("The stop %s bites first%s: the stop %s was not met within %s of %s after it. %s.", first, t.place(", "), then, t.worst(), control, t.wanted())
	}
	switch {
	case t.Verdict == solve.CannotTell:
		return t.undecided()
	case *t.Worst < 0:
		return fmt.Sprintf("The wrong way round: the stop %s bites %s of %s before the stop %s%s. %s the other way wanted.", then, figure.Against(-*t.Worst, 0, t.Unit), control, first, t.place(", "), t.limit())
	case *t.Worst == 0:
		return fmt.Sprintf("The stops %s and %s bite together%s. %s.", first, then, t.place(", "), t.wanted())
	}
	return fmt.Sprintf("The stop %s bites %s of %s before the stop %s would%s. %s.", first, t.worst(), control, then, t.place(", "), t.wanted())
}

// known is the verdict, or CannotTell where there is no figure to tell.
func (t telling) known() solve.Verdict {
	if t.Worst == nil {
		return solve.CannotTell
	}
	return t.Verdict
}

// lost tells of a run that couldn't be followed.
func (t telling) lost() string {
	for _, s := range t.result.Sweeps {
		if s.Lost {
			return fmt.Sprintf("It held as far as the run could be followed, with %s from %s to %s; the arithmetic can't tell what comes beyond, so it can't be judged.",
				s.Control.Name, figure.Quantity(s.Explored[0], s.Unit), figure.Quantity(s.Explored[1], s.Unit))
		}
	}
	return t.undecided()
}

func (t telling) undecided() string {
	if t.Worst == nil {
		return "It can't be judged: there is no figure for it in this travel."
	}
	return fmt.Sprintf("It can't be judged: %s%s is too near %s for the arithmetic to tell which side it is on.", t.worst(), t.place(" "), t.limit())
}

// worst is the worst figure, rounded so that it doesn't contradict the verdict.
func (t telling) worst() string { return figure.Readable(*t.Worst, t.Limit, t.Unit) }

func (t telling) limit() string { return figure.Given(t.Limit, t.Unit) }

// allowed tells an upper limit and what is in hand below it.
func (t telling) allowed() string { return inHand(t.Limit-*t.Worst, t.Limit, "allowed", t.Unit) }

// wanted tells a lower limit and what is in hand above it.
func (t telling) wanted() string { return inHand(*t.Worst-t.Limit, t.Limit, "wanted", t.Unit) }

// inHand tells a limit and what is in hand, or by how much it is missed.
func inHand(spare, limit float64, word string, unit linkage.Unit) string {
	said := figure.Given(limit, unit) + " " + word
	switch {
	case spare > 0:
		return said + ", " + inReserve(spare, unit)
	case spare < 0:
		return said + ", missed by " + figure.Against(-spare, 0, unit)
	}
	return said + ", nothing in hand"
}

// inReserve tells a margin. Inches stand last, lest "1/4 in in hand" is read.
func inReserve(margin float64, unit linkage.Unit) string {
	shown := figure.Against(margin, 0, unit)
	if unit == linkage.Inches {
		return "in hand " + shown
	}
	return shown + " in hand"
}
