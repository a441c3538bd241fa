package find

import (
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/solve"
)

// axis is one thing that varies. Its coordinate is a value between low and high where it
// may be any, and the number of a choice, from 0 on, otherwise.
type axis struct {
	vary *linkage.Vary // exactly one of vary and end is set
	end  *linkage.RodEnd
	// among are the values of the choices where these are listed.
	among [][]float64
	// low, high and step are those of a range; step 0: any value.
	low, high, step float64
	count           int // of choices; 0: any value
	filed           []float64
	// filedAt is the coordinate of what is filed; NaN where that is no choice.
	filedAt float64
}

// furthestIn is by how many turns an end without a most goes in, as in package rig.
const furthestIn = 10

// stepNoise is the part of a step by which a range may end beside one and still hold it.
const stepNoise = 1e-9

func newAxis(v *linkage.Vary) axis {
	a := axis{vary: v, filed: v.Filed(), among: v.Among, low: v.Low, high: v.High, step: v.Step, filedAt: math.NaN()}
	switch {
	case a.among != nil:
		a.count = len(a.among)
		if i := slices.IndexFunc(a.among, func(values []float64) bool { return slices.EqualFunc(values, a.filed, a.same) }); i >= 0 {
			a.filedAt = float64(i)
		}
	case a.step > 0:
		a.countSteps()
	case a.filed[0] >= a.low && a.filed[0] <= a.high:
		a.filedAt = a.filed[0]
	}
	return a
}

// mostChoices bounds the steps of a range, so that they can be counted.
const mostChoices = 1 << 40

// countSteps makes choices of the steps of a range.
func (a *axis) countSteps() {
	a.count = 1 + int(math.Min(mostChoices, math.Floor((a.high-a.low)/a.step+stepNoise)))
	if k := math.Round((a.filed[0] - a.low) / a.step); k >= 0 && k < float64(a.count) && a.same(a.valueOf(k), a.filed[0]) {
		a.filedAt = k
	}
}

// newTurns is the axis of a rod end; ok is false where it can't be turned.
func newTurns(e *linkage.RodEnd) (a axis, ok bool) {
	low, high := turnsOf(e)
	a = axis{end: e, filed: []float64{0}, step: e.Step, low: low, high: high}
	if !(a.low < a.high) || math.Abs(e.PerTurn()) <= stepNoise*e.Thread.Pitch {
		return a, false
	}
	if a.step == 0 {
		return a, a.low <= 0 && a.high >= 0
	}
	a.low = float64(a.step * math.Ceil(a.low/a.step-stepNoise))
	if a.low > a.high {
		return a, false
	}
	a.filedAt = math.NaN()
	a.countSteps()
	return a, a.count > 1
}

// turnsOf is between which turns out an end may be set by the thread that there is.
func turnsOf(e *linkage.RodEnd) (low, high float64) { return solve.TurnRange(e, furthestIn) }

// same reports whether two values are one, to what rounding leaves.
func (a *axis) same(x, y float64) bool {
	return math.Abs(x-y) <= float64(stepNoise*math.Max(a.step, 1e-3*math.Max(math.Abs(x), math.Abs(y))))
}

// any reports whether it may take any value.
func (a *axis) any() bool { return a.count == 0 }

// ordered reports whether neighboring choices are neighboring values.
func (a *axis) ordered() bool { return a.among == nil }

// first and last are the ends of its coordinate.
func (a *axis) first() float64 {
	if a.any() {
		return a.low
	}
	return 0
}

func (a *axis) last() float64 {
	if a.any() {
		return a.high
	}
	return float64(a.count - 1)
}

// span is how far its values go.
func (a *axis) span() float64 { return a.valueOf(a.last()) - a.valueOf(a.first()) }

// between reports whether a coordinate lies between choices: no setting that there is, but
// one on the way to those beside it.
func (a *axis) between(x float64) bool { return !a.any() && x != math.Trunc(x) }

// valueOf is the value of a coordinate of a range.
func (a *axis) valueOf(x float64) float64 {
	if a.any() {
		return x
	}
	return a.low + float64(x*a.step)
}

// values are what a coordinate stands for, in the unit of each number. What is as filed
// is the file's to the last digit.
func (a *axis) values(x float64) []float64 {
	switch {
	case x == a.filedAt:
		return a.filed
	case a.among != nil:
		return a.among[int(x)]
	}
	return []float64{a.valueOf(x)}
}

// away is how far a coordinate is from as filed, as a share of what it may be.
func (a *axis) away(x float64) float64 {
	var sum, size float64
	for i, v := range a.values(x) {
		sum += float64((v - a.filed[i]) * (v - a.filed[i]))
	}
	if a.among == nil {
		size = a.high - a.low
	}
	for _, values := range a.among {
		span := 0.0
		for i, v := range values {
			span += float64((v - a.filed[i]) * (v - a.filed[i]))
		}
		size = math.Max(size, math.Sqrt(span))
	}
	if size == 0 {
		return 0
	}
	return math.Sqrt(sum) / size
}

// edits are what make a coordinate of a run; set are those numbers that only its file
// knows what hangs on.
func (a *axis) edits(x float64) (edits []linkage.Edit, set map[string]float64) {
	if x == a.filedAt {
		return nil, nil
	}
	values := a.values(x)
	if a.end != nil {
		return []linkage.Edit{linkage.Turn(a.end, values[0])}, nil
	}
	for i, n := range a.vary.Numbers {
		switch {
		case values[i] == a.filed[i]:
		case n.Rereads():
			if set == nil {
				set = map[string]float64{}
			}
			set[n.String()] = values[i]
		default:
			edits = append(edits, linkage.SetNumber(n, values[i]))
		}
	}
	return edits, set
}

// analytic reports whether slopes by its coordinate come from those by numbers.
func (a *axis) analytic() bool {
	return a.ordered() && (a.end != nil || !a.vary.Numbers[0].Rereads())
}
