package page

import (
	"strings"
	"testing"

	"fullfree/demo"
	"fullfree/render/internal/sample"
	"fullfree/solve/recheck"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// linesOf are the lines of a demo's sheet.
func linesOf(t testing.TB, text string) []recheck.Line {
	t.Helper()
	m, r := judgedOnce(t, "f.hcl", text)
	return SheetLines(r, m.Pinned())
}

// Every row to be filled in and every blank of a sheet is one of its lines, each with its
// own words, but for rows that only tell (a stop that isn't met).
func TestSheetLinesAreAllOfTheSheet(t *testing.T) {
	for _, kind := range append(demo.Kinds(), "pedals-dual", "pedals-unequal") {
		s := sheetFor(t, kind+".hcl", sample.DemoText(t, kind))
		asked := len(s.Foot)
		for _, step := range s.Steps {
			asked += len(step.Blanks)
			require.Len(t, step.Table.lines, len(step.Table.Rows), kind)
			for i, row := range step.Table.Rows {
				line := step.Table.lines[i]
				if step.step == recheck.StepStops && line.Says == "" {
					assert.Equal(t, "-", row[2].Says, "it tells no figure")
					continue
				}
				assert.NotEmpty(t, line.Says, "%s: %s", kind, step.Title)
				asked++
			}
		}
		m, r := judgedOnce(t, kind+".hcl", sample.DemoText(t, kind))
		lines := SheetLines(r, m.Pinned())
		assert.Len(t, lines, asked, kind)
		seen := map[string]bool{}
		for _, l := range lines {
			key := string(l.Step) + l.Says
			assert.False(t, seen[key] && l.Step != recheck.StepPinsIn, "%s: %s stands twice", kind, l.Says)
			seen[key] = true
		}
	}
}

// What is measured has its figure, and what the file allows it: of a rod what its pins do,
// of travels the least of what is required of them, of room the least wanted; of what the
// file allows nothing 0.
func TestSheetLinesHaveFigures(t *testing.T) {
	figures := map[string]recheck.Figure{}
	for _, l := range linesOf(t, sample.DemoText(t, "pedals-unequal")) {
		if l.Figure != nil {
			figures[l.Title+": "+l.Says] = *l.Figure
		}
	}
	for line, allowed := range map[string]float64{
		"Fit the rods: left-link": 0.1, "Travels, stop to stop: right-pedal, left pedal forward": 0.5, "Travels, stop to stop: right-pedal, neutral": 0.5,
		"Travels, stop to stop: tail-run (plus is nose left), left pedal forward": 1, "Travels, stop to stop: tail-run (plus is nose left), neutral": 0,
		"Travels, stop to stop: pedals (left-pedal), left pedal forward": 0, "Set the stops: primary, then secondary: pedals, left pedal forward, primary: left-stop": 0,
		"Room between metal: left-link and airframe.seat-tube": 5,
	} {
		f, ok := figures[line]
		assert.True(t, ok, line)
		assert.Equal(t, allowed, f.Allowed, line)
	}
	assert.Equal(t, 296.7, figures["Fit the rods: left-link"].Value)

	// What stands at neutral by a requirement has its figure on the sheet too.
	s := sheetFor(t, "flaps.hcl", sample.DemoText(t, "flaps"))
	assert.Regexp(t, `\| neutral \|.*of the drawing`, strings.Join(s.step(t, "Travels").rows(), "\n"))
}
