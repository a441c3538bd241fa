package survey_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"fullfree/linkage"
	"fullfree/linkage/hunt"
	"fullfree/solve/survey"
)

// settledAfter is after how many adjustments the next one is a small shift: each
// leaves less of the sketch's pull.
const settledAfter = 6

// A drawing from a sketch isn't settled, adjusted it is; and the shift is what its
// definition says, for small ones with the covariance that the survey tells.
func TestHuntAnAdjustedDrawingIsSettled(t *testing.T) {
	hunt.Each(t, 40, adjustedDrawing)
}

// TestAdjustedDrawingThatBends has a place that its two tapes hardly tie along the
// arc about either end: the second adjustment takes it along that by 1.5 of its own
// standard deviations, and by the tape's slope at the end alone the tape would have
// changed by 4.5 of its own.
func TestAdjustedDrawingThatBends(t *testing.T) {
	adjustedDrawing(t, rand.New(rand.NewPCG(1, 1838)))
}

func adjustedDrawing(t *testing.T, random *rand.Rand) {
	n := newNetwork(random, random.IntN(3) > 0, 4+16*random.Float64())
	n.plan(random, 6+random.IntN(12), random.IntN(4))
	n.draw(t, random)
	n.measure(random)
	s, err := survey.New(n.run)
	if err != nil {
		return // a sketch too far off: that is told, and tested elsewhere
	}
	require.False(t, s.Settled())
	assert.InEpsilon(t, n.shift(s), s.Shift(), 1e-9)
	if s.Doubtful() != nil {
		return // sketched in the mirror image: the measurements fight, and that is told
	}

	run := n.run
	for round := range settledAfter {
		run, err = s.Apply(run)
		require.NoError(t, err)
		s, err = survey.New(run)
		require.NoError(t, err)
		require.True(t, s.Settled(), "round %d: shifted by %g", round, s.Shift())
	}
	if shift := s.Shift(); shift > 1e-6 && shift < 0.1 {
		own := s.Dimensions()
		moved := mat.NewVecDense(len(own), nil)
		adjusted, err := s.Apply(run)
		require.NoError(t, err)
		for u, d := range own {
			at, ok := adjusted.Dimension(d)
			require.True(t, ok)
			moved.SetVec(u, at.Value()-d.Value())
		}
		var chol mat.Cholesky
		require.True(t, chol.Factorize(s.Cov()))
		var weighed mat.VecDense
		require.NoError(t, chol.SolveVecTo(&weighed, moved))
		assert.InEpsilon(t, math.Sqrt(mat.Dot(moved, &weighed)), shift, 0.1)
	}
}

// shift is that of a survey of the network's run, written down again from its
// definition.
func (n *network) shift(s *survey.Survey) float64 {
	sum, most := 0.0, 0.0
	at := make(map[linkage.PlaceRef]vec)
	for i, p := range s.Points {
		at[p.Place] = p.At
		sigma, drawn := coordinates(p.Sigma, n.run.Plane), coordinates(n.places[i].At(), n.run.Plane)
		for axis, v := range coordinates(p.At, n.run.Plane) {
			moved := math.Abs(v - drawn[axis])
			sum += math.Pow(moved/n.run.Sketch, 2)
			most = max(most, moved/sigma[axis])
		}
	}
	for _, m := range n.run.Measurements {
		by := reading(m, at[m.From], at[m.To]) - reading(m, m.From.At(), m.To.At())
		if m.Kind == linkage.Gauged {
			by = turnTo(by, 0)
		}
		sum += math.Pow(by/(m.Within/2), 2)
	}
	return max(math.Sqrt(sum), most)
}
