package solve_test

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/solve"
)

// rotorRequired is the head with its rotor and both kinds of pitch required.
const rotorRequired = `
rotor {
  hub   = hub
  turns = "anticlockwise from above"
}
require "collective-pitch" "blade a" {
  of     = pitch-a
  low    = -4.4
  high   = 19
  within = 0.3
}
require "cyclic-pitch" "blade a" {
  of      = pitch-a
  low     = 0
  high    = 14
  within  = 0.5
  control = cyclic
}
require "cyclic-pitch" "blade b" {
  of   = pitch-b
  most = 14.4
}
`

// senseRequired is which way the cyclic is to work besides.
const senseRequired = `require "cyclic-sense" "blade a" {
  of         = pitch-a
  when       = [plate.nose, "down"]
  least-over = 141
  within     = 3
  control    = cyclic
}
`

// senseText is the head with that.
func senseText(t testing.TB) string {
	return replaceOnce(t, rotorText(t), "points = { center = [0, 100, 0] }\n}\npart \"ring\"", "points = { center = [0, 100, 0], nose = [90, 100, 0] }\n}\npart \"ring\"") + senseRequired
}

func rotorText(t testing.TB) string {
	text := rotorHead
	for _, blade := range []string{"a", "b"} {
		text = replaceOnce(t, text, "output \"pitch-"+blade+"\" {\n", "output \"pitch-"+blade+"\" {\n  leading-edge = blade-"+blade+".horn\n")
	}
	return text + rotorRequired
}

// Builds of a head are judged as the heads that they are.
func TestBuildsOfARotor(t *testing.T) {
	run := read(t, senseText(t))
	m, err := solve.Compile(run)
	require.NoError(t, err)
	result, err := m.Check()
	require.NoError(t, err)
	builds, err := m.Builds(result)
	require.NoError(t, err)
	w := builds.Builder()
	random := rand.New(rand.NewPCG(3, 5))
	verdicts := map[solve.Verdict]bool{}
	for range 4 {
		build := outAtRandom(run, random, 0.4)
		var sparse, full solve.Judged
		require.NoError(t, w.Judge(build, false, &sparse))
		require.NoError(t, w.Judge(build, true, &full))
		want, err := builtByHand(t, run, build)
		require.NoError(t, err)
		for i := range want.Requirements {
			j := &want.Requirements[i]
			for _, got := range []solve.Figure{sparse.Requirements[i], full.Requirements[i]} {
				assert.Equal(t, j.Verdict, got.Verdict, j.Requirement.Name)
				require.True(t, got.Has)
				assert.InDelta(t, *j.Worst, got.Worst, 1e-8, j.Requirement.Name)
			}
			verdicts[j.Verdict] = true
		}
	}
	assert.True(t, verdicts[solve.Holds] && verdicts[solve.FallsShort], "both come up")
}

// What the band of a pitch promises: of builds that are out at random no more than a few in a
// hundred go beyond it, and bands aren't much too wide.
func TestBandsOfPitch(t *testing.T) {
	run := read(t, senseText(t))
	m, err := solve.Compile(run)
	require.NoError(t, err)
	result, err := m.Check()
	require.NoError(t, err)
	require.NoError(t, m.AddBands(result))
	builds, err := m.Builds(result)
	require.NoError(t, err)
	w := builds.Builder()
	random := rand.New(rand.NewPCG(9, 1))
	const all = 60
	beyond, far := make([]int, len(run.Requirements)), make([]int, len(run.Requirements))
	for range all {
		build := &solve.Build{Stops: make([]float64, len(run.Stops))}
		for _, d := range run.Dimensions() {
			out := run.Uncertain / 2 * random.NormFloat64()
			if d.IsLength() {
				out = 0 // as drawn
			}
			build.Dimensions = append(build.Dimensions, out)
		}
		var got solve.Judged
		require.NoError(t, w.Judge(build, false, &got))
		for i := range got.Requirements {
			j := &result.Requirements[i]
			require.NotNil(t, j.Band, j.Requirement.Name)
			off := got.Requirements[i].Worst - *j.Worst
			if off > *j.Band {
				beyond[i]++
			}
			if off > *j.Band/4 {
				far[i]++
			}
		}
	}
	for i, n := range beyond {
		assert.LessOrEqual(t, n, all/10, result.Requirements[i].Requirement.Name)
		assert.GreaterOrEqual(t, far[i], all/20, result.Requirements[i].Requirement.Name)
	}
}
