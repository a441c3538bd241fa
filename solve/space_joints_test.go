package solve

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
)

const barText = `run "bar" {
  units = "mm"
}
part "crank" {
  pivot  = [0, 0]
  points = { pin = [5, 60] }
}
part "rocker" {
  pivot  = [180, 20]
  points = { pin = [190, 85] }
}
rod "bar" {
  from = crank.pin
  to   = rocker.pin
}
control "hand" {
  of   = crank
  from = -60
  to   = 90
}
output "out" {
  of = rocker
}
`

const jointText = `run "bar" {
  units = "mm"
}
part "crank" {
  pivot  = [0, 0]
  points = { pin = [5, 60] }
}
part "rocker" {
  pivot  = [180, 20]
  points = { pin = [190, 85] }
}
part "bar" {
  pivot  = [30, 30]
  points = { one = [5, 60], two = [190, 85] }
}
control "hand" {
  of   = crank
  from = -60
  to   = 90
}
output "out" {
  of = rocker
}
`

// A rod and a part joined at both its ends are the same, whether the part may move in space
// or in the plane of the drawing.
func TestJointsAgainstRod(t *testing.T) {
	want, err := Compile(inSpace(t, barText, nil))
	require.NoError(t, err)
	rod, err := want.Check()
	require.NoError(t, err)
	joints := [][2]string{{"crank.pin", "bar.one"}, {"bar.two", "rocker.pin"}}
	for _, motion := range []linkage.Motion{linkage.Roams, linkage.Floats} {
		run := inSpace(t, jointText, map[string]linkage.Motion{"bar": motion}, joints...)
		run.Plane = motion == linkage.Floats
		m, err := Compile(run)
		require.NoError(t, err)
		got, err := m.Check()
		require.NoError(t, err)
		w, g := rod.Sweeps[0], got.Sweeps[0]
		assert.InDelta(t, w.Low, g.Low, 1e-9)
		assert.InDelta(t, w.High, g.High, 1e-9)
		assert.Len(t, g.Critical, len(w.Critical))
		for _, x := range []float64{-50, -20, 0, 13, 40} {
			a, ok := w.At(math.Max(w.Low, math.Min(w.High, x)))
			require.True(t, ok)
			b, ok := g.At(math.Max(w.Low, math.Min(w.High, x)))
			require.True(t, ok)
			assert.InDelta(t, a.Reading(w.Outputs[0].Output), b.Reading(g.Outputs[0].Output), 1e-9)
		}
		assert.InDelta(t, *w.Outputs[0].Ratio.Neutral, *g.Outputs[0].Ratio.Neutral, 1e-9)
		assert.InDelta(t, w.Outputs[0].Extent.Least, g.Outputs[0].Extent.Least, 1e-9)
	}
}

const cardanText = `run "cardan" {
  units = "mm"
}
part "in" {
  pivot  = [0, 0, 0]
  axis   = [1, 0, 0]
  points = { middle = [0, 0, 0], ear = [0, 20, 0] }
}
part "cross" {
  pivot  = in.middle
  axis   = [0, 1, 0]
  points = { arm = [0, 0, 20], other = [0, 20, 0] }
}
part "out" {
  pivot  = [0, 0, 0]
  axis   = [0.8660254037844387, 0.5, 0]
  points = { ear = [0, 0, 20] }
}
control "azimuth" {
  of   = in
  from = -180
  to   = 180
}
output "shaft" {
  of = out
}
`

// A universal joint turns its shaft by tan a = tan b cos(bend), where the arm of its cross
// that the driven shaft holds stands square to both shafts as drawn (textbook, from memory). The
// cross may be a hinge on the driving shaft, or on a ball where the shafts cross.
func TestCardan(t *testing.T) {
	onBall := strings.Replace(cardanText, "pivot  = in.middle", "pivot  = [0, 0, 0]", 1)
	for name, run := range map[string]*linkage.Run{
		"hinge": inSpace(t, cardanText, nil, [2]string{"cross.arm", "out.ear"}),
		"ball": inSpace(t, onBall, map[string]linkage.Motion{"cross": linkage.Tilts},
			[2]string{"cross.arm", "out.ear"}, [2]string{"in.ear", "cross.other"}),
	} {
		m, err := Compile(run)
		require.NoError(t, err, name)
		result, err := m.Check()
		require.NoError(t, err, name)
		w := result.Sweeps[0]
		assert.Equal(t, [2]float64{-180, 180}, [2]float64{w.Low, w.High}, name)
		assert.Empty(t, w.Critical, name)
		for x := -180.0; x <= 180; x += 7.5 {
			pose, ok := w.At(x)
			require.True(t, ok)
			b, a := pose.Reading(run.Outputs[0])*degree, x*degree
			assert.InDelta(t, math.Sin(a)*math.Cos(b), math.Sin(b)*math.Cos(a)*math.Cos(30*degree), 1e-12, "%s at %v", name, x)
			assert.InDelta(t, x, b/degree, 10, "%s at %v", name, x)
		}
	}
}
