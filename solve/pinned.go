// Layer: verdict.

package solve

import (
	"math"

	"fullfree/linkage"
)

// PinnedRod is what a rod must measure with every rig pin in.
type PinnedRod struct {
	Rod *linkage.Rod
	// Pins are those that hold what the rod joins, in the file's order.
	Pins []*linkage.Pin
	// Length is hole to hole, the length at which the rod's bolts slide in by
	// finger; nil where something that it joins is held by no pin.
	Length *float64
	// Off is by how much the rod as set is longer than Length; 0 where that is nil.
	Off float64
	// Turn brings the rod nearest to Length; nil where that is nil, and where no end
	// changes the rod's length.
	Turn *TurnToLength
}

// SlidesIn reports whether the rod's bolts slide in as it is set.
func (r *PinnedRod) SlidesIn() bool { return math.Abs(r.Off) <= r.Within()+threadNoise }

// SlidesInThen reports whether they do once Turn is made.
func (r *PinnedRod) SlidesInThen() bool {
	return r.Turn != nil && math.Abs(r.Turn.Left) <= r.Within()+threadNoise
}

// measure tells how far the rod as set is off.
func (r *PinnedRod) measure() {
	if r.Length != nil {
		r.Off = r.Rod.Length - *r.Length
		r.Turn = NearestTurn(r.Rod, -r.Off)
	}
}

// As is what the rod must measure, and by how much it doesn't, as it is set in another
// run that was made from or into its own; the rod stays as it is where that has it not.
func (r *PinnedRod) As(run *linkage.Run) PinnedRod {
	as := *r
	if rod := run.Rod(r.Rod); rod != nil {
		as.Rod = rod
	}
	if as.Rod != nil {
		as.measure()
	}
	return as
}

// Within is how far the rod may be off that length: the least that its pins
// allow; 0 where there is none.
func (r *PinnedRod) Within() float64 {
	if len(r.Pins) == 0 {
		return 0
	}
	within := r.Pins[0].Within
	for _, p := range r.Pins[1:] {
		within = math.Min(within, p.Within)
	}
	return within
}

// Pinned returns what every rod measures, in the file's order, with all pins in
// at once: every pinned part at its pin, the airframe where it is. A part that
// another carries stands only where its carriers are pinned too; a rod's own
// point where both ends of that rod stand. How the rods are set matters to Off and
// Turn alone.
func (m *Mechanism) Pinned() []PinnedRod {
	if !m.compiled() {
		return nil
	}
	pins := make([][]*linkage.Pin, len(m.bodies))
	for _, p := range m.run.Pins {
		b := m.partBody[p.Of.Index]
		pins[b] = append(pins[b], p)
	}
	st := m.newState()
	stands := make([]bool, len(m.bodies))
	stands[airframe] = true
	for _, b := range m.placing {
		stands[b] = m.bodies[b].kind == followsRod || len(pins[b]) > 0 && m.bodies[b].kind.isOne()
		for _, d := range m.rests(b) {
			stands[b] = stands[b] && stands[d]
		}
		if stands[b] {
			if len(pins[b]) > 0 {
				m.pinAt(&st, b, pins[b][0].At)
			}
			m.placeBody(&st, b)
		}
	}
	var list []PinnedRod
	for _, r := range m.run.Rods {
		from, to := m.endAt(r.From), m.endAt(r.To)
		pinned := PinnedRod{Rod: r}
		holding := make(map[int]bool)
		for _, b := range m.under(from.body, to.body) {
			holding[b] = true
		}
		for _, p := range m.run.Pins {
			if holding[m.partBody[p.Of.Index]] {
				pinned.Pins = append(pinned.Pins, p)
			}
		}
		if stands[from.body] && stands[to.body] {
			length := st.place(from).Sub(st.place(to)).Norm()
			pinned.Length = &length
		}
		pinned.measure()
		list = append(list, pinned)
	}
	return list
}

// pinAt sets the freedom of a body whose carriers stand, so that its part
// stands at what a pin says.
func (m *Mechanism) pinAt(st *state, b int, at float64) {
	k := m.atMeasure(m.bodies[b].part) // its own freedom, then its carriers'
	own, carriers := k.terms[0].freedom, k.terms[1:]
	if m.freedoms[own].kind == turn {
		at = float64(at * degree)
	}
	for _, t := range carriers {
		at -= float64(t.sign * st.q[t.freedom])
	}
	m.setFreedom(st, own, at)
}
