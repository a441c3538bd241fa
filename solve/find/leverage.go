package find

import (
	"math"

	"fullfree/linkage"
	"fullfree/solve"
)

// Leverage is how far an output goes for what its control does, in a setting and as filed;
// nil where there is no figure, or the run as filed was not swept so.
type Leverage struct {
	Output                   *linkage.Output
	Sweep                    int // in Setting.Check.Sweeps
	Unit                     linkage.Unit
	Neutral, Least           *float64
	NeutralFiled, LeastFiled *float64
}

// Leverage tells that of every output in every sweep.
func (s *Setting) Leverage(filed *solve.Result) (list []Leverage) {
	for i, w := range s.Check.Sweeps {
		for k := range w.Outputs {
			o := &w.Outputs[k]
			l := Leverage{Output: o.Output, Sweep: i, Unit: o.Ratio.Unit, Neutral: o.Ratio.Neutral, Least: o.Ratio.Least}
			if filed != nil && i < len(filed.Sweeps) && k < len(filed.Sweeps[i].Outputs) {
				was := filed.Sweeps[i].Outputs[k].Ratio
				l.NeutralFiled, l.LeastFiled = was.Neutral, was.Least
			}
			list = append(list, l)
		}
	}
	return list
}

// ReserveWithout is the least reserve of all requirements but one; nil where none has one.
func (s *Setting) ReserveWithout(dropped *linkage.Requirement) *float64 {
	least := math.Inf(1)
	for i := range s.Check.Requirements {
		j := &s.Check.Requirements[i]
		if v := j.Reserve(); v != nil && j.Requirement.Index != dropped.Index {
			least = math.Min(least, *v)
		}
	}
	if math.IsInf(least, 1) {
		return nil
	}
	return &least
}
