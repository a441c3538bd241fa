package linkage

import "math"

// Vec is a place or a direction: x to the right, y up, z towards the viewer,
// in the run's unit.
//
// Every product is converted to float64 before it is added, which forbids the
// compiler to fuse the two: the same file gives the same bytes on every
// processor.
type Vec struct{ X, Y, Z float64 }

// Add returns a + b.
func (a Vec) Add(b Vec) Vec { return Vec{a.X + b.X, a.Y + b.Y, a.Z + b.Z} }

// Sub returns a - b.
func (a Vec) Sub(b Vec) Vec { return Vec{a.X - b.X, a.Y - b.Y, a.Z - b.Z} }

// Scale returns a times k.
func (a Vec) Scale(k float64) Vec {
	return Vec{float64(a.X * k), float64(a.Y * k), float64(a.Z * k)}
}

// Dot returns the scalar product of a and b.
func (a Vec) Dot(b Vec) float64 {
	return float64(a.X*b.X) + float64(a.Y*b.Y) + float64(a.Z*b.Z)
}

// Cross returns the vector product of a and b.
func (a Vec) Cross(b Vec) Vec {
	return Vec{
		float64(a.Y*b.Z) - float64(a.Z*b.Y),
		float64(a.Z*b.X) - float64(a.X*b.Z),
		float64(a.X*b.Y) - float64(a.Y*b.X),
	}
}

// Norm returns the length of a.
func (a Vec) Norm() float64 { return math.Sqrt(a.Dot(a)) }

// Unit returns a at length 1; the zero vector stays zero.
func (a Vec) Unit() Vec {
	n := a.Norm()
	if n == 0 {
		return a
	}
	return Vec{a.X / n, a.Y / n, a.Z / n}
}

// Finite reports whether every coordinate is a number.
func (a Vec) Finite() bool {
	return !math.IsNaN(a.X-a.X) && !math.IsNaN(a.Y-a.Y) && !math.IsNaN(a.Z-a.Z)
}
