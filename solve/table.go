// Layer: verdict.

package solve

import (
	"fmt"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
)

// MostSteps is in how many steps a table tells the travel at most: a hundred times as
// many as anybody reads.
const MostSteps = 100_000

// Column is a column of a table of positions.
type Column struct {
	Name string
	Unit linkage.Unit
}

// Columns returns what is in each column of a table of positions.
func (w *Sweep) Columns() []Column {
	if !w.solved() {
		return nil
	}
	columns, _ := w.columns(w.of)
	return columns
}

// Table returns steps+1 positions evenly spaced over the travel, and what is in
// each column: the swept control's part first, then every other moving part,
// then the outputs. The error is of steps that are not 1 to MostSteps, and of a sweep
// that no Mechanism made.
func (w *Sweep) Table(steps int) ([]Column, [][]float64, error) {
	switch {
	case !w.solved():
		return nil, nil, errNoSweep
	case steps < 1 || steps > MostSteps:
		return nil, nil, fmt.Errorf("a table of %d steps: it has 1 to %d", steps, MostSteps)
	}
	s := w.borrow()
	defer w.giveBack(s)
	columns, measures := w.columns(s)
	at := make([]float64, steps+1)
	for i := range at {
		at[i] = w.Low + (w.High-w.Low)*float64(i)/float64(steps)
	}
	at[steps] = w.High
	rows := make([][]float64, 0, steps+1)
	s.eachPose(at, func() {
		row := make([]float64, len(measures))
		for j := range measures {
			row[j] = measures[j].value(s.p)
		}
		rows = append(rows, row)
	})
	return columns, rows, nil
}

// eachPose solves the poses at the given places inside the travel, ascending,
// and visits each: side by side where a batch can, else one at a time.
func (s *sweeper) eachPose(at []float64, visit func()) {
	m, p := s.m, s.p
	if !m.onlyFourbars() || len(at) < batchWidth {
		for _, x := range at {
			if s.solveAt(x) { // as it does everywhere inside the travel
				visit()
			}
		}
		return
	}
	b := m.newBatch()
	s.solveAt(at[0])
	for f, h := range p.held {
		if h != nil {
			held := m.freedoms[f].body
			b.hold(held, p.st.cos[held], p.st.sin[held])
		}
	}
	own := m.freedoms[p.input].body
	for len(at) > 0 {
		n := min(batchWidth, len(at))
		for k, x := range at[:n] {
			b.sin[own][k], b.cos[own][k] = elementary.Sincos(float64(x * p.unit))
		}
		b.close(n)
		for k, x := range at[:n] {
			s.guessAt(x, p.st.q) // which turn of a full circle each angle is in
			b.put(&p.st, k)
			p.st.q[p.input], p.x = float64(x*p.unit), x
			m.unwind(&p.st)
			m.placeAll(&p.st, m.remains)
			if i := s.knotFrom(x); i < len(s.knots) && s.knots[i].x == x && !s.knots[i].valid {
				p.restore(s.knots[i]) // a singular place is known better than it closes
			}
			visit()
		}
		at = at[n:]
	}
}

// guessAt guesses the freedoms at x from the samples on either side of it.
func (s *sweeper) guessAt(x float64, q []float64) {
	i := s.knotFrom(x)
	switch {
	case i == len(s.knots):
		copy(q, s.knots[i-1].q)
	case i == 0 || s.knots[i].x == x:
		copy(q, s.knots[i].q)
	default:
		s.p.interpolate(s.knots[i-1], s.knots[i], x, q)
	}
}

// columns lists what a table shows, of a member of an aircraft what is its own.
func (w *Sweep) columns(s *sweeper) (columns []Column, measures []measure) {
	m := s.m
	own := s.sweep.Control.Of
	add := func(in *linkage.Member, name string, k measure) {
		if w.only == nil || in == w.only.member || name == own.Name {
			columns = append(columns, Column{name, k.unit})
			measures = append(measures, k)
		}
	}
	for _, t := range m.tellings(own) {
		add(own.In, t.name, t.k)
	}
	for _, p := range m.run.Parts {
		if p == own || p.Motion == linkage.Fixed {
			continue
		}
		for _, t := range m.tellings(p) {
			add(p.In, t.name, t.k)
		}
	}
	for _, o := range m.run.Outputs {
		add(o.In, o.Name, m.outputMeasure(o))
	}
	return columns, measures
}
