package solve_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// rockedLevers is two levers with arms of 60 and 80 and a level rod square to both at
// neutral: there the driven lever rocks by 4 x 0.1/80 radians, 0.28648 degrees, and the
// driving one by 4 x 0.1/60, 0.38197.
const rockedLevers = `
run "Rocked" {
  units = "mm"
}
tolerance {
  joint-play = 0.1
}
part "lever" {
  pivot  = [0, 0]
  points = { eye = [0, 60] }
}
part "crank" {
  pivot  = [200, -20]
  points = { eye = [200, 60] }
}
rod "link" {
  from = lever.eye
  to   = crank.eye
}
control "hand" {
  of   = lever
  from = -1
  to   = 1
}
output "goes" { of = crank }
require "free-play" {
  of   = goes
  most = 0.3
}
require "free-play" {
  of   = hand
  most = 0.38
}
`

func TestFreePlayJudged(t *testing.T) {
	r := check(t, rockedLevers)
	goes, hand := r.Requirements[0], r.Requirements[1]
	assert.Equal(t, solve.Holds, goes.Verdict)
	near(t, deg(4*0.1/80), *r.Sweeps[0].FreePlay[1].AtNeutral, 1e-9, "at neutral, square to arms of 80")
	near(t, deg(4*0.1/60), *r.Sweeps[0].FreePlay[0].AtNeutral, 1e-9, "at neutral, square to arms of 60")
	near(t, deg(4*0.1/80), *goes.Worst, 1e-3, "hardly more a degree away")
	assert.Equal(t, solve.FallsShort, hand.Verdict)
	assert.Equal(t, 0.38, hand.Limit)
	assert.NotContains(t, r.NotChecked, linkage.FreePlay)
}

// Where the run locks up there is no telling by slopes, and no verdict is made up; where a
// control moves no output nothing can be held against it.
func TestFreePlayThatCantBeTold(t *testing.T) {
	onCenter := strings.Replace(rockedLevers, "from = -1\n  to   = 1", "from = -90\n  to   = 90", 1)
	onCenter = strings.Replace(onCenter, "eye = [0, 60]", "eye = [0, 120]", 1)
	r := check(t, onCenter)
	require.Equal(t, solve.ByToggle, r.Sweeps[0].Ends[1].Cause)
	goes := r.Requirements[0]
	assert.Equal(t, solve.CannotTell, goes.Verdict)
	assert.Equal(t, solve.PlayUntold, goes.Why)
	assert.NotNil(t, r.Sweeps[0].FreePlay[1].AtNeutral)
	assert.Nil(t, r.Sweeps[0].FreePlay[1].Most)

	none := check(t, strings.Replace(strings.Split(rockedLevers, "output")[0], "tolerance {", "tolerance {\n  points = 0.1", 1)+`
require "free-play" {
  of   = hand
  most = 0.38
}`)
	assert.Equal(t, solve.PlayUntold, none.Requirements[0].Why)
	assert.Empty(t, none.Sweeps[0].FreePlay)
}

// Without a word of play nothing is told of it, and nothing said not to be checked.
func TestNoFreePlayWithoutJointPlay(t *testing.T) {
	text := strings.Split(rockedLevers, "require")[0]
	r := check(t, strings.Replace(text, "joint-play = 0.1", "points = 0.1", 1))
	assert.Empty(t, r.Sweeps[0].FreePlay)
	for _, kind := range r.NotChecked {
		assert.NotEqual(t, "free-play", string(kind))
	}
	assert.Contains(t, check(t, text).NotChecked, linkage.FreePlay)
}
