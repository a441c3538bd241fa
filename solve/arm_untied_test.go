package solve_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// An arm's hole is taped to two exact holes, and nothing is taped to its pivot. How far
// the hole lies from another at neutral doesn't hang on the pivot then, though the file
// tells the arm from that: a survey finds each place on its own. How far the lever turns
// until the hole touches something does.
func TestAnUntiedPivotLeavesItsArmWhereItIsTaped(t *testing.T) {
	for _, named := range []bool{false, true} {
		pivot, post := "[0, 0]", ""
		if named {
			pivot, post = "post.pin", "fixed \"post\" { points = { pin = [0, 0] } }\n"
		}
		result := judgedOnSurvey(t, fmt.Sprintf(`
run "Arm" {
  units  = "mm"
  sketch = 2
}
fixed "frame" {
  exact  = true
  points = { hole = [53, 0], low = [20, -40], high = [70, 60] }
}
%spart "lever" {
  pivot = %s
  arms  = { eye = [50, 0], tip = [0, 30] }
}
control "hand" {
  of   = lever
  from = -10
  to   = 10
}
output "goes" {
  of    = lever.tip
  along = [0, 1]
}
taped "low" {
  from   = frame.low
  to     = lever.eye
  is     = 50
  within = 0.3
}
taped "high" {
  from   = frame.high
  to     = lever.eye
  is     = 63.2455532
  within = 0.3
}
require "meets" {
  of     = [lever.eye, frame.hole]
  within = 5
}
require "travel" {
  of     = goes
  low    = -1
  high   = 1
  within = 5
}
`, post, pivot))
		meets, travel := result.Requirements[0], result.Requirements[1]
		require.NotNil(t, meets.Worst)
		assert.InDelta(t, 3, *meets.Worst, 1e-6)
		require.NotNil(t, meets.Untied)
		assert.False(t, *meets.Untied, "both of its holes are tied, named pivot: %t", named)
		require.NotNil(t, travel.Untied)
		assert.True(t, *travel.Untied, "the tip's lever has a pivot that nothing ties")
	}
}
