package demo_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/demo"
	"fullfree/linkage"
	"fullfree/solve"
	"fullfree/solve/rig"
)

// What the second path of the dual pedals needs is the distance of its two holes
// with the right tube and the far rocker where their own rods put them.
func TestDualSecondPathNeedsWhatTheFormulaSays(t *testing.T) {
	r := check(t, text(t, demo.Dual))
	d := drawing{t, r.Run}
	s := r.Sweeps[0]
	assert.Equal(t, solve.Holds, r.Verdict)
	var fit *solve.SecondPathFit
	for _, rod := range s.Rods {
		if rod.Rod.Name == "far-right-link" {
			fit = rod.SecondPath
		} else {
			assert.Nil(t, rod.SecondPath, rod.Rod.Name)
		}
	}
	require.NotNil(t, fit)

	low, high := math.Inf(1), math.Inf(-1)
	needed := func(x float64) float64 {
		rocker := d.closes("rocker.upper", d.turned("left-tube", d.point("left-tube.horn"), x), d.rod("left-link").Length, x)
		tube := d.closes("right-tube.horn", d.turned("rocker", d.point("rocker.lower"), rocker), d.rod("right-link").Length, -x)
		far := d.closes("far-rocker.upper", d.turned("left-tube", d.point("left-tube.far-horn"), x), d.rod("far-left-link").Length, x)
		from := d.turned("right-tube", d.point("right-tube.far-horn"), tube)
		to := d.turned("far-rocker", d.point("far-rocker.lower"), far)
		return to.Sub(from).Norm()
	}
	const steps = 560
	for i := 0; i <= steps; i++ {
		v := needed(s.Low + (s.High-s.Low)*float64(i)/steps)
		low, high = math.Min(low, v), math.Max(high, v)
	}
	const sampled = 1e-4 // mm: what an extreme between two samples can hide
	assert.InDelta(t, low, fit.NeedsLeast, sampled)
	assert.InDelta(t, high, fit.NeedsMost, sampled)
	assert.LessOrEqual(t, fit.NeedsLeast, low+tight)
	assert.GreaterOrEqual(t, fit.NeedsMost, high-tight)
	assert.InDelta(t, (fit.NeedsLeast+fit.NeedsMost)/2, fit.BestLength, tight)
	require.NotNil(t, fit.At)
	assert.InDelta(t, math.Abs(needed(*fit.At)-d.rod("far-right-link").Length), fit.Misfit, tight)
	assert.Less(t, fit.Misfit, d.rod("far-right-link").Play)
}

// A turn too many of the rod that drives the far rocker, and the paths bind.
func TestDualATurnTooManyBinds(t *testing.T) {
	run := read(t, text(t, demo.Dual))
	for _, rod := range run.Rods {
		if rod.Name == "far-left-link" {
			var err error
			run, err = run.With(linkage.Turn(rod.End("from"), 1))
			require.NoError(t, err)
		}
	}
	r := judge(t, run)
	for _, j := range r.Requirements {
		want := solve.Holds
		if j.Requirement.Kind == linkage.SecondPath {
			want = solve.FallsShort
		}
		assert.Equal(t, want, j.Verdict, "%s", j.Requirement.Kind)
	}
	assert.InDelta(t, 0.9, *judged(t, r, linkage.SecondPath).Worst, 0.2, "a turn of M6 is 1 mm, less the play")
}

// As it was found, the right pedal stands 1.4 degrees aft; three half turns of the
// right rod put it where its bolts slide in.
func TestUnequalIsPutRightByThreeHalfTurns(t *testing.T) {
	run := read(t, text(t, demo.Unequal))
	r := judge(t, run)
	assert.Equal(t, solve.FallsShort, r.Verdict)
	assert.InDelta(t, -1.4, travel(t, r.Sweeps[0], "right-pedal").Neutral, 0.05)
	assert.InDelta(t, 0, travel(t, r.Sweeps[0], "rocker").Neutral, 0.05)

	m, err := solve.Compile(run)
	require.NoError(t, err)
	found, err := rig.Search(m, nil)
	require.NoError(t, err)
	require.True(t, found.Found)
	best := found.Settings[0]
	require.Len(t, best.Turns, 1)
	assert.Equal(t, "right-link.from", best.Turns[0].End.String())
	assert.Equal(t, -1.5, best.Turns[0].Turns)
	assert.InDelta(t, 0, travel(t, best.Check.Sweeps[0], "right-pedal").Neutral, 0.2)
}
