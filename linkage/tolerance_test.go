package linkage

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// made is a run in which some things say how far they may be out, and others leave it to
// the block.
const made = `
run "Made" {
  units = "mm"
}
tolerance {
  points     = 0.3
  pivots     = 0.5
  rods       = 0.25
  stops      = 2
  joint-play = 0.10
}
fixed "frame" {
  points    = { pin = [0, 0], datum = [50, 0], guide = [300, 0] }
  tolerance = 0.05
}
fixed "bracket" {
  points = { hinge = [200, 0] }
}
part "lever" {
  pivot  = frame.pin
  points = { eye = [0, 50], low = [0, -20], spare = [0, 70] }
}
part "arm" {
  pivot      = [100, 0]
  points     = { eye = [100, 50], top = [100, 70] }
  tolerance  = 0.1
  joint-play = 0.02
}
part "horn" {
  pivot  = bracket.hinge
  points = { eye = [200, 60] }
}
part "slider" {
  slide  = [1, 0]
  points = { eye = [330, 60] }
}
rod "link" {
  from   = lever.eye
  to     = arm.eye
  length = 100
  end "from" {
    thread     = "M6x1"
    engaged    = 14
    joint-play = 0.03
  }
}
rod "long" {
  from       = arm.top
  to         = horn.eye
  length     = 100.5
  tolerance  = 0
  joint-play = 0.05
}
rod "drawn" {
  from = horn.eye
  to   = slider.eye
}
control "hand" {
  of   = lever
  from = -30
  to   = 30
}
output "goes" { of = slider }
stop "aft" {
  of = lever
  at = -20
}
stop "fore" {
  of        = lever
  at        = 20
  tolerance = 0.5
}
stop "slid" {
  of = slider
  at = 10
}
`

// What a thing says itself rules over what the block says of all; what neither says is exact.
func TestOutBy(t *testing.T) {
	run := readText(t, made)
	want := map[string]float64{
		"frame.pin.x": 0.05, "frame.pin.y": 0.05, "bracket.hinge.x": 0.5, "bracket.hinge.y": 0.5,
		"lever.eye.x": 0.3, "lever.eye.y": 0.3, // lever.low and lever.spare carry nothing
		"arm.pivot.x": 0.1, "arm.pivot.y": 0.1, "arm.eye.x": 0.1, "arm.eye.y": 0.1, "arm.top.x": 0.1, "arm.top.y": 0.1,
		"horn.eye.x": 0.3, "horn.eye.y": 0.3, "slider.eye.x": 0.3, "slider.eye.y": 0.3,
		"link.length": 0.25, // the rod "long" is exact, and "drawn" is as long as its holes are apart
	}
	got := map[string]float64{}
	for _, d := range run.Dimensions() {
		if by := run.OutBy(d); by > 0 {
			got[d.String()] = by
		}
	}
	assert.Equal(t, want, got)
	assert.Equal(t, 2.0, run.StopOutBy(run.Stops[0]))
	assert.Equal(t, 0.5, run.StopOutBy(run.Stops[1]))
	assert.Zero(t, run.StopOutBy(run.Stops[2]), "the block's stops are degrees")
}

func TestPlayOfJoints(t *testing.T) {
	run := readText(t, made)
	assert.True(t, run.HasPlay())
	pivots := map[string]float64{}
	for _, p := range run.Parts {
		pivots[p.Name] = run.PivotPlay(p)
	}
	assert.Equal(t, map[string]float64{"frame": 0, "bracket": 0, "lever": 0.1, "arm": 0.02, "horn": 0.1, "slider": 0.1}, pivots)
	link, long, drawn := run.Rods[0], run.Rods[1], run.Rods[2]
	assert.Equal(t, []float64{0.03, 0.1}, []float64{run.EndPlay(link, "from"), run.EndPlay(link, "to")})
	assert.Equal(t, []float64{0.05, 0.05}, []float64{run.EndPlay(long, "from"), run.EndPlay(long, "to")})
	assert.Equal(t, 0.1, run.EndPlay(drawn, "to"))
}

// Heights count where the run is drawn with any, but not where a rod must be level.
func TestHeightsThatMayBeOut(t *testing.T) {
	const text = `
run "Heights" {
  units = "mm"
}
tolerance {
  points = 0.3
}
part "lever" {
  pivot  = [0, 0]
  points = { eye = [0, 50, 20], low = [0, -20] }
}
part "arm" {
  pivot  = [100, 0]
  points = { eye = [100, 50, 10], low = [100, -20], top = [100, 80] }
}
part "beam" {
  points = { a = [0, -60], b = [100, -60], c = [200, 80] }
}
rod "link" {
  from = lever.eye
  to   = arm.eye
}
rod "one" {
  from = lever.low
  to   = beam.a
}
rod "two" {
  from = arm.low
  to   = beam.b
}
rod "three" {
  from = arm.top
  to   = beam.c
}
control "hand" {
  of   = lever
  from = -5
  to   = 5
}
`
	run := readText(t, text)
	heights := map[string]float64{}
	for _, d := range run.Dimensions() {
		if by := run.OutBy(d); by > 0 && d.Axis == 2 {
			heights[d.String()] = by
		}
	}
	assert.Equal(t, map[string]float64{"lever.eye.z": 0.3, "arm.eye.z": 0.3}, heights)
}
