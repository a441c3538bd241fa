package render

import (
	"testing"

	"fullfree/render/internal/sample"

	"github.com/stretchr/testify/assert"
)

// An arm written in the wrong plane closes and may hold: it shows by how much shorter
// it is about its axis than it is written.
func TestReportTellsOfArmsInAnotherPlane(t *testing.T) {
	swivel := func(arm string) string {
		return sample.Flat(reported(t, sample.Checked(t, "x", sample.Replaced(t, "pedals-swivel", "left  = [0, 0, 60]", "left  = "+arm))))
	}
	assert.NotContains(t, swivel(`polar(60, 90, "xz")`), "Look at")
	// The cosine of 75 degrees is 0.2588, of 60 that leaves 15.5.
	assert.Contains(t, swivel(`polar(60, 75, "zy")`),
		`Look at rocker.left: its polar is 60.0 mm long in the plane zy, and about the axis of rocker its arm is only 15.5 mm. polar(length, degrees, "xz") lies in the plane that it turns in.`)
}
