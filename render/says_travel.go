package render

import (
	"fmt"
	"math"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// gain tells, of a travel that falls short at a stop, what would bite next
// without the stop, and whether taking metal off it could be enough.
func (t telling) gain() string {
	end := t.end()
	if end < 0 || t.sweep.Ends[end].Cause != solve.ByStop {
		return ""
	}
	said := " " + nextSays(t.sweep, end)
	center := NextCenter(t.sweep, end)
	limit := t.sweep.Explored[end]
	if center != nil {
		limit = center.At
	}
	name, unit := t.Requirement.Of[0].Name(), t.sweep.Unit
	wanted, sign := t.Requirement.High, 1.0
	if t.End == "low" {
		wanted, sign = t.Requirement.Low, -1
	}
	enough, best, ok := t.onTo(limit, wanted, sign)
	switch {
	case ok && enough != nil:
		return said + fmt.Sprintf(" %s would get to %s if %s went on %s, to %s.", name, figure.Given(wanted, t.Unit), t.sweep.Control.Name,
			figure.Against(Outward(t.sweep, end, *enough), 0, unit), figure.Against(*enough, t.sweep.Ends[end].At, unit))
	case ok && center != nil:
		return said + fmt.Sprintf(" Taking metal off the stop gains no more than those %s: %s would get to %s there, no further.",
			figure.Against(center.Margin, 0, unit), name, figure.Against(best, wanted, t.Unit))
	case ok:
		return said + fmt.Sprintf(" As far as was looked, to %s, %s would get to %s.", figure.Quantity(limit, unit), name, figure.Against(best, wanted, t.Unit))
	case center != nil:
		return said + fmt.Sprintf(" Taking metal off the stop gains no more than those %s.", figure.Against(center.Margin, 0, unit))
	}
	return said
}

const (
	// gainSteps is in how many steps the way past a stop is looked at: fine
	// enough for what goes on center nowhere on it.
	gainSteps = 64
	// gainHalvings bring a step of it, at most a turn, to less than 1e-9 degree.
	gainHalvings = 40
)

// onTo looks from the end that the worst is at on to a limit: where what is
// judged first gets to the figure wanted (nil: nowhere), and how far it gets at
// best; upward where sign is +1. ok is false where there is no telling.
func (t telling) onTo(limit, wanted, sign float64) (enough *float64, best float64, ok bool) {
	low, step := *t.At, (limit-*t.At)/gainSteps
	best = t.Reaches
	for i := 1; i <= gainSteps; i++ {
		x := *t.At + float64(step*float64(i))
		reading, found := t.reading(x)
		if !found {
			return nil, 0, false
		}
		if sign*reading >= sign*wanted {
			for range gainHalvings {
				middle := (low + x) / 2
				if v, found := t.reading(middle); found && sign*v >= sign*wanted {
					x = middle
				} else {
					low = middle
				}
			}
			return &x, reading, true
		}
		low = x
		if sign*reading > sign*best {
			best = reading
		}
	}
	return nil, best, true
}

// reading is what is judged at a position of the control.
func (t telling) reading(x float64) (float64, bool) {
	pose, ok := t.sweep.At(x)
	if !ok {
		return 0, false
	}
	of := t.Requirement.Of[0]
	if of.Output != nil {
		return pose.Reading(of.Output), true
	}
	return pose.Travel(of.Part), true
}

// otherFigure tells that the figure at the other end is missed too.
func (t telling) otherFigure() string {
	least, most, ok := t.extent()
	if !ok {
		return ""
	}
	got, wanted, way, beyond := most, t.Requirement.High, "up to", most > t.Requirement.High
	if t.End == "high" {
		got, wanted, way, beyond = least, t.Requirement.Low, "down to", least < t.Requirement.Low
	}
	miss := math.Abs(got - wanted)
	if miss <= t.Requirement.Within {
		return ""
	}
	said := "stops " + figure.Readable(miss, t.Limit, t.Unit) + " short"
	if beyond {
		said = "goes " + figure.Readable(miss, t.Limit, t.Unit) + " too far"
	}
	return fmt.Sprintf(" The other way it %s as well: %s.", said, t.against(way, func(v, w float64) string { return figure.Against(v, w, t.Unit) }, got, wanted))
}

// extent is the least and most of what a travel is judged by, over its sweeps.
func (t telling) extent() (least, most float64, ok bool) {
	take := func(e solve.Extent) {
		if !ok {
			least, most, ok = e.Least, e.Most, true
		}
		least, most = math.Min(least, e.Least), math.Max(most, e.Most)
	}
	of := t.Requirement.Of[0]
	for _, c := range t.result.Run.Controls {
		for _, s := range t.concerned(c) {
			for _, o := range s.Outputs {
				if of.Output != nil && o.Output == of.Output {
					take(o.Extent)
				}
			}
			for _, p := range s.Parts {
				if of.Part != nil && p.Part == of.Part && (of.Part.Motion != linkage.Floats || p.Name == of.Part.Name+".turn") {
					take(p.Extent)
				}
			}
		}
	}
	return least, most, ok
}
