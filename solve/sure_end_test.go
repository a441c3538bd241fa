package solve_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/solve"
)

// A parallelogram's rod stays level, so at 40 degrees it stands at 50 to the arm. A stop
// ends the travel there and nothing else can end it earlier, so what falls 25 degrees
// short there is surely short: holes out by a millimeter on arms of 60 turn it by two or
// three.
func TestWhatFallsShortAtAStopIsSurelyShort(t *testing.T) {
	run := read(t, `
run "Square" {
  units     = "mm"
  uncertain = 1
}
part "lever" {
  pivot  = [0, 0]
  points = { eye = [0, 60] }
}
part "arm" {
  pivot  = [200, 0]
  points = { eye = [200, 60] }
}
rod "link" {
  from = lever.eye
  to   = arm.eye
}
control "hand" {
  of   = lever
  from = -60
  to   = 60
}
stop "low" {
  of = lever
  at = -10
}
stop "high" {
  of = lever
  at = 40
}
require "rod-angle" { least = 75 }
`)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	result, err := m.Check()
	require.NoError(t, err)
	require.NoError(t, m.AddBands(result, nil))
	j := result.Requirements[0]
	require.NotNil(t, j.Worst)
	assert.InDelta(t, 50, *j.Worst, 1e-9)
	assert.InDelta(t, 40, *j.At, 1e-9)
	require.NotNil(t, j.Sure)
	assert.True(t, *j.Sure)
}
