// Layer: pose.

package solve

import "math"

// A hinge held by one rod closes in algebra. With r from the hinge to the end
// of the rod on its part, w from the hinge to the rod's other end, both square
// to the axis k, and e the difference of their heights along k, the rod's
// length asks
//
//	A cos t + B sin t = C,  A = r.w,  B = (k x r).w,  C = (r.r + w.w + e e - L L)/2,
//
// so with h = A A + B B = (r.r)(w.w), D = h - C C and q = sqrt(D)
//
//	cos t = (A C + s B q)/h,  sin t = (B C - s A q)/h
//
// where s = +1 or -1 is the assembly. D is 0 at a toggle and q = L |r| times
// the sine of the angle between rod and arm, so D/(L L r.r) is that sine squared,
// continued smoothly (below 0) to where the rod doesn't reach.

// noReach is how far below 0 the squared sine of a rod's angle may come out and
// still be taken as 0: the square of the sine below which a change point is
// told (1e-6). It lets a flat parallelogram pass the place where rounding makes
// the rod a few parts in 1e16 too short.
const noReach = -1e-12

// fourbar is a hinge and a rod whose ends move in parallel planes, driven by a
// hinge with a parallel axis on the airframe, or by the airframe: the plane
// fast path. Everything is in lengths of the own arm, along that arm as drawn
// and square to it, which makes A and B the two coordinates of w, and h = w.w.
type fourbar struct {
	driver, own int     // bodies
	dx, dy      float64 // from the own pivot to the driver's
	rx, ry      float64 // the driver's arm, as drawn
	kx, ky      float64 // the same turned a quarter about the driver's axis
	c2          float64 // 1 + e e - L L
	sign        float64 // the assembly
	scale       float64 // L L: D over this is the squared sine of the rod's angle
	least       float64 // noReach of that
}

// crank is a hinge and a rod in general position.
type crank struct {
	own       int // the body that turns
	near, far end // the rod's end that turns with it; its other end
	arm       vec // near, from the pivot, as drawn, where near is on the body itself
	rigid     bool
	length    float64
	sign      float64
}

// guide is a slide and a rod.
type guide struct {
	own       int
	near, far end
	length    float64
	sign      float64
}

func (m *Mechanism) newCrank(own int, near, far end) crank {
	b := &m.bodies[own]
	c := crank{own: own, near: near, far: far, rigid: near.body == own, arm: near.at.Sub(b.pivot)}
	// The assembly as drawn: sin t = 0 asks B C - s A q = 0, so B = s q.
	c.sign = math.Copysign(1, b.axis.Cross(c.arm).Dot(far.at.Sub(b.pivot)))
	return c
}

func (m *Mechanism) newGuide(own int, near, far end) guide {
	b := &m.bodies[own]
	return guide{own: own, near: near, far: far, sign: math.Copysign(1, b.slide.Dot(near.at.Sub(far.at)))}
}

// inParallelPlanes reports whether the plane fast path closes the hinge.
func (m *Mechanism) inParallelPlanes(own int, near, far end) bool {
	b, d := &m.bodies[own], &m.bodies[far.body]
	return near.body == own && b.carrier == airframe &&
		(far.body == airframe || d.kind == turning && d.carrier == airframe && inLine(b.axis, d.axis))
}

// parallelSine is the sine of the angle below which two directions of length 1
// are parallel: the rounding of directions typed in and brought to length 1.
const parallelSine = 1e-12

func inLine(a, b vec) bool { return a.Cross(b).Norm() <= parallelSine }

func (m *Mechanism) newFourbar(own int, far end, c *crank) fourbar {
	b, d := &m.bodies[own], &m.bodies[far.body]
	arm := perpendicular(c.arm, b.axis)
	x := arm.Scale(1 / arm.Dot(arm)) // its product with a length is in arms
	y := b.axis.Cross(x)
	o := d.pivot.Sub(b.pivot)
	r := far.at.Sub(d.pivot)
	k := d.axis.Cross(r)
	return fourbar{
		driver: far.body, own: own, sign: c.sign,
		dx: o.Dot(x), dy: o.Dot(y), rx: r.Dot(x), ry: r.Dot(y), kx: k.Dot(x), ky: k.Dot(y),
	}
}

// setLength puts a rod's length into a step that algebra closes.
func (m *Mechanism) setLength(s *step, length float64) {
	switch s.kind {
	case closeFourbar:
		f := &m.fourbars[s.fourbar]
		l := &m.constraints[s.constraints[0]]
		axis := m.bodies[f.own].axis
		arm := perpendicular(s.crank.arm, axis).Norm()
		e := l.from.at.Sub(l.to.at).Dot(axis)
		f.c2 = 1 - float64(((length-e)/arm)*((length+e)/arm))
		f.scale = float64((length / arm) * (length / arm))
		f.least = float64(noReach * f.scale)
	case closeCrank:
		s.crank.length = length
	case closeGuide:
		s.guide.length = length
	}
}

// close solves the hinge for the driver's cosine and sine. It returns D too:
// below 0 the rod doesn't reach, and then the arm points at it.
func (f *fourbar) close(c, s float64) (cos, sin, d float64) {
	x := f.dx + float64(c*f.rx) + float64(s*f.kx)
	y := f.dy + float64(c*f.ry) + float64(s*f.ky)
	h := float64(x*x) + float64(y*y)
	e := 0.5 * (h + f.c2)
	d = h - float64(e*e)
	if d < 0 {
		cos, sin = stretched(x, y, e)
		return cos, sin, d
	}
	q := float64(f.sign * math.Sqrt(d))
	inv := 1 / h
	return float64((float64(x*e) + float64(y*q)) * inv), float64((float64(y*e) - float64(x*q)) * inv), d
}

// stretched returns the cosine and sine of a turn whose rod doesn't reach: arm
// and rod in line.
func stretched(a, b, c float64) (cos, sin float64) {
	n := math.Copysign(math.Sqrt(float64(a*a)+float64(b*b)), c)
	if n == 0 {
		return 1, 0
	}
	return a / n, b / n
}

// crankNumbers are A, B, C and h of a crank at a state of the bodies.
func (m *Mechanism) crankNumbers(st *state, k *crank) (a, b, c, h, arm2 float64) {
	body := &m.bodies[k.own]
	far := st.place(k.far)
	carrier := &st.frames[body.carrier]
	w := carrier.unapply(far).Sub(body.pivot)
	r := k.arm
	if !k.rigid {
		r = st.frames[k.own].unapply(st.place(k.near)).Sub(body.pivot)
	}
	axis := body.axis
	up := w.Dot(axis) - r.Dot(axis)
	wp := perpendicular(w, axis)
	rp := perpendicular(r, axis)
	w2, r2 := wp.Dot(wp), rp.Dot(rp)
	return rp.Dot(wp), axis.Cross(rp).Dot(wp), 0.5 * (w2 + r2 + float64((up-k.length)*(up+k.length))), float64(r2 * w2), r2
}

// closeCrank turns the crank's body; d is as in fourbar.close.
func (m *Mechanism) closeCrank(st *state, k *crank) (d float64) {
	a, b, c, h, _ := m.crankNumbers(st, k)
	d = h - float64(c*c)
	if d < 0 {
		st.cos[k.own], st.sin[k.own] = stretched(a, b, c)
		return d
	}
	q := float64(k.sign * math.Sqrt(d))
	st.cos[k.own] = (float64(a*c) + float64(b*q)) / h
	st.sin[k.own] = (float64(b*c) - float64(a*q)) / h
	return d
}

// closeGuide slides the guide's body; d is the rod's length squared less the
// square of its other end's distance from the line on which its end slides.
func (m *Mechanism) closeGuide(st *state, g *guide) (d float64) {
	f := m.bodies[g.own].first
	at, d := m.guideNumbers(st, g)
	st.q[f] = at + float64(g.sign*math.Sqrt(max(d, 0)))
	return d
}

// guideNumbers returns the place on the slide square across from the rod's
// other end, and d.
func (m *Mechanism) guideNumbers(st *state, g *guide) (at, d float64) {
	body := &m.bodies[g.own]
	carrier := &st.frames[body.carrier]
	near := carrier.unapply(st.place(g.near))
	if g.near.body == g.own { // where it would be without its own travel
		near = g.near.at
	} else {
		near = near.Sub(body.slide.Scale(st.q[body.first]))
	}
	off := near.Sub(carrier.unapply(st.place(g.far)))
	along := off.Dot(body.slide)
	across := off.Sub(body.slide.Scale(along)).Norm()
	return -along, float64((g.length - across) * (g.length + across))
}

// reach is the squared sine of the angle between rod and arm of a step closed
// by algebra, continued below 0 to where the rod doesn't reach. d is what
// settling the step returned.
func (m *Mechanism) reach(st *state, s *step, d float64) float64 {
	switch s.kind {
	case closeFourbar:
		return d / m.fourbars[s.fourbar].scale
	case closeCrank:
		_, _, _, _, arm2 := m.crankNumbers(st, s.crank)
		return d / (s.crank.length * s.crank.length * arm2)
	default:
		return d / (s.guide.length * s.guide.length)
	}
}

// shortfall is how far the rod of a step closed by algebra is from reaching,
// in run units: what the rod is too long (positive) or too short (negative).
func (m *Mechanism) shortfall(st *state, s *step) float64 {
	l := &m.constraints[s.constraints[0]]
	m.settle(st, s)
	m.placeAll(st, m.under(l.from.body, l.to.body))
	return st.lengthOf(l) - l.length
}

// closeJoint puts a part where the one that it is one with goes.
func (m *Mechanism) closeJoint(st *state, s *step) {
	k := &m.constraints[s.constraints[0]].cablePaths[0]
	own := k.drums[0]
	rest := 0.0
	for _, d := range k.drums[1:] {
		rest += float64(d.takes * st.q[d.freedom])
	}
	m.setFreedom(st, own.freedom, -rest/own.takes+0) // no negative zero
	m.placeAll(st, s.within)
}
