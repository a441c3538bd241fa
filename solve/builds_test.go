package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/linkage/hunt"
	"fullfree/solve"
)

// builtByHand is a build made the long way: the run with every number set, compiled and
// checked.
func builtByHand(t testing.TB, run *linkage.Run, build *solve.Build) (*solve.Result, error) {
	t.Helper()
	var edits []linkage.Edit
	dimensions := run.Dimensions()
	for _, pivots := range []bool{true, false} { // arms go along with their pivots
		for i, d := range dimensions {
			if pivot := d.Part != nil && d.Point < 0; pivot == pivots && build.Dimensions[i] != 0 {
				edits = append(edits, linkage.Shift(d, build.Dimensions[i]))
			}
		}
	}
	for i, s := range run.Stops {
		if build.Stops[i] != 0 {
			edits = append(edits, linkage.SetStop(s, s.At+build.Stops[i]))
		}
	}
	changed, err := run.With(edits...)
	if err != nil {
		return nil, err
	}
	m, err := solve.Compile(changed)
	if err != nil {
		return nil, err
	}
	return m.Check()
}

// outAtRandom is a build of which every number is out by up to so much.
func outAtRandom(run *linkage.Run, random *rand.Rand, by float64) *solve.Build {
	build := &solve.Build{Stops: make([]float64, len(run.Stops))}
	for _, d := range run.Dimensions() {
		out := float64(by * (2*random.Float64() - 1))
		if d.Axis == 2 || d.IsLength() && !d.Given() {
			out = 0
		}
		build.Dimensions = append(build.Dimensions, out)
	}
	for i, s := range run.Stops {
		if s.Of != nil && s.At != 0 {
			build.Stops[i] = float64(by * (2*random.Float64() - 1))
		}
	}
	return build
}

// builtDemos are the demos without cables.
var builtDemos = []string{"pedals", "pedals-dual", "pedals-unequal", "pedals-swivel", "sticks", "throttle", "throttle-wrong-hole", "chain", "mixer", "flaps", "elevator", "throttle-cable", "lift-cables", "pedals-cable", "ailerons", "aileron-cranks", "pedals-taped", "rotor"}

// A build judged at the places of the run as drawn comes out as one judged at every step,
// and as the run with these numbers in its file.
func TestBuildsAreJudgedAsTheRunsTheyAre(t *testing.T) {
	for _, name := range builtDemos {
		t.Run(name, func(t *testing.T) {
			text, err := os.ReadFile("../demo/" + name + ".hcl")
			require.NoError(t, err)
			run, err := linkage.Read(&linkage.Source{Name: name, Text: text})
			require.NoError(t, err)
			m, err := solve.Compile(run)
			require.NoError(t, err)
			result, err := m.Check()
			require.NoError(t, err)
			builds, err := m.Builds(result)
			require.NoError(t, err)
			w := builds.Builder()
			random := rand.New(rand.NewPCG(3, 5))
			by := 0.4
			if run.Units == linkage.Inches {
				by = 1.0 / 64
			}
			tried := 12
			if len(result.Sweeps) > 20 { // a rotor's, each of a whole turn
				tried = 3
			}
			for range tried {
				build := outAtRandom(run, random, by)
				var sparse, full solve.Judged
				require.NoError(t, w.Judge(build, false, &sparse))
				require.NoError(t, w.Judge(build, true, &full))
				want, err := builtByHand(t, run, build)
				if err != nil {
					assert.False(t, sparse.Closes, "%v", err)
					assert.False(t, full.Closes, "%v", err)
					continue
				}
				require.True(t, sparse.Closes)
				require.True(t, full.Closes)
				for i := range want.Requirements {
					j := &want.Requirements[i]
					about := fmt.Sprintf("%s %s", j.Requirement.Kind, j.Requirement.Name)
					for _, got := range []solve.Figure{sparse.Requirements[i], full.Requirements[i]} {
						assert.Equal(t, j.Verdict, got.Verdict, about)
						require.Equal(t, j.Worst != nil, got.Has, about)
						if got.Has {
							assert.InDelta(t, *j.Worst, got.Worst, 1e-7*math.Max(1, math.Abs(*j.Worst)), about)
						}
					}
				}
			}
		})
	}
}

func BenchmarkBuild(b *testing.B) {
	for _, name := range []string{"pedals", "sticks", "pedals-dual"} {
		text, err := os.ReadFile("../demo/" + name + ".hcl")
		require.NoError(b, err)
		run, err := linkage.Read(&linkage.Source{Name: name, Text: text})
		require.NoError(b, err)
		m, err := solve.Compile(run)
		require.NoError(b, err)
		result, err := m.Check()
		require.NoError(b, err)
		builds, err := m.Builds(result)
		require.NoError(b, err)
		w := builds.Builder()
		random := rand.New(rand.NewPCG(3, 5))
		var list []*solve.Build
		for range 64 {
			list = append(list, outAtRandom(run, random, 0.2))
		}
		for _, everywhere := range []bool{false, true} {
			b.Run(fmt.Sprintf("%s/everywhere=%t", name, everywhere), func(b *testing.B) {
				b.ReportAllocs()
				var j solve.Judged
				i := 0
				for b.Loop() {
					_ = w.Judge(list[i%len(list)], everywhere, &j)
					i++
				}
				b.ReportMetric(float64(b.N)/b.Elapsed().Seconds(), "builds/s")
			})
		}
	}
}

// What is found at the places of the run as drawn is what is found in every step, far out too.
// (A miss would be told: one build of many is looked at in every step.)
func TestHuntBuilds(t *testing.T) {
	type prepared struct {
		run    *linkage.Run
		builds *solve.Builds
	}
	known := map[string]prepared{}
	hunt.Each(t, 30, func(t *testing.T, random *rand.Rand) {
		name := builtDemos[random.IntN(len(builtDemos))]
		p, ok := known[name]
		if !ok {
			text, err := os.ReadFile("../demo/" + name + ".hcl")
			require.NoError(t, err)
			p.run, err = linkage.Read(&linkage.Source{Name: name, Text: text})
			require.NoError(t, err)
			m, err := solve.Compile(p.run)
			require.NoError(t, err)
			result, err := m.Check()
			require.NoError(t, err)
			p.builds, err = m.Builds(result)
			require.NoError(t, err)
			known[name] = p
		}
		by := 2 * random.Float64()
		if p.run.Units == linkage.Inches {
			by /= 25.4
		}
		build := outAtRandom(p.run, random, by)
		w := p.builds.Builder()
		var sparse, full solve.Judged
		require.NoError(t, w.Judge(build, false, &sparse))
		require.NoError(t, w.Judge(build, true, &full))
		require.Equal(t, full.Closes, sparse.Closes, name)
		require.Len(t, sparse.Requirements, len(full.Requirements))
		for i, want := range full.Requirements {
			got := sparse.Requirements[i]
			about := fmt.Sprintf("%s out by up to %g: %s %s", name, by, p.run.Requirements[i].Kind, p.run.Requirements[i].Name)
			assert.Equal(t, want.Verdict, got.Verdict, about)
			assert.InDelta(t, want.Worst, got.Worst, 1e-6*math.Max(1, math.Abs(want.Worst)), about)
		}
	})
}
