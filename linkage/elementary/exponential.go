package elementary

import "math"

// ln 2 in two parts, of which the first has so few bits that its product with an
// exponent of two is exact.
const (
	ln2High = 6.93147180369123816490e-01
	ln2Low  = 1.90821492927058770002e-10
)

const (
	// expTerms is how many terms the series of e^x has: |x| is at most ln 2 / 2, and
	// the next term is below a tenth of the rounding.
	expTerms = 14
	// logTerms is how many terms the series of the logarithm has: its argument is at
	// most 0.172, and the next term is below a tenth of the rounding.
	logTerms = 11
	// The logarithms beyond which e^x is infinite, and zero.
	mostExponent, leastExponent = 709.782712893384, -745.2
)

// Exp returns e^x, to within two units in its last place; infinite beyond the range of
// numbers, 0 below it, NaN of NaN.
func Exp(x float64) float64 {
	switch {
	case math.IsNaN(x):
		return x
	case x > mostExponent:
		return math.Inf(1)
	case x < leastExponent:
		return 0
	}
	twos := math.Round(x / math.Ln2)
	high, low := x-float64(twos*ln2High), float64(twos*ln2Low)
	r := high - low
	// The Taylor series from its end, but for its first two terms, which are added last.
	sum := 0.0
	for n := expTerms; n >= 2; n-- {
		sum = float64((1 + sum) * r / float64(n))
	}
	return math.Ldexp(1+(r+(float64(r*sum)+((high-r)-low))), int(twos))
}

// Log returns the natural logarithm of x, to within two units in its last place, or
// 1e-18 where it is less than 0.001; negative and infinite of 0, NaN of less.
func Log(x float64) float64 {
	switch {
	case math.IsNaN(x) || x < 0:
		return math.NaN()
	case x == 0:
		return math.Inf(-1)
	case math.IsInf(x, 1):
		return x
	}
	fraction, twos := math.Frexp(x)
	if fraction < math.Sqrt2/2 {
		fraction, twos = 2*fraction, twos-1
	}
	// ln m = 2 artanh((m - 1) / (m + 1)) = 2 s (1 + s^2/3 + s^4/5 + ...), with 2 s =
	// f - s f of f = m - 1, which is exact.
	f := fraction - 1
	s := f / (2 + f)
	z := float64(s * s)
	sum := 0.0
	for n := logTerms; n >= 1; n-- {
		sum = float64(z * (1/float64(2*n+1) + sum))
	}
	k := float64(twos)
	return float64(k*ln2High) + (f - (float64(s*(f-2*sum)) - float64(k*ln2Low)))
}
