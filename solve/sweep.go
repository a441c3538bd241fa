// Layer: sweep.

package solve

import (
	"cmp"
	"math"
	"slices"

	"fullfree/linkage"
)

// sweeper builds one Sweep.
type sweeper struct {
	m      *Mechanism
	p      *path
	sweep  *Sweep
	origin *sample
	sides  [2]*side // low, high
	kept   [2]*side // of a build: those in which it was made
	knots  []*sample

	trackers []*tracker // by probe; nil where a probe's extremes aren't wanted
	tracked  []*tracker // those that there are
	turning  []int      // probes with an extreme between the samples being looked at
	stops    int        // the probe of the first stop's gap
	parts    []int      // probes, by Sweep.Parts
	outputs  []int
	ratios   []int
	tilts    [][2]int // by rod, from and to
	needed   []int    // by rod: the length of a second path; -1 for a rod that drives
	// limits are the probes of how far a second path is from the ends of its
	// play, by rod, and passes where they are 0.
	limits map[int][]int
	passes map[int][]float64
	// tensions are the probes of cables, by Run.Cables, -1 where one acts alone;
	// free those of how far what a pair holds floats, and slack the stretches of
	// the travel in which it does, by pair.
	tensions []int
	free     []int
	slack    [][][2]float64

	candidates []deadCenterCandidate // what may halt at a dead center
	dead       []deadCenter
	reversals  []reversal
	judged     []judgedProbe
	edges      []asideEdge
	ways       []wayFound // those asked for, once it is concluded

	work *work
	seen func(s *sweeper, a, b *sample) // see sweepAlong
}

// side is one side of the travel.
type side struct {
	index  int
	w      *walk
	bites  []*float64 // by stop: where it first bites on this side
	biteAt []float64  // room for these
	near   []approach // by stop: how near it comes until then
	end    *sample    // where the travel ends; nil while it goes on
	stop   *linkage.Stop
	slack  int         // the step of a cable that hangs slack past stop; -1: none
	past   *End        // how the control itself ends then; nil: it can't be told
	tail   [12]*sample // the last samples with rates, inside the travel; nil before them
	before *float64    // where the last but one of them lies, once the sweep is concluded
}

// Sweep moves one control through all that is explored with the others held;
// controls that held leaves out stand at the first of their held settings. Controls may
// be of any run that the mechanism's was made from or into by linkage.Run.With. The
// error is *linkage.Faults, of controls that this run hasn't got too, or ErrStopped.
func (m *Mechanism) Sweep(control *linkage.Control, held []Held) (*Sweep, error) {
	if !m.compiled() {
		return nil, errNoMechanism
	}
	if err := m.tellForeign(control, held); err != nil {
		return nil, err
	}
	control, held = m.run.Control(control), m.heldHere(held)
	var all []Held
	for _, c := range m.run.Controls {
		if c == control {
			continue
		}
		h := Held{c, c.Held[0]}
		if i := slices.IndexFunc(held, func(h Held) bool { return h.Control == c }); i >= 0 {
			h = held[i]
		}
		all = append(all, h)
	}
	s, fault := m.sweepOne(control, all, m.newWork(m.stepsOf(control)))
	if m.Stopped() {
		return nil, ErrStopped
	}
	if fault != nil {
		faults := &linkage.Faults{Source: m.run.Source, List: []linkage.Fault{*fault}}
		return nil, faults.Err()
	}
	return s.sweep, nil
}

func (m *Mechanism) sweepOne(control *linkage.Control, held []Held, work *work) (*sweeper, *linkage.Fault) {
	return m.sweepAlong(control, held, work, [2][]float64{}, nil)
}

// sweepAlong is that with samples at places, by side, outward, and at every stride
// otherwise. seen, where it isn't nil, is told of every two neighboring samples as far as
// the travel goes.
func (m *Mechanism) sweepAlong(control *linkage.Control, held []Held, work *work, places [2][]float64, seen func(s *sweeper, a, b *sample)) (*sweeper, *linkage.Fault) {
	q, fault := m.hold(held, work)
	if fault != nil {
		return nil, fault
	}
	s := m.newSweeper(control, held)
	s.p.places, s.seen = places, seen
	s.work = work
	work.add(m, s.workOfSetup())
	s.p.solve(0, q)
	s.origin = s.p.take(0)
	for _, t := range s.tracked {
		t.consider(s.origin.v[t.probe], 0, 0)
	}
	s.knots = append(s.knots[:0], s.origin)
	s.explore()
	s.conclude()
	for _, sd := range s.sides { // large, and wanted no more
		if near := sd.tail[len(sd.tail)-2]; near != nil {
			sd.before = &near.x
		}
		clear(sd.tail[:])
	}
	return s, nil
}

// newSweeper sets up a sweep and all that it follows.
func (m *Mechanism) newSweeper(control *linkage.Control, held []Held) *sweeper {
	control, held = m.run.Control(control), m.heldHere(held)
	if s := m.keptSweeper(); s != nil {
		s.again(held)
		return s
	}
	s := &sweeper{m: m, p: m.newPath(control), limits: make(map[int][]int), passes: make(map[int][]float64)}
	s.sweep = &Sweep{Control: control, Held: held, Unit: m.freedomMeasure(m.freedomOf(control)).unit, of: s, readers: &readers{}}
	for i := range held {
		s.p.held[m.freedomOf(held[i].Control)] = &held[i]
	}
	s.addProbes()
	for _, t := range s.trackers {
		if t != nil {
			s.tracked = append(s.tracked, t)
		}
	}
	m.keepSweeper(s)
	return s
}

// addProbes sets up all that is followed.
func (s *sweeper) addProbes() {
	m, p := s.m, s.p
	p.addSines()
	if m.lean {
		s.addJudgedAlone()
		return
	}
	for l := range m.constraints {
		s.track(l)
	}
	for _, part := range m.run.Parts {
		if part.Motion != linkage.Fixed {
			s.addPart(part)
		}
	}
	for _, o := range m.run.Outputs {
		k := m.outputMeasure(o)
		s.sweep.Outputs = append(s.sweep.Outputs, OutputTravel{Output: o, Unit: k.unit})
		s.outputs = append(s.outputs, s.track(p.addValue(k.unit, k.withRate)))
		s.ratios = append(s.ratios, s.track(p.addSlope(k)))
	}
	for i, r := range m.run.Rods {
		l := &m.constraints[i]
		s.tilts = append(s.tilts, [2]int{
			s.track(p.addTilt(i, l.from, m.boltOf(r.From))),
			s.track(p.addTilt(i, l.to, m.boltOf(r.To))),
		})
	}
	for i, r := range m.run.Rods {
		s.needed = append(s.needed, -1)
		if r.SecondPath {
			s.needed[i] = s.track(p.addNeeded(i))
			s.addLimits(i)
		}
	}
	s.addCables()
	s.stops = m.addStops(p)
	s.addDeadCenterCandidates()
	s.addJudged()
}

func (s *sweeper) track(probe int) int {
	s.trackers = append(s.trackers, make([]*tracker, len(s.p.probes)-len(s.trackers))...)
	s.trackers[probe] = &tracker{probe: probe}
	return probe
}

func (s *sweeper) addPart(part *linkage.Part) {
	m := s.m
	for _, t := range m.tellings(part) {
		s.sweep.Parts = append(s.sweep.Parts, PartTravel{Part: part, Name: t.name, Unit: t.k.unit})
		s.parts = append(s.parts, s.track(s.p.addValue(t.k.unit, t.k.withRate)))
	}
}

// boltOf returns the direction of the bolt at a point, as drawn.
func (m *Mechanism) boltOf(r linkage.PointRef) vec {
	if b := r.Get().Bolt; b != nil {
		return *b
	}
	if r.Part != nil && r.Part.Axis != (vec{}) {
		return r.Part.Axis
	}
	return zAxis
}

// explore walks both sides: to the limits explored, and where no critical point
// is found and over-center is required, further.
func (s *sweeper) explore() {
	c := s.sweep.Control
	for i, limit := range []float64{c.From, c.To} {
		sd := s.newSide(i)
		s.sides[i] = sd
		s.p.beyond = false
		s.biteAtNeutral(sd)
		sd.w.to(limit)
		s.p.beyond = false
		s.endAt(sd, sd.w.last, nil)
		s.endSlack(sd)
	}
	s.deadCentersAtNeutral()
	s.exploreFurther()
	for _, sd := range s.sides { // what a large run's thinning may have left out
		s.knots = append(s.knots, sd.end, sd.w.last)
	}
	slices.SortStableFunc(s.knots, func(a, b *sample) int { return cmp.Compare(a.x, b.x) })
}

// newSide is a side of the travel of which nothing is known yet; of a build the one that
// was made for an earlier one.
func (s *sweeper) newSide(i int) *side {
	dir, n := float64(2*i-1), len(s.m.run.Stops)
	sd := s.kept[i]
	if sd == nil {
		sd = &side{bites: make([]*float64, n), biteAt: make([]float64, n), near: make([]approach, n)}
		sd.w = newWalk(s.p, dir, s.origin, func(_ *walk, a, b *sample) { s.between(sd, a, b) })
	} else {
		w := sd.w
		*w = walk{p: s.p, dir: dir, last: s.origin, between: w.between, guess: w.guess, trail: w.trail[:0]}
		clear(sd.bites)
		clear(sd.near)
	}
	*sd = side{index: i, slack: -1, w: sd.w, bites: sd.bites, biteAt: sd.biteAt, near: sd.near}
	if s.m.room != nil {
		s.kept[i] = sd
	}
	return sd
}

// biteAtNeutral ends a side at once where a stop already touches and would
// close.
func (s *sweeper) biteAtNeutral(sd *side) {
	for i, stop := range s.m.run.Stops {
		if closing(sd.w, s.origin, s.stops+i, s.m.stopNoise(stop)) {
			zero := 0.0
			sd.bites[i] = &zero
			s.endAt(sd, s.origin, stop)
		}
	}
}

// endAt ends the travel on one side, unless it has ended.
func (s *sweeper) endAt(sd *side, at *sample, stop *linkage.Stop) {
	if sd.end == nil {
		sd.end, sd.stop = at, stop
		s.p.beyond = s.p.onward != nil
	}
}

// between takes the stretch between two neighboring samples into account.
func (s *sweeper) between(sd *side, a, b *sample) {
	w := sd.w
	if w.singularity != nil && b == w.singularity.at {
		for _, l := range s.m.steps[w.singularity.step].constraints {
			if b.v[l] < criticalSine {
				b.v[l], b.dv[l] = 0, 0
			}
		}
	}
	e, stop := s.firstBite(sd, a, b)
	if !s.m.lean {
		s.seekNearest(sd, a, b)
	}
	if s.seen != nil {
		s.seen(s, a, b)
	}
	if sd.end == nil {
		s.follow(a, e)
		s.seekReversals(w, a, e)
		s.seekAside(w, a, e)
		s.seekPasses(w, a, e)
		s.noteSlack(a, e)
		s.noteMirrored(sd, a, e)
		if e.valid {
			copy(sd.tail[:], sd.tail[1:])
			sd.tail[len(sd.tail)-1] = e
		}
		if stop != nil {
			s.endAt(sd, e, stop)
		}
	}
	s.seekDeadCenters(w, a, b)
	s.keep(b)
	if s.work.overBy(s.p) && !w.ended() {
		w.lost, s.sweep.CutShort = true, true // what lies beyond is left out
	}
}

// firstBite finds where stops first bite between two samples. It returns the
// sample of the first of them with that stop, or b and nil.
func (s *sweeper) firstBite(sd *side, a, b *sample) (*sample, *linkage.Stop) {
	var first *linkage.Stop
	var firstAt float64
	for i, stop := range s.m.run.Stops {
		if sd.bites[i] != nil {
			continue
		}
		var x float64
		var ok bool
		if stop.Of == s.sweep.Control.Of { // the control's own position: the file's number itself
			x = s.m.off.stop(stop)
			_, _, ok = sd.w.closes(a, b, s.stops+i, s.m.stopNoise(stop))
		} else {
			x, ok = sd.w.touchdown(a, b, s.stops+i, s.m.stopNoise(stop))
		}
		if !ok {
			continue
		}
		sd.biteAt[i] = x
		sd.bites[i] = &sd.biteAt[i]
		if first == nil || math.Abs(x) < math.Abs(firstAt)-float64(tieOfStops*math.Abs(firstAt)) {
			first, firstAt = stop, x
		}
	}
	if first == nil || sd.end != nil {
		return b, nil
	}
	if e := s.p.sampleAt(a, b, firstAt); e != nil {
		return e, first
	}
	return b, first
}

// keep remembers a sample as a start for solving near it later. Of a large run, or
// where there are many, only some are kept.
func (s *sweeper) keep(b *sample) {
	last := s.knots[len(s.knots)-1]
	every := s.work.every
	if kept := s.work.numbers(); kept > mostNumbers { // more than was foreseen: steps became small
		every = max(every, math.Ceil(float64(kept)/mostNumbers))
		every = float64(every * every)
	}
	if every > 1 && math.Abs(b.x-last.x) < every*s.p.longest && b.x*last.x >= 0 && b.valid {
		return
	}
	s.work.kept += s.m.numbersKept()
	n := len(b.q)
	k, room := s.p.newSample(&s.p.staying, 3*n)
	*k = sample{x: b.x, q: room[:n:n], d: room[n : 2*n : 2*n], dd: room[2*n:], valid: b.valid}
	copy(k.q, b.q)
	copy(k.d, b.d)
	copy(k.dd, b.dd)
	s.knots = append(s.knots, k)
}
