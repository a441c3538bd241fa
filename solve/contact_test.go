package solve

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// TestClosestAgainstSampling: no pair of places on two stretches is nearer than
// the one found, and it is the nearest of a fine grid to the grid's step.
func TestClosestAgainstSampling(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	point := func() vec { return vec{X: r.NormFloat64(), Y: r.NormFloat64(), Z: r.NormFloat64()} }
	const grid = 40
	for round := range 400 {
		p0, p1, q0, q1 := point(), point(), point(), point()
		switch round % 4 {
		case 1: // parallel
			q1 = q0.Add(p1.Sub(p0).Scale(r.NormFloat64()))
		case 2: // a point
			p1 = p0
		case 3: // in one plane
			p0.Z, p1.Z, q0.Z, q1.Z = 0, 0, 0, 0
		}
		s, u := closest(p0, p1, q0, q1)
		require.True(t, s >= 0 && s <= 1 && u >= 0 && u <= 1)
		got := between(p0, p1, s).Sub(between(q0, q1, u)).Norm()
		least := math.Inf(1)
		for i := range grid + 1 {
			for j := range grid + 1 {
				d := between(p0, p1, float64(i)/grid).Sub(between(q0, q1, float64(j)/grid)).Norm()
				least = math.Min(least, d)
			}
		}
		require.LessOrEqual(t, got, least+1e-12, "round %d", round)
		require.GreaterOrEqual(t, got, least-(p1.Sub(p0).Norm()+q1.Sub(q0).Norm())/grid, "round %d", round)
	}
}
