package solve

import "math"

// tracker keeps the least and the most of a probe over the travel, and where.
type tracker struct {
	probe           int
	least, most     float64
	leastAt, mostAt float64
	seen            bool
}

// consider takes one value into account. Only what differs by more than
// rounding moves the place, so that a quantity that doesn't change keeps the
// first.
func (t *tracker) consider(v, x, noise float64) {
	switch {
	case math.IsNaN(v): // there is none here
		return
	case !t.seen:
		t.least, t.most, t.leastAt, t.mostAt, t.seen = v, v, x, x, true
		return
	}
	if v < t.least-noise {
		t.least, t.leastAt = v, x
	}
	if v > t.most+noise {
		t.most, t.mostAt = v, x
	}
}

// steady reports whether the probe didn't change beyond rounding.
func (t *tracker) steady(noise float64) bool { return t.most-t.least <= 4*noise }

// follow takes into account the stretch between two neighboring samples.
func (t *tracker) follow(p *path, a, b *sample) {
	probe := &p.probes[t.probe]
	if b.valid || !probe.slope {
		t.consider(b.v[t.probe], b.x, probe.noise)
	}
	if !a.valid || !b.valid {
		return
	}
	lo, hi := a, b
	if lo.x > hi.x {
		lo, hi = hi, lo
	}
	h := hi.x - lo.x
	dlo, dhi := lo.dv[t.probe], hi.dv[t.probe]
	rise := h * math.Max(math.Abs(dlo), math.Abs(dhi)) // what an extreme between can add
	switch {
	case dlo > 0 && dhi < 0 && math.Max(lo.v[t.probe], hi.v[t.probe])+rise > t.most+probe.noise:
	case dlo < 0 && dhi > 0 && math.Min(lo.v[t.probe], hi.v[t.probe])-rise < t.least-probe.noise:
	default:
		return
	}
	if rise <= probe.noise {
		return
	}
	x := root(func(x float64) float64 {
		_, dv, ok := p.evaluate(a, b, x, t.probe)
		if !ok {
			return 0
		}
		return dv
	}, lo.x, dlo, hi.x, dhi)
	if v, _, ok := p.evaluate(a, b, x, t.probe); ok {
		t.consider(v, x, probe.noise)
	}
}

// zeros returns where a probe changes its sign between two neighboring samples,
// outward, b's own place included and a's not.
func (w *walk) zeros(a, b *sample, i int) []float64 {
	probe := &w.p.probes[i]
	if !a.valid || !b.valid || a.x == b.x {
		return nil
	}
	sign := func(v, otherwise float64) float64 {
		switch {
		case v > probe.noise:
			return 1
		case v < -probe.noise:
			return -1
		case otherwise > 0:
			return 1
		case otherwise < 0:
			return -1
		}
		return 0
	}
	h := math.Abs(b.x - a.x)
	da, db := a.dv[i]*w.dir, b.dv[i]*w.dir
	// At a zero, the sign is the one just after a, and just before b. A rate
	// that moves the probe less than its rounding has no sign.
	if math.Abs(da)*h <= probe.noise {
		da = 0
	}
	if math.Abs(db)*h <= probe.noise {
		db = 0
	}
	sa := sign(a.v[i], da)
	if math.Abs(b.v[i]) <= probe.noise {
		if sa != 0 && db*sa < 0 {
			return []float64{b.x}
		}
		return nil
	}
	sb := sign(b.v[i], 0)
	f := func(x float64) float64 {
		v, _, ok := w.p.evaluate(a, b, x, i)
		if !ok {
			return 0
		}
		return v
	}
	if sa == 0 {
		return nil
	}
	va, vb := a.v[i], b.v[i]
	if sa != sb {
		if va*sa <= 0 { // a zero at a itself, and another one behind it
			return nil
		}
		return []float64{root(f, a.x, va, b.x, vb)}
	}
	if da*sa >= 0 || db*sb <= 0 || math.Abs(va) > h*math.Abs(da) || math.Abs(vb) > h*math.Abs(db) || va*sa <= 0 {
		return nil
	}
	turn := root(func(x float64) float64 {
		_, dv, ok := w.p.evaluate(a, b, x, i)
		if !ok {
			return 0
		}
		return dv
	}, a.x, a.dv[i], b.x, b.dv[i])
	v := f(turn)
	if v*sa > -probe.noise {
		return nil
	}
	return []float64{root(f, a.x, va, turn, v), root(f, turn, v, b.x, vb)}
}

// touchdown returns where a gap first closes between two neighboring samples.
func (w *walk) touchdown(a, b *sample, i int) (x float64, ok bool) {
	va, vb := a.v[i], b.v[i]
	if !(va > 0) {
		return 0, false
	}
	noise := w.p.probes[i].noise
	f := func(x float64) float64 {
		v, _, ok := w.p.evaluate(a, b, x, i)
		if !ok || v == 0 {
			return -va // crossing middle lines have no depth: any sign of closed will do
		}
		return v
	}
	if vb <= 0 {
		if vb == 0 {
			vb = -va
		}
		return root(f, a.x, va, b.x, vb), true
	}
	h := math.Abs(b.x - a.x)
	if !a.valid || !b.valid {
		return 0, false
	}
	da, db := a.dv[i]*w.dir, b.dv[i]*w.dir
	if da >= 0 || db <= 0 || va > -2*h*da && vb > 2*h*db {
		return 0, false
	}
	least := root(func(x float64) float64 {
		_, dv, ok := w.p.evaluate(a, b, x, i)
		if !ok {
			return 0
		}
		return dv
	}, a.x, a.dv[i], b.x, b.dv[i])
	v, _, closed := w.p.evaluate(a, b, least, i)
	switch {
	case !closed || v > noise:
		return 0, false
	case v >= -noise:
		return least, true // grazing counts
	}
	return root(f, a.x, va, least, v), true
}
