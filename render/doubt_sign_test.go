package render

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve/survey"
)

// tapedFrom are exact holes around the one at (300, 200).
var tapedFrom = map[string][2]float64{"a": {0, 0}, "b": {700, 50}, "c": {650, 520}, "d": {-60, 430}, "e": {310, -240}}

// beyondThree counts the tapes from these holes that are off by more than three of
// their standard deviations: of a tape along the unit vector u with the error e, with
// N the sum of all u u', and h = u' N^-1 u, that is |e - u' N^-1 (sum of u e)| over
// sigma times the root of 1 - h (the textbooks' adjustment by least squares).
func beyondThree(errors map[string]float64, names ...string) (count int) {
	const sigma = 0.5
	var xx, xy, yy, bx, by float64
	way := func(name string) (x, y float64) {
		x, y = 300-tapedFrom[name][0], 200-tapedFrom[name][1]
		return x / math.Hypot(x, y), y / math.Hypot(x, y)
	}
	for _, name := range names {
		x, y := way(name)
		xx, xy, yy = xx+x*x, xy+x*y, yy+y*y
		bx, by = bx+x*errors[name], by+y*errors[name]
	}
	solved := func(a, b float64) (x, y float64) {
		d := xx*yy - xy*xy
		return (yy*a - xy*b) / d, (xx*b - xy*a) / d
	}
	mx, my := solved(bx, by)
	for _, name := range names {
		x, y := way(name)
		hx, hy := solved(x, y)
		if math.Abs(errors[name]-x*mx-y*my) > 3*sigma*math.Sqrt(1-x*hx-y*hy) {
			count++
		}
	}
	return count
}

// surveySaid tapes one hole, at (300, 200), to exact holes all around it, but those
// left out, with slips, and returns the report's words on one line.
func surveySaid(t testing.TB, slips map[string]float64, leaveOut ...string) string {
	t.Helper()
	var text, points strings.Builder
	for _, name := range []string{"a", "b", "c", "d", "e"} {
		at := tapedFrom[name]
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
	survey, err := survey.New(run)
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
		assert.NotContains(t, said, "As doubtful", "the rest tell it apart")

		// Two slips: without the larger one the other shows still, in more than itself.
		for _, other := range []float64{2.6, -2.6} {
			said := surveySaid(t, map[string]float64{"c": slip, "a": other})
			still := beyondThree(map[string]float64{"a": other}, "a", "b", "d", "e")
			assert.Greater(t, still, 1)
			assert.Contains(t, said, fmt.Sprintf("Without it %d of the others disagree still", still), "slips of %g and %g", slip, other)
		}
	}
}

// A line gauged far from its sketch, to either side, is told by how far.
func TestFarGaugeWhicheverWay(t *testing.T) {
	for _, turned := range []float64{120, -120} {
		run, err := linkage.Read(&linkage.Source{Name: "f.hcl", Text: []byte(fmt.Sprintf(`
run "Net" {
  units  = "mm"
  sketch = 500
}
fixed "frame" { points = { a = [0, 0], b = [700, 0] } }
part "lever" { pivot = frame.a }
control "hand" { of = lever }
taped "ab" {
  from   = frame.a
  to     = frame.b
  is     = 700
  within = 1
}
gauged "line" {
  from   = frame.a
  to     = frame.b
  is     = %g
  within = 0.5
}
`, turned))})
		require.NoError(t, err)
		survey, err := survey.New(run)
		require.NoError(t, err)
		var out strings.Builder
		require.NoError(t, SurveyReport(&out, "f.hcl", survey))
		assert.Contains(t, strings.Join(strings.Fields(out.String()), " "), "is sketched at 0.0°: 120.0° from it.", "gauged at %g", turned)
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
