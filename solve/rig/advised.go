package rig

import (
	"math"
	"slices"

	"fullfree/solve"
)

// advised is the setting that a check advises: every second path at the length at which it
// fits best, by the turns that are told with it; ok is false where it advises none, or none
// that its ends can make.
func (s *rigSearch) advised() (k rigRank, ok bool) {
	filed := checkedWith(s.m, nil)
	s.work += filed.took
	if filed.result == nil {
		return k, false
	}
	steps := make([][]int, len(s.axes))
	for i := range s.axes {
		steps[i] = make([]int, len(s.axes[i].variables))
	}
	for i := range filed.result.SecondPaths {
		turn := filed.result.SecondPaths[i].Turn
		if turn == nil || turn.Turns == 0 || !turn.HasThread {
			continue
		}
		for a := range s.axes {
			for v := range s.axes[a].variables {
				if x := &s.axes[a].variables[v]; x.end != nil && x.end.String() == turn.End.String() {
					steps[a][v], ok = int(math.Round(turn.Turns/x.step)), true
				}
			}
		}
	}
	if !ok {
		return k, false
	}
	choices := make([]rigChoice, len(s.axes))
	for i := range s.axes {
		a := &s.axes[i]
		if !a.within(steps[i]) {
			return k, false
		}
		choices[i] = rigChoice{change: a.change(steps[i]), ways: []rigWay{s.way(a, steps[i])}}
	}
	k = rigRank{pose: s.check(choices), spare: math.MaxInt64}
	for i, c := range choices {
		w := c.ways[0]
		k.steps, k.ends, k.turns, k.spare = append(k.steps, steps[i]...), k.ends+w.ends, k.turns+w.turns, min(k.spare, w.spare)
	}
	return k, k.pose.holds()
}

// tellAdvised tells what a check advises where that meets everything, and isn't the best
// that was found.
func (s *rigSearch) tellAdvised(rig *Answer, best rigRank) error {
	k, ok := s.advised()
	if !ok || slices.Equal(k.steps, best.steps) {
		return nil
	}
	set, err := s.newRanker(nil).settingOnce(rig, k, false)
	if err == nil && set != nil && set.Verdict == solve.Holds {
		rig.Advised = set
	}
	return err
}
