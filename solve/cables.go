// Layer: sweep.

package solve

import (
	"cmp"
	"math"
	"slices"

	"fullfree/linkage"
)

// addCables sets up what is followed of every cable of a pair, and of how far
// what the pair holds floats.
func (s *sweeper) addCables() {
	m := s.m
	s.tensions = slices.Repeat([]int{-1}, len(m.run.Cables))
	s.slack = make([][][2]float64, len(m.pulls))
	for i := range m.pulls {
		l := &m.constraints[m.pulls[i].constraint]
		for j := range l.cablePaths {
			s.tensions[l.cablePaths[j].cable.Index] = s.track(s.p.addTension(i, j))
		}
		s.free = append(s.free, s.track(s.p.addFree(i)))
	}
}

// addTension adds the probe of the tension of one cable of a pair.
func (p *path) addTension(pair, cable int) int {
	k := &p.m.constraints[p.m.pulls[pair].constraint].cablePaths[cable]
	return p.add(probe{noise: float64(k.stiffness * tautNoise * p.m.size), value: func(p *path) (float64, float64) {
		h := &p.st.hung[pair]
		if h.slack || h.tension[cable] < 0 {
			return 0, 0
		}
		return h.tension[cable], float64(p.rates.pulls[pair].tension[cable] * p.unit)
	}})
}

// addFree adds the probe of how far what a pair holds can be moved by hand.
func (p *path) addFree(pair int) int {
	f := p.m.pulls[pair].freedom
	unit := p.m.freedomMeasure(f).unit
	per := 1.0
	if unit == degrees {
		per = degree
	}
	return p.add(probe{noise: p.m.noiseOf(unit, valueNoise), value: func(p *path) (float64, float64) {
		r := &p.rates.pulls[pair]
		if h := &p.st.hung[pair]; !h.slack { // no rates are needed to know
			return 0, 0
		} else if r.free == 0 {
			return math.Abs(h.taut[1]-h.taut[0]) / per, 0
		}
		return r.free / per, float64(r.dfree / per * p.unit)
	}})
}

// noteSlack notes the stretches in which pairs are slack.
func (s *sweeper) noteSlack(a, b *sample) {
	for i, slack := range a.slack {
		if slack && a.x != b.x {
			s.slack[i] = append(s.slack[i], [2]float64{min(a.x, b.x), max(a.x, b.x)})
		}
	}
}

// concludeCables tells how every cable is drawn over the travel, and how far
// what pairs hold floats.
func (s *sweeper) concludeCables() {
	m := s.m
	for i := range s.slack {
		s.slack[i] = joined(s.slack[i])
	}
	for i, c := range m.run.Cables {
		travel := CableTravel{Cable: c, Part: m.heldBy(c), Unit: m.lengthUnit(c.In).ForceUnit()}
		if probe := s.tensions[i]; probe >= 0 {
			e := s.extent(probe)
			travel.Neutral, travel.Least, travel.Most = &e.Neutral, &e.Least, &e.Most
			travel.At = s.where(probe, s.trackers[probe].leastAt)
			if travel.Slack = s.slack[c.Pair.Index]; len(travel.Slack) > 0 {
				e.Least = 0 // not what rounding leaves where it just goes slack
			}
		}
		s.sweep.Cables = append(s.sweep.Cables, travel)
	}
	most := 0.0
	for i, probe := range s.free {
		f := m.pulls[i].freedom
		k := m.freedomMeasure(f)
		share := s.extent(probe).Most / m.sizeOf(f)
		if k.unit == degrees {
			share = float64(share * degree)
		}
		if t := s.trackers[probe]; len(s.slack[i]) > 0 && share > most {
			most = share
			s.sweep.LostMotion = &LostMotion{Part: m.bodies[m.freedoms[f].body].part, Unit: k.unit, Most: t.most, At: t.mostAt}
		}
	}
}

// inLine returns the cable of a pair that comes in line at a toggle with what it
// moves, so that the other hangs loose and it alone holds the part fast, at its
// shortest; nil where the part goes over center there instead.
func (s *sweeper) inLine(c *critical) *linkage.Cable {
	m := s.m
	step := &m.steps[c.step]
	if step.kind != closePull || c.kind != Toggle {
		return nil
	}
	s.p.restore(c.at)
	l := &m.constraints[step.constraints[0]]
	for i, now := range m.swings(&s.p.st, l) {
		if math.Abs(now.p1) < lostSine*math.Sqrt(now.speed2) && now.e > 0 && now.p2 > 0 {
			return l.cablePaths[i].cable
		}
	}
	return nil
}

// slackPast returns the step of a cable that only pulls and hangs slack past the
// stop that ends a side of the travel: one whose spring holds what it moves against
// the stop, so that the control itself goes on. Of cables one after another it is
// that nearest to the stop. -1 where there is none.
func (s *sweeper) slackPast(sd *side) int {
	m := s.m
	if sd.stop == nil || !sd.end.valid {
		return -1
	}
	for i := len(m.steps) - 1; i >= 0; i-- {
		step := &m.steps[i]
		l := &m.constraints[step.constraints[0]]
		if len(step.constraints) > 1 || !l.sprung() {
			continue
		}
		f := step.unknowns[0]
		if !m.isBehind(sd.stop, f) {
			continue
		}
		s.p.restore(sd.end)
		m.differentiate(&s.p.st, s.p.rates, s.p.input)
		outward := float64(s.p.rates.d[f] * sd.w.dir)
		if l.cablePaths[0].cable.Spring == "minus" {
			outward = -outward
		}
		if outward > 0 {
			return i
		}
	}
	return -1
}

// standsBehind reports whether a stop acts only on what freedom f moves, and on the
// airframe or what carries that.
func (m *Mechanism) isBehind(stop *linkage.Stop, f int) bool {
	moved := m.movedWith([]int{f})
	if stop.Of != nil {
		return m.isMoved(m.partBody[stop.Of.Index], moved)
	}
	var bodies []int
	for _, t := range stop.Touch {
		if t.Rod != nil {
			return false
		}
		bodies = append(bodies, m.partBody[t.Part.Index])
	}
	within, _ := m.meeting(bodies)
	any := false
	for _, b := range bodies {
		switch {
		case m.isMoved(b, moved):
			any = true
		case b != airframe && b != within:
			return false
		}
	}
	return any
}

// heldBy returns the part that a cable holds by itself, or in its pair; nil where
// it closes a loop with others.
func (m *Mechanism) heldBy(c *linkage.Cable) *linkage.Part {
	for i := range m.steps {
		s := &m.steps[i]
		holds := func(l int) bool {
			return slices.ContainsFunc(m.constraints[l].cablePaths, func(k cablePath) bool { return k.cable == c })
		}
		if len(s.unknowns) == 1 && slices.ContainsFunc(s.constraints, holds) {
			return m.bodies[m.freedoms[s.unknowns[0]].body].part
		}
	}
	return nil
}

// joined sorts stretches and makes one of those that meet.
func joined(stretches [][2]float64) (list [][2]float64) {
	slices.SortFunc(stretches, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
	for _, s := range stretches {
		if n := len(list); n > 0 && list[n-1][1] >= s[0] {
			list[n-1][1] = max(list[n-1][1], s[1])
			continue
		}
		list = append(list, s)
	}
	return list
}

// addApart adds the probe of how far apart two places are with every control at
// neutral, wherever the run stands.
func (p *path) addApart(a, b measure) int {
	return p.add(probe{noise: p.m.lengthNoise(valueNoise), value: func(p *path) (float64, float64) {
		return p.m.neutral.place(a.at(p)).Sub(p.m.neutral.place(b.at(p))).Norm(), 0
	}})
}
