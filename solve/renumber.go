// Layer: questions.

package solve

import "math"

// renumberPlaces puts every number of a build in its place, but for how it closes.
func (m *Mechanism) renumberPlaces() {
	for i := range m.bodies {
		if b := &m.bodies[i]; b.part != nil {
			b.pivot = m.pivotOf(b.part)
		}
	}
	for i := range m.constraints {
		l := &m.constraints[i]
		switch {
		case l.pin != nil:
			m.placePin(l)
		case l.rod != nil:
			l.from.at, l.to.at = m.off.point(l.rod.From).Sub(m.center), m.off.point(l.rod.To).Sub(m.center)
			m.off.setRod(l)
		}
	}
}

// renumber puts every number of a build in its place, and reports whether it closes at
// neutral. The mechanism must be one that nobody else uses, of a run without cables.
func (m *Mechanism) renumber(near *state) bool {
	m.renumberPlaces()
	for i := range m.steps {
		s := &m.steps[i]
		l := &m.constraints[s.constraints[0]]
		switch s.kind {
		case closeFourbar:
			own, other := s.crank.near, s.crank.far
			own.at, other.at = m.nowAt(l, own), m.nowAt(l, other)
			sign := m.fourbars[s.fourbar].sign
			*s.crank = m.newCrank(s.crank.own, own, other)
			m.fourbars[s.fourbar] = m.newFourbar(s.crank.own, other, s.crank)
			m.fourbars[s.fourbar].sign = sign
			m.flats[s.fourbar] = m.newFlat(s.crank, other)
		case closeCrank:
			own, other := s.crank.near, s.crank.far
			own.at, other.at = m.nowAt(l, own), m.nowAt(l, other)
			sign := s.crank.sign
			*s.crank = m.newCrank(s.crank.own, own, other)
			s.crank.sign = sign
		case closeGuide:
			own, other := s.guide.near, s.guide.far
			own.at, other.at = m.nowAt(l, own), m.nowAt(l, other)
			sign := s.guide.sign
			*s.guide = m.newGuide(s.guide.own, own, other)
			s.guide.sign = sign
		}
	}
	return m.settleNear(near)
}

// nearNeutral is how far from where the run as drawn stands at neutral, radians or shares of
// the run's size, a build is taken for the same assembly without following it there: some
// degrees, while other assemblies are tens of degrees away or on center.
const nearNeutral = 0.05

// settleNear is settleNeutral, but the pose of the run as drawn is tried first.
func (m *Mechanism) settleNear(near *state) bool {
	st := &m.neutral
	st.take(near)
	m.setLengths(1)
	if m.solve(st) == allClosed {
		far := 0.0
		for f, q := range st.q {
			far = math.Max(far, math.Abs(q-near.q[f])/m.sizeOf(f))
		}
		if far <= nearNeutral {
			return true
		}
	}
	clear(st.q)
	for b := range st.frames {
		st.cos[b], st.sin[b], st.frames[b] = 1, 0, unmoved
	}
	return m.settleNeutral() == 1
}

// nowAt is where an end of a step's rod is now: the rod's end on the same body.
func (m *Mechanism) nowAt(l *constraint, e end) vec {
	if l.from.body == e.body {
		return l.from.at
	}
	return l.to.at
}

// passesStops reports whether some stop is past contact where a sweep begins.
func (s *sweeper) passesStops() bool {
	for i, stop := range s.m.run.Stops {
		if s.origin.v[s.stops+i] < -s.m.stopNoise(stop) {
			return true
		}
	}
	return false
}

// passesStops reports whether some stop is past contact at neutral.
func (m *Mechanism) passesStops() bool {
	p := m.newPath(m.run.Controls[0])
	first := m.addStops(p)
	p.st.take(&m.neutral)
	p.x = 0
	m.differentiate(&p.st, p.rates, p.input)
	for i, s := range m.run.Stops {
		if v, _ := p.probes[first+i].value(p); v < -m.stopNoise(s) {
			return true
		}
	}
	return false
}
