package solve

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/optimize"

	"fullfree/linkage"
)

// box checks all places within some steps of a center, every axis on its own,
// and returns the best of them; whole says that the budget lasted.
func (s *rigSearch) box(center []int, within, most int) (best *rigPose, whole bool) {
	place := make([]int, len(center))
	whole = true
	var each func(i int)
	each = func(i int) {
		if i == len(place) {
			if p := s.at(place); best == nil || p.better(best) {
				best = p
			}
			return
		}
		low, high := s.near(i, center[i], within)
		for k := low; k <= high; k++ {
			if s.spent(most) {
				whole = false
				return
			}
			place[i] = k
			each(i + 1)
		}
	}
	each(0)
	return best, whole
}

// near is the range of an axis within some steps of a place.
func (s *rigSearch) near(i, center, within int) (low, high int) {
	last := len(s.axes[i].choices) - 1
	if within > last {
		return 0, last
	}
	return max(0, center-within), min(last, center+within)
}

// boxSize is how many places a box has.
func (s *rigSearch) boxSize(center []int, within int) float64 {
	n := 1.0
	for i := range s.axes {
		low, high := s.near(i, center[i], within)
		n *= float64(high - low + 1)
	}
	return n
}

// searchAround goes from the settings as filed and from the continuous optimum
// to the best of their neighbors as long as that is better, and then searches
// as far around the best as the budget lasts. Last it looks for fewer turns.
func (s *rigSearch) searchAround(most int) {
	quarter := (most - s.checked) / 4
	best := s.climb(s.at(s.asFiled()), most-3*quarter)
	if p := s.climb(s.at(s.continuous(most-2*quarter)), most-quarter); p.better(best) {
		best = p
	}
	best = s.climb(best, most)
	for within := 1; s.boxSize(best.place, within) <= float64(most); {
		p, whole := s.box(best.place, within, most)
		switch {
		case p != nil && p.better(best):
			best, within, s.searched.Around = p, 1, 0
			continue
		case !whole:
		case s.boxSize(best.place, within) == s.size():
			s.searched.Whole, s.searched.Around = true, 0
		default:
			s.searched.Around = within
			within++
			continue
		}
		break
	}
	s.relax(best, best.reserve-sameReserve)
}

// asFiled is the place nearest to the file's.
func (s *rigSearch) asFiled() []int { return s.nearest(make([]float64, len(s.axes))) }

// nearest is the place nearest to a change of each axis.
func (s *rigSearch) nearest(changes []float64) []int {
	place := make([]int, len(s.axes))
	for i := range s.axes {
		for k, c := range s.axes[i].choices {
			if math.Abs(c.change-changes[i]) < math.Abs(s.axes[i].choices[place[i]].change-changes[i]) {
				place[i] = k
			}
		}
	}
	return place
}

// climb goes to the best of the neighbors, one or two axes by a step each, as
// long as that is better.
func (s *rigSearch) climb(from *rigPose, most int) *rigPose {
	for {
		best := from
		s.neighbors(from.place, func(place []int) {
			if p := s.at(place); !s.spent(most) && p.better(best) {
				best = p
			}
		}, most)
		if best == from {
			return from
		}
		from = best
	}
}

// neighbors tells the places one step off on one or two axes.
func (s *rigSearch) neighbors(center []int, tell func(place []int), most int) {
	place := slices.Clone(center)
	move := func(i, by int, then func()) {
		k := center[i] + by
		if k < 0 || k >= len(s.axes[i].choices) || s.spent(most) {
			return
		}
		place[i] = k
		then()
		place[i] = center[i]
	}
	for i := range center {
		for _, by := range []int{1, -1} {
			move(i, by, func() {
				tell(place)
				for j := i + 1; j < len(center); j++ {
					move(j, 1, func() { tell(place) })
					move(j, -1, func() { tell(place) })
				}
			})
		}
	}
}

// relax goes to neighbors that take fewer turns as long as they keep a reserve.
func (s *rigSearch) relax(from *rigPose, reserve float64) {
	for {
		best := from
		s.neighbors(from.place, func(place []int) {
			if s.turnsAt(place) >= turnsOf(best.choices) {
				return
			}
			if p := s.at(place); p.compareClass(from) == 0 && p.reserve >= reserve {
				best = p
			}
		}, s.budget)
		if best == from {
			return
		}
		from = best
	}
}

func (s *rigSearch) turnsAt(place []int) (sum int64) {
	for i, k := range place {
		sum += s.axes[i].choices[k].ways[0].turns
	}
	return sum
}

func turnsOf(choices []rigChoice) (sum int64) {
	for i := range choices {
		sum += choices[i].ways[0].turns
	}
	return sum
}

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
			changes[i] = inside * unit[i]
		}
		return s.cost(changes) + outside
	}
	start := make([]float64, n)
	result, err := optimize.Minimize(optimize.Problem{Func: cost}, start,
		&optimize.Settings{FuncEvaluations: max(most-s.checked, 4*n), Converger: &optimize.FunctionConverge{Absolute: sameReserve, Iterations: 20 * n}},
		&optimize.NelderMead{SimplexSize: 2})
	if result == nil || err != nil && result.X == nil {
		return s.asFiled()
	}
	cost(result.X) // for the changes within the limits
	return s.nearest(changes)
}

// cost checks the run with every axis changed by any figure, thread aside.
func (s *rigSearch) cost(changes []float64) float64 {
	if s.worked > rigWork*mostWork {
		return openPenalty // whatever it would be: the search is over
	}
	run := s.m.run
	var undone []func()
	for i := range s.axes {
		v := s.axes[i].variables[0]
		if v.end != nil {
			undone = append(undone, run.Set(linkage.Dimension{Rod: v.end.Rod, Point: -1}, v.end.Rod.Length+changes[i]))
			continue
		}
		undone = append(undone, RigStop{v.stop, v.stop.At + changes[i]}.apply())
	}
	result := s.result()
	undoAll(undone)
	p := &rigPose{}
	s.judge(p, result, func(i int) float64 { return changes[i] })
	if !p.closes {
		return openPenalty
	}
	return float64(unmetPenalty*float64(p.unmet)) - p.reserve
}
