package linkage

import (
	"math"
	"slices"

	"github.com/hashicorp/hcl/v2/hclsyntax"

	"fullfree/linkage/elementary"
)

// polarName is the one function of the file format.
const polarName = "polar"

// polarPlanes are the planes that an angle can lie in: it counts from the first
// axis named to the second.
var polarPlanes = []string{"xy", "yx", "xz", "zx", "yz", "zy"}

// drawingPlane is where an angle lies when no plane is named.
const drawingPlane = "xy"

// polarPlace is a place given by its distance and an angle, degrees.
type polarPlace struct {
	length, degrees float64
	plane           string // of polarPlanes
}

// axesOf returns which coordinates the two axes of a plane are, and the third.
func axesOf(plane string) (first, second, third int) {
	first, second = int(plane[0]-'x'), int(plane[1]-'x')
	return first, second, 3 - first - second
}

// vec returns where the place is.
func (p polarPlace) vec() Vec {
	var v Vec
	if p.plane == "" {
		return v
	}
	flat := polar(p.length, p.degrees)
	first, second, _ := axesOf(p.plane)
	*v.axis(first), *v.axis(second) = flat.X, flat.Y
	return v
}

// polar returns the point of the drawing at a distance and an angle, degrees
// anticlockwise from the x axis.
//
// It is exact at whole multiples of 90 degrees, and angles that mirror one
// another in an axis or in a diagonal of a quadrant give exactly mirrored
// points: sine and cosine are only taken of the rest of at most 45 degrees.
func polar(length, degrees float64) Vec {
	degrees = math.Mod(degrees, 360)
	quarter := math.Round(degrees / 90)
	rest := degrees - float64(quarter*90)
	sin, cos := elementary.Sincos(float64(rest * (math.Pi / 180)))
	if math.Abs(rest) == 45 {
		sin, cos = math.Copysign(math.Sqrt2/2, rest), math.Sqrt2/2
	}
	switch (int(quarter) + 4) % 4 {
	case 1:
		sin, cos = cos, -sin
	case 2:
		sin, cos = -sin, -cos
	case 3:
		sin, cos = -cos, sin
	}
	return Vec{float64(length*cos) + 0, float64(length*sin) + 0, 0} // -0 becomes 0
}

// polar reads a place given by distance and angle.
func (r *reader) polar(e *hclsyntax.FunctionCallExpr) (polarPlace, bool) {
	if e.Name != polarName {
		r.faults.Add(spanOf(e.NameRange), "there is no %s(...) here: only polar(length, degrees)", shortened(e.Name))
		return polarPlace{}, false
	}
	if n := len(e.Args); n < 2 || n > 3 || e.ExpandFinal {
		r.faults.Add(spanOf(e.Range()), `polar takes two numbers, polar(length, degrees), and in another plane than the drawing's its name, polar(length, degrees, "xz")`)
		return polarPlace{}, false
	}
	p := polarPlace{plane: drawingPlane}
	var okLength, okDegrees bool
	p.length, okLength = r.number(e.Args[0])
	p.degrees, okDegrees = r.number(e.Args[1])
	ok := okLength && okDegrees
	if okLength && p.length < 0 {
		ok = false
		remedy := "for the other way add 180 degrees to the angle"
		if okDegrees && p.degrees > 0 {
			remedy = "were they meant the other way round?"
		}
		r.faults.Add(spanOf(e.Args[0].Range()), "the length comes first, and is 0 or more: here the length is %g and the angle %g; %s", p.length, p.degrees, remedy)
	}
	if len(e.Args) == 3 {
		plane, okPlane := r.text(e.Args[2])
		if okPlane && !slices.Contains(polarPlanes, plane) {
			r.faults.Add(spanOf(e.Args[2].Range()), `a plane is two of the letters x, y and z, in quotes, from the first of which to the second the angle counts: "xz" or "zy", not %s`, shortName(plane))
			okPlane = false
		}
		if ok = ok && okPlane; okPlane {
			p.plane = plane
		}
	}
	return p, ok
}

// polarOf returns how an arm is given where that is by distance and angle; nil
// where it isn't. What is wrong with it is told where it is read.
func (r *reader) polarOf(e hclsyntax.Expression) *polarPlace {
	call, ok := unwrap(e).(*hclsyntax.FunctionCallExpr)
	if !ok {
		return nil
	}
	told := r.faults
	r.faults = &Faults{}
	p, ok := r.polar(call)
	r.faults = told
	if !ok {
		return nil
	}
	return &p
}

// oddArmShare is the share of its length that an arm given by distance and angle may
// lose by lying along its part's axis before that is told: 1 %, twice what a tape to
// half a millimeter on an arm of 100 mm can hide (common practice, no source).
const oddArmShare = 0.01

// OddArm is an arm given by distance and angle in a plane that its part doesn't turn
// in, so that it is shorter about the axis than it is written.
type OddArm struct {
	Part            *Part
	Point           int
	Length          float64 // as it is written
	Arm             float64 // about the part's axis
	Plane, Suitable string  // the plane it is written in, and the one that its part turns in: "xz"; "" where that is none
}

// OddArms lists them, in the order of the file.
func (run *Run) OddArms() []OddArm {
	var odd []OddArm
	if run == nil {
		return nil
	}
	none := float64(nothing * run.Size())
	for _, p := range run.Parts {
		if !p.OnAxis() {
			continue
		}
		for i, point := range p.Points {
			given := point.polar
			if given == nil || given.length == 0 || point.offset.Sub(given.vec()).Norm() > none {
				continue // not by angle, or set otherwise
			}
			arm := point.offset.Cross(p.Axis).Norm()
			if arm >= float64((1-oddArmShare)*given.length) {
				continue
			}
			odd = append(odd, OddArm{Part: p, Point: i, Length: given.length, Arm: arm, Plane: given.plane, Suitable: squareTo(p.Axis)})
		}
	}
	return odd
}

// squareTo names the plane square to an axis along one of the coordinates; "" where
// it lies along none.
func squareTo(axis Vec) string {
	for i, plane := range []string{"yz", "xz", "xy"} {
		if math.Abs(*axis.axis(i)) == 1 {
			return plane
		}
	}
	return ""
}
