package solve

import (
	"math"
	"sort"

	"fullfree/linkage"
)

// Stand is a solved position: where everything is. A nil Stand is the drawn
// position, of places alone.
type Stand struct {
	p  *path
	st state
	x  float64
}

// At returns the position at x of the control, anywhere explored; false
// outside. What is outside by rounding alone is taken to its limit.
func (w *Sweep) At(x float64) (*Stand, bool) {
	s := w.of
	if s == nil { // made up, not solved
		return nil, false
	}
	low, high := w.Explored[0], w.Explored[1]
	slack := tieOfStops * (high - low)
	if !(x >= low-slack && x <= high+slack) {
		return nil, false
	}
	x = math.Min(high, math.Max(low, x))
	if !s.standAt(x) {
		return nil, false
	}
	stand := &Stand{p: s.p, st: s.m.newState(), x: x}
	stand.st.take(&s.p.st)
	return stand, true
}

// standAt solves the pose at x from the samples on either side of it.
func (s *sweeper) standAt(x float64) bool {
	i := sort.Search(len(s.knots), func(i int) bool { return s.knots[i].x >= x })
	if i < len(s.knots) && s.knots[i].x == x {
		return s.p.solve(x, s.knots[i].q) == allClosed
	}
	if i == 0 || i == len(s.knots) {
		return false
	}
	return s.p.within(s.knots[i-1], s.knots[i], x)
}

// Place returns where a place of the part, given as drawn, now is.
func (st *Stand) Place(part *linkage.Part, drawn linkage.Vec) linkage.Vec {
	if st == nil {
		return drawn
	}
	return st.st.place(end{st.p.m.partBody[part.Index], drawn})
}

// Point returns where a point of a part or rod now is.
func (st *Stand) Point(ref linkage.PointRef) linkage.Vec {
	if st == nil {
		return ref.Get().At
	}
	return st.st.place(st.p.m.endAt(ref))
}

// Travel returns how far a part has turned or slid from its drawn position:
// degrees or units. A floating part's turn.
func (st *Stand) Travel(part *linkage.Part) float64 {
	return st.measured(st.p.m.partMeasure(part))
}

// Reading returns what an output's gauge shows.
func (st *Stand) Reading(o *linkage.Output) float64 {
	return st.measured(st.p.m.outputMeasure(o))
}

func (st *Stand) measured(k measure) float64 {
	p := *st.p
	p.st, p.x = st.st, st.x
	return k.value(&p)
}

// Gap returns the clearance between two features, negative where they overlap,
// and the place on the surface of each nearest to the other. ok is false where
// they never meet: they share no height, or can't be judged.
func (st *Stand) Gap(a, b linkage.FeatureRef) (gap float64, onA, onB linkage.Vec, ok bool) {
	m := st.p.m
	c, trouble := m.newContact([2]linkage.FeatureRef{a, b})
	if trouble != "" || c.apart {
		return 0, onA, onB, false
	}
	n := m.near(&st.st, &c)
	onA, onB = st.on(&c.a, n.iA, n.tA), st.on(&c.b, n.iB, n.tB)
	apart := onB.Sub(onA)
	if c.flat {
		apart = perpendicular(apart, st.st.frames[c.within].turn.apply(c.normal))
	}
	apart = apart.Unit()
	return n.gap, onA.Add(apart.Scale(c.a.radius)), onB.Sub(apart.Scale(c.b.radius)), true
}

func (st *Stand) on(k *metal, i int, t float64) vec {
	p := st.st.place(k.points[i])
	if i+1 < len(k.points) {
		p = between(p, st.st.place(k.points[i+1]), t)
	}
	return p
}
