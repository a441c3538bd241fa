package solve_test

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// headText is a whole rotor head, without what is required of it.
func headText(t testing.TB) string {
	text, err := os.ReadFile("../testdata/space/head.hcl")
	require.NoError(t, err)
	bare, _, _ := strings.Cut(string(text), `require "collective-pitch"`)
	return bare
}

// swashText is a ring on a ball that rides on a sleeve, moved by three levers at 120 degrees and kept from turning
// by a link.
const swashText = `run "swash plate" {
  units = "mm"
}
fixed "frame" {
  points = { brace = [120, 100, -90] }
}
part "left" {
  pivot  = [110, 0, 0]
  points = { pin = [80, 0, 0] }
}
part "middle" {
  pivot  = [-10, 0, 69.28203230275509]
  points = { pin = [-40, 0, 69.28203230275509] }
}
part "right" {
  pivot  = [-10, 0, -69.28203230275509]
  points = { pin = [-40, 0, -69.28203230275509] }
}
part "sleeve" {
  pivot  = [0, 60, 0]
  axis   = [0, 1, 0]
  slides = true
  points = { center = [0, 100, 0] }
}
part "ring" {
  ball   = sleeve.center
  points = {
    a   = [80, 100, 0]
    b   = [-40, 100, 69.28203230275509]
    c   = [-40, 100, -69.28203230275509]
    arm = [0, 100, -90]
    off = [20, 130, 5]
  }
}
rod "a" {
  from = left.pin
  to   = ring.a
}
rod "b" {
  from = middle.pin
  to   = ring.b
}
rod "c" {
  from = right.pin
  to   = ring.c
}
rod "link" {
  from = frame.brace
  to   = ring.arm
}
control "one" {
  of   = left
  from = -20
  to   = 20
}
control "two" {
  of   = middle
  from = -20
  to   = 20
}
control "three" {
  of   = right
  from = -20
  to   = 20
}
output "lift" {
  of    = ring.off
  along = [0, 1, 0]
}
output "lean" {
  of    = ring
  tilts = [1, 0, 0]
}
`

// barText is a four-bar of which the rod, by bar, may be a part joined at both ends.
func barText(bar string) string {
	return `run "bar" {
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
` + bar + `
control "hand" {
  of   = crank
  from = -170
  to   = 170
}
output "out" {
  of = rocker
}
`
}

const (
	barAsRod = `rod "bar" {
  from = crank.pin
  to   = rocker.pin
}`
	barInPlane = `part "bar" {
  points = { one = [5, 60], two = [190, 85] }
}
joint "near" {
  of = [crank.pin, bar.one]
}
joint "far" {
  of = [bar.two, rocker.pin]
}`
	barInSpace = `part "bar" {
  floats = "space"
  points = { one = [5, 60], two = [190, 85] }
}
joint "near" {
  of = [crank.pin, bar.one]
}
joint "far" {
  of = [bar.two, rocker.pin]
}`
)

// flat makes a text's four-bar a parallelogram, which goes flat a quarter turn either way.
func flat(text string) string {
	return strings.NewReplacer("[5, 60]", "[0, 60]", "[180, 20]", "[150, 0]", "[190, 85]", "[150, 60]").Replace(text)
}

// cardanText is a universal joint that bends by 30 degrees; cross is what its cross is held by.
func cardanText(cross string) string {
	return `run "cardan" {
  units = "mm"
}
part "in" {
  pivot  = [0, 0, 0]
  axis   = [1, 0, 0]
  points = { middle = [0, 0, 0], ear = [0, 20, 0] }
}
part "out" {
  pivot  = [0, 0, 0]
  axis   = [0.8660254037844387, 0.5, 0]
  points = { ear = [0, 0, 20] }
}
part "cross" {
  ` + cross + `
  points = { arm = [0, 0, 20], other = [0, 20, 0] }
}
joint "driven" {
  of = [cross.arm, out.ear]
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
}

const crossOnShaft = "pivot = in.middle\n  axis = [0, 1, 0]"

// crossOnBall has one more joint behind it.
const (
	crossOnBall = "ball = [0, 0, 0]"
	crossDriven = `joint "driving" {
  of = [in.ear, cross.other]
}
`
)

// compiled is the mechanism of a text.
func compileText(t testing.TB, text string) (*linkage.Run, *solve.Mechanism) {
	t.Helper()
	run := read(t, text)
	m, err := solve.Compile(run)
	require.NoError(t, err, "%s", text)
	return run, m
}
