// Layer: questions.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/solve/internal/num"
	"fullfree/solve/survey"
)

// The band of a requirement is how far its worst value moves when the drawing is
// out by what it is known to. At every place of the travel its quantity has a value
// and a band of its own: the root of the sum over all dimensions of (derivative x
// uncertainty) squared, or, where a survey tells how they hang together, of g' C g,
// both for two standard deviations. The worst of value and band together, over the
// whole travel, is the worst with its band. An end of the travel moves with what
// makes it.

// bands works them out for one result.
type bands struct {
	m       *Mechanism
	result  *Result
	surveys []surveyed
	slots   *slots
	along   []*gradients // by sweep
	// counts is how far each dimension is out without a survey, as a share of run.Uncertain:
	// 0 where it is exact. by is the room for one gradient.
	counts []float64
	by     []float64
	pairs  [][2]*build
	spare  []*sums // that nothing rests on any more
	spent  float64 // work taken, in the units of mostWork
	ends   map[*side]earliest
}

// surveyed is one survey, and the slots of its coordinates; -1: of what the sketch alone
// has.
type surveyed struct {
	*survey.Survey
	own []int
}

// rebuildPoses is the work of building a run off its drawing, in poses.
const rebuildPoses = 20

// exhausted reports whether there was more to compute than is for one answer, or that it
// is to be given up: nothing more is looked at then, and no band told.
func (b *bands) exhausted() bool { return b.m.spend(&b.spent, 0) }

// NoBand is why a requirement that has a figure has no band.
type NoBand int

// The reasons.
const (
	BandTold        NoBand = iota // it has one, or there is no figure
	BandChangePoint               // the travel ends at a change point, which any change of the drawing does away with
	BandOnCenter                  // a rate is worst just short of where the run is on center
	BandSlackCable                // it hangs on where a cable goes slack
	BandNotMet                    // nothing was met as far as was explored, so nothing moves
	BandEndsBefore                // the travel may end before the place that it is about
	BandAside                     // stretches of the travel are left out, and go with the drawing
	BandTooFar                    // the figure moves farther than slopes can tell
)

// told is what a figure comes to with its band.
type told struct {
	worse, better float64 // the worst with the band against it, and with the band for it
	rests         []*sums // how it goes with the drawing, at the places on which it rests
	why           NoBand
	ok            bool
	slope         *sums // per times this is how the worst goes where it lies; nil where there is no telling
	per           float64
}

// AddBands fills in the band of every requirement that has a figure, and
// whether its verdict is sure. surveys are those whose drawing the run has, nil ones left
// aside, of an aircraft one for each run that has one; without any,
// every coordinate and set length is out by run.Uncertain on its own, and in an aircraft
// those of the runs without one are. Features
// and stops count as exact. Where there is more to compute than is for one answer, no
// band is filled in, and result.BandsLeftOut set. The result is not to be read elsewhere
// until this is done: it belongs to making it. The error is of a result or survey
// that isn't this mechanism's, or ErrStopped; nothing is filled in then.
func (m *Mechanism) AddBands(result *Result, surveys ...*survey.Survey) error {
	if err := m.made(result); err != nil {
		return err
	}
	surveys = slices.DeleteFunc(slices.Clone(surveys), func(s *survey.Survey) bool { return s == nil })
	for _, s := range surveys {
		if !(s.Adjusted() && m.drawnBy(s)) {
			return errNoSurvey
		}
	}
	b := m.newBands(result.reading(), surveys)
	list := make([]*told, len(result.Requirements))
	for i := range result.Requirements {
		list[i] = b.of(&result.Requirements[i])
		if b.exhausted() {
			if math.IsInf(b.spent, 1) {
				return ErrStopped
			}
			result.BandsLeftOut = true
			return nil
		}
	}
	contradicts := false
	for _, s := range surveys {
		contradicts = contradicts || s.Contradicts()
	}
	if len(surveys) > 0 {
		b.addUntied(list)
	}
	for i, t := range list {
		j := &result.Requirements[i]
		if t == nil {
			continue
		}
		if j.NoBand = t.why; !t.ok {
			continue
		}
		band := math.Abs(t.worse - *j.Worst)
		if m.tooFar(j.Unit, band) {
			j.NoBand = BandTooFar
			continue
		}
		sure := surely(j, t) && !contradicts && (j.Untied == nil || !*j.Untied)
		j.Band, j.Sure = &band, &sure
	}
	return nil
}

// mostTold is how far a figure may move and its band still be told, radians or shares of
// the run's size: 20 degrees, over which a turn bends by a sixth of its slope. Builds of
// runs that the drawing moves farther fell out of what was told for them.
const mostTold = 20 * degree

// tooFar reports whether a band is farther than slopes can tell; of what is neither an
// angle nor a length there is no saying.
func (m *Mechanism) tooFar(unit linkage.Unit, band float64) bool {
	switch unit {
	case degrees:
		return float64(band*degree) > mostTold
	case linkage.Millimeters, linkage.Inches:
		return band > float64(mostTold*m.sizeFor(unit))
	}
	return false
}

// surely reports whether a verdict stands with the band against it: of one that
// holds the worst with the band, of one that falls short the worst with the band
// to its good.
func surely(j *Judgement, t *told) bool {
	sign := worseBy(j.Requirement.Kind)
	switch j.Verdict {
	case Holds:
		return sign*(t.worse-j.Limit) <= judgeNoise
	case FallsShort:
		return sign*(t.better-j.Limit) > judgeNoise
	}
	return false
}

func (m *Mechanism) newBands(result *Result, surveys []*survey.Survey) *bands {
	b := &bands{m: m, result: result, slots: newSlots(m.run), along: make([]*gradients, len(result.Sweeps))}
	b.by = make([]float64, b.slots.count)
	b.counts = make([]float64, len(b.slots.dimensions))
	for i, d := range b.slots.dimensions {
		if d.IsLength() && d.Given() || !d.IsLength() && (d.Part == nil || !d.Part.Exact) {
			b.counts[i] = m.outOf(d)
		}
	}
	for _, s := range surveys {
		at := make(map[linkage.Dimension]int, len(b.slots.dimensions))
		for i, d := range b.slots.dimensions {
			at[d] = i
		}
		of := surveyed{Survey: s}
		for _, d := range s.Dimensions() {
			slot := -1 // what the sketch alone has
			if d, ok := m.run.Dimension(d); ok {
				slot = at[d]
			}
			of.own = append(of.own, slot)
		}
		b.surveys = append(b.surveys, of)
		for i, d := range b.slots.dimensions {
			if m.run.Aircraft == nil || s.Of(d) {
				b.counts[i] = 0
			}
		}
	}
	return b
}

// outOf is how far a dimension may be out, as a share of run.Uncertain: 1 but in an
// aircraft, whose runs each have their own.
func (m *Mechanism) outOf(d linkage.Dimension) float64 {
	if m.run.Aircraft == nil || m.run.Uncertain == 0 {
		return 1
	}
	return m.run.Home(d.In()).Uncertain / m.run.Uncertain
}

// sums is room for a gradient. What is in it is of before.
func (b *bands) sums() *sums {
	if n := len(b.spare); n > 0 {
		s := b.spare[n-1]
		b.spare = b.spare[:n-1]
		return s
	}
	return b.m.newSums(b.slots)
}

// in are the gradients along a sweep.
func (b *bands) in(w *Sweep) *gradients {
	if b.along[w.Index] == nil {
		b.along[w.Index] = w.of.gradients(b.slots)
		b.along[w.Index].spent = &b.spent
	}
	return b.along[w.Index]
}

// band is how far a figure moves, two standard deviations.
func (b *bands) band(s *sums) float64 {
	b.spent += float64(b.slots.count)
	if len(b.surveys) == 0 {
		return float64(b.m.run.Uncertain * b.slope(s))
	}
	sum := 0.0
	for i := range b.surveys {
		k := &b.surveys[i]
		b.spent += float64(len(k.own) * len(k.own))
		if len(k.own) > 0 {
			sum += math.Max(0, num.Quadratic(k.Cov(), k.slopes(s)))
		}
	}
	if b.m.run.Aircraft != nil {
		rest := float64(b.m.run.Uncertain / 2 * b.slope(s))
		sum += float64(rest * rest)
	}
	return 2 * math.Sqrt(sum)
}

// slope puts a gradient into b.by, arms followed to what they are made of, and returns its
// length over the dimensions that count.
func (b *bands) slope(s *sums) float64 {
	copy(b.by, s.drawn)
	b.slots.alongArms(b.by)
	sum := 0.0
	for i, counts := range b.counts {
		by := float64(b.by[i] * counts)
		sum += float64(by * by)
	}
	return math.Sqrt(sum)
}

// slopes are the derivatives by the survey's coordinates, which move each on its own.
func (k *surveyed) slopes(s *sums) []float64 {
	g := make([]float64, len(k.own))
	for i, slot := range k.own {
		if slot >= 0 {
			g[i] = s.drawn[slot]
		}
	}
	return g
}

// anyOpen reports whether a survey leaves a place open on which anything hangs.
func (b *bands) anyOpen() bool {
	return slices.ContainsFunc(b.surveys, func(k surveyed) bool { return k.AnyOpen() })
}

// moves reports whether what the surveys leave open moves a figure.
func (b *bands) moves(s *sums) bool {
	return slices.ContainsFunc(b.surveys, func(k surveyed) bool { return k.Moves(k.slopes(s)) })
}

// addUntied fills in which requirements hang on what the survey leaves open. Of one
// without a figure it is whether anything hangs on that.
//
// Where the worst lies, it goes with an open place as its quantity does there: that the
// worst shifts along the travel makes no difference to it. Beside that place, where it
// would be worst with its band, it does, so that doesn't tell.
func (b *bands) addUntied(list []*told) {
	var others []*Result
	known := false
	for i, t := range list {
		j := &b.result.Requirements[i]
		hangs := b.anyOpen()
		if t != nil && j.Worst != nil && hangs {
			if hangs = t.ok && t.hangsOn(b); !hangs {
				if !known {
					for _, k := range b.surveys {
						others = append(others, b.m.elsewhere(k.Survey)...)
					}
					known = true
				}
				for _, r := range others {
					hangs = hangs || r == nil || !sameFigure(&r.Requirements[i], j)
				}
			}
		}
		j.Untied = &hangs
	}
}

// hangsOn reports whether what the survey leaves open moves a figure where it is worst
// as drawn, or where that has no slope one of the places on which it rests.
func (t *told) hangsOn(b *bands) bool {
	if t.slope != nil {
		return b.moves(t.slope)
	}
	for _, s := range t.rests {
		if b.moves(s) {
			return true
		}
	}
	return false
}
