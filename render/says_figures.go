package render

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fullfree/linkage"
)

// mostDecimals is how many decimals a figure may be given so that it reads on
// the right side of its limit: closer than 1e-9 is beyond what package solve
// promises for the place of a worst value.
const mostDecimals = 9

// against returns v rounded for use, with as many more decimals as it takes
// to stand on the same side of the limit as v itself: 0.54 of 0.5 allowed
// never reads "0.5".
func against(v, limit float64, unit string) string {
	if side(rounded(v, unit), limit) == side(v, limit) {
		return Quantity(v, unit)
	}
	first := usualDecimals(unit) + 1
	for d := first; d <= mostDecimals; d++ {
		text := decimal(v, d)
		if shown, err := strconv.ParseFloat(text, 64); err == nil && side(shown, limit) == side(v, limit) {
			return withUnit(text, unit)
		}
	}
	return Quantity(v, unit)
}

// readable returns v as against does, and so that what isn't nothing doesn't
// read as nothing unless it is of no use to a builder.
func readable(v, limit float64, unit string) string {
	if rounded(v, unit) != 0 || math.Abs(v) < leastUsable {
		return against(v, limit, unit)
	}
	return against(v, 0, unit)
}

// leastUsable is the least that is told apart from nothing, in any unit: a
// hundredth of what Quantity rounds to.
const leastUsable = 1e-3

// ratio returns d(output)/d(control) to two decimals, or to three figures where
// it is small, as inches a degree are.
func ratio(v float64, unit string) string { return withUnit(ratioNumber(v), unit) }

func ratioNumber(v float64) string {
	const most = 5 // decimals; a ratio that needs more is as good as none
	decimals := ratioDecimals
	for size := math.Abs(v); decimals < most && size < 1; size = float64(size * 10) {
		decimals++
	}
	text := decimal(v, decimals)
	if strings.Trim(text, "-0.") == "" {
		return decimal(0, ratioDecimals)
	}
	return text
}

// given returns a number of the file as it was given: not rounded, and
// without decimals that it didn't have. Inches are told in fractions where
// they are 64ths. One that was reckoned and doesn't come out even (60/4.448) is
// rounded as far as it was meant.
func given(v float64, unit string) string {
	if unit == string(linkage.Inches) && rounded(v, unit) == v {
		return Quantity(v, unit)
	}
	text := strconv.FormatFloat(v, 'f', -1, 64)
	if figures := strings.TrimLeft(strings.Trim(strings.Replace(text, ".", "", 1), "-"), "0"); len(figures) > mostTyped {
		meant, err := strconv.ParseFloat(strconv.FormatFloat(v, 'g', mostMeant, 64), 64)
		if err == nil {
			text = strconv.FormatFloat(meant, 'f', -1, 64)
		}
	}
	if text == "-0" {
		text = "0"
	}
	return withUnit(text, unit)
}

const (
	// mostTyped is how many figures a number may have that somebody typed, or that
	// an even fraction comes to (7 + 5/128); what else is reckoned has some sixteen.
	mostTyped = 10
	// mostMeant is how many of a reckoned number are told: a part in a million.
	mostMeant = 6
)

// rounded returns the number that Quantity shows for v.
func rounded(v float64, unit string) float64 {
	if unit == string(linkage.Inches) {
		return math.Round(v*inchParts) / inchParts
	}
	if unit == "" && v == math.Trunc(v) {
		return v
	}
	shown, err := strconv.ParseFloat(decimal(v, usualDecimals(unit)), 64)
	if err != nil {
		return v
	}
	return shown
}

// usualDecimals is how many decimals Quantity gives a unit; for inches, whose
// 64ths are a little finer than two decimals, the two that come nearest.
func usualDecimals(unit string) int {
	switch unit {
	case "deg":
		return degreeDecimals
	case string(linkage.Millimeters):
		return millimeterDecimals
	case string(linkage.Inches):
		return 2
	case "N", "lbf":
		return forceDecimals
	}
	return ratioDecimals
}

// withUnit puts the unit behind a number in the way that Quantity does.
func withUnit(number, unit string) string {
	switch unit {
	case "":
		return number
	case "deg":
		return number + "°"
	}
	return number + " " + ratioUnit(unit)
}

// number returns v as Quantity does but without the unit, for a table whose
// heading gives it.
func number(v float64, unit string) string {
	switch unit {
	case string(linkage.Inches):
		return inches(v)
	case "":
		return Quantity(v, unit)
	}
	return decimal(v, usualDecimals(unit))
}

func side(v, limit float64) int {
	switch {
	case v < limit:
		return -1
	case v > limit:
		return 1
	}
	return 0
}

// list joins names as people do: "a, b and c".
func list(items []string) string {
	if len(items) < 2 {
		return strings.Join(items, "")
	}
	last := len(items) - 1
	return strings.Join(items[:last], ", ") + " and " + items[last]
}

// firstOf tells n things one by one, of more than so many the first, and how many
// more there are.
func firstOf(n, most int, tell func(i int) string) []string {
	var said []string
	for i := range min(n, most) {
		said = append(said, tell(i))
	}
	if n > most {
		said = append(said, fmt.Sprintf("%d more", n-most))
	}
	return said
}

// clean returns a text of the file, or its name, fit to print.
func clean(s string) string { return linkage.Printable(s) }
