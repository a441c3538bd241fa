// Layer: gradient.

package solve

import (
	"math"

	"fullfree/linkage"
)

// seed pushes c times what a quantity has by freedoms and slots, each of them by
// itself, into a linearized run.
type seed func(l *linear, c float64)

// plus is a sum of two quantities, the second times k.
func (a seed) plus(b seed, k float64) seed {
	return func(l *linear, c float64) {
		a(l, c)
		b(l, float64(c*k))
	}
}

// times is a quantity times k.
func (a seed) times(k float64) seed {
	return func(l *linear, c float64) { a(l, float64(c*k)) }
}

// seed is that of a measure; at is the point whose travel it tells, nil for none.
func (k *measure) seed(at *linkage.PointRef) seed {
	return func(l *linear, c float64) {
		switch {
		case k.tilt != nil:
			k.tilt.push(l, c)
		case k.twist != nil:
			k.twist.push(l, c)
		case k.terms == nil:
			slot := l.slots.of(*at)
			l.push(k.point, slot, k.along.Scale(c))
			l.pushDrawn(slot, k.along.Scale(-c))
		}
		for _, t := range k.terms {
			per := float64(c * t.sign)
			if l.m.freedoms[t.freedom].kind == turn {
				per /= degree
			}
			l.pushFree(t.freedom, per)
		}
	}
}

// push adds c times what a lean has by freedoms. It has nothing by places of the drawing: they
// turn nothing.
func (t *tilt) push(l *linear, c float64) {
	u := l.st.frames[t.body].turn.apply(t.of)
	per := float64(c*t.times/degree) / cosineOf(u.Dot(t.towards))
	l.pushMoment(t.body, u.Cross(t.towards).Scale(per))
}

// push adds c times what a turn has by freedoms.
func (t *twist) push(l *linear, c float64) {
	byW, byV := t.slopes(orientation(l.st.q[t.first:]))
	l.pushFree(t.first, float64(c*byW))
	l.pushFree(t.first+1, float64(c*byV*t.about.X))
	l.pushFree(t.first+2, float64(c*byV*t.about.Y))
	l.pushFree(t.first+3, float64(c*byV*t.about.Z))
}

func (m *Mechanism) seedOfSubject(s linkage.Subject) seed {
	k := m.subjectMeasure(s)
	if s.Output != nil {
		return k.seed(s.Output.Point)
	}
	return k.seed(nil)
}

// seedOfStop is that of how far a stop is off.
func (m *Mechanism) seedOfStop(stop *linkage.Stop) seed {
	if stop.Of == nil {
		return m.seedOfGap(stop.Touch)
	}
	k := m.stopMeasure(stop)
	of := k.seed(nil)
	side := m.stopSide[stop.Index]
	return func(l *linear, c float64) {
		of(l, float64(-side*c))
		l.pushSlot(l.slots.stops+stop.Index, float64(side*c))
	}
}

// seedOfGap is that of how far two features are apart.
func (m *Mechanism) seedOfGap(refs [2]linkage.FeatureRef) seed {
	contact, _ := m.newContact(refs)
	return func(l *linear, c float64) {
		if contact.apart {
			return
		}
		n := m.near(&l.st, &contact)
		u := m.parting(&l.st, &contact, n)
		if contact.flat { // it is laid into a plane of what carries both, which may turn
			frame := &l.st.frames[contact.within]
			u = frame.turn.apply(u)
			apart := l.st.along(&contact.a, n.iA, n.tA).Sub(l.st.along(&contact.b, n.iB, n.tB))
			l.pushMoment(contact.within, apart.Cross(u).Scale(-c))
		}
		l.pushMetal(refs[0], &contact.a, n.iA, n.tA, u.Scale(c))
		l.pushMetal(refs[1], &contact.b, n.iB, n.tB, u.Scale(-c))
		l.pushRadius(refs[0], c)
		l.pushRadius(refs[1], c)
	}
}

// along is the place at share t of a stretch of metal.
func (st *state) along(k *metal, i int, t float64) vec {
	p := st.place(k.points[i])
	if i+1 < len(k.points) {
		p = between(p, st.place(k.points[i+1]), t)
	}
	return p
}

// pushMetal pulls at share t of a stretch of a feature.
func (l *linear) pushMetal(r linkage.FeatureRef, k *metal, i int, t float64, f vec) {
	slot := func(i int) int {
		switch {
		case r.Rod == nil:
			return l.slots.metal[r.Part.Index][r.Feature] + 3*i
		case i == 0:
			return l.slots.of(r.Rod.From)
		}
		return l.slots.of(r.Rod.To)
	}
	if i+1 >= len(k.points) {
		l.push(k.points[i], slot(i), f)
		return
	}
	l.push(k.points[i], slot(i), f.Scale(1-t))
	l.push(k.points[i+1], slot(i+1), f.Scale(t))
}

// pushRadius takes a feature's radius off a gap.
func (l *linear) pushRadius(r linkage.FeatureRef, c float64) {
	if r.Rod != nil {
		l.pushSlot(l.slots.diameters+r.Rod.Index, -c/2)
		return
	}
	f := &r.Part.Features[r.Feature]
	l.pushSlot(l.slots.metal[r.Part.Index][r.Feature]+3*len(f.Through), -c)
}

// seedOfTilt is that of the sine by which a rod stands out of square to the bolt at
// one of its ends.
func (m *Mechanism) seedOfTilt(rod *linkage.Rod, atTo bool) seed {
	k := &m.constraints[rod.Index]
	e, ref := k.from, rod.From
	if atTo {
		e, ref = k.to, rod.To
	}
	bolt := m.boltOf(ref)
	return func(l *linear, c float64) {
		w := l.st.place(k.from).Sub(l.st.place(k.to))
		n := w.Norm()
		u := w.Scale(1 / n)
		b := l.st.frames[e.body].turn.apply(bolt)
		across := perpendicular(b, u).Scale(c / n)
		l.push(k.from, l.slots.of(rod.From), across)
		l.push(k.to, l.slots.of(rod.To), across.Scale(-1))
		l.pushMoment(e.body, b.Cross(u).Scale(c))
	}
}

// seedOfTension is that of the tension of a cable of a pair.
func (m *Mechanism) seedOfTension(cable *linkage.Cable) seed {
	return func(l *linear, c float64) {
		for i := range m.pulls {
			for j := range m.constraints[m.pulls[i].constraint].cablePaths {
				k := &m.constraints[m.pulls[i].constraint].cablePaths[j]
				if h := &l.st.hung[i]; k.cable == cable && !h.slack && h.tension[j] >= 0 {
					l.pushTension(k, c)
				}
			}
		}
	}
}

// seedOfFree is that of how far what a pair holds floats.
func (m *Mechanism) seedOfFree(pair *linkage.Pair) seed {
	return func(l *linear, c float64) {
		pull := &m.pulls[pair.Index]
		h := &l.st.hung[pair.Index]
		if !h.slack {
			return
		}
		if m.freedoms[pull.freedom].kind == turn {
			c /= degree
		}
		c = math.Copysign(c, h.taut[1]-h.taut[0])
		l.pushTaut(&m.constraints[pull.constraint], 1, c)
		l.pushTaut(&m.constraints[pull.constraint], 0, -c)
	}
}

// sineMove is how far a step's own motion is followed to either side for the
// derivatives of a rod's angle, radians or shares of the run's size. What is
// left out goes with its fourth power, below 1e-10; rounding goes with its inverse.
const sineMove = 2e-3

// seedOfSine is that of the sine of a rod's angle to what it drives.
//
// With V the velocity of the rod's end relative to its other as its length goes at
// rate 1, all other rods of the step held, the sine is 1/|V|. The velocities of the
// step's freedoms are z, J z = e, so with w' = V'/|V| and J' y = E' w, E the ends'
// velocities by freedoms,
//
//	d sine = -sine sine (w'dE z - y'dJ z),
//
// in which dE z and dJ z are how the ends, and the lengths of all rods of the step,
// go by the drawing, differentiated along the motion z: by differences of what is
// pushed at poses a little along it, the pulls being kept.
func (m *Mechanism) seedOfSine(constraint int) seed {
	step := m.stepOf(constraint)
	return func(l *linear, c float64) {
		s := &m.steps[step]
		n := len(s.unknowns)
		i := 0
		for k := range s.constraints {
			if s.constraints[k] == constraint {
				i = k
			}
		}
		z, y, b := make([]float64, n), make([]float64, n), make([]float64, n)
		b[i] = 1
		l.solve(step, z, b)
		var v vec
		size := 0.0
		for j, f := range s.unknowns {
			v = v.Add(m.partialOfConstraint(&l.st, &m.constraints[constraint], f).Scale(z[j]))
			size = math.Max(size, math.Abs(z[j])/m.sizeOf(f))
		}
		sine := 1 / v.Norm()
		w := v.Scale(sine)
		for j, f := range s.unknowns {
			b[j] = w.Dot(m.partialOfConstraint(&l.st, &m.constraints[constraint], f))
		}
		l.solveTransposed(step, y, b)
		c = -float64(c * sine * sine)
		rod := m.constraints[constraint].rod // of a joint or what a part keeps nobody asks
		l.alongMotion(s, z, sineMove/size, func(share float64) {
			l.push(m.constraints[constraint].from, l.slots.of(rod.From), w.Scale(float64(c*share)))
			l.push(m.constraints[constraint].to, l.slots.of(rod.To), w.Scale(float64(-c*share)))
			for k, other := range s.constraints {
				l.pushLength(other, float64(-c*share*y[k]))
			}
		})
	}
}

// solve and solveTransposed solve a step's matrix.
func (l *linear) solve(step int, x, b []float64) {
	if len(b) == 1 {
		x[0] = b[0] / l.pivots[step]
		return
	}
	l.factors[step].Solve(x, b)
}

func (l *linear) solveTransposed(step int, x, b []float64) {
	if len(b) == 1 {
		x[0] = b[0] / l.pivots[step]
		return
	}
	l.factors[step].SolveTransposed(x, b)
}

// alongMotion differentiates what is pushed along a motion z of a step's freedoms,
// by differences of the fourth order over poses that lie h apart on it. push is
// to push with the share that is given.
func (l *linear) alongMotion(s *step, z []float64, h float64, push func(share float64)) {
	m := l.m
	stands := make([]float64, len(z))
	for j, f := range s.unknowns {
		stands[j] = l.st.q[f]
	}
	to := func(away float64) {
		for j, f := range s.unknowns {
			m.setFreedom(&l.st, f, stands[j]+float64(away*z[j]))
		}
		m.placeAll(&l.st, s.within)
	}
	for k, share := range []float64{1.0 / 12, -8.0 / 12, 8.0 / 12, -1.0 / 12} {
		to(float64(h * []float64{-2, -1, 1, 2}[k]))
		push(share / h)
	}
	to(0)
}
