package render

import (
	"math"
	"strings"
	"testing"

	"fullfree/render/figure"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// travelSays is what is said of the first requirement of a run.
func travelSays(t *testing.T, text string) string {
	t.Helper()
	r := sample.Checked(t, "travel.hcl", text)
	require.NotEmpty(t, r.Requirements)
	require.Equal(t, solve.FallsShort, r.Requirements[0].Verdict)
	return Says(r, &r.Requirements[0])
}

const wanting = `
require "travel" {
  of     = gauge
  low    = -25
  high   = %high
  within = 1
}
`

// A lever reads as it turns, from 5: a reading 8 short is 8 degrees of hand.
func TestSaysHowFarFilingMustGo(t *testing.T) {
	text := strings.Replace(grip, "%arrows", "", 1) + wanting
	assert.Contains(t, travelSays(t, strings.Replace(text, "%high", "43", 1)), " gauge would get to 43° if hand went on 8.0°, to 38.0°.")
	assert.Contains(t, travelSays(t, strings.Replace(text, "%high", "43.048", 1)), " gauge would get to 43.048° if hand went on 8.0°, to 38.0°.", "not as coarsely as it is looked at")
	assert.Contains(t, travelSays(t, strings.Replace(text, "%high", "60", 1)), " As far as was looked, to 40.0°, gauge would get to 45.0°.")
}

// On the low side too.
func TestSaysHowFarFilingMustGoDown(t *testing.T) {
	text := strings.Replace(grip, "%arrows", "", 1) + strings.NewReplacer("%high", "35", "-25", "-32.5").Replace(wanting)
	assert.Contains(t, travelSays(t, text), " gauge would get to -32.5° if hand went on 7.5°, to -37.5°.")
}

// Where on center comes first, what the output reads there is all that can be
// gained: with the rod and the arm that drives it in line, a triangle of the
// two pivots and the engine's hole.
func TestSaysWhatOnCenterLeavesToGain(t *testing.T) {
	arm, rod, engine := 38.0, 263.0, 36.0
	apart, direct := math.Hypot(240, 30), math.Atan2(30, -240)*180/math.Pi
	third := rod - arm
	corner := math.Acos((engine*engine+apart*apart-third*third)/(2*engine*apart)) * 180 / math.Pi
	reads := 36 + (direct - corner) - 116
	assert.Contains(t, travelSays(t, sample.DemoText(t, "throttle-wrong-hole")),
		" Taking metal off the stop gains no more than those 4.1°: butterfly would get to "+figure.Degrees(reads)+" there, no further.")
}

// A run whose figure is missed at both ends tells both.
func TestSaysBothEnds(t *testing.T) {
	text := strings.Replace(grip, "%arrows", "", 1) + strings.NewReplacer("%high", "38", "-25", "-20").Replace(wanting)
	said := travelSays(t, text)
	assert.Contains(t, said, "gauge goes 5.0° too far: down to -25.0°")
	assert.Contains(t, said, " The other way it stops 3.0° short as well: up to 35.0° where 38° is wanted.")
	assert.NotContains(t, travelSays(t, strings.Replace(strings.Replace(grip, "%arrows", "", 1)+wanting, "%high", "38", 1)), "The other way")
}

// Which of from and to is to be wider is told: by the side that was looked at
// too little, of the control whose sweep that is.
func TestSaysWhichSideToWiden(t *testing.T) {
	const slide = `run "Slide" {
  units = "mm"
}
part "knob" {
  slide  = [1, 0]
  points = { eye = [0, 0] }
}
part "arm" {
  pivot  = [200, -60]
  points = { hole = [200, 0] }
}
rod "push" {
  from = knob.eye
  to   = arm.hole
}
control "pull" {
  of   = knob
  from = %from
  to   = %to
}
stop "in" {
  of = knob
  at = -10
}
stop "out" {
  of = knob
  at = 10
}
require "over-center" { least = 15 }
`
	for _, c := range []struct{ from, to, want string }{
		{"-30", "20", `give the control pull a wider "to".`},
		{"-20", "30", `give the control pull a wider "from".`},
		{"-20", "20", `give the control pull a wider "from" and "to".`},
	} {
		r := sample.Checked(t, "slide.hcl", strings.NewReplacer("%from", c.from, "%to", c.to).Replace(slide))
		require.Equal(t, solve.CannotTell, r.Requirements[0].Verdict)
		assert.True(t, strings.HasSuffix(Says(r, &r.Requirements[0]), c.want), Says(r, &r.Requirements[0]))
	}
}
