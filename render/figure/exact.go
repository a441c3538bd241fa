package figure

import (
	"math"

	"fullfree/linkage"
)

// Lengths in inches that are set or made are told as they must be typed to get them
// again: 7.693 in is no 7 11/16.
const (
	exactDecimals = 3      // what calipers read, and less than an end thread is set by
	exactWithin   = 0.0005 // in; as near as a thousandth tells, so that both name one length
)

// Exact returns a length that is set or made: in inches to a thousandth, and the nearest
// 1/64 behind it in brackets where it is that to within exactWithin ("21.969 in (21 31/32)");
// in any other unit as Quantity does.
func Exact(v float64, unit linkage.Unit) string {
	if unit != linkage.Inches {
		return Quantity(v, unit)
	}
	return WithUnit(Decimal(v, exactDecimals), unit) + fractionBeside(v)
}

// ExactNumber is Exact without the unit, for a table whose heading gives it, and for
// coordinates.
func ExactNumber(v float64, unit linkage.Unit) string {
	if unit != linkage.Inches {
		return Number(v, unit)
	}
	return Decimal(v, exactDecimals) + fractionBeside(v)
}

// Thousandths is ExactNumber without a fraction beside it: of a length that is compared
// with one that is set, and isn't set itself.
func Thousandths(v float64, unit linkage.Unit) string {
	if unit != linkage.Inches {
		return Number(v, unit)
	}
	return Decimal(v, exactDecimals)
}

// ExactGiven returns a setting of the file: a length in inches as Exact does, any other
// as it was given.
func ExactGiven(v float64, unit linkage.Unit) string {
	if unit != linkage.Inches {
		return Given(v, unit)
	}
	return Exact(v, unit)
}

// fractionBeside is the nearest 1/64 in brackets where a length in inches is that;
// empty where it is not, where it is whole inches, and of what is no number.
func fractionBeside(v float64) string {
	nearest := Rounded(v, linkage.Inches)
	if !(math.Abs(v-nearest) <= exactWithin) || nearest == math.Trunc(nearest) {
		return ""
	}
	return " (" + InchNumber(v) + ")"
}
