package solve_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The height of a lever's tip that is drawn 10 degrees short of upright is at its most, and
// its depth at its least, with the lever 10 degrees on; where the lever stops before that
// it turns back nowhere.
func TestReadingsTurnBackAtTheirMostAndTheirLeast(t *testing.T) {
	y, x := math.Sincos(80 * math.Pi / 180)
	for _, up := range []int{1, -1} {
		for _, high := range []int{30, 8} {
			_, s := sweepOf(t, fmt.Sprintf(`
run "Height" { units = "mm" }
part "lever" {
  pivot  = [0, 0]
  points = { tip = [%.17g, %.17g] }
}
control "hand" {
  of   = lever
  from = -20
  to   = %d
}
output "height" {
  of    = lever.tip
  along = [0, %d]
}
`, 100*x, 100*y, high, up))
			reverses := s.Outputs[0].Ratio.Reverses
			if high < 10 {
				assert.Empty(t, reverses)
				continue
			}
			if assert.Len(t, reverses, 1) {
				assert.InDelta(t, 10, reverses[0], 1e-7)
			}
		}
	}
}
