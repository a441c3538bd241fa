package recheck

import (
	"errors"
	"math"

	"fullfree/linkage"
	"fullfree/solve"
)

// Version is a run or an aircraft as it was or is, with the lines of its rigging sheets.
type Version struct {
	// Run is what the run is called in answers; the runs of an aircraft have names of their
	// own.
	Run    string
	Result *solve.Result
	Lines  []Line
}

// Comparison is what came of comparing two versions.
type Comparison struct {
	Old, New Version
	// Changes are the dimensions that differ, in the order of the new file, then what went.
	Changes []*Change
	Opened  []Joint
	// Requirements, Ends and Neutral are all that either version has, old beside new.
	Requirements []Required
	Ends         []Ends
	Neutral      []Stands
	// Redo and Unmoved are lines of the new sheet, in its order: what is to be done again,
	// and the measured figures that nothing moves. What is in neither was not asked for
	// by any change.
	Redo    []Redo
	Unmoved []*Line
	// Reached are the runs of an aircraft that something changed or opened is in, or moves
	// with, by their names there; none of a run by itself.
	Reached []string
}

// Change is a dimension that changed, came or went. Its Run in an aircraft is that which it
// is of, empty of what is across runs.
type Change struct {
	Run, Dimension string
	Old, New       *Value // nil: not there
}

// Joint is something that can be opened and closed again.
type Joint struct {
	Run, Name string
	of        linkage.Element
}

// Required is a requirement of either version; nil where that hasn't got it.
type Required struct {
	Title    string // tells it from others of the run
	Old, New *solve.Judgement
}

// Ends is one end of a control's travel, in the two versions; nil where that hasn't got
// the control. Of several settings of the other controls it is that where it changed most.
type Ends struct {
	Control  string
	Side     int // 0: low, 1: high
	Old, New *solve.End
	// The units of the two.
	OldUnit, NewUnit linkage.Unit
}

// Stands is where a part, or one freedom of it, stands at neutral, from the drawn position.
type Stands struct {
	Part             string
	Old, New         *float64 // nil: there is no such part
	OldUnit, NewUnit linkage.Unit
}

// Redo is a line that is to be done again, and why.
type Redo struct {
	*Line
	Reason
}

// Why is why a line is void.
type Why int

// The reasons.
const (
	Touched   Why = iota // what the line is of was changed or opened
	Reached              // something in its control was: it is void whatever the figures
	Moved                // its figure moves by more than it may
	NotBefore            // the old sheet hasn't got the line
	Pitch                // what a rotor's pitch is set by was touched
)

// Reason is why a line is void, with what it follows from.
type Reason struct {
	Why Why
	// Causes are what was changed and Opened what was opened that it follows from, the
	// first few of each, and More says that there are others; none of Moved and NotBefore.
	Causes []*Change
	Opened []Joint
	More   bool
	// Was is the old figure of Moved, By how far the new one is from it, and Allowed what
	// both versions allow it, in the new one's unit.
	Was         *Figure
	By, Allowed float64
}

// ErrNothingInCommon says that two versions share no part, rod or cable, so that nothing
// can be compared.
var ErrNothingInCommon = errors.New("the two have no part, rod or cable of one name, so nothing can be compared")

// Compare tells what was changed from old to new, and what that and the joints opened make
// void. The joints are some of Joints of the new run.
func Compare(old, now Version, opened []Joint) (*Comparison, error) {
	for _, v := range []Version{old, now} {
		if err := v.whole(); err != nil {
			return nil, err
		}
	}
	if (old.Result.Run.Aircraft == nil) != (now.Result.Run.Aircraft == nil) {
		return nil, ErrTwoKinds
	}
	if !inCommon(old.Result.Run, now.Result.Run) {
		return nil, ErrNothingInCommon
	}
	c := &Comparison{Old: old, New: now, Opened: opened}
	m := newMarks(now.Result.Run)
	c.compareDimensions(m)
	for i := range opened {
		m.open(&c.Opened[i])
	}
	m.spread()
	c.Requirements = compareRequirements(old.Result, now.Result)
	c.Ends = compareEnds(old.Result, now.Result)
	c.Neutral = compareNeutral(old.Result, now.Result)
	c.tellLines(m)
	c.Reached = m.runsReached()
	return c, nil
}

// errTakenApart is told of a result that wasn't made by solve, or was changed since.
var errTakenApart = errors.New("there is no whole result here: Check of a Mechanism makes one")

// whole says what is wrong with a version that can't be compared.
func (v Version) whole() error {
	if err := v.Result.Whole(); err != nil {
		return err
	}
	if err := v.Result.Run.Validate(); err != nil {
		return err
	}
	for _, s := range v.Result.Sweeps {
		if err := s.Whole(); err != nil {
			return err
		}
	}
	for _, list := range [][]solve.Judgement{v.Result.Requirements, v.Result.Unfit, v.Result.Labels} {
		for _, j := range list {
			if j.Requirement == nil {
				return errTakenApart
			}
		}
	}
	return nil
}

// Same reports whether nothing was changed or opened.
func (c *Comparison) Same() bool { return len(c.Changes) == 0 && len(c.Opened) == 0 }

// inCommon reports whether two runs share the name of anything that a run is made of.
func inCommon(old, now *linkage.Run) bool {
	names := map[string]bool{}
	for _, name := range elementNames(old) {
		names[name] = true
	}
	for _, name := range elementNames(now) {
		if names[name] {
			return true
		}
	}
	return false
}

func elementNames(run *linkage.Run) []string {
	var names []string
	for _, p := range run.Parts {
		if p.Motion != linkage.Fixed {
			names = append(names, p.Name)
		}
	}
	for _, r := range run.Rods {
		names = append(names, r.Name)
	}
	for _, j := range run.Joints {
		names = append(names, j.Name)
	}
	for _, c := range run.Cables {
		names = append(names, c.Name)
	}
	return names
}

// compareDimensions finds what changed, and marks what that touches and reaches.
func (c *Comparison) compareDimensions(m *marks) {
	before := map[string]*dimension{}
	old, now := dimensionsOf(c.Old.Result.Run), dimensionsOf(c.New.Result.Run)
	for i := range old {
		before[old[i].name] = &old[i]
	}
	here := map[string]bool{}
	for i := range now {
		d := &now[i]
		here[d.name] = true
		was := before[d.name]
		switch {
		case was == nil:
			c.change(m, &Change{Dimension: d.name, New: &d.value}, d)
		case !was.value.same(d.value):
			c.change(m, &Change{Dimension: d.name, Old: &was.value, New: &d.value}, was, d)
		}
	}
	for i := range old {
		if d := &old[i]; !here[d.name] {
			c.change(m, &Change{Dimension: d.name, Old: &d.value}, d)
		}
	}
}

// change notes a change of a dimension, as either version has it.
func (c *Comparison) change(m *marks, change *Change, as ...*dimension) {
	if change.Run = as[0].in; c.New.Result.Run.Aircraft == nil {
		change.Run = c.New.Run
	}
	c.Changes = append(c.Changes, change)
	m.changed(change, as)
}

// tellLines tells the lines of the new sheet apart.
func (c *Comparison) tellLines(m *marks) {
	type key struct {
		run  string // in an aircraft; a run by itself may be called otherwise now
		step Step
		says string
	}
	keyOf := func(l *Line) key {
		if c.New.Result.Run.Aircraft == nil {
			return key{"", l.Step, l.Says}
		}
		return key{l.Run, l.Step, l.Says}
	}
	before := map[key]*Line{}
	for i := range c.Old.Lines {
		l := &c.Old.Lines[i]
		before[keyOf(l)] = l
	}
	setters := PitchSetters(c.New.Result)
	for i := range c.New.Lines {
		line := &c.New.Lines[i]
		redo := func(why Why, by causes) {
			c.Redo = append(c.Redo, Redo{line, Reason{Why: why, Causes: by.changes, Opened: by.opened, More: by.more}})
		}
		touched, reached := m.touchedAt(line), m.reachedAt(line)
		switch {
		case touched.any():
			redo(Touched, touched)
		case reached.any() && (line.Step.always() || line.Step == StepDrawUp && line.drawnUpWithOthers()):
			redo(Reached, reached)
		case line.Step == StepTrack:
			if pitch := m.pitchAt(line, setters); pitch.any() {
				redo(Pitch, pitch)
			}
		case line.Figure != nil:
			was := before[keyOf(line)]
			if was == nil || was.Figure == nil || !was.Figure.measures(line.Figure) {
				redo(NotBefore, causes{})
			} else if by, allowed := was.Figure.to(line.Figure); by <= float64(Share*allowed)+figureNoise {
				c.Unmoved = append(c.Unmoved, line)
			} else {
				c.Redo = append(c.Redo, Redo{line, Reason{Why: Moved, Was: was.Figure, By: by, Allowed: allowed}})
			}
		}
	}
}

// to tells how far a figure is now from what it was, and what both versions allow it, in
// the new one's unit.
func (f *Figure) to(now *Figure) (by, allowed float64) {
	was, _ := convert(f.Value, f.Unit, now.Unit)
	allowed, _ = convert(f.Allowed, f.Unit, now.Unit)
	return math.Abs(now.Value - was), math.Min(allowed, now.Allowed)
}

// measures reports whether two figures measure one kind of thing.
func (f *Figure) measures(other *Figure) bool {
	_, ok := convert(0, f.Unit, other.Unit)
	return ok
}

// drawnUpWithOthers reports whether what a cable is drawn up by sets a tension that more
// than this cable hangs on, which is void with all in its control.
func (l *Line) drawnUpWithOthers() bool {
	cable, ok := l.About.(*linkage.Cable)
	return ok && cable != nil && (cable.Open() || cable.Pair != nil)
}
