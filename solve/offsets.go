// Layer: mechanism.

package solve

import "fullfree/linkage"

// offsets are by how much every number of the drawing is out in a build: what a run
// built so does is found without changing the run. nil: nothing is out.
type offsets struct {
	slots *slots
	by    []float64 // by slot, each number by itself
}

func (o *offsets) at(slot int) vec {
	return vec{X: o.by[slot], Y: o.by[slot+1], Z: o.by[slot+2]}
}

// point is where a point is.
func (o *offsets) point(r linkage.PointRef) vec {
	at := r.Get().At
	if o == nil {
		return at
	}
	return at.Add(o.at(o.slots.of(r)))
}

// pivot is where a part's pivot is.
func (o *offsets) pivot(p *linkage.Part) vec {
	if o == nil || o.slots.pivots[p.Index] < 0 {
		return p.Pivot
	}
	return p.Pivot.Add(o.at(o.slots.pivots[p.Index]))
}

// mean is the mean of a part's points, the place by which the travel of a floating part
// is told.
func (o *offsets) mean(p *linkage.Part) (mean vec) {
	for i := range p.Points {
		mean = mean.Add(o.point(linkage.PointRef{Part: p, Point: i}))
	}
	return mean.Scale(1 / float64(max(1, len(p.Points))))
}

// core is how much longer a cable's core is set.
func (o *offsets) core(c *linkage.Cable) float64 {
	if o == nil || o.slots.cores[c.Index] < 0 {
		return 0
	}
	return o.by[o.slots.cores[c.Index]]
}

// stop is where a stop by number is set.
func (o *offsets) stop(s *linkage.Stop) float64 {
	if o == nil {
		return s.At
	}
	return s.At + o.by[o.slots.stops+s.Index]
}

// setRod makes a rod as long as its ends or its set length come to.
func (o *offsets) setRod(l *constraint) {
	if o == nil {
		return
	}
	l.drawn = l.from.at.Sub(l.to.at).Norm()
	l.set = l.drawn
	if l.rod.LengthGiven {
		l.set = l.rod.Length + o.by[o.slots.lengths[l.rod.Index]]
	}
	l.length = l.set
}

// withArms lets the arms of a part move along with its pivot, as in a Setting of that.
func (o *offsets) withArms() {
	for i := len(o.slots.arms) - 1; i >= 0; i-- { // pivots before what hangs on them
		a := &o.slots.arms[i]
		for axis := range 3 {
			o.by[a.point+axis] += o.by[a.pivot+axis]
		}
	}
}
