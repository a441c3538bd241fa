// Layer: values.

package solve

import (
	"math"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
)

// Blade is how an output stands to the rotor that carries its part: where it is as drawn,
// which way the control takes it, and which way its gauge reads.
type Blade struct {
	// Azimuth is where the blade stands with the control at neutral, degrees from over the
	// tail, counted with the rotation, from 0 to below 360.
	Azimuth float64
	// With is 1 where the azimuth grows as the control does, else -1.
	With float64
	// Pitch is 1 where the output's plus is leading edge up, -1 where it is leading edge
	// down, 0 where there is no telling (PitchSign).
	Pitch float64
}

// BladeOf returns that of an output; false where the run says no rotor, or doesn't say
// where the tail and the top of it are, where the rotor doesn't carry the output's part,
// or where that lies on the mast and points nowhere.
func BladeOf(run *linkage.Run, o *linkage.Output) (b Blade, ok bool) {
	rotor, part := rotorOf(run, o)
	hub := carrierOf(part, rotor)
	if hub == nil {
		return b, false
	}
	home := run.Home(o.In)
	forward, known := home.Direction(linkage.Forward)
	up, also := home.Direction(linkage.Up)
	if !known || !also {
		return b, false
	}
	spin := hub.Axis.Scale(math.Copysign(1, hub.Axis.Dot(up))) // anticlockwise from above
	if rotor.Clockwise {
		spin = spin.Scale(-1)
	}
	tail := perpendicular(forward.Scale(-1), spin)
	points := span(part, hub)
	if hub.Axis.Dot(up) == 0 || tail.Norm() < leastSpan || points == (vec{}) {
		return b, false
	}
	tail = tail.Unit()
	b.Azimuth = elementary.Atan2(points.Dot(spin.Cross(tail)), points.Dot(tail)) / degree
	if b.Azimuth < 0 {
		b.Azimuth += wholeTurn
	}
	if b.Azimuth >= wholeTurn {
		b.Azimuth = 0
	}
	b.With = math.Copysign(1, hub.Axis.Dot(spin))
	b.Pitch = PitchSign(run, o)
	return b, true
}

// At is the azimuth of the blade with the control at x, from 0 to below 360.
func (b Blade) At(x float64) float64 {
	at := math.Mod(b.Azimuth+float64(b.With*x), wholeTurn)
	if at < 0 {
		at += wholeTurn
	}
	if at >= wholeTurn {
		at = 0 // a rounding short of a whole turn
	}
	return at
}

// Control is where the control stands with the blade at an azimuth, from -180 to below 180.
func (b Blade) Control(azimuth float64) float64 {
	x := math.Mod(float64(b.With*(azimuth-b.Azimuth)), wholeTurn)
	switch {
	case x < -wholeTurn/2:
		x += wholeTurn
	case x >= wholeTurn/2:
		x -= wholeTurn
	}
	return x
}

// rotorOf is the rotor of an output's run, and the part that the output shows.
func rotorOf(run *linkage.Run, o *linkage.Output) (*linkage.Rotor, *linkage.Part) {
	if run == nil || o == nil {
		return nil, nil
	}
	part := o.Part
	if o.Point != nil {
		part = o.Point.Part
	}
	rotor := run.Home(o.In).Rotor
	if rotor == nil {
		rotor = run.Rotor
	}
	if rotor == nil || rotor.Hub == nil {
		return nil, nil
	}
	return rotor, part
}

// carrierOf is the hub of a rotor that carries a part, at any depth; nil where it doesn't.
func carrierOf(part *linkage.Part, rotor *linkage.Rotor) *linkage.Part {
	for part != nil && rotor != nil && part.Carrier != nil {
		if part = part.Carrier.Part; IsHub(part, rotor) {
			return part
		}
	}
	return nil
}

// IsHub reports whether a part is the hub of a rotor: that of its own run, or its copy in
// an aircraft.
func IsHub(part *linkage.Part, rotor *linkage.Rotor) bool {
	if part == nil || rotor == nil || rotor.Hub == nil {
		return false
	}
	return part == rotor.Hub || part.Name == rotor.Hub.Name || part.In != nil && part.Name == part.In.Name+"."+rotor.Hub.Name
}

// leastSpan is how far out of the mast a direction must point to be one, as a sine.
const leastSpan = 0.1

// span is which way a blade points from the mast, square to that: along the hinge that it
// feathers on where that lies across the mast, to the side on which its points are; the
// zero vector where it points nowhere.
func span(part, hub *linkage.Part) vec {
	out := vec{}
	for _, p := range part.Points {
		out = out.Add(perpendicular(p.At.Sub(hub.Pivot), hub.Axis))
	}
	if out.Norm() == 0 {
		out = perpendicular(part.Pivot.Sub(hub.Pivot), hub.Axis)
	}
	along := perpendicular(part.Axis, hub.Axis)
	if (part.Motion == linkage.Turns || part.Motion == linkage.TurnsAndSlides) && along.Norm() > leastSpan && out.Dot(along) != 0 {
		return along.Scale(math.Copysign(1, out.Dot(along))).Unit()
	}
	if out.Norm() == 0 {
		return out
	}
	return out.Unit()
}

// PitchSign is 1 where the leading edge of a blade goes up as an output's part turns to
// plus, -1 where it goes down, 0 where the run doesn't say which edge leads, or where up is.
func PitchSign(run *linkage.Run, o *linkage.Output) float64 {
	if run == nil || o == nil || o.LeadingEdge == nil || o.LeadingEdge.Get() == nil || o.Part == nil || o.Part.Motion != linkage.Turns {
		return 0
	}
	up, known := run.Home(o.In).Direction(linkage.Up)
	edge := o.LeadingEdge.Get().At.Sub(o.Part.Pivot)
	goes := o.Part.Axis.Cross(edge).Dot(up)
	if !known || math.Abs(goes) <= float64(leastSpan*edge.Norm()) {
		return 0
	}
	return math.Copysign(1, goes)
}
