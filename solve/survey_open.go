package solve

import (
	"math"

	"fullfree/linkage"
	"fullfree/solve/internal/num"
)

const (
	// openLeast is by how much, in its own unit, a figure must go with what the sketch
	// leaves of an open place to hang on it: far above rounding, and far below what
	// any gauge tells.
	openLeast = 1e-6
	// openShare is the same as a share of what all places do to the figure: above what
	// rounding leaves.
	openShare = 1e-3
)

// sameFigure reports whether two judgements of a requirement come to the same.
func sameFigure(a, b *Judgement) bool {
	return a.Verdict == b.Verdict && a.Worst != nil && b.Worst != nil && math.Abs(*a.Worst-*b.Worst) <= openLeast
}

// leavesOpen reports whether a place is undetermined on which anything hangs.
func (s *Survey) leavesOpen() bool {
	for i := range s.Points {
		if p := &s.Points[i]; !p.Idle && p.Undetermined != [3]bool{} {
			return true
		}
	}
	return false
}

// moves reports whether a figure with these derivatives by the survey's coordinates
// changes along what no measurement notices, by what the sketch may be out there.
func (s *Survey) moves(g []float64) bool {
	if len(s.net.x) == 0 {
		return false
	}
	part := math.Sqrt(math.Max(0, num.Quadratic(s.loose, g)))
	return float64(2*s.net.sketch*part) > math.Max(openLeast, openShare*2*s.net.sketch*num.Norm(g))
}

// elsewhere judges the run with each open coordinate on which anything hangs out by
// what the sketch may be, to either side; nil where it can't be judged then. At a
// turning point a slope alone would not tell that a figure hangs on it.
func (m *Mechanism) elsewhere(survey *Survey) (list []*Result) {
	used := usedPoints(m.run)
	var open []linkage.Dimension
	for u, d := range survey.Dimensions() {
		d, ok := m.run.Dimension(d)
		if ok && survey.untied.has(u) && (d.Point < 0 || used[&d.Part.Points[d.Point]]) {
			open = append(open, d)
		}
	}
	list = make([]*Result, 2*len(open))
	each(len(list), func(i int) {
		by := []float64{-survey.net.sketch, survey.net.sketch}[i%2]
		list[i] = m.judgedWith(survey, open[i/2], by)
	})
	return list
}

// judgedWith judges the run with one of the survey's coordinates elsewhere, the arms
// of a pivot where they are; nil where that can't be.
func (m *Mechanism) judgedWith(survey *Survey, d linkage.Dimension, by float64) *Result {
	edits := []linkage.Edit{linkage.Shift(d, by)}
	for _, arm := range survey.armsFrom(d) {
		if here, ok := m.run.Dimension(arm); ok {
			edits = append(edits, linkage.Set(here, here.Value()))
		}
	}
	n, ok := m.with(edits...)
	if !ok {
		return nil
	}
	result, err := n.Check()
	if err != nil {
		return nil
	}
	return result
}
