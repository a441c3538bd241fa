// Package figure puts quantities into text: rounded to what a builder can read
// and use, with their unit, inches as fractions; and the small things that stand
// beside figures in a sentence, such as names, counts and lists. It knows units,
// and never what a figure is of.
package figure

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fullfree/linkage"
)

// What a builder can use; full precision is in the machine-readable results.
const (
	degreeDecimals     = 1  // a protractor reads 0.1 degree at best
	millimeterDecimals = 1  // a rule or a caliper on a rod end: 0.1 mm
	InchParts          = 64 // the finest division of an inch rule
	forceDecimals      = 0  // 1 N or 1 lbf: a cable gauge reads no finer
	ratioDecimals      = 2  // 1 part in 100 of a ratio near 1
)

// Unknown stands for a number that isn't one. Package solve hands out none;
// this is only so that no text ever shows "NaN".
const Unknown = "?"

// Degrees returns an angle in degrees to 0.1, with its sign: "-24.0°".
func Degrees(v float64) string { return Decimal(v, degreeDecimals) + "°" }

// Length returns a length in the unit u with the unit behind it: to 0.1 mm
// ("184.0 mm"), or to 1/64 in as a mixed fraction ("7 1/4 in").
func Length(v float64, u linkage.Unit) string {
	if u == linkage.Inches {
		return InchNumber(v) + " in"
	}
	return Decimal(v, millimeterDecimals) + " " + string(u)
}

// Quantity returns v in any unit that results come in: "deg", "mm", "in",
// "N", "lbf", a ratio such as "mm/deg", or "" for a ratio of like units or a
// count. A whole number without a unit is shown without decimals.
func Quantity(v float64, unit linkage.Unit) string {
	switch unit {
	case "deg":
		return Degrees(v)
	case linkage.Millimeters, linkage.Inches:
		return Length(v, linkage.Unit(unit))
	case "N", "lbf":
		return Decimal(v, forceDecimals) + " " + string(unit)
	case "":
		if v == math.Trunc(v) && !math.IsInf(v, 0) {
			return Decimal(v, 0)
		}
		return Decimal(v, ratioDecimals)
	default:
		return Decimal(v, ratioDecimals) + " " + RatioUnit(unit)
	}
}

// RatioUnit puts a ratio's unit in words: "mm a degree".
func RatioUnit(unit linkage.Unit) string {
	over, under, ok := strings.Cut(string(unit), "/")
	if !ok {
		return string(unit)
	}
	switch over {
	case "deg":
		over = "degrees"
	case "lbf in":
		over = "in-lbf"
	}
	switch under {
	case "deg":
		return over + " a degree"
	case string(linkage.Inches):
		return over + " an inch"
	}
	return over + " a " + under
}

// Decimal returns v with a fixed number of decimals and never a negative zero.
func Decimal(v float64, decimals int) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return Unknown
	}
	s := strconv.FormatFloat(v, 'f', decimals, 64)
	if strings.Trim(s, "-0.") == "" {
		return strings.TrimPrefix(s, "-")
	}
	return s
}

// InchNumber returns v to the nearest 1/64 as a mixed fraction in lowest terms.
func InchNumber(v float64) string {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return Unknown
	}
	count := math.Round(math.Abs(v) * InchParts)
	whole := math.Floor(count / InchParts)
	above, below := int(count-whole*InchParts), InchParts
	for above > 0 && above%2 == 0 {
		above, below = above/2, below/2
	}
	text := ""
	switch {
	case above == 0:
		text = Decimal(whole, 0)
	case whole == 0:
		text = fmt.Sprintf("%d/%d", above, below)
	default:
		text = fmt.Sprintf("%s %d/%d", Decimal(whole, 0), above, below)
	}
	if v < 0 && count > 0 {
		return "-" + text
	}
	return text
}
