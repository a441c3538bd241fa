package find

import (
	"math"
	"slices"
)

const (
	// asGood is the part of sameReserve that a setting may lose by changing less.
	asGood = 0.9
	// backHalvings is how often the way back to as filed is halved to find how far it can
	// be gone.
	backHalvings = 14
)

// simplify puts ranges back to as filed, one after another and the others to what is best
// then, as long as that is as good to a builder; then it goes back as far as nothing is
// lost. It returns what is left.
func (s *search) simplify(t *trial) *trial {
	best := t
	for again := true; again && !s.spent(); {
		again = false
		for _, i := range s.moved(best) {
			to := slices.Clone(best.at)
			to[i] = s.axes[i].filedAt
			back := s.judge([][]float64{to}, false)[0]
			if back == nil || !back.closes {
				continue
			}
			back = s.improve(back, -1, s.moved(back))
			if back.failed <= t.failed && back.merit(-1) >= t.merit(-1)-float64(asGood*sameReserve) {
				best, again = back, true
				break
			}
		}
	}
	for _, i := range s.moved(best) {
		best = s.goBack(best, i)
	}
	best.end = true
	return best
}

// moved are the ranges of a setting that are not as filed, and could be.
func (s *search) moved(t *trial) (list []int) {
	for _, i := range s.ranges() {
		if a := &s.axes[i]; !math.IsNaN(a.filedAt) && t.at[i] != a.filedAt {
			list = append(list, i)
		}
	}
	return list
}

// goBack goes with one range as near to as filed as nothing is lost.
func (s *search) goBack(t *trial, i int) *trial {
	filed, from := s.axes[i].filedAt, t.at[i]
	as := func(share float64) *trial {
		to := slices.Clone(t.at)
		to[i] = filed + float64(share*(from-filed))
		if b := s.judge([][]float64{to}, false)[0]; b != nil && b.closes && b.failed <= t.failed && b.merit(-1) >= t.merit(-1)-gained {
			return b
		}
		return nil
	}
	// Mostly nothing is gained: the least step tells.
	if as(1-1.0/(1<<backHalvings)) == nil {
		return t
	}
	best, low, high := t, 0.0, 1.0 // shares of the way out: low is too little
	for range backHalvings {
		middle := (low + high) / 2
		if b := as(middle); b != nil {
			best, high = b, middle
		} else {
			low = middle
		}
	}
	return best
}
