// Layer: events.

package solve

import "math"

// evaluate solves x between two samples and returns a probe there. ok is false
// where the run doesn't close.
func (p *path) evaluate(a, b *sample, x float64, probe int) (v, dv float64, ok bool) {
	if !p.within(a, b, x) {
		return 0, 0, false
	}
	p.m.differentiate(&p.st, p.rates, p.input)
	v, dv = p.probes[probe].value(p)
	return v, dv, true
}

// valueAt is evaluate without the rate: a probe of the pose alone needs no rates.
func (p *path) valueAt(a, b *sample, x float64, probe int) (v float64, ok bool) {
	if k := &p.probes[probe]; k.poseOnly {
		if !p.within(a, b, x) {
			return 0, false
		}
		if k.alone != nil {
			return k.alone(p), true
		}
		v, _ = k.value(p)
		return v, true
	}
	v, _, ok = p.evaluate(a, b, x, probe)
	return v, ok
}

// sampleAt is evaluate for every probe; nil where the run doesn't close.
func (p *path) sampleAt(a, b *sample, x float64) *sample {
	switch x {
	case a.x:
		return a
	case b.x:
		return b
	}
	if !p.within(a, b, x) {
		return nil
	}
	return p.take(x)
}

// within solves x between two samples, on the branch that they lie on.
func (p *path) within(a, b *sample, x float64) bool {
	guess := p.guessing(len(a.q))
	p.interpolate(a, b, x, guess)
	if p.solve(x, guess) == allClosed && p.nearTo(guess, a, b) {
		return true
	}
	return p.creep(a, b, x)
}

// guessing is room for a guess of every freedom: in builds the same again and again.
func (p *path) guessing(n int) []float64 {
	if p.m.room == nil {
		return make([]float64, n)
	}
	if len(p.guess) != n {
		p.guess = make([]float64, n)
	}
	return p.guess
}

// creep walks to x from one of two samples on either side of it, where the way
// between them is too crooked to be guessed.
func (p *path) creep(a, b *sample, x float64) bool {
	from := a
	if !a.valid || b.valid && math.Abs(b.x-x) < math.Abs(a.x-x) {
		from = b
	}
	if !p.m.hasBlocks || p.creeping || !from.valid {
		return false
	}
	p.creeping = true
	defer func() { p.creeping = false }()
	w := newWalk(p, math.Copysign(1, x-from.x), p.refresh(from), func(*walk, *sample, *sample) {})
	w.to(x)
	if w.last.x != x {
		return false
	}
	p.restore(w.last)
	return true
}

// interpolate guesses the freedoms at x between two samples. Towards a sample
// where a rate is infinite they go as the square root of what is left.
func (p *path) interpolate(a, b *sample, x float64, q []float64) {
	t := (x - a.x) / (b.x - a.x)
	switch {
	case a.valid && b.valid:
		// The cubic through both values with both rates.
		h := b.x - a.x
		for f := range q {
			u := 1 - t
			q[f] = float64(u*u*(1+2*t)*a.q[f]) + float64(t*t*(3-2*t)*b.q[f]) + float64(u*t*h*(float64(u*a.d[f])-float64(t*b.d[f])))
		}
		return
	case !b.valid:
		t = 1 - math.Sqrt(max(0, 1-t))
	default:
		t = math.Sqrt(max(0, t))
	}
	for f := range q {
		q[f] = a.q[f] + float64(t*(b.q[f]-a.q[f]))
	}
}
