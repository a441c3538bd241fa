package solve

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"

	"fullfree/linkage"
)

const (
	// openLeast is by how much, in its own unit, a figure must go with what the sketch
	// leaves of an open place to hang on it: far above rounding, and far below what
	// any gauge tells.
	openLeast = 1e-6
	// openShare is the same as a share of what all places do to the figure: differences
	// of bandStep leave out less.
	openShare = 1e-3
)

// addUntied fills in which requirements hang on what the survey leaves open, by
// their figures and the slopes of these by some dimensions. Of a figure that there is
// no telling of, or none at all, it is whether anything hangs on that.
func (m *Mechanism) addUntied(result *Result, survey *Survey, figures []*figure, dimensions []linkage.Dimension, slopes [][]float64) {
	var others []*Result
	known := false
	for i, f := range figures {
		j := &result.Requirements[i]
		hangs := survey.leavesOpen()
		if f != nil && hangs {
			if hangs = survey.moves(dimensions, slopes[i]); !hangs {
				if !known {
					others, known = m.elsewhere(survey, dimensions), true
				}
				hangs = slices.ContainsFunc(others, func(r *Result) bool { return r == nil || !sameFigure(&r.Requirements[i], j) })
			}
		}
		j.Untied = &hangs
	}
}

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

// moves reports whether a figure with these slopes changes along what no measurement
// notices, by what the sketch may be out there.
func (s *Survey) moves(dimensions []linkage.Dimension, slopes []float64) bool {
	if len(s.net.x) == 0 {
		return false
	}
	g := s.gradient(dimensions, slopes)
	part := math.Sqrt(math.Max(0, mat.Inner(g, s.loose, g)))
	return 2*s.net.sketch*part > math.Max(openLeast, openShare*2*s.net.sketch*mat.Norm(g, 2))
}

// elsewhere judges the run with each open coordinate on which anything hangs out by
// what the sketch may be, to either side; nil where it can't be judged then. At a
// turning point a slope alone would not tell that a figure hangs on it.
func (m *Mechanism) elsewhere(survey *Survey, dimensions []linkage.Dimension) (list []*Result) {
	open := make(map[linkage.Dimension]bool)
	for u, d := range survey.Dimensions() {
		if d, ok := m.run.Dimension(d); ok {
			open[d] = survey.untied.has(u)
		}
	}
	dimensions = slices.DeleteFunc(slices.Clone(dimensions), func(d linkage.Dimension) bool { return !open[d] })
	list = make([]*Result, 2*len(dimensions))
	each(len(list), func(i int) {
		by := []float64{-survey.net.sketch, survey.net.sketch}[i%2]
		list[i] = m.judgedWith(survey, dimensions[i/2], by)
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
