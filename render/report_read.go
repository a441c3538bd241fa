package render

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
	"fullfree/render/figure"
	"fullfree/solve"
)

// SquareToDrawing is how near to 1 the share of an axis along z must be, for
// the axis to be told as square to the drawing: a thousandth of a degree.
const SquareToDrawing = 1e-9

// reportRead tells every part as it was read, so that a point given as an arm,
// an angle in radians or a wrong carrier shows: on what it turns or slides, and
// where its holes are from there.
func reportRead(p *page, r *solve.Result) {
	p.line("AS READ")
	reportParts(p, r)
	p.blank()
}

// reportParts is what reportRead tells under its heading.
func reportParts(p *page, r *solve.Result) {
	p.text("  ", "  ", "(holes from what their part turns on: distance, and angle from level, anticlockwise; of a part without a pivot where they are on the drawing)")
	width := 0
	for _, part := range r.Run.Parts {
		for _, hole := range part.Points {
			width = max(width, min(labelWidth, utf8.RuneCountInString(hole.Name)))
		}
	}
	for _, part := range r.Run.Parts {
		p.text("  ", "    ", part.Name+" "+partRead(r.Run, part))
		for _, hole := range part.Points {
			name := hole.Name + spaces(width-utf8.RuneCountInString(hole.Name))
			p.text("    "+name+" ", "      ", holeRead(r.Run, part, hole.At))
		}
	}
	reportCablesRead(p, r.Run)
}

// partRead tells on what a part turns or slides.
func partRead(run *linkage.Run, part *linkage.Part) string {
	on := "the airframe at " + coordinates(run, part.Pivot)
	switch {
	case part.Carrier != nil:
		on = fmt.Sprintf("%s, carried by it, at %s", part.Carrier, coordinates(run, part.Pivot))
	case part.NamedPivot != nil:
		on = fmt.Sprintf("%s at %s", part.NamedPivot, coordinates(run, part.Pivot))
	}
	switch part.Motion {
	case linkage.Turns:
		said := "turns on " + on
		if !squareOn(part) {
			said += ", about " + direction(part.Axis)
		}
		return said
	case linkage.Slides:
		said := "slides along " + direction(part.Slide)
		if part.Carrier != nil {
			said += " on " + on
		}
		return said
	case linkage.Floats:
		return "floats, held by rods alone"
	case linkage.Roams:
		return "floats in space, held by rods and joints alone" + squareRead(part)
	case linkage.Tilts:
		return "turns any way on a ball on " + on + squareRead(part)
	case linkage.TurnsAndSlides:
		return "turns on " + on + ", about " + direction(part.Axis) + ", and slides along that"
	}
	return "is fixed"
}

// squareRead tells by what direction the tilt of a part is told.
func squareRead(part *linkage.Part) string { return ", its tilt told by " + direction(part.SquareTo) }

// squareOn says whether a part turns square to the drawing, anticlockwise
// where positive.
func squareOn(part *linkage.Part) bool { return part.Axis.Z > 1-SquareToDrawing }

// holeRead tells where a hole of a part is.
func holeRead(run *linkage.Run, part *linkage.Part, at linkage.Vec) string {
	if part.Motion != linkage.Turns {
		return "at " + coordinates(run, at)
	}
	from := at.Sub(part.Pivot)
	if !squareOn(part) {
		off := from.Sub(part.Axis.Scale(from.Dot(part.Axis))).Norm()
		return fmt.Sprintf("%s off its axis, at %s", figure.Exact(off, run.Units), coordinates(run, at))
	}
	height := ""
	if from.Z != 0 {
		height = ", " + figure.Exact(math.Abs(from.Z), run.Units) + " " + sided(from.Z, "nearer to you", "farther from you")
	}
	if from.X == 0 && from.Y == 0 {
		return "on its axis" + height
	}
	angle := elementary.Atan2(from.Y, from.X) * 180 / math.Pi
	return fmt.Sprintf("%s at %s%s", figure.Exact(elementary.Hypot(from.X, from.Y), run.Units), figure.Degrees(angle), height)
}

func sided(v float64, plus, minus string) string {
	if v < 0 {
		return minus
	}
	return plus
}

// coordinates tells a place as the file writes it, rounded for use; in a run
// in space, or out of the drawing, with its height.
func coordinates(run *linkage.Run, at linkage.Vec) string {
	said := []string{figure.ExactNumber(at.X, run.Units), figure.ExactNumber(at.Y, run.Units)}
	if !run.Plane || at.Z != 0 {
		said = append(said, figure.ExactNumber(at.Z, run.Units))
	}
	return "[" + strings.Join(said, ", ") + "]"
}

// direction tells a direction by its three parts, at length 1.
func direction(v linkage.Vec) string {
	const decimals = 3 // 0.06 degree
	var said []string
	for _, c := range []float64{v.X, v.Y, v.Z} {
		shown, err := strconv.ParseFloat(figure.Decimal(c, decimals), 64)
		if err != nil {
			return figure.Unknown
		}
		said = append(said, strconv.FormatFloat(shown, 'f', -1, 64))
	}
	return "[" + strings.Join(said, ", ") + "]"
}
