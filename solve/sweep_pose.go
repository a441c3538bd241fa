// Layer: sweep.

package solve

import (
	"math"
	"sort"

	"fullfree/linkage"
)

// Pose is a solved pose: where everything is. A nil Pose is the drawn
// position, of places alone; so is anywhere what has no place in this run. It isn't
// changed by being read. What it is asked about may be of any run that the mechanism's
// was made from or into by linkage.Run.With.
type Pose struct {
	p *path // of which nothing is used but st, x and what doesn't change
}

// At returns the position at x of the control, anywhere explored; false
// outside. What is outside by rounding alone is taken to its limit.
func (w *Sweep) At(x float64) (*Pose, bool) {
	x, ok := w.within(x)
	if !ok {
		return nil, false
	}
	s := w.borrow()
	defer w.giveBack(s)
	if !s.solveAt(x) {
		return nil, false
	}
	return s.poseAt(x), true
}

// within takes what is outside of what was explored by rounding alone to its limit;
// false where it is farther out, or the sweep was made up, not solved.
func (w *Sweep) within(x float64) (inside float64, ok bool) {
	if !w.solved() {
		return 0, false
	}
	low, high := w.Explored[0], w.Explored[1]
	slack := float64(tieOfStops * (high - low))
	return math.Min(high, math.Max(low, x)), x >= low-slack && x <= high+slack // false for NaN
}

// stand is the pose last solved, which is that at x.
func (s *sweeper) poseAt(x float64) *Pose {
	p := *s.p
	p.passing, p.staying = samples{}, samples{}
	p.x, p.rates = x, nil
	p.st = s.p.st.copied()
	return &Pose{&p}
}

// solveAt solves the pose at x from the samples on either side of it. It does
// everywhere explored.
func (s *sweeper) solveAt(x float64) bool {
	p := s.p
	i := s.knotFrom(x)
	switch {
	case i < len(s.knots) && s.knots[i].x == x:
		p.restore(s.knots[i])
		return true
	case i == 0 || i == len(s.knots):
		return false
	}
	a, b := s.knots[i-1], s.knots[i]
	if p.within(a, b, x) {
		return true
	}
	// A rounding beside a singular place may close no more: it is that place.
	for _, k := range []*sample{a, b} {
		if !k.valid && math.Abs(x-k.x) <= tieOfStops*(s.knots[len(s.knots)-1].x-s.knots[0].x) {
			p.restore(k)
			return true
		}
	}
	return false
}

// knotFrom returns the place of the first sample kept that isn't before x.
func (s *sweeper) knotFrom(x float64) int {
	return sort.Search(len(s.knots), func(i int) bool { return s.knots[i].x >= x })
}

// Place returns where a place of the part, given as drawn, now is.
func (st *Pose) Place(part *linkage.Part, drawn linkage.Vec) linkage.Vec {
	if !st.solved() || !st.p.m.has(part) {
		return drawn
	}
	m := st.p.m
	return st.p.st.place(end{m.partBody[m.run.Part(part).Index], drawn.Sub(m.center)}).Add(m.center)
}

// Point returns where a point of a part or rod now is.
func (st *Pose) Point(ref linkage.PointRef) linkage.Vec {
	if !st.solved() || !st.p.m.hasPoint(ref) {
		if point := ref.Get(); point != nil {
			return point.At
		}
		return linkage.Vec{}
	}
	m := st.p.m
	ref, _ = m.run.Point(ref)
	return st.p.st.place(m.endAt(ref)).Add(m.center)
}

// Travel returns how far a part has turned or slid from its drawn position:
// degrees or units. A floating part's turn.
func (st *Pose) Travel(part *linkage.Part) float64 {
	if !st.solved() || !st.p.m.has(part) || part.Motion == linkage.Fixed {
		return 0
	}
	return st.measured(st.p.m.partMeasure(st.p.m.run.Part(part)))
}

// Reading returns what an output's gauge shows.
func (st *Pose) Reading(o *linkage.Output) float64 {
	switch {
	case o == nil:
		return 0
	case !st.solved() || !st.p.m.shows(o):
		return o.Reads
	}
	return st.measured(st.p.m.outputMeasure(st.p.m.run.Output(o)))
}

func (st *Pose) measured(k measure) float64 { return k.value(st.p) }

// Gap returns the clearance between two features, negative where they overlap,
// and the place on the surface of each nearest to the other. ok is false where
// they never meet: they share no height, or can't be judged.
func (st *Pose) Gap(a, b linkage.FeatureRef) (gap float64, onA, onB linkage.Vec, ok bool) {
	if !st.solved() || !st.p.m.hasMetal(a) || !st.p.m.hasMetal(b) {
		return 0, onA, onB, false
	}
	m := st.p.m
	a, _ = m.run.Metal(a)
	b, _ = m.run.Metal(b)
	c, trouble := m.newContact([2]linkage.FeatureRef{a, b})
	if trouble != "" || c.apart {
		return 0, onA, onB, false
	}
	own := st.p.st
	own.laid = [2]laid{} // others may read the pose at the same time
	n := m.near(&own, &c)
	onA, onB = st.on(&c.a, n.iA, n.tA), st.on(&c.b, n.iB, n.tB)
	apart := onB.Sub(onA)
	if c.flat {
		apart = perpendicular(apart, st.p.st.frames[c.within].turn.apply(c.normal))
	}
	apart = apart.Unit()
	onA, onB = onA.Add(apart.Scale(c.a.radius)), onB.Sub(apart.Scale(c.b.radius))
	return n.gap, onA.Add(m.center), onB.Add(m.center), true
}

func (st *Pose) on(k *metal, i int, t float64) vec {
	p := st.p.st.place(k.points[i])
	if i+1 < len(k.points) {
		p = between(p, st.p.st.place(k.points[i+1]), t)
	}
	return p
}
