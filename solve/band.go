package solve

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"fullfree/linkage"
)

// The band of a requirement is how far its worst value moves when the drawing
// is out by what it is known to: the root of the sum over all dimensions of
// (derivative x uncertainty) squared, or, where a survey tells how they hang
// together, of g' C g, both for two standard deviations. A derivative is taken
// of the worst value where it lies: an extreme inside the travel stays put to
// first order, an end of the travel moves with what makes it.

// bandStep is by how much a dimension is changed to see what that does, as a
// share of the run's size: far above rounding, far below what bends the
// result.
const bandStep = 1e-5

const (
	// rebuildPoses is the work of rebuilding a run with one dimension changed, in poses,
	// and bandSetupPoses that of setting up a sweep in it.
	rebuildPoses, bandSetupPoses = 20, 10
	// mostLocal is how many samples a changed run is followed through, at most, to find
	// a singular place again: some ten are enough where it is found at all.
	mostLocal = 400
)

// work is what the changed run has taken, with what of the unchanged one was solved
// for it.
func (c *change) work(result *Result) (sum float64) {
	if c == nil {
		return 0
	}
	for i, t := range c.sweeps {
		if t != nil {
			sum += t.p.uncounted() + result.Sweeps[i].of.p.uncounted()
		}
	}
	return sum
}

// AddBands fills in the band of every requirement that has a figure, and
// whether its verdict is sure. survey is the one whose drawing the run has; nil:
// every coordinate and set length is out by run.Uncertain on its own. Features
// and stops count as exact. Where there is more to compute than is for one answer, no
// band is filled in, and result.BandsLeftOut set. The result is not to be read elsewhere
// until this is done: it belongs to making it. The error is of a result or survey
// that isn't this mechanism's, or ErrStopped; nothing is filled in then.
func (m *Mechanism) AddBands(result *Result, survey *Survey) error {
	if err := m.made(result); err != nil {
		return err
	}
	if survey != nil && !(survey.adjusted() && m.drawnBy(survey)) {
		return errNoSurvey
	}
	own := result.reading()
	figures := make([]*figure, len(result.Requirements))
	for i := range result.Requirements {
		figures[i] = m.figureOf(&result.Requirements[i], own)
	}
	dimensions := m.uncertainDimensions(survey)
	about := make(map[int]bool) // by Sweep.Index: a figure is found there
	spent := 0.0
	for i, f := range figures {
		if f != nil && !about[result.Requirements[i].Sweep] {
			about[result.Requirements[i].Sweep] = true
			spent += float64(bandSetupPoses * (m.workOfPose() + result.Sweeps[result.Requirements[i].Sweep].of.p.reading))
		}
	}
	if spent += float64(rebuildPoses * m.workOfPose()); float64(spent*float64(len(dimensions))) > mostWork {
		result.BandsLeftOut = len(about) > 0
		return nil
	}
	spent = float64(spent * float64(len(dimensions)))
	// by requirement, then by dimension
	slopes := make([][]float64, len(figures))
	for k, d := range dimensions {
		if m.Stopped() {
			return ErrStopped
		}
		changed := m.changed(own, about, linkage.Shift(d, float64(bandStep*m.size)))
		for i, f := range figures {
			if f == nil {
				continue
			}
			v, ok := 0.0, false
			if changed != nil {
				v, ok = f.of(changed)
			}
			if !ok {
				figures[i] = nil // a change so small breaks it: there is no telling
				continue
			}
			if slopes[i] == nil {
				slopes[i] = make([]float64, len(dimensions))
			}
			slopes[i][k] = (v - f.value) / (bandStep * m.size)
		}
		if spent += changed.work(own); spent > mostWork {
			result.BandsLeftOut = true
			return nil
		}
	}
	if survey != nil {
		m.addUntied(result, survey, figures, dimensions, slopes)
	}
	for i, f := range figures {
		if f == nil {
			continue
		}
		j := &result.Requirements[i]
		band := float64(m.run.Uncertain * norm(slopes[i]))
		if survey != nil {
			band = survey.band(dimensions, slopes[i])
		}
		sure := math.Abs(*j.Worst-j.Limit) > band && (survey == nil || !*j.Untied && !survey.contradicts())
		j.Band, j.Sure = &band, &sure
	}
	return nil
}

func norm(list []float64) float64 {
	sum := 0.0
	for _, v := range list {
		sum += float64(v * v)
	}
	return math.Sqrt(sum)
}

// uncertainDimensions lists what may be out and matters: coordinates of places
// that rods, cables, pivots or outputs use, and set lengths; with a survey the
// coordinates alone.
func (m *Mechanism) uncertainDimensions(survey *Survey) (list []linkage.Dimension) {
	used := usedPoints(m.run)
	for _, d := range m.run.Dimensions() {
		switch {
		case d.IsLength():
			if survey == nil && d.Given() {
				list = append(list, d)
			}
		case d.Rod != nil:
			if survey == nil {
				list = append(list, d)
			}
		case d.Point < 0, used[&d.Part.Points[d.Point]]:
			if !d.Part.Exact {
				list = append(list, d)
			}
		}
	}
	return list
}

// usedPoints returns the points of parts that anything depends on.
func usedPoints(run *linkage.Run) map[*linkage.Point]bool {
	used := make(map[*linkage.Point]bool)
	use := func(r *linkage.PointRef) {
		if r != nil {
			used[r.Get()] = true
		}
	}
	for _, r := range run.Rods {
		use(&r.From)
		use(&r.To)
	}
	for _, c := range run.Cables {
		if c.Open() {
			continue
		}
		for _, leg := range c.Legs() {
			use(&leg[0])
			use(&leg[1])
		}
	}
	for _, p := range run.Parts {
		use(p.NamedPivot)
		if p.Motion == linkage.Floats { // its travel is told of their mean
			for i := range p.Points {
				used[&p.Points[i]] = true
			}
		}
	}
	for _, o := range run.Outputs {
		use(o.Point)
	}
	for _, r := range run.Requirements {
		if r.Kind == linkage.Meets {
			use(&r.Points[0])
			use(&r.Points[1])
		}
	}
	return used
}

// band is 2 sqrt(g' C g).
func (s *Survey) band(dimensions []linkage.Dimension, slopes []float64) float64 {
	g := s.gradient(dimensions, slopes)
	return 2 * math.Sqrt(math.Max(0, twice(s.Cov(), g.RawVector().Data)))
}

// gradient is the derivatives by the survey's coordinates. The slopes are of what a
// setting changes, with which what is measured from it moves along; the survey's
// coordinates move each on its own, so what moved along is taken away again.
func (s *Survey) gradient(dimensions []linkage.Dimension, slopes []float64) *mat.VecDense {
	slope := make(map[linkage.Dimension]float64, len(slopes))
	for k, d := range dimensions {
		if d, ok := s.Run.Dimension(d); ok { // of the sketch, not of the drawing as adjusted
			slope[d] = slopes[k]
		}
	}
	own := s.Dimensions()
	g := mat.NewVecDense(len(own), nil)
	for k, d := range own {
		v := slope[d]
		for _, arm := range s.armsFrom(d) {
			v -= slope[arm]
		}
		g.SetVec(k, v)
	}
	return g
}

// armsFrom lists the coordinates that a setting of d moves along: of the arms
// of the parts that pivot there.
func (s *Survey) armsFrom(d linkage.Dimension) (list []linkage.Dimension) {
	for _, p := range s.Run.Parts {
		here := p == d.Part && d.Point < 0 && p.NamedPivot == nil
		if n := p.NamedPivot; n != nil {
			here = n.Part == d.Part && n.Point == d.Point
		}
		if !here {
			continue
		}
		for i := range p.Points {
			if p.Points[i].Arm {
				list = append(list, linkage.Dimension{Part: p, Point: i, Axis: d.Axis})
			}
		}
	}
	return list
}
