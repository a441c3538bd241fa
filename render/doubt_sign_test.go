package render

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"fullfree/linkage"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// surveySaid tapes one hole, at (300, 200), to exact holes all around it, but those
// left out, with slips, and returns the report's words on one line.
func surveySaid(t testing.TB, slips map[string]float64, leaveOut ...string) string {
	t.Helper()
	places := map[string][2]float64{"a": {0, 0}, "b": {700, 50}, "c": {650, 520}, "d": {-60, 430}, "e": {310, -240}}
	var text, points strings.Builder
	for _, name := range []string{"a", "b", "c", "d", "e"} {
		at := places[name]
		fmt.Fprintf(&points, "%s = [%g, %g]\n", name, at[0], at[1])
		if !slices.Contains(leaveOut, name) {
			is := math.Hypot(at[0]-300, at[1]-200) + slips[name]
			fmt.Fprintf(&text, "taped %q {\n  from = frame.%s\n  to = tab.hole\n  is = %.9f\n  within = 1\n}\n", name, name, is)
		}
	}
	run, err := linkage.Read(&linkage.Source{Name: "f.hcl", Text: []byte("run \"Net\" {\n  units = \"mm\"\n  sketch = 100\n}\n" +
		"fixed \"frame\" {\n  exact = true\n  points = {\n" + points.String() + "  }\n}\n" +
		"fixed \"tab\" {\n  points = { hole = [302, 197] }\n}\n" +
		"part \"lever\" {\n  pivot = frame.a\n}\ncontrol \"hand\" {\n  of = lever\n}\n" + text.String())})
	require.NoError(t, err)
	survey, err := solve.NewSurvey(run)
	require.NoError(t, err)
	var out strings.Builder
	require.NoError(t, SurveyReport(&out, "f.hcl", survey))
	return strings.Join(strings.Fields(out.String()), " ")
}

// A measurement that slipped is told by how far, whichever way it slipped. Four holes
// are exact and the fifth is taped to each: of one tape that is 20 too long or too short
// the misclosure is 20, since the others tell the hole exactly.
func TestDoubtWhicheverWayItSlipped(t *testing.T) {
	for _, slip := range []float64{20, -20} {
		said := surveySaid(t, map[string]float64{"c": slip})
		assert.Contains(t, said, `disagrees with the rest by 20.0 mm`, "slip of %g", slip)
		assert.NotContains(t, said, "disagree still")

		// Two slips: without the larger one the other disagrees still.
		for _, other := range []float64{14, -14} {
			said := surveySaid(t, map[string]float64{"c": slip, "a": other})
			assert.Contains(t, said, "of the others disagree still", "slips of %g and %g", slip, other)
		}
	}
}

// Where but one measurement is more than needed, nothing tells which of them slipped:
// their standardized residuals are of one size (a theorem of adjustment by least squares
// with one degree of freedom), with different signs.
func TestAllAreAsDoubtfulWhereOneChecksThem(t *testing.T) {
	for _, slip := range []float64{20, -20} {
		said := surveySaid(t, map[string]float64{"b": slip}, "d", "e")
		assert.Contains(t, said, "As doubtful, as nearly as can be told:")
		_, others, _ := strings.Cut(said, "As doubtful")
		named := 0
		for _, name := range []string{`"a"`, `"b"`, `"c"`} {
			named += strings.Count(others, name)
		}
		assert.Equal(t, 2, named, "the two others: %s", others)
	}
}
