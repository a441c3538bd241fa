package solve_test

import (
	"math/rand/v2"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
	"fullfree/solve/rig"
)

// The tests here are of most use with the race detector: go test -race -run Shared.

// sharedRuns are demos with blocks, space, pairs, conduits, second paths and several
// controls between them.
var sharedRuns = []string{"sticks", "mixer", "pedals-dual", "lift-cables", "throttle-cable", "chain"}

// answerOf is something that may be asked of a run and its result, as often as one
// likes.
type answerOf struct {
	name string
	ask  func(t testing.TB, m *solve.Mechanism, result *solve.Result) any
}

// answers are all that may be asked at the same time.
func answers() (list []answerOf) {
	add := func(name string, ask func(t testing.TB, m *solve.Mechanism, result *solve.Result) any) {
		list = append(list, answerOf{name, ask})
	}
	places := func(w *solve.Sweep) (at []float64) {
		for i := range 13 {
			at = append(at, w.Explored[0]+float64(i)/12*(w.Explored[1]-w.Explored[0]))
		}
		return at
	}
	add("stands", func(t testing.TB, _ *solve.Mechanism, result *solve.Result) any {
		var told []float64
		for _, w := range result.Sweeps {
			for _, x := range places(w) {
				pose := solveAt(t, w, x)
				for _, p := range result.Run.Parts {
					if p.Motion != linkage.Fixed {
						told = append(told, pose.Travel(p), pose.Place(p, vec{X: 1, Y: 2}).X)
					}
				}
				for _, o := range result.Run.Outputs {
					told = append(told, pose.Reading(o))
				}
				for _, r := range result.Run.Rods {
					told = append(told, pose.Point(r.From).Y)
				}
			}
		}
		return told
	})
	add("positions", func(t testing.TB, _ *solve.Mechanism, result *solve.Result) any {
		var told []solve.PoseSample
		for _, w := range result.Sweeps {
			for _, x := range places(w) {
				p, ok := w.Sample(x)
				require.True(t, ok)
				told = append(told, p)
			}
		}
		return told
	})
	add("tables", func(t testing.TB, _ *solve.Mechanism, result *solve.Result) any {
		var told [][][]float64
		for _, w := range result.Sweeps {
			_, rows, err := w.Table(40)
			require.NoError(t, err)
			told = append(told, rows)
		}
		return told
	})
	add("course", func(_ testing.TB, _ *solve.Mechanism, result *solve.Result) any {
		return result.Sweeps[len(result.Sweeps)-1].Course().Samples
	})
	add("effects", func(t testing.TB, m *solve.Mechanism, result *solve.Result) any {
		effects, err := m.Effects(result)
		require.NoError(t, err)
		ofCables, err := m.CableEffects(result)
		require.NoError(t, err)
		return []any{effects, ofCables, m.Centerings(), m.Pinned()}
	})
	add("check", func(t testing.TB, m *solve.Mechanism, _ *solve.Result) any {
		return toldOf(t, m, false)
	})
	add("bands", func(t testing.TB, m *solve.Mechanism, _ *solve.Result) any {
		return toldOf(t, m, true)
	})
	add("another run", func(t testing.TB, _ *solve.Mechanism, result *solve.Result) any {
		d := result.Run.Dimensions()[0]
		m, err := solve.Compile(edited(t, result.Run, linkage.Shift(d, 0.01)))
		require.NoError(t, err)
		return outline(result.Run, toldOf(t, m, false))
	})
	return list
}

// toldOf is what a check of its own tells.
func toldOf(t testing.TB, m *solve.Mechanism, bands bool) []any {
	result, err := m.Check()
	require.NoError(t, err)
	if bands {
		require.NoError(t, m.AddBands(result, nil))
	}
	told := []any{result.Verdict, result.Requirements}
	for _, w := range result.Sweeps {
		told = append(told, w.Low, w.High, w.Explored, w.Ends, w.Stops, w.Parts, w.Outputs, w.Rods, w.Cables, w.Critical)
	}
	return told
}

// outline is what is told of another run without what points into that.
func outline(run *linkage.Run, told []any) []any {
	short := []any{told[0]}
	for _, j := range told[1].([]solve.Judgement) {
		short = append(short, run.Requirement(j.Requirement) != nil, j.Verdict, j.Worst, j.At)
	}
	return append(short, told[2], told[3], told[4])
}

// TestSharedByMany asks everything of one run, mechanism and result from many
// goroutines at once: each gets what one alone gets.
func TestSharedByMany(t *testing.T) {
	const askers = 8
	for _, name := range sharedRuns {
		t.Run(name, func(t *testing.T) {
			run := demoRun(t, name)
			before := edited(t, run)
			m, result := judgedAs(t, run)
			list := answers()
			want := make([]any, len(list))
			for i, a := range list {
				want[i] = a.ask(t, m, result)
			}
			var all sync.WaitGroup
			for k := range askers {
				all.Go(func() {
					random := rand.New(rand.NewPCG(41, uint64(k)))
					for _, i := range random.Perm(len(list)) {
						assert.Equal(t, want[i], list[i].ask(t, m, result), list[i].name)
					}
				})
			}
			all.Wait()
			assert.Equal(t, before, run, "the run is as it was")
		})
	}
}

// TestSharedAmongSearches lets the searches work on one mechanism at once, each of which
// takes all processors for itself.
func TestSharedAmongSearches(t *testing.T) {
	m, _ := judgedAs(t, demoRun(t, "pedals-unequal"))
	readings, _ := judgedAs(t, demoRun(t, "pedals-taped"))
	fails := func() any {
		f, err := m.Failures(nil)
		require.NoError(t, err)
		return f
	}
	rigs := func() any {
		found, err := rig.Search(m, nil)
		require.NoError(t, err)
		var told []any
		for i := range found.Settings {
			told = append(told, found.Settings[i].Turns, found.Settings[i].Reserve)
		}
		return told
	}
	diagnoses := func() any {
		d, err := readings.Diagnose()
		require.NoError(t, err)
		return d
	}
	asks := []func() any{fails, rigs, diagnoses}
	var want []any
	for _, ask := range asks {
		want = append(want, ask())
	}
	var all sync.WaitGroup
	for i := range 2 * len(asks) {
		all.Go(func() { assert.Equal(t, want[i/2], asks[i/2]()) })
	}
	all.Wait()
}

// TestTakesElementsOfAnyRunOfTheFamily asks a position of a changed run about elements of
// the run that it was made from, and the other way round.
func TestTakesElementsOfAnyRunOfTheFamily(t *testing.T) {
	run := demoRun(t, "sticks")
	_, filed := judgedAs(t, run)
	changed := edited(t, run, linkage.Shift(linkage.Dimension{Rod: run.Rods[0], Point: -1}, 0.5))
	m, result := judgedAs(t, changed)
	w := result.Sweeps[0]
	here, there := solveAt(t, w, w.High), solveAt(t, filed.Sweeps[0], filed.Sweeps[0].High)
	for i, p := range run.Parts {
		require.Equal(t, here.Place(changed.Parts[i], vec{}), here.Place(p, vec{}))
		require.Equal(t, there.Place(p, vec{}), there.Place(changed.Parts[i], vec{}))
	}
	for i, o := range run.Outputs {
		require.Equal(t, here.Reading(changed.Outputs[i]), here.Reading(o))
	}
	again, err := m.Sweep(filed.Sweeps[0].Control, filed.Sweeps[0].Held)
	require.NoError(t, err)
	require.Same(t, changed.Controls[0], again.Control)
	require.Equal(t, w.High, again.High)

	_, err = m.Sweep(demoRun(t, "pedals").Controls[0], nil)
	require.ErrorContains(t, err, "none of this run")
}
