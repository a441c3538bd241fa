package solve

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

// TestNearlyNormal has the moments of a sum of twelve uniform numbers: those of the
// normal distribution, but the fourth, 3 - 1.2/12 (cumulants add; the fourth of a
// uniform number is -1/120).
func TestNearlyNormal(t *testing.T) {
	const draws = 200000
	random := rand.New(rand.NewPCG(12, 6))
	var moments [5]float64
	within := 0
	for range draws {
		v := nearlyNormal(random)
		for k := range moments {
			moments[k] += math.Pow(v, float64(k)) / draws
		}
		if math.Abs(v) < 2 {
			within++
		}
	}
	// Five standard errors: the root of a moment's variance over the draws.
	for k, want := range []float64{1, 0, 1, 0, 2.9} {
		assert.InDelta(t, want, moments[k], 5*math.Sqrt([]float64{0, 1, 2, 15, 90}[k]/draws)+1e-9, "moment %d", k)
	}
	assert.InDelta(t, math.Erf(math.Sqrt2), float64(within)/draws, 0.004, "within two deviations, as of the normal distribution")
}
