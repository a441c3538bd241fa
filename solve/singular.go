package solve

import "math"

const (
	// criticalSine is the sine of a rod's angle below which the rod stands on
	// center (the design's figure).
	criticalSine = 1e-6
	// lookPast is how far past a singular place, in steps between samples, is
	// looked to see whether the run goes on.
	lookPast = 0.01
	// jumpSine is the sine above which a change of a determinant's sign is no
	// meeting of two assemblies but a jump from one to another.
	jumpSine = 1e-3
	// flipHalvings is how often a step is halved to find where a determinant
	// changes its sign: a quarter degree to a rounding.
	flipHalvings = 60
)

// locate finds the singular place between a sample and x, where the given step
// didn't close.
func (w *walk) locate(a *sample, x float64, failed int) *critical {
	for range len(w.p.m.steps) {
		s := &w.p.m.steps[failed]
		if s.kind == closeBlock {
			return w.locateFold(a, x, failed)
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
	return w.giveUp(a, x, failed)
}

// stuck makes a sample the singular place at which a walk ends. What rates it
// has are the difference of large numbers, so it counts as having none.
func stuck(kind CriticalKind, step int, at *sample) *critical {
	at.valid = false
	return &critical{kind, at.x, step, at}
}

// passed returns the fold that a step from a to x has passed over to another
// branch; nil where there is none.
func (w *walk) passed(a *sample, x float64) *critical {
	for i := range w.p.m.steps {
		if w.p.m.steps[i].kind == closeBlock {
			if c := w.fold(a, x, i); c != nil {
				return c
			}
		}
	}
	return nil
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

// giveUp takes the farthest pose that closes for the place where the run ends.
func (w *walk) giveUp(a *sample, x float64, failed int) *critical {
	good, bad := a.x, x
	for range flipHalvings {
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
	w.p.solve(good, w.p.predict(a, good, w.guess))
	return stuck(Toggle, failed, w.p.take(good))
}

// meeting returns the change point or toggle at or before b, found from what
// both samples say; nil where there is none.
func (w *walk) meeting(a, b *sample) *critical {
	p := w.p
	for i := range p.m.steps {
		if a.valid && b.valid && a.sign[i] != b.sign[i] {
			return w.locateFlip(a, b, i)
		}
		for _, l := range p.m.steps[i].links {
			if b.v[l] < criticalSine {
				return w.classify(a, b, i)
			}
			if c := w.touches(a, b, i, l); c != nil {
				return c
			}
		}
	}
	return nil
}

// classify tells whether the run goes on past a sample that stands on center.
func (w *walk) classify(a, b *sample, step int) *critical {
	past := b.x + w.dir*lookPast*w.p.stepLength()
	kind := Toggle
	if w.p.solve(past, w.p.predict(a, past, w.guess)) == allClosed {
		kind = ChangePoint
	}
	return stuck(kind, step, b)
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
	for range flipHalvings {
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
	c := w.p.sampleAt(a, b, at)
	if c == nil {
		return nil
	}
	return stuck(ChangePoint, step, c)
}

// locateFlip finds where a step's determinant changes its sign.
func (w *walk) locateFlip(a, b *sample, step int) *critical {
	lo, hi := a, b
	for range flipHalvings {
		mid := lo.x + 0.5*(hi.x-lo.x)
		if mid == lo.x || mid == hi.x {
			break
		}
		c := w.p.sampleAt(lo, hi, mid)
		if c == nil {
			return w.locate(lo, mid, step)
		}
		if c.valid && c.sign[step] == a.sign[step] {
			lo = c
		} else {
			hi = c
		}
	}
	for _, l := range w.p.m.steps[step].links {
		if math.Min(lo.v[l], hi.v[l]) < jumpSine {
			return stuck(ChangePoint, step, hi)
		}
	}
	return w.locateFold(lo, hi.x, step)
}
