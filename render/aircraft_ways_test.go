package render_test

import (
	"strings"
	"testing"

	"fullfree/render"
	"fullfree/render/internal/sample"

	"github.com/stretchr/testify/assert"
)

// Which way another run's hand goes is told by that run's drawing, which may be seen from
// the other side and in another unit.
func TestWaysOfAnotherRunsHand(t *testing.T) {
	_, whole := sample.Aircraft(t, "../demo/aircraft/aircraft.hcl")
	tail := whole.Runs()[1]
	s := tail.Sweeps[0]
	assert.Equal(t, [2]string{"pedals.left-pedal.foot goes aft", "pedals.left-pedal.foot goes forward"}, render.ControlWays(tail.Run, s))
	assert.Contains(t, render.OutputWays(tail.Run, s, tail.Run.Outputs[0])[1], "tail.blade.horn goes left")
	// Of the whole aircraft the same.
	assert.Equal(t, render.ControlWays(tail.Run, s), render.ControlWays(whole.Run, whole.Sweeps[0]))
	var said []string
	for _, p := range render.MovePassages(tail, s) {
		said = append(said, p.Words)
	}
	assert.Contains(t, strings.Join(said, "\n"), "26.0° (left pedal forward): as drawn, pedals.left-pedal.foot goes 90.2 mm forward and 29.1 mm down",
		"a place at [-18, 210] turned by 26 degrees, in the units of its own run")
}
