package solve

import "math"

// A step of several unknowns ends in a fold: the control can go no further
// while the parts could. Newton's method in the unknowns fails short of it, so
// there the control's position is made one more unknown, and the run is
// followed along its own curve (pseudo-arclength continuation, H. B. Keller
// 1977, from memory) to where the control's share of the tangent is 0.

const (
	// foldStep is the length of the first step along the curve, radians or
	// shares of the run's size.
	foldStep = 0.01
	// foldSteps bounds the steps along the curve.
	foldSteps = 400
)

// curve follows one step's unknowns and the control together. Unknowns come
// first, the control last, each in units by which radians and lengths compare.
type curve struct {
	w       *walk
	a       *sample
	step    int
	scale   []float64 // run unit, radian or control unit for one of ours
	y, t    []float64 // the place and the tangent there
	lu      lu
	b       []float64
	residue []float64
}

// fold finds the fold of a step solved by Newton's method between a and x; nil
// where its curve goes on past x.
func (w *walk) fold(a *sample, x float64, step int) *critical {
	s := &w.p.m.steps[step]
	if s.kind == closePull && a.slack[w.p.m.links[s.links[0]].pull] {
		return nil // what floats has no curve
	}
	n := len(s.unknowns) + 1
	c := &curve{w: w, a: a, step: step, b: make([]float64, n), residue: make([]float64, n)}
	c.y, c.t, c.scale = make([]float64, n), make([]float64, n), make([]float64, n)
	for j, f := range s.unknowns {
		c.scale[j] = w.p.sizeOf(f)
		c.y[j] = a.q[f] / c.scale[j]
		c.t[j] = a.d[f] / c.scale[j] * w.dir
	}
	c.scale[n-1] = w.p.sizeOf(w.p.input) / w.p.unit
	c.y[n-1] = a.x / c.scale[n-1]
	c.t[n-1] = w.dir / c.scale[n-1]
	normalize(c.t)
	at := c.find(x)
	if at == nil || (at.x-a.x)*w.dir < -w.p.longest { // a whole step back it is another one
		return nil
	}
	return stuck(Toggle, step, at)
}

func normalize(t []float64) {
	sum := 0.0
	for _, v := range t {
		sum += float64(v * v)
	}
	for i := range t {
		t[i] /= math.Sqrt(sum)
	}
}

// find steps along the curve until the control turns back, and solves for
// where; nil where it gets past x.
func (c *curve) find(x float64) *sample {
	n := len(c.y)
	length := foldStep
	y0, t0 := make([]float64, n), make([]float64, n)
	for range foldSteps {
		copy(y0, c.y)
		copy(t0, c.t)
		slope := func(length float64) (float64, bool) {
			if !c.correct(y0, t0, length) {
				return 0, false
			}
			return c.t[n-1] * c.w.dir, true
		}
		v, ok := slope(length)
		if !ok {
			copy(c.y, y0)
			copy(c.t, t0)
			if length *= 0.5; length < foldStep*1e-6 {
				return nil
			}
			continue
		}
		if v > 0 {
			if (c.y[n-1]*c.scale[n-1]-x)*c.w.dir > 0 {
				return nil
			}
			continue
		}
		failed := false
		at := root(func(l float64) float64 {
			v, ok := slope(l)
			failed = failed || !ok
			return v
		}, 0, t0[n-1]*c.w.dir, length, v)
		if _, ok := slope(at); failed || !ok {
			return nil
		}
		return c.sample()
	}
	return nil
}

// correct finds the place of the curve at the given length along a tangent, and
// the tangent there.
func (c *curve) correct(y0, t0 []float64, length float64) bool {
	n := len(y0)
	for i := range c.y {
		c.y[i] = y0[i] + length*t0[i]
	}
	last := math.Inf(1)
	for range newtonSteps {
		worst, ok := c.assemble(t0)
		if !ok {
			return false
		}
		off := -length
		for i := range c.y {
			off += float64((c.y[i] - y0[i]) * t0[i])
		}
		c.b[n-1] = off
		if size := c.w.p.m.size; worst <= newtonClose*size || worst >= last && worst <= newtonAccept*size {
			clear(c.b)
			c.b[n-1] = 1
			c.lu.solve(c.t, c.b)
			normalize(c.t)
			return true
		}
		last = worst
		c.lu.solve(c.residue, c.b)
		for i := range c.y {
			c.y[i] -= c.residue[i]
		}
	}
	return false
}

// assemble closes what comes before the step at the curve's place, fills in by
// how much each of its links is off and the factored matrix, bordered by the
// tangent t0, and returns the worst error.
func (c *curve) assemble(t0 []float64) (worst float64, ok bool) {
	p := c.w.p
	m, st, r := p.m, &p.st, p.rates
	s := &m.steps[c.step]
	n := len(c.y)
	x := c.y[n-1] * c.scale[n-1]
	for f, q := range p.predict(c.a, x, c.w.guess) {
		m.setFreedom(st, f, q)
	}
	m.setFreedom(st, p.input, x*p.unit)
	p.x = x
	clear(r.d)
	clear(r.dd)
	clear(r.moving)
	r.d[p.input] = 1
	r.valid = true
	for i := range c.step {
		if !m.closeStep(st, i) {
			return 0, false
		}
	}
	// Rates need every body in place.
	m.placeAll(st, m.placing)
	for i := range c.step {
		m.differentiateStep(st, r, i)
	}
	for j, f := range s.unknowns {
		m.setFreedom(st, f, c.y[j]*c.scale[j])
		r.d[f], r.dd[f] = 0, 0
	}
	m.placeAll(st, s.before)
	m.unwindFor(st, s)
	m.placeAll(st, s.within)
	m.moveAll(st, r, s.before)
	m.moveAll(st, r, s.within)
	worst = m.residuals(st, s, c.b)
	c.lu.reset(n)
	for i, k := range s.links {
		l := &m.links[k]
		for j, f := range s.unknowns {
			c.lu.set(i, j, m.slope(st, l, f)*c.scale[j])
		}
		c.lu.set(i, n-1, m.drive(st, r, k)*p.unit*c.scale[n-1])
	}
	for j := range n {
		c.lu.set(n-1, j, t0[j])
	}
	c.b[n-1] = 0
	return worst, !math.IsNaN(worst) && c.lu.factor()
}

// sample closes what comes after the step and takes the pose.
func (c *curve) sample() *sample {
	p := c.w.p
	m, st := p.m, &p.st
	s := &m.steps[c.step]
	n := len(c.y)
	x := c.y[n-1] * c.scale[n-1]
	for f, q := range p.predict(c.a, x, c.w.guess) {
		m.setFreedom(st, f, q)
	}
	for j, f := range s.unknowns {
		m.setFreedom(st, f, c.y[j]*c.scale[j])
	}
	m.setFreedom(st, p.input, x*p.unit)
	p.x = x
	if m.solve(st) != allClosed {
		return nil
	}
	return p.take(x)
}
