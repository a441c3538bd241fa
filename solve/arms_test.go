package solve_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/solve"
	"fullfree/solve/survey"
)

// What is required of the distance of an arm's hole from a fixed hole, here 3 in x, is
// out by these two places alone, sigma each: the band is 2 sqrt(sigma^2 + sigma^2).
// Where the pivot lies has no part in it, since a survey finds each place on its own,
// though a setting of the pivot would take the arm along.
func TestBandOfAnArmIsThatOfItsHole(t *testing.T) {
	const sigma = 0.4
	for _, named := range []bool{false, true} {
		pivot, fixed := "[0, 0]", ""
		if named {
			pivot, fixed = "frame.pin", ", pin = [0, 0]"
		}
		text := fmt.Sprintf(`
run "Arm" {
  units  = "mm"
  sketch = %g
}
fixed "frame" { points = { hole = [53, 0]%s } }
part "lever" {
  pivot = %s
  arms  = { eye = [50, 0] }
}
control "hand" {
  of   = lever
  from = -10
  to   = 10
}
require "meets" {
  of     = [lever.eye, frame.hole]
  within = 5
}
`, sigma, fixed, pivot)
		run := read(t, text)
		survey, err := survey.New(run)
		require.NoError(t, err)
		m, err := solve.Compile(run)
		require.NoError(t, err)
		result, err := m.Check()
		require.NoError(t, err)
		require.NoError(t, m.AddBands(result, survey))
		j := result.Requirements[0]
		require.NotNil(t, j.Worst)
		assert.InDelta(t, 3, *j.Worst, 1e-9)
		require.NotNil(t, j.Band)
		// Each hole is out by sigma along the way between them and square to it, of which
		// the latter counts in the square (see ofMeets).
		out := 2 * math.Sqrt2 * sigma
		assert.InDelta(t, math.Sqrt((3+out)*(3+out)+0.75*out*out)-3, *j.Band, 1e-4, "named pivot: %t", named) // differences of 1e-5 of the size are as near
	}
}
