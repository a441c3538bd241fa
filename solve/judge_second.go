// Layer: verdict.

package solve

import (
	"math"

	"fullfree/linkage"
)

// judgeSecondPath finds the largest misfit of a second path beyond its play.
func (m *Mechanism) judgeSecondPath(r *linkage.Requirement, about []*sweeper) (j Judgement) {
	j.Unit = m.lengthUnit(r.In)
	for _, s := range about {
		for l, rod := range m.run.Rods {
			if fit := s.sweep.Rods[l].SecondPath; fit != nil && isAbout(r, rod.In) && j.worse(fit.Misfit-rod.Play, fit.At, s.sweep.Index, 1) {
				j.Rod, j.Reaches = rod, fit.Misfit
			}
		}
	}
	if j.Worst != nil {
		*j.Worst = math.Max(0, *j.Worst) // what play takes up binds nothing
	}
	limit := 0.0
	if r.Most != nil {
		limit = *r.Most
	}
	j.decide(limit, 1)
	return j
}
