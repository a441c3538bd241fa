// Layer: sweep.

package solve

import (
	"maps"
	"math"
	"slices"
)

// addNeeded adds the probe of the length that a second path would need, hole to
// hole.
func (p *path) addNeeded(l int) int {
	return p.add(probe{noise: p.m.lengthNoise(valueNoise), value: func(p *path) (float64, float64) {
		w, rate := p.m.ends(&p.st, p.rates, l)
		n := w.Norm()
		if n == 0 {
			return 0, 0
		}
		return n, float64(w.Dot(rate) / n * p.unit)
	}})
}

// secondPath reads off how a second path fits.
func (s *sweeper) secondPath(l int) *SecondPathFit {
	probe := s.needed[l]
	t := s.trackers[probe]
	e := s.extent(probe)
	fit := &SecondPathFit{NeedsLeast: e.Least, NeedsMost: e.Most, BestLength: e.Least + 0.5*(e.Most-e.Least)}
	set := s.m.constraints[l].set
	at := t.mostAt
	fit.Misfit = math.Abs(e.Most - set)
	if short := math.Abs(e.Least - set); short > fit.Misfit+s.p.probes[probe].noise {
		fit.Misfit, at = short, t.leastAt
	}
	fit.At = s.where(probe, at)
	fit.Binds = s.binds(l)
	return fit
}

// binds finds where a second path needs more than its play: the stretches
// between the places where what it needs passes its set length with the play
// to either side.
func (s *sweeper) binds(l int) (stretches [][2]float64) {
	rod := s.m.run.Rods[l]
	places := []float64{s.sweep.Low, s.sweep.High}
	for _, limit := range s.limits[l] {
		for _, x := range s.passes[limit] {
			if x > s.sweep.Low && x < s.sweep.High {
				places = append(places, x)
			}
		}
	}
	slices.Sort(places)
	for i := range len(places) - 1 {
		a, b := places[i], places[i+1]
		if a == b || !s.solveAt(a+0.5*(b-a)) {
			continue
		}
		if off := math.Abs(s.p.st.lengthOf(&s.m.constraints[l]) - s.m.constraints[l].set); off <= rod.Play+s.p.probes[s.needed[l]].noise {
			continue
		}
		stretches = append(stretches, [2]float64{a, b})
	}
	return joined(stretches)
}

// addLimits adds the probes of how far a second path is from either end of its
// play, whose zeros are sought.
func (s *sweeper) addLimits(l int) {
	rod := s.m.run.Rods[l]
	needed := s.p.probes[s.needed[l]]
	for _, play := range []float64{-rod.Play, rod.Play} {
		s.limits[l] = append(s.limits[l], s.p.add(probe{noise: needed.noise, value: func(p *path) (float64, float64) {
			v, dv := needed.value(p)
			return v - (p.m.constraints[l].set + play), dv
		}}))
	}
}

// seekPasses notes where second paths pass the ends of their play.
func (s *sweeper) seekPasses(w *walk, a, b *sample) {
	if len(s.limits) == 0 {
		return
	}
	for _, l := range slices.Sorted(maps.Keys(s.limits)) {
		for _, i := range s.limits[l] {
			s.passes[i] = append(s.passes[i], w.zeros(a, b, i)...)
		}
	}
}

// secondPaths gathers what every second path needs over all sweeps.
func (m *Mechanism) secondPaths(sweeps []*Sweep) (list []SecondPathNeeds) {
	for l, rod := range m.run.Rods {
		if !rod.SecondPath || len(sweeps) == 0 {
			continue
		}
		n := SecondPathNeeds{Rod: rod, Set: rod.Length}
		for _, s := range sweeps {
			fit := s.Rods[l].SecondPath
			if fit == nil {
				continue // it wasn't asked for
			}
			if len(fit.Binds) > 0 && fit.Misfit-rod.Play > threadNoise {
				n.Bound = append(n.Bound, BoundSweep{s, fit.Binds})
			}
			if n.Sweep == nil {
				n.SecondPathFit, n.Sweep = *fit, s
				continue
			}
			if fit.Misfit > n.Misfit {
				n.Misfit, n.At, n.Sweep = fit.Misfit, fit.At, s
			}
			n.NeedsLeast, n.NeedsMost = math.Min(n.NeedsLeast, fit.NeedsLeast), math.Max(n.NeedsMost, fit.NeedsMost)
		}
		if n.Sweep == nil {
			continue
		}
		n.BestLength, n.Binds = n.NeedsLeast+float64(0.5*(n.NeedsMost-n.NeedsLeast)), nil
		if beyond := n.Misfit - rod.Play; beyond > threadNoise {
			n.Beyond = beyond
		}
		n.Turn = NearestTurn(rod, n.BestLength-rod.Length)
		list = append(list, n)
	}
	return list
}
