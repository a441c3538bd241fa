package solve

import "math"

const (
	// criticalSine is the sine of a rod's angle below which the rod stands on
	// center (the design's figure).
	criticalSine = 1e-6
	// lookPast is how far past a singular place, in steps between samples, is
	// looked to see whether the run goes on.
	lookPast = 0.01
	// besideCenter is how far to each side of a change point its rod's sine is
	// taken to find it, radians or shares of the run's size: at the place itself
	// a sine is known to the root of rounding only.
	besideCenter = 1e-4
	// lostSine is the sine of a rod's angle above which a place where the run
	// stops closing is not taken for a toggle.
	lostSine = 1e-3
	// halvings is how often a step is halved to find a place: a quarter degree
	// to a rounding.
	halvings = 60
)

// locate finds the singular place between a sample and x, where the given step
// didn't close; nil where it finds none.
func (w *walk) locate(a *sample, x float64, failed int) *critical {
	for range len(w.p.m.steps) {
		s := &w.p.m.steps[failed]
		if s.kind >= closePull {
			return w.fold(a, x, failed)
		}
		at, earlier := w.lastReach(a, x, failed)
		if earlier >= 0 {
			x, failed = at, earlier
			continue
		}
		next := w.p.solve(at, w.p.predict(a, at, w.guess))
		if next == allClosed {
			return stuck(Toggle, failed, w.p.take(at))
		}
		if int(next) == failed {
			break
		}
		x, failed = at, int(next)
	}
	return nil
}

// stuck makes a sample the singular place at which a walk ends. What rates it
// has are the difference of large numbers, so it counts as having none.
func stuck(kind CriticalKind, step int, at *sample) *critical {
	at.valid = false
	return &critical{kind, at.x, step, at}
}

// lastReach finds where the rod of a step closed by algebra just reaches. If a
// step before it fails first, it returns where and which.
func (w *walk) lastReach(a *sample, x float64, step int) (at float64, earlier int) {
	earlier = -1
	f := func(x float64) float64 {
		failed := w.p.solve(x, w.p.predict(a, x, w.guess))
		if failed != allClosed && int(failed) < step {
			earlier, at = int(failed), x
			return -1
		}
		s := &w.p.m.steps[step]
		return w.p.m.reach(&w.p.st, s, w.p.m.settle(&w.p.st, s))
	}
	fa := f(a.x)
	fx := f(x)
	if earlier >= 0 {
		return at, earlier
	}
	if !(fa > 0) {
		return a.x, -1
	}
	found := root(f, a.x, fa, x, fx)
	if earlier >= 0 {
		return at, earlier
	}
	return found, -1
}

// farthest takes the farthest pose that closes for the place where the run ends,
// if a rod stands nearly on center there; else nil: that isn't why.
func (w *walk) farthest(a *sample, x float64, failed int) *critical {
	good, bad := a.x, x
	for range halvings {
		mid := good + 0.5*(bad-good)
		if mid == good || mid == bad {
			break
		}
		if w.p.solve(mid, w.p.predict(a, mid, w.guess)) == allClosed {
			good = mid
		} else {
			bad = mid
		}
	}
	here := *a
	at := &here
	if good != a.x {
		if w.p.solve(good, w.p.predict(a, good, w.guess)) != allClosed {
			return nil
		}
		at = w.p.take(good)
	}
	for _, l := range w.p.m.steps[failed].links {
		if at.v[l] < lostSine {
			return stuck(Toggle, failed, at)
		}
	}
	return nil
}

// meeting returns the first change point or toggle at or before b, found from
// what both samples say; nil where there is none.
func (w *walk) meeting(a, b *sample) (first *critical) {
	for i := range w.p.m.steps {
		for _, l := range w.p.m.steps[i].links {
			var c *critical
			if w.p.m.steps[i].kind == closePull {
				c = w.outOfLine(a, b, i, l)
			} else {
				c = w.touches(a, b, i, l)
			}
			if c == nil && b.v[l] < criticalSine {
				c = w.classify(a, b, i, l)
			}
			if c != nil && (first == nil || (c.x-first.x)*w.dir < 0) {
				first = c
			}
		}
	}
	return first
}

// outOfLine returns the place between two samples where a cable of a pair comes in
// line with what it moves, so that the other goes slack; nil where none does.
func (w *walk) outOfLine(a, b *sample, step, l int) *critical {
	for _, x := range w.zeros(a, b, l) {
		return w.at(Toggle, a, x, step)
	}
	return nil
}

// part tells what lies between two samples, a rounding apart, that are not on
// one branch: a change point, or a fold; nil where neither is found.
func (w *walk) part(a, b *sample) *critical {
	for i := range w.p.m.steps {
		s := &w.p.m.steps[i]
		if s.kind < closePull {
			continue
		}
		for _, l := range s.links {
			if s.kind == closeBlock && math.Min(a.v[l], b.v[l]) < criticalSine {
				return w.changePoint(a, a.x+0.5*(b.x-a.x), i, l)
			}
			if s.kind == closePull && a.slack[w.p.m.links[l].pull] && b.v[l] < lostSine {
				return stuck(Toggle, i, b) // a slack cable is in line as it comes taut
			}
		}
		if c := w.fold(a, b.x, i); c != nil {
			return c
		}
	}
	return nil
}

// classify tells whether the run goes on past a sample that stands on center.
func (w *walk) classify(a, b *sample, step, l int) *critical {
	past := b.x + w.dir*lookPast*w.p.longest
	failed := w.p.solve(past, w.p.predict(a, past, w.guess))
	if failed == allClosed {
		return w.changePoint(a, b.x, step, l)
	}
	if c := w.locate(a, past, int(failed)); c != nil {
		return c
	}
	return stuck(Toggle, step, b)
}

// changePoint is the change point near x where the sine of a rod's angle goes
// down to 0. The sine with a sign goes straight through, so the cubic through
// its values and rates on both sides, where it is well known, says where.
func (w *walk) changePoint(a *sample, x float64, step, l int) *critical {
	p := w.p
	beside := besideCenter * p.sizeOf(p.input) / p.unit
	var v, dv [2]float64
	for i, side := range []float64{-w.dir, w.dir} {
		at := x + side*beside
		if p.solve(at, p.predict(a, at, w.guess)) != allClosed {
			return w.at(ChangePoint, a, x, step)
		}
		p.m.differentiate(&p.st, p.rates, p.input)
		sign := -side * w.dir // positive before, negative after
		v[i], dv[i] = p.probes[l].value(p)
		v[i], dv[i] = sign*v[i], sign*dv[i]
	}
	if !(v[0] > 0 && v[1] < 0) {
		return w.at(ChangePoint, a, x, step)
	}
	h := 2 * beside * w.dir
	cubic := func(t float64) float64 {
		u := 1 - t
		return u*u*(1+2*t)*v[0] + t*t*(3-2*t)*v[1] + u*t*h*(u*dv[0]-t*dv[1])
	}
	t := root(cubic, 0, v[0], 1, v[1])
	if x += (t - 0.5) * h; (x-a.x)*w.dir < 0 {
		x = a.x // what lies before it has been told
	}
	return w.at(ChangePoint, a, x, step)
}

// at is a singular place at x; nil where the run doesn't close there.
func (w *walk) at(kind CriticalKind, a *sample, x float64, step int) *critical {
	if w.p.solve(x, w.p.predict(a, x, w.guess)) != allClosed {
		return nil
	}
	return stuck(kind, step, w.p.take(x))
}

// touches returns the change point between two samples where a rod's sine goes
// down to 0 and up again: nil where it doesn't.
func (w *walk) touches(a, b *sample, step, l int) *critical {
	if !a.valid || !b.valid || !(a.dv[l]*w.dir < 0 && b.dv[l]*w.dir > 0) {
		return nil
	}
	h := math.Abs(b.x - a.x)
	if a.v[l] > 2*h*math.Abs(a.dv[l]) || b.v[l] > 2*h*math.Abs(b.dv[l]) {
		return nil // too steady to come down to 0
	}
	lo, hi := a.x, b.x
	least, at := math.Inf(1), lo
	for range halvings {
		mid := lo + 0.5*(hi-lo)
		if mid == lo || mid == hi {
			break
		}
		v, dv, ok := w.p.evaluate(a, b, mid, l)
		if !ok {
			return w.locate(a, mid, step)
		}
		if v < least {
			least, at = v, mid
		}
		if dv*w.dir < 0 {
			lo = mid
		} else {
			hi = mid
		}
	}
	if least >= criticalSine {
		return nil
	}
	return w.changePoint(a, at, step, l)
}
