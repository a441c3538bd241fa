// Layer: events.

package solve

import (
	"math"

	"fullfree/solve/internal/num"
)

const (
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
		if w.p.m.steps[failed].kind >= closePull {
			return w.event(a, x, failed)
		}
		at, earlier := w.lastReach(a, x, failed)
		if earlier < 0 {
			// What comes after it may not close in the very place any more.
			return &critical{kind: Toggle, x: at, step: failed}
		}
		x, failed = at, earlier
	}
	return nil
}

// event follows the own curve of a step that Newton's method or a pair closes
// from a sample towards x, and returns the singular place before that; nil where
// it finds none.
func (w *walk) event(a *sample, x float64, step int) *critical {
	c := w.newArc(a, step)
	if c == nil {
		return nil
	}
	for range arcSteps {
		switch e := c.advance(); {
		case e == arcGivenUp:
			return nil
		case e != arcGoesOn:
			if found := c.critical(e); (found.x-x)*w.dir <= 0 {
				return found
			}
			return nil
		case (c.x()-x)*w.dir >= 0:
			return nil
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
	found := num.Root(f, a.x, fa, x, fx)
	if earlier >= 0 {
		return at, earlier
	}
	return found, -1
}

// meeting returns the first change point or toggle at or before b, found from
// what both samples say; nil where there is none.
func (w *walk) meeting(a, b *sample) (first *critical) {
	for i := range w.p.m.steps {
		for _, l := range w.p.m.steps[i].constraints {
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
		return &critical{kind: Toggle, x: x, step: step}
	}
	return nil
}

// classify tells whether the run goes on past a sample that stands on center.
func (w *walk) classify(a, b *sample, step, l int) *critical {
	past := b.x + float64(w.dir*lookPast*w.p.longest)
	if w.p.m.steps[step].kind == closeBlock {
		if c := w.event(a, past, step); c != nil {
			return c
		}
		return w.changePoint(a, b.x, step, l)
	}
	failed := w.p.solve(past, w.p.predict(a, past, w.guess))
	if failed == allClosed {
		return w.changePoint(a, b.x, step, l)
	}
	if c := w.locate(a, past, int(failed)); c != nil {
		return c
	}
	return &critical{kind: Toggle, x: b.x, step: step}
}

// changePoint is the change point near x where the sine of a rod's angle goes
// down to 0. The sine with a sign goes straight through, so the cubic through
// its values and rates on both sides, where it is well known, says where.
func (w *walk) changePoint(a *sample, x float64, step, l int) *critical {
	p := w.p
	beside := besideCenter * p.sizeOf(p.input) / p.unit
	var v, dv [2]float64
	for i, side := range []float64{-w.dir, w.dir} {
		at := x + float64(side*beside)
		if p.solve(at, p.predict(a, at, w.guess)) != allClosed {
			return &critical{kind: ChangePoint, x: x, step: step}
		}
		p.m.differentiate(&p.st, p.rates, p.input)
		sign := float64(-side * w.dir) // positive before, negative after
		v[i], dv[i] = p.probes[l].value(p)
		v[i], dv[i] = float64(sign*v[i]), float64(sign*dv[i])
	}
	if !(v[0] > 0 && v[1] < 0) {
		return &critical{kind: ChangePoint, x: x, step: step}
	}
	h := float64(2 * beside * w.dir)
	cubic := func(t float64) float64 {
		u := 1 - t
		return float64(u*u*(1+2*t)*v[0]) + float64(t*t*(3-2*t)*v[1]) + float64(u*t*h*(float64(u*dv[0])-float64(t*dv[1])))
	}
	t := num.Root(cubic, 0, v[0], 1, v[1])
	if x += float64((t - 0.5) * h); (x-a.x)*w.dir < 0 {
		x = a.x // what lies before it has been told
	}
	return &critical{kind: ChangePoint, x: x, step: step}
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
	if w.p.m.coarse && !w.p.dips(a, b, l) {
		return nil
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
	if w.p.m.steps[step].kind == closeBlock {
		if c := w.event(a, b.x, step); c != nil {
			return c
		}
	}
	return w.changePoint(a, at, step, l)
}
