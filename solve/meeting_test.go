package solve_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"fullfree/solve"
)

// Two edges without thickness, one standing with its end just on the middle of the
// other as drawn: they can move apart and not into one another. The lever turns about
// the origin; its edge ends at (100, 0), where the floor's passes.
//
// Whichever of the two the end belongs to, whichever is named first, and whichever way
// the edges are drawn, the lever that lies above goes up (positive) and not down.
func TestEdgesThatJustMeetMoveApartAlone(t *testing.T) {
	swap := func(a, b string, swapped bool) string {
		if swapped {
			return b + ", " + a
		}
		return a + ", " + b
	}
	for _, side := range []float64{1, -1} {
		for bits := range 16 {
			has := func(bit int) bool { return bits>>bit&1 == 1 }
			// The end is the lever's, and the floor's edge is level; or it is the
			// floor's, and the lever's is level.
			level, standing := swap("[90, 0]", "[110, 0]", has(0)), fmt.Sprintf("[100, %g]", 10*side)
			lever, floor := swap("[100, 0]", standing, has(1)), level
			up := side
			if has(2) {
				lever, floor = floor, lever
				up = -side
			}
			text := fmt.Sprintf(`
run "Floor" { units = "mm" }
fixed "frame" {
  edge "floor" { through = [%s] }
}
part "lever" {
  pivot = [0, 0]
  edge "foot" { through = [%s] }
}
control "hand" {
  of   = lever
  from = -3
  to   = 3
}
stop "floor-stop" { touch = [%s] }
`, floor, lever, swap("lever.foot", "frame.floor", has(3)))
			_, s := sweepOf(t, text)
			blocked, open := s.Ends[0], s.Ends[1]
			if up < 0 {
				blocked, open = open, blocked
			}
			assert.Equal(t, solve.ByStop, blocked.Cause, text)
			assert.InDelta(t, 0, blocked.At, 1e-9, text)
			assert.Equal(t, solve.ByLimit, open.Cause, text)
			assert.InDelta(t, 3, math.Abs(open.At), 1e-9, text)
		}
	}
}
