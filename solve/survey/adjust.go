package survey

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
	"fullfree/solve/internal/num"
)

const (
	// nearSettled is the step, as a share of the run's size, from which the
	// bend of the measurements is taken along.
	nearSettled = 1e-3
	// enoughBySlopes is after how many steps it is taken along anyhow: then they
	// swing about the end.
	enoughBySlopes = 30
	// settled is the step, as a share of the run's size, below which the
	// coordinates have settled.
	settled = 1e-10
	// stalled is the same where rounding keeps the steps from growing smaller:
	// still a thousandth of what any tape tells.
	stalled = 1e-7
	// mostAdjustments is how often the coordinates may be improved. Ten do for
	// a fair sketch; where measurements fight it may take a hundred.
	mostAdjustments = 400
	// mostAstray is how many steps in a row need not lower the sum: a long step
	// along what is hardly known bends what is well known, and the next ones
	// mend that.
	mostAstray = 4
	// surer is by how much the measurements' standard deviations shrink from one
	// stage to the next.
	surer = 8
	// fallRoundings is how much the sum of squares may seem to rise, in
	// roundings of all that goes into it.
	fallRoundings = 8
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
			sigma = float64(sigma * elementary.Hypot(d.X, d.Y))
		}
		switch {
		case open && n.drawnInOne(g) && m.Kind == linkage.Taped && n.axes == 2 && g.is < math.Abs(d.Z)-float64(doubtfulFrom*g.sigma):
			faults.Add(m.Span, "%s and %s were taped %.4g %s apart, and their heights out of the drawing alone are %.4g apart: tape it again, or correct the heights", m.From, m.To, m.Is, n.run.Units, math.Abs(d.Z))
		case sigma < finest:
			faults.Add(m.Span, "%q reads to within %.3g, finer than anything reads: write what the tape or gauge can tell", m.Name, m.Within)
		}
	}
}

// adjust brings the unknowns to where the sum of the squares of all misfits over
// their standard deviations is least, the sketch's too, and reports whether they
// settled.
//
// The measurements begin as unsure as the sketch and are made surer in stages:
// at once, they would make a narrow and winding valley of what they leave open,
// along which a search takes tiny steps.
func (n *surveyNet) adjust() bool {
	if len(n.x) == 0 {
		return true
	}
	n.setBeside()
	for i := range n.sightings {
		g := &n.sightings[i]
		n.unsure = math.Max(n.unsure, n.sketch*n.slope(g, n.x).Norm()/g.sigma)
	}
	for ; n.unsure > surer; n.unsure /= surer {
		n.settle(true)
	}
	n.unsure = 1
	if !n.settle(false) {
		return false
	}
	n.leaveSaddles()
	return true
}

// settle searches for the least sum from where the unknowns stand, roughly or to
// the end: by Gauss-Newton steps, damped where one would go too far
// (Levenberg), and near the end by Newton's, damped the same way. Newton's
// matrix has the bend of the measurements as well: where they fight, the others
// would settle slowly or not at all.
func (n *surveyNet) settle(roughly bool) bool {
	known := 1 / (n.sketch * n.sketch) // the weight of a sketched coordinate
	damping := 0.0                     // weight that holds the unknowns where they stand
	best := append([]float64(nil), n.x...)
	least, noise := n.squares(best)
	near, last, astray := false, math.Inf(1), 0
	back := func() {
		copy(n.x, best)
		damping, astray = math.Max(10*damping, known), 0
	}
	defer func() { copy(n.x, best) }()
	for step := range mostAdjustments {
		var change []float64
		if near {
			change = n.newtonStep(known, damping)
		} else {
			change = n.step(known, damping)
		}
		length := 0.0
		for u, c := range change {
			n.x[u] += c
			length = math.Max(length, math.Abs(c))
		}
		if !(change != nil && length <= n.sketch) {
			back()
			continue
		}
		sum, sumNoise := n.squares(n.x)
		if !(sum <= least+noise) {
			if astray++; astray == mostAstray {
				back()
			}
			continue
		}
		copy(best, n.x)
		if near && damping == 0 && (length <= settled*n.size || length <= stalled*n.size && length > last/2) {
			return true
		}
		if !near && (length < nearSettled*n.size || step >= enoughBySlopes) {
			if roughly {
				return true
			}
			near, damping = true, 0
		}
		least, noise, last, astray = sum, sumNoise, length, 0
		if damping /= 10; damping < known/1000 {
			damping = 0
		}
	}
	return false
}

// squares is the sum that is to be least, and what rounding may have done to it.
func (n *surveyNet) squares(x []float64) (sum, noise float64) {
	for i := range n.sightings {
		g := &n.sightings[i]
		sigma := float64(n.unsure * g.sigma)
		w := n.misfit(g, x) / sigma
		sum += float64(w * w)
		// A coordinate is rounded to a share of the run's size, a direction by what
		// that turns it.
		rounded := num.Rounding * n.size
		if g.measured.Kind == linkage.Gauged {
			rounded = float64(rounded * n.slope(g, x).Norm())
		}
		noise += 2 * math.Abs(w) * rounded / sigma
	}
	for u := range x {
		w := (x[u] - n.drawn[u]) / n.sketch
		sum += float64(w * w)
		noise += 2 * math.Abs(w) * num.Rounding * n.size / n.sketch
	}
	return sum, fallRoundings * (noise + num.Rounding*(1+sum))
}

// step is the change of the unknowns that is best by the slopes alone; nil where
// rounding makes nonsense of it.
func (n *surveyNet) step(known, damping float64) []float64 {
	tie := math.Sqrt(known + damping)
	rows, off := n.system(tie)
	for u := range n.x {
		off[len(n.sightings)+u] = float64(known*(n.drawn[u]-n.x[u])) / tie
	}
	r, right := num.Reduce(rows, off)
	if !r.Sound() {
		return nil
	}
	return r.Solve(right)
}

// newtonStep is the change that is best by slopes and bends; nil as of step.
func (n *surveyNet) newtonStep(known, damping float64) []float64 {
	hessian, descent := n.halfHessian(known)
	var a num.LU
	a.Reset(len(n.x))
	for u := range n.x {
		hessian.SetSym(u, u, hessian.At(u, u)+damping)
		for v := range n.x {
			a.Set(u, v, hessian.At(u, v))
		}
	}
	if !a.Factor() {
		return nil
	}
	change := make([]float64, len(descent))
	a.Solve(change, descent)
	return change
}

// halfHessian returns half the Hessian of the sum of squares, and half of its gradient
// taken negative, the way down.
func (n *surveyNet) halfHessian(known float64) (hessian *mat.SymDense, descent []float64) {
	tie := math.Sqrt(known)
	rows, off := n.system(tie)
	for u := range n.x {
		off[len(n.sightings)+u] = float64(tie * (n.drawn[u] - n.x[u]))
	}
	hessian, descent = num.NormalEquations(rows, off)
	add := func(u, v int, by float64) { hessian.SetSym(u, v, hessian.At(u, v)+by) }
	for i := range n.sightings {
		g := &n.sightings[i]
		bend, pull := n.bend(g, n.x), off[i]/(n.unsure*g.sigma)
		ends := n.ends(g.from, g.to)
		for _, a := range ends {
			for _, b := range ends {
				for i := range n.axes {
					for j := range n.axes {
						if u, v := a.first+i, b.first+j; u <= v {
							add(u, v, -float64(a.sign*b.sign*pull**component(&bend[i], j)))
						}
					}
				}
			}
		}
	}
	return hessian, descent
}

// tellRestless adds the fault of a search that found no rest: where places drawn
// one behind the other lie apart, no side may be better than another; else it
// names the measurement farthest off.
func (n *surveyNet) tellRestless(faults *linkage.Faults) {
	for i := range n.sightings {
		if g := &n.sightings[i]; n.aimless(g) {
			n.tellBehind(g, faults)
		}
	}
	if len(faults.List) == 0 {
		worst := n.worst()
		faults.Add(worst.Span, "the measurements can't be brought together with the sketch, and %q is farthest off: measure it again, or sketch the places it joins nearer to where they are", worst.Name)
	}
}

// worst is the measurement farthest off: from the sketch by what sketch and
// measurement may be out together, where any is off by more than chance, else
// from where the search ended by its own standard deviation.
func (n *surveyNet) worst() *linkage.Measurement {
	var worst *linkage.Measurement
	most := float64(doubtfulFrom)
	for i := range n.sightings {
		g := &n.sightings[i]
		known := float64(n.sketch * n.slope(g, n.drawn).Norm() * math.Sqrt(float64(len(n.ends(g.from, g.to)))))
		if w := math.Abs(n.misfit(g, n.drawn)) / elementary.Hypot(known, g.sigma); w > most {
			worst, most = g.measured, w
		}
	}
	if worst != nil {
		return worst
	}
	most = -1
	for i := range n.sightings {
		g := &n.sightings[i]
		if w := math.Abs(n.misfit(g, n.x)) / g.sigma; w > most {
			worst, most = g.measured, w
		}
	}
	return worst
}
