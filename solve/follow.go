// Layer: events.

package solve

import (
	"math"
	"slices"

	"fullfree/solve/internal/num"
)

// tracker keeps the least and the most of a probe over the travel, and where.
type tracker struct {
	probe           int
	least, most     float64
	leastAt, mostAt float64
	seen            bool
	// noLeast and noMost say that an extreme between samples isn't wanted.
	noLeast, noMost bool
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

// follow takes into account the stretch between two neighboring samples, but for an
// extreme that may lie between them: it reports whether one is to be looked for.
func (t *tracker) follow(p *path, a, b *sample) (between bool) {
	probe := &p.probes[t.probe]
	if b.valid || !probe.slope {
		t.consider(b.v[t.probe], b.x, probe.noise)
	}
	if !a.valid || !b.valid {
		return false
	}
	lo, hi := a, b
	if lo.x > hi.x {
		lo, hi = hi, lo
	}
	h := hi.x - lo.x
	dlo, dhi := lo.dv[t.probe], hi.dv[t.probe]
	rise := float64(h * max(math.Abs(dlo), math.Abs(dhi))) // what an extreme between can add
	switch {
	case dlo > 0 && dhi < 0 && !t.noMost && max(lo.v[t.probe], hi.v[t.probe])+rise > t.most+probe.noise:
	case dlo < 0 && dhi > 0 && !t.noLeast && min(lo.v[t.probe], hi.v[t.probe])-rise < t.least-probe.noise:
	default:
		return false
	}
	return rise > probe.noise
}

// follow takes into account, for all that is tracked, the stretch between two
// neighboring samples.
func (s *sweeper) follow(a, b *sample) {
	if s.m.coarse {
		s.followCoarsely(a, b, coarseHalvings)
		return
	}
	s.followBetween(a, b)
}

// coarseHalvings is how often a stretch of a build is halved where what is tracked may turn
// twice in it: down to the step in which a run is looked at.
const coarseHalvings = 7

// followCoarsely follows a stretch of a build in halves where something that is tracked may
// turn twice in it: where the cubic by both ends doesn't surely go one way, or where metal
// comes nearest elsewhere at the one end than at the other.
func (s *sweeper) followCoarsely(a, b *sample, halvings int) {
	if halvings > 0 && a.valid && b.valid && slices.ContainsFunc(s.tracked, func(t *tracker) bool { return t.mayTurnTwice(s.p, a, b) }) {
		if middle := s.p.sampleAt(a, b, a.x+0.5*(b.x-a.x)); middle != nil && middle != a && middle != b {
			s.followCoarsely(a, middle, halvings-1)
			s.followCoarsely(middle, b, halvings-1)
			return
		}
	}
	s.followBetween(a, b)
}

// goesOneWay is the most that the squares of the rates at both ends of a stretch may come to
// together, by the square of the rate between, for the cubic surely to go one way (F. N.
// Fritsch and R. E. Carlson, Monotone piecewise cubic interpolation, SIAM Journal on Numerical
// Analysis 17, 1980; from memory).
const goesOneWay = 9

// mayTurnTwice reports whether a probe that goes the same way at both ends of a stretch, or a
// gap that is nearest elsewhere at the one than at the other, may turn twice between them, and
// that would matter.
func (t *tracker) mayTurnTwice(p *path, a, b *sample) bool {
	if t.noLeast && t.noMost {
		return false
	}
	da, db := a.dv[t.probe], b.dv[t.probe]
	kinks := a.nearest != nil && b.nearest != nil && a.nearest[t.probe] != b.nearest[t.probe]
	if !(da*db > 0) && !kinks {
		return false
	}
	h := b.x - a.x
	rise := float64(math.Abs(h) * max(math.Abs(da), math.Abs(db)))
	noise := p.probes[t.probe].noise
	if rise <= mattersOver*noise {
		return false
	}
	low, high := min(a.v[t.probe], b.v[t.probe])-rise, max(a.v[t.probe], b.v[t.probe])+rise
	if !(!t.noLeast && low < t.least-noise || !t.noMost && high > t.most+noise) {
		return false
	}
	mean := (b.v[t.probe] - a.v[t.probe]) / h
	return kinks || mean*da <= 0 || float64(da*da)+float64(db*db) > goesOneWay*mean*mean
}

// mattersOver is over how many times its rounding a probe must be able to go for it to be
// looked at more closely in a build.
const mattersOver = 1e4

// followBetween is follow of a stretch in which what is tracked turns once at most.
func (s *sweeper) followBetween(a, b *sample) {
	s.turning = s.turning[:0]
	for _, t := range s.tracked {
		if t.follow(s.p, a, b) {
			s.turning = append(s.turning, t.probe)
		}
	}
	if len(s.turning) == 0 {
		return
	}
	s.p.extremes(a, b, s.turning, func(probe int, v, x float64) {
		s.trackers[probe].consider(v, x, s.p.probes[probe].noise)
	})
}

// extreme returns the extreme of a probe between two samples at which its rate
// has different signs. The cubic through both ends' values and rates says where
// to look first; from there the secant mostly needs one step, which matters
// where a pose has thousands of parts.
func (p *path) extreme(lo, hi *sample, i int) (v, x float64, ok bool) {
	if lo.x > hi.x {
		lo, hi = hi, lo
	}
	ok = true
	rate := func(at float64) float64 {
		value, dv, closed := p.evaluate(lo, hi, at, i)
		v, x, ok = value, at, ok && closed
		if !closed {
			return 0
		}
		return dv
	}
	h := hi.x - lo.x
	a, fa, b, fb := lo.x, lo.dv[i], hi.x, hi.dv[i]
	guess, slope := num.CubicExtreme(lo.v[i], fa, hi.v[i], fb, h)
	at := lo.x + guess
	last := 0.0
	if p.m.coarse {
		// Over a wide stretch the cubic is a first guess only: from there Newton's method
		// goes on with its slope, and then the secant, until the value has the digits that
		// are wanted of a build.
		near := float64(coarseNear * math.Sqrt(p.probes[i].noise/(valueNoise*max(math.Abs(slope), p.probes[i].noise))))
		for range coarseSteps {
			if !(at > a && at < b) {
				break
			}
			was, f := x, rate(at)
			if f == 0 || !ok {
				return v, x, ok
			}
			enough := near
			if last == 0 {
				enough = float64(0.1 * near) // the slope is the cubic's, and not so good yet
			}
			if step := f / slope; math.Abs(step) <= enough {
				return v - float64(0.5*f*step), x - step, ok // the rest of the way by the parabola
			}
			if math.Signbit(f) == math.Signbit(fa) {
				a, fa = at, f
			} else {
				b, fb = at, f
			}
			if last != 0 {
				slope = (f - last) / (x - was)
			}
			last = f
			at = x - f/slope
		}
		if place := num.RootNear(rate, a, fa, b, fb, at, near); math.Abs(x-place) > near {
			rate(place)
		}
		return v, x, ok
	}
	for range 3 {
		if !(at > a && at < b) {
			break
		}
		f := rate(at)
		if f == 0 || !ok {
			return v, x, ok
		}
		if math.Signbit(f) == math.Signbit(fa) {
			a, fa = at, f
		} else {
			b, fb = at, f
		}
		step := f / slope
		if math.Abs(step) <= float64(num.PlaceError*h)+2*num.Rounding*math.Abs(at) || math.Abs(step*f) <= p.probes[i].noise*num.Rounding {
			return v, x, ok
		}
		at -= step
	}
	rate(num.Root(rate, a, fa, b, fb))
	return v, x, ok
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
	da, db := float64(a.dv[i]*w.dir), float64(b.dv[i]*w.dir)
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
		v, ok := w.p.valueAt(a, b, x, i)
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
		if w.p.m.coarse {
			return []float64{num.RootNear(f, a.x, va, b.x, vb, a.x+num.CubicZero(va, a.dv[i], vb, b.dv[i], b.x-a.x), float64(coarsePlace*h))}
		}
		return []float64{num.Root(f, a.x, va, b.x, vb)}
	}
	if p := w.p; p.m.coarse && !p.dips(a, b, i) {
		return nil
	}
	if da*sa >= 0 || db*sb <= 0 || math.Abs(va) > h*math.Abs(da) || math.Abs(vb) > h*math.Abs(db) || va*sa <= 0 {
		return nil
	}
	v, turn, ok := w.p.extreme(a, b, i)
	if !ok {
		return nil
	}
	if v*sa > -probe.noise {
		return nil
	}
	return []float64{num.Root(f, a.x, va, turn, v), num.Root(f, turn, v, b.x, vb)}
}

// touchdown returns where a gap first closes between two neighboring samples.
// resting is the gap within which the two just touch; what rests has to close
// further to count.
func (w *walk) touchdown(a, b *sample, i int, resting float64) (x float64, ok bool) {
	from, to, ok := w.closes(a, b, i, resting)
	if !ok || from.x == to.x {
		return from.x, ok
	}
	gap := func(x float64) float64 {
		v, ok := w.p.valueAt(a, b, x, i)
		if !ok || v == 0 {
			closed := math.Abs(a.v[i]) // crossing middle lines have no depth: any sign of closed will do
			if w.p.m.coarse && ok {
				closed *= num.Rounding // mostly the very place, from which the secant needs no jump
			}
			return -closed
		}
		return v
	}
	if w.p.m.coarse && a.valid && b.valid && from.x == a.x && to.x == b.x {
		h := b.x - a.x
		return num.RootNear(gap, from.x, from.v, to.x, to.v, a.x+num.CubicZero(from.v, a.dv[i], to.v, b.dv[i], h), math.Abs(float64(coarsePlace*h))), true
	}
	return num.Root(gap, from.x, from.v, to.x, to.v), true
}

const (
	// coarsePlace is how closely an event of a build is located, as a share of the stretch
	// in which it lies: a tenth of the 1e-9 of a travel that is promised.
	coarsePlace = 1e-10
	// coarseNear is how near to an extreme the parabola is taken for the rest of the way, as
	// the root of the share of the run's size or radians that lies between: what is off then
	// goes with the third power.
	coarseNear = 2e-4
	// coarseSteps is how many poses an extreme of a build is given before it is halved to.
	coarseSteps = 6
	// dipShare is the share of the smaller of its two values to which the cubic through a
	// stretch of a build must come down, for it to be looked for whether it comes to 0.
	dipShare = 0.5
)

// dips reports whether a probe that has the same sign at two samples may come to 0 between
// them, by the cubic.
func (p *path) dips(a, b *sample, i int) bool {
	if !a.valid || !b.valid {
		return true
	}
	h := b.x - a.x
	at, _ := num.CubicExtreme(a.v[i], a.dv[i], b.v[i], b.dv[i], h)
	v, _ := num.CubicAt(a.v[i], a.dv[i], b.v[i], b.dv[i], h, at)
	return math.Abs(v) < dipShare*min(math.Abs(a.v[i]), math.Abs(b.v[i])) || math.Signbit(v) != math.Signbit(a.v[i])
}

// gapAt is a place with a gap there.
type gapAt struct{ x, v float64 }

// closes returns between which places a gap first closes; both are one where it
// closes right there.
func (w *walk) closes(a, b *sample, i int, resting float64) (from, to gapAt, ok bool) {
	va, vb := a.v[i], b.v[i]
	noise := w.p.probes[i].noise
	from, to = gapAt{a.x, va}, gapAt{b.x, vb}
	switch {
	case vb <= noise && va <= resting && vb >= -resting:
		return from, to, false
	case vb <= noise && va <= 0:
		return from, from, true
	case vb > 0 && vb <= noise:
		return to, to, true
	case vb <= 0:
		if vb == 0 {
			to.v = -va
		}
		return from, to, true
	case va <= 0 || !a.valid || !b.valid:
		return from, to, false
	}
	h := math.Abs(b.x - a.x)
	da, db := float64(a.dv[i]*w.dir), float64(b.dv[i]*w.dir)
	if da >= 0 || db <= 0 || va > -2*h*da && vb > 2*h*db {
		return from, to, false
	}
	if w.p.m.coarse && !w.p.dips(a, b, i) {
		return from, to, false
	}
	v, least, closed := w.p.extreme(a, b, i)
	to = gapAt{least, v}
	if v >= -noise {
		from = to // grazing counts
	}
	return from, to, closed && v <= noise
}
