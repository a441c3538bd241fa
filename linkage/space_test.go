package linkage

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// head is a rotor head in which everything that moves in space can be read.
func head(t testing.TB) string {
	t.Helper()
	text, err := os.ReadFile("../testdata/space/head.hcl")
	require.NoError(t, err)
	return string(text)
}

// part, output and joint find them by their names.
func partCalled(t testing.TB, run *Run, name string) *Part {
	t.Helper()
	for _, p := range run.Parts {
		if p.Name == name {
			return p
		}
	}
	require.Fail(t, "no part "+name)
	return nil
}

func TestReadsWhatMovesInSpace(t *testing.T) {
	run := readText(t, head(t))
	assert.False(t, run.Plane)
	plate := partCalled(t, run, "swashplate")
	assert.Equal(t, Tilts, plate.Motion)
	assert.Equal(t, Vec{}, plate.Pivot)
	assert.Equal(t, "sleeve.center", plate.Carrier.String())
	assert.Equal(t, Vec{0, 1, 0}, plate.SquareTo, "left out")
	assert.Equal(t, plate.SquareTo, plate.Axis, "its bolts lie along it")
	assert.Equal(t, "swashplate.middle", partCalled(t, run, "rotating-plate").Carrier.String())

	joint := run.Joints[0]
	assert.Equal(t, [2]string{"upper-link.tip", "lower-link.tip"}, [2]string{joint.Of[0].String(), joint.Of[1].String()})
	assert.Zero(t, joint.Gap, "drawn from both sides at [0, 85, 140]")
	_, hinge := joint.Hinge()
	assert.False(t, hinge, "the plate that carries the lower link tilts")

	assert.Equal(t, &Rotor{Span: run.Rotor.Span, Hub: partCalled(t, run, "hub")}, run.Rotor)
	assert.Equal(t, Vec{-1, 0, 0}, *run.Outputs[0].Tilts, "forward is where the nose is")
	assert.Equal(t, Vec{0, 0, -1}, *run.Outputs[1].Tilts)
	assert.Nil(t, run.Outputs[2].Tilts)
	assert.Equal(t, "blade-a.le", run.Outputs[2].LeadingEdge.String())
	pitch := run.Requirements[:2]
	assert.Equal(t, []float64{0, 10, 1}, []float64{pitch[0].Low, pitch[0].High, pitch[0].Within})
	assert.Equal(t, 12.0, *pitch[1].Most)
	assert.NoError(t, run.Validate())
}

func TestReadsASleeveAndWhatRoams(t *testing.T) {
	run := readText(t, strings.NewReplacer(
		`  slide  = [0, 1]
`, `  pivot  = [0, -50]
  axis   = [0, 2, 0]
  slides = true
`,
		"  ball = sleeve.center\n  arms =", "  floats    = \"space\"\n  square-to = [0, 3, 4]\n  points =",
	).Replace(head(t)))
	sleeve := partCalled(t, run, "sleeve")
	assert.Equal(t, TurnsAndSlides, sleeve.Motion)
	assert.Equal(t, []Vec{{0, -50, 0}, {0, 1, 0}}, []Vec{sleeve.Pivot, sleeve.Axis})
	plate := partCalled(t, run, "swashplate")
	assert.Equal(t, Roams, plate.Motion)
	assert.Nil(t, plate.Carrier)
	assert.Equal(t, Vec{0, 0.6, 0.8}, plate.SquareTo, "at length 1")
	assert.NoError(t, run.Validate())
	assert.Equal(t, Turns, partCalled(t, readText(t, strings.Replace(head(t), "  pivot = [110, -220]\n", "  pivot = [110, -220]\n  slides = false\n", 1)), "lever").Motion)
}
