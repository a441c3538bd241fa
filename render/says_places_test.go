package render_test

import (
	"fmt"
	"strings"
	"testing"

	"fullfree/render"
	"fullfree/render/internal/sample"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// disc is a disc of radius 100 with gauges on two points of it, stopped at 40 one way.
func discSays(t *testing.T, required string) string {
	t.Helper()
	r := sample.Checked(t, "disc.hcl", fmt.Sprintf(`
run "Disc" { units = "mm" }
part "disc" {
  pivot  = [0, 0]
  points = { a = [100, 0], b = [0, 100] }
}
control "wheel" {
  of      = disc
  from    = -60
  to      = 60
  plus    = "open"
  detents = [0, 20, 50]
}
output "a" {
  of    = disc.a
  along = [0, 1]
  plus  = "raised"
}
output "b" {
  of    = disc.b
  along = [0, 1]
}
stop "rest" {
  of = disc
  at = 40
}
%s
`, required))
	return render.Says(r, &r.Requirements[0])
}

func TestSaysOfPlaces(t *testing.T) {
	for required, says := range map[string]string{
		"require \"reading\" {\n of = a\n at = 30\n wants = 50\n within = 1\n}":     "With wheel at 30°, a reads 50.0 mm raised where 50 mm is wanted: 0.0 mm off. 1 mm allowed, 1.0 mm in hand.",
		"require \"reading\" {\n of = a\n at = 30\n wants = 40\n within = 1\n}":     "With wheel at 30°, a reads 50.0 mm raised where 40 mm is wanted: 10.0 mm off. 1 mm allowed, missed by 9.0 mm.",
		"require \"reading\" {\n of = a\n at = 50\n wants = 40\n within = 1\n}":     `wheel at 50° is never reached: the travel ends at 40.0° (open). The stop "rest" ends it at 40.0°.`,
		"require \"neutral\" {\n of = a\n within = 1\n}":                            "At neutral a stands as drawn; 1 mm allowed.",
		"require \"symmetrical\" {\n of = [a, b]\n within = 1\n}":                   "a and b are not symmetrical: 87.7 mm out at worst, with wheel at 40.0° (open)",
		"require \"symmetrical\" {\n of = [a, b]\n within = 90\n}":                  "With wheel one way, a moves as b does with it the other way, to within 87.7 mm, worst with wheel at 40.0° (open), as far as wheel goes to both sides, ±40.0°. 90 mm allowed, 2.3 mm in hand.",
		"require \"symmetrical\" {\n of = [a, b]\n opposed = true\n within = 90\n}": "With wheel one way, a moves opposite to b does",
	} {
		assert.Contains(t, discSays(t, required), says, required)
	}
}

// A table of what every output reads in each detent, and what is not reached.
func TestReportTellsDetents(t *testing.T) {
	r := sample.Checked(t, "flaps.hcl", strings.Replace(sample.DemoText(t, "flaps"), "[0, -15, -30, -45]", "[0, -15, -50]", 1))
	var out strings.Builder
	require.NoError(t, render.Report(&out, "flaps.hcl", r, render.ReportOptions{}))
	said := strings.Join(strings.Fields(out.String()), " ")
	assert.Contains(t, said, "flap-handle in its detent at right left deg deg deg 0.0 0.0 0.0 -15.0 -12.0 -12.0 The detent at -50° is never reached: the travel's low end is at -45.0°.")
}
