// Layer: questions.

package solve

// Of the pitch of a blade it is asked what a turn of its link makes of the collective, which
// is the mean over the turn of the rotor: the derivative of a mean over a turn whose ends
// stay is the mean of the derivatives.

// aroundTurns fills in that mean of what turns do, of the outputs that have a cycle. first is
// the place of the first output among the figures.
func (s *sweeper) aroundTurns(list []PerTurn, first int, g grown, per float64) {
	var probes, of []int
	nodes := 0
	for i := range s.sweep.Outputs {
		if k := s.sweep.Outputs[i].Cycle; k != nil {
			probes, of = append(probes, s.outputs[i]), append(of, first+i)
			nodes = max(nodes, k.nodes)
		}
	}
	if len(probes) == 0 {
		return
	}
	from, _ := s.sweep.fullTurn()
	sums, told := make([]float64, len(probes)), make([]bool, len(probes))
	for i := range told {
		told[i] = true
	}
	for j := range nodes {
		for i, v := range s.perTurn(probes, g, per, from+float64(wholeTurn*float64(j))/float64(nodes), -1) {
			if v == nil {
				told[i] = false
				continue
			}
			sums[i] += *v
		}
	}
	for i, ok := range told {
		if ok {
			mean := sums[i] / float64(nodes)
			list[of[i]].Around = &mean
		}
	}
}
