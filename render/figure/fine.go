package figure

import (
	"math"
	"strconv"
	"strings"

	"fullfree/linkage"
)

// UpTo returns v with up to so many decimals, without zeros at its end.
func UpTo(v float64, decimals int) string {
	scale := math.Pow10(decimals)
	return Given(math.Round(v*scale)/scale, "")
}

// StopAt is where a stop is set: a length in inches as Exact, else with up to stopDecimals.
func StopAt(v float64, unit linkage.Unit) string {
	if unit == linkage.Inches {
		return Exact(v, unit)
	}
	return WithUnit(UpTo(v, stopDecimals), unit)
}

// stopDecimals is how many decimals where a stop is set is told with at most: it
// is set by steps that the file gives.
const stopDecimals = 4

// Calipers is a length of thread, or of a rod between its holes, as calipers
// read it: to 0.01 mm, or as Exact in inches.
func Calipers(v float64, unit linkage.Unit) string {
	if unit == linkage.Inches {
		return Exact(v, unit)
	}
	return WithUnit(CalipersNumber(v, unit), unit)
}

// CalipersLength is Calipers without the unit.
func CalipersLength(v float64, unit linkage.Unit) string {
	if unit == linkage.Inches {
		return ExactNumber(v, unit)
	}
	return CalipersNumber(v, unit)
}

// CalipersNumber is CalipersLength without a fraction beside it, for threads in a table.
func CalipersNumber(v float64, unit linkage.Unit) string { return Decimal(v, UsualDecimals(unit)+1) }

// FineNumber returns a number of a survey without its unit: to 0.1 mm or degree, or
// to 0.01 in, which 64ths would make coarse.
func FineNumber(v float64, unit linkage.Unit) string { return Decimal(v, UsualDecimals(unit)) }

// Fine is FineNumber with the unit.
func Fine(v float64, unit linkage.Unit) string { return WithUnit(FineNumber(v, unit), unit) }

// Small is Fine with as many decimals as it takes to be
// more than nothing.
func Small(v float64, unit linkage.Unit) string {
	if unit == linkage.Inches && Rounded(v, unit) != v {
		return decimalsToSee(v, unit)
	}
	return Readable(v, 0, unit)
}

// decimalsToSee returns a length in inches as a decimal, as calipers show it.
func decimalsToSee(v float64, unit linkage.Unit) string {
	for d := UsualDecimals(unit); d < mostDecimals; d++ {
		if text := Decimal(v, d); strings.Trim(text, "-0.") != "" {
			return WithUnit(text, unit)
		}
	}
	return WithUnit(Decimal(v, UsualDecimals(unit)), unit)
}

// Celsius is a temperature in degrees Celsius.
func Celsius(v float64) string { return Given(v, "") + " °C" }

// Exactly writes a number so that reading it gives the same.
func Exactly(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

// PartUnit is the unit of a part's travel.
func PartUnit(run *linkage.Run, part *linkage.Part) linkage.Unit {
	if part.Angular() {
		return linkage.Degrees
	}
	return run.UnitsOf(part.In)
}
