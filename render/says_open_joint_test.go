package render

import (
	"testing"

	"fullfree/render/internal/sample"

	"github.com/stretchr/testify/assert"
)

// A gap in a joint as drawn is told with its size, since what closes it moves the run from
// its drawn position; points that meet are not told of.
func TestReportTellsOfPointsThatDoNotMeet(t *testing.T) {
	head := func(tip string) string {
		return sample.Flat(reported(t, sample.Checked(t, "x", sample.Replaced(t, "rotor", "tip = [55, 35]", "tip = "+tip))))
	}
	assert.NotContains(t, head("[55, 35]"), "pulled together")
	// 3 and 4 are the legs of a triangle whose third side is 5.
	assert.Contains(t, head("[58, 39]"), "Look at the joint scissors: upper-scissor.tip and lower-scissor.tip are drawn 5.0 mm apart, and were pulled together.")
}
