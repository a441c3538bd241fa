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
	root := math.Sqrt(math.Max(0, float64(c*c)-float64(3*k*da)))
	at = -da / (c + math.Copysign(root, c))
	if !(at > 0 && at < h) {
		at = (math.Copysign(root, c) + c) / (-3 * k)
	}
	return at, 2*c + float64(6*k*at)
}
