package solve

import (
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
)

// demoFiles are the demos that stand by themselves.
func demoFiles(t *testing.T) []string {
	t.Helper()
	files, err := filepath.Glob("../demo/*.hcl")
	require.NoError(t, err)
	return files
}

// Slopes against differences of whole checks, by every number of the demos.
func TestSlopesAreDifferences(t *testing.T) {
	told := 0
	for _, file := range []string{"pedals", "throttle", "sticks", "flaps", "pedals-unequal", "ailerons"} {
		text, err := os.ReadFile("../demo/" + file + ".hcl")
		require.NoError(t, err)
		m := compiled(t, string(text))
		run := m.Run()
		result, err := m.Check()
		require.NoError(t, err)
		slopes, err := m.Slopes(result)
		require.NoError(t, err)
		h := 1e-5 * run.Size()
		for _, n := range run.Numbers() {
			var sides [2]*Result
			for i, sign := range []float64{-1, 1} {
				as, err := m.CheckWith(linkage.SetNumber(n, n.Value()+sign*h))
				if err == nil {
					sides[i] = as.Result
				}
			}
			if sides[0] == nil || sides[1] == nil {
				continue
			}
			for k, g := range slopes {
				a, b, j := sides[0].Requirements[k].Worst, sides[1].Requirements[k].Worst, &result.Requirements[k]
				if g == nil || a == nil || b == nil {
					continue
				}
				left, right := (*j.Worst-*a)/h, (*b-*j.Worst)/h
				by, ok := g.Of(run, n)
				require.True(t, ok)
				if math.Abs(left-right) > 1e-2*math.Max(1e-3, math.Abs(left)+math.Abs(right)) {
					continue // a bend: two places are as bad as each other
				}
				// Of a figure that ends on nothing within what is explored the worst is a limit of looking.
				assert.InDelta(t, (left+right)/2, by, 1e-2*math.Max(0.05, math.Abs(by)), "%s: %s %s by %s", file, j.Requirement.Kind, j.Requirement.Name, n)
				told++
			}
		}
	}
	require.Greater(t, told, 500)
}

// A glance comes to what a check comes to wherever nothing happens twice within three
// degrees, as in every demo.
func TestGlanceAgreesWithCheck(t *testing.T) {
	for _, file := range demoFiles(t) {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		run, err := linkage.Read(&linkage.Source{Name: file, Text: text})
		require.NoError(t, err)
		m, err := Compile(run)
		if err != nil || run.Sketch > 0 {
			continue
		}
		whole, err := m.Check()
		require.NoError(t, err)
		glance, err := m.GlanceRun(run)
		require.NoError(t, err)
		for i := range whole.Requirements {
			a, b := &whole.Requirements[i], &glance.Result.Requirements[i]
			assert.Equal(t, a.Verdict, b.Verdict, "%s: %s", file, a.Requirement.Kind)
			if a.Worst != nil {
				require.NotNil(t, b.Worst)
				assert.InDelta(t, *a.Worst, *b.Worst, 1e-7*math.Max(1, math.Abs(*a.Worst)), "%s: %s", file, a.Requirement.Kind)
			}
		}
	}
}

// The share of a tilt and of a second path's misfit, by hand.
func TestReserveBeyondARodsOwn(t *testing.T) {
	tilts, play := 10.0, 0.5
	worst := -6.5
	j := Judgement{Requirement: &linkage.Requirement{Kind: linkage.Misalignment}, Verdict: Holds, Worst: &worst, Rod: &linkage.Rod{Misalignment: &tilts}}
	assert.InDelta(t, 0.65, *j.Reserve(), 1e-15, "3.5 of 10 degrees are used")
	none := 0.0
	j = Judgement{Requirement: &linkage.Requirement{Kind: linkage.SecondPath}, Verdict: Holds, Worst: &none, Reaches: 0.4, Rod: &linkage.Rod{Play: play}}
	assert.InDelta(t, 0.2, *j.Reserve(), 1e-15, "0.4 of 0.5 is taken up")
	beyond := 0.25
	j.Worst, j.Reaches, j.Verdict = &beyond, 0.75, FallsShort
	assert.InDelta(t, -0.5, *j.Reserve(), 1e-15)
	assert.InDelta(t, 0.5, j.MissedShare(), 1e-15)
}
