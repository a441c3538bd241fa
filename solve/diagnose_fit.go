// Layer: questions.

package solve

import (
	"cmp"
	"math"
	"slices"

	"fullfree/linkage"
)

const (
	// fitSteps bounds the steps of one fit; from a few per cent off, four are
	// enough.
	fitSteps = 50
	// fitClose is the step, in standard errors, at which a fit has ended: its
	// square is what the sum of squares still falls by.
	fitClose = 1e-6
	// fitReach is how far from its nominal value a dimension is sought, as a
	// share of the run's size. Nobody mistakes half the run.
	fitReach = 0.5
	// tellsReach is the standard error, as a share of the run's size, beyond which
	// the derivatives don't tell a dimension: at a turning point the readings don't
	// change with it.
	tellsReach = 0.5
	// trialStep is the change of a dimension by which derivatives are taken, as
	// a share of the run's size. The square of it is what a central difference
	// leaves out, and what rounding adds is a ten-thousandth of a millionth.
	trialStep = 1e-4
	// trialFiner is how often it is made a sixteenth where the run doesn't close
	// with it on both sides.
	trialFiner = 3
	// mattersLeast is the derivative below which a dimension doesn't matter to a
	// reading: radians or shares of the run's size, for a change by that size. It
	// is ten thousand times what rounding makes of a difference that is 0.
	mattersLeast = 1e-6
)

// trial is a dimension at some value, with what the readings would be then.
type trial struct {
	value float64
	at    *forecast
	sum   float64 // of squares
}

// fitted is a dimension fitted to readings.
type fitted struct {
	trial
	se float64 // from the derivatives; infinite where there are none
	// told is false at a turning point, where the readings don't change with the
	// dimension: se says nothing there.
	told   bool
	slopes []float64 // of every prediction, at the nominal value
}

// try is a trial of one dimension; ok is false where the run doesn't close.
func (g *diagnoser) try(r *readings, d linkage.Dimension, value float64, near *forecast) (t trial, ok bool) {
	f := g.predict(r, d, value, near)
	if f == nil {
		return t, false
	}
	return trial{value, f, r.sum(f.values)}, true
}

// changing runs f on the run with one dimension changed, and reports whether that
// run closes at neutral and f says yes.
func (m *Mechanism) changing(d linkage.Dimension, value float64, f func(n *Mechanism) bool) bool {
	n, ok := m.with(linkage.Set(d, value))
	return ok && f(n)
}

// predict is what the readings would be with one dimension changed.
func (g *diagnoser) predict(r *readings, d linkage.Dimension, value float64, near *forecast) (p *forecast) {
	g.m.changing(d, value, func(n *Mechanism) bool {
		p = r.forecast(n, near.poses)
		return p != nil
	})
	return p
}

// derive takes the first and second derivatives of the predictions by one
// dimension, at a value whose forecast is given. The second ones are 0 where
// the run closes on one side only. ok is false where it closes on neither.
func (g *diagnoser) derive(r *readings, d linkage.Dimension, value float64, at *forecast) (first, second []float64, ok bool) {
	first, second = make([]float64, len(r.read)), make([]float64, len(r.read))
	h := float64(trialStep * g.m.size)
	for range trialFiner {
		above, below := g.predict(r, d, value+h, at), g.predict(r, d, value-h, at)
		switch {
		case above != nil && below != nil:
			for i, v := range at.values {
				up, down := above.values[i]-v, v-below.values[i]
				first[i], second[i] = (up+down)/(2*h), (up-down)/(h*h)
			}
			return first, second, true
		case above != nil || below != nil:
			side, step := above, h
			if side == nil {
				side, step = below, -h
			}
			for i, v := range at.values {
				first[i] = (side.values[i] - v) / step
			}
			ok = true
		}
		h /= 16
	}
	return first, second, ok
}

// slopes returns the derivatives of the predictions by a dimension, as drawn, and
// whether any is more than rounding.
func (g *diagnoser) slopes(r *readings, d linkage.Dimension) (slopes []float64, any bool) {
	slopes, _, closes := g.derive(r, d, d.Value(), r.asDrawn())
	for i, slope := range slopes {
		any = any || closes && math.Abs(slope)*g.m.size > g.m.noiseOf(r.units[i], mattersLeast)
	}
	return slopes, any
}

// fit finds the value of one dimension with the least sum of squares: downhill
// from every value about the nominal one that has less than those beside it, and
// of what has equal sums the nearest to the nominal. It is not told where the
// readings change with the dimension farther off alone. ok is false where they don't
// change with it.
func (g *diagnoser) fit(r *readings, d linkage.Dimension) (best fitted, ok bool) {
	around := g.around(r, d)
	slopes, matters := g.slopes(r, d)
	if !matters && !g.changes(r, around) {
		return best, false
	}
	starts := hollows(around)
	nominal := d.Value()
	slices.SortStableFunc(starts, func(a, b trial) int {
		return cmp.Compare(math.Abs(a.value-nominal), math.Abs(b.value-nominal))
	})
	best.sum = math.Inf(1)
	for _, start := range starts {
		if f := g.descend(r, d, start); f.sum < best.sum-float64(sameSum*math.Max(1, best.sum)) || math.IsInf(best.sum, 1) {
			best = f
		}
	}
	best.slopes, best.told = slopes, best.told && matters
	return best, true
}

// descend goes downhill from a value, no farther from the nominal one than
// fitReach: by Newton's method where the sum is hollow enough, else that of Gauss
// and Newton, each step halved until the run closes and the sum falls.
func (g *diagnoser) descend(r *readings, d linkage.Dimension, from trial) (f fitted) {
	low, high := d.Value()-fitReach*g.m.size, d.Value()+fitReach*g.m.size
	f.trial, f.se = from, math.Inf(1)
	for step := 0; ; step++ {
		first, second, closes := g.derive(r, d, f.value, f.at)
		if !closes {
			break
		}
		var slope, square, bend float64
		for i, v := range f.at.values {
			w := 1 / (r.sigma[i] * r.sigma[i])
			residual := r.read[i] - v
			slope += float64(w * first[i] * residual)
			square += float64(w * first[i] * first[i])
			bend += float64(w * second[i] * residual)
		}
		if !(square > 0) {
			break
		}
		f.se = 1 / math.Sqrt(square)
		hollow := square - bend
		if !(hollow > square/4) {
			hollow = square
		}
		move := math.Max(low-f.value, math.Min(high-f.value, slope/hollow))
		if step == fitSteps || math.Abs(move)*math.Sqrt(hollow) <= fitClose {
			break
		}
		next, ok := g.downhill(r, d, f.trial, move, fitClose/math.Sqrt(hollow))
		if !ok {
			break
		}
		f.trial = next
	}
	f.told = f.se <= tellsReach*g.m.size
	return f
}

// downhill halves a move until the run closes and the sum of squares falls; ok is
// false where it doesn't fall before the move is shorter than the least.
func (g *diagnoser) downhill(r *readings, d linkage.Dimension, from trial, move, least float64) (to trial, ok bool) {
	for math.Abs(move) > least {
		if to, ok = g.try(r, d, from.value+move, from.at); ok && to.sum < from.sum {
			return to, true
		}
		move /= 2
	}
	return to, false
}

// fitZero fits one offset to the readings of those riggings that it is of.
func (r *readings) fitZero(of func(*linkage.Rigging) bool) (zero, se float64, predicted []float64) {
	var square float64
	for _, b := range r.blocks {
		if !of(b.rigging) {
			continue
		}
		for i := b.first; i < b.first+len(b.rigging.Readings); i++ {
			w := 1 / (r.sigma[i] * r.sigma[i])
			zero += float64(w * (r.read[i] - r.drawn[i]))
			square += w
		}
	}
	zero /= square
	predicted = append(predicted, r.drawn...)
	for _, b := range r.blocks {
		for i := b.first; of(b.rigging) && i < b.first+len(b.rigging.Readings); i++ {
			predicted[i] += zero
		}
	}
	return zero, 1 / math.Sqrt(square), predicted
}
