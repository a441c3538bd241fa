// Layer: values.

package solve

import (
	"math"

	"fullfree/linkage"
)

type vec = linkage.Vec

var zAxis = vec{Z: 1}

// matrix is a rotation, by rows.
type matrix [3]vec

var identity = matrix{{X: 1}, {Y: 1}, {Z: 1}}

func (m *matrix) apply(p vec) vec { return vec{X: m[0].Dot(p), Y: m[1].Dot(p), Z: m[2].Dot(p)} }

// unapply is apply of the transpose, which is the inverse.
func (m *matrix) unapply(p vec) vec {
	return vec{
		X: float64(m[0].X*p.X) + float64(m[1].X*p.Y) + float64(m[2].X*p.Z),
		Y: float64(m[0].Y*p.X) + float64(m[1].Y*p.Y) + float64(m[2].Y*p.Z),
		Z: float64(m[0].Z*p.X) + float64(m[1].Z*p.Y) + float64(m[2].Z*p.Z),
	}
}

func (m *matrix) mul(b *matrix) (r matrix) {
	for i := range 3 {
		r[i] = b.unapply(m[i])
	}
	return r
}

// rotation turns about the unit axis k by the angle whose cosine and sine are
// given (Rodrigues).
func rotation(k vec, c, s float64) matrix {
	u := 1 - c
	return matrix{
		{X: c + float64(u*k.X*k.X), Y: float64(u*k.X*k.Y) - float64(s*k.Z), Z: float64(u*k.X*k.Z) + float64(s*k.Y)},
		{X: float64(u*k.Y*k.X) + float64(s*k.Z), Y: c + float64(u*k.Y*k.Y), Z: float64(u*k.Y*k.Z) - float64(s*k.X)},
		{X: float64(u*k.Z*k.X) - float64(s*k.Y), Y: float64(u*k.Z*k.Y) + float64(s*k.X), Z: c + float64(u*k.Z*k.Z)},
	}
}

// frame places a body: a place p of it, as drawn, is at turn.apply(p) + shift.
type frame struct {
	turn  matrix
	shift vec
	// flat says that it turns about z alone, if at all.
	flat bool
}

// turnInPlane turns a frame about z by the angle whose cosine and sine are given, so
// that the place drawn at pivot is at now, which is in the same plane.
func (f *frame) turnInPlane(pivot, now vec, c, s float64) {
	f.flat = true
	f.turn[0] = vec{X: c, Y: -s}
	f.turn[1] = vec{X: s, Y: c}
	f.turn[2] = zAxis
	f.shift = vec{
		X: now.X - (float64(c*pivot.X) - float64(s*pivot.Y)),
		Y: now.Y - (float64(s*pivot.X) + float64(c*pivot.Y)),
	}
}

var unmoved = frame{turn: identity, flat: true}

func (f *frame) apply(p vec) vec {
	if f.flat {
		return f.applyInPlane(p)
	}
	return f.turn.apply(p).Add(f.shift)
}

// applyInPlane is apply of a frame that turns about z alone.
func (f *frame) applyInPlane(p vec) vec {
	return vec{
		X: float64(f.turn[0].X*p.X) + float64(f.turn[0].Y*p.Y) + f.shift.X,
		Y: float64(f.turn[1].X*p.X) + float64(f.turn[1].Y*p.Y) + f.shift.Y,
		Z: p.Z + f.shift.Z,
	}
}

func (f *frame) unapply(p vec) vec { return f.turn.unapply(p.Sub(f.shift)) }

// wrap returns the angle equal to a, turns apart, that lies nearest to near.
func wrap(a, near float64) float64 {
	return a + float64(2*math.Pi*math.Round((near-a)/(2*math.Pi)))
}

// perpendicular returns what of p stands square to the unit vector k.
func perpendicular(p, k vec) vec { return p.Sub(k.Scale(p.Dot(k))) }

const degree = math.Pi / 180
