// Layer: pose.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
)

// cable path is a cable as a length: what its core shows outside the conduit at both
// ends together, or what its quadrants take up of it. That grows where the cable
// is pulled.
type cablePath struct {
	cable     *linkage.Cable // nil of a joint
	legs      []leg          // of a conduit cable, two
	drums     []drum         // of an open one, two
	stiffness float64
	drawn     float64 // that length as drawn
	set       float64 // the same at which it is unloaded, as set
	free      float64 // the same on the way from drawn to set
}

// leg is one end of a conduit cable: where the core is held, and where the
// conduit is.
type leg struct{ core, mouth end }

// drum is one end of an open cable: the quadrant's turn, and how much it takes
// up for each radian of it.
type drum struct {
	body, freedom int
	takes         float64
}

// ends returns what a cable path is held by.
func (k *cablePath) ends() (bodies []int) {
	for _, g := range k.legs {
		bodies = append(bodies, g.core.body, g.mouth.body)
	}
	for _, d := range k.drums {
		bodies = append(bodies, d.body)
	}
	return bodies
}

// dependsOfCablePath returns the freedoms that a cable path's length depends on.
func (m *Mechanism) dependsOfCablePath(k *cablePath) (list []int) {
	for _, g := range k.legs {
		list = append(list, m.dependsOfEnds(g.core, g.mouth)...)
	}
	for _, d := range k.drums {
		list = append(list, d.freedom)
	}
	return list
}

// pathOf returns a cable path's length.
func (st *state) pathOf(k *cablePath) (sum float64) {
	for i := range k.legs {
		sum += st.place(k.legs[i].core).Sub(st.place(k.legs[i].mouth)).Norm()
	}
	for _, d := range k.drums {
		sum += float64(d.takes * st.q[d.freedom])
	}
	return sum
}

// pathPartial returns how a cable path's length changes for each unit of freedom f,
// and how fast its ends move then, all other freedoms held.
func (m *Mechanism) pathPartial(st *state, k *cablePath, f int) (slope, speed float64) {
	for i := range k.legs {
		g := &k.legs[i]
		e := m.partial(st, g.core, f).Sub(m.partial(st, g.mouth, f))
		slope += st.place(g.core).Sub(st.place(g.mouth)).Unit().Dot(e)
		speed += e.Norm()
	}
	for _, d := range k.drums {
		if d.freedom == f {
			slope += d.takes
			speed += math.Abs(d.takes)
		}
	}
	return slope, speed
}

// pathRates returns the rate of a cable path's length, and the rate of that rate.
func (m *Mechanism) pathRates(st *state, r *rates, k *cablePath) (d, dd float64) {
	for i := range k.legs {
		g := &k.legs[i]
		w, rate, rate2 := r.between(st, g.core, g.mouth)
		n := w.Norm()
		if n == 0 {
			continue
		}
		along := w.Dot(rate) / n
		d += along
		dd += (rate.Dot(rate) + w.Dot(rate2) - float64(along*along)) / n
	}
	for _, w := range k.drums {
		d += float64(w.takes * r.d[w.freedom])
		dd += float64(w.takes * r.dd[w.freedom])
	}
	return d, dd
}

// between returns the vector from place b to place a, its rate and the rate of
// that.
func (r *rates) between(st *state, a, b end) (w, rate, rate2 vec) {
	pa, pb := st.place(a), st.place(b)
	return pa.Sub(pb),
		r.of(st, a.body, pa).Sub(r.of(st, b.body, pb)),
		r.of2(st, a.body, pa).Sub(r.of2(st, b.body, pb))
}

// A constraint's length, and how it changes, where it may be a rod or a cable.

// lengthOf returns the length of a rod or of a cable that acts alone; of a joint how far its
// points are apart.
func (st *state) lengthOf(l *constraint) float64 {
	if l.cablePaths != nil {
		return st.pathOf(&l.cablePaths[0])
	}
	if l.pin != nil {
		return st.pinLength(l)
	}
	return st.place(l.from).Sub(st.place(l.to)).Norm()
}

// offBy is by how much a constraint isn't met: how much too long a rod or cable is,
// and of a pair how far out of balance it is, as a length.
func (m *Mechanism) offBy(st *state, l *constraint) float64 {
	if l.pair != nil {
		f, _ := m.balance(st, l)
		return f / m.pulls[l.pull].scale
	}
	if l.keep != nil {
		return m.keepOff(st, l.keep)
	}
	return st.lengthOf(l) - l.length
}

// slope is how that changes for each unit of an unknown of the constraint's step.
func (m *Mechanism) slope(st *state, l *constraint, f int) float64 {
	switch {
	case l.pair != nil:
		_, k := m.balance(st, l)
		return k / m.pulls[l.pull].scale
	case l.cablePaths != nil:
		v, _ := m.pathPartial(st, &l.cablePaths[0], f)
		return v
	case l.keep != nil:
		return m.keepSlope(st, l.keep, f)
	case l.pin != nil:
		return st.pinWay(l.pin).Dot(m.partialOfConstraint(st, l, f))
	}
	return st.place(l.from).Sub(st.place(l.to)).Unit().Dot(m.partialOfConstraint(st, l, f))
}

// drawnSlope is slope for any freedom, of a pair as if nothing were stretched:
// what tells which freedoms the constraints hold.
func (m *Mechanism) drawnSlope(st *state, l *constraint, f int) float64 {
	if l.pair == nil {
		return m.slope(st, l, f)
	}
	own := m.pulls[l.pull].freedom
	sum, size := 0.0, 0.0
	for i := range l.cablePaths {
		k := &l.cablePaths[i]
		v, _ := m.pathPartial(st, k, f)
		g, speed := 1.0, 1.0
		if own >= 0 {
			g, speed = m.pathPartial(st, k, own)
		} else if i > 0 {
			g = -1
		}
		sum += float64(k.stiffness * v * g)
		size += float64(k.stiffness * speed)
	}
	return sum / size
}

// drive is the rate of offBy with the constraint's own unknowns held.
func (m *Mechanism) drive(st *state, r *rates, i int) float64 {
	l := &m.constraints[i]
	if l.pair == nil {
		return m.lengthRate(st, r, i)
	}
	return m.balanceRate(st, r, l, nil) / m.pulls[l.pull].scale
}

// endsOf returns the bodies that a constraint joins.
func (m *Mechanism) endsOf(l *constraint) (bodies []int) {
	switch {
	case l.keep != nil:
		return []int{l.keep.body}
	case l.cablePaths == nil:
		return []int{l.from.body, l.to.body}
	}
	for i := range l.cablePaths {
		bodies = append(bodies, l.cablePaths[i].ends()...)
	}
	return bodies
}

// wound returns the turns that a constraint's open cables are wound by.
func (l *constraint) wound() (freedoms []int) {
	for i := range l.cablePaths {
		for _, d := range l.cablePaths[i].drums {
			freedoms = append(freedoms, d.freedom)
		}
	}
	return freedoms
}

// secondPath reports whether it is a rod that doesn't drive.
func (l *constraint) secondPath() bool { return l.rod != nil && l.rod.SecondPath }

// setOff is how far a constraint is set off its drawn length.
func (l *constraint) setOff() float64 {
	if l.pair == nil {
		return l.set - l.drawn
	}
	off := l.cablePaths[0].set - l.cablePaths[0].drawn
	if other := l.cablePaths[1].set - l.cablePaths[1].drawn; math.Abs(other) > math.Abs(off) {
		off = other
	}
	return off
}

// isDrawn reports whether a constraint is set just as it is drawn.
func (l *constraint) isDrawn() bool {
	if l.pair == nil {
		return l.set == l.drawn
	}
	return !slices.ContainsFunc(l.cablePaths, func(k cablePath) bool { return k.set != k.drawn })
}

// setTo sets a constraint to a share of the way from its drawn to its set length.
func (l *constraint) setTo(share float64) {
	l.length = l.set
	if share < 1 {
		l.length = l.drawn + float64(share*(l.set-l.drawn))
	}
	for i := range l.cablePaths {
		k := &l.cablePaths[i]
		k.free = k.set
		if share < 1 {
			k.free = k.drawn + float64(share*(k.set-k.drawn))
		}
	}
}

// pathPartialRate is the rate of pathPartial's slope by the swept control.
func (m *Mechanism) pathPartialRate(st *state, r *rates, k *cablePath, f int) (sum float64) {
	for i := range k.legs {
		g := &k.legs[i]
		w, rate, _ := r.between(st, g.core, g.mouth)
		n := w.Norm()
		if n == 0 {
			continue
		}
		u := w.Scale(1 / n)
		e, de := m.legPartial(st, r, g, f)
		sum += perpendicular(rate, u).Dot(e)/n + u.Dot(de)
	}
	return sum
}

// legPartial is how the core's end parts from the conduit's for each unit of
// freedom f, and the rate of that.
func (m *Mechanism) legPartial(st *state, r *rates, g *leg, f int) (e, de vec) {
	a, da := m.partialRateAt(st, r, g.core, f)
	b, db := m.partialRateAt(st, r, g.mouth, f)
	return a.Sub(b), da.Sub(db)
}

// pathSpeed is how fast a cable path's ends move, all taken together, as the freedoms
// go at the speeds z, whose rates are dz; and the rate of that.
func (m *Mechanism) pathSpeed(st *state, r *rates, k *cablePath, freedoms []int, z, dz []float64) (size, dsize float64) {
	for i := range k.legs {
		var v, dv vec
		for j, f := range freedoms {
			e, de := m.legPartial(st, r, &k.legs[i], f)
			v = v.Add(e.Scale(z[j]))
			dv = dv.Add(de.Scale(z[j])).Add(e.Scale(dz[j]))
		}
		if n := v.Norm(); n > 0 {
			size += n
			dsize += v.Dot(dv) / n
		}
	}
	for _, d := range k.drums {
		for j, f := range freedoms {
			if d.freedom == f {
				v, dv := float64(d.takes*z[j]), float64(d.takes*dz[j])
				size += math.Abs(v)
				dsize += float64(math.Copysign(1, v) * dv)
			}
		}
	}
	return size, dsize
}
