// Layer: pose.

package solve

import (
	"math"

	"fullfree/solve/internal/num"
)

// movers are which unknowns of its step move the ends of a constraint: their places among
// the step's unknowns. general says that this isn't told, as of a cable, or of a rod
// that ends on another rod. Of a ball of which all four numbers are unknowns, the first
// stands for them all.
type movers struct {
	general  bool
	from, to []int
}

// addMovers finds them for each constraint of a step.
func (m *Mechanism) addMovers(s *step) {
	s.balls = make([]bool, len(s.unknowns))
	for j := range s.unknowns {
		s.balls[j] = m.wholeBall(s, j)
	}
	for _, k := range s.constraints {
		l := &m.constraints[k]
		w := movers{general: l.rod == nil && l.pin == nil}
		for e, end := range []end{l.from, l.to} {
			for b := end.body; b != airframe; b = m.bodies[b].carrier {
				w.general = w.general || m.bodies[b].kind == followsRod
				for j, f := range s.unknowns {
					i, orients := m.freedoms[f].kind.orients()
					switch {
					case m.freedoms[f].body != b || orients && i > 0 && m.wholeBall(s, j-i):
					case e == 0:
						w.from = append(w.from, j)
					default:
						w.to = append(w.to, j)
					}
				}
			}
		}
		s.movers = append(s.movers, w)
	}
}

// jacobian fills in how each constraint of a step changes for each unit of each
// unknown.
func (m *Mechanism) jacobian(st *state, s *step, a *num.LU) {
	a.Reset(len(s.unknowns))
	for i, k := range s.constraints {
		switch l := &m.constraints[k]; {
		case l.rod != nil:
			r := rodEnds{from: st.place(l.from), to: st.place(l.to)}
			r.long = r.from.Sub(r.to).Norm()
			m.endSlopes(st, s, a, i, r.from, r.to, r.way())
		case l.pin != nil:
			m.endSlopes(st, s, a, i, st.place(l.from), st.place(l.to), st.pinWay(l.pin))
		default:
			m.slopes(st, s, a, i)
		}
	}
}

// slopes fills in the row of a cable or pair, or of what a part keeps.
func (m *Mechanism) slopes(st *state, s *step, a *num.LU, i int) {
	if k := m.constraints[s.constraints[i]].keep; k != nil && k.kind == keepsLength {
		q := orientation(st.q[k.freedom:])
		per := m.size / math.Sqrt(q.dot(q))
		for j, f := range s.unknowns {
			if n := f - k.freedom; n >= 0 && n < len(orientParts) {
				a.Set(i, j, float64(per*q.part(n)))
			}
		}
		return
	}
	for j, f := range s.unknowns {
		a.Set(i, j, m.slope(st, &m.constraints[s.constraints[i]], f))
	}
}

// endSlopes fills in the row of a rod, or of one equation of a joint: u is the direction
// along which its ends, now at from and to, are kept apart. The row is zeros before.
func (m *Mechanism) endSlopes(st *state, s *step, a *num.LU, i int, from, to, u vec) {
	w, row := &s.movers[i], a.Row(i)
	if w.general {
		for j, f := range s.unknowns {
			row[j] = u.Dot(m.partialOfConstraint(st, &m.constraints[s.constraints[i]], f))
		}
		return
	}
	for _, j := range w.from {
		if s.balls[j] {
			m.ballSlopes(st, row[j:], u, from, s.unknowns[j])
			continue
		}
		row[j] += m.speedAlong(st, u, from, s.unknowns[j])
	}
	for _, j := range w.to {
		if s.balls[j] {
			m.ballSlopes(st, row[j:], u.Scale(-1), to, s.unknowns[j])
			continue
		}
		row[j] -= m.speedAlong(st, u, to, s.unknowns[j])
	}
}

// wholeBall reports whether the unknowns of a step from j on are the four numbers of a
// quaternion.
func (m *Mechanism) wholeBall(s *step, j int) bool {
	return j >= 0 && j+len(orientParts) <= len(s.unknowns) && m.freedoms[s.unknowns[j]].kind == orientW &&
		s.unknowns[j+len(orientParts)-1] == s.unknowns[j]+len(orientParts)-1
}

// ballSlopes adds how fast a place now at p moves along u for each unit of the four numbers of a
// ball that carries it, the first of which is f.
func (m *Mechanism) ballSlopes(st *state, row []float64, u, p vec, f int) {
	k := m.freedoms[f].body
	b := &m.bodies[k]
	carrier := &st.frames[b.carrier]
	pivot := b.pivot
	if b.carrier != airframe {
		pivot = carrier.apply(pivot)
	}
	moment := p.Sub(pivot).Cross(u)
	if b.carrier != airframe {
		moment = carrier.turn.unapply(moment)
	}
	q := orientation(st.q[f:])
	moment = moment.Scale(2 / q.dot(q))
	by := moment.Scale(q.w).Add(moment.Cross(q.v))
	row[0] -= q.v.Dot(moment)
	row[1] += by.X
	row[2] += by.Y
	row[3] += by.Z
}

// speedAlong is how fast a place now at p moves along u for each unit of a freedom
// that moves it, of a body that carries it.
func (m *Mechanism) speedAlong(st *state, u, p vec, f int) float64 {
	k := &m.freedoms[f]
	b := &m.bodies[k.body]
	if b.carrier != airframe {
		return u.Dot(m.partialOfOwner(st, p, f))
	}
	switch k.kind {
	case turn:
		return u.Dot(b.axis.Cross(p.Sub(st.frames[k.body].apply(b.pivot))))
	case slide:
		return u.Dot(b.slide)
	case shiftX:
		return u.X
	case shiftY:
		return u.Y
	case shiftZ:
		return u.Z
	default:
		return orientation(st.q[b.first:]).spin(orientParts[k.kind-orientW]).Dot(p.Sub(b.pivot).Cross(u))
	}
}
