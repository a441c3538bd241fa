package rig_test

import (
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
	"fullfree/solve/rig"
)

// answer reads a run of testdata/answers.
func answer(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile("../../testdata/answers/" + name + ".hcl")
	require.NoError(t, err)
	return string(text)
}

func failed(r *solve.Result) (count int) {
	for _, j := range r.Requirements {
		if j.Verdict != solve.Holds {
			count++
		}
	}
	return count
}

// TestRigTurnsOneEndWhereOneDoes: a second path is set 0.9 mm short, and check
// tells how it fits best. Two ends would put the pedals, which are right at neutral,
// off it, for half as much again in reserve.
func TestRigTurnsOneEndWhereOneDoes(t *testing.T) {
	text := answer(t, "d1-dual")
	run, found := rigOf(t, text)
	require.True(t, found.Found)
	best := found.Settings[0]
	require.Equal(t, "lc.to=+1", told(&best))
	require.Empty(t, best.Displaced)
	for _, rod := range check(t, text).Sweeps[0].Rods {
		if rod.SecondPath != nil {
			require.InDelta(t, rod.SecondPath.BestLength, edited(t, run, best.Edits()...).Rod(rod.Rod).Length, 0.25, "to half a step of what check tells")
		}
	}
	require.NotNil(t, found.Most, "what has more is told")
	require.Len(t, found.Most.Turns, 2)
	require.Greater(t, *found.Most.Reserve, *best.Reserve)
	require.GreaterOrEqual(t, *best.Reserve, *found.Most.Reserve/2)
	require.NotEmpty(t, found.Most.Displaced)
}

// TestRigClosestFailsInNoMoreThanTheFile: there is no setting at which the rods
// stand steep enough, and what comes nearest to it leaves the travels short.
func TestRigClosestFailsInNoMoreThanTheFile(t *testing.T) {
	text := answer(t, "rig-closest")
	filed := check(t, text)
	require.Equal(t, 1, failed(filed))
	_, found := rigOf(t, text)
	require.False(t, found.Found)
	for _, s := range found.Settings {
		require.Equal(t, 1, failed(s.Check))
		require.GreaterOrEqual(t, *s.Reserve, *filed.Reserve(), "nor misses more")
	}
	require.Len(t, found.InTheWay, 1)
	require.Equal(t, linkage.RodAngle, found.InTheWay[0].What.Requirement.Kind)
}

// TestRigTellsWhatNeutralLoses: the ailerons stand right at neutral as filed; what
// is told that they stand at then is what a file set so comes to.
func TestRigTellsWhatNeutralLoses(t *testing.T) {
	text := answer(t, "rig-neutral")
	run, found := rigOf(t, text)
	require.True(t, found.Found)
	lost := 0
	for _, s := range found.Settings {
		var settings []linkage.Setting
		run := edited(t, run, s.Edits()...)
		for _, r := range run.Rods {
			settings = append(settings, set(r.Name+".length", r.Length))
		}
		for _, stop := range run.Stops {
			settings = append(settings, set(stop.Name+".at", stop.At))
		}
		told := map[string]float64{}
		for _, d := range s.Displaced {
			require.InDelta(t, 0, d.Was, 1e-9)
			told[d.Name] = d.At
		}
		sweep := check(t, text, settings...).Sweeps[0]
		for _, p := range sweep.Parts {
			if at, ok := told[p.Name]; ok {
				lost++
				require.InDelta(t, p.Neutral, at, 1e-9)
				continue
			}
			require.InDelta(t, 0, p.Neutral, 0.05, p.Name)
		}
		for _, o := range sweep.Outputs {
			if at, ok := told[o.Output.Name]; ok {
				require.InDelta(t, o.Neutral, at, 1e-9)
			}
		}
	}
	require.Positive(t, lost)
}

// TestRigKeepsToItsWork: many ends, many parts and much metal make every check
// longer, so there must be fewer; and what was left out is told.
func TestRigKeepsToItsWork(t *testing.T) {
	chain := func(rods int, ends string, more string) string {
		var text strings.Builder
		text.WriteString("run \"Chain\" { units = \"mm\" }\n")
		for i := range rods + 1 {
			fmt.Fprintf(&text, "part \"p%d\" {\n  pivot = [%d, 0]\n  points = { a = [%d, 50] }\n}\n", i, i*100, i*100)
		}
		for i := range rods {
			fmt.Fprintf(&text, "rod \"r%d\" {\n  from = p%d.a\n  to = p%d.a\n%s}\n", i, i, i+1, ends)
		}
		return text.String() + "control \"c\" {\n  of = p0\n  from = -20\n  to = 20\n}\nrequire \"rod-angle\" { least = 40 }\n" + more
	}
	both := rigEnd("from") + rigEnd("to")
	var many strings.Builder
	for i := range 600 {
		fmt.Fprintf(&many, "require \"steady\" \"%d\" {\n  of = p3\n  within = %d\n}\n", i, 20+i)
	}
	for name, text := range map[string]string{
		"parts":        chain(30, both, ""),
		"requirements": chain(7, both, many.String()),
	} {
		t.Run(name, func(t *testing.T) {
			m, err := solve.Compile(read(t, text))
			require.NoError(t, err)
			found, work, err := rig.RigWork(m)
			require.NoError(t, err)
			require.NotEmpty(t, found.Settings)
			require.False(t, found.Searched.Whole)
			require.Contains(t, found.Searched.String(), "not the")
			require.Less(t, work, 1.25*rig.MostRigWork())
			t.Logf("%d of %g checked", found.Searched.Checked, found.Searched.Poses)
		})
	}
}
