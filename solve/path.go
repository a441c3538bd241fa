// Layer: path.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
)

// path is the poses that a run takes as one control moves and the others are
// held. x is the control's position in its own unit, from neutral.
type path struct {
	m       *Mechanism
	control *linkage.Control
	input   int     // the control's freedom
	unit    float64 // radians or run units for each unit of x
	longest float64 // the longest step between two samples, in the unit of x
	// stride is the step that is made, longest but where a build is looked at only where
	// something is expected; mostMove is how far anything may move in it, and places are
	// where samples are to be, by side, outward; nil: at every stride.
	stride   float64
	mostMove float64
	places   [2][]float64
	// nearest tells, of a build, by probe which stretches of metal came nearest when it was
	// last read (nearest.which); none of what is no gap.
	nearest []int
	// onward are the probes that count beyond the end of the travel too, inside those that
	// don't; nil: all do. Those of stops, which do, are from stops[0] up to stops[1]. beyond
	// says that the travel has ended.
	onward  []int
	inside  []int
	stops   [2]int
	beyond  bool
	x       float64 // of the pose last solved
	held    []*Held // by freedom; nil where the freedom is no held control's
	st      state   // the pose last solved
	solved  int     // how many poses were, and counted is how many of these a work knows of
	counted int
	tried   int    // pairs of stretches of metal held against each other, not counted yet
	rates   *rates // and its rates, by the freedom: for each radian or run unit
	probes  []probe
	shared  int       // how many measures have rates that several probes ask for
	guess   []float64 // see guessing
	// passing are the samples that are soon passed by, and staying those that are kept:
	// apart, so that one of these doesn't keep some of those.
	passing, staying samples
	// creeping says that x is walked to: then no place on the way is walked to by itself.
	creeping bool
	reading  float64 // the work of reading all of them
}

// probe is a quantity followed along a path. noise is what its rounding may
// amount to; value returns it and its rate for each unit of x, of the pose
// last solved.
type probe struct {
	noise float64
	value func(p *path) (v, dv float64)
	// alone is the value without its rate, where that takes less; nil: it doesn't.
	alone func(p *path) float64
	// slope says that the value is itself a rate, which a singular pose has not.
	slope bool
	// posed says that the value hangs on where everything stands alone, on no rates.
	poseOnly bool
}

// sample is a pose along a path and every probe there.
type sample struct {
	x     float64
	q     []float64 // freedoms
	d, dd []float64 // their rates, by x
	v, dv []float64 // by probe
	sign  []float64 // by step: see rates
	slack []bool    // by pair
	// nearest is that of the path; nil but in builds.
	nearest []int
	// valid is false where a rate is infinite: then v of slopes and dv are not.
	valid bool
}

func (m *Mechanism) newPath(c *linkage.Control) *path {
	p := &path{m: m, control: c, input: m.freedomOf(c), unit: 1, st: m.newState(), rates: m.newRates(), held: make([]*Held, len(m.freedoms))}
	p.longest = m.longestStep(c)
	p.takeStrides()
	if m.freedoms[p.input].kind == turn {
		p.unit = degree
	}
	return p
}

// takeStrides takes the steps that are made.
func (p *path) takeStrides() {
	p.stride, p.mostMove = p.longest, longestMove
	if p.m.coarse {
		p.stride, p.mostMove = float64(coarseStride*p.longest), coarseMove
	}
}

// longestStep is the longest step of a control between two samples, in its unit.
func (m *Mechanism) longestStep(c *linkage.Control) float64 {
	if m.freedoms[m.freedomOf(c)].kind == turn {
		return float64(sampleStep * m.stride)
	}
	return float64(m.stride * min(slideStep*m.sizeIn(c.In), slideDetail*m.detail))
}

// solve closes the run at x, from a guess of every freedom.
func (p *path) solve(x float64, guess []float64) closed {
	m := p.m
	p.x = x
	p.solved++
	if x == 0 && !p.isHeld() {
		p.st.take(&m.neutral)
		return allClosed
	}
	for f, q := range guess {
		switch {
		case m.freedoms[f].algebra:
			p.st.q[f] = q
		case f != p.input:
			m.setFreedom(&p.st, f, q)
		}
	}
	m.setFreedom(&p.st, p.input, float64(x*p.unit))
	return m.solve(&p.st)
}

// isHeld reports whether some other control is held off neutral.
func (p *path) isHeld() bool {
	return slices.ContainsFunc(p.held, func(h *Held) bool { return h != nil && h.At != 0 })
}

// take fills in a sample from the pose last solved.
func (p *path) take(x float64) *sample {
	p.m.differentiate(&p.st, p.rates, p.input)
	n := len(p.st.q)
	s, room := p.newSample(&p.passing, 3*n+2*len(p.probes)+len(p.m.steps))
	cut := func(n int) (s []float64) { s, room = room[:n:n], room[n:]; return s }
	*s = sample{x: x, q: cut(n), d: cut(n), dd: cut(n), v: cut(len(p.probes)), dv: cut(len(p.probes)), sign: cut(len(p.m.steps)), valid: p.rates.valid}
	copy(s.q, p.st.q)
	copy(s.sign, p.rates.sign)
	for _, h := range p.st.hung {
		s.slack = append(s.slack, h.slack)
	}
	for f := range n {
		s.d[f] = float64(p.rates.d[f] * p.unit)
		s.dd[f] = float64(p.rates.dd[f] * p.unit * p.unit)
	}
	p.readInto(s)
	if p.nearest != nil {
		s.nearest = p.m.keptPlaces(p.nearest)
	}
	return s
}

// readInto reads every probe at the pose last solved. Beyond the end of a build's travel
// only those that count there too are: the others stay 0, and nobody asks for them.
func (p *path) readInto(s *sample) {
	if p.onward == nil {
		for i := range p.probes {
			s.v[i], s.dv[i] = p.probes[i].value(p)
		}
	} else {
		beyond, closed := p.beyond, -p.m.lengthNoise(beyondStop)
		for _, i := range p.onward {
			s.v[i], s.dv[i] = p.probes[i].value(p)
			beyond = beyond || p.stops[0] <= i && i < p.stops[1] && s.v[i] < closed
		}
		if !beyond {
			for _, i := range p.inside {
				s.v[i], s.dv[i] = p.probes[i].value(p)
			}
		}
	}
	if !s.valid {
		clear(s.dv)
	}
}

// predict fills in where the freedoms are expected at x, from a sample's first
// and second rates. Where these are so large that they say nothing any more,
// just short of a toggle, a freedom is taken to move by mostPredicted.
func (p *path) predict(s *sample, x float64, q []float64) []float64 {
	h := x - s.x
	for f := range q {
		q[f] = s.q[f]
		if s.valid {
			most := mostPredicted * p.sizeOf(f)
			move := float64(h * (s.d[f] + float64(0.5*h*s.dd[f])))
			q[f] += max(-most, min(most, move))
		}
	}
	return q
}

const (
	// agreeShare is by how much of the move between two samples the way that
	// their rates tell may miss, if they are on one branch.
	agreeShare = 0.01
	// agreeFloor is what it may miss at least, radians or shares of the run's
	// size.
	agreeFloor = 1e-7
	// longestMove is the most that any freedom may move between two samples,
	// radians or shares of the run's size, so that no event is stepped over by
	// a part that moves much faster than the control.
	longestMove = 0.1
	// coarseStride is how many of the longest steps one is where a build is looked at only
	// where something is expected, and coarseMove what anything may move in it.
	coarseStride = 100
	coarseMove   = 0.8
	// beyondStop is the overlap, in shares of the run's size or degrees of the same number,
	// from which on a sample surely lies beyond the end of the travel: more than an end is
	// located to.
	beyondStop = 1e-6
	// missShare is the share of its move by which an unknown of a block may miss
	// where it was predicted: from a good start Newton's method moves little, and
	// where it moves much it may have gone to another assembly.
	missShare = 0.2
	// missFloor is what it may miss at least, radians or shares of the run's size.
	missFloor = 1e-6
)

// sizeOf is the size by which freedom f is compared: 1 for an angle.
func (p *path) sizeOf(f int) float64 { return p.m.sizeOf(f) }

// noStep says that no step is in trouble.
const noStep = -1

// follow solves x from the sample's prediction, and returns how far the pose
// moved. trouble is the step that doesn't close, or closes too far from where it
// was predicted.
func (p *path) follow(a *sample, x float64, guess []float64) (trouble int, move float64) {
	if failed := p.solve(x, p.predict(a, x, guess)); failed != allClosed {
		return int(failed), 0
	}
	for f, q := range p.st.q {
		if f != p.input { // the control's own steps are as asked
			move = max(move, math.Abs(q-a.q[f])/p.sizeOf(f))
		}
	}
	return p.strays(a, guess), move
}

// strays returns the first step closed by Newton's method whose unknowns lie too
// far from where they were guessed, for how far they moved from a.
func (p *path) strays(a *sample, guess []float64) int {
	if !p.m.hasBlocks {
		return noStep
	}
	for i := range p.m.steps {
		s := &p.m.steps[i]
		if s.kind != closeBlock {
			continue
		}
		miss, move := 0.0, 0.0
		for _, f := range s.unknowns {
			miss = max(miss, math.Abs(p.st.q[f]-guess[f])/p.sizeOf(f))
			move = max(move, math.Abs(p.st.q[f]-a.q[f])/p.sizeOf(f))
		}
		if miss > missFloor+float64(missShare*move) {
			return i
		}
	}
	return noStep
}

// leaves returns the first step whose unknowns leave their branch between two
// neighboring samples, the given one left aside. What algebra closes doesn't;
// what Newton's method or a pair closes may have fallen to another branch, and
// then the way that the rates of both tell (Hermite's rule of the fifth order)
// doesn't lead from one to the other. Nor is it one branch where a determinant
// has changed its sign: two assemblies meet between, or it was jumped.
func (p *path) leaves(a, b *sample, sure int) int {
	if !p.m.hasBlocks || !a.valid || !b.valid {
		return noStep
	}
	h := b.x - a.x
	for i := range p.m.steps {
		s := &p.m.steps[i]
		if s.kind < closePull || i == sure {
			continue
		}
		if a.sign[i] != b.sign[i] {
			return i
		}
		for _, f := range s.unknowns {
			way := float64(h / 2 * (a.d[f] + b.d[f] + float64(h/6*(a.dd[f]-b.dd[f]))))
			move := b.q[f] - a.q[f]
			if math.Abs(move-way)/p.sizeOf(f) > agreeFloor+agreeShare*math.Abs(move)/p.sizeOf(f) {
				return i
			}
		}
	}
	return noStep
}
