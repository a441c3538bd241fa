package rig

import (
	"iter"
	"slices"
)

// refine goes on between the places of the grid: from the best of them for a larger
// reserve; then from what comes out as the best setting, with nothing else touched,
// for a larger reserve and for fewer turns with as much.
func (s *rigSearch) refine() {
	if len(s.searched.Any) == 0 || !s.best.closes {
		return
	}
	larger := func(p, than *rigPose) bool { return p.better(than) }
	s.halve(s.best, s.allAxes(), larger)
	k, ok := s.newRanker(nil).next()
	if !ok {
		return
	}
	moved := k.pose.moves()
	best := s.halve(k.pose, moved, larger)
	floor := best.reserve - sameReserve
	s.halve(best, moved, func(p, than *rigPose) bool {
		return p.noWorse(best, floor) && p.moved <= than.moved+gainedReserve && p.turns() < than.turns()
	})
}

// moves lists the axes that a pose moves.
func (p *rigPose) moves() (axes []int) {
	for i, c := range p.choices {
		if c.change != 0 {
			axes = append(axes, i)
		}
	}
	return axes
}

// turns are all that a pose takes, millionths.
func (p *rigPose) turns() (sum int64) {
	for i := range p.choices {
		sum += p.choices[i].ways[0].turns
	}
	return sum
}

// fine is a variable that the grid doesn't try in all of its steps.
type fine struct{ axis, variable int }

// halve moves one or two of the fine variables of some axes at a time, by ever
// smaller steps, as long as a move is preferred.
func (s *rigSearch) halve(from *rigPose, axes []int, prefer func(p, than *rigPose) bool) *rigPose {
	var list []fine
	step := 1
	for _, i := range axes {
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
			for to := range s.moves(from, list, step) {
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
func (s *rigSearch) moves(from *rigPose, list []fine, step int) iter.Seq[[]rigChoice] {
	signs := []int{1, -1}
	return func(yield func([]rigChoice) bool) {
		for i, f := range list {
			for _, sign := range signs {
				one, ok := s.moved(from.choices, f, sign*step)
				if !ok {
					continue
				}
				if !yield(one) {
					return
				}
				for _, g := range list[i+1:] {
					for _, sign := range signs {
						if two, ok := s.moved(one, g, sign*step); ok && !yield(two) {
							return
						}
					}
				}
			}
		}
	}
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
