package picture

import (
	"bytes"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/render/internal/paper"
	"fullfree/render/internal/sample"
	"fullfree/solve/survey"
)

// A print has the holes of cores and conduits where they are, names every cable,
// and draws no conduit.
func TestFullSizeOfCables(t *testing.T) {
	_, pages := fullSizeOf(t, checkedOnce(t, "lift-cables.hcl", sample.DemoText(t, "lift-cables")), "", PaperNone)
	holes := centers(t, pages[0], 1)
	for _, at := range []paper.Place{paper.At(-34, -120), paper.At(-34, -24), paper.At(-470, 186), paper.At(-468, 280)} {
		assert.True(t, holes[at], "%v, y down", at)
	}
	for _, name := range []string{"lift-up, core at the from end", "lift-up, core at the to end", "lift-down, core at the from end"} {
		assert.Contains(t, pages[0], name)
	}
	said := strings.Join(strings.Fields(sample.Markup.ReplaceAllString(pages[0], " ")), " ")
	assert.Contains(t, said, "No conduit is printed")

	result := checkedOnce(t, "pedals-cable.hcl", sample.DemoText(t, "pedals-cable"))
	f, pages := fullSizeOf(t, result, "", PaperNone)
	assert.Contains(t, pages[0], "tail-left, open cable")
	assert.NotContains(t, pages[0], "No conduit")
	// Rims are true to size: 60 mm about the pedals, 55 mm about the tail.
	radii := map[float64]bool{}
	for _, s := range f.ink.Shapes[paper.LayerNeutral] {
		for i, part := range result.Run.Cables[0].Quadrants {
			pivot := f.v.on(part.Pivot)
			if len(s.Through) > 10 {
				radius := result.Run.Cables[0].Radius[i] * f.v.scale
				all := true
				for _, p := range s.Through {
					all = all && abs(p.Distance(pivot)-radius) < 1e-6
				}
				radii[result.Run.Cables[0].Radius[i]] = radii[result.Run.Cables[0].Radius[i]] || all
			}
		}
	}
	assert.Equal(t, map[float64]bool{60: true, 55: true}, radii)
}

func abs(v float64) float64 { return max(v, -v) }

// A page for taping shows what cables join.
func TestBlankPageShowsCables(t *testing.T) {
	run, err := linkage.Read(&linkage.Source{Name: "lift-cables.hcl", Text: []byte(sample.DemoText(t, "lift-cables"))})
	require.NoError(t, err)
	var page bytes.Buffer
	require.NoError(t, BlankPage(&page, run, survey.Plan(run), BlankOptions{}))
	assert.Contains(t, page.String(), `stroke-width="1.4"`, "cores")
	assert.Contains(t, strings.Join(strings.Fields(sample.Markup.ReplaceAllString(page.String(), " ")), " "), "Conduit, double line: path not drawn true.")
}
