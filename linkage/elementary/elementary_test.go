package elementary

import (
	"fmt"
	"math"
	"math/big"
	"math/rand/v2"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"
)

// bits is the precision of the sums that the functions are held against.
const bits = 200

// sineOf and cosineOf are the Taylor series, with 2 pi taken away first; they
// know nothing of the polynomials.
func sineOf(x *big.Float) *big.Float { return series(reduced(x), 1) }

func cosineOf(x *big.Float) *big.Float { return series(reduced(x), 0) }

// series is the alternating series of x^n/n! over every other n from first.
func series(x *big.Float, first int) *big.Float {
	term, sum := number(1), number(0)
	square := number(0).Mul(x, x)
	if first == 1 {
		term.Set(x)
	}
	for n := first; n < 120; n += 2 {
		sum.Add(sum, term)
		term.Mul(term, square)
		term.Quo(term, number(-float64((n+1)*(n+2))))
	}
	return sum
}

func reduced(x *big.Float) *big.Float {
	turn := number(0).Mul(number(2), pi())
	turns, _ := number(0).Quo(x, turn).Int64()
	return number(0).Sub(x, number(0).Mul(turn, number(0).SetInt64(turns)))
}

// arctangent halves the angle until the series x - x^3/3 + ... goes fast:
// atan x = 2 atan(x / (1 + sqrt(1 + x^2))).
func arctangent(x *big.Float) *big.Float {
	const halvings = 8
	x = number(0).Set(x)
	for range halvings {
		root := number(0).Sqrt(number(0).Add(number(1), number(0).Mul(x, x)))
		x.Quo(x, root.Add(root, number(1)))
	}
	square, power, sum := number(0).Mul(x, x), number(0).Set(x), number(0)
	for n := 1; n < 80; n += 2 {
		term := number(0).Quo(power, number(float64(n)))
		sum.Add(sum, term)
		power.Mul(power, square)
		power.Neg(power)
	}
	return sum.Mul(sum, number(1<<halvings))
}

// pi by Machin's formula, pi/4 = 4 atan(1/5) - atan(1/239).
var pi = sync.OnceValue(func() *big.Float {
	inverse := func(n float64) *big.Float {
		x := number(0).Quo(number(1), number(n))
		square, sum := number(0).Mul(x, x), number(0)
		for k := 1; k < 120; k += 2 {
			sum.Add(sum, number(0).Quo(x, number(float64(k))))
			x.Mul(x, square)
			x.Neg(x)
		}
		return sum
	}
	p := number(0).Mul(number(16), inverse(5))
	return p.Sub(p, number(0).Mul(number(4), inverse(239)))
})

func number(x float64) *big.Float { return new(big.Float).SetPrec(bits).SetFloat64(x) }

// units is how far got is from want, in units of want's last place.
func units(got float64, want *big.Float) float64 {
	near, _ := want.Float64()
	unit := math.Nextafter(math.Abs(near), math.Inf(1)) - math.Abs(near)
	off, _ := number(0).Sub(number(got), want).Float64()
	return math.Abs(off) / unit
}

func TestSincosAgainstSeries(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 2))
	worst := 0.0
	for n := range 3000 {
		x := random.NormFloat64() * math.Pow(10, float64(n%11)-4)
		sin, cos := Sincos(x)
		wantSin, wantCos := sineOf(number(x)), cosineOf(number(x))
		for _, of := range []struct {
			got  float64
			want *big.Float
		}{{sin, wantSin}, {cos, wantCos}} {
			if math.Abs(of.got) > 1e-3 || math.Abs(x) < 1 {
				worst = max(worst, units(of.got, of.want))
			} else {
				off, _ := number(0).Sub(number(of.got), of.want).Float64()
				require.Less(t, math.Abs(off), 1e-18, "%v", x)
			}
		}
		require.InDelta(t, 1, sin*sin+cos*cos, 4e-16)
	}
	require.Less(t, worst, 2.0)
}

func TestArcsAgainstSeries(t *testing.T) {
	random := rand.New(rand.NewPCG(3, 4))
	half := number(0).Quo(pi(), number(2))
	for n := range 2000 {
		y, x := random.NormFloat64(), random.NormFloat64()*math.Pow(10, float64(n%9)-4)
		want := arctangent(number(0).Quo(number(y), number(x)))
		if x < 0 {
			want.Add(want, number(0).Mul(number(math.Copysign(1, y)), pi()))
		}
		require.Less(t, units(Atan2(y, x), want), 2.0, "%v %v", y, x)

		s := 2*random.Float64() - 1
		if n%2 == 0 { // near 1
			s = math.Copysign(1-math.Pow(10, -float64(n%16)), s)
		}
		cosine := number(0).Sqrt(number(0).Sub(number(1), number(0).Mul(number(s), number(s))))
		sine := arctangent(number(0).Quo(number(s), cosine))
		require.Less(t, units(Asin(s), sine), 2.0, "%v", s)
		require.Less(t, units(Acos(s), number(0).Sub(half, sine)), 2.0, "%v", s)
	}
	require.Equal(t, []float64{math.Pi / 2, -math.Pi / 2, 0}, []float64{Asin(1), Asin(-1), Asin(0)})
	require.Equal(t, []float64{0, math.Pi, math.Pi / 2}, []float64{Acos(1), Acos(-1), Acos(0)})
	for _, x := range []float64{1.0000001, -1.0000001, math.Inf(1), math.NaN()} {
		require.True(t, math.IsNaN(Asin(x)) && math.IsNaN(Acos(x)), "%v", x)
	}
}

func TestHypotAgainstRoot(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	for n := range 2000 {
		x, y := random.NormFloat64()*math.Pow(10, float64(n%7)-3), random.NormFloat64()
		sum := number(0).Add(number(0).Mul(number(x), number(x)), number(0).Mul(number(y), number(y)))
		require.Less(t, units(Hypot(x, y), sum.Sqrt(sum)), 2.0)
	}
	require.Equal(t, 5e300, Hypot(3e300, 4e300))
}

// fuses reports whether the compiler fuses a product with a sum here: e - 1
// times e + 1 is e^2 - 1, which is -1 when it is rounded.
//
//go:noinline
func fuses(e, one float64) bool { return one+(e-one)*(e+one) != 0 }

// TestLikeMath holds what is the same arithmetic against the package math. Where
// nothing is fused they are the same bits; else math may be a unit or two aside.
func TestLikeMath(t *testing.T) {
	inf, nan := math.Inf(1), math.NaN()
	special := []float64{0, math.Copysign(0, -1), 1, -1, 0.66, 0.7, -0.7, 0.70001, 2.5, -2.5, math.Pi, 1e-300, -1e-300,
		5e-324, 1e300, math.MaxFloat64, inf, -inf, nan}
	random := rand.New(rand.NewPCG(7, 8))
	fused := fuses(0x1p-30, 1)
	same := func(name string, want, got float64, of ...float64) {
		t.Helper()
		switch {
		case math.IsNaN(want):
			require.True(t, math.IsNaN(got), "%s%v", name, of)
		case !fused || want == 0 || math.IsInf(want, 0):
			require.Equal(t, math.Float64bits(want), math.Float64bits(got), "%s%v", name, of)
		default:
			require.InDelta(t, want, got, 4.5e-16*max(1, math.Abs(want)), "%s%v", name, of)
		}
	}
	check := func(x, y float64) {
		if !(math.Abs(x) >= mostCounted) || math.IsInf(x, 0) {
			sin, cos := Sincos(x)
			wantSin, wantCos := math.Sincos(x)
			same("sin", wantSin, sin, x)
			same("cos", wantCos, cos, x)
		}
		same("atan2", math.Atan2(y, x), Atan2(y, x), y, x)
		same("hypot", math.Hypot(x, y), Hypot(x, y), x, y)
	}
	for _, x := range special {
		for _, y := range special {
			check(x, y)
		}
	}
	for range 20000 {
		check(random.NormFloat64(), random.NormFloat64())
	}
}

func TestSincosOfManyTurns(t *testing.T) {
	for _, x := range []float64{mostCounted, -mostCounted, 1e10, 3.7e15} {
		sin, cos := Sincos(x)
		wantSin, wantCos := math.Sincos(x)
		half := (math.Nextafter(math.Abs(x), math.Inf(1)) - math.Abs(x)) / 2
		require.InDelta(t, wantSin, sin, half)
		require.InDelta(t, wantCos, cos, half)
	}
	sin, cos := Sincos(1e300)
	require.InDelta(t, 1, sin*sin+cos*cos, 4e-16)
}

func TestDecade(t *testing.T) {
	for k := -22; k <= 22; k++ {
		ten := math.Pow10(k)
		require.Equal(t, k, Decade(ten), "%v", ten)
		require.Equal(t, k-1, Decade(math.Nextafter(ten, 0)), "%v", ten)
		require.Equal(t, k, Decade(math.Nextafter(ten, math.Inf(1))), "%v", ten)
	}
	for _, x := range []float64{0, -1, math.Inf(1), math.NaN()} {
		require.Zero(t, Decade(x))
	}
}

func ExampleDecade() {
	fmt.Println(Decade(999), Decade(1000), Decade(0.02))
	// Output: 2 3 -2
}

func BenchmarkSincos(b *testing.B) {
	for n := range b.N {
		Sincos(float64(n&1023) * 0.01)
	}
}

func BenchmarkSincosOfMath(b *testing.B) {
	for n := range b.N {
		math.Sincos(float64(n&1023) * 0.01)
	}
}
