package rig

import (
	"iter"
	"runtime"
	"slices"

	"fullfree/solve/internal/parallel"
)

// The search decides one pose after another, and counts what each takes. Where it is
// known which come next they are checked ahead, side by side. What comes out is the
// same: a pose that the budget doesn't reach any more is thrown away.

// rigAhead are poses that were checked ahead, by their key.
type rigAhead map[string]rigChecked

// take returns a pose that was checked ahead, or else checks it.
func (a rigAhead) take(key string, check func() rigChecked) rigChecked {
	if out, ok := a[key]; ok {
		delete(a, key)
		return out
	}
	return check()
}

// aheadEach is how many poses are checked ahead for each processor, so that one that
// takes longer than the others holds up little.
const aheadEach = 4

// foreseen passes places of the grid on, one after another, and checks some of them
// ahead, of those that most allows.
func (s *rigSearch) foreseen(most int, places iter.Seq[[]int]) iter.Seq[[]int] {
	workers := runtime.GOMAXPROCS(0)
	if workers < 2 {
		return places
	}
	return func(yield func([]int) bool) {
		var waiting [][]int
		pass := func() bool {
			s.checkAhead(waiting, most)
			defer clear(s.ahead)
			for _, place := range waiting {
				if !yield(place) {
					return false
				}
			}
			waiting = waiting[:0]
			return true
		}
		for place := range places {
			waiting = append(waiting, slices.Clone(place))
			if len(waiting) == aheadEach*workers && !pass() {
				return
			}
		}
		pass()
	}
}

// checkAhead checks places that are not known yet side by side.
func (s *rigSearch) checkAhead(places [][]int, most int) {
	var list [][]rigChoice
	keys := map[string]bool{}
	for _, place := range places {
		choices := s.choicesAt(place)
		if key := s.key(choices); s.known[key] == nil && !keys[key] {
			keys[key] = true
			list = append(list, choices)
		}
	}
	if left := most - s.checked; len(list) < 2 || s.spent(most) {
		return
	} else if left < len(list) {
		list = list[:left]
	}
	checked := make([]rigChecked, len(list))
	parallel.Each(len(list), func(i int) { checked[i] = checkedWith(s.m, s.settingOf(list[i]).Edits()) })
	for i, choices := range list {
		s.ahead[s.key(choices)] = checked[i]
	}
}
