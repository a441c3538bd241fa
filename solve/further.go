// Layer: sweep.

package solve

import (
	"math"

	"fullfree/linkage"
)

// requiredMargin is the largest least of the over-center requirements that are
// about a control; 0 where there is none.
func (m *Mechanism) requiredMargin(c *linkage.Control) (least float64) {
	for _, r := range m.run.Requirements {
		if r.Kind == linkage.OverCenter && m.concerns(c, r) {
			least = math.Max(least, r.Least)
		}
	}
	return least
}

// exploreFurther looks, where over-center is required, beyond the end on a side
// that shows no critical point: as far as least, or as the other side's margin
// where that is larger.
func (s *sweeper) exploreFurther() {
	least := s.m.requiredMargin(s.sweep.Control)
	if least == 0 || s.m.freedoms[s.p.input].kind != turn {
		return
	}
	if s.m.turnsHub(s.sweep.Control) && s.sides[1].end.x-s.sides[0].end.x >= wholeTurn*(1-tieOfStops) {
		return // it has been everywhere
	}
	for more := true; more; { // no farther than a turn from neutral: then it has been everywhere
		more = false
		for i, sd := range s.sides {
			if _, found := s.margin(sd); found {
				continue
			}
			beyond := least
			if other, found := s.margin(s.sides[1-i]); found {
				beyond = math.Max(beyond, other)
			}
			target := math.Min(math.Abs(sd.holdsAt())+beyond, wholeTurn)
			if target > math.Abs(sd.w.last.x) && !sd.w.lost {
				sd.w.to(float64(target * sd.w.dir))
				more = true
			}
		}
	}
}

// margin returns the smallest margin of the critical points found on a side.
func (s *sweeper) margin(sd *side) (margin float64, found bool) {
	margin = math.Inf(1)
	if sd.w.singularity != nil {
		margin, found = s.marginOf(sd, sd.w.singularity.step, sd.w.singularity.x), true
	}
	for _, h := range s.dead {
		if (h.x >= 0) == (sd.index == 1) {
			margin, found = math.Min(margin, s.marginOf(sd, h.step, h.x)), true
		}
	}
	return margin, found
}
