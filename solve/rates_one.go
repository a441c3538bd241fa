// Layer: pose.

package solve

import "math"

// differentiateOne is differentiateMany of a step that algebra closes: one rod and one
// unknown, which moves one end of it. What the general way asks for again and again is found
// once here, and there is no matrix.
func (m *Mechanism) differentiateOne(st *state, r *rates, i int) {
	s := &m.steps[i]
	f, l := s.unknowns[0], s.constraints[0]
	near, far := s.ends()
	m.moveAll(st, r, s.before)
	m.moveAll(st, r, s.within)
	at, other := st.place(near), st.place(far)
	farRate := r.of(st, far.body, other)
	w := at.Sub(other)
	long := w.Norm()
	u := w.Unit()
	by := m.partialOfOwner(st, at, f) // how the end goes for each unit of the unknown
	arm, per := by.Norm(), u.Dot(by)
	if !(math.Abs(per) > criticalSine*arm) || math.IsInf(per, 0) {
		r.valid = false
		r.sine[l], r.dsine[l] = 0, 0
		return
	}
	r.sign[i] = math.Copysign(1, per)
	r.d[f] = -u.Dot(r.of(st, near.body, at).Sub(farRate)) / per
	m.moveAll(st, r, s.within)
	nearRate := r.of(st, near.body, at)
	rate := nearRate.Sub(farRate)
	rate2 := r.of2(st, near.body, at).Sub(r.of2(st, far.body, other))
	r.dd[f] = -(rate.Dot(rate) + w.Dot(rate2)) / long / per
	m.moveAll(st, r, s.within)
	// As in sines, with a matrix of one number.
	du := perpendicular(rate, u).Scale(1 / long)
	dby := m.partialRateOfOwner(st, r, f, at, by, nearRate)
	z := 1 / per
	dz := -float64((du.Dot(by) + u.Dot(dby)) * z * z)
	v, dv := by.Scale(z), dby.Scale(z).Add(by.Scale(dz))
	size := v.Norm()
	r.sine[l] = min(1, 1/size)
	r.dsine[l] = -v.Dot(dv) / (size * size * size)
}

// ends are the rod's end that the unknown of a step closed by algebra moves, and its other
// one.
func (s *step) ends() (near, far end) {
	if s.kind == closeGuide {
		return s.guide.near, s.guide.far
	}
	return s.crank.near, s.crank.far
}

// partialRateOfOwner is the rate of partialOfOwner, which is by, for a place now at p that
// moves at rate.
func (m *Mechanism) partialRateOfOwner(st *state, r *rates, f int, p, by, rate vec) vec {
	b := m.freedoms[f].body
	body := &m.bodies[b]
	switch m.freedoms[f].kind {
	case slide:
		return r.moving[body.carrier].spin.Cross(by)
	case shiftX, shiftY, shiftZ:
		return vec{}
	}
	pivot := st.frames[b].apply(body.pivot)
	arm := rate.Sub(r.of(st, b, pivot))
	return m.spinOfOwnerRate(st, r, f).Cross(p.Sub(pivot)).Add(m.spinOfOwner(st, f).Cross(arm))
}
