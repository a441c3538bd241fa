// Layer: compile.

package solve

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/mat"

	"fullfree/linkage"
)

const (
	// gradual is in how many steps at least the rods go from their drawn
	// lengths to the set ones.
	gradual = 16
	// gradualFinest is the smallest such step, as a share.
	gradualFinest = 1.0 / 4096
	// ContactNoise is the overlap, as a share of the run's size, within which
	// two features just touch: what typed coordinates are rounded to.
	ContactNoise = 1e-9
)

// findNeutral closes the run with the controls as drawn. The rods go gradually
// from their drawn lengths to the set ones, so that the assembly is the drawn
// one.
func (m *Mechanism) findNeutral(faults *linkage.Faults) {
	m.neutral = m.newState()
	st := &m.neutral
	m.placeAll(st, m.placing)
	if m.tellSingular(st, "as drawn", faults); len(faults.List) > 0 {
		return
	}
	if done := m.settleNeutral(); done < 1 {
		m.tellOpen(st, done, faults)
		return
	}
	if m.isSetOff() {
		m.tellSingular(st, "at neutral, with the rods as set", faults)
	}
	if m.tellSprings(st, faults); len(faults.List) > 0 {
		return
	}
	m.placeStops(faults)
}

// isSetOff reports whether some rod or cable is set off its drawn length.
func (m *Mechanism) isSetOff() bool {
	return slices.ContainsFunc(m.constraints, func(l constraint) bool { return !l.isDrawn() && !l.secondPath() })
}

// settleNeutral closes the neutral pose from the drawn one, and returns the
// share of the way to the set lengths on which it closes: 1 for all of it.
func (m *Mechanism) settleNeutral() (done float64) {
	m.placeAll(&m.neutral, m.placing)
	m.setLengths(1)
	if !m.isSetOff() {
		return 1
	}
	return m.setGradually(&m.neutral)
}

// setGradually brings the rods from their drawn lengths to the set ones, and
// returns the share of the way on which the run closes.
func (m *Mechanism) setGradually(st *state) (done float64) {
	before, guess := m.newState(), m.newState()
	before.take(st)
	last := 0.0 // the share that led to before
	change := make([]float64, len(st.q))
	for step := 1.0 / gradual; done < 1; {
		share := math.Min(1, done+step)
		guess.take(&before)
		if last > 0 { // as it went on the last step
			for f := range change {
				m.setFreedom(&guess, f, before.q[f]+float64(change[f]*(share-done)/last))
			}
		}
		st.take(&guess)
		m.setLengths(share)
		if failed := m.solve(st); failed == allClosed && m.follows(&before, &guess, st, last > 0) {
			for f := range change {
				change[f] = st.q[f] - before.q[f]
			}
			before.take(st)
			last, done = share-done, share
			continue
		}
		st.take(&before)
		if step /= 2; step < gradualFinest {
			return done
		}
	}
	return done
}

const (
	// strayFloor is the move, radians or shares of the run's size, below which
	// that isn't asked.
	strayFloor = 1e-3
)

// follows reports whether a pose lies near enough to the one before it, and to
// where it was expected, to be the same assembly.
func (m *Mechanism) follows(before, expected, st *state, told bool) bool {
	move, stray := 0.0, 0.0
	for f := range st.q {
		size := m.sizeOf(f)
		move = math.Max(move, math.Abs(st.q[f]-before.q[f])/size)
		stray = math.Max(stray, math.Abs(st.q[f]-expected.q[f])/size)
	}
	return move <= newtonTurn && !(told && stray > strayFloor+float64(strayShare*move))
}

// setLengths sets every rod and cable to a share of the way from its drawn to
// its set length.
func (m *Mechanism) setLengths(share float64) {
	for i := range m.constraints {
		m.constraints[i].setTo(share)
	}
	for i := range m.steps {
		s := &m.steps[i]
		m.setLength(s, m.constraints[s.constraints[0]].length)
	}
}

// tellOpen adds the fault of a run that can't be closed.
func (m *Mechanism) tellOpen(st *state, done float64, faults *linkage.Faults) {
	m.setLengths(1)
	failed := m.solve(st)
	if failed == allClosed {
		l := m.farthestSet(nil)
		faults.Add(l.span(), "from the drawing, %s can't be set %s (drawn %s) without going over center on the way", l, m.setting(l), m.length(l.drawn, l.in()))
		return
	}
	s := &m.steps[failed]
	if s.kind == closePull {
		m.tellUnheld(s, faults)
		return
	}
	if s.kind != closeBlock {
		l := &m.constraints[s.constraints[0]]
		gap := m.shortfall(st, s)
		word := "short"
		if gap < 0 {
			word = "long"
		}
		faults.Add(l.rod.Span, "the run can't be closed: the rod %q, set to %s, is %s too %s to reach from %s to %s",
			l.rod.Name, m.length(l.length, l.in()), m.length(math.Abs(gap), l.in()), word, l.rod.From, l.rod.To)
		return
	}
	l := m.farthestSet(s.constraints)
	if l.pin != nil {
		faults.Add(l.span(), "the run can't be closed: the points of %s are drawn %s apart, and can't be brought together; correct the drawing", l, m.length(l.pin.joint.Gap, l.in()))
		return
	}
	left := float64((1 - done) * l.setOff())
	word := "long"
	if left < 0 {
		word = "short"
	}
	closes := "the loop that it closes"
	if len(s.constraints) == 1 {
		closes = "what it moves to reach"
	}
	faults.Add(l.span(), "the run can't be closed: %s, set %s, is %s too %s for %s", l, m.setting(l), m.length(math.Abs(left), l.in()), word, closes)
}

// farthestSet returns the constraint, of those given or of all, set farthest from
// its drawn length.
func (m *Mechanism) farthestSet(constraints []int) *constraint {
	best, most := 0, -1.0
	for i := range m.constraints {
		if constraints != nil && !slices.Contains(constraints, i) || m.constraints[i].secondPath() {
			continue
		}
		if off := math.Abs(m.constraints[i].setOff()); off > most {
			best, most = i, off
		}
	}
	return &m.constraints[best]
}

// length writes a length of something of a member of an aircraft for a message; of nil one
// of the run by itself.
func (m *Mechanism) length(v float64, in *linkage.Member) string {
	return strings.TrimSpace(strconv.FormatFloat(roundTo(v, 4), 'f', -1, 64) + " " + string(m.lengthUnit(in)))
}

// tellSingular adds a fault for each step that stands on center, or whose rods
// don't hold its parts.
func (m *Mechanism) tellSingular(st *state, when string, faults *linkage.Faults) {
	r := m.newRates()
	for i := range m.steps {
		s := &m.steps[i]
		if s.kind == closePull {
			m.tellPullOnCenter(st, s, when, faults)
			continue
		}
		if len(s.unknowns) == 1 {
			m.jacobian(st, s, &r.lu)
			l := &m.constraints[s.constraints[0]]
			if arm := m.armOf(st, s); !(math.Abs(r.lu.Pivot(0)) >= criticalSine*arm) || arm == 0 {
				p := m.bodies[m.freedoms[s.unknowns[0]].body].part
				faults.Add(l.span(), "%q stands on center %s: %s is in line with what it should move; draw the run away from there", p.Name, when, l)
			}
			continue
		}
		parts, rods := m.nullOf(st, s)
		if parts == nil {
			continue
		}
		hold := "don't hold"
		if len(rods) == 1 {
			hold = "doesn't hold"
		}
		if p, says, _ := m.turnLeft(st, s.constraints, s.unknowns, parts); p != nil {
			faults.Add(p.Span, "%q %s %s though the count is right: %s %s it (parallel, through one point, or on center)", p.Name, says, when, ofConstraints(rods), hold)
			continue
		}
		faults.Add(parts[0].Span, "%s left loose %s though the count is right: %s %s the last freedom (they are parallel, meet in one point, or stand on center)", isAre(partNames(parts)), when, ofConstraints(rods), hold)
	}
}

// nullOf returns the parts that a step leaves free to move and the constraints that
// don't hold them; nil where the step is regular.
func (m *Mechanism) nullOf(st *state, s *step) (parts []*linkage.Part, rods []*constraint) {
	var svd mat.SVD
	a := m.matrixOf(st, s.constraints, s.unknowns)
	if !svd.Factorize(a, mat.SVDNone) {
		return nil, nil
	}
	values := svd.Values(nil)
	if values[len(values)-1] > rankSine*values[0] {
		return nil, nil
	}
	left, right := m.nullShares(st, s.constraints, s.unknowns)
	for j, f := range s.unknowns {
		if p := m.bodies[m.freedoms[f].body].part; right[j] && !slices.Contains(parts, p) {
			parts = append(parts, p)
		}
	}
	for i, l := range s.constraints {
		if left[i] && m.constraints[l].keep == nil {
			rods = append(rods, &m.constraints[l])
		}
	}
	return parts, rods
}

// placeStops finds on which side each stop by number limits, and adds a fault
// for each stop that is past contact at neutral.
func (m *Mechanism) placeStops(faults *linkage.Faults) {
	m.stopSide = make([]float64, len(m.run.Stops))
	p := m.newPath(m.run.Controls[0])
	p.addSines()
	for _, s := range m.run.Stops {
		if s.Of == nil {
			continue
		}
		k := m.stopMeasure(s)
		p.solve(0, m.neutral.q)
		v, _, _ := k.of(p)
		switch {
		case s.Side == "high":
			m.stopSide[s.Index] = 1
		case s.Side == "low":
			m.stopSide[s.Index] = -1
		case math.Abs(s.At-v) <= m.noiseOf(k.unit, ContactNoise):
			faults.Add(s.Span, `the stop %q stands where %q is at neutral, so its side can't be told: say side = "low" or side = "high"`, s.Name, s.Of.Name)
		default:
			m.stopSide[s.Index] = math.Copysign(1, s.At-v)
		}
	}
	if len(faults.List) > 0 {
		return
	}
	first := m.addStops(p)
	if p.solve(0, m.neutral.q) != allClosed {
		return
	}
	at := p.take(0)
	for i, s := range m.run.Stops {
		if v := at.v[first+i]; v < -m.stopNoise(s) {
			faults.Add(s.Span, "the stop %q is past contact at neutral, by %s: move it, or correct the drawing", s.Name, m.overlap(s, v))
		}
	}
}

// overlap writes how far a stop is past contact.
func (m *Mechanism) overlap(s *linkage.Stop, gap float64) string {
	if s.Of != nil && m.stopMeasure(s).unit == degrees {
		return fmt.Sprintf("%.4g degrees", -gap)
	}
	return m.length(-gap, s.In)
}

// stopNoise is the overlap within which a stop just touches, in its own unit.
func (m *Mechanism) stopNoise(s *linkage.Stop) float64 {
	return m.noiseOf(m.gapUnit(s), ContactNoise)
}

// addStops adds the probe of every stop's gap, in the file's order, and returns
// the place of the first.
func (m *Mechanism) addStops(p *path) (first int) {
	first = len(p.probes)
	for _, s := range m.run.Stops {
		if s.Of != nil {
			p.addLimit(m.stopMeasure(s), s, m.stopSide[s.Index])
			continue
		}
		c, _ := m.newContact(s.Touch) // Compile has refused what it couldn't judge
		p.addGap(c)
	}
	return first
}

// roundTo rounds a figure for a message to so many digits.
func roundTo(v float64, digits int) float64 {
	r, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', digits, 64), 64)
	if err != nil {
		return v
	}
	return r
}
