// Layer: pose.

package solve

import (
	"math"

	"fullfree/solve/internal/num"
)

// motion is how a body moves for each unit of the swept control: the rate and
// its rate of the place that its frame's shift points at, and of its turning.
type motion struct {
	rate, rate2 vec // of frame.shift
	spin, spin2 vec // angular rate and its rate
}

// rates are the first and second derivatives of a pose by one control, and how
// far each rod stands from being on center.
type rates struct {
	d, dd  []float64 // by freedom
	moving []motion  // by body
	// sine is of the angle between a rod and what it drives (see RodAngle),
	// dsine its rate; by constraint.
	sine, dsine []float64
	// sign is the sign of a step's determinant: it changes where two
	// assemblies meet; by step.
	sign  []float64
	pulls []pullRates // by pair
	// valid is false where some step is singular, so that a rate is infinite;
	// then the rates from there on are not.
	valid bool
	// made counts how often they were found anew, and known are rates of measures that
	// several probes ask for, by their place in it.
	made  int
	known []ratesKnown
	lu    num.LU
	work  [4][]float64
	// By constraint and unknown of the step being differentiated: how the constraint's ends
	// part, the rate of that, and the rate of how its length changes.
	partials, dpartials []vec
	djacobian           []float64
}

func (m *Mechanism) newRates() *rates {
	r := &rates{
		d: make([]float64, len(m.freedoms)), dd: make([]float64, len(m.freedoms)),
		moving: make([]motion, len(m.bodies)),
		sine:   make([]float64, len(m.constraints)), dsine: make([]float64, len(m.constraints)),
		sign: make([]float64, len(m.steps)), pulls: make([]pullRates, len(m.pulls)),
	}
	most := m.mostAtOnce()
	for i := range r.work {
		r.work[i] = make([]float64, most)
	}
	return r
}

// differentiate finds the rates of a closed pose by a control's freedom.
func (m *Mechanism) differentiate(st *state, r *rates, input int) {
	clear(r.d)
	clear(r.dd)
	clear(r.moving)
	r.made++
	r.d[input] = 1
	r.valid = true
	for i := range m.steps {
		m.differentiateStep(st, r, i)
	}
	m.moveAll(st, r, m.remains)
}

func (m *Mechanism) differentiateStep(st *state, r *rates, i int) {
	s := &m.steps[i]
	switch {
	case s.kind == closePull:
		m.differentiatePull(st, r, i, nil)
	case s.kind == closeFourbar && m.flats[s.fourbar].is:
		m.differentiateFlat(st, r, i)
	case s.kind < closePull:
		m.differentiateOne(st, r, i)
	default:
		m.differentiateMany(st, r, i)
	}
}

// differentiateMany is that of a step of any number of unknowns.
func (m *Mechanism) differentiateMany(st *state, r *rates, i int) {
	s := &m.steps[i]
	n := len(s.unknowns)
	b, x := r.work[0][:n], r.work[1][:n]
	m.moveAll(st, r, s.before)
	m.moveAll(st, r, s.within)
	for k, l := range s.constraints {
		b[k] = -m.lengthRate(st, r, l)
	}
	if !m.factor(st, s, &r.lu) {
		r.valid = false
		for _, l := range s.constraints {
			r.sine[l], r.dsine[l] = 0, 0
		}
		return
	}
	r.sign[i] = r.lu.Sign()
	r.lu.Solve(x, b)
	for j, f := range s.unknowns {
		r.d[f] = x[j]
	}
	m.moveAll(st, r, s.within)
	for k, l := range s.constraints {
		b[k] = -m.lengthRate2(st, r, l)
	}
	r.lu.Solve(x, b)
	for j, f := range s.unknowns {
		r.dd[f] = x[j]
	}
	m.moveAll(st, r, s.within)
	m.sines(st, r, s)
}

// factor puts the factors of a step's matrix into f; false where the step is
// singular.
func (m *Mechanism) factor(st *state, s *step, f *num.LU) bool {
	m.jacobian(st, s, f)
	if len(s.unknowns) == 1 && math.Abs(f.Pivot(0)) <= criticalSine*m.armOf(st, s) {
		return false
	}
	return f.Factor()
}

// armOf returns how fast the end of the rod or cable moves for each unit of the
// only unknown of a step.
func (m *Mechanism) armOf(st *state, s *step) float64 {
	switch l := &m.constraints[s.constraints[0]]; {
	case l.cablePaths != nil:
		_, speed := m.pathPartial(st, &l.cablePaths[0], s.unknowns[0])
		return speed
	case l.keep != nil:
		return math.Abs(m.keepSlope(st, l.keep, s.unknowns[0]))
	}
	return m.partialOfConstraint(st, &m.constraints[s.constraints[0]], s.unknowns[0]).Norm()
}

// ends returns the vector from a constraint's to end to its from end, and its rate.
func (m *Mechanism) ends(st *state, r *rates, i int) (w, rate vec) {
	l := &m.constraints[i]
	from, to := st.place(l.from), st.place(l.to)
	w = from.Sub(to)
	return w, r.of(st, l.from.body, from).Sub(r.of(st, l.to.body, to))
}

// lengthRate is the rate of a constraint's length.
func (m *Mechanism) lengthRate(st *state, r *rates, i int) float64 {
	l := &m.constraints[i]
	switch {
	case l.cablePaths != nil:
		d, _ := m.pathRates(st, r, &l.cablePaths[0])
		return d
	case l.keep != nil:
		d, _ := m.keepRates(st, r, l.keep)
		return d
	}
	w, rate := m.ends(st, r, i)
	if l.pin != nil { // its ends are at one place, so that how the direction turns is nothing
		return st.pinWay(l.pin).Dot(rate)
	}
	return w.Unit().Dot(rate)
}

// lengthRate2 is the rate of the rate of a constraint's length, where its rate is 0.
func (m *Mechanism) lengthRate2(st *state, r *rates, i int) float64 {
	l := &m.constraints[i]
	switch {
	case l.cablePaths != nil:
		_, dd := m.pathRates(st, r, &l.cablePaths[0])
		return dd
	case l.keep != nil:
		_, dd := m.keepRates(st, r, l.keep)
		return dd
	}
	w, rate, rate2 := r.between(st, l.from, l.to)
	if l.pin != nil { // nor do its ends part along any other direction
		return st.pinWay(l.pin).Dot(rate2)
	}
	return (rate.Dot(rate) + w.Dot(rate2)) / w.Norm()
}

// of returns the rate of a place now at p, fixed to body b.
func (r *rates) of(st *state, b int, p vec) vec {
	k := &r.moving[b]
	if k.spin.X == 0 && k.spin.Y == 0 { // most turn in the drawing
		shift := &st.frames[b].shift
		return vec{X: k.rate.X - float64(k.spin.Z*(p.Y-shift.Y)), Y: k.rate.Y + float64(k.spin.Z*(p.X-shift.X)), Z: k.rate.Z}
	}
	return k.rate.Add(k.spin.Cross(p.Sub(st.frames[b].shift)))
}

// of2 returns the rate of that rate.
func (r *rates) of2(st *state, b int, p vec) vec {
	k := &r.moving[b]
	arm := p.Sub(st.frames[b].shift)
	if k.spin.X == 0 && k.spin.Y == 0 && k.spin2.X == 0 && k.spin2.Y == 0 {
		w, dw := k.spin.Z, k.spin2.Z
		return vec{
			X: k.rate2.X - float64(dw*arm.Y) - float64(w*float64(w*arm.X)),
			Y: k.rate2.Y + float64(dw*arm.X) - float64(w*float64(w*arm.Y)),
			Z: k.rate2.Z,
		}
	}
	return k.rate2.Add(k.spin2.Cross(arm)).Add(k.spin.Cross(k.spin.Cross(arm)))
}

func (m *Mechanism) moveAll(st *state, r *rates, bodies []int) {
	for _, b := range bodies {
		m.moveBody(st, r, b)
	}
}

// moveBody finds the motion of a body from the rates of its freedoms and the
// motion of what carries it.
func (m *Mechanism) moveBody(st *state, r *rates, index int) {
	b := &m.bodies[index]
	k := &r.moving[index]
	carrier := &r.moving[b.carrier]
	turned := &st.frames[b.carrier].turn
	switch b.kind {
	case turning:
		d, dd := r.d[b.first], r.dd[b.first]
		if b.inPlane {
			k.turnInPlane(st.frames[index].shift, b.pivot, d, dd)
			return
		}
		axis := turned.apply(b.axis)
		k.spin = carrier.spin.Add(axis.Scale(d))
		k.spin2 = carrier.spin2.Add(axis.Scale(dd)).Add(carrier.spin.Cross(axis).Scale(d))
		pivot := st.frames[b.carrier].apply(b.pivot)
		k.about(st.frames[index].shift, pivot, r.of(st, b.carrier, pivot), r.of2(st, b.carrier, pivot))
	case sliding:
		q, d, dd := st.q[b.first], r.d[b.first], r.dd[b.first]
		along := turned.apply(b.slide)
		k.spin, k.spin2 = carrier.spin, carrier.spin2
		swing := k.spin.Cross(along)
		k.rate = carrier.rate.Add(along.Scale(d)).Add(swing.Scale(q))
		k.rate2 = carrier.rate2.Add(along.Scale(dd)).Add(swing.Scale(2 * d)).
			Add(k.spin2.Cross(along).Add(k.spin.Cross(swing)).Scale(q))
	case shifting: // on the airframe
		k.rate, k.rate2 = shiftOf(r.d[b.first:]), shiftOf(r.dd[b.first:])
	case tilting:
		at := orientation(st.q[b.first:])
		spin := turned.apply(at.spin(quaternionRate(r.d[b.first:])))
		spin2 := turned.apply(at.spin(quaternionRate(r.dd[b.first:])))
		k.spin = carrier.spin.Add(spin)
		k.spin2 = carrier.spin2.Add(spin2).Add(carrier.spin.Cross(spin))
		pivot := st.frames[b.carrier].apply(b.pivot)
		k.about(st.frames[index].shift, pivot, r.of(st, b.carrier, pivot), r.of2(st, b.carrier, pivot))
	case floating:
		x := b.first
		k.spin, k.spin2 = zAxis.Scale(r.d[x+2]), zAxis.Scale(r.dd[x+2])
		k.about(st.frames[index].shift, st.frames[index].apply(b.pivot), vec{X: r.d[x], Y: r.d[x+1]}, vec{X: r.dd[x], Y: r.dd[x+1]})
	case followsRod:
		l := &m.constraints[b.constraint]
		from, to := st.place(l.from), st.place(l.to)
		fromRate, fromRate2 := r.of(st, l.from.body, from), r.of2(st, l.from.body, from)
		along := to.Sub(from)
		rate, rate2 := r.of(st, l.to.body, to).Sub(fromRate), r.of2(st, l.to.body, to).Sub(fromRate2)
		along.Z, rate.Z, rate2.Z = 0, 0, 0
		n2 := along.Dot(along)
		swing := along.Cross(rate).Z / n2
		k.spin = zAxis.Scale(swing)
		k.spin2 = zAxis.Scale((along.Cross(rate2).Z - float64(2*swing*along.Dot(rate))) / n2)
		k.about(st.frames[index].shift, from, fromRate, fromRate2)
	}
}

// turnInPlane sets the rates of a body that turns about z on the airframe.
func (k *motion) turnInPlane(shift, pivot vec, d, dd float64) {
	x, y, d2 := shift.X-pivot.X, shift.Y-pivot.Y, float64(d*d)
	k.spin, k.spin2 = vec{Z: d}, vec{Z: dd}
	k.rate = vec{X: -float64(d * y), Y: float64(d * x)}
	k.rate2 = vec{X: -float64(dd*y) - float64(d2*x), Y: float64(dd*x) - float64(d2*y)}
}

// about sets the rates of the place shift on a body whose spin is set and whose
// place pivot moves as given.
func (k *motion) about(shift, pivot, rate, rate2 vec) {
	arm := shift.Sub(pivot)
	k.rate = rate.Add(k.spin.Cross(arm))
	k.rate2 = rate2.Add(k.spin2.Cross(arm)).Add(k.spin.Cross(k.spin.Cross(arm)))
}

// sines finds for each rod of a step the sine of its angle to what it drives:
// with the rod taken away and all that is given held, its end moves with some
// velocity v; the sine is |u.v|/|v|. Scaled so that the rod's length would
// change at rate 1, v comes from one solution with the factored matrix, and
// the sine is 1/|v|.
func (m *Mechanism) sines(st *state, r *rates, s *step) {
	n := len(s.unknowns)
	unit, z, dz, right := r.work[0][:n], r.work[1][:n], r.work[2][:n], r.work[3][:n]
	r.reserve(n)
	for k, lk := range s.constraints {
		l := &m.constraints[lk]
		if l.rod == nil && l.pin == nil {
			for j, f := range s.unknowns {
				if l.keep != nil {
					r.djacobian[k*n+j] = m.keepSlopeRate(st, r, l.keep, f)
				} else {
					r.djacobian[k*n+j] = m.pathPartialRate(st, r, &l.cablePaths[0], f)
				}
			}
			continue
		}
		w, rate := m.ends(st, r, lk)
		u := w.Unit()
		du := perpendicular(rate, u).Scale(1 / w.Norm())
		if l.pin != nil {
			u = st.pinWay(l.pin)
			du, _ = r.turned(l.pin.frame, u)
		}
		m.ratesOfEnds(st, r, s, k)
		for j := range s.unknowns {
			r.djacobian[k*n+j] = du.Dot(r.partials[k*n+j]) + u.Dot(r.dpartials[k*n+j])
		}
	}
	for i, li := range s.constraints {
		if m.constraints[li].keep != nil {
			r.sine[li], r.dsine[li] = 1, 0 // it drives nothing, so it is never in line
			continue
		}
		clear(unit)
		unit[i] = 1
		r.lu.Solve(z, unit)
		// J z = unit, so J dz = -dJ z.
		for k := range right {
			right[k] = 0
			for j, v := range r.djacobian[k*n : (k+1)*n] {
				right[k] -= float64(v * z[j])
			}
		}
		r.lu.Solve(dz, right)
		if l := &m.constraints[li]; l.cablePaths != nil {
			size, dsize := m.pathSpeed(st, r, &l.cablePaths[0], s.unknowns, z, dz)
			r.sine[li], r.dsine[li] = min(1, 1/size), -dsize/(size*size)
			continue
		}
		if m.constraints[li].pin != nil {
			m.pinSine(st, r, s, li, z, dz)
			continue
		}
		var v, dv vec
		for j := range s.unknowns {
			e := r.partials[i*n+j]
			v = v.Add(e.Scale(z[j]))
			dv = dv.Add(r.dpartials[i*n+j].Scale(z[j])).Add(e.Scale(dz[j]))
		}
		size := v.Norm()
		r.sine[li] = min(1, 1/size)
		r.dsine[li] = -v.Dot(dv) / (size * size * size)
	}
}

// ratesOfEnds fills in how the ends of a step's constraint at k part for each unit of each
// unknown, and the rate of that.
func (m *Mechanism) ratesOfEnds(st *state, r *rates, s *step, k int) {
	n := len(s.unknowns)
	l, w := &m.constraints[s.constraints[k]], &s.movers[k]
	e, de := r.partials[k*n:(k+1)*n], r.dpartials[k*n:(k+1)*n]
	if w.general {
		for j, f := range s.unknowns {
			e[j], de[j] = m.partialRate(st, r, l, f)
		}
		return
	}
	clear(e)
	clear(de)
	add := func(at end, j int, sign float64) {
		v, dv := m.partialRateAt(st, r, at, s.unknowns[j])
		e[j], de[j] = e[j].Add(v.Scale(sign)), de[j].Add(dv.Scale(sign))
	}
	for _, side := range [...]struct {
		at   end
		by   []int
		sign float64
	}{{l.from, w.from, 1}, {l.to, w.to, -1}} {
		for _, j := range side.by {
			add(side.at, j, side.sign)
			if s.balls[j] {
				for i := 1; i < len(orientParts); i++ {
					add(side.at, j+i, side.sign)
				}
			}
		}
	}
}

// pinSine finds what stands for the sine of an equation of a joint, as the freedoms of its step
// go at the speeds z, whose rates are dz, and part its points at rate 1. Along its direction
// they part no faster than that, however the step stands; but where it nears a singular
// place both points go ever faster, and together. So it is one over how fast they both go,
// which is at most 1 and goes down to 0 there.
func (m *Mechanism) pinSine(st *state, r *rates, s *step, li int, z, dz []float64) {
	l := &m.constraints[li]
	sum, dsum := 0.0, 0.0
	for _, e := range [...]end{l.from, l.to} {
		var v, dv vec
		for j, f := range s.unknowns {
			p, dp := m.partialRateAt(st, r, e, f)
			v = v.Add(p.Scale(z[j]))
			dv = dv.Add(dp.Scale(z[j])).Add(p.Scale(dz[j]))
		}
		sum += float64(2 * v.Dot(v))
		dsum += float64(4 * v.Dot(dv))
	}
	size := math.Sqrt(sum)
	r.sine[li] = math.Min(1, 1/size)
	r.dsine[li] = -dsum / (2 * size * sum)
}

// reserve makes room for the partial rates of a step of n unknowns.
func (r *rates) reserve(n int) {
	if len(r.partials) < n*n {
		r.partials, r.dpartials, r.djacobian = make([]vec, n*n), make([]vec, n*n), make([]float64, n*n)
	}
}
