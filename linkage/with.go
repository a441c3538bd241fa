package linkage

import (
	"fmt"
	"math"
	"slices"
	"strconv"
)

// Edit is one change of a run: what Set, Turn, Remove and the others below make, for
// With. It names elements of any run that was made by With from the same one.
type Edit struct {
	gone  []Element
	bare  bool
	apply func(e *editor)
}

// With returns a new run with the edits made, one after another, but what is removed
// first of all; the run itself stays as it is. What is drawn from what they change
// follows, as when a file is read: pivots the points that they are named after, arms
// their pivots, rods without a length and cables without a core their ends. What no
// edit changes is shared with the new run, and what is one thing in both is found by
// Part, Rod and so on. It takes what copying the elements takes: less than a millisecond
// in a run of 1000 parts and rods.
//
// The error is *Faults: an edit names what the run hasn't got, or its number is none
// that a file could have. Whether the run still closes, solve.Compile tells.
func (run *Run) With(edits ...Edit) (*Run, error) {
	if run == nil {
		return nil, (&Faults{List: []Fault{{Says: "there is no run"}}}).Err()
	}
	e := &editor{faults: &Faults{Source: run.Source}}
	gone, bare := map[Element]bool{}, false
	for _, edit := range edits {
		bare = bare || edit.bare
		for _, g := range edit.gone {
			if there := run.found(g); there != nil {
				gone[there] = true
			} else {
				e.refuse("there is nothing in the run that is what is to be removed from it")
			}
		}
	}
	from := run
	if bare {
		unasked := *run
		unasked.Requirements, unasked.Measurements, unasked.Pins, unasked.Riggings = nil, nil, nil, nil
		from = &unasked
	}
	e.run = from.copied(gone)
	for _, edit := range edits {
		if edit.apply != nil {
			edit.apply(e)
		}
	}
	e.place()
	e.checkLengths(from)
	if err := e.faults.Err(); err != nil {
		return nil, err
	}
	return e.run, nil
}

// found returns the element of this run that is one of another; nil where it hasn't
// got it.
func (run *Run) found(what Element) Element {
	switch g := what.(type) {
	case *Part:
		if p := run.Part(g); p != nil {
			return p
		}
	case *Rod:
		if r := run.Rod(g); r != nil {
			return r
		}
	case *Joint:
		if j := run.Joint(g); j != nil {
			return j
		}
	case *Cable:
		if c := run.Cable(g); c != nil {
			return c
		}
	case *Control:
		if c := run.Control(g); c != nil {
			return c
		}
	case *Output:
		if o := run.Output(g); o != nil {
			return o
		}
	case *Stop:
		if s := run.Stop(g); s != nil {
			return s
		}
	case *Measurement:
		if i := slices.IndexFunc(run.Measurements, func(m *Measurement) bool { return m == g || g != nil && m.Name == g.Name && m.Span == g.Span }); i >= 0 {
			return run.Measurements[i]
		}
	}
	return nil
}

// editor makes edits in a copy of a run.
type editor struct {
	run    *Run
	faults *Faults
	// stale says that places changed, and that what is drawn from them doesn't follow yet.
	stale bool
	// ownParts and ownRods are those whose points are no more shared with the run that
	// they are copied from.
	ownParts, ownRods map[int]bool
}

// refuse tells what is wrong with an edit, which has no place in the file.
func (e *editor) refuse(format string, args ...any) { e.faults.Add(Span{}, format, args...) }

// measurable refuses what no length or coordinate of a file can be.
func (e *editor) measurable(value float64, what fmt.Stringer) bool {
	if math.IsNaN(value) || math.Abs(value) > MaxSize {
		e.refuse("%s can't be %g: numbers go to %s", shortName(what.String()), value, sizeLimit)
		return false
	}
	return true
}

// Set makes a dimension another number, as a Setting would.
func Set(d Dimension, value float64) Edit {
	return Edit{apply: func(e *editor) { e.set(d, func(float64) float64 { return value }) }}
}

// Shift makes a dimension larger by so much than the edits before it leave it.
func Shift(d Dimension, by float64) Edit {
	return Edit{apply: func(e *editor) {
		e.place()
		e.set(d, func(was float64) float64 { return was + by })
	}}
}

func (e *editor) set(d Dimension, to func(was float64) float64) {
	own, ok := e.run.Dimension(d)
	if !ok {
		e.refuse("the run hasn't got a dimension that is to be set")
		return
	}
	value := to(own.Value())
	if !e.measurable(value, own) {
		return
	}
	switch {
	case own.IsLength() && value <= 0:
		e.refuse("%s would be %s, and a length is more than 0", shortName(own.String()), plain(value))
	case own.Cable != nil && !own.Cable.hasCore():
		e.refuse("%s is no length that can be set", shortName(own.String()))
	case own.Cable != nil:
		own.Cable.Core, own.Cable.CoreGiven = value, true
	case own.IsLength():
		own.Rod.Length, own.Rod.LengthGiven = value, true
	case own.Point < 0 && own.Part.NamedPivot != nil:
		e.refuse("the pivot of %s is %s: that is what can be set", shortName(own.Part.Name), shortName(own.Part.NamedPivot.String()))
	case own.Part != nil && own.Point >= 0 && own.Part.Points[own.Point].Arm:
		e.place() // the pivot that it is measured from
		*e.pointsOf(own.Part)[own.Point].offset.axis(own.Axis) = value - *own.Part.Pivot.axis(own.Axis)
		e.stale = true
	default:
		if own.Point >= 0 && own.Part != nil {
			e.pointsOf(own.Part)
		} else if own.Point >= 0 {
			e.pointsOfRod(own.Rod)
		}
		*own.at().axis(own.Axis) = value
		e.stale = true
	}
}

// pointsOf returns the points of a part, to be changed.
func (e *editor) pointsOf(p *Part) []Point { return ownPoints(&e.ownParts, p.Index, &p.Points) }

// pointsOfRod returns the points of a rod, to be changed.
func (e *editor) pointsOfRod(r *Rod) []Point { return ownPoints(&e.ownRods, r.Index, &r.Points) }

// ownPoints copies points before the first of them changes.
func ownPoints(own *map[int]bool, index int, points *[]Point) []Point {
	if !(*own)[index] {
		if *own == nil {
			*own = map[int]bool{}
		}
		(*own)[index], *points = true, slices.Clone(*points)
	}
	return *points
}

// SetStop sets a stop elsewhere: degrees or a length, from the drawn position.
func SetStop(s *Stop, at float64) Edit {
	return Edit{apply: func(e *editor) {
		switch own := e.run.Stop(s); {
		case own == nil || own.Of == nil:
			e.refuse("the run hasn't got a stop that is to be set by its number")
		case math.IsNaN(at) || math.Abs(at) > MaxSize:
			e.refuse("the stop %s can't be set at %g: numbers go to %s", shortName(own.Name), at, sizeLimit)
		default:
			own.At = at
		}
	}}
}

// LimitTo says on which side a stop by number limits, "low" or "high", whatever
// side of neutral its number lies on.
func LimitTo(s *Stop, side string) Edit {
	return Edit{apply: func(e *editor) {
		switch own := e.run.Stop(s); {
		case own == nil || own.Of == nil:
			e.refuse("the run hasn't got a stop that is to limit to a side")
		case side != "low" && side != "high":
			e.refuse("a stop limits to low or to high")
		default:
			own.Side = side
		}
	}}
}

// Turn turns a rod end out by turns (in where negative): a turn lengthens the rod by
// a pitch and takes a pitch from the thread in it. Of a barrel the other end goes
// with it: out too where the hands are opposite, in where they are alike.
func Turn(end *RodEnd, turns float64) Edit {
	return Edit{apply: func(e *editor) {
		own := e.run.RodEnd(end)
		if own == nil {
			e.refuse("the run hasn't got a rod end that is to be turned")
			return
		}
		e.place()
		r := own.Rod
		for _, k := range r.Ends {
			out := 0.0
			switch {
			case k == own:
				out = turns
			case r.Barrel() && k.Left != own.Left:
				out = turns
			case r.Barrel():
				out = -turns
			}
			k.Turned += out
			k.Engaged -= float64(out * k.Thread.Pitch)
			r.Length += float64(out * k.Thread.Pitch)
		}
		if turns != 0 {
			r.LengthGiven = true
		}
	}}
}

// TurnCable turns an adjuster out by turns (in where negative): each turn takes a
// pitch from the core, and takes slack up.
func TurnCable(end *CableEnd, turns float64) Edit {
	return Edit{apply: func(e *editor) {
		own := e.run.CableEnd(end)
		if own == nil {
			e.refuse("the run hasn't got an adjuster that is to be turned")
			return
		}
		own.Turned += turns
		own.Cable.Taken += float64(turns * own.Thread.Pitch)
		own.Engaged -= float64(turns * own.Thread.Pitch)
	}}
}

// TakeUp shortens the core of a cable by a length, run units, as its adjusters do.
func TakeUp(c *Cable, by float64) Edit {
	return Edit{apply: func(e *editor) {
		if own := e.run.Cable(c); own != nil {
			own.Taken += by
		} else {
			e.refuse("the run hasn't got a cable that is to be taken up")
		}
	}}
}

// Temper is the run at a temperature, degrees Celsius, at which each of its cables is
// longer by so much, run units, in the order of Run.Cables. (solve.Temper works out by
// how much.)
func Temper(celsius float64, grown []float64) Edit {
	return Edit{apply: func(e *editor) {
		if len(grown) != len(e.run.Cables) {
			e.refuse("how much each cable grows isn't told of every one")
			return
		}
		e.run.Temperature = &celsius
		for i, c := range e.run.Cables {
			c.Grown = grown[i]
		}
	}}
}

// Move puts places elsewhere, each on its own: the arms of a pivot stay where they
// are when it moves.
func Move(places []PlaceRef, to []Vec) Edit {
	return Edit{apply: func(e *editor) {
		if len(places) != len(to) {
			e.refuse("where places are to be put isn't told of every one")
			return
		}
		e.place()
		for i, r := range places { // pivots first: arms are measured from them
			p := e.run.Part(r.Part)
			switch {
			case p == nil || r.Point >= len(p.Points):
				e.refuse("the run hasn't got a place that is to be put elsewhere")
			case !to[i].Finite() || beyond(to[i]):
				e.refuse("%s can't be put so far out: coordinates go to %s", shortName(r.String()), sizeLimit)
			case r.Point < 0:
				p.Pivot = to[i]
			default:
				e.pointsOf(p)[r.Point].At = to[i]
			}
		}
		for _, p := range e.run.Parts {
			for i := range p.Points {
				if q := &p.Points[i]; q.Arm {
					if offset := q.At.Sub(e.run.pivotOf(p)); offset != q.offset {
						e.pointsOf(p)[i].offset = offset
					}
				}
			}
		}
		e.stale = true
	}}
}

// Explore says how far a control is explored, from neutral: degrees or a length.
func Explore(c *Control, from, to float64) Edit {
	return Edit{apply: func(e *editor) {
		switch own := e.run.Control(c); {
		case own == nil:
			e.refuse("the run hasn't got a control that is to be explored")
		case !(from <= 0 && 0 <= to) || math.Max(-from, to) > MaxSize:
			e.refuse("%s can't be explored from %g to %g", shortName(own.Name), from, to)
		default:
			own.From, own.To = from, to
		}
	}}
}

// Hold says at which settings a control is held while others move, from neutral: degrees
// or a length.
func Hold(c *Control, at ...float64) Edit {
	return Edit{apply: func(e *editor) {
		switch own := e.run.Control(c); {
		case own == nil || len(at) == 0:
			e.refuse("the run hasn't got a control that is to be held")
		case slices.ContainsFunc(at, func(x float64) bool { return !(x >= own.From && x <= own.To) }):
			e.refuse("%s can't be held beyond what is explored", shortName(own.Name))
		default:
			own.Held = slices.Clone(at)
		}
	}}
}

// Under says in which control's sweeps a requirement is judged.
func Under(q *Requirement, c *Control) Edit {
	return Edit{apply: func(e *editor) {
		own, control := e.run.Requirement(q), e.run.Control(c)
		if own == nil || control == nil {
			e.refuse("the run hasn't got a requirement or a control under which it is to be judged")
			return
		}
		own.Control = control
	}}
}

// Grip makes a part a control, to move or hold it by itself, explored so far from
// neutral. It is the last of Run.Controls, and has the part's name.
func Grip(p *Part, from, to float64) Edit {
	return Edit{apply: func(e *editor) {
		switch own := e.run.Part(p); {
		case own == nil || own.Motion != Turns && own.Motion != Slides:
			e.refuse("the run hasn't got a part that is to be gripped, and turns or slides")
		default:
			e.run.Controls = append(e.run.Controls, &Control{
				Name: own.Name, Span: own.Span, Index: len(e.run.Controls), Of: own, From: from, To: to, Held: []float64{0},
				OfSpan: own.Span, FromSpan: own.Span, ToSpan: own.Span, HeldSpan: own.Span,
			})
		}
	}}
}

// Drive makes a second path one that drives.
func Drive(r *Rod) Edit {
	return Edit{apply: func(e *editor) {
		if own := e.run.Rod(r); own != nil {
			own.SecondPath = false
		} else {
			e.refuse("the run hasn't got a rod that is to drive")
		}
	}}
}

// Remove takes elements away, and with them what can't be there without them: what a
// part carries, rods, joints and cables that end on it, rods that hang on a rod, controls and
// outputs of it, stops that it would touch, and what is required, pinned or measured
// of any of these. What is left of a pair is a cable by itself, as long as it is
// unloaded. Whether the run counts as plane stays as it was.
func Remove(gone ...Element) Edit { return Edit{gone: gone} }

// Bare leaves out what is required, pinned and measured, which is about the whole.
func Bare() Edit { return Edit{bare: true} }

// checkLengths refuses rods of no length, or one that no file can have, and cables that
// are taken up by as much.
func (e *editor) checkLengths(from *Run) {
	for _, r := range e.run.Rods {
		if was := from.Rod(r); was != nil && was.Length == r.Length {
			continue
		}
		if !(r.Length > 0) || r.Length > MaxSize {
			e.refuse("%s would be %s %s long", r.Name, plain(r.Length), e.run.Units)
		}
	}
	for _, c := range e.run.Cables {
		if !(math.Abs(c.Taken) <= MaxSize) {
			e.refuse("%s would be taken up by %g %s", c.Name, c.Taken, e.run.Units)
		}
	}
}

// plain writes a length without an exponent, and without what rounding leaves of it.
func plain(v float64) string {
	const millionths = 1e6
	return strconv.FormatFloat(math.Round(v*millionths)/millionths, 'f', -1, 64)
}

// place works out what follows from the places that edits changed.
func (e *editor) place() {
	if !e.stale {
		return
	}
	e.stale = false
	run := e.run
	done := make([]bool, len(run.Parts))
	var placePart func(p *Part)
	placePart = func(p *Part) {
		if done[p.Index] {
			return
		}
		done[p.Index] = true
		if p.NamedPivot != nil {
			placePart(p.NamedPivot.Part)
			p.Pivot = p.NamedPivot.Get().At
		}
		for i := range p.Points {
			if q := &p.Points[i]; q.Arm {
				if at := p.Pivot.Add(q.offset); at != q.At {
					e.pointsOf(p)[i].At = at
				}
			}
		}
	}
	for _, p := range run.Parts {
		placePart(p)
	}
	for _, r := range run.Rods {
		r.measure()
	}
	for _, j := range run.Joints {
		j.measure()
	}
	for _, c := range run.Cables {
		c.measure()
	}
}
