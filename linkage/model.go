package linkage

import "math"

// Run is one control run: what moves together. It is made by Read or a Builder and
// not changed afterwards, nor is anything in it, so that any number of goroutines may
// read it at once: With makes another one. Every list is in the file's order.
type Run struct {
	Source *Source // the file it was read from; without text where a Builder made it
	Span   Span    // its run block
	Name   string
	Units  Unit
	View   string // words under the picture; may be empty
	// Forward, Up and Right are the directions of the aircraft in the drawing, at
	// length 1; nil where the file doesn't say. Of two that are square to each other the
	// third is told: right is forward x up.
	Forward, Up, Right *Vec

	Parts        []*Part // fixed ones too
	Rods         []*Rod
	Joints       []*Joint
	Cables       []*Cable
	Pairs        []*Pair
	Controls     []*Control
	Outputs      []*Output
	Stops        []*Stop
	Requirements []*Requirement
	// Aircraft is what it is of where it is several runs joined; nil of a run by itself.
	// Units, View, the directions, and what else a run block tells of a drawing are then
	// those of each member (Home); its Uncertain and Sketch are the largest of them. SameParts
	// are the joints.
	Aircraft  *Aircraft
	SameParts []*SamePart

	// Sketch is how far the coordinates may be out, one standard deviation in the
	// run's unit; 0: they are exact.
	Sketch float64
	// Uncertain is how far every coordinate and set length may be out on its
	// own, two standard deviations, where no survey tells; UncertainGiven says that
	// the file gives it.
	Uncertain      float64
	UncertainGiven bool
	// Measurements are what was taped and gauged.
	Measurements []*Measurement
	Pins         []*Pin
	// Tolerance is how far what is made may be out; nil: nothing is said of all.
	Tolerance *Tolerance
	// Riggings are readings taken after rigging.
	Riggings []*Rigging

	// RiggedAt is the temperature at which cables were drawn up, degrees Celsius;
	// nil: not given. Airframe is what stretches between open cables: "6061-T6",
	// "steel", or empty.
	RiggedAt *float64
	Airframe string
	// Rotor is what turns blades; nil where the file has none.
	Rotor *Rotor
	// Craft is what the run is part of, by which sheets cite rules; empty: not given.
	Craft Craft
	// Temperature is that at which the run is looked at, degrees Celsius; nil: as
	// rigged. What it does to the cables shows in their Grown.
	Temperature *float64

	// Named are the named dimensions of the file, as they are written in arithmetic
	// and in a Setting: "bench.arm".
	Named []string
	// Varies is what a search may change.
	Varies []*Vary

	written written
	// Plane says that every axis is parallel to z and no slide leaves the
	// drawing, so that everything moves at its own height.
	Plane bool
}

// Size returns the extent of the drawing, in its unit: the diagonal of the box
// that holds every point, pivot and feature; 1 where that is nothing. It is
// what a tolerance on a length is a share of.
func (run *Run) Size() float64 {
	if run == nil {
		return 1
	}
	if run.Aircraft != nil { // they share no place: the largest counts
		size := 0.0
		for _, m := range run.Aircraft.Members {
			size = max(size, m.Run.Size())
		}
		return size
	}
	low, high := run.box()
	if size := high.Sub(low).Norm(); size > 0 && !math.IsInf(size, 0) && !math.IsNaN(size) {
		return size
	}
	return 1
}

// Middle returns the middle of that box; the origin where there is none.
func (run *Run) Middle() Vec {
	if run == nil || run.Aircraft != nil {
		return Vec{}
	}
	low, high := run.box()
	if middle := low.Add(high).Scale(0.5); middle.Finite() {
		return middle
	}
	return Vec{}
}

// box returns the corners of the box that holds every point, pivot and feature.
func (run *Run) box() (low, high Vec) {
	low = Vec{math.Inf(1), math.Inf(1), math.Inf(1)}
	high = low.Scale(-1)
	hold := func(v Vec) {
		low = Vec{min(low.X, v.X), min(low.Y, v.Y), min(low.Z, v.Z)}
		high = Vec{max(high.X, v.X), max(high.Y, v.Y), max(high.Z, v.Z)}
	}
	for _, p := range run.Parts {
		if p.HasPivot() {
			hold(p.Pivot)
		}
		for _, point := range p.Points {
			hold(point.At)
		}
		for _, f := range p.Features {
			for _, v := range f.Through {
				hold(v)
			}
		}
	}
	for _, rod := range run.Rods {
		for _, point := range rod.Points {
			hold(point.At)
		}
	}
	return low, high
}

// Unit is what a figure counts in. A ratio's is the two with a slash between them:
// "mm/deg".
type Unit string

// The units: the first two are those of length that a run can have.
const (
	Millimeters Unit = "mm"
	Inches      Unit = "in"
	Degrees     Unit = "deg"
	Newtons     Unit = "N"
	PoundsForce Unit = "lbf"
	NoUnit      Unit = "" // of a count, or a ratio of like units
)

// Motion is how a part may move.
type Motion int

// The ways a part may move.
const (
	Fixed          Motion = iota // the airframe
	Turns                        // about an axis through a pivot
	Slides                       // along a direction
	Floats                       // in the plane of the drawing, held by rods and joints alone
	Tilts                        // any way about a place: on a ball
	Roams                        // any way and anywhere in space, held by rods and joints alone
	TurnsAndSlides               // about an axis through a pivot, and along it
)

// Part is a rigid piece: of the airframe (Fixed) or one that moves.
type Part struct {
	Name   string
	Span   Span    // its block's header
	Index  int     // in Run.Parts
	In     *Member // the run of an aircraft that it is of; nil elsewhere
	Motion Motion

	// Pivot is where it turns or, on a ball, tilts, as drawn; for a carried slide the
	// point that carries it.
	Pivot Vec
	// Axis has length 1. It is what a part turns about, and slides along where it does
	// both, and the direction of the bolts of a part that doesn't turn ([0, 0, 1] if left
	// out; SquareTo of a part that tilts or roams).
	Axis Vec
	// Slide is the direction of its guide, at length 1, for a part that slides.
	Slide Vec
	// SquareTo is the direction, as drawn and at length 1, by which a part that tilts or
	// roams is told to tilt, and the direction of its bolts; else the zero vector.
	SquareTo Vec
	// Carrier is the point of another part that carries it; nil where it is
	// on the airframe.
	Carrier *PointRef
	// NamedPivot is the point that the file names as pivot, which may be fixed;
	// nil where it gives numbers or none.
	NamedPivot *PointRef
	// Exact says that its coordinates are exact in a sketched run.
	Exact bool
	// Tolerance is how far its holes and its pivot may be out either way, and JointPlay
	// the diametral play of the joint that it turns or slides in, run units; nil: the run's.
	Tolerance, JointPlay *float64

	Points   []Point // points and arms
	Features []Feature
}

// Angular reports whether the part's travel is degrees, not a length. Of a
// part that floats, or slides on its axis too, its turn is meant.
func (p *Part) Angular() bool { return p.Motion != Fixed && p.Motion != Slides }

// Spatial reports whether the part may tilt any way, so that it is told where it stands by
// its tilt and not by one turn.
func (p *Part) Spatial() bool { return p.Motion == Tilts || p.Motion == Roams }

// HasPivot reports whether there is a place that the part turns or tilts about, its Pivot.
func (p *Part) HasPivot() bool {
	return p.Motion == Turns || p.Motion == Tilts || p.Motion == TurnsAndSlides
}

// OnAxis reports whether the part turns about an axis through its Pivot, sliding along it
// or not.
func (p *Part) OnAxis() bool { return p.Motion == Turns || p.Motion == TurnsAndSlides }

// Loose reports whether rods and joints alone hold the part, in the plane or in space.
func (p *Part) Loose() bool { return p.Motion == Floats || p.Motion == Roams }

// Point is a named hole or place of a part or rod.
type Point struct {
	Name string
	Span Span
	At   Vec  // as drawn
	Bolt *Vec // direction of the bolt there, length 1, as drawn; nil: as the part's axis
	// Arm says that it is measured from the pivot, with which it moves.
	Arm bool
	// offset is an arm from its pivot, polar how it is given where that is by distance
	// and angle.
	offset Vec
	polar  *polarPlace
}

// Shape is what a feature looks like.
type Shape int

// The shapes of features.
const (
	Round Shape = iota // a circle about At, seen end on
	Edge               // lines through points, round-ended
)

// Feature is metal of a part that can touch other metal.
type Feature struct {
	Name    string
	Span    Span
	Shape   Shape
	Through []Vec // the center of a round; the two or more points of an edge
	// Radius is a round's radius, and half the thickness of an edge.
	Radius float64
	// Bar says that an edge was given a diameter: it is as thick square to
	// the drawing as in it, so it may meet rods and other bars in space.
	Bar bool
	// Z is between which heights it lies; nil: it meets at any height.
	Z *[2]float64

	throughSpans []Span // where the points of an edge are written
}

// PointRef names a point of a part or of a rod: exactly one of Part and Rod
// is set.
type PointRef struct {
	Part  *Part
	Rod   *Rod
	Point int // in the Points of the part or rod
	Span  Span
}

// Owner returns the name of the part or rod that the point belongs to; "" where it
// names none.
func (r PointRef) Owner() string {
	switch {
	case r.Rod != nil:
		return r.Rod.Name
	case r.Part != nil:
		return r.Part.Name
	}
	return ""
}

// Get returns the point; nil where it names none.
func (r PointRef) Get() *Point {
	var points []Point
	switch {
	case r.Rod != nil:
		points = r.Rod.Points
	case r.Part != nil:
		points = r.Part.Points
	}
	if r.Point < 0 || r.Point >= len(points) {
		return nil
	}
	return &points[r.Point]
}

// String returns the point's name as written in the file: "part.point"; "" where it
// names none.
func (r PointRef) String() string {
	point := r.Get()
	if point == nil {
		return ""
	}
	return r.Owner() + "." + point.Name
}

// Rod joins two points with ball-jointed ends at a set distance.
type Rod struct {
	Name     string
	Span     Span
	Index    int     // in Run.Rods
	In       *Member // as of a Part
	From, To PointRef
	// Length is hole to hole as set: as drawn where the file doesn't say.
	Length float64
	// LengthGiven says that the file sets Length.
	LengthGiven bool
	LengthSpan  Span     // where Length is written; the rod's own where it is left out
	Drawn       float64  // distance of its ends as drawn
	Diameter    *float64 // full width, where it may touch other metal
	// Misalignment is the most that its ends may tilt, degrees; nil: not given.
	Misalignment *float64
	Points       []Point   // its own, as drawn
	Ends         []*RodEnd // its threaded ends: at most one a side
	// SecondPath says that it closes a loop that is closed already: it doesn't
	// drive, and is told what length it would need.
	SecondPath bool
	Play       float64 // each way, of a second path, run units
	// Tolerance is how far its set length may be out either way, and JointPlay the
	// diametral play of the joints at its ends, run units; nil: the run's.
	Tolerance, JointPlay *float64
}

// Control is what a hand or foot moves.
type Control struct {
	Name  string
	Span  Span
	Index int     // in Run.Controls
	In    *Member // as of a Part
	Of    *Part
	// From and To are explored, from neutral: degrees, or a length for a part
	// that slides. From <= 0 <= To.
	From, To float64
	Held     []float64 // at least one
	// Where Of, From, To and Held are written; the control's own Span where
	// they are left out.
	OfSpan, FromSpan, ToSpan, HeldSpan Span
	Plus, Minus                        string // words for its two sides; may be empty
	// Grip is where the hand or foot holds it; nil where the file doesn't say, and its
	// part has no point, or more than one, whose name says so.
	Grip *PointRef
	// Twist says which way its plus turns, seen from somewhere; nil where the file
	// doesn't.
	Twist *Twist
	// Detents are its notches, from neutral, as the file lists them; nil where it has
	// none.
	Detents []float64
}

// Twist is which way a control turns, as a person beside it sees it.
type Twist struct {
	SeenFrom  string // LittleFinger, Thumb, or a Direction: from that side
	Clockwise bool
	Span      Span // where the file says so
}

// From where a twist grip is seen: the hand on it has its little finger nearest to
// the pivot of the lever that carries it (common practice, no source).
const (
	LittleFinger = "the little finger"
	Thumb        = "the thumb"
)

// Output is what the run is there to move, as a gauge on it would read.
type Output struct {
	Name  string
	Span  Span
	Index int     // in Run.Outputs
	In    *Member // as of a Part
	// Of is a part (its turn or slide), or a point, then with Along, at
	// length 1. Exactly one of Part and Point is set.
	Part  *Part
	Point *PointRef
	Along Vec
	// Tilts is the direction, as drawn and at length 1, towards which a part that tilts or
	// roams is read; nil of any other output.
	Tilts *Vec
	// LeadingEdge is a point of the leading edge of a blade, whose pitch is then read plus
	// with the leading edge up; nil where the file doesn't say.
	LeadingEdge *PointRef
	Plus, Minus string
	Reads       float64 // what the gauge shows in the drawn position
	// SeenAt is where its motion is watched; nil as for Grip of a Control.
	SeenAt *PointRef
	// AgainstCarrier says that the turn of a carried part is read against its carrier,
	// not against the drawing.
	AgainstCarrier bool
}

// Angular reports whether the output's travel is degrees, not a length.
func (o *Output) Angular() bool { return o.Part != nil && o.Part.Angular() }

// Stop limits the run where one part reaches a number or two features touch.
type Stop struct {
	Name  string
	Span  Span
	Index int     // in Run.Stops
	In    *Member // as of a Part
	// Of is the part limited by number; nil for metal that touches.
	Of *Part
	At float64 // degrees or a length, from the drawn position
	// Side is "low" or "high" where the file says on which side At limits;
	// empty: by where At lies from neutral.
	Side  string
	Touch [2]FeatureRef // where Of is nil
	// Adjust is between which figures At may be set, by Step; nil: it may not.
	Adjust *[2]float64
	Step   float64
	// StepGiven says that the file gives the step.
	StepGiven bool
	// Tolerance is how far from At it may bite either way, in the unit of At; nil: the
	// run's.
	Tolerance *float64
	// Where Of and At are written; the stop's own Span for metal that touches.
	OfSpan, AtSpan Span
}

// FeatureRef names metal: a feature of a part, or a rod with a diameter.
// Exactly one of Part and Rod is set.
type FeatureRef struct {
	Part    *Part
	Feature int // in Part.Features
	Rod     *Rod
	Span    Span
}

// String returns the name as written in the file: "part.feature" or "rod"; "" where
// it names nothing.
func (r FeatureRef) String() string {
	switch {
	case r.Rod != nil:
		return r.Rod.Name
	case r.Part == nil || r.Feature < 0 || r.Feature >= len(r.Part.Features):
		return ""
	}
	return r.Part.Name + "." + r.Part.Features[r.Feature].Name
}

// Craft is a kind of aircraft, as far as rules tell them apart.
type Craft string

// The kinds of aircraft.
const (
	Airplane   Craft = "airplane"
	Rotorcraft Craft = "rotorcraft"
)
