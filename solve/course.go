// Layer: verdict.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/solve/internal/parallel"
)

// Course is the travel of a sweep position by position, so near to each other
// that what lies between may be taken to go straight.
type Course struct {
	Bodies  []Body
	Series  []Series
	Samples []PoseSample // by At, ascending; both ends, neutral and every place asked for among them
}

const (
	// courseWithin is how far, in sizes of the run, anything drawn may lie from
	// where a straight way between two positions has it: a hundredth of a
	// millimeter where the run is drawn half a meter large.
	courseWithin = 2e-5
	// courseShare is the same for a series, as a share of its own range.
	courseShare = 2e-3
	// courseCoarsest is in how many steps the travel is taken at least.
	courseCoarsest = 48
	// courseFinest is the smallest step, as a share of the travel: beside a
	// toggle nothing goes straight.
	courseFinest = 1.0 / 8192
	// courseMost is how many positions there may be: what fits in a page that a
	// phone opens.
	courseMost = 1500
	// courseNumbers is how many places of bodies and values of series all positions of
	// one travel may have together: of a run of hundreds of parts there are fewer
	// positions, which lie farther apart than courseWithin would have them.
	courseNumbers = 400_000
)

// Course returns the travel position by position. Through are places of the
// control that shall be among them, such as those of worst values; what lies
// beyond the travel is passed over. A sweep that no Mechanism made has none.
func (w *Sweep) Course(through ...float64) *Course {
	if !w.solved() {
		return &Course{}
	}
	c := &courser{w: w, Course: Course{Bodies: w.Bodies(), Series: w.Series()}}
	places := []float64{w.Low, 0, w.High}
	for _, x := range through {
		if x > w.Low && x < w.High {
			places = append(places, x)
		}
	}
	for i := 1; i < courseCoarsest; i++ {
		places = append(places, w.Low+float64((w.High-w.Low)*float64(i)/courseCoarsest))
	}
	slices.Sort(places)
	places = slices.Compact(places)
	solved := make([]*PoseSample, len(places))
	parallel.Each(len(places), func(i int) {
		if at, ok := c.at(places[i]); ok {
			solved[i] = &at
		}
	})
	for _, at := range solved {
		if at != nil {
			c.Samples = append(c.Samples, *at)
		}
	}
	c.measure()
	most := min(courseMost, courseNumbers/(1+len(c.Bodies)+len(c.Series)))
	for pass := c.Samples; ; pass = c.Samples {
		c.refine()
		if len(c.Samples) == len(pass) || len(c.Samples) >= most {
			return &c.Course
		}
	}
}

// courser makes a course.
type courser struct {
	Course
	w      *Sweep
	drawn  [][]linkage.Vec // by body: its places that are drawn
	ranges []float64       // by series: how far its values range
	fine   []bool          // by position: straight to the next one
}

func (c *courser) at(x float64) (PoseSample, bool) {
	s := c.w.borrow()
	defer c.w.giveBack(s)
	return s.sampleOf(x, c.Series, c.Bodies)
}

// measure finds what the refining is measured by.
func (c *courser) measure() {
	c.fine = make([]bool, len(c.Samples))
	for _, b := range c.Bodies {
		c.drawn = append(c.drawn, b.drawn())
	}
	c.ranges = make([]float64, len(c.Series))
	for i := range c.Series {
		low, high := math.Inf(1), math.Inf(-1)
		for _, p := range c.Samples {
			if v := p.Values[i]; v != nil {
				low, high = math.Min(low, *v), math.Max(high, *v)
			}
		}
		if low < high {
			c.ranges[i] = high - low
		}
	}
}

// refine puts a position in the middle of every stretch that isn't known to be
// straight.
func (c *courser) refine() {
	least := courseFinest * (c.w.High - c.w.Low)
	middles := make([]*PoseSample, len(c.Samples)) // by the position before it
	parallel.Each(len(c.Samples)-1, func(i int) {
		a, b := &c.Samples[i], &c.Samples[i+1]
		if c.fine[i] || b.At-a.At <= least {
			return
		}
		if mid, ok := c.at(a.At + 0.5*(b.At-a.At)); ok && !c.straight(a, &mid, b) {
			middles[i] = &mid
		}
	})
	var list []PoseSample
	var fine []bool
	for i, a := range c.Samples {
		list, fine = append(list, a), append(fine, middles[i] == nil)
		if middles[i] != nil {
			list, fine = append(list, *middles[i]), append(fine, false)
		}
	}
	c.Samples, c.fine = list, fine
}

// straight reports whether the middle position lies on the straight way
// between the two others as nearly as can be told apart.
func (c *courser) straight(a, mid, b *PoseSample) bool {
	size := c.w.of.m.size
	if c.w.only != nil {
		size = c.w.of.m.sizeIn(c.w.only.member)
	}
	within := float64(courseWithin * size)
	for i, drawn := range c.drawn {
		for _, p := range drawn {
			half := a.Frames[i].Place(p).Add(b.Frames[i].Place(p)).Scale(0.5)
			if mid.Frames[i].Place(p).Sub(half).Norm() > within {
				return false
			}
		}
	}
	for i, most := range c.ranges {
		va, v, vb := a.Values[i], mid.Values[i], b.Values[i]
		if va == nil || v == nil || vb == nil {
			continue // there is no line to draw
		}
		noise := c.w.of.p.probes[c.Series[i].probe].noise
		if c.Series[i].degrees {
			noise /= degree
		}
		if math.Abs(*v-float64(0.5*(*va+*vb))) > float64(courseShare*most)+noise {
			return false
		}
	}
	return true
}

// drawn returns the places of a body that a picture may show.
func (b Body) drawn() (places []linkage.Vec) {
	if b.Rod != nil {
		for _, p := range b.Rod.Points {
			places = append(places, p.At)
		}
		return places
	}
	places = append(places, b.Part.Pivot)
	for _, p := range b.Part.Points {
		places = append(places, p.At)
	}
	for _, f := range b.Part.Features {
		places = append(places, f.Through...)
	}
	return places
}
