package linkage

import "math"

// Joint makes two points of two parts one: a ball joint where the run moves in space, a
// pin where it is plane.
type Joint struct {
	Name  string
	Span  Span
	Index int     // in Run.Joints
	In    *Member // as of a Part
	Of    [2]PointRef
	// Gap is how far apart the two points are drawn, run units: of a hinge (Hinge) square
	// to its axis.
	Gap float64
	// OfSpan is where Of is written.
	OfSpan Span
	// JointPlay is its diametral play, run units; nil: the run's.
	JointPlay *float64
}

// How far apart two points may be drawn and still meet: what decimals of a drawing leave
// open, and nobody drills so exactly.
const (
	meetsMillimeters = 0.01
	meetsInches      = 0.0005
)

// Meets reports whether the two points of a joint meet as drawn. Where they don't, they
// are pulled together as the run is put together, if what holds them gives.
func (run *Run) Meets(j *Joint) bool {
	if run == nil || j == nil {
		return true
	}
	if run.UnitsOf(j.In) == Inches {
		return j.Gap <= meetsInches
	}
	return j.Gap <= meetsMillimeters
}

// OpenJoints lists the joints whose points don't meet as drawn, in the file's order.
func (run *Run) OpenJoints() (list []*Joint) {
	if run == nil {
		return nil
	}
	for _, j := range run.Joints {
		if !run.Meets(j) {
			list = append(list, j)
		}
	}
	return list
}

// Hinge returns the axis that both parts of a joint keep parallel to themselves, at
// length 1: nothing that they do moves them along it or tilts it, so that the joint is the
// hinge or pin that it looks like, and holds them square to that axis only. ok is false
// of a ball joint in space.
func (j *Joint) Hinge() (axis Vec, ok bool) {
	if j == nil || j.Of[0].Part == nil || j.Of[1].Part == nil {
		return Vec{}, false
	}
	var about *Vec
	var slides []Vec
	for _, end := range j.Of {
		for p := end.Part; p != nil; p = p.carriedBy() {
			turns := p.Axis
			switch p.Motion {
			case Fixed:
				continue
			case Slides:
				slides = append(slides, p.Slide)
				continue
			case Turns:
			case Floats:
				turns = Vec{0, 0, 1}
			default:
				return Vec{}, false
			}
			if about == nil {
				about = &turns
			} else if about.Cross(turns).Norm() > directionNoise {
				return Vec{}, false
			}
		}
	}
	if about == nil {
		square := squareToAll(slides)
		about = &square
	}
	for _, slide := range slides {
		if math.Abs(slide.Dot(*about)) > directionNoise {
			return Vec{}, false
		}
	}
	return *about, *about != Vec{}
}

// squareToAll returns a direction square to slides: that square to the drawing where they
// lie in it; the zero vector where they leave none, or more than one.
func squareToAll(slides []Vec) Vec {
	for i, slide := range slides {
		if slide.Z == 0 {
			continue
		}
		for _, other := range slides {
			if square := slides[i].Cross(other); square.Norm() > directionNoise {
				return square.Unit()
			}
		}
		return Vec{}
	}
	return Vec{0, 0, 1}
}

// carriedBy is the part that carries a part; nil of one on the airframe.
func (p *Part) carriedBy() *Part {
	if p.Carrier == nil {
		return nil
	}
	return p.Carrier.Part
}

// measure works out how far apart its points are drawn.
func (j *Joint) measure() {
	apart := j.Of[1].Get().At.Sub(j.Of[0].Get().At)
	if axis, ok := j.Hinge(); ok {
		apart = apart.Sub(axis.Scale(apart.Dot(axis)))
	}
	j.Gap = apart.Norm()
}
