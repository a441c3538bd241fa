package solve_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A point 100 from its lever's pivot, drawn 60 degrees above level, rises by
// the sine: it turns back when the lever stands upright, 30 degrees on.
func TestRatioReverses(t *testing.T) {
	_, sweep := sweepOf(t, `run "Crest" {
  units = "mm"
}
part "lever" {
  pivot = [0, 0]
  arms  = { tip = polar(100, 60) }
}
control "hand" {
  of   = lever
  from = -40
  to   = 40
}
output "rise" {
  of    = lever.tip
  along = [0, 1]
}
output "reach" {
  of    = lever
}
`)
	rise, reach := sweep.Outputs[0].Ratio, sweep.Outputs[1].Ratio
	perDegree := 100 * math.Pi / 180
	assert.InDelta(t, -perDegree*math.Sin(10*math.Pi/180), rise.Low, 1e-9)
	assert.InDelta(t, perDegree*math.Cos(20*math.Pi/180), rise.High, 1e-9)
	require.Len(t, rise.Reverses, 1)
	assert.InDelta(t, 30, rise.Reverses[0], 1e-6, "where a cosine is 0")
	assert.Equal(t, 0.0, *rise.Least, "by size")
	assert.Empty(t, reach.Reverses)
	assert.InDelta(t, 1, reach.Low, 1e-12)
	assert.InDelta(t, 1, reach.High, 1e-12)
}
