package render

import (
	"testing"

	"fullfree/linkage"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
)

// Where less than the least was looked at past both ends, but an on-center point was
// found past one, only the other is to be explored farther.
func TestWiderOnlyWhereNothingWasFound(t *testing.T) {
	part := &linkage.Part{Name: "lever", Motion: linkage.Turns}
	control := &linkage.Control{Name: "hand", Of: part}
	run := &linkage.Run{Units: linkage.Millimeters, Parts: []*linkage.Part{part}, Controls: []*linkage.Control{control}}
	for _, c := range []struct {
		at   []float64 // of on-center points
		want string
	}{
		{nil, `give the control hand a wider "from" and "to"`},
		{[]float64{-22}, `give the control hand a wider "to"`},
		{[]float64{22}, `give the control hand a wider "from"`},
		{[]float64{0}, `give the control hand a wider "from"`}, // neutral counts as the high side
	} {
		sweep := &solve.Sweep{Control: control, Unit: "deg", Low: -20, High: 20, Explored: [2]float64{-23, 23},
			Ends: [2]solve.End{{At: -20, Cause: solve.ByStop}, {At: 20, Cause: solve.ByStop}}}
		for _, at := range c.at {
			sweep.Critical = append(sweep.Critical, solve.Critical{Kind: solve.Toggle, At: at, Part: part})
		}
		r := &solve.Result{Run: run, Sweeps: []*solve.Sweep{sweep}}
		j := &solve.Judgement{Requirement: &linkage.Requirement{Kind: linkage.OverCenter, Least: 10}, Limit: 10, Unit: "deg"}
		assert.Equal(t, c.want, telling{j, r, sweep}.wider())
	}
}
