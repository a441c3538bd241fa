package solve

import (
	"sort"

	"fullfree/linkage"
)

// Stand is a solved position: where everything is.
type Stand struct {
	p  *path
	st state
	x  float64
}

// At returns the position at x of the control, anywhere explored; false
// outside.
func (w *Sweep) At(x float64) (*Stand, bool) {
	s := w.of
	if !(x >= w.Explored[0] && x <= w.Explored[1]) {
		return nil, false
	}
	if !s.standAt(x) {
		return nil, false
	}
	stand := &Stand{p: s.p, st: s.m.newState(), x: x}
	stand.st.take(&s.p.st)
	return stand, true
}

// standAt solves the pose at x from the samples on either side of it.
func (s *sweeper) standAt(x float64) bool {
	sort.SliceStable(s.knots, func(i, j int) bool { return s.knots[i].x < s.knots[j].x })
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
	return st.st.place(end{st.p.m.partBody[part.Index], drawn})
}

// Point returns where a point of a part or rod now is.
func (st *Stand) Point(ref linkage.PointRef) linkage.Vec {
	return st.st.place(st.p.m.endAt(ref))
}

// Travel returns how far a part has turned or slid from its drawn position:
// degrees or units. A floating part's turn.
func (st *Stand) Travel(part *linkage.Part) float64 {
	v, _, _ := st.measured(st.p.m.partMeasure(part))
	return v
}

// Reading returns what an output's gauge shows.
func (st *Stand) Reading(o *linkage.Output) float64 {
	v, _, _ := st.measured(st.p.m.outputMeasure(o))
	return v
}

func (st *Stand) measured(k measure) (v, dv, ddv float64) {
	q := *st.p
	q.st, q.x = st.st, st.x
	return k.of(&q)
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

// Column is a column of a table of positions.
type Column struct{ Name, Unit string }

// Table returns steps+1 positions evenly spaced over the travel, and what is in
// each column: the swept control's part first, then every other moving part,
// then the outputs. steps is at least 1.
func (w *Sweep) Table(steps int) ([]Column, [][]float64) {
	s := w.of
	columns, measures := s.columns()
	var rows [][]float64
	for i := range steps + 1 {
		x := w.Low + (w.High-w.Low)*float64(i)/float64(steps)
		if i == steps {
			x = w.High
		}
		if !s.standAt(x) {
			continue // nowhere inside the travel
		}
		row := make([]float64, len(measures))
		for j := range measures {
			row[j], _, _ = measures[j].of(s.p)
		}
		rows = append(rows, row)
	}
	return columns, rows
}

// columns lists what a table shows.
func (s *sweeper) columns() (columns []Column, measures []measure) {
	m := s.m
	add := func(name string, k measure) {
		columns = append(columns, Column{name, k.unit})
		measures = append(measures, k)
	}
	own := s.sweep.Control.Of
	add(own.Name, m.partMeasure(own))
	for _, p := range m.run.Parts {
		switch {
		case p == own || p.Motion == linkage.Fixed:
		case p.Motion == linkage.Floats:
			first := m.bodies[m.partBody[p.Index]].first
			for i, axis := range []string{".x", ".y", ".turn"} {
				add(p.Name+axis, m.freedomMeasure(first+i))
			}
		default:
			add(p.Name, m.partMeasure(p))
		}
	}
	for _, o := range m.run.Outputs {
		add(o.Name, m.outputMeasure(o))
	}
	return columns, measures
}
