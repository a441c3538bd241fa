package solve

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"fullfree/linkage"
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

// contradicts reports whether the measurements contradict each other or the sketch,
// or fit two drawings: then nothing that is told from the survey is sure.
func (s *Survey) contradicts() bool {
	for i := range s.Measurements {
		if s.Measurements[i].Doubtful {
			return true
		}
	}
	return len(s.FarGauges) > 0 || s.Mirror
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

// moves reports whether a figure with these derivatives by the survey's coordinates
// changes along what no measurement notices, by what the sketch may be out there.
func (s *Survey) moves(g *mat.VecDense) bool {
	if len(s.net.x) == 0 {
		return false
	}
	part := math.Sqrt(math.Max(0, mat.Inner(g, s.loose, g)))
	return 2*s.net.sketch*part > math.Max(openLeast, openShare*2*s.net.sketch*mat.Norm(g, 2))
}

// elsewhere judges the run with each open coordinate on which anything hangs out by
// what the sketch may be, to either side; nil where it can't be judged then. At a
// turning point a slope alone would not tell that a figure hangs on it.
func (m *Mechanism) elsewhere(survey *Survey) (list []*Result) {
	used := usedPoints(m.run)
	for u, d := range survey.Dimensions() {
		if !survey.untied.has(u) || d.Point >= 0 && !used[&d.Part.Points[d.Point]] {
			continue
		}
		for _, by := range []float64{-survey.net.sketch, survey.net.sketch} {
			list = append(list, m.judgedWith(survey, d, by))
		}
	}
	return list
}

// judgedWith judges the run with one of the survey's coordinates elsewhere, the arms
// of a pivot where they are; nil where that can't be.
func (m *Mechanism) judgedWith(survey *Survey, d linkage.Dimension, by float64) *Result {
	arms := survey.armsFrom(d)
	at := make([]float64, len(arms))
	for i, arm := range arms {
		at[i] = arm.Value()
	}
	undo := []func(){m.run.Set(d, d.Value()+by)}
	for i, arm := range arms {
		undo = append(undo, m.run.Set(arm, at[i]))
	}
	defer func() { undoAll(undo) }()
	n, ok := m.rebuilt()
	if !ok {
		return nil
	}
	result, err := n.Check()
	if err != nil {
		return nil
	}
	return result
}
