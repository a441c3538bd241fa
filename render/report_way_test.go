package render

import (
	"strings"
	"testing"

	"fullfree/linkage"
	"fullfree/render/internal/sample"

	"github.com/stretchr/testify/assert"
)

// grip is a lever alone, upright, as tall as a ruler: turned 30 degrees its
// grip goes 100 sin 30 across and 100 (1 - cos 30) down.
const grip = `run "Grip" {
  units = "mm"
  %arrows
}
part "lever" {
  pivot  = [0, 0]
  points = { foot = [0, -20], grip = [0, 100], knob = [0, 100, 5] }
}
control "hand" {
  of    = lever
  from  = -40
  to    = 40
  plus  = "back"
}
output "gauge" {
  of    = lever
  minus = "forward"
  reads = 5
}
stop "low" {
  of = lever
  at = -30
}
stop "high" {
  of = lever
  at = 30
}
`

func gripWith(t *testing.T, arrows string) string {
	t.Helper()
	return reported(t, sample.Checked(t, "grip.hcl", strings.Replace(grip, "%arrows", arrows, 1)))
}

// The words of the file say back, the drawing goes forward: both are told.
func TestReportTellsWhichWayTheDrawingGoes(t *testing.T) {
	got := gripWith(t, "forward = [-1, 0]\n  up = [0, 1]")
	assert.Contains(t, got, "stop to stop\n  -30.0°: as drawn, lever.grip goes 50.0 mm aft and 13.4 mm down\n"+
		"  30.0° (back): as drawn, lever.grip goes 50.0 mm forward and 13.4 mm\n    down\n")
	assert.Contains(t, got, "    -25.0° (forward), low end: as drawn, lever.grip goes 50.0 mm aft and\n      13.4 mm down\n"+
		"    35.0°, high end: as drawn, lever.grip goes 50.0 mm forward and\n      13.4 mm down\n")
}

func TestReportTellsOnlyTheWaysThatTheFileGives(t *testing.T) {
	assert.NotContains(t, gripWith(t, ""), "as drawn, lever")
	assert.Contains(t, gripWith(t, "up = [0, 1]"), "30.0° (back): as drawn, lever.grip goes 13.4 mm down\n")
	assert.Contains(t, gripWith(t, "forward = [0, 0, 1]"), "30.0° (back): as drawn, lever.grip goes neither forward nor aft\n")
}

func TestWayOf(t *testing.T) {
	forward, up := linkage.Vec{X: -1}, linkage.Vec{Y: 1}
	right := forward.Cross(up)
	run := &linkage.Run{Units: linkage.Inches, Forward: &forward, Up: &up, Right: &right}
	// Seen from the left side, nose to the left: what comes towards you goes left.
	assert.Equal(t, "goes 1/2 in forward and 1 1/4 in left", wayOf(run, linkage.Vec{X: -0.5, Z: 1.25}))
	assert.Equal(t, "goes 1 in aft, 2 in down and 3 in right", wayOf(run, linkage.Vec{X: 1, Y: -2, Z: -3}))
	assert.Equal(t, "stays where it is", wayOf(run, linkage.Vec{X: 1e-3}))
	run.Up, run.Right = &linkage.Vec{X: 0.6, Y: 0.8}, nil
	assert.Equal(t, "goes 3 in up", wayOf(run, linkage.Vec{Y: 3.75, Z: 2}), "out of square, left and right are not known")
	run.Forward, run.Up = nil, nil
	assert.Empty(t, wayOf(run, linkage.Vec{X: 1}))
}

// A hand on a control moves what rides on its part; what an output's part is
// carried along by is no turn of its own.
func TestReportTellsTheWayOfWhatIsHandled(t *testing.T) {
	sticks := reported(t, sample.Checked(t, "sticks.hcl", sample.DemoText(t, "sticks")))
	assert.Contains(t, sticks, "12.0° (sticks forward) with roll at neutral: as drawn, left-stick.grip\n    goes 86.4 mm forward")
	assert.Contains(t, sticks, "12.0° (sticks left) with pitch at neutral: as drawn, left-stick.grip\n    goes 8.9 mm down and 84.2 mm left\n")
	mixer := reported(t, sample.Checked(t, "mixer.hcl", sample.DemoText(t, "mixer")))
	assert.Contains(t, mixer, "11.5° (nose up), low end: as drawn, ring.fore goes 1.4 mm aft and\n      13.9 mm up against the middle of its holes\n")
}

// Which word a reading has goes by what it is at neutral.
func TestWordsOfAReadingGoByNeutral(t *testing.T) {
	text := strings.NewReplacer("%arrows", "forward = [-1, 0]\n  up = [0, 1]", "reads = 5", "reads = 50").Replace(grip)
	assert.Contains(t, reported(t, sample.Checked(t, "grip.hcl", text)), "    20.0° (forward), low end: as drawn, lever.grip goes 50.0 mm aft and\n      13.4 mm down\n")
}

// A floating piece on three rods of one lever turns with it as one piece. Against the middle
// of its holes, (106.67, 0), the hole at (100, -50) goes from (-6.67, -50) to that turned
// by 30 degrees, (19.23, -46.63): 25.9 across and 3.4 up.
func TestAFloatingPieceGoesAgainstItsMiddle(t *testing.T) {
	const beam = `run "Beam" {
  units   = "mm"
  forward = [-1, 0]
  up      = [0, 1]
}
part "lever" {
  pivot  = [0, 0]
  points = { low = [0, -60], high = [0, 60] }
}
part "beam" {
  points = { low = [100, -50], high = [100, 50], nose = [120, 0] }
}
rod "under" {
  from = lever.low
  to   = beam.low
}
rod "over" {
  from = lever.high
  to   = beam.high
}
rod "across" {
  from = lever.low
  to   = beam.high
}
control "hand" {
  of   = lever
  from = -10
  to   = 40
}
stop "high" {
  of = lever
  at = 30
}
output "turns" { of = beam }
`
	got := sample.Flat(reported(t, sample.Checked(t, "beam.hcl", beam)))
	assert.Contains(t, got, "30.0°, high end: as drawn, beam.low goes 25.9 mm aft and 3.4 mm up against the middle of its holes")
}
