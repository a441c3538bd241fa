// Layer: questions.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
	"fullfree/solve/internal/num"
)

const (
	// extraSteps is into how many steps at most the travel is divided to look
	// for an extra reading: degrees, where it is 24 to each side.
	extraSteps = 48
	// protractor and tape are to how much an angle and a length are taken to read
	// either way where no rigging says it, degrees and mm or in: common practice,
	// no source.
	protractor      = 0.5
	tapeMillimeters = 1.0
	tapeInches      = 0.04
)

// tellsApart finds the further reading that tells most of the candidates of group 1
// apart, each as fitted: by which most pairs of them differ by more than it takes,
// and of those readings the one about which they differ most for what it reads to.
// It is nil where there is nothing to tell apart, or where no two differ by so much:
// then no reading of this run is fine enough. A gauge is taken to keep its zero
// where it reads the same thing again, and to have none elsewhere.
func (g *diagnoser) tellsApart(r *readings) (best *Extra) {
	likely := g.likely()
	if len(likely) < 2 {
		return nil
	}
	// One more reading tells two candidates apart that fit the others equally well
	// where they differ by so many of its standard deviations.
	enough := math.Sqrt(apart(len(r.read)+1, len(g.d.Candidates))) / 2
	subjects := g.subjects()
	pairs, most := 0, 0.0
	for _, c := range g.m.run.Controls {
		s, fault := g.sweep(c)
		if fault != nil {
			continue
		}
		grid := s.grid()
		told := make([][][]float64, len(grid)) // by position and subject: what they predict
		for x := range told {
			told[x] = make([][]float64, len(subjects))
		}
		for i := range likely {
			g.predictAll(&likely[i], s, grid, subjects, func(x, y int, v float64) {
				if !math.IsNaN(v - v) {
					told[x][y] = append(told[x][y], v)
				}
			})
		}
		for y, of := range subjects {
			within, assumed := g.readsTo(of)
			for x, at := range grid {
				v := told[x][y]
				slices.Sort(v)
				n := pairsApart(v, float64(enough*within))
				if n == 0 {
					continue
				}
				if differs := v[len(v)-1] - v[0]; n > pairs || n == pairs && differs/within > most*(1+num.Tie) {
					pairs, most = n, differs/within
					best = &Extra{c, of, g.m.subjectMeasure(of).unit, at.x, differs, within, assumed}
				}
			}
		}
	}
	return best
}

// pairsApart counts the pairs of ascending numbers that differ by more than some
// least.
func pairsApart(list []float64, least float64) (count int) {
	low := 0
	for _, v := range list {
		for v-list[low] > least {
			low++
		}
		count += low
	}
	return count
}

// subjects are what can be read: outputs first, then the moving parts.
func (g *diagnoser) subjects() (list []linkage.Subject) {
	for _, o := range g.m.run.Outputs {
		list = append(list, linkage.Subject{Output: o})
	}
	for _, p := range g.m.run.Parts {
		if p.Motion != linkage.Fixed {
			list = append(list, linkage.Subject{Part: p})
		}
	}
	return list
}

// sameGauge reports whether two subjects are read by a gauge in one place: a part
// and an output that is that part's turn or slide are.
func sameGauge(a, b linkage.Subject) bool {
	part := func(s linkage.Subject) *linkage.Part {
		if s.Output != nil {
			return s.Output.Part
		}
		return s.Part
	}
	return a == b || part(a) != nil && part(a) == part(b)
}

// readsTo is to how much a subject is taken to read either way: as where it was
// read, else as the finest reading in its unit, else as common practice has it,
// which is assumed.
func (g *diagnoser) readsTo(of linkage.Subject) (within float64, assumed bool) {
	unit := g.m.subjectMeasure(of).unit
	same, finest := math.Inf(1), math.Inf(1)
	for _, r := range g.d.Riggings {
		if sameGauge(r.Of, of) {
			same = math.Min(same, r.Within)
		}
		if g.m.subjectMeasure(r.Of).unit == unit {
			finest = math.Min(finest, r.Within)
		}
	}
	switch {
	case !math.IsInf(same, 0):
		return same, false
	case !math.IsInf(finest, 0):
		return finest, false
	case unit == degrees:
		return protractor, true
	case unit == linkage.Inches:
		return tapeInches, true
	}
	return tapeMillimeters, true
}

// posed is a position of the control with the freedoms of the run as drawn.
type gridPose struct {
	x float64
	q []float64
}

// grid is the positions at which a reading could be taken: both ends of the
// travel, and between them round figures.
func (s *sweeper) grid() (list []gridPose) {
	low, high := s.sweep.Low, s.sweep.High
	step := roundStep(high - low)
	at := []float64{low}
	for i := math.Floor(low/step) + 1; i*step < high; i++ {
		at = append(at, float64(i*step))
	}
	if high > low {
		at = append(at, high)
	}
	for _, x := range at {
		if s.solveAt(x) {
			list = append(list, gridPose{x, append([]float64(nil), s.p.st.q...)})
		}
	}
	return list
}

// roundStep is the smallest of 1, 2, 5, 10, 20 ..., or 0.5, 0.2, 0.1 ..., of
// which extraSteps make up a travel.
func roundStep(travel float64) float64 {
	if !(travel > 0) {
		return 1
	}
	ten := math.Pow10(elementary.Decade(travel / extraSteps))
	for _, k := range []float64{1, 2, 5} {
		if k*ten*extraSteps >= travel {
			return float64(k * ten)
		}
	}
	return float64(10 * ten)
}

// predictAll tells what a candidate, as fitted, predicts of every subject at
// every position where its run closes.
func (g *diagnoser) predictAll(c *Candidate, s *sweeper, grid []gridPose, subjects []linkage.Subject, tell func(x, y int, v float64)) {
	visit := func(n *Mechanism) bool {
		p := n.heldPath(s.sweep.Control, s.sweep.Held)
		measures := make([]measure, len(subjects))
		for y, of := range subjects {
			measures[y] = n.subjectMeasure(of)
		}
		p.outward(grid, difference(n.neutral.q, g.m.neutral.q), func(x int) {
			for y, of := range subjects {
				v := measures[y].value(p)
				if c.Zero != nil && sameGauge(c.Zero.Of, of) {
					v += c.Estimate
				}
				tell(x, y, v)
			}
		})
		return true
	}
	if c.Zero != nil {
		visit(g.m)
		return
	}
	g.m.changing(*c.Dim, c.Estimate, visit)
}

// outward closes a changed run at every position of a grid where it closes, from
// neutral up and then down. It is as far off the run as drawn as it was one
// position before; off is how far at neutral.
func (p *path) outward(grid []gridPose, off []float64, visit func(x int)) {
	above := slices.IndexFunc(grid, func(at gridPose) bool { return at.x >= 0 })
	if above < 0 {
		above = len(grid)
	}
	guess := make([]float64, len(off))
	poseAt := func(x int, off []float64) []float64 {
		for f, q := range grid[x].q {
			guess[f] = q + off[f]
		}
		if !p.poseNear(grid[x].x, guess) {
			return off
		}
		visit(x)
		return difference(p.st.q, grid[x].q)
	}
	for x, off := above, off; x < len(grid); x++ {
		off = poseAt(x, off)
	}
	for x, off := above-1, off; x >= 0; x-- {
		off = poseAt(x, off)
	}
}

func difference(a, b []float64) []float64 {
	d := make([]float64, len(a))
	for i := range a {
		d[i] = a[i] - b[i]
	}
	return d
}
