package rig

import "slices"

// searchFew checks all settings that move so many of the axes, the others being as
// filed. It returns false where the budget doesn't last; it checks none where that
// is known before.
func (s *rigSearch) searchFew(count, most int) bool {
	if s.fewSize(count) > float64(most-s.checked) {
		return false
	}
	filed := s.asFiled()
	place := slices.Clone(filed)
	whole := s.checkAll(most, func(yield func([]int) bool) {
		var move func(from, left int) bool
		move = func(from, left int) bool {
			if left == 0 {
				return yield(place)
			}
			for i := from; i <= len(place)-left; i++ {
				for k := range s.axes[i].choices {
					if place[i] = k; k != filed[i] && !move(i+1, left-1) {
						return false
					}
				}
				place[i] = filed[i]
			}
			return true
		}
		move(0, count)
	})
	if !whole {
		return false
	}
	if len(s.outside) == 0 && len(s.away) == 0 {
		s.searched.Few = count
	}
	return true
}

// fewSize is how many settings move so many of the axes.
func (s *rigSearch) fewSize(count int) float64 {
	sizes := make([]float64, count+1) // by how many are moved, of the axes so far
	sizes[0] = 1
	for i := range s.axes {
		for n := count; n > 0; n-- {
			sizes[n] += float64(sizes[n-1] * float64(len(s.axes[i].choices)-1))
		}
	}
	return sizes[count]
}

// searchFewer goes from the best pose on to what moves fewer axes and keeps enough
// of its reserve: it puts one after another back to what the file has and the
// others to what is best then. It also looks for more reserve in what moves no
// others than what comes out as the best setting.
func (s *rigSearch) searchFewer(most int) {
	floor := s.best.reserve * enoughReserve
	filed := s.asFiled()
	for from := s.best; from != nil; {
		place := s.placeOf(from)
		moved := s.movedAxes(place)
		var next *rigPose
		for n, i := range moved {
			if s.spent(most) {
				return
			}
			others := slices.Concat(moved[:n], moved[n+1:])
			place[i] = filed[i]
			p := s.climb(s.at(place), others, most)
			place = s.placeOf(from)
			if p.noWorse(s.best, floor) && (next == nil || p.better(next)) {
				next = p
			}
		}
		from = next
	}
	if k, ok := s.newRanker(nil).next(); ok && !s.spent(most) {
		s.climb(k.pose, s.movedAxes(s.placeOf(k.pose)), most)
	}
}

// movedAxes are those that a place moves.
func (s *rigSearch) movedAxes(place []int) (axes []int) {
	for i, k := range s.asFiled() {
		if place[i] != k {
			axes = append(axes, i)
		}
	}
	return axes
}
