// Layer: sweep.

package solve

import (
	"cmp"
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/solve/internal/num"
)

// A dead center is a place where a part that follows the control halts whole and
// turns back while the control goes on: a hinge or a slide halts in its own
// travel, and while what carries it stands still; a floating part in its
// place and its turn at once. It is told for the first such part in the order
// of driving: what only turns back because that does is not told again. An
// output that turns back though what it is read from goes on is one by itself,
// unless a steady requirement says that this control should leave it alone.

// dead-center candidate is what may halt at a dead center: a freedom that a step places, or an
// output, with the last step that places what it is read from, noStep where
// there is none.
type deadCenterCandidate struct {
	freedom, step int
	output        *linkage.Output // nil for a freedom
	probe         int             // its rate
}

// halt is where it does.
type deadCenter struct {
	deadCenterCandidate
	x          float64
	share      float64     // its second rate
	constraint *constraint // that drives it; nil for an output
	gaps       []float64   // of every stop
}

// movingRate is the rate, radians or shares of the run's size for a radian or
// share of the control's, above which a part moves: above what is left of a
// zero located to rounding, and below any that a builder could see.
const movingRate = 1e-8

// addHalts sets up the search for dead centers.
func (s *sweeper) addDeadCenterCandidates() {
	m := s.m
	for i := range m.steps {
		for _, f := range m.steps[i].unknowns {
			k := m.freedomMeasure(f)
			s.candidates = append(s.candidates, deadCenterCandidate{freedom: f, step: i, probe: s.p.addSlope(k)})
		}
	}
	for i, o := range m.run.Outputs {
		if !s.keepsSteady(o) {
			s.candidates = append(s.candidates, deadCenterCandidate{output: o, step: m.lastStepOf(m.freedomsUnder(m.bodyRead(o))), probe: s.ratios[i]})
		}
	}
}

// keepsSteady reports whether a requirement says that this control should leave an
// output alone: by its name, or by that of the part whose travel it tells.
func (s *sweeper) keepsSteady(o *linkage.Output) bool {
	return slices.ContainsFunc(s.m.run.Requirements, func(r *linkage.Requirement) bool {
		if r.Kind != linkage.Steady || !s.m.concerns(s.sweep.Control, r) {
			return false
		}
		of := r.Of[0]
		return of.Output == o || of.Part != nil && of.Part == o.Part && o.Point == nil
	})
}

// seekHalts finds where something halts and turns back between two samples.
func (s *sweeper) seekDeadCenters(w *walk, a, b *sample) {
	for _, h := range s.candidates {
		for _, x := range w.zeros(a, b, h.probe) {
			if at := s.p.sampleAt(a, b, x); at != nil {
				s.recordDeadCenter(h, at)
			}
		}
	}
}

// haltsAtNeutral records what stands at a dead center in the neutral pose.
func (s *sweeper) deadCentersAtNeutral() {
	for _, h := range s.candidates {
		probe := &s.p.probes[h.probe]
		v, dv := s.origin.v[h.probe], s.origin.dv[h.probe]
		if math.Abs(v) <= probe.noise && math.Abs(dv)*s.p.longest > probe.noise {
			s.recordDeadCenter(h, s.origin)
		}
	}
}

// recordHalt records a dead center, if what halts halts whole, and while
// something goes on that it follows.
func (s *sweeper) recordDeadCenter(h deadCenterCandidate, at *sample) {
	p := s.p
	p.solve(at.x, at.q)
	p.m.differentiate(&p.st, p.rates, p.input)
	found := deadCenter{deadCenterCandidate: h, x: at.x, gaps: at.v[s.stops : s.stops+len(p.m.run.Stops)]}
	if h.output != nil {
		if slices.ContainsFunc(p.m.freedomsUnder(p.m.bodyRead(h.output)), p.moves) {
			s.dead = append(s.dead, found)
		}
		return
	}
	step, body := &p.m.steps[h.step], p.m.wholeOf(p.m.freedoms[h.freedom].body)
	if slices.ContainsFunc(p.m.freedomsUnder(body), p.moves) || !slices.ContainsFunc(step.given, p.moves) {
		return
	}
	first, count := p.m.freedomsOfPart(body)
	for f := first; f < first+count; f++ {
		found.share = math.Max(found.share, math.Abs(p.rates.dd[f])/p.sizeOf(f))
	}
	found.constraint = p.driverOf(step, h.freedom)
	s.dead = append(s.dead, found)
}

// moves reports whether a freedom moves with the control in the pose last solved.
func (p *path) moves(f int) bool {
	return math.Abs(p.rates.d[f])/p.sizeOf(f)*p.sizeOf(p.input) > movingRate
}

// freedomsUnder are the freedoms of everything that places a body.
func (m *Mechanism) freedomsUnder(body int) (list []int) {
	for _, b := range m.under(body) {
		first, count := m.freedomsOf(b)
		for f := first; f < first+count; f++ {
			list = append(list, f)
		}
	}
	return list
}

// lastStepOf is the last step that places one of some freedoms; noStep where none
// does.
func (m *Mechanism) lastStepOf(freedoms []int) int {
	last := noStep
	for i := range m.steps {
		if slices.ContainsFunc(m.steps[i].unknowns, func(f int) bool { return slices.Contains(freedoms, f) }) {
			last = i
		}
	}
	return last
}

// bodyRead is the body that an output is read from.
func (m *Mechanism) bodyRead(o *linkage.Output) int {
	if o.Point != nil {
		return m.endAt(*o.Point).body
	}
	return m.partBody[o.Part.Index]
}

// concludeCritical lists the critical points by place. Of parts of one step
// that halt together the one with the largest second rate is told.
func (s *sweeper) concludeCritical() {
	together := func(a, b deadCenter) bool {
		return a.output == nil && b.output == nil && a.step == b.step && math.Abs(a.x-b.x) <= tieOfStops*math.Max(1, math.Abs(a.x))
	}
	w := s.sweep
	if w.TurnsRotor() {
		s.dead = nil // a blade that comes round again reverses at least twice
	}
	s.dead = slices.DeleteFunc(s.dead, s.wavers)
	var told []deadCenter
	for _, h := range s.dead {
		i := slices.IndexFunc(told, func(t deadCenter) bool { return together(t, h) })
		if i < 0 {
			told = append(told, h)
		} else if h.share > told[i].share*(1+num.Tie) {
			told[i] = h
		}
	}
	for _, h := range told {
		c := Critical{Kind: DeadCenter, At: h.x, Output: h.output, Margin: s.marginOf(s.sideOf(h.x), h.step, h.x)}
		if h.output == nil {
			c.Part = s.m.bodies[s.m.freedoms[h.freedom].body].part
			c.Rod, c.Cable, c.Joint = h.constraint.rod, h.constraint.cable(), h.constraint.pinned()
		}
		w.Critical = append(w.Critical, c)
	}
	for _, sd := range s.sides {
		if c := sd.w.singularity; c != nil {
			part, l := s.m.shareOf(c)
			w.Critical = append(w.Critical, Critical{Kind: c.kind, At: c.x, Part: part, Rod: l.rod, Cable: l.cable(), Joint: l.pinned(), InLine: s.inLine(c),
				Margin: s.marginOf(s.sideOf(c.x), c.step, c.x)})
		}
	}
	slices.SortStableFunc(w.Critical, func(a, b Critical) int {
		return cmp.Or(cmp.Compare(a.At, b.At), cmp.Compare(a.order(), b.order()))
	})
}

// waver is the travel, degrees, below which what a rotor's hub carries doesn't follow a
// control but wavers: with the blade where a stick does nothing to it, it goes by little, to
// one side with the stick either way.
const waver = 3.0

// wavers reports whether a dead center is one of that.
func (s *sweeper) wavers(h deadCenter) bool {
	f := s.m.freedoms[h.freedom]
	rotor := s.m.rotorOf(s.sweep.Control)
	if h.output != nil || f.kind != turn || rotor == nil || carrierOf(s.m.bodies[f.body].part, rotor) == nil {
		return false
	}
	far := 0.0
	for _, sd := range s.sides {
		far = math.Max(far, math.Abs(sd.end.q[h.freedom]-s.origin.q[h.freedom]))
	}
	return far < waver*degree
}

// order is a critical point's place among those at the same position of the
// control: parts in the file's order, then outputs in theirs.
func (c *Critical) order() int {
	if c.Output != nil {
		return math.MaxInt32 + c.Output.Index
	}
	return c.Part.Index
}

// Reads returns the part whose motion it shows in: the one that is on center, or
// the one that the output is read from; nil where that is a rod.
func (c *Critical) Reads() *linkage.Part {
	switch {
	case c.Output == nil:
		return c.Part
	case c.Output.Point != nil:
		return c.Output.Point.Part
	}
	return c.Output.Part
}

// Name is that of the part that is on center, or of the output that turns back.
func (c *Critical) Name() string {
	switch {
	case c.Output != nil:
		return c.Output.Name
	case c.Part != nil:
		return c.Part.Name
	}
	return ""
}
