package page

import (
	"html"
	"strings"
	"testing"

	"fullfree/render"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A tail that would touch just past on center is told so wherever stops are: by how
// much it misses, and how far the control would still have to go.
func TestStopMissedByAHairIsToldEverywhere(t *testing.T) {
	text := sample.AnswersText(t, "t2-throttle")
	words := `The stop "tail-stop" would touch 0.3° after on center: on center at -61.6° (toggle) it is 0.20 mm short.`
	said := sample.Flat(reportOf(t, sample.Checked(t, "x", text)))
	assert.Contains(t, said, "on center ends it at -61.6° (toggle). "+words, "stops")
	assert.Contains(t, said, "a pull the closing way opens it. "+words, "the end")
	short := "0.20 mm short on center, at -61.6°; it would take 0.3° more"
	page := strings.Join(strings.Fields(bookPage(t, bookOf(t, "x", text))), " ")
	assert.Contains(t, page, "nowhere: "+short, "the book")
	step := stepStops(sample.Checked(t, "x", text))
	var cells []string
	for _, row := range step.Table.Rows {
		for _, cell := range row {
			cells = append(cells, cell.Says)
		}
	}
	assert.Contains(t, cells, "missed: tail-stop "+short, "the table of stops")
}

// The book, the rigging sheet and the page where settings are tried tell what is odd
// about cables as the report does, once, and nothing where nothing is.
func TestPagesTellWhatIsOddAboutCables(t *testing.T) {
	beside := func(r *solve.Result) []string { return trialBeside(Trial{Now: render.Variant{Result: r}}) }
	for _, odd := range sample.OddCables {
		text := sample.Replaced(t, odd.Kind, odd.Changes...)
		r := sample.Checked(t, "x", text)
		assert.Contains(t, sample.Flat(reportOf(t, r)), odd.Says)
		for name, said := range map[string][]string{"sheet": sheetFor(t, "x", text).Notes, "workbench": beside(r)} {
			assert.Equal(t, 1, strings.Count(strings.Join(said, "\n"), odd.Says), "%s: %s", name, odd.Says)
		}
		page := html.UnescapeString(sample.Markup.ReplaceAllString(bookPage(t, bookOf(t, "x", text)), " "))
		assert.True(t, strings.Contains(strings.Join(strings.Fields(page), " "), odd.Says), "book: %s", odd.Says)
	}
	for _, kind := range []string{"pedals-cable", "throttle-cable", "lift-cables", "pedals"} {
		assert.Empty(t, render.Beside(sample.Checked(t, "x", sample.DemoText(t, kind))), kind)
	}
}

// reportOf is what check reports of a result.
func reportOf(t *testing.T, r *solve.Result) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, render.Report(&b, "x", r, render.ReportOptions{}))
	return b.String()
}
