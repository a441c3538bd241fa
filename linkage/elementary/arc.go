package elementary

import "math"

// The arctangent between 0 and 0.66 as a quotient of polynomials in the square
// of the tangent: from Go's math/atan.go, translated there from the Cephes
// Mathematical Library of Stephen L. Moshier (atan.c of release 2.8).
const (
	atanP0 = -8.750608600031904122785e-01
	atanP1 = -1.615753718733365076637e+01
	atanP2 = -7.500855792314704667340e+01
	atanP3 = -1.228866684490136173410e+02
	atanP4 = -6.485021904942025371773e+01

	atanQ0 = 2.485846490142306297962e+01
	atanQ1 = 1.650270098316988542046e+02
	atanQ2 = 4.328810604912902668951e+02
	atanQ3 = 4.853903996359136964868e+02
	atanQ4 = 1.945506571482613964425e+02

	atanDirect = 0.66                        // the largest tangent that goes in as it is
	tan3Pi8    = 2.41421356237309504880      // tan(3 pi/8): beyond it the reciprocal goes in
	halfPiRest = 6.123233995736765886130e-17 // pi/2 less the float64 nearest to it
)

// atanNear is the arctangent of 0 to atanDirect.
func atanNear(x float64) float64 {
	z := float64(x * x)
	p := float64(atanP0*z) + atanP1
	p = float64(p*z) + atanP2
	p = float64(p*z) + atanP3
	p = float64(p*z) + atanP4
	q := z + atanQ0
	q = float64(q*z) + atanQ1
	q = float64(q*z) + atanQ2
	q = float64(q*z) + atanQ3
	q = float64(q*z) + atanQ4
	return float64(x*(z*p/q)) + x
}

// atanPositive is the arctangent of 0 to +Inf.
func atanPositive(x float64) float64 {
	switch {
	case x <= atanDirect:
		return atanNear(x)
	case x > tan3Pi8:
		return math.Pi/2 - atanNear(1/x) + halfPiRest
	}
	return math.Pi/4 + atanNear((x-1)/(x+1)) + 0.5*halfPiRest
}

// Atan2 returns the angle in radians, from -pi to pi, at which the place x, y
// stands from the origin, to within two units in its last place; NaN where
// either is no number. Of zeros and infinities it is what math.Atan2 says: the
// angle of the direction from which they are approached, zero's sign counting.
func Atan2(y, x float64) float64 {
	switch {
	case math.IsNaN(y) || math.IsNaN(x):
		return math.NaN()
	case y == 0 && math.Signbit(x):
		return math.Copysign(math.Pi, y)
	case y == 0:
		return y
	case math.IsInf(y, 0) && math.IsInf(x, 1):
		return math.Copysign(math.Pi/4, y)
	case math.IsInf(y, 0) && math.IsInf(x, -1):
		return math.Copysign(3*math.Pi/4, y)
	}
	// A quotient out of range is a zero or an infinity, which is right too.
	angle := math.Copysign(atanPositive(math.Abs(y/x)), y)
	if math.Signbit(x) && x != 0 {
		return math.Copysign(math.Pi, y) - angle
	}
	return angle
}

// Asin returns the angle in radians, from -pi/2 to pi/2, of which x is the sine,
// to within two units in its last place; NaN of less than -1 or more than 1.
func Asin(x float64) float64 { return Atan2(x, otherLeg(x)) }

// Acos returns the angle in radians, from 0 to pi, of which x is the cosine, to
// within two units in its last place; NaN of less than -1 or more than 1.
func Acos(x float64) float64 { return Atan2(otherLeg(x), x) }

// otherLeg is the root of 1 - x^2, without what that loses near 1 where math's
// arcs take it so.
func otherLeg(x float64) float64 { return math.Sqrt((1 - x) * (1 + x)) }
