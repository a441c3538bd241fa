// Layer: pose.

package solve

import "fullfree/solve/internal/num"

// movers are which unknowns of its step move the ends of a constraint: their places among
// the step's unknowns. general says that this isn't told, as of a cable, or of a rod
// that ends on another rod.
type movers struct {
	general  bool
	from, to []int
}

// addMovers finds them for each constraint of a step.
func (m *Mechanism) addMovers(s *step) {
	for _, k := range s.constraints {
		l := &m.constraints[k]
		w := movers{general: l.rod == nil && l.pin == nil}
		for e, end := range []end{l.from, l.to} {
			for b := end.body; b != airframe; b = m.bodies[b].carrier {
				w.general = w.general || m.bodies[b].kind == followsRod
				for j, f := range s.unknowns {
					switch {
					case m.freedoms[f].body != b:
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
		row[j] += m.speedAlong(st, u, from, s.unknowns[j])
	}
	for _, j := range w.to {
		row[j] -= m.speedAlong(st, u, to, s.unknowns[j])
	}
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
