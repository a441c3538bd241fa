package survey

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
)

// How a measurement goes with its ends, and how that bends, are the first and second
// derivatives: held against differences of the length and the angle themselves.
func TestSlopesAndBendsAreTheDerivatives(t *testing.T) {
	const step = 1e-4
	for _, kind := range []linkage.MeasurementKind{linkage.Taped, linkage.Gauged} {
		n := &surveyNet{size: 10, axes: 3, places: []surveyPlace{{first: -1, drawn: vec{X: 1, Y: 2, Z: 3}}, {first: 0}}}
		g := &sighting{measured: &linkage.Measurement{Kind: kind}, from: 0, to: 1}
		x := []float64{5, -1, 4.5}
		figure := func(x []float64) float64 {
			if kind == linkage.Taped {
				return math.Sqrt((x[0]-1)*(x[0]-1) + (x[1]-2)*(x[1]-2) + (x[2]-3)*(x[2]-3))
			}
			return math.Atan2(x[1]-2, x[0]-1)
		}
		off := func(i, j int, by, and float64) float64 {
			y := append([]float64(nil), x...)
			y[i] += by
			y[j] += and
			return figure(y)
		}
		slope, bend := n.slope(g, x), n.bend(g, x)
		for i := range 3 {
			assert.InDelta(t, (off(i, i, step, 0)-off(i, i, -step, 0))/(2*step), *component(&slope, i), 1e-8, "%v along %d", kind, i)
			for j := range 3 {
				want := (off(i, j, step, step) - off(i, j, step, -step) - off(i, j, -step, step) + off(i, j, -step, -step)) / (4 * step * step)
				assert.InDelta(t, want, *component(&bend[i], j), 1e-6, "%v along %d and %d", kind, i, j)
			}
		}
	}
}

// What is off is so to either side, and which coordinates are told as open hangs on
// whether the whole may turn.
func TestOffAndOpenToEitherSide(t *testing.T) {
	for residual, off := range map[float64]bool{-1.5: true, -0.5: false, 0.5: false, 1.5: true} {
		assert.Equal(t, off, (&Measurement{Measurement: &linkage.Measurement{Within: 1}, Residual: residual}).Off(), "%g", residual)
	}
	p := &Point{Undetermined: [3]bool{true, true}, Untied: [3]bool{false, true}}
	assert.Equal(t, [3]bool{true, true}, (&Survey{}).OpenAxes(p))
	assert.Equal(t, [3]bool{false, true}, (&Survey{NeedsDirection: true}).OpenAxes(p))
}

// The line to be gauged goes from left to right, or from below, and the pivot of what is
// carried moves, so that taping to it isn't taping to the airframe.
func TestPlannedLinesAndTheAirframe(t *testing.T) {
	for _, holes := range []string{"a = [10, 0], b = [90, 5]", "b = [10, 0], a = [90, 5]", "a = [10, 5], b = [5, 90]", "b = [10, 5], a = [5, 90]"} {
		run, err := linkage.Read(&linkage.Source{Name: "f.hcl", Text: []byte(`
run "Bar" {
  units  = "mm"
  sketch = 5
}
part "bar" {
  pivot  = [0, 0]
  points = { ` + holes + ` }
}
part "tab" {
  pivot  = bar.b
  points = { te = [120, 80] }
}
control "hand" { of = bar }
control "other" { of = tab }
`)})
		require.NoError(t, err)
		plan := Plan(run)
		require.Equal(t, linkage.Gauged, plan[0].Kind)
		d := plan[0].To.At().Sub(plan[0].From.At())
		assert.Positive(t, d.X+d.Y, holes)
	}
	lever, tab := &linkage.Part{Motion: linkage.Turns}, &linkage.Part{Motion: linkage.Turns}
	tab.Carrier = &linkage.PointRef{Part: lever}
	assert.True(t, stays(linkage.PlaceRef{Part: lever, Point: -1}))
	assert.False(t, stays(linkage.PlaceRef{Part: lever, Point: 0}))
	assert.False(t, stays(linkage.PlaceRef{Part: tab, Point: -1}))
	assert.True(t, stays(linkage.PlaceRef{Part: &linkage.Part{Motion: linkage.Fixed}, Point: 0}))
}
