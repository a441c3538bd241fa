package photo

import (
	"math"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
)

type vec = linkage.Vec

// The unknowns of the camera.
const (
	lnAway     = iota // natural logarithm of the distance to the plane along the line of sight, run units
	tiltX             // the tilt about the axis x of the plane, and
	tiltY             // about y: nearly radians, see tilted
	roll              // turn about the line of sight, radians
	lnFocal           // natural logarithm of the focal length, pixels
	bend              // share by which what is seen at the corner has to be moved outward
	axisX             // how far the lens's axis is beside the photo's middle, pixels to the right
	axisY             // and down
	cameraSize        // how many there are
)

// The unknowns of a pick.
const (
	errorX   = iota // the error of the pick, pixels to the right
	errorY          // and down
	depth           // run units
	pickSize        // how many there are
)

// matrix is one of three rows.
type matrix [3][3]float64

func (m *matrix) times(v vec) vec {
	row := func(i int) float64 {
		return float64(m[i][0]*v.X) + float64(m[i][1]*v.Y) + float64(m[i][2]*v.Z)
	}
	return vec{X: row(0), Y: row(1), Z: row(2)}
}

// camera is one with its unknowns at certain values. The origin is where its line of
// sight meets the plane, x right, y up, z toward the camera.
type camera struct {
	away, focal, bend float64
	middleX, middleY  float64 // where its axis goes through the photo, pixels
	half              float64 // the photo's half diagonal, pixels
	sin, cos          float64 // of the roll
	tilt              matrix
	tiltBy            [2]matrix // derivatives by tiltX and tiltY
	lens              vec       // where it is
}

// set puts the camera's unknowns in.
func (c *camera) set(p *Photo, u *[cameraSize]float64) {
	c.away, c.focal, c.bend = elementary.Exp(u[lnAway]), elementary.Exp(u[lnFocal]), u[bend]
	c.middleX, c.middleY, c.half = p.Width/2+u[axisX], p.Height/2+u[axisY], p.halfDiagonal()
	c.sin, c.cos = elementary.Sincos(u[roll])
	c.tilted(u[tiltX]/2, u[tiltY]/2)
	c.lens = vec{X: c.tilt[0][2], Y: c.tilt[1][2], Z: c.tilt[2][2]}.Scale(c.away)
}

// tilted sets the turn whose quaternion goes with 1, x, y, 0: it brings the plane's
// normal to the line of sight by the shortest way, twice the arctangent of the length of
// x, y. So no direction in the photo is better than another.
func (c *camera) tilted(x, y float64) {
	xx, yy, xy := float64(x*x), float64(y*y), float64(x*y)
	all := 1 + xx + yy
	c.tilt = matrix{{1 + xx - yy, 2 * xy, 2 * y}, {2 * xy, 1 - xx + yy, -2 * x}, {-2 * y, 2 * x, 1 - xx - yy}}
	c.tiltBy = [2]matrix{
		{{2 * x, 2 * y, 0}, {2 * y, -2 * x, -2}, {0, 2, -2 * x}},
		{{-2 * y, 2 * x, 2}, {2 * x, 2 * y, 0}, {-2, 0, -2 * y}},
	}
	for i := range 3 {
		for j := range 3 {
			c.tilt[i][j] /= all
			// By half of what the unknown grows, as x and y are half of the unknowns.
			c.tiltBy[0][i][j] = (c.tiltBy[0][i][j] - 2*float64(c.tilt[i][j]*x)) / all / 2
			c.tiltBy[1][i][j] = (c.tiltBy[1][i][j] - 2*float64(c.tilt[i][j]*y)) / all / 2
		}
	}
}

// seen is where a pick is in the plane, in how far that goes with each unknown.
type seen struct {
	x, y, depth float64
	camera      [cameraSize][2]float64
	pick        [pickSize][2]float64
}

// steepest is how steeply, at least, a line of sight must go down to the plane: as the
// cosine of its angle to the plane's normal, about 84 degrees.
const steepest = 0.1

// see finds where a pick is, given what it is taken to be off; false where its line of
// sight doesn't come down to the plane.
func (c *camera) see(pick *Pick, off *[pickSize]float64, s *seen) bool {
	// From the axis through the photo, y up, without the lens's bend.
	a, b := pick.X+off[errorX]-c.middleX, c.middleY-pick.Y-off[errorY]
	aa, bb := float64(a*a)/float64(c.half*c.half), float64(b*b)/float64(c.half*c.half)
	square := aa + bb
	straight := 1 + float64(c.bend*square)
	ray := vec{X: float64(a*straight) / c.focal, Y: float64(b*straight) / c.focal, Z: -1}
	along := c.turned(ray)
	fall := -along.Z
	if !(fall > steepest*ray.Norm()) {
		return false
	}
	far := (c.lens.Z - off[depth]) / fall
	if !(far > (1-nearest)*c.away) {
		return false
	}
	s.depth = off[depth]
	s.x, s.y = c.lens.X+float64(far*along.X), c.lens.Y+float64(far*along.Y)

	// What moves a point of the line of sight by v moves the place where the line goes
	// through its depth by v, slid back along the line.
	slide := func(v vec) [2]float64 {
		return [2]float64{v.X + float64(along.X*v.Z)/fall, v.Y + float64(along.Y*v.Z)/fall}
	}
	across := func(x, y float64) [2]float64 { return slide(c.turned(vec{X: x, Y: y}).Scale(far / c.focal)) }
	s.camera[lnAway] = slide(c.lens)
	rolled := c.rolled(ray).Scale(far)
	rolled.Z += c.away
	for i := range c.tiltBy {
		s.camera[tiltX+i] = slide(c.tiltBy[i].times(rolled))
	}
	s.camera[roll] = slide(c.turned(vec{X: -ray.Y, Y: ray.X}).Scale(far))
	s.camera[lnFocal] = across(-float64(a*straight), -float64(b*straight))
	s.camera[bend] = across(float64(a*square), float64(b*square))
	mixed := 2 * float64(c.bend*a*b) / float64(c.half*c.half)
	s.pick[errorX] = across(straight+2*float64(c.bend*aa), mixed)
	s.pick[errorY] = across(-mixed, -straight-2*float64(c.bend*bb))
	s.pick[depth] = slide(vec{Z: -1})
	for k := range 2 {
		s.camera[axisX][k], s.camera[axisY][k] = -s.pick[errorX][k], -s.pick[errorY][k]
	}
	return finite(s.x, s.y)
}

// rolled is a direction of the camera before its tilt, turned about the line of sight
// that it had then.
func (c *camera) rolled(v vec) vec {
	return vec{X: float64(c.cos*v.X) - float64(c.sin*v.Y), Y: float64(c.sin*v.X) + float64(c.cos*v.Y), Z: v.Z}
}

// turned is a direction of the camera as one of the plane.
func (c *camera) turned(v vec) vec { return c.tilt.times(c.rolled(v)) }

// tiltOf is the tilt that goes with the length of tiltX, tiltY, in radians.
func tiltOf(length float64) float64 { return 2 * elementary.Atan2(length/2, 1) }

// root is the square root of a sum that only rounding makes negative.
func root(square float64) float64 { return math.Sqrt(max(0, square)) }
