package num

import "math"

// PlaceError is how closely an event is located, as a share of the stretch
// searched or of where it is: a few roundings, well inside the 1e-9 of the
// travel that is promised.
const PlaceError = 1e-15

// Root finds where f changes sign between a and b, given its values there,
// which must differ in sign or be 0. It is Brent's method: as sure as halving,
// and mostly as fast as the secant (R. P. Brent, Algorithms for Minimization
// without Derivatives, 1973, ch. 4). Where f jumps over 0, it is the place of the jump. It
// is within PlaceError of the stretch and two roundings of where it is; f is asked 200
// times at most.
func Root(f func(x float64) float64, a, fa, b, fb float64) float64 {
	if fa == 0 {
		return a
	}
	if fb == 0 {
		return b
	}
	c, fc := a, fa
	d := b - a
	e := d
	stretch := math.Abs(b - a)
	for range 200 {
		if math.Signbit(fb) == math.Signbit(fc) {
			c, fc = a, fa
			d = b - a
			e = d
		}
		if math.Abs(fc) < math.Abs(fb) {
			a, b, c = b, c, b
			fa, fb, fc = fb, fc, fb
		}
		tol := float64(PlaceError*stretch) + 2*Rounding*math.Abs(b)
		half := 0.5 * (c - b)
		if math.Abs(half) <= tol || fb == 0 {
			return b
		}
		if math.Abs(e) >= tol && math.Abs(fa) > math.Abs(fb) {
			var p, q float64
			s := fb / fa
			if a == c {
				p, q = float64(2*half*s), 1-s
			} else {
				q = fa / fc
				r := fb / fc
				p = float64(s * (float64(2*half*q*(q-r)) - float64((b-a)*(r-1))))
				q = float64((q - 1) * (r - 1) * (s - 1))
			}
			if p > 0 {
				q = -q
			} else {
				p = -p
			}
			if 2*p < math.Min(float64(3*half*q)-math.Abs(tol*q), math.Abs(e*q)) {
				e, d = d, p/q
			} else {
				d, e = half, half
			}
		} else {
			d, e = half, half
		}
		a, fa = b, fb
		if math.Abs(d) > tol {
			b += d
		} else {
			b += math.Copysign(tol, half)
		}
		fb = f(b)
	}
	return b
}

// Rounding is the unit roundoff of float64.
const Rounding = 0x1p-53
