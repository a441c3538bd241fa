// Layer: pose.

package solve

import (
	"slices"

	"fullfree/linkage/elementary"
)

// state is one pose: a number for every freedom and a place for every body.
type state struct {
	q        []float64 // by freedom: radians or run units, from the drawn position
	cos, sin []float64 // of each body's turn
	frames   []frame   // by body
	hung     []hung    // by pair: see Mechanism.pulls
	newton   *newton
	laid     [2]laid // room in which two features are laid out
}

func (m *Mechanism) newState() state {
	st := state{
		q:      make([]float64, len(m.freedoms)),
		cos:    make([]float64, len(m.bodies)),
		sin:    make([]float64, len(m.bodies)),
		frames: make([]frame, len(m.bodies)),
		hung:   make([]hung, len(m.pulls)),
		newton: newNewton(m.mostAtOnce()),
	}
	for b := range st.frames {
		st.cos[b] = 1
		st.frames[b] = unmoved
	}
	return st
}

// take makes st equal to a pose that is complete.
func (st *state) take(from *state) {
	copy(st.q, from.q)
	copy(st.cos, from.cos)
	copy(st.sin, from.sin)
	copy(st.frames, from.frames)
	copy(st.hung, from.hung)
}

// copied is a pose by itself, to be read: no other can be solved from it.
func (st *state) copied() state {
	return state{q: slices.Clone(st.q), cos: slices.Clone(st.cos), sin: slices.Clone(st.sin), frames: slices.Clone(st.frames), hung: slices.Clone(st.hung)}
}

func (st *state) place(e end) vec { return st.frames[e.body].apply(e.at) }

// setFreedom sets a freedom and, for a turn, its cosine and sine.
func (m *Mechanism) setFreedom(st *state, f int, q float64) {
	st.q[f] = q
	if m.freedoms[f].kind == turn {
		b := m.freedoms[f].body
		st.sin[b], st.cos[b] = elementary.Sincos(q)
	}
}

// placeBody puts a body where its freedoms and what carries it say.
func (m *Mechanism) placeBody(st *state, index int) {
	b := &m.bodies[index]
	f := &st.frames[index]
	carrier := &st.frames[b.carrier]
	switch b.kind {
	case turning:
		if b.inPlane {
			f.turnInPlane(b.pivot, b.pivot, st.cos[index], st.sin[index])
			return
		}
		r := rotation(b.axis, st.cos[index], st.sin[index])
		pivot := b.pivot
		f.turn, f.flat = r, false
		if b.carrier != airframe {
			f.turn = carrier.turn.mul(&r)
			pivot = carrier.apply(pivot)
		}
		f.shift = pivot.Sub(f.turn.apply(b.pivot))
	case sliding:
		*f = *carrier
		f.shift = f.shift.Add(carrier.turn.apply(b.slide).Scale(st.q[b.first]))
	case tilting:
		f.turn, f.flat = orientation(st.q[b.first:]).matrix(), false
		pivot := b.pivot
		if b.carrier != airframe {
			f.turn = carrier.turn.mul(&f.turn)
			pivot = carrier.apply(pivot)
		}
		f.shift = pivot.Sub(f.turn.apply(b.pivot))
	case shifting:
		*f = *carrier
		f.shift = f.shift.Add(carrier.turn.apply(shiftOf(st.q[b.first:])))
	case floating:
		f.turnInPlane(b.pivot, b.pivot.Add(vec{X: st.q[b.first], Y: st.q[b.first+1]}), st.cos[index], st.sin[index])
	case followsRod:
		l := &m.constraints[b.constraint]
		from := st.place(l.from)
		drawn, now := l.to.at.Sub(l.from.at), st.place(l.to).Sub(from)
		drawn.Z, now.Z = 0, 0
		n := float64(drawn.Norm() * now.Norm())
		if n > 0 {
			st.cos[index], st.sin[index] = drawn.Dot(now)/n, drawn.Cross(now).Z/n
		}
		f.turn, f.flat = rotation(zAxis, st.cos[index], st.sin[index]), true
		f.shift = from.Sub(f.turn.apply(l.from.at))
	}
}

// shiftOf reads a vector off three freedoms, or their rates.
func shiftOf(q []float64) vec { return vec{X: q[0], Y: q[1], Z: q[2]} }

// closed says how closing a pose went: the first step that can't be closed, or
// -1.
type closed int

const allClosed closed = -1

// solve closes a pose whose controls are set, and places every body. What st.q
// holds for the unknowns is where Newton's method starts and which turn of a
// full circle an angle is told in. Where a step can't be closed the rest is
// left as it was.
func (m *Mechanism) solve(st *state) closed {
	if failed := m.close(st); failed != allClosed {
		return failed
	}
	m.unwind(st)
	m.placeAll(st, m.remains)
	return allClosed
}

// close closes every step. Turns closed by algebra are left as cosine and sine,
// and bodies that no later step needs are not placed.
func (m *Mechanism) close(st *state) closed {
	for i := 0; i < len(m.steps); {
		s := &m.steps[i]
		if s.kind == closeFourbar {
			if n := m.closeFourbars(st, m.fourbars[s.fourbar:s.fourbar+s.inRow]); n < s.inRow {
				return closed(i + n)
			}
			i += s.inRow
			continue
		}
		if !m.closeStep(st, i) {
			return closed(i)
		}
		i++
	}
	return allClosed
}

// closeFourbars closes fourbars one after another, and returns how many could
// be closed.
func (m *Mechanism) closeFourbars(st *state, chain []fourbar) int {
	cos, sin := st.cos, st.sin
	for i := range chain {
		f := &chain[i]
		c, s, d := f.close(cos[f.driver], sin[f.driver])
		cos[f.own], sin[f.own] = c, s
		if d < f.least {
			return i
		}
	}
	return len(chain)
}

func (m *Mechanism) placeAll(st *state, bodies []int) {
	for _, b := range bodies {
		m.placeBody(st, b)
	}
}

// closeStep closes one step and reports whether it could.
func (m *Mechanism) closeStep(st *state, i int) bool {
	s := &m.steps[i]
	if s.kind >= closePull {
		m.placeAll(st, s.before)
		m.unwindFor(st, s)
		switch s.kind {
		case closePull:
			return m.closePull(st, s)
		case closeJoint:
			m.closeJoint(st, s)
			return true
		}
		return m.closeBlock(st, s)
	}
	return m.reach(st, s, m.settle(st, s)) >= noReach
}

// settle closes a step by algebra and returns D; where the rod doesn't reach
// the arm points at it.
func (m *Mechanism) settle(st *state, s *step) (d float64) {
	if s.kind == closeFourbar {
		f := &m.fourbars[s.fourbar]
		st.cos[f.own], st.sin[f.own], d = f.close(st.cos[f.driver], st.sin[f.driver])
		return d
	}
	m.placeAll(st, s.before)
	if s.kind == closeCrank {
		d = m.closeCrank(st, s.crank)
	} else {
		d = m.closeGuide(st, s.guide)
	}
	m.placeAll(st, s.within)
	return d
}

// unwind turns the cosines and sines of the turns closed by algebra into
// angles, each in the turn of a full circle nearest to where it was.
func (m *Mechanism) unwind(st *state) {
	for i := range m.steps {
		if s := &m.steps[i]; s.kind < closePull {
			m.unwindStep(st, s)
		}
	}
}

// unwindStep does so for one step closed by algebra.
func (m *Mechanism) unwindStep(st *state, s *step) {
	if f := s.unknowns[0]; m.freedoms[f].kind == turn {
		b := m.freedoms[f].body
		st.q[f] = wrap(elementary.Atan2(st.sin[b], st.cos[b]), st.q[f])
	}
}
