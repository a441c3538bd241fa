package solve_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A slider on a raked guide lifts one end of a rod off the plane of the lever at its other,
// from 20 above or below it on: the rod stands askew by the sine of that height over its
// length, most where the guide takes it farther off, at the high end above and at the low
// end below.
func TestMisalignmentIsWorstOnTheSideWhereItGrows(t *testing.T) {
	const rise = 0.5
	for _, side := range []float64{1, -1} {
		result := check(t, fmt.Sprintf(`
run "Raked" { units = "mm" }
part "lever" {
  pivot  = [0, 0, 0]
  points = { eye = [0, 60, 0] }
}
part "slider" {
  slide  = [1, 0, %g]
  points = { eye = [100, 60, %g] }
}
rod "link" {
  from = lever.eye
  to   = slider.eye
}
control "push" {
  of   = slider
  from = -20
  to   = 20
}
require "misalignment" { most = 5 }
`, rise, 20*side))
		j := result.Requirements[0]
		length, height := math.Hypot(100, 20), 20+20*rise/math.Hypot(1, rise)
		require.NotNil(t, j.Worst)
		assert.InDelta(t, math.Asin(height/length)*180/math.Pi, *j.Worst, 1e-9)
		require.NotNil(t, j.At)
		assert.InDelta(t, 20*side, *j.At, 1e-9)
	}
}
