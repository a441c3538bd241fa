// Layer: gradient.

package solve

import (
	"math"
	"slices"

	"fullfree/solve/internal/num"
)

// How a figure of a pose changes with every number of the drawing at once. A pose
// closes step by step; r(q, d) = 0 are the constraints of a step, q its freedoms and
// d the numbers of the drawing. With g(q, d) a figure,
//
//	dg/dd = direct dg/dd + sum of y dr/dd,
//
// where y is found from the last step back to the first: of each step J' y = -dg/dq,
// J its matrix dr/dq and dg/dq what the figure has by its freedoms, directly and
// through the constraints of later steps (the adjoint, or reverse, method). It is
// the statics of the run: g pulls at places as a force does, y is what each rod
// carries for that, and a place's share of the gradient is the force on it.

// entry is one derivative, by a freedom or by a slot.
type entry struct {
	at int
	by float64
}

// linear is a run linearized at a pose: the derivatives of every constraint, and
// the factors of every step. The pose is its own; a linear is for one caller.
type linear struct {
	m     *Mechanism
	slots *slots
	st    state
	// free and drawn are the derivatives by freedoms and by slots, one constraint
	// after another; an index may come several times, and counts in sum.
	free, drawn []entry
	rows        []row     // by constraint
	pivots      []float64 // by step of one unknown: its matrix; 0 where it is singular
	factors     []num.LU  // by step of more
	singular    []bool    // by step
	number      []int     // by freedom: its place in its step
	work        [3][]float64
}

// row is where the derivatives of a constraint's equation stand.
type row struct{ free, freeEnd, drawn, drawnEnd int }

// sums are the derivatives of one figure: total ones by slot and by the freedoms of
// controls.
type sums struct{ free, drawn []float64 }

func (m *Mechanism) newSums(s *slots) *sums {
	return &sums{make([]float64, len(m.freedoms)), make([]float64, s.count)}
}

func (m *Mechanism) newLinear(s *slots) *linear {
	l := &linear{
		m: m, slots: s, st: m.newState(), rows: make([]row, len(m.constraints)),
		pivots: make([]float64, len(m.steps)), factors: make([]num.LU, len(m.steps)), singular: make([]bool, len(m.steps)),
		number: make([]int, len(m.freedoms)),
	}
	most := 0
	for i := range m.steps {
		for j, f := range m.steps[i].unknowns {
			l.number[f] = j
		}
		most = max(most, len(m.steps[i].unknowns))
	}
	for i := range l.work {
		l.work[i] = make([]float64, most)
	}
	return l
}

// at linearizes the run at a closed pose.
func (l *linear) at(st *state) {
	l.st.take(st)
	l.free, l.drawn = l.free[:0], l.drawn[:0]
	for i := range l.m.steps {
		l.linearize(i)
	}
}

// linearize finds the rows of a step's constraints and its factors.
func (l *linear) linearize(i int) {
	s := &l.m.steps[i]
	for _, k := range s.constraints {
		r := row{free: len(l.free), drawn: len(l.drawn)}
		l.pushConstraint(k)
		r.freeEnd, r.drawnEnd = len(l.free), len(l.drawn)
		l.rows[k] = r
	}
	n := len(s.unknowns)
	if n == 1 {
		r := &l.rows[s.constraints[0]]
		pivot := 0.0
		for _, e := range l.free[r.free:r.freeEnd] {
			if e.at == s.unknowns[0] {
				pivot += e.by
			}
		}
		l.pivots[i] = pivot
		l.singular[i] = !(math.Abs(pivot) > l.least(s))
		return
	}
	f := &l.factors[i]
	f.Reset(n)
	for k, constraint := range s.constraints {
		r := &l.rows[constraint]
		for _, e := range l.free[r.free:r.freeEnd] {
			if j := l.number[e.at]; j < n && s.unknowns[j] == e.at {
				f.Add(k, j, e.by)
			}
		}
	}
	l.singular[i] = !f.Factor()
}

// least is the derivative of a step's only constraint by its only unknown below which the
// step is singular.
func (l *linear) least(s *step) float64 {
	if s.kind == closePull {
		return 0
	}
	return float64(criticalSine * l.m.armOf(&l.st, s))
}

// gradient finds the derivatives of a figure. seed pushes what the figure itself
// has by freedoms and slots. ok is false where it hangs on a step that is singular.
func (l *linear) gradient(into *sums, seed func(l *linear)) (ok bool) {
	free, drawn := len(l.free), len(l.drawn)
	clear(into.free)
	clear(into.drawn)
	seed(l)
	into.add(l.free[free:], l.drawn[drawn:], 1)
	l.free, l.drawn = l.free[:free], l.drawn[:drawn]
	for i := len(l.m.steps) - 1; i >= 0; i-- {
		if !l.back(i, into) {
			return false
		}
	}
	return true
}

// back takes a step's freedoms out of a figure's derivatives.
func (l *linear) back(i int, into *sums) (ok bool) {
	s := &l.m.steps[i]
	if f := s.unknowns[0]; len(s.unknowns) == 1 {
		if into.free[f] == 0 {
			return true
		}
		if l.singular[i] {
			return false
		}
		into.addRow(l, s.constraints[0], -into.free[f]/l.pivots[i])
		into.free[f] = 0
		return true
	}
	n := len(s.unknowns)
	b, y := l.work[0][:n], l.work[1][:n]
	nothing := true
	for j, f := range s.unknowns {
		b[j] = -into.free[f]
		nothing = nothing && b[j] == 0
	}
	if nothing {
		return true
	}
	if l.singular[i] {
		return false
	}
	l.factors[i].SolveTransposed(y, b)
	for k, constraint := range s.constraints {
		into.addRow(l, constraint, y[k])
	}
	for _, f := range s.unknowns {
		into.free[f] = 0
	}
	return true
}

func (s *sums) add(free, drawn []entry, times float64) {
	for _, e := range free {
		s.free[e.at] += float64(times * e.by)
	}
	for _, e := range drawn {
		s.drawn[e.at] += float64(times * e.by)
	}
}

func (s *sums) addRow(l *linear, constraint int, times float64) {
	r := &l.rows[constraint]
	s.add(l.free[r.free:r.freeEnd], l.drawn[r.drawn:r.drawnEnd], times)
}

// addScaled adds a multiple of other sums.
func (s *sums) addScaled(other *sums, times float64) {
	for i, v := range other.free {
		s.free[i] += float64(times * v)
	}
	for i, v := range other.drawn {
		s.drawn[i] += float64(times * v)
	}
}

// stepOf is the step of a constraint.
func (m *Mechanism) stepOf(constraint int) int {
	return slices.IndexFunc(m.steps, func(s step) bool { return slices.Contains(s.constraints, constraint) })
}
