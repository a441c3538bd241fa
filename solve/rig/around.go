package rig

import (
	"iter"
	"math"
	"slices"
)

// box checks all places within some steps of a center, every axis on its own, and
// reports whether the budget lasted.
func (s *rigSearch) box(center []int, within, most int) (whole bool) {
	place := make([]int, len(center))
	return s.checkAll(most, func(yield func([]int) bool) {
		var from func(i int) bool
		from = func(i int) bool {
			if i == len(place) {
				return yield(place)
			}
			low, high := s.near(i, center[i], within)
			for k := low; k <= high; k++ {
				if place[i] = k; !from(i + 1) {
					return false
				}
			}
			return true
		}
		from(0)
	})
}

// checkAll checks places of the grid one after another, and reports whether most
// allowed all of them.
func (s *rigSearch) checkAll(most int, places iter.Seq[[]int]) (whole bool) {
	for place := range s.foreseen(most, places) {
		if !s.atWithin(place, most) {
			return false
		}
	}
	return true
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
		n = float64(n * float64(high-low+1))
	}
	return n
}

// searchAround checks what moves few axes; goes on from the best of that, from the
// settings as filed and from the continuous optimum to what is better as long as
// there is such; looks for what takes fewer ends; and then searches all around the
// best, as far as the budget lasts.
func (s *rigSearch) searchAround(most int) {
	part := func(share float64) int { return s.checked + int(share*float64(most-s.checked)) }
	s.searchFew(1, part(0.25))
	s.climb(s.filed, s.allAxes(), part(0.25))
	s.climb(s.best, s.allAxes(), part(0.25))
	s.climb(s.at(s.continuous(part(0.25))), s.allAxes(), part(0.3))
	s.climb(s.best, s.allAxes(), part(0.5))
	s.searchFewer(part(0.25))
	for few := 2; s.searched.Few == few-1 && few <= len(s.axes) && s.searchFew(few, part(0.6)); few++ {
	}
	s.searchBoxes(part(0.8))
	around := s.best
	if s.searchFewer(most); s.best != around {
		s.searched.Around = 0 // what was searched all around is no longer the best
	}
}

// searchBoxes checks all places within one step of the best, then two and so on,
// and starts again wherever it comes to something better.
func (s *rigSearch) searchBoxes(most int) {
	within := 1
	best := s.best
	center := s.placeOf(best)
	for s.boxSize(center, within) <= float64(most) {
		whole := s.box(center, within, most)
		switch {
		case s.best.better(best):
			best, within, s.searched.Around = s.best, 1, 0
			center = s.placeOf(best)
			continue
		case !whole:
			return
		case s.boxSize(center, within) == s.size():
			s.searched.Whole, s.searched.Around = true, 0
			return
		}
		s.searched.Around = within
		within++
	}
}

// asFiled is the place nearest to the file's.
func (s *rigSearch) asFiled() []int { return s.nearest(make([]float64, len(s.axes))) }

// placeOf is the place nearest to a pose.
func (s *rigSearch) placeOf(p *rigPose) []int {
	changes := make([]float64, len(s.axes))
	for i := range changes {
		changes[i] = p.choices[i].change
	}
	return s.nearest(changes)
}

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

// allAxes lists all axes.
func (s *rigSearch) allAxes() (axes []int) {
	for i := range s.axes {
		axes = append(axes, i)
	}
	return axes
}

// climb goes from a pose to the best of the neighbors, one or two of some axes by a
// step each, as long as that is better.
func (s *rigSearch) climb(from *rigPose, axes []int, most int) *rigPose {
	for {
		best, place := from, s.placeOf(from)
		for p := range s.neighbors(place, axes, most) {
			if p.better(best) {
				best = p
			}
		}
		if best == from {
			return from
		}
		from = best
	}
}

// neighbors checks the places one step off on one of some axes, and then on two of
// them, until most have been checked.
func (s *rigSearch) neighbors(center, axes []int, most int) iter.Seq[*rigPose] {
	place := slices.Clone(center)
	// steps takes both steps along an axis that the grid has.
	steps := func(i int, then func() bool) bool {
		defer func() { place[i] = center[i] }()
		for _, by := range []int{1, -1} {
			if place[i] = center[i] + by; place[i] >= 0 && place[i] < len(s.axes[i].choices) && !then() {
				return false
			}
		}
		return true
	}
	places := func(yield func([]int) bool) {
		tell := func() bool { return yield(place) }
		for _, i := range axes {
			if !steps(i, tell) {
				return
			}
		}
		for n, i := range axes {
			for _, j := range axes[n+1:] {
				if !steps(i, func() bool { return steps(j, tell) }) {
					return
				}
			}
		}
	}
	return func(yield func(*rigPose) bool) {
		for place := range s.foreseen(most, places) {
			if s.spent(most) || !yield(s.at(place)) {
				return
			}
		}
	}
}
