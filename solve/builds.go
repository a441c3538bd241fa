// Layer: questions.

package solve

import (
	"cmp"
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

// Builds prepares the judging of builds of the mechanism's run, result being its check.
// The error is of a result that isn't this mechanism's, or ErrStopped.
func (m *Mechanism) Builds(result *Result) (*Builds, error) {
	if err := m.made(result); err != nil {
		return nil, err
	}
	b := &Builds{m: m, result: result, slots: newSlots(m.run)}
	b.findPins()
	n, err := Compile(m.run)
	if err != nil {
		return nil, err
	}
	n.lean, n.leanLabels = true, len(result.Labels) > 0
	number := make(map[*linkage.Control]int)
	for _, w := range result.Sweeps {
		k := number[w.Control]
		number[w.Control]++
		b.combined = append(b.combined, k)
		var events []event
		s, fault := n.sweepAlong(n.run.Control(w.Control), n.combination(n.run.Control(w.Control), k), n.newWork(1), [2][]float64{}, func(s *sweeper, a, c *sample) {
			events = s.eventsBetween(events, a, c)
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

// event is about where a probe has an extreme, or passes 0.
type event struct {
	x     float64
	probe int
}

// eventsBetween adds those between two samples that judging looks for.
func (s *sweeper) eventsBetween(events []event, a, c *sample) []event {
	if !a.valid || !c.valid {
		return events
	}
	h := c.x - a.x
	turns := func(i int) {
		if da, dc := a.dv[i], c.dv[i]; da*dc < 0 && math.Abs(h)*math.Max(math.Abs(da), math.Abs(dc)) > s.p.probes[i].noise {
			events = append(events, event{a.x + float64(h*da/(da-dc)), i})
		}
	}
	passes := func(i int) {
		if va, vc := a.v[i], c.v[i]; va*vc < 0 && math.Max(math.Abs(va), math.Abs(vc)) > s.p.probes[i].noise {
			events = append(events, event{a.x + float64(h*va/(va-vc)), i})
		}
	}
	for i, t := range s.trackers {
		if t != nil && !(t.noLeast && t.noMost) {
			turns(i)
		}
	}
	for i := range s.m.run.Stops {
		turns(s.stops + i)
		passes(s.stops + i)
	}
	for _, k := range s.candidates {
		passes(k.probe)
	}
	for i := range s.judged {
		j := &s.judged[i]
		if s.m.run.Requirements[j.requirement].Kind != linkage.Sense {
			continue
		}
		passes(j.first)
		if j.aside != 0 {
			passes(j.aside)
		}
	}
	return events
}

// beyondShare is how far beyond where the travel of the run as drawn ends, as a share of
// all that is explored, a build is looked at in any case: its own end lies before that.
const beyondShare = 1.0 / 16

// placesAbout are places on either side of neutral, outward, between which each probe has
// one event at most.
func (s *sweeper) placesAbout(events []event) (places [2][]float64) {
	slices.SortStableFunc(events, func(a, b event) int { return cmp.Compare(math.Abs(a.x), math.Abs(b.x)) })
	for i, sd := range s.sides {
		limit := math.Abs(sd.w.last.x)
		end := math.Abs(sd.end.x) + float64(beyondShare*limit)
		last := make(map[int]float64) // by probe: its last event in this stretch
		add := func(x float64) {
			places[i] = append(places[i], float64(x*sd.w.dir))
			clear(last)
		}
		for _, e := range events {
			if e.x*sd.w.dir <= 0 {
				continue
			}
			x := math.Abs(e.x)
			if end > 0 && x > end && end < limit {
				add(end)
				end = 0
			}
			if before, again := last[e.probe]; again && x > before {
				add(before + float64(0.5*(x-before)))
			}
			last[e.probe] = x
		}
		if end > 0 && end < limit {
			add(end)
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
	room *roomOfBuild
}

// Builder returns a new one.
func (b *Builds) Builder() *Builder {
	if b == nil || !b.m.compiled() {
		return nil
	}
	w := &Builder{b: b, off: &offsets{slots: b.slots, by: make([]float64, b.slots.count)}, room: &roomOfBuild{}}
	if !b.anew() {
		w.n, _ = b.m.built(b.m.run, nil)
		w.st = w.n.newState()
		w.prepare()
	}
	return w
}

// anew reports whether each build is a run of its own, compiled anew: one with cables, the
// stretch of which and the springs hang together in more than its numbers.
func (b *Builds) anew() bool { return len(b.m.run.Cables) > 0 }

// prepare makes a mechanism one of a build.
func (w *Builder) prepare() {
	w.n.lean, w.n.leanLabels, w.n.stop, w.n.room = true, len(w.b.result.Labels) > 0, w.b.m.stop, w.room
}

// take takes a build's numbers; n is nil after it where the build is a run of its own that
// doesn't compile.
func (w *Builder) take(build *Build) error {
	if w == nil || w.b == nil || build == nil || len(build.Dimensions) != len(w.b.slots.dimensions) || len(build.Stops) != len(w.b.m.run.Stops) {
		return errBuild
	}
	if w.b.anew() {
		w.compile(build)
		return nil
	}
	by := w.off.by
	clear(by)
	copy(by, build.Dimensions)
	copy(by[w.b.slots.stops:], build.Stops)
	w.off.withArms()
	w.n.off = w.off
	return nil
}

// compile makes a build a run of its own.
func (w *Builder) compile(build *Build) {
	w.n, w.room.sweepers = nil, nil
	run, err := w.b.m.run.With(build.Edits(w.b.m.run)...)
	if err != nil {
		return
	}
	n, err := Compile(run)
	if err != nil || !slices.Equal(n.stopSide, w.b.m.stopSide) {
		return
	}
	w.n, w.st = n, n.newState()
	w.prepare()
}

// stands reports whether the build that was taken closes at neutral.
func (w *Builder) stands() bool {
	if w.b.anew() {
		return w.n != nil
	}
	return w.n.renumber(&w.b.m.neutral)
}

// Edits are what makes a run the build.
func (b *Build) Edits(run *linkage.Run) (edits []linkage.Edit) {
	if b == nil || run == nil {
		return nil
	}
	for _, pivots := range []bool{true, false} { // arms go along with their pivots
		for i, d := range run.Dimensions() {
			if pivot := d.Part != nil && d.Point < 0; i < len(b.Dimensions) && pivot == pivots && b.Dimensions[i] != 0 {
				edits = append(edits, linkage.Shift(d, b.Dimensions[i]))
			}
		}
	}
	for i, s := range run.Stops {
		if i < len(b.Stops) && b.Stops[i] != 0 {
			edits = append(edits, linkage.SetStop(s, s.At+b.Stops[i]))
		}
	}
	return edits
}

// Pinned is what every rod of a build must measure with all pins in, by Run.Rods; 0 of
// those of which the pins don't tell. It is good until the next call.
func (w *Builder) Pinned(build *Build, into []float64) ([]float64, error) {
	if err := w.take(build); err != nil {
		return nil, err
	}
	n := w.n
	into = into[:0]
	for range w.b.m.run.Rods {
		into = append(into, 0)
	}
	if n == nil {
		return into, nil
	}
	if !w.b.anew() {
		n.renumberPlaces()
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
	if r == nil || w.take(build) != nil || !w.stands() {
		return 0, false
	}
	n := w.n
	control := n.run.Control(r.Control)
	stop := n.run.Stop(r.Stop)
	of, ok := n.run.Subject(r.Of)
	if control == nil || stop == nil || stop.Of == nil || !ok {
		return 0, false
	}
	p := n.newPath(control)
	k := n.subjectMeasure(of)
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
	if err := w.take(build); err != nil || into == nil {
		return cmp.Or(err, errBuild)
	}
	into.Closes = false
	into.Requirements, into.Labels = into.Requirements[:0], into.Labels[:0]
	n := w.n
	if !w.stands() {
		return nil
	}
	n.coarse = !everywhere
	n.room.begin()
	passes := true // not known yet
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
		if passes && !s.p.isHeld() {
			if passes = s.passesStops(); passes {
				return nil
			}
		}
	}
	if passes && n.passesStops() {
		return nil
	}
	into.Closes = true
	if n.run.Requires(linkage.FreePlay) {
		for _, s := range sweeps {
			s.sweep.FreePlay = s.freePlay()
		}
	}
	for i := range n.run.Requirements {
		j := n.judgeRequirement(i, sweeps, nil)
		into.Requirements = append(into.Requirements, FigureOf(&j))
	}
	if !n.leanLabels {
		return nil
	}
	labels := n.judgeLabels(sweeps)
	for i := range w.b.result.Labels {
		f := Figure{Verdict: CannotTell}
		of := w.b.result.Labels[i].Requirement
		for k := range labels {
			if r := labels[k].Requirement; r.Name == of.Name && (r.Of[0].Control == nil) == (of.Of[0].Control == nil) {
				f = FigureOf(&labels[k])
			}
		}
		into.Labels = append(into.Labels, f)
	}
	return nil
}

// FigureOf is what of a judgement a build is told by.
func FigureOf(j *Judgement) Figure {
	if j == nil {
		return Figure{}
	}
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

// EngagementOf judges how much thread is in the ends of a run.
func EngagementOf(run *linkage.Run) Judgement {
	if run == nil {
		return Judgement{}
	}
	return (&Mechanism{run: run}).judgeEngagement(&linkage.Requirement{Kind: linkage.Engagement})
}
