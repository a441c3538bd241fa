package figure

import (
	"math"
	"strconv"
	"strings"

	"fullfree/linkage"
)

// mostDecimals is how many decimals a figure may be given so that it reads on
// the right side of its limit: closer than 1e-9 is beyond what package solve
// promises for the place of a worst value.
const mostDecimals = 9

// Against returns v rounded for use, with as many more decimals as it takes
// to stand on the same side of the limit as v itself: 0.54 of 0.5 allowed
// never reads "0.5".
func Against(v, limit float64, unit linkage.Unit) string {
	if side(Rounded(v, unit), limit) == side(v, limit) {
		return Quantity(v, unit)
	}
	first := UsualDecimals(unit) + 1
	for d := first; d <= mostDecimals; d++ {
		text := Decimal(v, d)
		if shown, err := strconv.ParseFloat(text, 64); err == nil && side(shown, limit) == side(v, limit) {
			return WithUnit(text, unit)
		}
	}
	return Quantity(v, unit)
}

// Readable returns v as Against does, and so that what isn't nothing doesn't
// read as nothing unless it is of no use to a builder.
func Readable(v, limit float64, unit linkage.Unit) string {
	if Rounded(v, unit) != 0 || math.Abs(v) < LeastUsable {
		return Against(v, limit, unit)
	}
	return Against(v, 0, unit)
}

// LeastUsable is the least that is told apart from nothing, in any unit: a
// hundredth of what Quantity rounds to.
const LeastUsable = 1e-3

// Ratio returns d(output)/d(control) to two decimals, or to three figures where
// it is small, as inches a degree are.
func Ratio(v float64, unit linkage.Unit) string { return WithUnit(RatioNumber(v), unit) }

// leastUnmeasured is from what size on a ratio has no meaning: no control run has one of
// a hundredth of it, and beside where a part is on center any number comes out.
const leastUnmeasured = 1000

// BeyondMeasure is told in place of a figure without meaning.
const BeyondMeasure = "beyond measure"

// RatioNumber is Ratio without the unit.
func RatioNumber(v float64) string {
	if math.Abs(v) >= leastUnmeasured {
		return BeyondMeasure
	}
	text := Decimal(v, RatioDecimals(v))
	if strings.Trim(text, "-0.") == "" {
		return Decimal(0, ratioDecimals)
	}
	return text
}

// RatioDecimals returns how many decimals Ratio gives, as far as they are of
// use.
func RatioDecimals(v float64) int {
	const most = 5 // a ratio that needs more is as good as none
	decimals := ratioDecimals
	for size := math.Abs(v); decimals < most && size < 1; size = float64(size * 10) {
		decimals++
	}
	return decimals
}

// Given returns a number of the file as it was given: not rounded, and
// without decimals that it didn't have. Inches are told in fractions where
// they are 64ths. One that was reckoned and doesn't come out even (60/4.448) is
// rounded as far as it was meant.
func Given(v float64, unit linkage.Unit) string {
	if unit == linkage.Inches && Rounded(v, unit) == v {
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
	return WithUnit(text, unit)
}

const (
	// mostTyped is how many figures a number may have that somebody typed, or that
	// an even fraction comes to (7 + 5/128); what else is reckoned has some sixteen.
	mostTyped = 10
	// mostMeant is how many of a reckoned number are told: a part in a million.
	mostMeant = 6
)

// Rounded returns the number that Quantity shows for v.
func Rounded(v float64, unit linkage.Unit) float64 {
	if unit == linkage.Inches {
		return math.Round(v*InchParts) / InchParts
	}
	if unit == "" && v == math.Trunc(v) {
		return v
	}
	shown, err := strconv.ParseFloat(Decimal(v, UsualDecimals(unit)), 64)
	if err != nil {
		return v
	}
	return shown
}

// UsualDecimals is how many decimals Quantity gives a unit; for inches, whose
// 64ths are a little finer than two decimals, the two that come nearest.
func UsualDecimals(unit linkage.Unit) int {
	switch unit {
	case "deg":
		return degreeDecimals
	case linkage.Millimeters:
		return millimeterDecimals
	case linkage.Inches:
		return 2
	case "N", "lbf":
		return forceDecimals
	}
	return ratioDecimals
}

// WithUnit puts the unit behind a number in the way that Quantity does.
func WithUnit(number string, unit linkage.Unit) string {
	if number == BeyondMeasure {
		return number
	}
	switch unit {
	case "":
		return number
	case "deg":
		return number + "°"
	}
	return number + " " + RatioUnit(unit)
}

// Number returns v as Quantity does but without the unit, for a table whose
// heading gives it.
func Number(v float64, unit linkage.Unit) string {
	switch unit {
	case linkage.Inches:
		return InchNumber(v)
	case "":
		return Quantity(v, unit)
	}
	return Decimal(v, UsualDecimals(unit))
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
