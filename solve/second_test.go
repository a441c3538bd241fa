package solve

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// secondText is a parallelogram, and a third rod of which one end lies beside
// its place by off.
func secondText(off string, more string) string {
	return `run "twice" {
  units = "mm"
}
part "lever" {
  pivot  = [0, 0]
  points = { near = [0, 50], far = [0, 80] }
}
part "rocker" {
  pivot  = [200, 0]
  points = { near = [200, 50], far = [200 + ` + off + `, 80] }
}
rod "link" {
  from = lever.near
  to   = rocker.near
}
rod "second" {
  from        = lever.far
  to          = rocker.far
  second-path = true
` + more + `
}
control "hand" {
  of   = lever
  from = -30
  to   = 30
}
require "second-path" {
  most = 0.1
}
require "rod-angle" {
  least = 30
}
`
}

// TestSecondPath: lever and rocker turn as one, so the second rod spans a
// vector that is 200 along and off turned with them.
func TestSecondPath(t *testing.T) {
	m := compiled(t, secondText("3", "  length = 203.2\n  play = 0.1"))
	result, err := m.Check()
	require.NoError(t, err)
	fit := result.Sweeps[0].Rods[1].SecondPath
	require.NotNil(t, fit)
	needs := func(turn float64) float64 {
		sin, cos := math.Sincos(turn * degree)
		return math.Hypot(200+3*cos, 3*sin)
	}
	require.InDelta(t, needs(30), fit.NeedsLeast, 1e-9)
	require.InDelta(t, 203, fit.NeedsMost, 1e-9)
	require.InDelta(t, 203.2-needs(30), fit.Misfit, 1e-9)
	require.InDelta(t, (needs(30)+203)/2, fit.BestLength, 1e-9)
	require.InDelta(t, 30, math.Abs(*fit.At), 1e-9)
	// It is 0.2 too long where it needs most, at neutral: it binds everywhere.
	require.Equal(t, [][2]float64{{-30, 30}}, fit.Binds)
	j := result.Requirements[0]
	require.Equal(t, FallsShort, j.Verdict)
	require.InDelta(t, fit.Misfit-0.1, *j.Worst, 1e-12)
	require.Equal(t, "link", result.Requirements[1].Rod.Name, "a second path drives nothing")
	require.Nil(t, result.Sweeps[0].Rods[0].SecondPath)
}

// TestSecondPathOfAParallelogram needs the same length everywhere.
func TestSecondPathOfAParallelogram(t *testing.T) {
	m := compiled(t, secondText("0", ""))
	result, err := m.Check()
	require.NoError(t, err)
	fit := result.Sweeps[0].Rods[1].SecondPath
	require.InDelta(t, 0, fit.Misfit, 1e-12)
	require.Nil(t, fit.At)
	require.Equal(t, Holds, result.Requirements[0].Verdict)
}

// TestSecondPathBinds: with the length for neutral and a play of 0.1 it binds
// where it needs 0.1 less.
func TestSecondPathBinds(t *testing.T) {
	m := compiled(t, secondText("3", "  length = 203\n  play = 0.1"))
	result, err := m.Check()
	require.NoError(t, err)
	binds := result.Sweeps[0].Rods[1].SecondPath.Binds
	// (200 + 3 cos)^2 + (3 sin)^2 = 202.9^2
	at := math.Acos((202.9*202.9-200*200-9)/1200) / degree
	require.Len(t, binds, 2)
	require.Equal(t, -30.0, binds[0][0])
	require.InDelta(t, -at, binds[0][1], 1e-9)
	require.InDelta(t, at, binds[1][0], 1e-9)
	require.Equal(t, 30.0, binds[1][1])
}
