package num

import "math"

// CubicExtreme returns where the cubic with the given values and rates at 0 and
// h has its rate 0 between them, where the rates differ in sign, and its second
// rate there.
func CubicExtreme(va, da, vb, db, h float64) (at, slope float64) {
	// The rate is da + 2 c t + 3 k t t, t from 0 to h.
	mean := (vb - va) / h
	c := (float64(3*mean) - 2*da - db) / h
	k := (da + db - 2*mean) / (h * h)
	root := math.Sqrt(max(0, float64(c*c)-float64(3*k*da)))
	at = -da / (c + math.Copysign(root, c))
	if !(at > 0 && at < h) {
		at = (math.Copysign(root, c) + c) / (-3 * k)
	}
	return at, 2*c + float64(6*k*at)
}

// CubicAt returns the cubic with the given values and rates at 0 and h, and its rate, at x.
func CubicAt(va, da, vb, db, h, x float64) (v, dv float64) {
	mean := (vb - va) / h
	c := (float64(3*mean) - 2*da - db) / h
	k := (da + db - 2*mean) / (h * h)
	return va + float64(x*(da+float64(x*(c+float64(k*x))))), da + float64(x*(2*c+float64(3*k*x)))
}

// CubicZero returns about where that cubic is 0 between 0 and h, where it has different
// signs.
func CubicZero(va, da, vb, db, h float64) float64 {
	low, high, x := 0.0, h, h*va/(va-vb)
	for range 8 { // the guess is bettered until it is good to some digits
		v, dv := CubicAt(va, da, vb, db, h, x)
		if math.Signbit(v) == math.Signbit(va) {
			low = x
		} else {
			high = x
		}
		next := x - v/dv
		if !(min(low, high) < next && next < max(low, high)) {
			next = low + 0.5*(high-low)
		}
		if math.Abs(next-x) <= 1e-6*math.Abs(h) {
			return next
		}
		x = next
	}
	return x
}
