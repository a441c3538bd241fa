package elementary

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

// unitsApart is by how many units in the last place of the second two numbers differ.
func unitsApart(got, want float64) float64 {
	unit := math.Nextafter(math.Abs(want), math.Inf(1)) - math.Abs(want)
	return math.Abs(got-want) / unit
}

// Held against Go's math, which says less than one unit of its own.
func TestExpAndLogAreThoseOfMath(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 0))
	worstExp, worstLog := 0.0, 0.0
	for range 200000 {
		x := (random.Float64() - 0.5) * math.Pow(10, 6*random.Float64()-3)
		worstExp = max(worstExp, unitsApart(Exp(x), math.Exp(x)))
		y := math.Exp(x)
		if math.Abs(math.Log(y)) < 0.001 {
			assert.InDelta(t, math.Log(y), Log(y), 1e-18)
			continue
		}
		worstLog = max(worstLog, unitsApart(Log(y), math.Log(y)))
	}
	t.Logf("e^x to within %.1f units in the last place, ln x to within %.1f", worstExp, worstLog)
	assert.Less(t, worstExp, 2.5) // ours, and half a unit of theirs
	assert.Less(t, worstLog, 2.5)
}

func TestExpAndLogAtTheEnds(t *testing.T) {
	// Powers of two, whose logarithms are multiples of ln 2, to the ends of the range:
	// the assembly of math isn't right there on every processor.
	for _, k := range []int{-1074, -1073, -1023, -1022, -1, 1, 1000, 1023} {
		power, ln := math.Ldexp(1, k), float64(k)*math.Ln2
		assert.InEpsilon(t, ln, Log(power), 1e-15, "ln 2^%d", k)
		assert.InEpsilon(t, power, Exp(ln), 3e-13, "e^(%d ln 2)", k) // the argument's rounding, a thousandfold
	}
	assert.False(t, math.IsInf(Exp(709.78), 0))
	assert.Equal(t, math.Inf(1), Exp(709.79))
	assert.Zero(t, Exp(-745.3))
	assert.Equal(t, 1.0, Exp(0))
	assert.Zero(t, Exp(math.Inf(-1)))
	assert.True(t, math.IsNaN(Exp(math.NaN())))
	assert.Zero(t, Log(1))
	assert.Equal(t, math.Inf(-1), Log(0))
	assert.Equal(t, math.Inf(1), Log(math.Inf(1)))
	assert.InEpsilon(t, math.Log(math.MaxFloat64), Log(math.MaxFloat64), 1e-15)
	for _, x := range []float64{math.NaN(), -1, math.Inf(-1)} {
		assert.True(t, math.IsNaN(Log(x)))
	}
}
