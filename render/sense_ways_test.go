package render_test

import (
	"fmt"
	"testing"

	"fullfree/render"
	"fullfree/render/internal/sample"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A place is told with the directions in which it clearly goes, both ways; nothing is
// told where the file doesn't say how the aircraft lies in the drawing.
func TestSenseWays(t *testing.T) {
	r := sample.Checked(t, "ailerons.hcl", sample.DemoText(t, "ailerons"))
	s := r.Sweeps[0]
	held := render.ControlWays(r.Run, s)
	for i := range held {
		assert.Regexp(t, `^\S+ goes (left|right)$`, held[i], "a stick goes sideways, hardly down")
	}
	assert.NotEqual(t, held[0], held[1])
	for _, o := range r.Run.Outputs {
		seen := render.OutputWays(r.Run, s, o)
		assert.ElementsMatch(t, []string{o.SeenAt.String() + " goes up", o.SeenAt.String() + " goes down"}, seen[:], o.Name)
	}

	// A twist grip turns; its plus is counterclockwise from behind.
	twisted := sample.Checked(t, "throttle.hcl", sample.DemoText(t, "throttle"))
	require.NotNil(t, twisted.Run.Controls[0].Twist)
	assert.Equal(t, [2]string{"grip-lever turns clockwise, seen from aft", "grip-lever turns counterclockwise, seen from aft"},
		render.ControlWays(twisted.Run, twisted.Sweeps[0]))

	bare := sample.Checked(t, "bare.hcl", fmt.Sprintf(sample.InchRun, "Bare"))
	assert.Equal(t, [2]string{}, render.ControlWays(bare.Run, bare.Sweeps[0]))
}
