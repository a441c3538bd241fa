package num

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestRoot(t *testing.T) {
	cases := []struct {
		name string
		f    func(x float64) float64
		a, b float64
		want float64
		tol  float64
	}{
		{"cosine", math.Cos, 1, 2, math.Pi / 2, 1e-15},
		{"the other way round", math.Cos, 2, 1, math.Pi / 2, 1e-15},
		{"cube, flat at its root", func(x float64) float64 { return x * x * x }, -1, 2, 0, 1e-5},
		{"a step", func(x float64) float64 { return math.Copysign(1, x-0.3) }, 0, 1, 0.3, 2e-15},
		{"square root at its end", func(x float64) float64 { return math.Copysign(math.Sqrt(math.Abs(x-0.7)), x-0.7) }, 0, 1, 0.7, 2e-15},
		{"at an end", func(x float64) float64 { return x }, 0, 1, 0, 0},
	}
	for _, c := range cases {
		calls := 0
		got := Root(func(x float64) float64 { calls++; return c.f(x) }, c.a, c.f(c.a), c.b, c.f(c.b))
		require.InDelta(t, c.want, got, c.tol, c.name)
		require.LessOrEqual(t, calls, 200, c.name)
	}
}

// TestCubicExtreme: a cubic is met exactly.
func TestCubicExtreme(t *testing.T) {
	for _, k := range []float64{-2, 0, 1e-9, 3} {
		rate := func(x float64) float64 { return 1 - 2*x + k*x*x }
		value := func(x float64) float64 { return x - x*x + k*x*x*x/3 }
		h := 1.0
		if k == 3 {
			continue // its rate has no zero between
		}
		at, slope := CubicExtreme(value(0), rate(0), value(h), rate(h), h)
		if rate(0)*rate(h) < 0 {
			require.InDelta(t, 0, rate(at), 1e-12, "k %v", k)
			require.InDelta(t, -2+2*k*at, slope, 1e-9, "k %v", k)
		}
	}
}

// Of the two places where the rate is 0 it is the one between, also where the other is
// the nearer to 0: of (a - t)(t + b) between 0 and 1 it is a, where the second rate is
// -(a + b).
func TestCubicExtremeIsTheOneBetween(t *testing.T) {
	for _, b := range []float64{0.05, 0.4, 3} {
		const a, h = 0.5, 1.0
		value := func(x float64) float64 { return -x*x*x/3 + (a-b)*x*x/2 + a*b*x }
		at, slope := CubicExtreme(value(0), a*b, value(h), (a-h)*(h+b), h)
		require.InDelta(t, a, at, 1e-14, "the other at %v", -b)
		require.InDelta(t, -(a + b), slope, 1e-13, "the other at %v", -b)
	}
}

// Where a function is smooth the number of right figures grows with each step by the
// golden ratio at least, as of the secant: from one figure to sixteen in six, and some
// more to come near at all. Halving would take fifty.
func TestRootIsAsFastAsTheSecant(t *testing.T) {
	for name, c := range map[string]struct {
		f    func(x float64) float64
		a, b float64
		want float64
	}{
		"cosine":      {math.Cos, 1, 2, math.Pi / 2},
		"exponential": {func(x float64) float64 { return math.Exp(x) - 2 }, 0, 2, math.Ln2},
		"parabola":    {func(x float64) float64 { return x*x - 2 }, 0, 2, math.Sqrt2},
		"falling":     {func(x float64) float64 { return 1/x - 0.5 }, 1, 7, 2},
	} {
		calls := 0
		got := Root(func(x float64) float64 { calls++; return c.f(x) }, c.a, c.f(c.a), c.b, c.f(c.b))
		require.InDelta(t, c.want, got, 4e-16*c.want+1e-15*(c.b-c.a), name)
		require.LessOrEqual(t, calls, 11, name)
	}
}
