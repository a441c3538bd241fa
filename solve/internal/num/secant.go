package num

import "math"

// RootNear finds where f changes sign between a and b from a guess that is a good one: by
// the secant, in a few calls of f, to within near of the place. Where that leaves the
// stretch in which the sign changes, or doesn't come to an end, Root goes on.
func RootNear(f func(x float64) float64, a, fa, b, fb, guess, near float64) float64 {
	if fa == 0 {
		return a
	}
	if fb == 0 {
		return b
	}
	// The secant begins with the guess and the nearer end.
	x0, f0 := a, fa
	if math.Abs(b-guess) < math.Abs(a-guess) {
		x0, f0 = b, fb
	}
	x := guess
	for range 8 {
		if !(min(a, b) < x && x < max(a, b)) {
			break
		}
		fx := f(x)
		if fx == 0 {
			return x
		}
		if math.Signbit(fx) == math.Signbit(fa) {
			a, fa = x, fx
		} else {
			b, fb = x, fx
		}
		step := fx * (x - x0) / (fx - f0)
		x0, f0 = x, fx
		x -= step
		if math.Abs(step) <= near {
			return max(min(a, b), min(max(a, b), x))
		}
	}
	return Root(f, a, fa, b, fb)
}
