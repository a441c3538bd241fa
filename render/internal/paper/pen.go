package paper

import (
	"math"
	"strconv"
	"strings"
)

// Pen is a kind of line. Line types as in ISO 128-2 (from memory); lengths of
// dashes are the drawing's own, for a sheet read on a phone.
type Pen struct {
	Width float64
	Dash  string // as in SVG; empty: continuous
	Round bool   // round ends and corners
	Ink   string // of the line; empty: black
	Fill  string // empty: none
	// Weight is how much a label dislikes lying on it, for each unit of its
	// length.
	Weight float64
}

// The dashes and the widths of lines, in sheet units.
const (
	EndDash     = "17 3 4.5 3 4.5 3" // long dash, two short dashes: extreme positions
	BetweenDash = "6 2.5"            // dashes: positions between
	CenterDash  = "14 2.5 3 2.5"     // chain: centers and guides
	BeyondDash  = "1.5 3"            // dots: beyond the travel
	ThickWidth  = 1.9
	ThinWidth   = 0.9
	FineWidth   = 0.7
)

// The pens of a shop drawing.
var (
	PenThick   = Pen{Width: ThickWidth, Round: true, Weight: 3}
	PenRod     = Pen{Width: 2.6, Round: true, Weight: 3}
	PenFace    = Pen{Width: 4, Weight: 4}
	PenHole    = Pen{Width: 1.4, Fill: WhiteFill, Weight: 3}
	PenPivot   = Pen{Width: ThickWidth, Fill: WhiteFill, Weight: 3}
	PenSolid   = Pen{Width: FineWidth, Fill: "#000", Round: true, Weight: 3}
	PenThin    = Pen{Width: ThinWidth, Round: true, Weight: 1.6}
	PenEnd     = Pen{Width: ThinWidth, Dash: EndDash, Weight: 1.2}
	PenBetween = Pen{Width: ThinWidth, Dash: BetweenDash, Weight: 1.2}
	PenCenter  = Pen{Width: FineWidth, Dash: CenterDash, Weight: 0.3}
	PenBeyond  = Pen{Width: ThinWidth, Dash: BeyondDash, Weight: 0.4}
	PenLeader  = Pen{Width: FineWidth, Weight: 1.2}
	PenBalloon = Pen{Width: ThinWidth, Fill: WhiteFill}
	PenFrame   = Pen{Width: 1.4}
	PenRule    = Pen{Width: FineWidth}
)

// WhiteFill is the paper; HatchFill stands for the hatching, whose id differs
// from picture to picture.
const (
	WhiteFill = "#fff"
	HatchFill = "hatching"
)

// MetalPens returns two pens that, one after the other along the middle of a
// piece of metal, show its outline and fill its inside.
func MetalPens(width float64, outline Pen, inside string) (edge, filling Pen) {
	edge = outline
	edge.Width, edge.Round = width+outline.Width, true
	return edge, Pen{Width: math.Max(width-outline.Width, 0), Round: true, Ink: inside}
}

// PenAttrs returns a pen as attributes.
func PenAttrs(p Pen, w *SVG, hatch string) []string {
	paint := func(color, left string) string {
		switch color {
		case "":
			return left
		case HatchFill:
			return "url(#" + hatch + ")"
		}
		return color
	}
	attrs := []string{Attr("fill", paint(p.Fill, "none")), Attr("stroke", paint(p.Ink, "#000")), Attr("stroke-width", w.Digits(p.Width))}
	if p.Dash != "" {
		attrs = append(attrs, Attr("stroke-dasharray", p.Dash))
	}
	if p.Round {
		attrs = append(attrs, Attr("stroke-linecap", "round"), Attr("stroke-linejoin", "round"))
	}
	return attrs
}

// Scaled returns the pen in another unit.
func (p Pen) Scaled(k float64) Pen {
	p.Width = float64(p.Width * k)
	var dashes []string
	for _, dash := range strings.Fields(p.Dash) {
		if v, err := strconv.ParseFloat(dash, 64); err == nil {
			dashes = append(dashes, strconv.FormatFloat(float64(v*k), 'f', -1, 64))
		}
	}
	p.Dash = strings.Join(dashes, " ")
	return p
}

// BarLeast is how wide metal must come out, in sheet units, to be drawn with both
// its edges: narrower metal is drawn as one line.
const BarLeast = 4.0
