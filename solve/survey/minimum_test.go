package survey_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/optimize"

	"fullfree/linkage"
	"fullfree/solve/survey"
)

// squares is half the sum that the survey makes least, written down again from
// its definition, as a function of all coordinates.
func (n *network) squares(sketch []float64) func(x []float64) float64 {
	axes := 3
	if n.run.Plane {
		axes = 2
	}
	at := func(ref linkage.PlaceRef, x []float64) vec {
		for i, p := range n.places {
			if p == ref && n.run.Plane {
				return vec{X: x[i*axes], Y: x[i*axes+1], Z: n.truth[i].Z}
			} else if p == ref {
				return vec{X: x[i*axes], Y: x[i*axes+1], Z: x[i*axes+2]}
			}
		}
		panic("no such place")
	}
	return func(x []float64) float64 {
		sum := 0.0
		for _, m := range n.run.Measurements {
			off := m.Is - reading(m, at(m.From, x), at(m.To, x))
			if m.Kind == linkage.Gauged {
				off = turnTo(off, 0)
			}
			sum += math.Pow(off/(m.Within/2), 2) / 2
		}
		for u := range x {
			sum += math.Pow((x[u]-sketch[u])/n.run.Sketch, 2) / 2
		}
		return sum
	}
}

// drawn lists the coordinates as they stand in the run.
func (n *network) drawn() (x []float64) {
	for _, p := range n.places {
		x = append(x, coordinates(p.At(), n.run.Plane)...)
	}
	return x
}

// adjusted lists the coordinates of a survey.
func adjusted(s *survey.Survey) (x []float64) {
	for _, p := range s.Points {
		x = append(x, coordinates(p.At, p.PlaneOnly)...)
	}
	return x
}

// TestSurveyIsTheLeastSum compares the survey with a general minimizer, and its
// covariance with the second derivatives of the sum.
func TestSurveyIsTheLeastSum(t *testing.T) {
	rng := rand.New(rand.NewPCG(11, 12))
	for draw := range 12 {
		n := newNetwork(rng, draw%3 != 0, 6)
		n.plan(rng, 8+draw, draw%5)
		n.draw(t, rng)
		n.measure(rng)
		if draw%2 == 0 {
			n.run.Measurements[0].Is += 9 // a fight, so that the misfits are not small
		}
		s := surveyOf(t, n.run)
		sum := n.squares(n.drawn())
		got := adjusted(s)

		found, err := optimize.Minimize(optimize.Problem{
			Func: sum,
			Grad: func(grad, x []float64) { fd.Gradient(grad, sum, x, &fd.Settings{Formula: fd.Central}) },
		}, n.drawn(), &optimize.Settings{GradientThreshold: 1e-6}, &optimize.BFGS{})
		require.NotNil(t, found, "%v", err)
		require.LessOrEqual(t, sum(got), found.F+1e-9, "draw %d", draw)
		for u := range got {
			require.InDelta(t, found.X[u], got[u], 1e-3, "draw %d", draw) // what its line search ends at
		}
		for _, g := range fd.Gradient(nil, sum, got, &fd.Settings{Formula: fd.Central}) {
			require.InDelta(t, 0, g, 1e-6, "draw %d", draw)
		}

		// At a solution without misfits the second derivatives are the inverse of C.
		n.move(t, n.truth)
		for _, m := range n.run.Measurements {
			m.Is = reading(m, n.of(m.From), n.of(m.To))
		}
		s = surveyOf(t, n.run)
		x := n.drawn()
		hessian := mat.NewSymDense(len(x), nil)
		fd.Hessian(hessian, n.squares(x), x, &fd.Settings{Formula: fd.Central, Step: 1e-2})
		var product mat.Dense
		product.Mul(hessian, s.Cov())
		for u := range x {
			for v := range x {
				want := 0.0
				if u == v {
					want = 1
				}
				require.InDelta(t, want, product.At(u, v), 1e-4, "draw %d", draw)
			}
		}
	}
}

// TestSurveySuggests tries every further distance and compares.
func TestSurveySuggests(t *testing.T) {
	rng := rand.New(rand.NewPCG(13, 4))
	settled := 0
	for draw := range 10 {
		n := newNetwork(rng, true, 10)
		if draw%2 == 0 {
			// Levels and plumb lines, so that one distance can settle one coordinate.
			for i, cell := range rng.Perm(9)[:len(n.places)] {
				n.truth[i] = vec{X: float64(cell%3) * 100, Y: float64(cell/3) * 100}
			}
		}
		n.plan(rng, 6+draw, 1)
		n.move(t, n.truth)
		for _, m := range n.run.Measurements {
			m.Is = reading(m, n.of(m.From), n.of(m.To))
		}
		s := surveyOf(t, n.run)
		best, settles, removes := "", -1, 0.0
		bestOf, most := "", -1.0 // to the last place alone
		fewest := -1
		for j := range n.places {
			for i := range n.places {
				if i >= j || n.taped(i, j) {
					continue
				}
				with := *n.run
				m := &linkage.Measurement{Kind: linkage.Taped, From: n.places[i], To: n.places[j], Within: 1}
				m.Is = reading(m, n.truth[i], n.truth[j])
				with.Measurements = append(n.run.Measurements[:len(n.run.Measurements):len(n.run.Measurements)], m)
				w := surveyOf(t, &with)
				count, drop := len(s.Undetermined)-len(w.Undetermined), mat.Trace(s.Cov())-mat.Trace(w.Cov())
				name := m.From.String() + " " + m.To.String()
				// Not decided by rounding: the first in the file's order is wanted.
				if count > settles || count == settles && (drop > removes*(1+1e-7) || drop > removes*(1-1e-7) && before(n, name, best)) {
					best, settles, removes = name, count, drop
				}
				if last := len(n.places) - 1; j == last && (count > fewest || count == fewest && drop > most*(1+1e-7)) {
					bestOf, fewest, most = name, count, drop
				}
			}
		}
		require.True(t, s.Next.OK)
		assert.Equal(t, best, s.Next.From.String()+" "+s.Next.To.String(), "draw %d", draw)
		assert.Equal(t, settles, s.Next.Settles)
		assert.InEpsilon(t, removes/mat.Trace(s.Cov()), s.Next.Removes, 1e-6)
		if settles > 0 {
			settled++
		}
		of := s.TapeTo(n.places[len(n.places)-1])
		assert.Equal(t, bestOf, of.To.String()+" "+of.From.String(), "from the place that was asked about; draw %d", draw)
	}
	assert.Greater(t, settled, 2)
}

// before tells whether one pair of places comes before another in the file.
func before(n *network, pair, other string) bool {
	for i := range n.places {
		for j := i + 1; j < len(n.places); j++ {
			switch n.places[i].String() + " " + n.places[j].String() {
			case pair:
				return true
			case other:
				return false
			}
		}
	}
	return false
}

// taped tells whether the distance of two places was taped.
func (n *network) taped(i, j int) bool {
	for _, m := range n.run.Measurements {
		if m.Kind == linkage.Taped && (m.From == n.places[i] && m.To == n.places[j] || m.From == n.places[j] && m.To == n.places[i]) {
			return true
		}
	}
	return false
}
