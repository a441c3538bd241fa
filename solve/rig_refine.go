package solve

import "slices"

// refine goes on between the places of the grid, from the best of them: for a
// larger reserve, then for fewer turns with as much.
func (s *rigSearch) refine() {
	if len(s.searched.Any) == 0 || len(s.poses) == 0 {
		return
	}
	best := s.poses[0]
	for _, p := range s.poses {
		if p.better(best) || p.compareClass(best) == 0 && p.reserve >= best.reserve-gainedReserve && turnsOf(p.choices) < turnsOf(best.choices) {
			best = p
		}
	}
	if !best.closes {
		return
	}
	best = s.halve(best, func(p, than *rigPose) bool { return p.better(than) })
	floor := best.reserve - sameReserve
	s.halve(best, func(p, than *rigPose) bool {
		return p.compareClass(than) == 0 && p.reserve >= floor && turnsOf(p.choices) < turnsOf(than.choices)
	})
}

// fine is a variable that the grid doesn't try in all of its steps.
type fine struct{ axis, variable int }

// halve moves one or two of the fine variables at a time, by ever smaller steps,
// as long as a move is preferred.
func (s *rigSearch) halve(from *rigPose, prefer func(p, than *rigPose) bool) *rigPose {
	var list []fine
	step := 1
	for i := range s.axes {
		for j, v := range s.axes[i].variables {
			if v.stride > 1 {
				list = append(list, fine{i, j})
				step = max(step, v.stride)
			}
		}
	}
	for ; step >= 1; step /= 2 {
		for moved := true; moved && !s.spent(s.budget); {
			moved = false
			for _, to := range s.moves(from, list, step) {
				if s.spent(s.budget) {
					break
				}
				if p := s.check(to); prefer(p, from) {
					from, moved = p, true
					break
				}
			}
		}
	}
	return from
}

// moves are the choices one step off in one or two of the fine variables.
func (s *rigSearch) moves(from *rigPose, list []fine, step int) (all [][]rigChoice) {
	signs := []int{1, -1}
	for i, f := range list {
		for _, sign := range signs {
			one, ok := s.moved(from.choices, f, sign*step)
			if !ok {
				continue
			}
			all = append(all, one)
			for _, g := range list[i+1:] {
				for _, sign := range signs {
					if two, ok := s.moved(one, g, sign*step); ok {
						all = append(all, two)
					}
				}
			}
		}
	}
	return all
}

// moved is choices with one variable moved, which fixes the way of its axis.
func (s *rigSearch) moved(choices []rigChoice, f fine, by int) ([]rigChoice, bool) {
	a := &s.axes[f.axis]
	steps := slices.Clone(choices[f.axis].ways[0].steps)
	v := &a.variables[f.variable]
	steps[f.variable] += by
	if k := steps[f.variable]; k < v.low || k > v.high {
		return nil, false
	}
	list := slices.Clone(choices)
	list[f.axis] = rigChoice{change: a.change(steps), ways: []rigWay{s.way(a, steps)}}
	return list, true
}
