package elementary

import "math"

// The sine and the cosine between -pi/4 and pi/4, as polynomials in the square
// of the angle: from Go's math/sin.go, translated there from the Cephes
// Mathematical Library of Stephen L. Moshier (sin.c of release 2.8).
const (
	sin0 = 1.58962301576546568060e-10
	sin1 = -2.50507477628578072866e-8
	sin2 = 2.75573136213857245213e-6
	sin3 = -1.98412698295895385996e-4
	sin4 = 8.33333333332211858878e-3
	sin5 = -1.66666666666666307295e-1

	cos0 = -1.13585365213876817300e-11
	cos1 = 2.08757008419747316778e-9
	cos2 = -2.75573141792967388112e-7
	cos3 = 2.48015872888517045348e-5
	cos4 = -1.38888888888730564116e-3
	cos5 = 4.16666666666665929218e-2

	// A quarter of pi in three parts, of which the first two have so few bits
	// that their product with a count of eighths of a turn is exact.
	quarterPiA = 7.85398125648498535156e-1
	quarterPiB = 3.77489470793079817668e-8
	quarterPiC = 2.69515142907905952645e-15

	// mostCounted is the largest angle in radians of which the eighths of a turn
	// can be counted so. What is larger is brought below one turn first.
	mostCounted = 1 << 29
)

// Sincos returns the sine and the cosine of an angle in radians, up to 2^29 each
// to within two units in its last place, or 1e-18 where it is less than 0.001;
// of a larger angle those of one that differs from it by less than half a unit
// in its last place. Both are NaN of what is no number or infinite.
func Sincos(x float64) (sin, cos float64) {
	switch {
	case x == 0:
		return x, 1 // the sine of -0 is -0
	case math.IsNaN(x) || math.IsInf(x, 0):
		return math.NaN(), math.NaN()
	}
	if math.Abs(x) >= mostCounted {
		x = math.Mod(x, 2*math.Pi)
	}
	sinSign, cosSign := math.Signbit(x), false
	x = math.Abs(x)

	// Eighths of a turn, the odd ones counted on to the next, so that what is
	// left lies to both sides of zero.
	j := int64(float64(x * (4 / math.Pi)))
	j += j & 1
	y := float64(j)
	z := ((x - float64(y*quarterPiA)) - float64(y*quarterPiB)) - float64(y*quarterPiC)
	j &= 7
	if j > 3 {
		j -= 4
		sinSign, cosSign = !sinSign, !cosSign
	}
	if j > 1 {
		cosSign = !cosSign
	}

	zz := float64(z * z)
	s := float64(sin0*zz) + sin1
	s = float64(s*zz) + sin2
	s = float64(s*zz) + sin3
	s = float64(s*zz) + sin4
	s = float64(s*zz) + sin5
	c := float64(cos0*zz) + cos1
	c = float64(c*zz) + cos2
	c = float64(c*zz) + cos3
	c = float64(c*zz) + cos4
	c = float64(c*zz) + cos5
	sin = z + float64(z*zz*s)
	cos = 1 - 0.5*zz + float64(zz*zz*c)
	if j == 1 || j == 2 {
		sin, cos = cos, sin
	}
	if cosSign {
		cos = -cos
	}
	if sinSign {
		sin = -sin
	}
	return sin, cos
}
