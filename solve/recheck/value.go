package recheck

import (
	"math"

	"fullfree/linkage"
)

// Value is what a file says of one thing: a number with its unit, or words.
type Value struct {
	Number   float64
	Unit     linkage.Unit
	IsNumber bool
	Words    string // where it is no number
	// given is the number by which it is compared: of an arm that from its pivot, which
	// stays when the pivot moves.
	given float64
}

func number(v float64, unit linkage.Unit) Value {
	return Value{Number: v, Unit: unit, IsNumber: true, given: v}
}

func words(s string) Value { return Value{Words: s} }

// unitNoise is the share by which one number told in two units may differ: what the
// conversion rounds off (an inch is 25.4 mm exactly).
const unitNoise = 1e-12

// same reports whether two values are one, told in whatever unit.
func (v Value) same(w Value) bool {
	if v.IsNumber != w.IsNumber || v.Words != w.Words {
		return false
	}
	if !v.IsNumber || v.Unit == w.Unit {
		return v.given == w.given
	}
	there, ok := convert(v.given, v.Unit, w.Unit)
	return ok && math.Abs(there-w.given) <= unitNoise*math.Max(math.Abs(there), math.Abs(w.given))
}

// The metric measures of an inch and of a pound-force: exact by definition.
const (
	millimetersInch = 25.4
	newtonsPound    = 4.4482216152605
)

// metric is how many of a metric unit one of a unit is, and which.
func metric(unit linkage.Unit) (scale float64, of linkage.Unit) {
	switch unit {
	case linkage.Inches:
		return millimetersInch, linkage.Millimeters
	case linkage.PoundsForce:
		return newtonsPound, linkage.Newtons
	case perLength(linkage.Inches):
		return newtonsPound / millimetersInch, perLength(linkage.Millimeters)
	}
	return 1, unit
}

// perLength is the unit of a stiffness in a run of a unit.
func perLength(units linkage.Unit) linkage.Unit { return units.ForceUnit() + "/" + units }

// convert tells a number in another unit; false where the two measure different things.
func convert(v float64, from, to linkage.Unit) (float64, bool) {
	if from == to {
		return v, true
	}
	a, of := metric(from)
	b, other := metric(to)
	return v * a / b, of == other
}
