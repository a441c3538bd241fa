package elementary

import (
	"math"
	"strconv"
	"strings"
)

// Hypot returns the square root of x*x + y*y, to within two units in its last
// place, without overflow on the way: what the assembly of math.Hypot on amd64
// reckons. An infinity of either makes it infinite, else NaN of either NaN.
func Hypot(x, y float64) float64 {
	x, y = math.Abs(x), math.Abs(y)
	switch {
	case math.IsInf(x, 0) || math.IsInf(y, 0):
		return math.Inf(1)
	case x == 0 && y == 0:
		return 0
	}
	long, short := max(x, y), min(x, y)
	share := short / long
	return float64(long * math.Sqrt(1+float64(share*share)))
}

// Decade returns the power of ten below or at x: the largest k with 10^k <= x.
// It is exact, unlike the floor of a logarithm, and 0 of what isn't positive and
// finite.
func Decade(x float64) int {
	if !(x > 0) || math.IsInf(x, 0) {
		return 0
	}
	// The shortest decimal that gives x back is 10^k or more exactly where x is.
	_, exponent, _ := strings.Cut(strconv.FormatFloat(x, 'e', -1, 64), "e")
	k, _ := strconv.Atoi(exponent)
	return k
}
