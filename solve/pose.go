package solve

import "math"

// state is one pose: a number for every freedom and a place for every body.
type state struct {
	q        []float64 // by freedom: radians or run units, from the drawn position
	cos, sin []float64 // of each body's turn
	frames   []frame   // by body
	reach    []float64 // by step: see Mechanism.reach; unused for Newton's
	newton   *newton
}

func (m *Mechanism) newState() state {
	st := state{
		q:      make([]float64, len(m.freedoms)),
		cos:    make([]float64, len(m.bodies)),
		sin:    make([]float64, len(m.bodies)),
		frames: make([]frame, len(m.bodies)),
		reach:  make([]float64, len(m.steps)),
		newton: newNewton(),
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
	copy(st.reach, from.reach)
}

func (st *state) place(e end) vec { return st.frames[e.body].apply(e.at) }

func (st *state) lengthOf(l *link) float64 { return st.place(l.from).Sub(st.place(l.to)).Norm() }

// setFreedom sets a freedom and, for a turn, its cosine and sine.
func (m *Mechanism) setFreedom(st *state, f int, q float64) {
	st.q[f] = q
	if m.freedoms[f].kind == turn {
		b := m.freedoms[f].body
		st.sin[b], st.cos[b] = math.Sincos(q)
	}
}

// placeBody puts a body where its freedoms and what carries it say.
func (m *Mechanism) placeBody(st *state, index int) {
	b := &m.bodies[index]
	f := &st.frames[index]
	carrier := &st.frames[b.carrier]
	switch b.kind {
	case turning:
		r := rotation(b.axis, st.cos[index], st.sin[index])
		pivot := b.pivot
		f.turn = r
		if b.carrier != airframe {
			f.turn = carrier.turn.mul(&r)
			pivot = carrier.apply(pivot)
		}
		f.shift = pivot.Sub(f.turn.apply(b.pivot))
	case sliding:
		*f = *carrier
		f.shift = f.shift.Add(carrier.turn.apply(b.slide).Scale(st.q[b.first]))
	case floating:
		f.turn = rotation(zAxis, st.cos[index], st.sin[index])
		pivot := b.pivot.Add(vec{X: st.q[b.first], Y: st.q[b.first+1]})
		f.shift = pivot.Sub(f.turn.apply(b.pivot))
	case followsRod:
		l := &m.links[b.link]
		from := st.place(l.from)
		drawn, now := l.to.at.Sub(l.from.at), st.place(l.to).Sub(from)
		drawn.Z, now.Z = 0, 0
		n := drawn.Norm() * now.Norm()
		if n > 0 {
			st.cos[index], st.sin[index] = drawn.Dot(now)/n, drawn.Cross(now).Z/n
		}
		f.turn = rotation(zAxis, st.cos[index], st.sin[index])
		f.shift = from.Sub(f.turn.apply(l.from.at))
	}
}

// closed says how closing a pose went: the first step that can't be closed, or
// -1.
type closed int

const allClosed closed = -1

// close closes every step of a pose whose controls are set, and places every
// body. What st.q holds for the unknowns is where Newton's method starts and
// which turn of a full circle an angle is told in. Where a step can't be
// closed the rest is left as it was.
func (m *Mechanism) close(st *state) closed {
	for i := range m.steps {
		if !m.closeStep(st, i) {
			return closed(i)
		}
	}
	m.placeAll(st, m.remains)
	return allClosed
}

func (m *Mechanism) placeAll(st *state, bodies []int) {
	for _, b := range bodies {
		m.placeBody(st, b)
	}
}

// closeStep closes one step and reports whether it could.
func (m *Mechanism) closeStep(st *state, i int) bool {
	s := &m.steps[i]
	if s.kind == closeBlock {
		m.placeAll(st, s.before)
		return m.closeBlock(st, s)
	}
	st.reach[i] = m.reach(st, s, m.settle(st, s))
	return st.reach[i] >= noReach
}

// settle closes a step by algebra and returns D; where the rod doesn't reach
// the arm points at it.
func (m *Mechanism) settle(st *state, s *step) (d float64) {
	m.placeAll(st, s.before)
	switch s.kind {
	case closeFourbar:
		f := &s.fourbar
		st.cos[f.own], st.sin[f.own], d = f.close(st.cos[f.driver], st.sin[f.driver])
	case closeCrank:
		d = m.closeCrank(st, &s.crank)
	case closeGuide:
		d = m.closeGuide(st, &s.guide)
	}
	if f := s.unknowns[0]; m.freedoms[f].kind == turn {
		b := m.freedoms[f].body
		st.q[f] = wrap(math.Atan2(st.sin[b], st.cos[b]), st.q[f])
	}
	if s.kind != closeFourbar {
		m.placeAll(st, s.within)
	}
	return d
}

// Pose closes the run for given control positions and returns no angles: what
// a caller with many poses of one run wants. It is the yardstick of the
// benchmarks; it allocates nothing.
type Pose struct {
	m  *Mechanism
	st state
}
