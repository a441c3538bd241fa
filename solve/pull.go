// Layer: pose.

package solve

import (
	"math"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
)

// A pair of cables drawn up against each other holds a part elastically. With
// p the length of a cable, e how much longer than unloaded that is, k its
// stiffness and T = k e its tension, and p' the rate of p as the part turns or
// slides, the part stands without load where
//
//	F = T1 p1' + T2 p2' = 0,  K = dF/dq = sum of k (p' p' + e p'') > 0,
//
// which is the least of the energy sum of k e e / 2. There p1' and p2' have
// opposite signs, so that both tensions are above 0, or both below: then both
// cables hang loose, for they can't push, and the part floats between where the
// one comes taut and where the other does. It is told in the middle. That
// moves on without a jump where they go slack, though not without a kink. From
// there on F = 0 tells nothing: it may have no stable place while the part still
// floats, which ends only where a cable is in line just as it comes taut.

// pull is a pair, as what holds a part.
type pull struct {
	pair       *linkage.Pair
	constraint int
	freedom    int // of the part that it holds
	step       int
	// scale is the sum of k times how fast the cable's end moves, as drawn: F
	// over it is a length.
	scale float64
}

// hung is how a pair stands in a pose.
type hung struct {
	tension [2]float64 // below 0 where they would have to push to be as long as they are
	slack   bool
	taut    [2]float64 // where each cable comes taut, if both are slack
}

const (
	// tautNoise is by how much, as a share of the run's size, a cable of a pair
	// may come out too short to be taut and still count as taut: rounding. Without
	// it a pair that is just relieved of all tension would be one or the other at
	// random.
	tautNoise = valueNoise
	// floatNoise is how far beyond where a slack cable comes taut, radians or shares
	// of the run's size, its part may be guessed to stand, and how much too short
	// the other may come out there: where they just go slack rounding leaves as
	// much.
	floatNoise = 1e-7
	// farPull is how far from where it was guessed a balance may lie, radians or
	// shares of the run's size: farther, it is another one.
	farPull = mostPredicted
	// unstable is how far below 0 the stiffness of a pair, as a share of what it
	// is with both cables square to their arms, may come out where the part just
	// goes over center.
	unstable = -criticalSine
)

// swing is how one cable of a pair goes with the part that the pair holds.
type swing struct {
	e         float64 // how much longer than unloaded it is
	p1, p2    float64 // the first and second rate of its length by the part's own freedom
	speed2    float64 // the square of how fast its ends move
	tension   float64
	stiffness float64
}

// swing finds that for a pose.
func (m *Mechanism) swing(st *state, k *cablePath, f int) swing {
	s := swing{e: st.pathOf(k) - k.free, stiffness: k.stiffness}
	s.tension = float64(k.stiffness * s.e)
	for i := range k.legs {
		g := &k.legs[i]
		w := st.place(g.core).Sub(st.place(g.mouth))
		n := w.Norm()
		a := m.partial(st, g.core, f).Sub(m.partial(st, g.mouth, f))
		if n == 0 {
			continue
		}
		along := w.Dot(a) / n
		s.p1 += along
		// The rate of a is k x a where the part turns, for its pivot stands on the
		// airframe, and nothing where it slides.
		s.p2 += (a.Dot(a) + w.Dot(m.turned(f, a)) - float64(along*along)) / n
		s.speed2 += a.Dot(a)
	}
	for _, d := range k.drums {
		if d.freedom == f {
			s.p1 += d.takes
			s.speed2 += float64(d.takes * d.takes)
		}
	}
	return s
}

// turned is the rate of a vector that turns with the part of freedom f, which
// is on the airframe.
func (m *Mechanism) turned(f int, a vec) vec {
	if m.freedoms[f].kind != turn {
		return vec{}
	}
	return m.bodies[m.freedoms[f].body].axis.Cross(a)
}

// swings finds it for both cables of a pair.
func (m *Mechanism) swings(st *state, l *constraint) (s [2]swing) {
	f := m.pulls[l.pull].freedom
	return [2]swing{m.swing(st, &l.cablePaths[0], f), m.swing(st, &l.cablePaths[1], f)}
}

// balance returns F and K of a pair where its part now stands.
func (m *Mechanism) balance(st *state, l *constraint) (f, k float64) {
	return balanceOf(m.swings(st, l))
}

func balanceOf(now [2]swing) (f, k float64) {
	for _, s := range now {
		f += float64(s.tension * s.p1)
		k += float64(s.stiffness * (float64(s.p1*s.p1) + float64(s.e*s.p2)))
	}
	return f, k
}

// fullStiffness is what K would be with both cables square to their arms and
// unstretched.
func fullStiffness(s [2]swing) float64 {
	return float64(s[0].stiffness*s[0].speed2) + float64(s[1].stiffness*s[1].speed2)
}

// closePull puts the part that a pair holds where it stands, and reports whether
// it could. Where nothing pulls it floats, whatever a balance of what can't push
// would come to: far from taut there may be none, or none that is stable.
func (m *Mechanism) closePull(st *state, s *step) bool {
	l := &m.constraints[s.constraints[0]]
	m.placeAll(st, s.within)
	if m.areLoose(st, l) {
		return m.float(st, s)
	}
	now, ok := m.seekBalance(st, s)
	if !ok {
		return false
	}
	most := float64(tautNoise * m.size * (now[0].stiffness + now[1].stiffness))
	if now[0].tension+now[1].tension < -most {
		return m.float(st, s)
	}
	m.takeTaut(st, l, now)
	return true
}

// takeTaut takes a pair as taut.
func (m *Mechanism) takeTaut(st *state, l *constraint, now [2]swing) {
	h := &st.hung[l.pull]
	h.slack = false
	h.tension = [2]float64{now[0].tension, now[1].tension}
}

// areLoose reports whether both cables of a pair surely hang loose where its part
// now stands.
func (m *Mechanism) areLoose(st *state, l *constraint) bool {
	for i := range l.cablePaths {
		if k := &l.cablePaths[i]; !(st.pathOf(k)-k.free < -tautNoise*m.size) {
			return false
		}
	}
	return true
}

// seekBalance puts the part that a pair holds where F = 0, near where it stands,
// and returns how its cables are there; ok is whether there is such a place and it
// stays there.
func (m *Mechanism) seekBalance(st *state, s *step) (now [2]swing, ok bool) {
	l := &m.constraints[s.constraints[0]]
	f := s.unknowns[0]
	start := st.q[f]
	if !m.seekZero(st, s, func() (float64, float64) {
		off, slope := m.balance(st, l)
		// Downhill to where it stands, not uphill to where it would tip.
		scale := m.pulls[l.pull].scale
		return off / scale, math.Abs(slope) / scale
	}) {
		return now, false
	}
	if math.Abs(st.q[f]-start) > farPull*m.sizeOf(f) {
		return now, false
	}
	now = m.swings(st, l)
	_, k := balanceOf(now)
	return now, !(k < unstable*fullStiffness(now))
}

// float takes a pair as slack, puts its part in the middle of where it floats, and
// reports whether it could: whether one cable stops it on either side of where it
// stands, and the other is loose there.
func (m *Mechanism) float(st *state, s *step) bool {
	l := &m.constraints[s.constraints[0]]
	f := s.unknowns[0]
	h := &st.hung[l.pull]
	start := st.q[f]
	off := float64(floatNoise * m.sizeOf(f))
	for i := range l.cablePaths {
		k := &l.cablePaths[i]
		m.setFreedom(st, f, start)
		if !m.seekTaut(st, s, k) {
			return false
		}
		h.taut[i] = st.q[f]
		other := &l.cablePaths[1-i]
		slope, _ := m.pathPartial(st, k, f)
		if away := h.taut[i] - start; math.Abs(away) > off && (slope*away < 0 || st.pathOf(other)-other.free > floatNoise*m.size) {
			return false
		}
	}
	low, high := h.taut[0]-start, h.taut[1]-start
	if low > high {
		low, high = high, low
	}
	if low > off || high < -off {
		return false
	}
	m.setFreedom(st, f, h.taut[0]+0.5*(h.taut[1]-h.taut[0]))
	m.placeAll(st, s.within)
	m.takeSlack(st, l)
	return true
}

// takeSlack takes a pair as slack, its part in the middle.
func (m *Mechanism) takeSlack(st *state, l *constraint) {
	h := &st.hung[l.pull]
	h.slack = true
	for i := range l.cablePaths {
		k := &l.cablePaths[i]
		h.tension[i] = float64(k.stiffness * (st.pathOf(k) - k.free))
	}
}

// seekTaut puts the part of a pair where one of its cables comes taut.
func (m *Mechanism) seekTaut(st *state, s *step, k *cablePath) bool {
	f := s.unknowns[0]
	return m.seekZero(st, s, func() (float64, float64) {
		slope, _ := m.pathPartial(st, k, f)
		return st.pathOf(k) - k.free, slope
	})
}

// hang takes a pair at its border as slack or as taut, as far as it can be.
func (m *Mechanism) hang(st *state, s *step, slack bool) bool {
	if slack {
		return m.float(st, s)
	}
	now, ok := m.seekBalance(st, s)
	if ok {
		m.takeTaut(st, &m.constraints[s.constraints[0]], now)
	}
	return ok
}

// seekZero moves the only unknown of a step by Newton's method to where
// something is nothing, from where it stands. off is how much that is as a
// length, and slope its rate.
func (m *Mechanism) seekZero(st *state, s *step, off func() (v, slope float64)) bool {
	f := s.unknowns[0]
	most := float64(newtonTurn * m.sizeOf(f))
	last := math.Inf(1)
	for range newtonSteps {
		m.placeAll(st, s.within)
		v, slope := off()
		size := math.Abs(v)
		if size <= newtonClose*m.size || size >= last && size <= newtonAccept*m.size {
			return true
		}
		change := v / slope
		if math.IsNaN(change) {
			return false
		}
		last = size
		m.setFreedom(st, f, st.q[f]-math.Max(-most, math.Min(most, change)))
	}
	m.placeAll(st, s.within)
	v, _ := off()
	return math.Abs(v) <= newtonAccept*m.size
}

// rehang finds how the pairs stand in a pose whose every body is in place.
func (m *Mechanism) rehang(st *state) {
	for i := range m.pulls {
		s := &m.steps[m.pulls[i].step]
		l := &m.constraints[m.pulls[i].constraint]
		f := s.unknowns[0]
		q := st.q[f]
		closed := m.closePull(st, s)
		m.balanceRates(st, s, q)
		if !closed && m.areLoose(st, l) {
			m.refloat(st, s)
		}
	}
}

// refloat takes a pair as slack whose part stands in the middle of where it
// floats, though one end of that is so nearly lost that it isn't found again: it
// lies as far from the middle as the other.
func (m *Mechanism) refloat(st *state, s *step) {
	l := &m.constraints[s.constraints[0]]
	h := &st.hung[l.pull]
	middle := st.q[s.unknowns[0]]
	var found [2]bool
	for i := range l.cablePaths {
		found[i] = m.seekTaut(st, s, &l.cablePaths[i])
		h.taut[i] = st.q[s.unknowns[0]]
		m.balanceRates(st, s, middle)
	}
	for i := range found {
		if !found[i] {
			h.taut[i] = middle
			if found[1-i] {
				h.taut[i] = 2*middle - h.taut[1-i]
			}
		}
	}
	m.takeSlack(st, l)
}

// unwindFor brings the turns that a step's open cables are wound by up to date:
// algebra leaves them as cosine and sine.
func (m *Mechanism) unwindFor(st *state, s *step) {
	for _, f := range s.wound {
		b := m.freedoms[f].body
		st.q[f] = wrap(elementary.Atan2(st.sin[b], st.cos[b]), st.q[f])
	}
}
