package linkage

import (
	"errors"
	"math"
	"slices"
)

// SetNumber makes a number another, as a Setting would, what is mirrored from it too.
// Of one that Rereads it refuses.
func SetNumber(n Number, value float64) Edit {
	return Edit{apply: func(e *editor) {
		e.setNumber(n, value)
		for _, image := range n.images {
			e.setNumber(image.number, float64(image.sign*value))
		}
	}}
}

func (e *editor) setNumber(n Number, value float64) {
	switch {
	case n.reread:
		e.refuse("%s is known to the file alone: it is to be read with another one", shortName(n.name))
	case n.dimension != nil:
		e.set(*n.dimension, func(float64) float64 { return value })
	case n.stop != nil:
		SetStop(n.stop, value).apply(e)
	case n.rod != nil:
		if own := e.run.Rod(n.rod); own == nil {
			e.refuse("the run hasn't got a rod whose diameter is to be set")
		} else if e.thickEnough(n, value) {
			own.Diameter = &value
		}
	case n.metal != nil:
		e.setMetal(n, value)
	default:
		e.refuse("there is no number that is to be set")
	}
}

// thickEnough refuses what no thickness can be.
func (e *editor) thickEnough(n Number, value float64) bool {
	if e.measurable(value, n) && value >= 0 {
		return true
	}
	e.refuse("%s can't be %s: it is 0 or more", shortName(n.name), plain(value))
	return false
}

// setMetal changes metal, which is shared with other runs until then.
func (e *editor) setMetal(n Number, value float64) {
	p := e.run.Part(n.metal.part)
	if p == nil || n.metal.feature >= len(p.Features) || n.metal.place >= len(p.Features[n.metal.feature].Through) {
		e.refuse("the run hasn't got metal that is to be changed")
		return
	}
	if n.metal.place < 0 && !e.thickEnough(n, value) || !e.measurable(value, n) {
		return
	}
	p.Features = slices.Clone(p.Features)
	f := &p.Features[n.metal.feature]
	f.Through = slices.Clone(f.Through)
	if f.Shape == Edge && n.metal.place < 0 {
		value /= 2
	}
	*n.metal.at(f) = value
}

// Metal tells of a number of metal the part that it is of, the feature in the part's
// Features, and the place in the feature's Through, -1 where it is how thick that is; a
// nil part where it is none.
func (n Number) Metal() (part *Part, feature, place, axis int) {
	if n.metal == nil {
		return nil, 0, 0, 0
	}
	return n.metal.part, n.metal.feature, n.metal.place, n.metal.axis
}

// DiameterOf is the rod whose diameter it is; nil where it is none.
func (n Number) DiameterOf() *Rod { return n.rod }

// Images are the numbers that are mirrored from it, each always its value times a sign.
func (n Number) Images() (numbers []Number, signs []float64) {
	for _, k := range n.images {
		numbers, signs = append(numbers, k.number), append(signs, k.sign)
	}
	return numbers, signs
}

// Reread returns the run of the same file with some more of its numbers set, which only
// its file knows all that follows from (Number.Rereads). The error is *Faults, or of a
// run that was not read from a file, or is a sketch, whose places were put elsewhere
// since.
func (run *Run) Reread(set ...Setting) (*Run, error) {
	if run == nil || run.Source == nil || len(run.Source.Text) == 0 {
		return nil, errors.New("there is no file to be read with another number in it")
	}
	all := slices.DeleteFunc(slices.Clone(run.written.set), func(was Setting) bool {
		return slices.ContainsFunc(set, func(s Setting) bool { return s.Dimension == was.Dimension })
	})
	return Read(run.Source, append(all, set...)...)
}

// sameNumber reports whether two numbers are the same to the last digit told.
func sameNumber(a, b float64) bool {
	return math.Abs(a-b) <= float64(numberNoise*math.Max(1, math.Max(math.Abs(a), math.Abs(b))))
}

// numberNoise is the share up to which numbers count as the same: a few roundings.
const numberNoise = 1e-14
