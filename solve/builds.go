// Layer: questions.

package solve

import (
	"errors"
	"math"
	"slices"

	"fullfree/linkage"
)

// A build is a run as it comes from the bench: of the same structure, every number of it a
// little out. It is judged by the code that judges the run itself. What is saved is looking
// everywhere: where the run as drawn has its events (ends, extremes, places on center) is
// known, so that a build is solved only at places between these, few enough that each
// stretch has one of them, and from there each is sought and solved for as ever. What lies
// elsewhere in a build would be missed; so whoever asks looks at some builds at every step
// too, and compares.

// Build is by how much a build is out.
type Build struct {
	// Dimensions are by Run.Dimensions(), each as a Setting makes it out: arms go along
	// with their pivot. Of a length that the run leaves as drawn it is passed over.
	Dimensions []float64
	Stops      []float64 // by Run.Stops: of those by number
}

// Figure is how a requirement or a label came out in a build.
type Figure struct {
	Verdict Verdict
	Has     bool    // there is a worst figure
	Worst   float64 // of it
}

// Builds are builds of a run that is checked.
type Builds struct {
	m        *Mechanism
	result   *Result
	slots    *slots
	places   [][2][]float64 // by sweep of the result
	combined []int          // by sweep of the result: which combination of the others' held settings
	pins     []pinnedRod
	order    []int // pinned bodies in the order in which they are placed
}

// pinnedRod is a rod of which the pins tell how long it must be.
type pinnedRod struct{ rod int }

// errBuild is told of a build that isn't of the run.
var errBuild = errors.New("what is out isn't told of every dimension and stop of the run")

// errCables is told where builds can't be judged by numbers alone.
var errCables = errors.New("a run with cables is built anew for each build")

// Builds prepares the judging of builds of the mechanism's run, result being its check.
// The error is of a result that isn't this mechanism's; of a run with cables, of which each
// build is a run of its own; or ErrStopped.
func (m *Mechanism) Builds(result *Result) (*Builds, error) {
	if err := m.made(result); err != nil {
		return nil, err
	}
	if len(m.run.Cables) > 0 {
		return nil, errCables
	}
	b := &Builds{m: m, result: result, slots: newSlots(m.run)}
	b.findPins()
	n, ok := m.built(m.run, nil)
	if !ok {
		return nil, errNoMechanism
	}
	n.lean, n.leanLabels = true, len(result.Labels) > 0
	number := make(map[*linkage.Control]int)
	for _, w := range result.Sweeps {
		k := number[w.Control]
		number[w.Control]++
		b.combined = append(b.combined, k)
		var events []float64
		s, fault := n.sweepAlong(n.run.Control(w.Control), n.combination(n.run.Control(w.Control), k), n.newWork(1), [2][]float64{}, func(s *sweeper, a, c *sample) {
			events = s.turnsBetween(events, a, c)
		})
		if m.Stopped() {
			return nil, ErrStopped
		}
		if fault != nil || s == nil {
			return nil, errNoMechanism
		}
		b.places = append(b.places, s.placesAbout(events))
	}
	return b, nil
}

// turnsBetween adds where, about, probes have an extreme or pass 0 between two samples.
func (s *sweeper) turnsBetween(events []float64, a, c *sample) []float64 {
	if !a.valid || !c.valid {
		return events
	}
	h := c.x - a.x
	for i := range s.p.probes {
		noise := s.p.probes[i].noise
		if da, dc := a.dv[i], c.dv[i]; da*dc < 0 && math.Abs(h)*math.Max(math.Abs(da), math.Abs(dc)) > noise {
			events = append(events, a.x+float64(h*da/(da-dc)))
		}
		if va, vc := a.v[i], c.v[i]; va*vc < 0 && math.Max(math.Abs(va), math.Abs(vc)) > noise {
			events = append(events, a.x+float64(h*va/(va-vc)))
		}
	}
	return events
}

// apartShare is how far apart, as a share of all that is explored, two events must lie for a
// sample between them to be worth while.
const apartShare = 1.0 / 64

// placesAbout are places on either side of neutral, outward, between which the events of a
// sweep lie one by one.
func (s *sweeper) placesAbout(events []float64) (places [2][]float64) {
	for i, sd := range s.sides {
		own := []float64{0, sd.end.x}
		for _, at := range sd.bites {
			if at != nil {
				own = append(own, *at)
			}
		}
		for _, x := range events {
			if x*sd.w.dir > 0 {
				own = append(own, x)
			}
		}
		for k := range own {
			own[k] = math.Abs(own[k])
		}
		slices.Sort(own)
		last, limit := 0.0, math.Abs(sd.w.last.x)
		for k := 1; k < len(own); k++ {
			if own[k]-own[k-1] < float64(apartShare*limit) {
				continue
			}
			between := own[k-1] + float64(0.5*(own[k]-own[k-1]))
			if k == 1 {
				continue // neutral itself is a sample
			}
			if between-last >= float64(apartShare*limit) {
				places[i] = append(places[i], float64(between*sd.w.dir))
				last = between
			}
		}
		// Beyond the end, so that builds that go further have their end inside a stretch.
		if beyond := own[len(own)-1] + float64(4*apartShare*limit); beyond < limit {
			places[i] = append(places[i], float64(beyond*sd.w.dir))
		}
	}
	return places
}

// findPins finds which rods' lengths the pins tell.
func (b *Builds) findPins() {
	m := b.m
	pinned := make([]bool, len(m.bodies))
	for _, p := range m.run.Pins {
		pinned[m.partBody[p.Of.Index]] = true
	}
	stands := make([]bool, len(m.bodies))
	stands[airframe] = true
	for _, k := range m.placing {
		stands[k] = m.bodies[k].kind == followsRod || pinned[k] && m.bodies[k].kind != floating
		for _, d := range m.rests(k) {
			stands[k] = stands[k] && stands[d]
		}
		if stands[k] {
			b.order = append(b.order, k)
		}
	}
	for i, r := range m.run.Rods {
		from, to := m.endAt(r.From), m.endAt(r.To)
		if stands[from.body] && stands[to.body] {
			b.pins = append(b.pins, pinnedRod{i})
		}
	}
}

// Builder judges one build after another, in space of its own: one goroutine uses it.
type Builder struct {
	b    *Builds
	n    *Mechanism
	off  *offsets
	st   state
	work work
}

// Builder returns a new one.
func (b *Builds) Builder() *Builder {
	if b == nil || b.m == nil {
		return nil
	}
	n, _ := b.m.built(b.m.run, nil)
	n.lean, n.leanLabels, n.stop = true, len(b.result.Labels) > 0, b.m.stop
	w := &Builder{b: b, n: n, off: &offsets{slots: b.slots, by: make([]float64, b.slots.count)}, st: n.newState()}
	return w
}

// take takes a build's numbers.
func (w *Builder) take(build *Build) error {
	if w == nil || build == nil || len(build.Dimensions) != len(w.b.slots.dimensions) || len(build.Stops) != len(w.n.run.Stops) {
		return errBuild
	}
	by := w.off.by
	clear(by)
	copy(by, build.Dimensions)
	copy(by[w.b.slots.stops:], build.Stops)
	w.off.withArms()
	w.n.off = w.off
	return nil
}

// Pinned is what every rod of a build must measure with all pins in, by Run.Rods; 0 of
// those of which the pins don't tell. It is good until the next call.
func (w *Builder) Pinned(build *Build, into []float64) ([]float64, error) {
	if err := w.take(build); err != nil {
		return nil, err
	}
	n := w.n
	n.renumberPlaces()
	into = into[:0]
	for range n.run.Rods {
		into = append(into, 0)
	}
	for _, k := range w.b.order {
		for _, p := range n.run.Pins {
			if n.partBody[p.Of.Index] == k {
				n.pinAt(&w.st, k, p.At)
				break
			}
		}
		n.placeBody(&w.st, k)
	}
	for _, p := range w.b.pins {
		l := &n.constraints[p.rod]
		into[p.rod] = w.st.place(l.from).Sub(w.st.place(l.to)).Norm()
	}
	return into, nil
}

// Reaching is where the part of a stop stands in a build, as the stop counts it, when an output
// or a part comes to a figure on one side of a control's travel, the others at neutral.
type Reaching struct {
	Stop    *linkage.Stop
	Of      linkage.Subject
	Figure  float64
	Control *linkage.Control
	From    float64 // of the control: where it does so in the run as drawn
}

// reachTries bounds the steps of Newton's method, and reachNear is how near, in shares of
// the run's size or radians, it is to come.
const (
	reachTries = 12
	reachNear  = 1e-9
)

// Where finds that; false where the build doesn't come to it.
func (w *Builder) Where(build *Build, r *Reaching) (at float64, ok bool) {
	if w.take(build) != nil || !w.n.renumber() {
		return 0, false
	}
	n := w.n
	control := n.run.Control(r.Control)
	stop := n.run.Stop(r.Stop)
	if control == nil || stop == nil || stop.Of == nil {
		return 0, false
	}
	p := n.newPath(control)
	k := n.subjectMeasure(r.Of)
	x, guess := r.From, n.neutral.q
	near := n.noiseOf(k.unit, reachNear)
	for range reachTries {
		if p.solve(x, guess) != allClosed {
			return 0, false
		}
		n.differentiate(&p.st, p.rates, p.input)
		v, dv, _ := k.of(p)
		if !p.rates.valid || dv == 0 || math.IsNaN(v) {
			return 0, false
		}
		guess = slices.Clone(p.st.q)
		if math.Abs(v-r.Figure) <= near {
			own := n.stopMeasure(stop)
			return own.value(p), true
		}
		x -= (v - r.Figure) / dv
	}
	return 0, false
}

// Judged is how a build came out.
type Judged struct {
	// Closes is false of a build that can't be assembled at neutral, or not without
	// passing a stop; then it has no figures.
	Closes       bool
	Requirements []Figure // in the order of Run.Requirements
	Labels       []Figure // of those that can be judged as drawn, in the order of Result.Labels
}

// Judge judges a build: at the places of the run as drawn, or, where everywhere is set,
// looked at in every step. The error is of a build that isn't the run's, or ErrStopped.
func (w *Builder) Judge(build *Build, everywhere bool, into *Judged) error {
	if err := w.take(build); err != nil {
		return err
	}
	into.Closes = false
	into.Requirements, into.Labels = into.Requirements[:0], into.Labels[:0]
	n := w.n
	if !n.renumber() || n.passesStops() {
		return nil
	}
	n.coarse = !everywhere
	var sweeps []*sweeper
	for i, of := range w.b.result.Sweeps {
		w.work = work{most: math.Inf(1), every: 1}
		c := n.run.Control(of.Control)
		var places [2][]float64
		if !everywhere {
			places = w.b.places[i]
		}
		s, fault := n.sweepAlong(c, n.combination(c, w.b.combined[i]), &w.work, places, nil)
		if n.Stopped() {
			return ErrStopped
		}
		if fault != nil || s == nil {
			return nil
		}
		s.sweep.Index = len(sweeps)
		sweeps = append(sweeps, s)
	}
	into.Closes = true
	if n.run.Requires(linkage.FreePlay) {
		for _, s := range sweeps {
			s.sweep.FreePlay = s.freePlay()
		}
	}
	for i := range n.run.Requirements {
		j := n.judgeRequirement(i, sweeps, nil)
		into.Requirements = append(into.Requirements, figureOf(&j))
	}
	if !n.leanLabels {
		return nil
	}
	labels := n.judgeLabels(sweeps)
	for i := range w.b.result.Labels {
		f := Figure{Verdict: CannotTell}
		of := w.b.result.Labels[i].Requirement
		for k := range labels {
			if labels[k].Requirement.Of[0] == of.Of[0] {
				f = figureOf(&labels[k])
			}
		}
		into.Labels = append(into.Labels, f)
	}
	return nil
}

func figureOf(j *Judgement) Figure {
	f := Figure{Verdict: j.Verdict, Has: j.Worst != nil}
	if f.Has {
		f.Worst = *j.Worst
	}
	return f
}

// renumberPlaces puts every number of a build in its place, but for how it closes.
func (m *Mechanism) renumberPlaces() {
	for i := range m.bodies {
		b := &m.bodies[i]
		switch {
		case b.part == nil:
		case b.kind == floating:
			b.pivot = m.off.mean(b.part).Sub(m.center)
		default:
			b.pivot = m.off.pivot(b.part).Sub(m.center)
		}
	}
	for i := range m.constraints {
		l := &m.constraints[i]
		l.from.at, l.to.at = m.off.point(l.rod.From).Sub(m.center), m.off.point(l.rod.To).Sub(m.center)
		m.off.setRod(l)
	}
}

// renumber puts every number of a build in its place, and reports whether it closes at
// neutral. The mechanism must be one that nobody else uses, of a run without cables.
func (m *Mechanism) renumber() bool {
	m.renumberPlaces()
	for i := range m.steps {
		s := &m.steps[i]
		l := &m.constraints[s.constraints[0]]
		switch s.kind {
		case closeFourbar:
			own, other := s.crank.near, s.crank.far
			own.at, other.at = m.nowAt(l, own), m.nowAt(l, other)
			sign := m.fourbars[s.fourbar].sign
			*s.crank = *m.newCrank(s.crank.own, own, other)
			m.fourbars[s.fourbar] = m.newFourbar(s.crank.own, other, s.crank)
			m.fourbars[s.fourbar].sign = sign
		case closeCrank:
			own, other := s.crank.near, s.crank.far
			own.at, other.at = m.nowAt(l, own), m.nowAt(l, other)
			sign := s.crank.sign
			*s.crank = *m.newCrank(s.crank.own, own, other)
			s.crank.sign = sign
		case closeGuide:
			own, other := s.guide.near, s.guide.far
			own.at, other.at = m.nowAt(l, own), m.nowAt(l, other)
			sign := s.guide.sign
			*s.guide = *m.newGuide(s.guide.own, own, other)
			s.guide.sign = sign
		}
	}
	st := &m.neutral
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
