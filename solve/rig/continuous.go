package rig

import (
	"math"

	"gonum.org/v1/gonum/optimize"

	"fullfree/linkage"
)

const (
	// openPenalty is what a run that doesn't close counts for: more than any
	// reserve worth telling apart.
	openPenalty = 1e6
	// unmetPenalty is what each thing counts for that can only hold or not.
	unmetPenalty = 10
)

// continuous finds where the reserve would be largest if everything could be
// set to any figure, and returns the place nearest to it. Its unit is a step of
// each axis.
func (s *rigSearch) continuous(most int) []int {
	n := len(s.axes)
	if most-s.checked <= n { // not even the corners that it starts from
		return s.asFiled()
	}
	unit := make([]float64, n)
	for i := range s.axes {
		c := s.axes[i].choices
		unit[i] = 1
		if len(c) > 1 {
			unit[i] = (c[len(c)-1].change - c[0].change) / float64(len(c)-1)
		}
	}
	changes := make([]float64, n)
	cost := func(x []float64) float64 {
		outside := 0.0
		for i := range x {
			c := s.axes[i].choices
			low, high := c[0].change/unit[i], c[len(c)-1].change/unit[i]
			inside := math.Max(low, math.Min(high, x[i]))
			outside += math.Abs(x[i] - inside)
			changes[i] = float64(inside * unit[i])
		}
		return s.cost(changes) + outside
	}
	start := make([]float64, n)
	result, err := optimize.Minimize(optimize.Problem{Func: cost}, start,
		&optimize.Settings{FuncEvaluations: most - s.checked, Converger: &optimize.FunctionConverge{Absolute: sameReserve, Iterations: 20 * n}},
		&optimize.NelderMead{SimplexSize: 2})
	if result == nil || err != nil && result.X == nil {
		return s.asFiled()
	}
	cost(result.X) // for the changes within the limits
	return s.nearest(changes)
}

// cost checks the run with every axis changed by any figure, thread aside.
func (s *rigSearch) cost(changes []float64) float64 {
	var edits []linkage.Edit
	for i := range s.axes {
		if v := s.axes[i].variables[0]; v.end != nil {
			edits = append(edits, linkage.Set(linkage.Dimension{Rod: v.end.Rod, Point: -1}, v.end.Rod.Length+changes[i]))
		} else {
			edits = append(edits, linkage.SetStop(v.stop, v.stop.At+changes[i]))
		}
	}
	_, result := s.result(edits)
	p := &rigPose{}
	if s.judge(p, result, func(i int) float64 { return changes[i] }, false); !p.closes {
		return openPenalty
	}
	return float64(unmetPenalty*float64(p.bare)) - p.least
}
