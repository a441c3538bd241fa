// Package sample makes photographs of known places: where a camera of a known tilt,
// distance and lens sees them, and the picture that it would take. Nothing but tests, and
// what makes pictures for the manual, imports it.
//
// It is written by turns about three axes and from the place to the photo, where package
// photo goes from the photo to the place by a quaternion: the two share nothing.
package sample

import (
	"math"

	"fullfree/linkage/elementary"
)

// filmDiagonal is the diagonal of the film that focal lengths are told for, millimeters.
const filmDiagonal = 43.2666153056

// Camera is a camera before the plane of a drawing, x right, y up, nearer is plus. Its
// lengths are run units but where it says otherwise.
type Camera struct {
	Width, Height float64 // of the photo, pixels
	Lens          float64 // focal length as for 35 mm film by the diagonal, millimeters
	Away          float64 // from the lens to the plane, along the line of sight
	// Yaw is how far the camera is turned to its left about the upright, Pitch up, Roll
	// anticlockwise about its line of sight: degrees, one after another.
	Yaw, Pitch, Roll float64
	// Barrel is the share of its distance from the middle by which the photo's corner is
	// drawn in; less than 0 is a pincushion.
	Barrel float64
	// AsideX and AsideY are how far the lens's axis is from the photo's middle, pixels to
	// the right and down.
	AsideX, AsideY float64
	LooksX, LooksY float64 // the place in the plane that the line of sight goes to
}

// Phone is a camera as of a phone: 4032 by 3024 pixels, its main lens, square on.
func Phone(away float64) Camera {
	return Camera{Width: 4032, Height: 3024, Lens: 26, Away: away}
}

// See returns where a place is in the photo, pixels from its upper left corner, y down.
// It has to be before the camera.
func (c Camera) See(x, y, depth float64) (px, py float64) {
	const degree = math.Pi / 180
	turn := func(a, b, by float64) (float64, float64) {
		sin, cos := elementary.Sincos(float64(by * degree))
		return float64(cos*a) - float64(sin*b), float64(sin*a) + float64(cos*b)
	}
	// Back by each turn, the last first.
	x, y, z := x-c.LooksX, y-c.LooksY, depth
	z, x = turn(z, x, -c.Yaw)
	y, z = turn(y, z, -c.Pitch)
	x, y = turn(x, y, -c.Roll)
	focal := c.Lens * elementary.Hypot(c.Width, c.Height) / filmDiagonal
	before := c.Away - z
	a, b := x*focal/before, y*focal/before
	out := elementary.Hypot(a, b) / (elementary.Hypot(c.Width, c.Height) / 2)
	in := 1 - float64(c.Barrel*out*out)
	return c.Width/2 + c.AsideX + float64(a*in), c.Height/2 + c.AsideY - float64(b*in)
}

// Scale is how many pixels a run unit has in the middle of the photo.
func (c Camera) Scale() float64 {
	return c.Lens * elementary.Hypot(c.Width, c.Height) / filmDiagonal / c.Away
}
