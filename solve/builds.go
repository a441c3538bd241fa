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
		stands[k] = m.bodies[k].kind == followsRod || pinned[k] && m.bodies[k].kind.isOne()
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
	w.n = nil
	w.room.forget()
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
		v, dv := k.withRate(p)
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

// EngagementOf judges how much thread is in the ends of a run.
func EngagementOf(run *linkage.Run) Judgement {
	if run == nil {
		return Judgement{}
	}
	return (&Mechanism{run: run}).judgeEngagement(&linkage.Requirement{Kind: linkage.Engagement})
}
