// Layer: sweep.

package solve

import (
	"slices"

	"fullfree/linkage"
)

// Of a build only what is judged is wanted, not all that a sweep tells: what follows here
// is the part of addProbes and conclude that judging asks for. What it judges is judged by
// the same code.

// requires reports whether a requirement of one of some kinds is judged in this sweep.
func (s *sweeper) requires(kinds ...linkage.Kind) bool {
	return slices.ContainsFunc(s.m.run.Requirements, func(r *linkage.Requirement) bool {
		return slices.Contains(kinds, r.Kind) && s.m.concerns(s.sweep.Control, r)
	})
}

// addJudgedAlone sets up what judging needs.
func (s *sweeper) addJudgedAlone() {
	m, p := s.m, s.p
	if s.requires(linkage.RodAngle) {
		for l := range m.constraints {
			s.track(l)
		}
	}
	centers, play := s.requires(linkage.OverCenter), s.requires(linkage.FreePlay)
	if centers || play || m.leanLabels {
		for _, o := range m.run.Outputs {
			k := m.outputMeasure(o)
			s.sweep.Outputs = append(s.sweep.Outputs, OutputTravel{Output: o, Unit: k.unit})
			if m.leanLabels {
				s.outputs = append(s.outputs, s.track(p.addValue(k.unit, k.withRate)))
			}
			s.ratios = append(s.ratios, s.track(p.addSlope(k)))
		}
	}
	if s.requires(linkage.Misalignment) {
		for i, r := range m.run.Rods {
			l := &m.constraints[i]
			s.tilts = append(s.tilts, [2]int{
				s.track(p.addTilt(i, l.from, m.boltOf(r.From))),
				s.track(p.addTilt(i, l.to, m.boltOf(r.To))),
			})
		}
	}
	for i, r := range m.run.Rods {
		s.needed = append(s.needed, -1)
		if r.SecondPath && s.requires(linkage.SecondPath) {
			s.needed[i] = s.track(p.addNeeded(i))
			s.addLimits(i)
		}
	}
	s.addCables()
	s.stops = m.addStops(p)
	if centers {
		s.addDeadCenterCandidates()
	}
	s.addJudged()
	s.wantJudgedAlone()
	s.noteOnward()
	if s.requires(linkage.Clearance) {
		p.nearest = make([]int, len(p.probes))
	}
}

// noteOnward says which probes count beyond the end of the travel: how near the rods are to
// being on center, what halts there, and where stops would bite.
func (s *sweeper) noteOnward() {
	p := s.p
	p.stops = [2]int{s.stops, s.stops + len(s.m.run.Stops)}
	onward := make([]bool, len(p.probes))
	for i := range onward {
		onward[i] = i < len(s.m.constraints)+len(s.m.pulls) || p.stops[0] <= i && i < p.stops[1]
	}
	for _, k := range s.candidates {
		onward[k.probe] = true
	}
	p.onward, p.inside = []int{}, []int{}
	for i, on := range onward {
		if on {
			p.onward = append(p.onward, i)
		} else {
			p.inside = append(p.inside, i)
		}
	}
}

// wantJudgedAlone says of what is tracked which extremes are judged.
func (s *sweeper) wantJudgedAlone() {
	want := func(probe int, least, most bool) {
		if t := s.trackers[probe]; t != nil {
			t.noLeast, t.noMost = !least, !most
		}
	}
	for l := range s.m.constraints {
		if l < len(s.trackers) {
			want(l, true, false) // the flattest angle
		}
	}
	for _, probe := range s.outputs {
		want(probe, false, false) // which control moves it most
	}
	if !s.requires(linkage.FreePlay) {
		for _, probe := range s.ratios {
			want(probe, false, false)
		}
	}
	for i := range s.judged {
		j := &s.judged[i]
		switch s.m.run.Requirements[j.requirement].Kind {
		case linkage.Sense:
			want(j.first, false, false) // whether it moves at all
			want(j.second, false, false)
			want(j.probe, true, false)
		case linkage.Clearance:
			want(j.probe, true, false)
		}
	}
}

// concludeJudgedAlone fills in what judging needs.
func (s *sweeper) concludeJudgedAlone() {
	for i, probe := range s.outputs {
		s.sweep.Outputs[i].Extent = s.extent(probe)
	}
	angles := s.requires(linkage.RodAngle)
	for l, rod := range s.m.run.Rods {
		travel := RodTravel{Rod: rod, Length: rod.Length}
		switch {
		case rod.SecondPath && s.needed[l] >= 0:
			travel.SecondPath = s.secondPath(l)
		case !rod.SecondPath && angles:
			travel.Angle = s.rodAngle(l)
		}
		s.sweep.Rods = append(s.sweep.Rods, travel)
	}
	s.concludeCables()
}

// keptSweeper is the next sweep of a build, as it was made for an earlier one; nil where
// there is none.
func (m *Mechanism) keptSweeper() *sweeper {
	r := m.room
	if r == nil || r.used == len(r.sweepers) {
		return nil
	}
	r.used++
	return r.sweepers[r.used-1]
}

// keepSweeper keeps a sweep for the builds to come.
func (m *Mechanism) keepSweeper(s *sweeper) {
	if r := m.room; r != nil {
		r.sweepers = append(r.sweepers, s)
		r.used++
	}
}

// again makes a sweep as it was when it was made, its probes kept.
func (s *sweeper) again(held []Held) {
	p, w := s.p, s.sweep
	fresh := path{m: p.m, control: p.control, input: p.input, unit: p.unit, longest: p.longest, st: p.st, rates: p.rates, held: p.held, probes: p.probes, reading: p.reading, onward: p.onward, inside: p.inside, stops: p.stops, nearest: p.nearest, guess: p.guess}
	clear(fresh.held)
	*p = fresh
	p.takeStrides()
	for i := range held {
		p.held[s.m.freedomOf(held[i].Control)] = &held[i]
	}
	*w = Sweep{Control: w.Control, Held: held, Unit: w.Unit, of: s, readers: w.readers, Outputs: w.Outputs, Rods: w.Rods[:0], Critical: w.Critical[:0]}
	for _, t := range s.tracked {
		*t = tracker{probe: t.probe, noLeast: t.noLeast, noMost: t.noMost}
	}
	s.origin, s.knots, s.sides = nil, s.knots[:0], [2]*side{}
	s.dead, s.reversals, s.edges = s.dead[:0], s.reversals[:0], s.edges[:0]
	s.ways = s.ways[:0]
	clear(s.passes)
	clear(s.slack)
	for i := range s.judged {
		s.judged[i].stretches = [2][]mirrorStretch{}
	}
}
