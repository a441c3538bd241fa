package find

import (
	"math"
	"slices"

	"fullfree/linkage"
)

// What may take any value is set so that the least of all reserves is as large as can be.
// Each reserve is a smooth function of the values, but for where its worst place changes,
// so the least has its largest value mostly where several are alike: in a corner. At every
// setting the reserves and their slopes are known; the lowest of all these planes, of the
// settings so far, is a roof over what can be had nearby, and a linear program finds its
// highest place within a region in which it is trusted. There the reserves are judged, and
// the region shrinks where the roof promised too much (sequential linear programming with a
// bundle of planes; J. E. Kelley, "The cutting-plane method for solving convex programs",
// J. SIAM 8, 1960).

const (
	// gained is a difference of reserves that is worth going on for.
	gained = 1e-9
	// firstRegion is how far the first step goes at most, a share of each range, and
	// lastRegion where it is given up: far less than can be made.
	firstRegion, lastRegion = 0.2, 1e-9
	// mostSteps is how many steps are made from one start.
	mostSteps = 60
	// mostPlanes is how many planes are kept of each start.
	mostPlanes = 80
	// slopeShare is the share of a range over which slopes are taken by differences where
	// nothing else tells them.
	slopeShare = 1e-6
	// bent is by how much a plane may lie below what was judged and still be kept.
	bent = 1e-7
	// byDifferences is up to how many ranges slopes are taken by differences: as many more
	// glances take less than the slopes by every number of the run.
	byDifferences = 3
)

// plane is a requirement's share at a setting, with its slopes by the ranges, each as a
// share of its size.
type plane struct {
	at    []float64 // shares of the ranges
	share float64
	slope []float64
	of    int // the requirement
	// absolute says that it is of what a signed figure is off: beyond where that is nothing
	// it is off to the other side, and the share goes down as it went up.
	absolute bool
}

// absolute are the kinds of requirements of what a signed figure is off.
func absolute(q *linkage.Requirement) bool {
	switch q.Kind {
	case linkage.Opposite, linkage.Together, linkage.Steady, linkage.Travel, linkage.Reading, linkage.Neutral, linkage.Symmetrical, linkage.Meets, linkage.SecondPath, linkage.CyclicSense:
		return true
	case linkage.CollectivePitch, linkage.CyclicPitch:
		return q.Most == nil
	}
	return false
}

// on is the plane's height elsewhere.
func (p *plane) on(at []float64) float64 {
	v := p.share
	for i, x := range at {
		v += float64(p.slope[i] * (x - p.at[i]))
	}
	return v
}

// improve goes from a setting to the largest merit that some ranges lead to, all else left
// as it is; dropped is a requirement that is left out, or -1.
func (s *search) improve(from *trial, dropped int, ranges []int) *trial {
	if len(ranges) == 0 || !from.closes {
		return from
	}
	best := from
	region, fresh := firstRegion, true // fresh: all planes are of where it stands
	planes := s.planesAt(best, ranges, dropped)
	for range mostSteps {
		if region < lastRegion || s.spent() || len(planes) == 0 {
			break
		}
		at := s.sharesOf(best, ranges)
		to, promised := highest(planes, at, region)
		gain := promised - best.merit(dropped)
		if gain <= gained && fresh {
			break // the roof is no higher anywhere near
		}
		if gain <= gained { // of planes from elsewhere, which may lie too low where reserves bend up
			planes, fresh = s.planesAt(best, ranges, dropped), true
			region = math.Min(region, firstRegion) / 4
			continue
		}
		t := s.judge([][]float64{s.placeOf(best, ranges, to)}, false)[0]
		if t == nil {
			break
		}
		got := t.merit(dropped) - best.merit(dropped)
		if math.IsInf(got, -1) {
			region /= 4
			continue
		}
		there := s.planesAt(t, ranges, dropped)
		fresh = false
		planes = append(planes, there...)
		if got < 0.5*gain { // the roof bends: by what it is there, back under it
			if back := s.corrected(t, there, ranges, region); back != nil && back.merit(dropped) > math.Max(t.merit(dropped), best.merit(dropped)) {
				planes = append(planes, s.planesAt(back, ranges, dropped)...)
				t, got = back, back.merit(dropped)-best.merit(dropped)
			}
		}
		switch {
		case got > 0.75*gain:
			region = math.Min(1, 2*region)
		case got < 0.25*gain:
			region /= 2
		}
		if got > gained {
			best = t
		}
		planes = s.keep(planes, best, ranges, dropped)
	}
	return best
}

// corrected goes on from where a step led to what the planes there alone promise; nil where
// that leads nowhere.
func (s *search) corrected(t *trial, planes []plane, ranges []int, region float64) *trial {
	if len(planes) == 0 {
		return nil
	}
	to, _ := highest(planes, s.sharesOf(t, ranges), region/2)
	return s.judge([][]float64{s.placeOf(t, ranges, to)}, false)[0]
}

// keep leaves out planes that lie below what was judged at the best setting, where the
// reserve bends the other way, and the oldest of too many.
func (s *search) keep(planes []plane, best *trial, ranges []int, dropped int) []plane {
	at := s.sharesOf(best, ranges)
	planes = slices.DeleteFunc(planes, func(p plane) bool {
		is := math.Min(1, best.shares[p.of]) - bent
		return p.on(at) < is || p.absolute && 2-p.on(at) < is
	})
	if n := len(planes); n > mostPlanes {
		planes = slices.Clone(planes[n-mostPlanes:])
	}
	has := func(p plane) bool { return slices.Equal(p.at, at) }
	if !slices.ContainsFunc(planes, has) {
		planes = append(planes, s.planesAt(best, ranges, dropped)...)
	}
	return planes
}

// sharesOf are the values of the ranges, as shares of these.
func (s *search) sharesOf(t *trial, ranges []int) []float64 {
	at := make([]float64, len(ranges))
	for k, i := range ranges {
		a := &s.axes[i]
		at[k] = (t.at[i] - a.first()) / (a.last() - a.first())
	}
	return at
}

// placeOf is a setting with its ranges at those shares; the ends of a range are its own to
// the last digit.
func (s *search) placeOf(t *trial, ranges []int, shares []float64) []float64 {
	at := slices.Clone(t.at)
	for k, i := range ranges {
		a := &s.axes[i]
		switch share := shares[k]; {
		case share <= 0:
			at[i] = a.first()
		case share >= 1:
			at[i] = a.last()
		default:
			at[i] = a.first() + float64(share*(a.last()-a.first()))
		}
	}
	return at
}

// planesAt are the planes at a setting: one for each requirement that has a share.
func (s *search) planesAt(t *trial, ranges []int, dropped int) (planes []plane) {
	if !t.closes {
		return nil
	}
	at := s.sharesOf(t, ranges)
	for i, share := range t.shares {
		if i == dropped || math.IsInf(share, 1) {
			continue
		}
		planes = append(planes, plane{at: at, share: share, slope: make([]float64, len(ranges)), of: i, absolute: absolute(s.m.Run().Requirements[i])})
	}
	if len(planes) == 0 {
		return nil
	}
	if len(ranges) > byDifferences && s.slopes(t, ranges, planes) {
		return planes
	}
	return s.differences(t, ranges, planes)
}

// slopes fills in the slopes of planes from those by every number at once; false where
// there is no telling of one of them.
func (s *search) slopes(t *trial, ranges []int, planes []plane) bool {
	for _, i := range ranges {
		if !s.axes[i].analytic() {
			return false
		}
	}
	run, err := s.runOf(t, s.base(t))
	if err != nil {
		return false
	}
	out, err := s.m.GlanceRun(run)
	s.work += out.Compiling + 2*out.Checking // the slopes take as much again
	if err != nil {
		return false
	}
	list, err := out.Mechanism.Slopes(out.Result)
	if err != nil {
		return false
	}
	for n := range planes {
		p := &planes[n]
		g := list[p.of]
		if g == nil {
			return false
		}
		per := out.Result.Requirements[p.of].ReservePerWorst()
		for k, i := range ranges {
			a := &s.axes[i]
			by, ok := 0.0, true
			if a.end != nil {
				by = float64(g.OfLength(run, a.end.Rod) * a.end.PerTurn())
			} else {
				by, ok = g.Of(run, a.vary.Numbers[0])
			}
			if p.slope[k] = float64(by * per * a.span()); !ok || !finite(p.slope[k]) {
				return false
			}
		}
	}
	return true
}

// differences fills in the slopes of planes by judging beside the setting.
func (s *search) differences(t *trial, ranges []int, planes []plane) []plane {
	var list [][]float64
	by := make([]float64, len(ranges))
	for k, i := range ranges {
		a := &s.axes[i]
		to := slices.Clone(t.at)
		step := float64(slopeShare * (a.last() - a.first()))
		if to[i]+step > a.last() {
			step = -step
		}
		to[i] += step
		by[k] = (to[i] - t.at[i]) / (a.last() - a.first())
		list = append(list, to)
	}
	beside := s.judge(list, false)
	return slices.DeleteFunc(planes, func(p plane) bool {
		for k, b := range beside {
			if b == nil || !b.closes || math.IsInf(b.shares[p.of], 0) {
				return true
			}
			p.slope[k] = (b.shares[p.of] - p.share) / by[k]
		}
		return false
	})
}

// bothSides adds to the planes of what is off those of being off to the other side.
func bothSides(planes []plane) []plane {
	for _, p := range slices.Clone(planes) {
		if !p.absolute {
			continue
		}
		other := plane{at: p.at, share: 2 - p.share, slope: make([]float64, len(p.slope)), of: p.of}
		for k, v := range p.slope {
			other.slope[k] = -v
		}
		planes = append(planes, other)
	}
	return planes
}

// highest finds the highest place of the roof that planes make within a region about a
// place, and how high it is.
func highest(planes []plane, about []float64, region float64) (at []float64, height float64) {
	planes = bothSides(planes)
	n, m := len(about), len(planes)
	low, width := make([]float64, n), make([]float64, n)
	for i, x := range about {
		low[i] = math.Max(0, x-region)
		width[i] = math.Min(1, x+region) - low[i]
	}
	// The unknowns: how far each share is above low, and the height above floor.
	floor := math.Inf(1)
	for i := range planes {
		floor = math.Min(floor, planes[i].on(low))
	}
	c := make([]float64, n+1)
	c[n] = 1
	a, b := make([][]float64, m+n+1), make([]float64, m+n+1)
	for i := range a {
		a[i] = make([]float64, n+1)
	}
	for i := range planes {
		for k := range n {
			a[i][k] = -planes[i].slope[k]
		}
		a[i][n], b[i] = 1, planes[i].on(low)-floor
	}
	for k := range n {
		a[m+k][k], b[m+k] = 1, width[k]
	}
	a[m+n][n], b[m+n] = 1, math.Max(0, 1-floor) // no reserve counts for more than the whole limit
	x := maximize(a, b, c)
	at = make([]float64, n)
	for k := range n {
		at[k] = low[k] + math.Max(0, math.Min(width[k], x[k]))
	}
	return at, x[n] + floor
}
