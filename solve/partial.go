// Layer: pose.

package solve

// partialOfConstraint returns how the vector from a constraint's to end to its from end
// changes for each unit of freedom f, all other freedoms held.
func (m *Mechanism) partialOfConstraint(st *state, l *constraint, f int) vec {
	return m.partial(st, l.from, f).Sub(m.partial(st, l.to, f))
}

// partial returns how fast an end moves for each unit of freedom f.
func (m *Mechanism) partial(st *state, e end, f int) vec {
	owner := m.freedoms[f].body
	for b := e.body; b != airframe; b = m.bodies[b].carrier {
		if m.bodies[b].kind == followsRod {
			return m.partialOfRod(st, b, st.place(e), f)
		}
		if b == owner {
			return m.partialOfOwner(st, st.place(e), f)
		}
	}
	return vec{}
}

// partialOfOwner is partial for a place now at p that the freedom's body
// carries.
func (m *Mechanism) partialOfOwner(st *state, p vec, f int) vec {
	b := m.freedoms[f].body
	body := &m.bodies[b]
	switch m.freedoms[f].kind {
	case slide:
		return st.frames[body.carrier].turn.apply(body.slide)
	case shiftX:
		return vec{X: 1}
	case shiftY:
		return vec{Y: 1}
	case shiftZ:
		return vec{Z: 1}
	default:
		return m.spinOfOwner(st, f).Cross(p.Sub(st.frames[b].apply(body.pivot)))
	}
}

// partialOfRod is partial for a place now at p on a rod: it goes with the
// rod's from end and turns with the rod.
func (m *Mechanism) partialOfRod(st *state, b int, p vec, f int) vec {
	l := &m.constraints[m.bodies[b].constraint]
	from := st.place(l.from)
	along := st.place(l.to).Sub(from)
	along.Z = 0
	moveFrom := m.partial(st, l.from, f)
	move := m.partial(st, l.to, f).Sub(moveFrom)
	swing := along.Cross(move).Z / along.Dot(along)
	return moveFrom.Add(zAxis.Scale(swing).Cross(p.Sub(from)))
}

// partialRate is partialOfConstraint and its rate by the swept control.
func (m *Mechanism) partialRate(st *state, r *rates, l *constraint, f int) (e, de vec) {
	a, da := m.partialRateAt(st, r, l.from, f)
	b, db := m.partialRateAt(st, r, l.to, f)
	return a.Sub(b), da.Sub(db)
}

// partialRateAt is partial and its rate.
func (m *Mechanism) partialRateAt(st *state, r *rates, e end, f int) (v, dv vec) {
	owner := m.freedoms[f].body
	for b := e.body; b != airframe; b = m.bodies[b].carrier {
		if m.bodies[b].kind == followsRod {
			return m.partialRateOfRod(st, r, b, e, f)
		}
		if b != owner {
			continue
		}
		p := st.place(e)
		v = m.partialOfOwner(st, p, f)
		return v, m.partialRateOfOwner(st, r, f, p, v, r.of(st, e.body, p))
	}
	return vec{}, vec{}
}

// partialRateOfRod is partialOfRod and its rate.
func (m *Mechanism) partialRateOfRod(st *state, r *rates, b int, e end, f int) (v, dv vec) {
	l := &m.constraints[m.bodies[b].constraint]
	from, to, p := st.place(l.from), st.place(l.to), st.place(e)
	fromRate := r.of(st, l.from.body, from)
	along, dalong := to.Sub(from), r.of(st, l.to.body, to).Sub(fromRate)
	along.Z, dalong.Z = 0, 0
	a, da := m.partialRateAt(st, r, l.from, f)
	c, dc := m.partialRateAt(st, r, l.to, f)
	move, dmove := c.Sub(a), dc.Sub(da)
	n2 := along.Dot(along)
	swing := along.Cross(move).Z / n2
	dswing := (dalong.Cross(move).Z + along.Cross(dmove).Z - float64(2*swing*along.Dot(dalong))) / n2
	arm := p.Sub(from)
	darm := r.of(st, e.body, p).Sub(fromRate)
	v = a.Add(zAxis.Scale(swing).Cross(arm))
	dv = da.Add(zAxis.Scale(dswing).Cross(arm)).Add(zAxis.Scale(swing).Cross(darm))
	return v, dv
}
