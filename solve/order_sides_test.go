package solve_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/solve"
)

// By how much one stop comes before another is the same to either side: 2 and 3 degrees of
// a lever alone, of which the less counts.
func TestOrderToEitherSide(t *testing.T) {
	for _, c := range []struct {
		low, lower, high, higher, lead float64
		end                            string
	}{{-10, -12, 20, 23, 2, "low"}, {-10, -13, 20, 22, 2, "high"}, {-12, -10, 20, 23, -2, "low"}, {-10, -13, 22, 20, -2, "high"}} {
		result := check(t, fmt.Sprintf(`
run "Lever" { units = "mm" }
part "lever" {
  pivot  = [0, 0]
  points = { tip = [0, 60] }
}
part "other" {
  pivot  = [200, 0]
  points = { tip = [200, 60] }
}
rod "link" {
  from = lever.tip
  to   = other.tip
}
control "hand" {
  of   = lever
  from = -40
  to   = 40
}
stop "low" {
  of = lever
  at = %g
}
stop "lower" {
  of = other
  at = %g
}
stop "high" {
  of = lever
  at = %g
}
stop "higher" {
  of = other
  at = %g
}
require "order" "below" {
  first = low
  then  = lower
  least = 1
}
require "order" "above" {
  first = high
  then  = higher
  least = 1
}
`, c.low, c.lower, c.high, c.higher))
		for i, end := range []string{"low", "high"} {
			j := result.Requirements[i]
			require.NotNil(t, j.Worst)
			assert.Equal(t, end, j.End)
			if end == c.end {
				assert.InDelta(t, c.lead, *j.Worst, 1e-9, "%v", c)
				assert.Equal(t, c.lead > 0, j.Verdict == solve.Holds)
			} else {
				assert.InDelta(t, 3, *j.Worst, 1e-9, "%v", c)
			}
		}
	}
}
