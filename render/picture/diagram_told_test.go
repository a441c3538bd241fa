package picture

import (
	"bytes"
	"testing"

	"fullfree/render"
	"fullfree/render/internal/sample"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Cables in space are drawn and told too.
func TestCablesInSpace(t *testing.T) {
	text := sample.Replaced(t, "throttle-cable",
		"pivot = [-640, -80]", "pivot = [-640, -80, 60]\n  axis  = [0.1, 0, 1]", "carb-bracket = [-560, -48]", "carb-bracket = [-560, -48, 55]",
		"pivot = [0, 0]\n", "pivot = [0, 0]\n  axis  = [0, 0.2, 1]\n") + `
part "flap" {
  pivot = [-200, 300, 30]
  axis  = [0, 1, 0]
  arms  = { tip = [120, 0, 0] }
}
cable "flap-cable" {
  from   = grip
  to     = flap
  radius = [20, 40]
  winds  = ["up", "down"]
  spring = "minus"
}
`
	r := checkedOnce(t, "x", text)
	require.False(t, r.Run.Plane)
	var report bytes.Buffer
	require.NoError(t, render.Report(&report, "x", r, render.ReportOptions{}))
	for _, view := range []string{"", "xy", "xz", "yz"} {
		d, err := newDiagram(r, r.Sweeps[0], DiagramOptions{View: view})
		require.NoError(t, err)
		assertClear(t, &d.scene)
		svg := picture(t, r, r.Sweeps[0], DiagramOptions{View: view})
		sample.WellFormed(t, svg)
		assert.NotContains(t, svg, "NaN")
	}
}
