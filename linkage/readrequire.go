package linkage

import (
	"fmt"
	"slices"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// readRequirement reads what is required of the run.
func (r *reader) readRequirement(b *block, q *Requirement) {
	if len(b.Labels) > 1 {
		q.Name = b.Labels[1]
	}
	q.ControlSpan = b.at("control")
	if e := b.get("control"); e != nil {
		thing, _ := r.thing(e, "control", is[*Control])
		q.Control, _ = thing.(*Control)
	}
	switch q.Kind {
	case Opposite, Together:
		r.readPair(b, q, "[left-pedal, right-pedal]", false)
		r.checkSameUnit(b, q)
		q.Within = orZero(r.needLeast(b, "within", "within = 0.5", 0))
	case Steady:
		r.readOne(b, q)
		q.Within = orZero(r.needLeast(b, "within", "within = 0.5", 0))
		if b.get("control") == nil && len(r.run.Controls) > 1 {
			r.faults.Add(q.Span, "%s needs a control, the one that should leave it alone, since the run has several: write control = %s", b, r.run.Controls[0].Name)
		}
	case Sense:
		r.readSense(b, q)
	case Travel:
		r.readOne(b, q)
		q.Within = orZero(r.needLeast(b, "within", "within = 0.5", 0))
		low, high := r.needLeast(b, "low", "low = -20", -MaxSize), r.needLeast(b, "high", "high = 20", -MaxSize)
		q.Low, q.High = orZero(low), orZero(high)
		if low != nil && high != nil && *low > *high {
			r.faults.Add(b.at("low"), "low is more than high")
		}
	case OverCenter:
		least := r.needLeast(b, "least", "least = 10", 0)
		q.Least = orZero(least)
		if least != nil && *least == 0 {
			r.faults.Add(b.at("least"), "least is more than 0: a stop at the very point of going over center stops nothing")
		}
	case RodAngle:
		q.Least = orZero(r.needLeast(b, "least", "least = 30", 0))
		if q.Least > maxTilt {
			r.faults.Add(b.at("least"), "a rod stands at %d degrees to an arm at most", maxTilt)
		}
	case Clearance:
		if e := b.need("between", "between = [left-pedal.heel, airframe.tube]"); e != nil {
			q.Between, _ = r.twoFeatures(e)
		}
		q.Least = orZero(r.needLeast(b, "least", "least = 1/16", 0))
	case Misalignment:
		q.Most = b.atLeast("most", 0)
		if q.Most != nil && *q.Most > maxTilt {
			r.faults.Add(b.at("most"), "a rod end tilts %d degrees at most", maxTilt)
		}
		if b.get("most") == nil && !r.anyMisalignment() {
			r.faults.Add(q.Span, "%s has no most, and no rod says what its ends allow: write most = 12 here, or misalignment = 12 in the rods", b)
		}
	case Stops:
	case Order:
		q.First = r.needStop(b, "first")
		q.Then = r.needStop(b, "then")
		if q.First != nil && q.First == q.Then {
			r.faults.Add(b.at("then"), "first and then are the same stop")
		}
		q.Least = orZero(r.needLeast(b, "least", "least = 1", 0))
	case Engagement:
		if !r.anyEnd() {
			r.faults.Add(q.Span, `%s has nothing to be about, since no rod and no conduit has a threaded end: write end "from" { in a rod`, b)
		}
	case SecondPath:
		q.Most = r.needLeast(b, "most", "most = 0.5", 0)
		if !r.anySecondPath() {
			r.faults.Add(q.Span, "%s has nothing to be about, since no rod is a second path: write second-path = true in one", b)
		}
	case Taut:
		if e := b.need("of", "of = pair"); e != nil {
			thing, _ := r.thing(e, "pair", is[*Pair])
			q.Pair, _ = thing.(*Pair)
		}
		q.Least = orZero(r.needLeast(b, "least", "least = 40", 0))
	case Meets:
		r.readMeeting(b, q)
		q.Within = orZero(r.needLeast(b, "within", "within = 0.5", 0))
	case Neutral:
		r.readOne(b, q)
		q.Within = orZero(r.needLeast(b, "within", "within = 0.5", 0))
	case Symmetrical:
		r.readPair(b, q, "[left-aileron, right-aileron]", false)
		r.checkSameUnit(b, q)
		if e := b.get("opposed"); e != nil {
			q.Opposed, _ = r.truth(e)
		}
		q.Within = orZero(r.needLeast(b, "within", "within = 0.5", 0))
	case Reading:
		r.readReading(b, q)
	case FreePlay:
		r.readFreePlay(b, q)
	case CollectivePitch, CyclicPitch:
		r.readPitch(b, q)
	case CyclicSense:
		r.readCyclicSense(b, q)
	case AsSet:
		r.faults.Add(spanOf(b.LabelRanges[0]), `a setting that can't be falls short by itself, whatever is required: leave this block out, or for the thread in every end write require "engagement" {}`)
	case LabelKind:
		r.faults.Add(spanOf(b.LabelRanges[0]), `whether plus and minus say what is drawn is judged by itself: leave this block out, and give the control a grip, as in grip = stick.grip`)
	default:
		if len(b.Labels) > 0 {
			kinds := make([]string, len(requireKinds))
			for i, k := range requireKinds {
				kinds[i] = string(k)
			}
			quoted := make([]string, len(kinds))
			for i, k := range kinds {
				quoted[i] = shortName(k)
			}
			hint := ": there are " + joined(quoted, "and")
			if best := Nearest(b.name, kinds); best != "" {
				hint = fmt.Sprintf("; did you mean %q?", best)
			}
			r.faults.Add(spanOf(b.LabelRanges[0]), "nothing called %s can be required%s", shortName(b.name), hint)
		}
	}
}

// readReading reads what is to be read with a control at a place.
func (r *reader) readReading(b *block, q *Requirement) {
	r.readOne(b, q)
	if e := b.need("at", "at = 15"); e != nil {
		var ok bool
		if q.At, ok = r.number(e); ok {
			r.checkReached(q, b.at("at"))
		}
	}
	if e := b.need("wants", "wants = 20"); e != nil {
		q.Wants, _ = r.number(e)
	}
	q.Within = orZero(r.needLeast(b, "within", "within = 0.5", 0))
	if b.get("control") == nil && len(r.run.Controls) > 1 {
		r.faults.Add(q.Span, "%s needs a control, the one that stands at its at, since the run has several: write control = %s", b, r.run.Controls[0].Name)
	}
}

// checkReached tells of a reading that is asked for beyond what is explored.
func (r *reader) checkReached(q *Requirement, at Span) {
	c := q.Control
	if c == nil && len(r.run.Controls) == 1 {
		c = r.run.Controls[0]
	}
	if c == nil || r.bad[c] || q.At >= c.From && q.At <= c.To {
		return
	}
	r.faults.Add(at, "%s is explored from %g to %g only, so nothing is read at %g: at is how far the control is from neutral", shortName(c.Name), c.From, c.To, q.At)
}

// readSense reads which way something is to go: as two turn, or as two places go.
func (r *reader) readSense(b *block, q *Requirement) {
	if b.get("when") == nil && b.get("then") == nil {
		r.readPair(b, q, "[pedals, tail]", true)
		if e := b.need("turns", `turns = "same" or turns = "opposite"`); e != nil {
			turns, _ := r.choice(e, "same", "opposite")
			q.Same = turns == "same"
		}
		return
	}
	for _, name := range []string{"of", "turns"} {
		if b.get(name) != nil {
			r.faults.Add(b.at(name), "%s tells the sense by places, with when and then: leave out %s", b, name)
		}
	}
	when := r.readPlaceMotion(b, "when", `[stick.grip, "right"]`)
	then := r.readPlaceMotion(b, "then", `[right-aileron.te, "up"]`)
	if when == nil || then == nil {
		return
	}
	if when.Place.Get() == then.Place.Get() {
		r.faults.Add(b.at("then"), "both are %s: the one place is where it is moved, the other where that shows", shortName(when.Place.String()))
		return
	}
	q.Places = []PlaceMotion{*when, *then}
}

// needLeast returns a number that a requirement can't do without and that is
// no smaller than least; nil where it is left out or faulty.
func (r *reader) needLeast(b *block, name, example string, least float64) *float64 {
	b.need(name, example)
	return b.atLeast(name, least)
}

// orZero returns a number, 0 for one that was faulty.
func orZero(value *float64) float64 {
	if value == nil {
		return 0
	}
	return *value
}

// needStop returns the stop that an attribute names.
func (r *reader) needStop(b *block, name string) *Stop {
	e := b.need(name, name+" = stop")
	if e == nil {
		return nil
	}
	thing, _ := r.thing(e, "stop", is[*Stop])
	stop, _ := thing.(*Stop)
	return stop
}

// readOne reads the one part or output that a requirement is of.
func (r *reader) readOne(b *block, q *Requirement) {
	if e := b.need("of", "of = part"); e != nil {
		if s, ok := r.subject(e, false); ok {
			q.Of = []Subject{s}
		}
	}
}

// readPair reads the two that a requirement compares; the first may be a
// control where controls says so.
func (r *reader) readPair(b *block, q *Requirement, example string, controls bool) {
	e := b.need("of", "of = "+example)
	if e == nil {
		return
	}
	entries, ok := r.list(e, 2, example)
	if !ok {
		return
	}
	first, okFirst := r.subject(entries[0], controls)
	second, okSecond := r.subject(entries[1], false)
	if !okFirst || !okSecond {
		return
	}
	if first == second {
		r.faults.Add(spanOf(e.Range()), "both are %s: two different ones are compared", shortName(first.Name()))
		return
	}
	q.Of = []Subject{first, second}
}

// readMeeting reads the two points that must meet.
func (r *reader) readMeeting(b *block, q *Requirement) {
	const example = "[lever.eye, crosshead.clevis]"
	e := b.need("of", "of = "+example)
	if e == nil {
		return
	}
	entries, ok := r.list(e, 2, example)
	if !ok {
		return
	}
	first, okFirst := r.pointRef(entries[0])
	second, okSecond := r.pointRef(entries[1])
	if !okFirst || !okSecond {
		return
	}
	at := spanOf(e.Range())
	switch fixed := func(p PointRef) bool { return p.Part != nil && p.Part.Motion == Fixed }; {
	case first.Get() == second.Get():
		r.faults.Add(at, "both are %s: two different points meet", shortName(first.String()))
	case first.Part == second.Part && first.Rod == second.Rod:
		r.faults.Add(at, "both are on %s, so they stay as far apart as they are drawn", shortName(first.Owner()))
	case fixed(first) && fixed(second):
		r.faults.Add(at, "both are fixed, so they stay as far apart as they are drawn")
	}
	q.Points = [2]PointRef{first, second}
}

// subject returns the part or output, or if allowed the control, that an
// expression refers to.
func (r *reader) subject(e hclsyntax.Expression, controls bool) (Subject, bool) {
	what := "part or output"
	if controls {
		what = "part, output or control"
	}
	thing, ok := r.thing(e, what, func(thing any) bool {
		return is[*Part](thing) || is[*Output](thing) || controls && is[*Control](thing)
	})
	if !ok {
		return Subject{}, false
	}
	switch thing := thing.(type) {
	case *Part:
		if thing.Motion == Fixed {
			r.faults.Add(spanOf(e.Range()), "%s is fixed, and something that moves is wanted here", shortName(thing.Name))
			return Subject{}, false
		}
		if thing.Spatial() {
			r.faults.Add(spanOf(e.Range()), "%s %s, so no one number tells where it stands: name an output of it, with tilts", shortName(thing.Name), thing.freely())
			return Subject{}, false
		}
		return Subject{Part: thing}, true
	case *Output:
		return Subject{Output: thing}, true
	default:
		return Subject{Control: thing.(*Control)}, true
	}
}

// checkSameUnit tells of two that can't be compared, since one turns and the
// other goes a distance.
func (r *reader) checkSameUnit(b *block, q *Requirement) {
	if len(q.Of) != 2 || q.Of[0].Angular() == q.Of[1].Angular() {
		return
	}
	turns, goes := q.Of[0], q.Of[1]
	if goes.Angular() {
		turns, goes = goes, turns
	}
	r.faults.Add(b.at("of"), "degrees can't be compared with a length: %s turns, and %s travels", shortName(turns.Name()), shortName(goes.Name()))
}

// anyMisalignment reports whether any rod says what its ends allow.
func (r *reader) anyMisalignment() bool {
	for _, rod := range r.run.Rods {
		if rod.Misalignment != nil {
			return true
		}
	}
	return false
}

// anyEnd reports whether any rod or conduit has a threaded end.
func (r *reader) anyEnd() bool {
	return slices.ContainsFunc(r.run.Rods, func(rod *Rod) bool { return len(rod.Ends) > 0 }) ||
		slices.ContainsFunc(r.run.Cables, func(c *Cable) bool { return len(c.Ends) > 0 })
}

// anySecondPath reports whether any rod is a second path.
func (r *reader) anySecondPath() bool {
	return slices.ContainsFunc(r.run.Rods, func(rod *Rod) bool { return rod.SecondPath })
}
