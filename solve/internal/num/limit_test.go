package num

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// halves are places each half as far as the one before.
func halves(count int) []float64 {
	x := make([]float64, count)
	for i := range x {
		x[i] = math.Ldexp(1, -i)
	}
	return x
}

// The polynomial through as many places as it has coefficients is met exactly: at 0 it is
// its first.
func TestLimitOfAPolynomial(t *testing.T) {
	x := []float64{1, 0.6, 0.25, -0.5}
	y := make([]float64, len(x))
	for i, x := range x {
		y[i] = 3 - 2*x + 5*x*x + x*x*x
	}
	require.InDelta(t, 3, Limit(x, y), 1e-14)
}

// The limit of exp is 1. Through six places, each half as far as the one before, the
// polynomial misses it by the product of the places over 720 at most: of those from 1 on
// by 1/32768/720, below 5e-8, and by far less of nearer ones. Where the nearest are known
// badly it is taken from those before, and so is how well it is known.
func TestBestLimitLeavesOutWhatIsKnownBadly(t *testing.T) {
	x := halves(14)
	y := make([]float64, len(x))
	for i, x := range x {
		y[i] = math.Exp(x)
	}
	best, doubt, ok := BestLimit(x, y)
	require.True(t, ok)
	require.InDelta(t, 1, best, 1e-13)
	require.Less(t, doubt, 1e-12)

	for i, off := range []float64{1e-4, -1e-4, 1e-4} {
		y[len(y)-3+i] += off
	}
	best, doubt, ok = BestLimit(x, y)
	require.True(t, ok)
	require.InDelta(t, 1, best, 1e-12, "as if they weren't there")
	require.Less(t, doubt, 1e-11)

	_, _, ok = BestLimit(x[:2], y[:2])
	require.False(t, ok, "two places tell nothing")
}
