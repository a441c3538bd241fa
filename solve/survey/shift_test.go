package survey_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"fullfree/linkage/hunt"
	"fullfree/solve/survey"
)

// A drawing from a sketch isn't settled, adjusted it is; and the shift is what its
// definition says, with the covariance that the survey tells.
func TestHuntAnAdjustedDrawingIsSettled(t *testing.T) {
	hunt.Each(t, 40, func(t *testing.T, random *rand.Rand) {
		n := newNetwork(random, random.IntN(3) > 0, 4+16*random.Float64())
		n.plan(random, 6+random.IntN(12), random.IntN(4))
		n.draw(t, random)
		n.measure(random)
		s, err := survey.New(n.run)
		if err != nil {
			return // a sketch too far off: that is told, and tested elsewhere
		}
		require.False(t, s.Settled())
		own := s.Dimensions()
		moved := mat.NewVecDense(len(own), nil)
		for u, d := range own {
			moved.SetVec(u, -d.Value())
		}
		adjusted, err := s.Apply(n.run)
		require.NoError(t, err)
		for u, d := range own {
			at, ok := adjusted.Dimension(d)
			require.True(t, ok)
			moved.SetVec(u, moved.AtVec(u)+at.Value())
		}
		var chol mat.Cholesky
		require.True(t, chol.Factorize(s.Cov()))
		var weighed mat.VecDense
		require.NoError(t, chol.SolveVecTo(&weighed, moved))
		assert.InEpsilon(t, s.Shift()*s.Shift(), mat.Dot(moved, &weighed), 1e-6)

		again, err := survey.New(adjusted)
		require.NoError(t, err)
		assert.True(t, again.Settled(), "shifted by %g", again.Shift())
	})
}
