// Layer: verdict.

package solve

import "fullfree/linkage"

// judgeTaut finds the smallest tension of either cable of a pair.
func (m *Mechanism) judgeTaut(r *linkage.Requirement, about []*sweeper) (j Judgement) {
	j.Unit = m.lengthUnit(r.Pair.In).ForceUnit()
	for _, s := range about {
		for _, c := range r.Pair.Cables {
			t := s.sweep.Cables[c.Index]
			if j.worse(*t.Least, t.At, s.sweep.Index, -1) {
				j.Cable = c
			}
		}
	}
	j.decide(r.Least, -1)
	return j
}

// judgeMeets finds how far apart two points are at neutral.
func (m *Mechanism) judgeMeets(i int, r *linkage.Requirement, about []*sweeper) (j Judgement) {
	j.Unit = m.lengthUnit(r.Points[0].In())
	at := 0.0
	for _, s := range about {
		j.worse(s.origin.v[s.probeOf(i).probe], &at, s.sweep.Index, 1)
	}
	j.decide(r.Within, 1)
	return j
}
