package solve

import (
	"math"

	"fullfree/linkage"
)

// addNeeded adds the probe of the length that a second path would need, hole to
// hole.
func (p *path) addNeeded(l int) int {
	return p.add(probe{noise: p.m.noiseOf(p.m.lengthUnit(), valueNoise), value: func(p *path) (float64, float64) {
		w, rate := p.m.ends(&p.st, p.rates, l)
		n := w.Norm()
		if n == 0 {
			return 0, 0
		}
		return n, w.Dot(rate) / n * p.unit
	}})
}

// secondPath reads off how a second path fits.
func (s *sweeper) secondPath(l int) *SecondPathFit {
	probe := s.needed[l]
	t := s.trackers[probe]
	e := s.extent(probe)
	fit := &SecondPathFit{NeedsLeast: e.Least, NeedsMost: e.Most, BestLength: e.Least + 0.5*(e.Most-e.Least)}
	set := s.m.run.Rods[l].Length
	at := t.mostAt
	fit.Misfit = math.Abs(e.Most - set)
	if short := math.Abs(e.Least - set); short > fit.Misfit+s.p.probes[probe].noise {
		fit.Misfit, at = short, t.leastAt
	}
	fit.At = s.where(probe, at)
	return fit
}

// judgeSecondPath finds the largest misfit of a second path beyond its play.
func (m *Mechanism) judgeSecondPath(r *linkage.Requirement, about []*sweeper) (j Judgement) {
	j.Unit = m.lengthUnit()
	for _, s := range about {
		for l, rod := range m.run.Rods {
			if fit := s.sweep.Rods[l].SecondPath; fit != nil && j.worse(math.Max(0, fit.Misfit-rod.Play), fit.At, s.sweep.Index, 1) {
				j.Rod = rod
			}
		}
	}
	limit := 0.0
	if r.Most != nil {
		limit = *r.Most
	}
	j.decide(limit, 1)
	return j
}

// judgeEngagement finds the smallest spare thread of any rod end, and an end
// that is in too far.
func (m *Mechanism) judgeEngagement() (j Judgement) {
	j.Unit = m.lengthUnit()
	var deep *linkage.RodEnd
	for _, rod := range m.run.Rods {
		for _, e := range rod.Ends {
			if j.worse(e.Spare(), nil, 0, -1) {
				j.Rod, j.End = rod, e.Side
			}
			if e.Most != nil && e.Engaged > *e.Most+judgeNoise && deep == nil {
				deep = e
			}
		}
	}
	j.decide(0, -1)
	if deep != nil {
		j.Verdict = FallsShort
		if *j.Worst >= -judgeNoise { // the thread in is enough; that it bottoms out isn't
			j.Why, j.Rod, j.End = BottomsOut, deep.Rod, deep.Side
		}
	}
	return j
}
