package picture

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Figures in inches that are too wide for their cell with the unit stand whole without it,
// and the unit behind the name: a plunger that goes 2 47/64 in both ways.
func TestWideFiguresAreNotCut(t *testing.T) {
	result := checkedOnce(t, "slide.hcl", `
run "Slide" { units = "in" }
part "plunger" {
  slide  = [1, 0]
  points = { eye = [0, 0], end = [20, 0] }
}
control "hand" {
  of   = plunger
  from = -2.734375
  to   = 2.734375
}
`)
	d, err := newDiagram(result, result.Sweeps[0], DiagramOptions{})
	require.NoError(t, err)
	said := texts(&d.scene)
	for _, words := range []string{"plunger, in", "-2 47/64", "2 47/64"} {
		assert.NotZero(t, said[words], words)
	}
	for words := range said {
		assert.NotContains(t, words, "…")
	}
}
