package rig

import (
	"cmp"
	"math"
	"slices"
)

// rigRank is a setting in the order of the best.
type rigRank struct {
	pose  *rigPose
	ends  int
	turns int64
	spare int64
	steps []int // of all variables
}

// ranker takes the settings out of the poses, best first.
type ranker struct {
	*rigSearch
	variables []rigVariable
	poses     []*rigPose
	ways      map[*rigPose][]rigRank // best first, once they have been asked for
	taken     map[*rigPose]int       // how many of them were taken
}

// newRanker ranks the settings of the poses that close and that of accepts; nil
// accepts all.
func (s *rigSearch) newRanker(of func(p *rigPose) bool) *ranker {
	r := &ranker{rigSearch: s, ways: make(map[*rigPose][]rigRank), taken: make(map[*rigPose]int)}
	for _, p := range s.poses {
		if p.closes && (of == nil || of(p)) {
			r.poses = append(r.poses, p)
		}
	}
	for i := range s.axes {
		r.variables = append(r.variables, s.axes[i].variables...)
	}
	return r
}

// next takes the best setting that is left; ok is false where none is. One thing
// after another is asked, of those that are as good so far: what is missed, what is
// left in reserve, what is touched for it, and what it costs at neutral.
func (r *ranker) next() (best rigRank, ok bool) {
	left := slices.Clone(r.poses)
	left = slices.DeleteFunc(left, func(p *rigPose) bool { return r.ways[p] != nil && r.taken[p] == len(r.ways[p]) })
	if len(left) == 0 {
		return best, false
	}
	first := slices.MinFunc(left, (*rigPose).compareClass)
	left = slices.DeleteFunc(left, func(p *rigPose) bool { return p.compareClass(first) != 0 })
	left = leastOf(left, sameReserve, func(p *rigPose) float64 { return p.most })
	left = leastOf(left, sameReserve, func(p *rigPose) float64 { return p.sum })
	reserve := func(p *rigPose) float64 { return -p.reserve }
	largest := slices.MaxFunc(left, func(a, b *rigPose) int { return cmp.Compare(a.reserve, b.reserve) }).reserve
	left = leastOf(left, math.Max(sameReserve, float64((1-enoughReserve)*largest)), reserve)
	left = leastOf(left, 0, func(p *rigPose) float64 { return float64(max(1, r.endsLeft(p))) })
	left = leastOf(left, sameReserve, reserve)
	left = leastOf(left, 0, func(p *rigPose) float64 { return float64(r.endsLeft(p)) })
	left = leastOf(left, sameNeutral, func(p *rigPose) float64 { return p.moved })
	for _, p := range left {
		if w := r.waysOf(p)[r.taken[p]]; !ok || r.compare(w, best) < 0 {
			best, ok = w, true
		}
	}
	r.taken[best.pose]++
	return best, true
}

// leastOf keeps what comes to the least of a figure, or to within some more.
func leastOf(list []*rigPose, within float64, of func(p *rigPose) float64) []*rigPose {
	least := math.Inf(1)
	for _, p := range list {
		least = math.Min(least, of(p))
	}
	return slices.DeleteFunc(list, func(p *rigPose) bool { return of(p) > least+within })
}

// endsLeft is how many ends the best setting of a pose turns, of those left.
func (r *ranker) endsLeft(p *rigPose) int {
	if ways := r.ways[p]; ways != nil {
		return ways[r.taken[p]].ends
	}
	return p.ends()
}

// ends is how many ends a pose takes at least.
func (p *rigPose) ends() (count int) {
	for i := range p.choices {
		count += p.choices[i].ways[0].ends
	}
	return count
}

// stopsBy is how far a pose moves stops, millionths of their units together.
func (s *rigSearch) stopsBy(p *rigPose) int64 {
	sum := 0.0
	for i, c := range p.choices {
		if s.axes[i].variables[0].end == nil {
			sum += math.Abs(c.change)
		}
	}
	return int64(math.Round(sum / turnGrain))
}

// compare puts the better of two settings first that touch as many ends for the
// same reserve.
func (r *ranker) compare(a, b rigRank) int {
	return cmp.Or(cmp.Compare(a.turns, b.turns), cmp.Compare(b.spare, a.spare), cmp.Compare(r.stopsBy(a.pose), r.stopsBy(b.pose)),
		compareSteps(r.variables, a.steps, b.steps), slices.Compare(a.steps, b.steps))
}

// sameTurn is the part of a turn by which settings of an end that can be turned
// to any must differ to be told both: less than can be set by hand.
const sameTurn = 0.01

// alike reports whether two settings are one to a builder.
func (r *ranker) alike(a, b rigRank) bool {
	for i := range r.variables {
		v := &r.variables[i]
		off := math.Abs(v.figure(a.steps[i] - b.steps[i]))
		if off > 0 && (v.end == nil || v.end.Step > 0 || off >= sameTurn) {
			return false
		}
	}
	return true
}

// waysOf lists the best settings that make a pose.
func (r *ranker) waysOf(p *rigPose) (list []rigRank) {
	if r.ways[p] != nil {
		return r.ways[p]
	}
	ways := []rigWay{{spare: math.MaxInt64}}
	var variables []rigVariable
	for i, c := range p.choices {
		variables = append(variables, r.axes[i].variables...)
		var longer []rigWay
		for _, w := range ways {
			for _, more := range c.ways {
				longer = append(longer, rigWay{slices.Concat(w.steps, more.steps), w.ends + more.ends, w.turns + more.turns, min(w.spare, more.spare)})
			}
		}
		ways = r.prune(variables, longer)
	}
	for _, w := range ways {
		list = append(list, rigRank{p, w.ends, w.turns, w.spare, w.steps})
	}
	r.ways[p] = list
	return list
}
