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
	// newtonSame is the error that a step by the factors of the step before may be
	// expected to leave: far below newtonClose, as this is foreseen by its order alone.
	newtonSame = 1e-17
)

// newton is scratch for one solution of a step by Newton's method.
type newton struct {
	lu       num.LU
	residual []float64
	change   []float64
	rods     []rodEnds // by constraint of the step, where it is a rod or of a joint
}

// rodEnds is where the ends of a rod are, and how far apart; of a joint its points.
type rodEnds struct {
	from, to vec
	long     float64
}

// way is the direction from the to end to the from end; none where they are one.
func (r *rodEnds) way() (u vec) {
	if r.long != 0 {
		u = r.from.Sub(r.to)
		u = vec{X: u.X / r.long, Y: u.Y / r.long, Z: u.Z / r.long}
	}
	return u
}

// newNewton is room for steps of so many unknowns at most.
func newNewton(most int) *newton {
	return &newton{residual: make([]float64, most), change: make([]float64, most), rods: make([]rodEnds, most)}
}

// mostAtOnce is how many unknowns the largest step has.
func (m *Mechanism) mostAtOnce() (most int) {
	for i := range m.steps {
		most = max(most, len(m.steps[i].unknowns))
	}
	return most
}

// closeBlock closes a step by Newton's method from where its unknowns stand, and
// reports whether it could.
func (m *Mechanism) closeBlock(st *state, s *step) bool {
	n := len(s.unknowns)
	w := st.newton
	last := math.Inf(1)
	for tries := range newtonSteps {
		m.placeAll(st, s.within)
		worst := m.lookAtRods(st, s)
		if worst <= newtonClose*m.size || worst >= last && worst <= newtonAccept*m.size {
			return true
		}
		if math.IsNaN(worst) {
			return false
		}
		// The last step's factors are as wrong as what that step left is a share of what
		// it took away. Where what they leave now is nothing, they do once more.
		if left := float64(2 * worst / last * worst); tries == 0 || !(left <= newtonSame*m.size) {
			w.lu.Reset(n)
			for i, k := range s.constraints {
				switch r, l := &w.rods[i], &m.constraints[k]; {
				case l.rod != nil:
					m.endSlopes(st, s, &w.lu, i, r.from, r.to, r.way())
				case l.pin != nil:
					m.endSlopes(st, s, &w.lu, i, r.from, r.to, st.pinWay(l.pin))
				default:
					m.slopes(st, s, &w.lu, i)
				}
			}
			if !w.lu.Factor() {
				return false
			}
		}
		last = worst
		w.lu.Solve(w.change[:n], w.residual[:n])
		scale := 1.0
		for j, f := range s.unknowns {
			most := newtonTurn
			if k := m.freedoms[f].kind; k.isLength() {
				most = float64(most * m.size)
			} else if k != turn {
				most = float64(most * orientSize)
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

// lookAtRods is residuals into the scratch, which keeps where the rods are.
func (m *Mechanism) lookAtRods(st *state, s *step) (worst float64) {
	w := st.newton
	for i, k := range s.constraints {
		l := &m.constraints[k]
		switch r := &w.rods[i]; {
		case l.rod != nil:
			r.from, r.to = st.place(l.from), st.place(l.to)
			r.long = r.from.Sub(r.to).Norm()
			w.residual[i] = r.long - l.length
		case l.pin != nil:
			r.from, r.to = st.place(l.from), st.place(l.to)
			w.residual[i] = st.pinWay(l.pin).Dot(r.from.Sub(r.to)) - l.length
		default:
			w.residual[i] = m.offBy(st, l)
		}
		worst = math.Max(worst, math.Abs(w.residual[i]))
	}
	return worst
}

// residuals fills in by how much each constraint of a step isn't met, and
// returns the worst.
func (m *Mechanism) residuals(st *state, s *step, r []float64) (worst float64) {
	for i, k := range s.constraints {
		r[i] = m.offBy(st, &m.constraints[k])
		worst = math.Max(worst, math.Abs(r[i]))
	}
	return worst
}
