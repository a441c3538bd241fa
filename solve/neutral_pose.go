// Layer: verdict.

package solve

import (
	"math"

	"fullfree/linkage"
)

// NeutralPose is where a part, one freedom of a part that floats, or an output stands
// at neutral.
type NeutralPose struct {
	Name   string          // "rocker", "beam.turn", or the output's
	Part   *linkage.Part   // exactly one of Part and Output is set
	Output *linkage.Output // its At is off the reading in the drawn position
	Unit   linkage.Unit    // deg, or the run's unit
	At     float64         // from the drawn position
}

// Displaced is something that stands right at neutral as filed, and elsewhere in a
// setting.
type Displaced struct {
	NeutralPose         // as the setting has it
	Was         float64 // as filed
}

// StandsTurned, standsMillimeter and standsInch are how far from the drawn position a part still
// stands right at neutral: half of the 0.1 degree, 0.1 mm and 0.004 in that
// reports tell, below which nobody sets anything.
const (
	NeutralTurned     = 0.05  // degrees
	neutralMillimeter = 0.05  // mm
	neutralInch       = 0.002 // in
)

// standsWithin is how far from the drawn position something that is told in a
// unit stands right.
func neutralWithin(unit linkage.Unit) float64 {
	switch unit {
	case degrees:
		return NeutralTurned
	case linkage.Inches:
		return neutralInch
	}
	return neutralMillimeter
}

// NeutralStands lists where every part that can move stands at neutral, in the file's
// order, then every output; none of a mechanism that Compile didn't make.
func (m *Mechanism) NeutralPoses() (list []NeutralPose) {
	if !m.compiled() {
		return nil
	}
	p := m.newPath(m.run.Controls[0])
	p.solve(0, m.neutral.q)
	for _, part := range m.run.Parts {
		if part.Motion == linkage.Fixed {
			continue
		}
		for _, t := range m.tellings(part) {
			list = append(list, NeutralPose{Name: t.name, Part: part, Unit: t.k.unit, At: t.k.value(p)})
		}
	}
	for _, o := range m.run.Outputs {
		k := m.outputMeasure(o)
		list = append(list, NeutralPose{Name: o.Name, Output: o, Unit: k.unit, At: k.value(p) - o.Reads})
	}
	return list
}

// DisplacedOf are the stands that were right and are no more, with the parts and outputs
// of what they were. Both lists are NeutralStands, of a run and of one that was made from
// it with the same parts and outputs; where they aren't as long, nothing is displaced.
func DisplacedOf(was, stands []NeutralPose) (list []Displaced) {
	if len(was) != len(stands) {
		return nil
	}
	for i, s := range stands {
		if right := neutralWithin(s.Unit); math.Abs(was[i].At) <= right && math.Abs(s.At) > right {
			s.Part, s.Output = was[i].Part, was[i].Output // of the run as filed
			list = append(list, Displaced{s, was[i].At})
		}
	}
	return list
}

// NeutralMovedOf are the stands that were not right and are others now, both lists as in
// DisplacedOf.
func NeutralMovedOf(was, stands []NeutralPose) (list []Displaced) {
	if len(was) != len(stands) {
		return nil
	}
	for i, s := range stands {
		if right := neutralWithin(s.Unit); math.Abs(was[i].At) > right && math.Abs(s.At-was[i].At) > right {
			s.Part, s.Output = was[i].Part, was[i].Output // of the run as filed
			list = append(list, Displaced{s, was[i].At})
		}
	}
	return list
}

// MovedFrom is how far parts that stood right at neutral have moved, together, in
// radians, both lists as in DisplacedOf; what slides counts like the turn by which the far end of the run
// would go as far.
func (m *Mechanism) MovedFrom(was, stands []NeutralPose) (sum float64) {
	if !m.compiled() || len(was) != len(stands) {
		return 0
	}
	for i, s := range stands {
		if s.Part == nil || math.Abs(was[i].At) > neutralWithin(s.Unit) {
			continue
		}
		unit := degree
		if s.Unit != degrees {
			unit = 1 / m.size
		}
		sum += float64(math.Abs(s.At-was[i].At) * unit)
	}
	return sum
}
