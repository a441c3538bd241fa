// Layer: questions.

package solve

import (
	"math"

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
	m      *Mechanism
	result *Result
	survey *survey.Survey
	slots  *slots
	along  []*gradients // by sweep
	// exact says which slots are not out, without a survey; by is the room for one
	// gradient.
	counts []bool
	by     []float64
	own    []int // slots of the survey's coordinates
	pairs  [][2]*build
	spare  []*sums // that nothing rests on any more
	spent  float64 // work taken, in the units of mostWork
	ends   map[*side]earliest
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
// whether its verdict is sure. survey is the one whose drawing the run has; nil:
// every coordinate and set length is out by run.Uncertain on its own. Features
// and stops count as exact. Where there is more to compute than is for one answer, no
// band is filled in, and result.BandsLeftOut set. The result is not to be read elsewhere
// until this is done: it belongs to making it. The error is of a result or survey
// that isn't this mechanism's, or ErrStopped; nothing is filled in then.
func (m *Mechanism) AddBands(result *Result, survey *survey.Survey) error {
	if err := m.made(result); err != nil {
		return err
	}
	if survey != nil && !(survey.Adjusted() && m.drawnBy(survey)) {
		return errNoSurvey
	}
	b := m.newBands(result.reading(), survey)
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
	if survey != nil {
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
		sure := surely(j, t) && (survey == nil || !*j.Untied && !survey.Contradicts())
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
	case m.run.Units:
		return band > float64(mostTold*m.size)
	}
	return false
}

// surely reports whether a verdict stands with the band against it: of one that
// holds the worst with the band, of one that falls short the worst with the band
// to its good.
func surely(j *Judgement, t *told) bool {
	sign := WorseBy(j.Requirement.Kind)
	switch j.Verdict {
	case Holds:
		return sign*(t.worse-j.Limit) <= judgeNoise
	case FallsShort:
		return sign*(t.better-j.Limit) > judgeNoise
	}
	return false
}

func (m *Mechanism) newBands(result *Result, survey *survey.Survey) *bands {
	b := &bands{m: m, result: result, survey: survey, slots: newSlots(m.run), along: make([]*gradients, len(result.Sweeps))}
	b.by = make([]float64, b.slots.count)
	b.counts = make([]bool, len(b.slots.dimensions))
	for i, d := range b.slots.dimensions {
		b.counts[i] = d.IsLength() && d.Given() || !d.IsLength() && (d.Part == nil || !d.Part.Exact)
	}
	if survey != nil {
		at := make(map[linkage.Dimension]int, len(b.slots.dimensions))
		for i, d := range b.slots.dimensions {
			at[d] = i
		}
		for _, d := range survey.Dimensions() {
			slot := -1 // what the sketch alone has
			if d, ok := m.run.Dimension(d); ok {
				slot = at[d]
			}
			b.own = append(b.own, slot)
		}
	}
	return b
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
	b.spent += float64(b.slots.count) + float64(len(b.own)*len(b.own))
	if b.survey != nil {
		if len(b.own) == 0 {
			return 0
		}
		return 2 * math.Sqrt(math.Max(0, num.Quadratic(b.survey.Cov(), b.surveyed(s))))
	}
	return float64(b.m.run.Uncertain * b.slope(s))
}

// slope puts a gradient into b.by, arms followed to what they are made of, and returns its
// length over the dimensions that count.
func (b *bands) slope(s *sums) float64 {
	copy(b.by, s.drawn)
	b.slots.alongArms(b.by)
	sum := 0.0
	for i, counts := range b.counts {
		if counts {
			sum += float64(b.by[i] * b.by[i])
		}
	}
	return math.Sqrt(sum)
}

// surveyed are the derivatives by the survey's coordinates, which move each on its
// own.
func (b *bands) surveyed(s *sums) []float64 {
	g := make([]float64, len(b.own))
	for i, slot := range b.own {
		if slot >= 0 {
			g[i] = s.drawn[slot]
		}
	}
	return g
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
		hangs := b.survey.AnyOpen()
		if t != nil && j.Worst != nil && hangs {
			if hangs = t.ok && t.hangsOn(b); !hangs {
				if !known {
					others, known = b.m.elsewhere(b.survey), true
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
		return b.survey.Moves(b.surveyed(t.slope))
	}
	for _, s := range t.rests {
		if b.survey.Moves(b.surveyed(s)) {
			return true
		}
	}
	return false
}
