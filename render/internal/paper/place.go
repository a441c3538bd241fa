package paper

import (
	"math"

	"fullfree/linkage/elementary"
)

// Place is a place on the sheet, or a way across it: x to the right, y down,
// in sheet units.
//
// As in linkage, every product is converted to float64 before it is added, so
// that the same picture has the same bytes on every processor.
type Place struct{ X, Y float64 }

// At returns the place at x and y.
func At(x, y float64) Place { return Place{x, y} }

// Add returns a and b together.
func (a Place) Add(b Place) Place { return Place{a.X + b.X, a.Y + b.Y} }

// Sub returns the way from b to a.
func (a Place) Sub(b Place) Place { return Place{a.X - b.X, a.Y - b.Y} }

// Scale returns a, k times as far.
func (a Place) Scale(k float64) Place { return Place{float64(a.X * k), float64(a.Y * k)} }

// Dot returns the scalar product.
func (a Place) Dot(b Place) float64 { return float64(a.X*b.X) + float64(a.Y*b.Y) }

// Norm returns how long a way is.
func (a Place) Norm() float64 { return math.Sqrt(a.Dot(a)) }

// Square returns a turned by a quarter.
func (a Place) Square() Place { return Place{-a.Y, a.X} }

// To returns the way from a to b, at length 1.
func (a Place) To(b Place) Place { return b.Sub(a).Unit() }

// Distance returns how far b is from a.
func (a Place) Distance(b Place) float64 { return b.Sub(a).Norm() }

// Along returns a moved by k in the direction way.
func (a Place) Along(way Place, k float64) Place { return a.Add(way.Scale(k)) }

// Unit returns a at length 1; the zero way stays zero.
func (a Place) Unit() Place {
	n := a.Norm()
	if n == 0 {
		return a
	}
	return Place{a.X / n, a.Y / n}
}

// Polar returns the way at an angle in degrees, anticlockwise from the right
// as seen on the sheet.
func Polar(degrees float64) Place {
	sin, cos := elementary.Sincos(degrees * math.Pi / 180)
	return Place{cos, -sin}
}
