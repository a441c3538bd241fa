package solve

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"fullfree/linkage"
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
	survey *Survey
	slots  *slots
	along  []*gradients // by sweep
	// exact says which slots are not out, without a survey; by is the room for one
	// gradient.
	counts []bool
	by     []float64
	own    []int // slots of the survey's coordinates
	pairs  [][2]*build
}

// NoBand is why a requirement that has a figure has no band.
type NoBand int

// The reasons.
const (
	BandTold        NoBand = iota // it has one, or there is no figure
	BandChangePoint               // the travel ends at a change point, which any change of the drawing does away with
	BandOnCenter                  // a rate is worst just short of where the run is on center
	BandSlackCable                // it hangs on where a cable goes slack
	BandNotMet                    // nothing was met as far as was explored, so nothing moves
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
// and stops count as exact. result must be this mechanism's.
func (m *Mechanism) AddBands(result *Result, survey *Survey) {
	b := m.newBands(result, survey)
	list := make([]*told, len(result.Requirements))
	for i := range result.Requirements {
		if m.Stopped() {
			return
		}
		list[i] = b.of(&result.Requirements[i])
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
		sure := surely(j, t) && (survey == nil || !*j.Untied && !survey.contradicts())
		j.Band, j.Sure = &band, &sure
	}
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

func (m *Mechanism) newBands(result *Result, survey *Survey) *bands {
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
			b.own = append(b.own, at[d])
		}
	}
	return b
}

// in are the gradients along a sweep.
func (b *bands) in(w *Sweep) *gradients {
	if b.along[w.Index] == nil {
		b.along[w.Index] = w.of.gradients(b.slots)
	}
	return b.along[w.Index]
}

// band is how far a figure moves, two standard deviations.
func (b *bands) band(s *sums) float64 {
	if b.survey != nil {
		if len(b.own) == 0 {
			return 0
		}
		g := b.surveyed(s)
		return 2 * math.Sqrt(math.Max(0, mat.Inner(g, b.survey.Cov(), g)))
	}
	copy(b.by, s.drawn)
	b.slots.alongArms(b.by)
	sum := 0.0
	for i, counts := range b.counts {
		if counts {
			sum += float64(b.by[i] * b.by[i])
		}
	}
	return b.m.run.Uncertain * math.Sqrt(sum)
}

// surveyed are the derivatives by the survey's coordinates, which move each on its
// own.
func (b *bands) surveyed(s *sums) *mat.VecDense {
	g := mat.NewVecDense(max(1, len(b.own)), nil)
	for i, slot := range b.own {
		g.SetVec(i, s.drawn[slot])
	}
	return g
}

// addUntied fills in which requirements hang on what the survey leaves open. Of a
// figure that there is no telling of, or none at all, it is whether anything hangs
// on that.
func (b *bands) addUntied(list []*told) {
	var others []*Result
	known := false
	for i, t := range list {
		j := &b.result.Requirements[i]
		hangs := b.survey.leavesOpen()
		if t != nil && t.ok && hangs {
			hangs = false
			for _, s := range t.rests {
				hangs = hangs || b.survey.moves(b.surveyed(s))
			}
			if !hangs {
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
