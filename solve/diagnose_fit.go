package solve

import (
	"math"

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
	// the readings don't tell a dimension: at a turning point, where they don't
	// change with it, there is an extreme and no estimate.
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
	// mostLength is the largest number that a file can have.
	mostLength = 1e6
)

// fitted is a dimension fitted to readings.
type fitted struct {
	value, se float64
	predicted []float64
}

// trial runs f on the run with one dimension changed, and reports whether that
// run closes at neutral and f says yes.
func (m *Mechanism) trial(d linkage.Dimension, value float64, f func(n *Mechanism) bool) bool {
	if !possible(d, value) {
		return false
	}
	undo := m.run.Set(d, value)
	defer undo()
	n, ok := m.rebuilt()
	return ok && f(n)
}

// possible reports whether a file could give a dimension that value.
func possible(d linkage.Dimension, value float64) bool {
	return math.Abs(value) <= mostLength && !(d.IsLength() && value <= 0)
}

// predict is what the readings would be with one dimension changed.
func (g *diagnoser) predict(r *readings, d linkage.Dimension, value float64, near *forecast) (p *forecast) {
	g.m.trial(d, value, func(n *Mechanism) bool {
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
	h := trialStep * g.m.size
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

// matters returns the derivatives of the predictions by a dimension, as drawn;
// ok is false where none is more than rounding.
func (g *diagnoser) matters(r *readings, d linkage.Dimension) (slopes []float64, ok bool) {
	slopes, _, closes := g.derive(r, d, d.Value(), r.asDrawn())
	for i, slope := range slopes {
		ok = ok || math.Abs(slope)*g.m.size > g.m.noiseOf(r.units[i], mattersLeast)
	}
	return slopes, ok && closes
}

// fit finds the value of one dimension with the least sum of squares, downhill
// from the nominal one and no farther from it than fitReach: Newton's method where the sum is hollow enough, else
// that of Gauss and Newton, each step halved until the run closes and the sum
// falls. ok is false where nothing can be told: also where the search ends at a
// value about which the readings don't change (tellsReach).
func (g *diagnoser) fit(r *readings, d linkage.Dimension) (f fitted, ok bool) {
	at := r.asDrawn()
	value, sum := d.Value(), r.sum(at.values)
	low, high := value-fitReach*g.m.size, value+fitReach*g.m.size
	for step := 0; ; step++ {
		first, second, closes := g.derive(r, d, value, at)
		if !closes {
			break
		}
		var slope, square, bend float64
		for i, v := range at.values {
			w := 1 / (r.sigma[i] * r.sigma[i])
			residual := r.read[i] - v
			slope += float64(w * first[i] * residual)
			square += float64(w * first[i] * first[i])
			bend += float64(w * second[i] * residual)
		}
		if !(square > 0) {
			break
		}
		f.se, ok = 1/math.Sqrt(square), true
		hollow := square - bend
		if !(hollow > square/4) {
			hollow = square
		}
		move := math.Max(low-value, math.Min(high-value, slope/hollow))
		if step == fitSteps || math.Abs(move)*math.Sqrt(hollow) <= fitClose {
			break
		}
		next := g.downhill(r, d, value, at, sum, &move, fitClose/math.Sqrt(hollow))
		if next == nil {
			break
		}
		value, at, sum = value+move, next, r.sum(next.values)
	}
	f.value, f.predicted = value, at.values
	return f, ok && f.se <= tellsReach*g.m.size
}

// downhill halves a move until the run closes and the sum of squares falls, and
// returns the forecast there; nil where it doesn't fall before the move is
// shorter than the least.
func (g *diagnoser) downhill(r *readings, d linkage.Dimension, value float64, at *forecast, sum float64, move *float64, least float64) *forecast {
	for math.Abs(*move) > least {
		if next := g.predict(r, d, value+*move, at); next != nil && r.sum(next.values) < sum {
			return next
		}
		*move /= 2
	}
	return nil
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
