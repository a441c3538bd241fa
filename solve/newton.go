// Layer: pose.

package solve

import (
	"math"

	"fullfree/solve/internal/num"
)

const (
	// newtonSteps is how often Newton's method may step. From the tangent's
	// prediction it needs three or four; it doubles the digits each time.
	newtonSteps = 16
	// newtonTurn is the most an angle may turn in one step, radians: further,
	// the tangent says nothing.
	newtonTurn = 0.3
	// newtonClose is the error of a rod's length, as a share of the run's size,
	// at which a pose is closed: a hundred roundings of coordinates as long as
	// the run, well inside the 1e-12 that is promised.
	newtonClose = 1e-14
	// newtonAccept is the error that is taken where rounding keeps the method
	// from newtonClose.
	newtonAccept = 5e-13
)

// newton is scratch for one solution of a step by Newton's method.
type newton struct {
	lu       num.LU
	residual []float64
	change   []float64
}

func newNewton() *newton {
	return &newton{residual: make([]float64, mostUnknowns), change: make([]float64, mostUnknowns)}
}

// closeBlock closes a step by Newton's method from where its unknowns stand, and
// reports whether it could.
func (m *Mechanism) closeBlock(st *state, s *step) bool {
	n := len(s.unknowns)
	w := st.newton
	last := math.Inf(1)
	for range newtonSteps {
		m.placeAll(st, s.within)
		worst := m.residuals(st, s, w.residual)
		if worst <= newtonClose*m.size || worst >= last && worst <= newtonAccept*m.size {
			return true
		}
		if math.IsNaN(worst) {
			return false
		}
		last = worst
		m.jacobian(st, s, &w.lu)
		if !w.lu.Factor() {
			return false
		}
		w.lu.Solve(w.change[:n], w.residual[:n])
		scale := 1.0
		for j, f := range s.unknowns {
			most := newtonTurn
			if m.freedoms[f].kind != turn {
				most = float64(most * m.size)
			}
			if d := math.Abs(w.change[j]); d > scale*most {
				scale = d / most
			}
		}
		for j, f := range s.unknowns {
			m.setFreedom(st, f, st.q[f]-w.change[j]/scale)
		}
	}
	m.placeAll(st, s.within)
	return m.residuals(st, s, w.residual) <= newtonAccept*m.size
}

// residuals fills in by how much each link of a step isn't met, and
// returns the worst.
func (m *Mechanism) residuals(st *state, s *step, r []float64) (worst float64) {
	for i, k := range s.links {
		r[i] = m.offBy(st, &m.links[k])
		worst = math.Max(worst, math.Abs(r[i]))
	}
	return worst
}

// jacobian fills in how each link of a step changes for each unit of each
// unknown.
func (m *Mechanism) jacobian(st *state, s *step, a *num.LU) {
	a.Reset(len(s.unknowns))
	for i, k := range s.links {
		l := &m.links[k]
		if l.cords != nil {
			for j, f := range s.unknowns {
				a.Set(i, j, m.slope(st, l, f))
			}
			continue
		}
		u := st.place(l.from).Sub(st.place(l.to)).Unit()
		for j, f := range s.unknowns {
			a.Set(i, j, u.Dot(m.partialOfLink(st, l, f)))
		}
	}
}
