package render_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// reportOf is the report of a run of testdata/words, on one line.
func reportOf(t *testing.T, name string, change ...string) string {
	t.Helper()
	text, err := os.ReadFile(filepath.Join("..", "testdata", "words", name+".hcl"))
	require.NoError(t, err)
	run, err := linkage.Read(&linkage.Source{Name: name + ".hcl", Text: []byte(strings.NewReplacer(change...).Replace(string(text)))})
	require.NoError(t, err)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	result, err := m.Check()
	require.NoError(t, err)
	require.NoError(t, m.AddBands(result, nil))
	var out strings.Builder
	require.NoError(t, render.Report(&out, name+".hcl", result, render.ReportOptions{}))
	return strings.Join(strings.Fields(out.String()), " ")
}

// What is hardly meant is told under the verdict, with what to look at.
func TestWhatIsHardlyMeant(t *testing.T) {
	said := reportOf(t, "nostop")
	assert.Contains(t, said, "FALLS SHORT in 5 of 6 requirements: stops, ")
	assert.Contains(t, said, "First a stop is missing: none ends the high side of flap-lever (pulled up).")
	assert.NotContains(t, said, "in the right hole")
	assert.NotRegexp(t, `\d{4,}\.\d* in a degree`, said, "a figure without meaning")

	said = reportOf(t, "wrongjoin")
	assert.Contains(t, said, "Is lever-rod in the right hole, from lever.horn to torque-tube.left-arm? As drawn its end on lever stands 38° out of square to the bolt")
	assert.Contains(t, said, "nothing ends in torque-tube.crank")
	assert.NotContains(t, said, "First a stop is missing", "it is there, and isn't reached")
	assert.NotRegexp(t, `\d{4,}\.\d* in a degree`, said)
	assert.Contains(t, said, "moves farther than a slope can tell")

	said = reportOf(t, "wrongjoin2")
	assert.Contains(t, said, "Is lever-rod in the right hole, from lever.horn to left-flap.horn? It is 47.790 in, more than twice as long as any other rod.")

	// The arm drawn to the other side of the tube: the rod goes over its pivot.
	said = reportOf(t, "nostop", "crank = polar(2.5, -95)", "crank = polar(2.5, 13)")
	assert.Contains(t, said, "As drawn it crosses the pivot of torque-tube.")
}

// A run in the wrong unit is told by its size, whatever holds.
func TestSizeInWords(t *testing.T) {
	said := reportOf(t, "unit-mm-nothread")
	assert.Contains(t, said, "HOLDS: all 6 requirements")
	assert.Contains(t, said, `Is units = "mm" right? So the whole run is as large as a matchbox, 68.2 mm from corner to corner, and the arm to torque-tube.left-arm is 2.0 mm long; are its figures in inches? Then write units = "in".`)
	assert.NotContains(t, reportOf(t, "nostop"), "right? So the whole run")

	result := sample.Checked(t, "pedals.hcl", strings.Replace(sample.DemoText(t, "pedals"), `units   = "mm"`, `units = "in"`, 1))
	var out strings.Builder
	require.NoError(t, render.Report(&out, "pedals.hcl", result, render.ReportOptions{}))
	assert.Contains(t, strings.Join(strings.Fields(out.String()), " "), `Is units = "in" right? So the whole run is as large as a bus`)
}
