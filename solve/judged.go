// Layer: sweep.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
)

// judgedProbe is what is followed for one requirement.
type judgedProbe struct {
	requirement int
	probe       int // the quantity judged
	// sense: the rate of the first of the two, whose halts are watched, and of
	// the second.
	first, second int
	apart         bool // clearance: the two never meet
	// sense by places: how fast the first goes along its direction, over how fast it must to
	// be judged; and the ratio wherever that is. 0 where the sense is told otherwise.
	aside, ratio int
	// symmetrical: second is the probe of the other of the two, and what both are over the
	// travel, by side, outward.
	mirrored  bool
	stretches [2][]mirrorStretch
	unit      linkage.Unit
}

// reversal is a place where the first of a sense requirement reverses while the
// second goes on.
type reversal struct {
	requirement int
	x           float64
}

// addJudged sets up what the requirements need beyond what a sweep tells
// anyway.
func (s *sweeper) addJudged() {
	m, p := s.m, s.p
	for i, r := range m.run.Requirements {
		if !m.concerns(s.sweep.Control, r) {
			continue
		}
		j := judgedProbe{requirement: i}
		switch r.Kind {
		case linkage.Opposite, linkage.Together:
			a, b := m.subjectMeasure(r.Of[0]), m.subjectMeasure(r.Of[1]).times(m.perFirst(r))
			sign := 1.0
			if r.Kind == linkage.Together {
				sign = -1
			}
			j.unit = a.unit
			j.probe = s.track(p.addValue(a.unit, combined(a, b, sign)))
		case linkage.Symmetrical:
			a, b := m.subjectMeasure(r.Of[0]), m.subjectMeasure(r.Of[1]).times(m.perFirst(r))
			a.reads, b.reads = 0, 0
			j.unit, j.mirrored = a.unit, true
			j.probe, j.second = p.addValue(a.unit, a.withRate), p.addValue(b.unit, b.withRate)
		case linkage.Reading, linkage.CollectivePitch, linkage.CyclicPitch, linkage.CyclicSense:
			k := m.subjectMeasure(r.Of[0])
			j.unit = k.unit
			j.probe = p.addValue(k.unit, k.withRate)
		case linkage.Steady, linkage.Travel:
			k := m.subjectMeasure(r.Of[0])
			j.unit = k.unit
			j.probe = s.track(p.addValue(k.unit, k.withRate))
		case linkage.Sense:
			s.addSense(&j, r)
			s.addAside(&j, r)
		case linkage.Clearance:
			c, _ := m.newContact(r.Between) // Compile has refused what it couldn't judge
			j.unit, j.apart = m.lengthUnit(r.Between[0].In()), c.apart
			j.probe = s.track(p.addGap(c))
		case linkage.Meets:
			j.unit = m.lengthUnit(r.Points[0].In())
			j.probe = p.addApart(measure{point: m.endAt(r.Points[0]), ref: &r.Points[0]}, measure{point: m.endAt(r.Points[1]), ref: &r.Points[1]})
		default:
			continue // judged by the sweep itself
		}
		s.judged = append(s.judged, j)
	}
}

// addSense follows how much the second moves for the first, positive in the
// right sense.
func (s *sweeper) addSense(j *judgedProbe, r *linkage.Requirement) {
	m, p := s.m, s.p
	a, b, sign := m.senseMeasures(r)
	j.unit = b.unit + "/" + a.unit
	ratesA, ratesB := a.sharedRates(p), b.sharedRates(p)
	j.first = s.track(p.add(probe{slope: true, noise: p.slopeNoiseOf(a), value: ratesA}))
	j.second = s.track(p.add(probe{slope: true, noise: p.slopeNoiseOf(b), value: ratesB}))
	noiseA, noiseB := p.probes[j.first].noise, p.probes[j.second].noise
	j.probe = s.track(p.add(probe{slope: true, noise: float64(noiseB / noiseA * slopeNoise), value: func(p *path) (float64, float64) {
		da, dda := ratesA(p)
		db, ddb := ratesB(p)
		switch {
		case math.Abs(da) > noiseA:
			return sign * db / da, sign * (float64(ddb*da) - float64(db*dda)) / (da * da)
		case math.Abs(db) <= noiseB && math.Abs(dda)*p.longest > noiseA:
			return sign * ddb / dda, 0 // both halt: the limit of the ratio
		}
		return math.NaN(), math.NaN() // there is no ratio
	}}))
}

// seekReversals finds where the first of a sense requirement reverses while the
// second goes on.
func (s *sweeper) seekReversals(w *walk, a, b *sample) {
	for _, j := range s.judged {
		if s.m.run.Requirements[j.requirement].Kind != linkage.Sense {
			continue
		}
		for _, x := range w.zeros(a, b, j.first) {
			db, _, ok := s.p.evaluate(a, b, x, j.second)
			if ok && j.aside != 0 && s.goesAside(j) {
				continue // it goes square to its direction there, and doesn't halt
			}
			// A second that halts with the first is left, at the place found, with
			// a rate as small as the place is exact.
			if ok && math.Abs(db) > movingRate*s.p.probes[j.second].noise/slopeNoise {
				s.reversals = append(s.reversals, reversal{j.requirement, x})
			}
		}
	}
}

// where returns a place, or nil where the probe doesn't depend on it.
func (s *sweeper) where(probe int, x float64) *float64 {
	if s.trackers[probe].steady(s.p.probes[probe].noise) {
		return nil
	}
	at := x
	return &at
}

// probeOf returns what was followed for requirement i.
func (s *sweeper) probeOf(i int) judgedProbe {
	for _, j := range s.judged {
		if j.requirement == i {
			return j
		}
	}
	panic("solve: a requirement that wasn't followed")
}

// judgedOf is what is followed for a requirement.
func (s *sweeper) judgedOf(r *linkage.Requirement) judgedProbe {
	if i := slices.Index(s.m.run.Requirements, r); i >= 0 {
		return s.probeOf(i)
	}
	return judgedProbe{}
}

// mirrorSign is the sign with which the second is added to the first.
func mirrorSign(r *linkage.Requirement) float64 {
	if r.Opposed {
		return 1
	}
	return -1
}
