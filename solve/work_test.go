package solve

import (
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/linkage/hunt"
)

// lowerWork lowers what one answer may take, for the length of a test.
func lowerWork(t *testing.T, to float64) {
	before := mostWork
	mostWork = to
	t.Cleanup(func() { mostWork = before })
}

func mechanismOf(t testing.TB, text string) *Mechanism {
	t.Helper()
	run, err := linkage.Read(&linkage.Source{Name: "test.hcl", Text: []byte(text)})
	require.NoError(t, err, "%s", text)
	m, err := Compile(run)
	require.NoError(t, err, "%s", text)
	return m
}

// checked is a run checked, with what that took.
func checked(t testing.TB, text string) (*Result, *work) {
	t.Helper()
	result, err := mechanismOf(t, text).Check()
	require.NoError(t, err, "%s", text)
	require.NotEmpty(t, result.Sweeps)
	return result, result.Sweeps[0].of.work
}

// levers is a run of so many rows of two levers and a rod, each with a control of its
// own that is held at so many settings.
func levers(rows, held int) string {
	var text strings.Builder
	text.WriteString("run \"Levers\" {\n units = \"mm\"\n}\n")
	for i := range rows {
		y := 500 * i
		fmt.Fprintf(&text, "part \"a%d\" {\n pivot = [0, %d]\n points = { p = [0, %d] }\n}\n", i, y, y+60)
		fmt.Fprintf(&text, "part \"b%d\" {\n pivot = [200, %d]\n points = { p = [200, %d] }\n}\n", i, y, y+60)
		fmt.Fprintf(&text, "rod \"r%d\" {\n from = a%d.p\n to = b%d.p\n}\n", i, i, i)
		settings := make([]string, held)
		for k := range settings {
			settings[k] = fmt.Sprint(k)
		}
		fmt.Fprintf(&text, "control \"c%d\" {\n of = a%d\n from = -40\n to = 40\n held = [%s]\n}\n", i, i, strings.Join(settings, ", "))
		fmt.Fprintf(&text, "stop \"low%d\" {\n of = a%d\n at = -30\n}\nstop \"high%d\" {\n of = a%d\n at = 30\n}\n", i, i, i, i)
	}
	return text.String()
}

// What is left out is counted, nothing holds for it, and what falls short still does.
func TestLeftOut(t *testing.T) {
	text := levers(3, 4) + `
require "together" "held" {
  of      = [a0, b0]
  within  = 1
}
require "travel" "short" {
  of      = b0
  low     = -10
  high    = 10
  within  = 1
}
`
	whole, all := checked(t, text)
	require.Len(t, whole.Sweeps, 3*4*4)
	assert.Zero(t, whole.SweepsLeftOut)
	assert.Equal(t, Holds, whole.Requirements[0].Verdict)

	lowerWork(t, all.spent/4)
	part, took := checked(t, text)
	assert.Equal(t, 3*4*4, len(part.Sweeps)+part.SweepsLeftOut)
	assert.Positive(t, part.SweepsLeftOut)
	assert.Less(t, took.spent, mostWork)
	assert.Equal(t, CannotTell, part.Requirements[0].Verdict)
	assert.Equal(t, LeftOut, part.Requirements[0].Why)
	assert.Equal(t, FallsShort, part.Requirements[1].Verdict, "a failure found stays one")
	assert.Equal(t, FallsShort, part.Verdict)
	seen := map[*linkage.Control]int{}
	for i, s := range part.Sweeps {
		assert.Equal(t, i, s.Index)
		seen[s.Control]++
	}
	assert.Len(t, seen, 3, "of every control something is looked at")
	again, _ := checked(t, text)
	assert.Equal(t, len(part.Sweeps), len(again.Sweeps), "the same each time")
}

// A single sweep that is too much ends where the work does, and tells how far it got.
func TestCutShort(t *testing.T) {
	text := levers(1, 1) + "require \"over-center\" { least = 5 }\nrequire \"stops\" {}\n"
	_, all := checked(t, text)
	lowerWork(t, all.spent*0.7)
	result, _ := checked(t, text)
	s := result.Sweeps[0]
	assert.True(t, s.CutShort)
	assert.False(t, s.Lost)
	assert.Less(t, s.Explored[1]-s.Explored[0], 80.0)
	for _, j := range result.Requirements {
		assert.NotEqual(t, Holds, j.Verdict)
	}
	m := mechanismOf(t, text)
	m.AddBands(result, nil) // none can be told, and nothing fails for that
}

// Bands are left out where there are too many dimensions for them.
func TestBandsLeftOut(t *testing.T) {
	m := mechanismOf(t, levers(4, 1)+"require \"together\" {\n of = [a0, b0]\n within = 1\n}\n")
	result, err := m.Check()
	require.NoError(t, err)
	lowerWork(t, 1000)
	m.AddBands(result, nil)
	assert.True(t, result.BandsLeftOut)
	assert.Nil(t, result.Requirements[0].Band)
}

// The cases of a failure analysis that are left out are counted.
func TestFailuresLeftOut(t *testing.T) {
	m := mechanismOf(t, levers(4, 1))
	whole, err := m.Failures(nil)
	require.NoError(t, err)
	require.Zero(t, whole.LeftOut)
	lowerWork(t, mostWork/60)
	part, err := mechanismOf(t, levers(4, 1)).Failures(nil)
	require.NoError(t, err)
	assert.Equal(t, len(whole.Cases), len(part.Cases)+part.LeftOut)
	assert.Positive(t, part.LeftOut)
}

// Runs that took minutes, gigabytes or had no end stay within what is for one answer.
func TestHarmfulRuns(t *testing.T) {
	lowerWork(t, mostWork/20)
	files, err := filepath.Glob("../testdata/harm/*.hcl")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		t.Run(filepath.Base(file), func(t *testing.T) {
			text, err := os.ReadFile(file)
			require.NoError(t, err)
			m := mechanismOf(t, string(text))
			result, err := m.Check()
			require.NoError(t, err)
			within(t, result, result.Sweeps[0].of.work)
			m.AddBands(result, nil)
		})
	}
}

// within asserts that an answer took no more than it may: the last sweep begun may go on
// from lastStart to the end, and past it by what lies between two of its samples.
func within(t *testing.T, result *Result, w *work) {
	t.Helper()
	const overshoot = 1.5
	assert.Less(t, w.spent, overshoot*mostWork)
	assert.Less(t, float64(w.kept), overshoot*mostNumbers)
	if w.spent > mostWork {
		cut := false
		for _, s := range result.Sweeps {
			cut = cut || s.CutShort
		}
		assert.True(t, cut || result.SweepsLeftOut > 0, "it is told")
	}
}

// Random runs of rows, controls and held settings take no more than they may.
func TestHuntWork(t *testing.T) {
	hunt.Each(t, 6, func(t *testing.T, random *rand.Rand) {
		lowerWork(t, 1e6*(1+9*random.Float64()))
		rows := 1 + random.IntN(30)
		held := 1
		if rows < 4 {
			held = 1 + random.IntN(9)
		}
		result, w := checked(t, levers(rows, held))
		within(t, result, w)
	})
}
