package linkage

import (
	"math"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// The ways that a rotor can turn, as the file says them; the trade says the second in both
// words.
const (
	clockwiseFromAbove        = "clockwise from above"
	anticlockwiseFromAbove    = "anticlockwise from above"
	counterclockwiseFromAbove = "counterclockwise from above"
)

// seenFromAbove is how much of a mast's direction must be up for which way it turns to be
// seen from above: half, a mast that leans by 60 degrees, far more than any is built.
const seenFromAbove = 0.5

// readRotors reads what turns blades, of which a run has one at most.
func (r *reader) readRotors() {
	for i, b := range r.rotors {
		if i > 0 {
			r.faults.Add(b.span(), "a run has one rotor, and one stands on line %d: another one's head is a run of its own", r.rotors[0].span().Line)
			continue
		}
		rotor := &Rotor{Span: b.span()}
		r.run.Rotor = rotor
		r.readRotor(b, rotor)
		b.tellMissing()
	}
}

func (r *reader) readRotor(b *block, rotor *Rotor) {
	if e := b.need("turns", "turns = \""+anticlockwiseFromAbove+"\""); e != nil {
		turns, _ := r.choice(e, anticlockwiseFromAbove, clockwiseFromAbove, counterclockwiseFromAbove)
		rotor.Clockwise = turns == clockwiseFromAbove
	}
	_, knowsUp := r.run.Direction(Up)
	_, knowsForward := r.run.Direction(Forward)
	if !knowsUp || !knowsForward {
		r.faults.Add(b.span(), "a rotor is seen from above, and a blade over the tail: the run block must tell up and forward, as in up = [0, 1], forward = [-1, 0]")
	}
	e := b.need("hub", "hub = part")
	if e == nil {
		return
	}
	at := spanOf(e.Range())
	hub, ok := r.movingRef(e)
	switch {
	case !ok:
	case hub.Motion != Turns:
		if !r.bad[hub] {
			r.faults.Add(at, "%s doesn't turn on a pivot, and a hub turns about its mast: pivot = [x, y], axis = [0, 1, 0]", shortName(hub.Name))
		}
	case !r.isControl(hub):
		r.faults.Add(at, "no control turns %s: give it one, control \"azimuth\" with of = %s, from = -180 and to = 180", shortName(hub.Name), hub.Name)
	case knowsUp && !r.bad[hub] && math.Abs(hub.Axis.Dot(*r.run.Up)) < seenFromAbove:
		r.faults.Add(at, "%s turns about a mast that lies down, so that which way it turns isn't seen from above", shortName(hub.Name))
	default:
		rotor.Hub = hub
	}
}

// onceRound is a whole turn of a control, degrees.
const onceRound = 360

// goesRound reports whether a rotor or a control of the run turns all the way round, so
// that there is something for pitch to be taken around.
func (r *reader) goesRound() bool {
	if len(r.rotors) > 0 || r.run.Rotor != nil {
		return true
	}
	for _, c := range r.run.Controls {
		if c.Of == nil || r.bad[c] || c.Of.Motion == Turns && c.To-c.From >= onceRound {
			return true
		}
	}
	return false
}

// readPitchOutput reads of which output's pitch a requirement is.
func (r *reader) readPitchOutput(b *block, q *Requirement, e hclsyntax.Expression) {
	thing, ok := r.thing(e, "output", is[*Output])
	o, is := thing.(*Output)
	if !ok || !is {
		return
	}
	q.Of = []Subject{{Output: o}}
	if (o.Part != nil || o.Point != nil) && !o.Angular() {
		r.faults.Add(b.at("of"), "%s is a travel, and pitch is an angle: name an output that is of a whole part", shortName(o.Name))
	}
}

// readPitch reads what is required of a blade's pitch around the turn.
func (r *reader) readPitch(b *block, q *Requirement) {
	if e := b.need("of", "of = output"); e != nil {
		r.readPitchOutput(b, q, e)
	}
	if !r.goesRound() {
		r.faults.Add(q.Span, "%s has nothing to be about, since nothing of the run goes all the way round: write rotor { with hub and turns, and a control of the hub from -180 to 180", b)
	}
	if b.get("most") != nil {
		for _, name := range []string{"low", "high", "within"} {
			if b.get(name) != nil {
				r.faults.Add(b.at(name), "%s has either low and high, or the most that it may be: leave out %s or most", b, name)
			}
		}
		q.Most = b.atLeast("most", 0)
		return
	}
	least, example := -MaxSize, "low = -2"
	if q.Kind == CyclicPitch { // half the difference of opposite readings, whichever is the larger
		least, example = 0, "low = 7"
	}
	low, high := r.needLeast(b, "low", example, least), r.needLeast(b, "high", "high = 10", least)
	q.Low, q.High = orZero(low), orZero(high)
	if low != nil && high != nil && *low > *high {
		r.faults.Add(b.at("low"), "low is more than high")
	}
	q.Within = orZero(r.needLeast(b, "within", "within = 0.5", 0))
}
