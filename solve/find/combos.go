package find

import (
	"math"
	"math/rand/v2"
	"slices"

	"fullfree/solve"
)

const (
	// exactCombinations is up to how many combinations each is checked; of more each is
	// glanced at, and those that come out best are checked.
	exactCombinations = 250
	// designEach is at how many places per range all that may take any value is looked at
	// before the best of these are improved, and mostDesign how many these are at most.
	designEach, mostDesign = 24, 120
	// starts is from how many places a search goes on at most for each combination, and
	// startsApart how far they are apart at least, shares of each range.
	starts      = 5
	startsApart = 0.1
	// betterCombinations is how many combinations are improved at least, of those that
	// come out best with the ranges looked at roughly.
	betterCombinations = 12
	// climbs is from how many places choices too many to try all are improved one after
	// another.
	climbs = 12
	// seed makes what is chosen at random the same every time.
	seed = 15
)

// search judges every combination of choices where there is work for that, else what is
// better than its neighbors; and seeks what may take any value by slopes.
func (s *search) search() {
	for i := range s.axes {
		if s.axes[i].any() {
			s.searched.Any++
		}
	}
	s.searched.Combinations = s.combinations()
	full := s.searched.Combinations <= mostCombinations && s.searched.Combinations*s.each/solve.GlanceShare <= findWork*solve.MostWork()
	s.exactly = s.searched.Any == 0 && s.searched.Combinations <= exactCombinations
	switch {
	case full && s.searched.Any == 0:
		s.judge(s.everyCombination(), false)
		s.searched.Whole = !s.searched.Cut
	case full:
		s.searchRanges(s.everyCombination())
		s.searched.Whole = !s.searched.Cut
	default:
		s.searchTooMany()
	}
}

// combinations is how many combinations of choices there are.
func (s *search) combinations() float64 {
	n := 1.0
	for i := range s.axes {
		if !s.axes[i].any() {
			n = float64(n * float64(s.axes[i].count))
		}
	}
	return n
}

// everyCombination lists all choices, with what may take any value as filed, or in the
// middle of its range where that is beyond it.
func (s *search) everyCombination() (list [][]float64) {
	at := s.near()
	var each func(i int)
	each = func(i int) {
		if i == len(at) {
			list = append(list, slices.Clone(at))
			return
		}
		a := &s.axes[i]
		if a.any() {
			each(i + 1)
			return
		}
		for k := range a.count {
			at[i] = float64(k)
			each(i + 1)
		}
	}
	each(0)
	return list
}

// near is what is nearest to as filed, of a list the first.
func (s *search) near() []float64 {
	at := make([]float64, len(s.axes))
	for i := range s.axes {
		a := &s.axes[i]
		switch {
		case !math.IsNaN(a.filedAt):
			at[i] = a.filedAt
		case a.any():
			at[i] = (a.low + a.high) / 2
		case a.ordered():
			at[i] = math.Max(0, math.Min(a.last(), math.Round((a.filed[0]-a.low)/a.step)))
		}
	}
	return at
}

// ranges are the axes that may take any value.
func (s *search) ranges() (list []int) {
	for i := range s.axes {
		if s.axes[i].any() {
			list = append(list, i)
		}
	}
	return list
}

// design are places spread evenly over the ranges, the choices being those of at: the
// points of a Halton sequence, whose bases are the primes (J. H. Halton, "On the efficiency
// of certain quasi-random sequences of points in evaluating multi-dimensional integrals",
// Numerische Mathematik 2, 1960).
func (s *search) design(at []float64, n int) (list [][]float64) {
	primes := []int{2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37}
	random := rand.New(rand.NewPCG(seed, seed))
	for k := 1; k <= n; k++ {
		place := slices.Clone(at)
		for d, i := range s.ranges() {
			share := random.Float64() // beyond the primes
			if d < len(primes) {
				share = radicalInverse(k, primes[d])
			}
			place[i] = s.axes[i].low + float64(share*(s.axes[i].high-s.axes[i].low))
		}
		list = append(list, place)
	}
	return list
}

// radicalInverse mirrors the digits of k about the point.
func radicalInverse(k, base int) (sum float64) {
	share := 1 / float64(base)
	for ; k > 0; k /= base {
		sum += float64(float64(k%base) * share)
		share /= float64(base)
	}
	return sum
}

// searchRanges looks at the ranges roughly in each combination, then improves the best
// places of the best combinations.
func (s *search) searchRanges(combinations [][]float64) {
	n := len(s.ranges())
	budget := float64(mostJudged/2) / float64(len(combinations))
	budget = math.Min(budget, findWork*solve.MostWork()*solve.GlanceShare/2/s.each/float64(len(combinations)))
	rough := int(math.Max(0, math.Min(math.Min(mostDesign, float64(designEach*n)), budget-1)))
	type lot struct {
		trials []*trial
		best   *trial
	}
	lots := make([]lot, len(combinations))
	for i, at := range combinations {
		for _, t := range s.judge(append([][]float64{at}, s.design(at, rough)...), false) {
			if t != nil {
				lots[i].trials = append(lots[i].trials, t)
			}
		}
		slices.SortStableFunc(lots[i].trials, s.betterMerit)
		if len(lots[i].trials) > 0 {
			lots[i].best = lots[i].trials[0]
		}
	}
	lots = slices.DeleteFunc(lots, func(l lot) bool { return l.best == nil })
	slices.SortStableFunc(lots, func(a, b lot) int { return s.betterMerit(a.best, b.best) })
	for i, l := range lots {
		if i >= betterCombinations && s.work > findWork*solve.MostWork()/2 || s.spent() {
			s.searched.Cut = true
			break
		}
		for _, from := range s.apart(l.trials) {
			s.searched.Starts++
			s.simplify(s.improve(from, -1, s.ranges()))
		}
	}
}

// betterMerit puts the larger merit first.
func (s *search) betterMerit(a, b *trial) int {
	switch x, y := a.merit(-1), b.merit(-1); {
	case x > y:
		return -1
	case x < y:
		return 1
	}
	return 0
}

// apart are the first of some places that are apart from each other, and close.
func (s *search) apart(list []*trial) (kept []*trial) {
	for _, t := range list {
		if !t.closes || len(kept) == starts {
			break
		}
		near := func(k *trial) bool {
			for _, i := range s.ranges() {
				if math.Abs(k.at[i]-t.at[i]) > startsApart*(s.axes[i].last()-s.axes[i].first()) {
					return false
				}
			}
			return true
		}
		if !slices.ContainsFunc(kept, near) {
			kept = append(kept, t)
		}
	}
	return kept
}

// searchTooMany goes on from several places to what is better, one thing at a time, then
// two; what lies in a range is sought by slopes.
func (s *search) searchTooMany() {
	random := rand.New(rand.NewPCG(seed, seed+1))
	list := [][]float64{s.near()}
	for len(list) < climbs*len(s.axes) {
		at := make([]float64, len(s.axes))
		for i := range s.axes {
			a := &s.axes[i]
			if at[i] = a.low + float64(random.Float64()*(a.high-a.low)); !a.any() {
				at[i] = float64(random.IntN(a.count))
			}
		}
		list = append(list, at)
	}
	trials := slices.DeleteFunc(s.judge(list, false), func(t *trial) bool { return t == nil })
	slices.SortStableFunc(trials, s.betterMerit)
	for _, t := range trials[:min(climbs, len(trials))] {
		if s.spent() {
			break
		}
		s.searched.Starts++
		s.climb(s.rounded(t))
	}
}

// mostCorners is of how many things that go by steps both choices beside a place are tried.
const mostCorners = 6

// rounded goes on from a setting as if what goes by steps could be anything, and returns the
// best of the choices beside where that leads.
func (s *search) rounded(t *trial) *trial {
	var steps []int
	for i := range s.axes {
		if a := &s.axes[i]; a.ordered() && a.end == nil && a.count != 1 {
			steps = append(steps, i)
		}
	}
	if len(steps) == 0 || !t.closes {
		return t
	}
	ideal := s.improve(t, -1, steps)
	list := [][]float64{slices.Clone(ideal.at)}
	corners := 0
	for _, i := range steps {
		if !s.axes[i].between(ideal.at[i]) {
			continue
		}
		corners++
		var both [][]float64
		for _, at := range list {
			low, high := slices.Clone(at), slices.Clone(at)
			low[i], high[i] = math.Floor(at[i]), math.Ceil(at[i])
			switch {
			case corners <= mostCorners:
				both = append(both, low, high)
			case at[i]-low[i] < high[i]-at[i]:
				both = append(both, low)
			default:
				both = append(both, high)
			}
		}
		list = both
	}
	best := t
	for _, k := range s.judge(list, false) {
		if k != nil && s.betterMerit(k, best) < 0 {
			best = k
		}
	}
	return best
}

// climb goes from a setting to the best of its neighbors as long as that is better.
func (s *search) climb(from *trial) *trial {
	for !s.spent() {
		best := from
		if len(s.ranges()) > 0 && from.closes {
			best = s.simplify(s.improve(from, -1, s.ranges()))
		}
		for _, step := range []func(at []float64) [][]float64{s.oneMoved, s.twoMoved} {
			for _, t := range s.judge(step(best.at), false) {
				if t != nil && t.merit(-1) > best.merit(-1)+gained {
					best = t
				}
			}
			if best != from {
				break
			}
		}
		if best.merit(-1) <= from.merit(-1)+gained {
			return best
		}
		from = best
	}
	return from
}

// farthestSteps is by how many steps at most a choice that goes by steps is moved at once;
// between, each is twice the one before.
const farthestSteps = 1 << 12

// oneMoved are the settings with one choice moved: to any of its list, or by steps.
func (s *search) oneMoved(at []float64) (list [][]float64) {
	for i := range s.axes {
		for _, x := range s.moves(i, at[i]) {
			to := slices.Clone(at)
			to[i] = x
			list = append(list, to)
		}
	}
	return list
}

// moves are the other choices of an axis that are tried from one of them.
func (s *search) moves(i int, x float64) (list []float64) {
	a := &s.axes[i]
	if a.any() {
		return nil
	}
	if !a.ordered() {
		for k := range a.count {
			if float64(k) != x {
				list = append(list, float64(k))
			}
		}
		return list
	}
	for by := 1.0; by <= farthestSteps; by *= 2 {
		for _, to := range []float64{x - by, x + by} {
			if to >= 0 && to <= a.last() {
				list = append(list, to)
			}
		}
	}
	return list
}

// twoMoved are the settings with two choices moved by one step, or to the next of its list.
func (s *search) twoMoved(at []float64) (list [][]float64) {
	for i := range s.axes {
		for j := range i {
			if s.axes[i].any() || s.axes[j].any() {
				continue
			}
			for _, by := range [][2]float64{{-1, -1}, {-1, 1}, {1, -1}, {1, 1}} {
				to := slices.Clone(at)
				to[i], to[j] = at[i]+by[0], at[j]+by[1]
				if to[i] >= 0 && to[i] <= s.axes[i].last() && to[j] >= 0 && to[j] <= s.axes[j].last() {
					list = append(list, to)
				}
			}
		}
	}
	return list
}
