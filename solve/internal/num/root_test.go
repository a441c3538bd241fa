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
