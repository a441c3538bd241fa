// Layer: questions.

package solve

import (
	"math"

	"fullfree/linkage"
	"fullfree/solve/internal/parallel"
	"fullfree/solve/survey"
)

// sameFigure reports whether two judgements of a requirement come to the same.
func sameFigure(a, b *Judgement) bool {
	return a.Verdict == b.Verdict && a.Worst != nil && b.Worst != nil && math.Abs(*a.Worst-*b.Worst) <= survey.OpenLeast
}

// elsewhere judges the run with each open coordinate on which anything hangs out by
// what the sketch may be, to either side; nil where it can't be judged then. At a
// turning point a slope alone would not tell that a figure hangs on it.
func (m *Mechanism) elsewhere(survey *survey.Survey) (list []*Result) {
	open := survey.OpenDimensions(m.run)
	list = make([]*Result, 2*len(open))
	parallel.Each(len(list), func(i int) {
		by := []float64{-survey.Run.Sketch, survey.Run.Sketch}[i%2]
		list[i] = m.judgedWith(survey, open[i/2], by)
	})
	return list
}

// judgedWith judges the run with one of the survey's coordinates elsewhere, the arms
// of a pivot where they are; nil where that can't be.
func (m *Mechanism) judgedWith(survey *survey.Survey, d linkage.Dimension, by float64) *Result {
	edits := []linkage.Edit{linkage.Shift(d, by)}
	for _, arm := range survey.ArmsFrom(d) {
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
