package tolerance

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/solve"
	"fullfree/solve/internal/parallel"
)

// ErrExact is the error of a run of which nothing may be out.
var ErrExact = errors.New("nothing of the run may be out")

// ErrStopped is the error of what was stopped before anything was made.
var ErrStopped = errors.New("stopped before anything was done")

var (
	errBuilds  = fmt.Errorf("builds are from 1 to %d", MostBuilds)
	errNothing = errors.New("there is no answer here: Run makes one")
)

const (
	// blockOf is how many builds one goroutine makes before it hands them over.
	blockOf = 256
	// everywhereOf is of how many builds one is looked at in every step too, to show that
	// none of its events was missed: a twentieth of the time goes there.
	everywhereOf = 500
	// sameFigure is by how much a figure may differ between the two, in its own unit and as a
	// share of it where it is more than 1: far more than events are located to, and far less
	// than anyone sets.
	sameFigure = 1e-6
)

// search makes one answer.
type search struct {
	options    Options
	m          *solve.Mechanism
	run        *linkage.Run // rigged, without anything out
	nominal    *solve.Result
	dimensions []linkage.Dimension
	variables  []variable
	reaching   []reaching
	engagement []int // which outcomes hang on how the rod ends are turned
	setting    int   // the outcome of UnfitSettings; -1: there is none
	answer     *Answer
	shops      func() shop // where builds are made
	slopes     [][]float64 // by outcome and variable
	around     []float64   // by outcome: its worst figure smoothly rigged, without anything out
}

// Run draws builds of a mechanism's run within what its file allows, and tells what became
// of them. The error is ErrExact, ErrStopped, or of a run that can't be rigged and checked
// without anything out.
func Run(m *solve.Mechanism, options Options) (*Answer, error) {
	s, err := newSearch(m, options)
	if err != nil {
		return nil, err
	}
	return s.answered()
}

// answered draws, judges and concludes.
func (s *search) answered() (*Answer, error) {
	if err := s.findSlopes(); err != nil {
		return nil, err
	}
	t := s.makeAll(s.options.Plain)
	if t.missed > 0 {
		first := t
		t = s.makeAll(true)
		t.everywhere, t.missed, s.answer.Redone = first.everywhere, first.missed, true
	}
	if t.done == 0 {
		return nil, ErrStopped
	}
	s.conclude(t)
	if !s.options.Plain {
		s.findAlone()
	}
	return s.answer, nil
}

func newSearch(m *solve.Mechanism, options Options) (*search, error) {
	if options.Builds == 0 {
		options.Builds = DefaultBuilds
	}
	if options.Builds < 0 || options.Builds > MostBuilds {
		return nil, errBuilds
	}
	if m == nil || m.Run() == nil {
		return nil, errors.New("there is no run here")
	}
	filed := m.Run()
	n, nominal, stops, err := rigAsDrilled(m, filed, options.AsDrilled)
	if err != nil {
		return nil, err
	}
	s := &search{options: options, m: n, run: n.Run(), nominal: nominal, dimensions: n.Run().Dimensions(), setting: -1}
	s.answer = &Answer{Nominal: nominal, Asked: options.Builds, Seed: options.Seed, Bell: options.Bell}
	s.addVariables(filed, stops)
	if len(s.variables) == 0 {
		return nil, ErrExact
	}
	s.shops = func() shop { return newLongShop(n, nominal) }
	if !options.Plain {
		builds, err := n.Builds(nominal)
		if err != nil {
			return nil, err
		}
		s.shops = func() shop { return quickShop{builds.Builder()} }
	}
	s.addOutcomes()
	return s, nil
}

// addVariables lists what may be out, and what is rigged.
func (s *search) addVariables(filed *linkage.Run, stops []*solve.Reaching) {
	pinned := s.m.Pinned()
	own := filed.Dimensions()
	for i, d := range s.dimensions {
		v := variable{Dimension: Dimension{Name: d.String(), By: filed.OutBy(own[i]), Unit: filed.Units, Value: d.Value()}, dimension: i, stop: -1, rod: -1, low: math.Inf(-1), high: math.Inf(1)}
		v.madeBy = v.By
		if d.IsLength() && d.Rod != nil && !s.options.AsDrilled && isRigged(&pinned[d.Rod.Index]) {
			v.Rigged, v.rod = true, d.Rod.Index
			v.By = halfStep(d.Rod)
			s.answer.RiggedRods = append(s.answer.RiggedRods, d.Rod)
		}
		if v.madeBy > 0 || v.Rigged {
			s.variables = append(s.variables, v)
		}
	}
	for i, stop := range s.run.Stops {
		v := variable{Dimension: Dimension{Name: stop.Name + ".at", By: filed.StopOutBy(filed.Stops[i]), Unit: filed.Units, Value: stop.At}, dimension: -1, stop: i, rod: -1, low: math.Inf(-1), high: math.Inf(1)}
		if stop.Of != nil && stop.Of.Angular() {
			v.Unit = linkage.Degrees
		}
		v.madeBy = v.By
		if s.isControls(stop) {
			if stop.Side == "high" || stop.Side == "" && stop.At > 0 {
				v.low = -stop.At
			} else {
				v.high = -stop.At
			}
		}
		k := slices.IndexFunc(stops, func(r *solve.Reaching) bool { return r.Stop == stop })
		if k >= 0 {
			v.Rigged, v.By = true, stop.Step/2
			s.answer.RiggedStops = append(s.answer.RiggedStops, stop)
			s.reaching = append(s.reaching, reaching{stops[k], len(s.variables)})
		}
		if v.madeBy > 0 || v.Rigged {
			s.variables = append(s.variables, v)
		}
	}
	exact := true
	for _, v := range s.variables {
		exact = exact && v.madeBy == 0
		s.answer.Dimensions = append(s.answer.Dimensions, v.Dimension)
	}
	if exact { // nothing is drawn
		s.variables, s.answer.Dimensions = nil, nil
	}
	s.answer.Rigged = len(s.answer.RiggedRods)+len(s.answer.RiggedStops) > 0
}

// isControls reports whether a stop is of a control's own part.
func (s *search) isControls(stop *linkage.Stop) bool {
	return stop.Of != nil && slices.ContainsFunc(s.run.Controls, func(c *linkage.Control) bool { return c.Of == stop.Of })
}

// halfStep is half of the finest step by which a rod can be set; 0 where it can be set to
// any length.
func halfStep(r *linkage.Rod) float64 {
	least := math.Inf(1)
	for _, e := range r.Ends {
		if per := math.Abs(e.PerTurn()); per > 0 {
			least = math.Min(least, float64(e.Step*per)/2)
		}
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return least
}

// addOutcomes lists what is judged.
func (s *search) addOutcomes() {
	add := func(j *solve.Judgement) {
		s.answer.Outcomes = append(s.answer.Outcomes, Outcome{Requirement: j.Requirement, Unit: j.Unit, Limit: j.Limit, Nominal: j.Worst, Hazard: IsHazard(j.Requirement.Kind)})
	}
	for i := range s.nominal.Requirements {
		if s.nominal.Requirements[i].Requirement.Kind == linkage.Engagement {
			s.engagement = append(s.engagement, i)
		}
		add(&s.nominal.Requirements[i])
	}
	for i := range s.nominal.Labels {
		add(&s.nominal.Labels[i])
	}
	if len(s.answer.RiggedRods) > 0 || len(s.nominal.Unfit) > 0 {
		s.setting = len(s.answer.Outcomes)
		add(&solve.Judgement{Requirement: &linkage.Requirement{Kind: linkage.AsSet, Name: "rod ends"}, Unit: s.run.Units})
	}
}

// judge makes and judges the build that was put together, and puts its figures, by outcome,
// into list; closes is false where it can't be assembled.
func (s *search) judge(r *room, everywhere bool, known map[string]threads, list []solve.Figure) (closes bool, err error) {
	if err := r.shop.judge(&r.build, everywhere, &r.judged); err != nil {
		return false, err
	}
	if !r.judged.Closes {
		clear(list)
		for i := range list {
			list[i].Verdict = solve.FallsShort
		}
		return false, nil
	}
	n := copy(list, r.judged.Requirements)
	copy(list[n:], r.judged.Labels)
	if s.setting < 0 && len(s.engagement) == 0 {
		return true, nil
	}
	t := s.threadsOf(r, known)
	for _, i := range s.engagement {
		list[i] = t.engagement
	}
	if s.setting >= 0 {
		list[s.setting] = solve.Figure{Verdict: solve.Holds}
		if t.unfit {
			list[s.setting].Verdict = solve.FallsShort
		}
	}
	return true, nil
}

// tally is what became of builds.
type tally struct {
	done               int
	open               int
	everywhere, missed int
	holds, untold      []int       // by outcome
	worst              [][]float64 // by outcome: of each build that has one, in order
	number             [][]int32   // by outcome: which build that is
	off, offSquares    []float64   // by outcome: what the derivatives leave, and its squares
	left, leftSquares  []float64   // by variable
}

func (s *search) newTally() *tally {
	n := len(s.answer.Outcomes)
	return &tally{
		holds: make([]int, n), untold: make([]int, n), worst: make([][]float64, n), number: make([][]int32, n),
		off: make([]float64, n), offSquares: make([]float64, n), left: make([]float64, len(s.variables)), leftSquares: make([]float64, len(s.variables)),
	}
}

// add adds the builds that come after these.
func (t *tally) add(o *tally) {
	t.done += o.done
	t.open += o.open
	t.everywhere += o.everywhere
	t.missed += o.missed
	for i := range t.holds {
		t.holds[i] += o.holds[i]
		t.untold[i] += o.untold[i]
		t.worst[i] = append(t.worst[i], o.worst[i]...)
		t.number[i] = append(t.number[i], o.number[i]...)
		t.off[i] += o.off[i]
		t.offSquares[i] += o.offSquares[i]
	}
	for i := range t.left {
		t.left[i] += o.left[i]
		t.leftSquares[i] += o.leftSquares[i]
	}
}

// makeAll makes the builds, several blocks at once, and counts them in their order.
func (s *search) makeAll(everywhere bool) *tally {
	all := s.newTally()
	n := s.options.Builds
	for i := range all.worst { // once, rather than in ever larger copies
		all.worst[i], all.number[i] = make([]float64, 0, n), make([]int32, 0, n)
	}
	blocks := (n + blockOf - 1) / blockOf
	parts := make([]*tally, blocks)
	rooms := make(chan *room, 1+len(parts))
	stopped := func() bool { return s.options.Stop != nil && s.options.Stop() }
	parallel.EachInOrder(blocks, func(i int) {
		var r *room
		select {
		case r = <-rooms:
		default:
			r = s.newRoom()
		}
		parts[i] = s.makeBlock(r, i*blockOf, min(n, (i+1)*blockOf), everywhere, stopped)
		rooms <- r
	}, func(i int) (more bool) {
		whole := parts[i] != nil
		if whole {
			all.add(parts[i])
			parts[i] = nil
			if s.options.Progress != nil {
				s.options.Progress(all.done, n)
			}
		}
		return whole && !stopped()
	})
	return all
}

// makeBlock makes the builds from one number up to another; nil where it is stopped.
func (s *search) makeBlock(r *room, from, to int, everywhere bool, stopped func() bool) *tally {
	t := s.newTally()
	known := map[string]threads{}
	list, again := make([]solve.Figure, len(s.answer.Outcomes)), make([]solve.Figure, len(s.answer.Outcomes))
	for number := from; number < to; number++ {
		if everywhere && stopped() {
			return nil
		}
		s.draw(number, r)
		if s.make(r, bySteps, -1) != nil {
			return nil
		}
		closes, err := s.judge(r, everywhere, known, list)
		if err != nil {
			return nil
		}
		if sampled := number%everywhereOf == int(s.options.Seed%uint64(min(everywhereOf, s.options.Builds))); sampled && !everywhere {
			stands, err := s.judge(r, true, known, again)
			if err != nil {
				return nil
			}
			t.everywhere++
			if stands != closes || !sameFigures(list, again) {
				t.missed++
			}
		}
		s.count(t, r, number, closes, list)
	}
	return t
}

// sameFigures reports whether a build came out the same both ways.
func sameFigures(a, b []solve.Figure) bool {
	for i := range a {
		if a[i].Verdict != b[i].Verdict || a[i].Has != b[i].Has || math.Abs(a[i].Worst-b[i].Worst) > sameFigure*math.Max(1, math.Abs(a[i].Worst)) {
			return false
		}
	}
	return true
}

// count takes a build into a tally.
func (s *search) count(t *tally, r *room, number int, closes bool, list []solve.Figure) {
	t.done++
	if !closes {
		t.open++
	}
	for i := range list {
		f := &list[i]
		switch f.Verdict {
		case solve.Holds:
			t.holds[i]++
		case solve.CannotTell:
			t.untold[i]++
		}
		if !f.Has {
			continue
		}
		t.worst[i] = append(t.worst[i], f.Worst)
		t.number[i] = append(t.number[i], int32(number))
		off := f.Worst - s.around[i]
		for k, by := range s.slopes[i] {
			off -= float64(by * r.left[k])
		}
		t.off[i] += off
		t.offSquares[i] += float64(off * off)
	}
	for k, v := range r.left {
		t.left[k] += v
		t.leftSquares[k] += float64(v * v)
	}
}
