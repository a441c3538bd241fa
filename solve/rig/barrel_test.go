package rig_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/solve"
	"fullfree/solve/rig"
)

// A barrel with both hands alike and pitches of 1.25 and 1 mm: a turn out of its from
// end makes the rod 0.25 mm longer and takes the to end in by 1 mm. The rod is 2 mm
// short of the parallelogram in which the two levers go as one, so it takes 8 turns out.
// The to end, which goes in, has room for that; had it to come out, there would be
// thread for half a turn.
func TestRigTurnsABarrelOfHandsAlike(t *testing.T) {
	run := read(t, `
run "Barrel" { units = "mm" }
part "lever" {
  pivot  = [0, 0]
  points = { eye = [0, 50] }
}
part "arm" {
  pivot  = [200, 0]
  points = { eye = [200, 50] }
}
rod "link" {
  from   = lever.eye
  to     = arm.eye
  length = 198
  end "from" {
    thread  = "M8x1.25"
    engaged = 25
    least   = 9
    most    = 40
    step    = 0
  }
  end "to" {
    thread  = "M6x1"
    engaged = 10
    least   = 9.5
    most    = 30
    step    = 0
  }
}
control "hand" {
  of   = lever
  from = -20
  to   = 20
}
require "together" {
  of     = [lever, arm]
  within = 0.3
}
`)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	found, err := rig.Search(m, nil)
	require.NoError(t, err)
	require.True(t, found.Found)
	require.Len(t, found.Settings[0].Turns, 1)
	turn := found.Settings[0].Turns[0]
	assert.Equal(t, "link.from", turn.End.String())
	assert.InDelta(t, 8, turn.Turns, 1, "0.3 degrees at 50 mm are 0.26 mm, about a turn")
}
