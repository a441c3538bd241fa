package solve_test

import (
	"errors"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
	"fullfree/solve/rig"
)

// arcTop is a lever whose hand goes over the top of its arc at 30 degrees: its height
// turns back there, though the lever goes on (elementary).
const arcTop = `run "top" {
  units = "mm"
}
part "lever" {
  pivot  = [0, 0]
  points = { hand = [-50, 86.602540378443865] }
}
control "c" {
  of   = lever
  from = -60
  to   = 20
}
output "height" {
  of    = lever.hand
  along = [0, 1]
}
stop "low" {
  of = lever
  at = -50
}
stop "high" {
  of = lever
  at = 15
}
require "over-center" { least = 10 }
`

func TestOutputThatTurnsBackByItself(t *testing.T) {
	result := check(t, arcTop)
	require.Equal(t, solve.FallsShort, result.Verdict)
	require.Len(t, result.Sweeps[0].Critical, 1)
	c := result.Sweeps[0].Critical[0]
	assert.Equal(t, solve.DeadCenter, c.Kind)
	assert.Equal(t, "height", c.Name())
	assert.Nil(t, c.Rod)
	near(t, -30, c.At, 1e-9, "the top of the arc")
	near(t, -20, c.Margin, 1e-9, "inside the travel")

	for _, of := range []string{"require \"steady\" {\n  of = height\n  within = 100\n  control = c\n}\n", "require \"steady\" {\n  of = height\n  within = 100\n}\n"} {
		assert.Empty(t, check(t, arcTop+of).Sweeps[0].Critical, "a control that should leave it alone")
	}
}

// TestRigTellsAFaultyFile: a setting held beyond a stop is a fault of the file that no
// rod end mends.
func TestRigTellsAFaultyFile(t *testing.T) {
	run := read(t, `run "held" {
  units = "mm"
}
part "lever" {
  pivot  = [0, 0]
  points = { pin = [0, 60] }
}
part "arm" {
  pivot  = [200, 0]
  points = { pin = [200, 60] }
}
part "grip" {
  pivot = [500, 0]
}
rod "threaded" {
  from = lever.pin
  to   = arm.pin
  end "to" {
    thread  = "M6x1"
    engaged = 10
    most    = 12
  }
}
control "c" {
  of   = lever
  from = -20
  to   = 20
}
control "twist" {
  of   = grip
  from = -40
  to   = 40
  held = [0, 30]
}
stop "twist-stop" {
  of = grip
  at = 20
}
require "together" {
  of     = [lever, arm]
  within = 1
}
`)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	_, err = rig.Search(m, nil)
	var faults *linkage.Faults
	require.True(t, errors.As(err, &faults), "%v", err)
	assert.Contains(t, err.Error(), "twist-stop")
}
