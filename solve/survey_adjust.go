package solve

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"fullfree/linkage"
)

const (
	// settled is the step, as a share of the run's size, below which the
	// coordinates have settled.
	settled = 1e-10
	// nearSettled is the step, as a share of the run's size, from which the
	// bend of the measurements is worth taking along.
	nearSettled = 1e-3
	// mostAdjustments is how often the coordinates may be improved: ten do for
	// a fair sketch, and where two measurements fight it may take a hundred.
	mostAdjustments = 1000
	// fallNoise is how much the sum of squares may seem to rise by rounding, as
	// a share of itself.
	fallNoise = 1e-13
	// finestReading is the least standard deviation of a measurement, as a share
	// of the sketch's: below it the sketch is lost in rounding.
	finestReading = 1e-7
	// finestShare is the least standard deviation of anything, as a share of the
	// run's size: coordinates are rounded to little less.
	finestShare = 1e-12
	// mostSurveyed is how many coordinates are adjusted at once; their
	// covariance has the square of it in numbers.
	mostSurveyed = 400
)

// tellUnfit adds a fault for everything that can't be adjusted.
func (n *surveyNet) tellUnfit(faults *linkage.Faults) {
	switch {
	case len(n.x) > mostSurveyed:
		faults.Add(n.run.Span, "%d sketched coordinates are more than can be adjusted at once (%d): give parts that were made to a drawing exact = true, or part the run", len(n.x), mostSurveyed)
		return
	case len(n.x) > 0 && n.sketch < finestShare*n.size:
		faults.Add(n.run.Span, "sketch = %.3g %s says that the coordinates are exact: leave it out, or write how far they may be out", n.sketch, n.run.Units)
		return
	}
	finest := math.Max(finestReading*n.sketch, finestShare*n.size)
	for i := range n.sightings {
		g := &n.sightings[i]
		m := g.measured
		d := n.between(g.from, g.to, n.drawn)
		open := len(n.ends(g.from, g.to)) > 0
		sigma := g.sigma
		if m.Kind == linkage.Gauged {
			sigma *= math.Hypot(d.X, d.Y)
		}
		switch {
		case open && n.seen(d) <= drawnTogether*n.size && math.Abs(g.is-d.Norm()) > doubtfulFrom*g.sigma:
			faults.Add(m.Span, "%s and %s are drawn one behind the other, %.4g %s apart, and %.4g was measured: sketch them on the sides where they lie", m.From, m.To, d.Norm(), n.run.Units, m.Is)
		case sigma < finest:
			faults.Add(m.Span, "%q reads to within %.3g, finer than anything reads: write what the tape or gauge can tell", m.Name, m.Within)
		}
	}
}

// adjust brings the unknowns to where the sum of the squares of all misfits over
// their standard deviations is least, the sketch's too, and reports whether they
// settled. Gauss-Newton steps, held back where one would go too far (Levenberg);
// near the end Newton's, whose matrix also has the bend of the measurements:
// where measurements fight, as along three holes in a line, the others would
// settle slowly or not at all.
//
// A place drawn exactly in line with two others stays in line, even where the
// three distances would rather have it aside: on which side can't be known.
func (n *surveyNet) adjust() bool {
	if len(n.x) == 0 {
		return true
	}
	known := 1 / (n.sketch * n.sketch) // the weight of a sketched coordinate
	sum := n.squares(n.x)
	hold := 0.0 // weight that holds the unknowns where they stand
	last := math.Inf(1)
	trial := make([]float64, len(n.x))
	for range mostAdjustments {
		newton := hold == 0 && last < nearSettled*n.size
		var change []float64
		if newton {
			change, newton = n.newtonStep(known)
		}
		if !newton {
			change = n.step(known, hold)
		}
		length := 0.0
		for u, c := range change {
			trial[u] = n.x[u] + c
			length = math.Max(length, math.Abs(c))
		}
		next := n.squares(trial)
		if length > n.sketch || !(next <= sum+float64(fallNoise*sum)) {
			hold = math.Max(4*hold, known)
			continue
		}
		copy(n.x, trial)
		done := hold == 0 && length <= settled*n.size
		sum, last = next, length
		if hold /= 10; hold < known/1000 {
			hold = 0
		}
		if done {
			return true
		}
	}
	return false
}

// squares is the sum that is to be least.
func (n *surveyNet) squares(x []float64) float64 {
	sum := 0.0
	for i := range n.sightings {
		g := &n.sightings[i]
		w := n.misfit(g, x) / g.sigma
		sum += float64(w * w)
	}
	for u := range x {
		w := (x[u] - n.drawn[u]) / n.sketch
		sum += float64(w * w)
	}
	return sum
}

// step is the change of the unknowns that is best by the slopes alone.
func (n *surveyNet) step(known, hold float64) []float64 {
	tie := math.Sqrt(known + hold)
	rows, off := n.system(tie)
	for u := range n.x {
		off[len(n.sightings)+u] = float64(known*(n.drawn[u]-n.x[u])) / tie
	}
	var qr mat.QR
	qr.Factorize(rows)
	var change mat.VecDense
	// The error is of a condition, and the figures are there; a step that is no
	// good doesn't lower the sum.
	_ = qr.SolveVecTo(&change, false, mat.NewVecDense(len(off), off))
	return change.RawVector().Data
}

// newtonStep is the change by slopes and bends; false where there is none.
func (n *surveyNet) newtonStep(known float64) ([]float64, bool) {
	rows, off := n.system(math.Sqrt(known))
	for u := range n.x {
		off[len(n.sightings)+u] = float64(math.Sqrt(known) * (n.drawn[u] - n.x[u]))
	}
	var normal mat.SymDense
	normal.SymOuterK(1, rows.T())
	var down mat.VecDense
	down.MulVec(rows.T(), mat.NewVecDense(len(off), off))
	for i := range n.sightings {
		g := &n.sightings[i]
		pull := off[i] / g.sigma
		bend := n.bend(g, n.x)
		ends := n.ends(g.from, g.to)
		for _, a := range ends {
			for _, b := range ends {
				for i := range n.axes {
					for j := range n.axes {
						if u, v := a.first+i, b.first+j; u <= v {
							normal.SetSym(u, v, normal.At(u, v)-float64(a.sign*b.sign*pull**component(&bend[i], j)))
						}
					}
				}
			}
		}
	}
	var lu mat.LU
	lu.Factorize(&normal)
	var change mat.VecDense
	if lu.SolveVecTo(&change, false, &down) != nil {
		return nil, false
	}
	return change.RawVector().Data, true
}

// worst is the measurement farthest off, by its own standard deviation.
func (n *surveyNet) worst() *linkage.Measurement {
	var worst *linkage.Measurement
	most := -1.0
	for i := range n.sightings {
		g := &n.sightings[i]
		if w := math.Abs(n.misfit(g, n.x)) / g.sigma; w > most {
			worst, most = g.measured, w
		}
	}
	return worst
}
