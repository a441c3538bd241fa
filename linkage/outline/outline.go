// Package outline is a run of one's own as a form holds it, before there is a file: what is
// fixed, parts and what each turns on, holes, rods, what moves it and which way, and what
// was taped. Write makes the text of a file of it, and Read takes a text that Write made
// apart again, so that the file is all that is kept.
//
// Figures are as a person types them (linkage.Entry). It knows how a file is written, and
// nothing of how a run moves, of pages, or of where its places come from.
package outline

import "fullfree/linkage"

// Outline is a run as a form holds it. What is empty is not told yet.
type Outline struct {
	Title string       `json:"title"`
	Units linkage.Unit `json:"units"`
	View  View         `json:"view"`
	// Sketch is how far places may be out, one standard deviation; empty: Roughly.
	Sketch string `json:"sketch"`
	// Uncertain is the same of places picked on a photograph, two standard deviations.
	Uncertain string `json:"uncertain"`
	// Datum is the airframe place that everything is told from; empty: the first.
	Datum    string  `json:"datum"`
	Airframe []Place `json:"airframe"`
	Parts    []Part  `json:"parts"`
	Rods     []Rod   `json:"rods"`
	Control  Control `json:"control"`
	Output   Output  `json:"output"`
	Sense    Sense   `json:"sense"`
}

// Size is how many things it has.
func (o *Outline) Size() int {
	n := len(o.Airframe) + len(o.Parts) + len(o.Rods)
	for i := range o.Parts {
		n += len(o.Parts[i].Holes)
	}
	return n
}

// Place is a hole, a pivot or another place, x and y as on the drawing; both empty: it is
// not placed yet. Z is out of the drawing, towards who looks.
type Place struct {
	Name string `json:"name"`
	X    string `json:"x"`
	Y    string `json:"y"`
	Z    string `json:"z"`
}

// Placed says that it is placed.
func (p *Place) Placed() bool { return p.X != "" && p.Y != "" }

// Part is a rigid piece.
type Part struct {
	Name string `json:"name"`
	Kind Kind   `json:"kind"`
	// On is the place that it turns on, or that carries its guide: "airframe.shaft" or
	// "rocker.upper". A guide on the airframe has none, and nor has a part that is held.
	On    string  `json:"on"`
	Angle string  `json:"angle"` // of its guide, degrees anticlockwise from level
	Holes []Place `json:"holes"`
}

// Kind is how a part is held.
type Kind string

// The kinds of part.
const (
	Turns  Kind = "turns"
	Slides Kind = "slides"
	Held   Kind = "held" // by its rods alone
)

// Rod goes from hole to hole, "lever.horn".
type Rod struct {
	Name string `json:"name"`
	From string `json:"from"`
	To   string `json:"to"`
}

// Control is what a hand or foot moves. Low and High are its stops, from neutral.
type Control struct {
	Name  string `json:"name"`
	Of    string `json:"of"`
	Plus  string `json:"plus"`
	Minus string `json:"minus"`
	Low   string `json:"low"`
	High  string `json:"high"`
}

// Output is what the run is there to move. Low and High are what it is to reach.
type Output struct {
	Name   string `json:"name"`
	Of     string `json:"of"`
	Plus   string `json:"plus"`
	Minus  string `json:"minus"`
	Low    string `json:"low"`
	High   string `json:"high"`
	Within string `json:"within"`
}

// Sense is which way a place is to go as another one goes.
type Sense struct {
	Place string            `json:"place"`
	Goes  linkage.Direction `json:"goes"`
	Then  string            `json:"then"`
	Is    linkage.Direction `json:"is"`
}

// Entry is something taped or gauged, or to be.
type Entry struct {
	Kind   linkage.MeasurementKind `json:"kind"`
	From   string                  `json:"from"`
	To     string                  `json:"to"`
	Is     string                  `json:"is"`     // empty: blank
	Within string                  `json:"within"` // empty: what a tape or level reads to with care
}

// Same says that two entries are of the same line, whichever end each begins at.
func (e Entry) Same(other Entry) bool {
	return e.Kind == other.Kind && (e.From == other.From && e.To == other.To ||
		e.Kind == linkage.Taped && e.From == other.To && e.To == other.From)
}

// View is the side from which a run is drawn.
type View string

// The views.
const (
	FromLeft   View = "left"
	FromRight  View = "right"
	FromAbove  View = "above"
	FromBehind View = "behind"
	FromFront  View = "front"
)

// sight is how the aircraft lies in a view.
type sight struct {
	view         View
	words        string
	first, other axis
}

// axis is a direction of the aircraft in a drawing.
type axis struct {
	name string
	x, y int
}

var sights = []sight{
	{FromLeft, "from the left side, nose to the left", axis{"forward", -1, 0}, axis{"up", 0, 1}},
	{FromRight, "from the right side, nose to the right", axis{"forward", 1, 0}, axis{"up", 0, 1}},
	{FromAbove, "from above, nose up the page", axis{"forward", 0, 1}, axis{"right", 1, 0}},
	{FromBehind, "from behind, looking forward", axis{"right", 1, 0}, axis{"up", 0, 1}},
	{FromFront, "from the front, looking aft", axis{"right", -1, 0}, axis{"up", 0, 1}},
}

// Roughly is what a sketch by eye is good for, a hand's width of an airframe: how far places
// may be out, one standard deviation.
func Roughly(u linkage.Unit) string {
	if u == linkage.Inches {
		return "1.2"
	}
	return "30"
}

// UsualWithin is what a tape reads to at a hole's center with care, or an inclinometer on two
// bolts, degrees: two standard deviations (common practice, no source).
func UsualWithin(kind linkage.MeasurementKind, u linkage.Unit) string {
	switch {
	case kind == linkage.Gauged:
		return "0.5"
	case u == linkage.Inches:
		return "0.04"
	}
	return "1"
}

// Fault is something that can't be written as it is, at its field: "parts.0.holes.1.x";
// an empty field is the whole.
type Fault struct {
	At   string `json:"at"`
	Says string `json:"says"`
}
