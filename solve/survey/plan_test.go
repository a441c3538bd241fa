package survey_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"fullfree/linkage"
	"fullfree/solve/survey"
)

// distances returns the derivatives of planned distances by every coordinate
// of every place that isn't exact: an independent way to the rank.
func distances(run *linkage.Run, plan []survey.Planned) *mat.Dense {
	axes := 3
	if run.Plane {
		axes = 2
	}
	column := map[string]int{}
	for _, p := range survey.Places(run) {
		if !p.Part.Exact {
			column[p.String()] = axes * len(column)
		}
	}
	rows := mat.NewDense(len(plan), max(1, axes*len(column)), nil)
	for i, m := range plan {
		u := m.To.At().Sub(m.From.At()).Unit()
		for axis, v := range []float64{u.X, u.Y, u.Z}[:axes] {
			if at, ok := column[m.From.String()]; ok {
				rows.Set(i, at+axis, -v)
			}
			if at, ok := column[m.To.String()]; ok {
				rows.Set(i, at+axis, v)
			}
		}
	}
	return rows
}

func rankOf(t *testing.T, m *mat.Dense) int {
	var svd mat.SVD
	require.True(t, svd.Factorize(m, mat.SVDNone))
	return svd.Rank(1e-6)
}

// The distances of a plan determine the shape: their rank is the number of
// coordinates less what moves the whole. Those that aren't checks are no more
// than that takes.
func TestPlanDeterminesTheShape(t *testing.T) {
	files, err := filepath.Glob("../../demo/*.hcl")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, f := range files {
		text, err := os.ReadFile(f)
		require.NoError(t, err)
		run := read(t, string(text))
		unknown := 0
		exact := false
		for _, p := range survey.Places(run) {
			if p.Part.Exact {
				exact = true
				continue
			}
			unknown += 3
			if run.Plane {
				unknown--
			}
		}
		want := unknown
		switch {
		case exact: // one place: the turns about it are left, which a plane run has one of
			want--
		case run.Plane:
			want -= 3
		default:
			want -= 6
		}
		plan := survey.Plan(run)
		require.Equal(t, linkage.Gauged, plan[0].Kind, "one direction, since the whole could be turned")
		var needed, all []survey.Planned
		for _, m := range plan[1:] {
			assert.Equal(t, linkage.Taped, m.Kind)
			if !m.Check {
				needed = append(needed, m)
			}
			all = append(all, m)
		}
		assert.Len(t, needed, want, f)
		assert.Equal(t, want, rankOf(t, distances(run, needed)), f)
		assert.Greater(t, len(all), len(needed), "%s: a slip must show", f)

		// Every distance is checked: without it the rank stays.
		for i := range all {
			rest := append(append([]survey.Planned{}, all[:i]...), all[i+1:]...)
			assert.Equal(t, want, rankOf(t, distances(run, rest)), "%s: %s to %s", f, all[i].From, all[i].To)
		}
	}
}

func TestPlanTapesWhatIsEasyFirst(t *testing.T) {
	text, err := os.ReadFile("../../demo/throttle.hcl")
	require.NoError(t, err)
	run := read(t, string(text))
	plan := survey.Plan(run)[1:]
	assert.Equal(t, plan[0].From.Part, plan[0].To.Part, "hole to hole on one part")
	again := survey.Plan(run)[1:]
	assert.Equal(t, plan, again)
}

// What is exact isn't measured: with all of it exact there is nothing to do,
// and with two exact places there is no need of a level.
func TestPlanLeavesExactPlaces(t *testing.T) {
	text, err := os.ReadFile("../../demo/throttle.hcl")
	require.NoError(t, err)
	exact := func(s string, part string) string {
		return strings.Replace(s, `part "`+part+`" {`, "part \""+part+"\" {\n  exact = true", 1)
	}
	one := exact(string(text), "engine-lever")
	plan := survey.Plan(read(t, one))
	for _, m := range plan {
		assert.Equal(t, linkage.Taped, m.Kind, "two exact places tell which way is up")
		assert.False(t, m.From.Part.Exact && m.To.Part.Exact, "%s to %s", m.From, m.To)
	}
	assert.NotEmpty(t, plan)
	assert.Empty(t, survey.Plan(read(t, exact(one, "grip-lever"))))
}

// What can't be reached is not in the plan, and others stand for it.
func TestPlanGoesAroundWhatCantBeReached(t *testing.T) {
	run := tapedPedals(t)
	run.Measurements = nil
	var out []survey.Planned
	const tries = 6
	for range tries {
		plan := survey.Plan(run, out...)
		needed := 0
		for _, m := range plan {
			for _, gone := range out {
				assert.False(t, m.Kind == gone.Kind && m.From == gone.From && m.To == gone.To, "%s to %s", m.From, m.To)
			}
			if !m.Check && m.Kind == linkage.Taped {
				needed++
			}
		}
		assert.Equal(t, 9, needed, "five places of two coordinates each, less the turn")
		out = append(out, plan[0], plan[3])
	}
}

// A plan that stands in a file is the same plan again, the checks told apart.
func TestPlanOfAFileIsItsPlan(t *testing.T) {
	run := tapedPedals(t)
	run.Measurements = nil
	plan := survey.Plan(run)
	for _, p := range plan {
		run.Measurements = append(run.Measurements, &linkage.Measurement{Kind: p.Kind, Name: p.From.String() + p.To.String() + string(p.Kind), From: p.To, To: p.From, Is: 1, Within: 1})
	}
	again := survey.PlanOf(run)
	require.Len(t, again, len(plan))
	for i := range plan {
		assert.Equal(t, plan[i].Check, again[i].Check, "%s to %s", plan[i].From, plan[i].To)
		assert.Equal(t, plan[i].To, again[i].From)
	}
	assert.Empty(t, survey.PlanOf(nil))
}
