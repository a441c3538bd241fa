package render

import (
	"fmt"
	"math"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
	"fullfree/render/figure"
	"fullfree/solve/photo"
)

// photoTroubles tell why places of a photograph can't be told.
var photoTroubles = map[photo.Reason]string{
	photo.NoSize:        "the photo has no size",
	photo.NotFinite:     "this is no number",
	photo.OutOfRange:    "this is not picked",
	photo.TooMany:       "this is more than can be adjusted at once",
	photo.OutsidePhoto:  "this lies beside the photo: pick it again",
	photo.NotPositive:   "this has to be more than 0",
	photo.TooFine:       "this is less or more than anything that is photographed so: look at the unit",
	photo.SamePlace:     "both ends are picked in one place, or nearly: take two that lie apart",
	photo.NothingScales: "nothing scales the photo",
	photo.TooNear:       "so near, this hole would stand at the camera: look at its depth, and at what was taped",
	photo.Disagrees:     "this doesn't go with the rest at all: measure it again, and look at its picks",
	photo.Unsettled:     "what was picked and taped doesn't go together at all: look at the picks and at each distance",
}

// PhotoTroubleSays tells why places of a photograph can't be told.
func PhotoTroubleSays(e *photo.Error) string {
	if e.Reason == photo.Disagrees && e.Of == photo.OfLevel {
		return "this doesn't go with the rest at all: gauge it again, look at its picks, and whether the photo is the right way up"
	}
	return photoTroubles[e.Reason]
}

// How a photograph is told.
const (
	// squareEnough is the tilt, degrees, from which it is worth taking the photo again: it
	// shortens by 1.5 %, and what isn't known of the tilt counts twice as much as at half of it.
	squareEnough = 10
	// mostlyLean is by how much more places are out by how the camera leaned than without it,
	// from which gauging a line is what helps most.
	mostlyLean = 1.5
	// hardlyTold is the share of the camera's distance within which it has to be known to be
	// told: half of it either way is no figure that anybody could go by.
	hardlyTold = 0.5
)

// PhotoSays tells what comes of places picked on a photograph, and what would make it better:
// how it stands in a word as SurveyMark's, and sentences. Lines name the distances, untold is
// how many holes are of a depth that isn't told, and away says that the camera's distance is.
func PhotoSays(p *photo.Places, unit linkage.Unit, lines []string, untold int, away bool) (mark string, said []string) {
	mark = "holds"
	for i := range p.Tapes {
		if t := &p.Tapes[i]; t.Doubtful && i < len(lines) {
			mark = "short"
			said = append(said, fmt.Sprintf("The distance %s disagrees with the rest by %s: tape it again, and look at both of its picks.", lines[i], figure.Small(math.Abs(t.Misclosure), unit)))
		}
	}
	for i := range p.Levels {
		if l := &p.Levels[i]; l.Doubtful {
			mark = "short"
			said = append(said, fmt.Sprintf("Level %d disagrees with the rest by %s: gauge it again, and look at both of its picks.", i+1, figure.Small(math.Abs(l.Misclosure), linkage.Degrees)))
		}
	}
	if p.AwayTold.Doubtful {
		mark = "short"
		said = append(said, "The camera's distance doesn't go with what was taped and picked: measure it again.")
	}
	said = append(said, fmt.Sprintf("Places are known to %s either way at worst, and none of them surely: it is a sketch to tape by.", uncertain(deviations*p.Largest, unit)))
	if len(p.Levels) == 0 {
		said = append(said, fmt.Sprintf("The camera is taken as held level, to %s either way.", figure.Given(photo.LeanWithin, linkage.Degrees)))
	}
	if len(p.Levels) == 0 && p.Largest > mostlyLean*p.LargestShape {
		said = append(said, fmt.Sprintf("Most of what isn't known is how it leaned: gauge one line between two picks, and it is %s.", uncertain(deviations*p.LargestShape, unit)))
	}
	said = append(said, tiltSays(p, len(lines)))
	if within := deviations * p.AwaySigma; within < hardlyTold*p.Away {
		decimals := coarse(within)
		away := figure.WithUnit(figure.Decimal(rounded(p.Away, decimals, math.Round), max(0, decimals)), unit)
		said = append(said, fmt.Sprintf("The camera was about %s away, to %s either way.", away, uncertain(within, unit)))
	}
	if !away {
		said = append(said, "Tell how far the camera was, and the depths count for less.")
	}
	if untold > 0 {
		by := float64(photo.DepthWithin)
		if unit == linkage.Inches {
			by = math.Round(by / millimetersPerInch)
		}
		said = append(said, fmt.Sprintf("Depth is not told of %s: up to %s nearer or farther counts for each.", figure.Count(untold, "hole"), figure.Given(by, unit)))
	}
	return mark, said
}

// tiltSays tells how far from square a photograph was taken, or what would tell it.
func tiltSays(p *photo.Places, lines int) string {
	within := figure.Quantity(2*p.TiltSigma, "deg")
	switch {
	case lines == 1:
		return "How far from square it was taken nothing tells yet: tape a second distance, in another direction."
	case p.OneDirection:
		return "All distances lie in about one direction, so nothing tells how far from square it was taken: tape one across."
	case !p.TiltTold:
		return "How far from square it was taken is hardly told: up to " + figure.Quantity(p.Tilt+2*p.TiltSigma, "deg") + " is allowed for. Four distances round the outside tell it best."
	case p.Tilt > squareEnough:
		return fmt.Sprintf("It was taken about %s from square, to %s either way: one taken squarer would tell more.", figure.Quantity(p.Tilt, "deg"), within)
	}
	return fmt.Sprintf("It was taken about %s from square, to %s either way, which is allowed for.", figure.Quantity(p.Tilt, "deg"), within)
}

// uncertain is how far something may be out, rounded up to the two digits that such a figure
// is good for.
func uncertain(v float64, unit linkage.Unit) string {
	decimals := coarse(v)
	return figure.WithUnit(figure.Decimal(rounded(v, decimals, math.Ceil), max(0, decimals)), unit)
}

// coarse is how many decimals the second digit of a figure has; less than 0 before the point.
func coarse(v float64) int {
	if !(v > 0) {
		return 0
	}
	return 1 - elementary.Decade(v)
}

// rounded is a figure to so many decimals.
func rounded(v float64, decimals int, round func(float64) float64) float64 {
	scale := 1.0
	const ten = 10
	for range decimals {
		scale = float64(scale * ten)
	}
	for range -decimals {
		scale /= ten
	}
	return round(float64(v*scale)) / scale
}

// RoughFigure is a coordinate as a sketch is good for, as a person would type it.
func RoughFigure(v float64, unit linkage.Unit) string { return figure.FineNumber(v, unit) }

// UpFigure is how far something may be out, rounded up.
func UpFigure(v float64, unit linkage.Unit) string {
	decimals := figure.UsualDecimals(unit)
	return figure.Decimal(rounded(v, decimals, math.Ceil), decimals)
}
