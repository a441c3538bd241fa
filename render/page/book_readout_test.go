package page

import (
	"testing"

	"fullfree/render/internal/sample"
	"fullfree/render/picture"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A page tells tension to what a gauge reads, and what floats as its part moves.
func TestReadoutOfCables(t *testing.T) {
	result := sample.Checked(t, "slack.hcl", sample.SlackRun)
	sweep := result.Sweeps[0]
	course := sweep.Course()
	series := picture.SeriesOf(result, sweep)
	var cables readoutGroup
	for _, group := range readoutOf(series, course) {
		if group.Title == "Cables" {
			cables = group
		}
	}
	require.Len(t, cables.Rows, 3)
	for i, want := range []struct{ label, shown string }{{"tension of c-up", "25 N"}, {"tension of c-down", "25 N"}, {"free turn of horn, duo slack", "0.0°"}} {
		assert.Equal(t, want.label, cables.Rows[i].Label)
		assert.Equal(t, want.shown, cables.Rows[i].Shown)
	}
}
