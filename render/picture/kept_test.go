package picture

import (
	"fmt"
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/render/internal/sample"
	"fullfree/solve"
	"fullfree/solve/survey"
)

// Many tests look at the same demos, each for something else: what they look at is made
// once. None changes it.
var kept = struct {
	sync.Mutex
	results   map[[2]string]*solve.Result // by name and text
	again     map[*solve.Result]*solve.Result
	aircraft  map[string]*solve.Result // by path
	fullSizes map[fullSizeKey]fullSizeKept
	lively    map[livelyKey]string
	pictures  map[pictureKey]string
	charts    map[pictureKey]string
	taping    map[string]tapingKept // by demo
}{
	results: map[[2]string]*solve.Result{}, again: map[*solve.Result]*solve.Result{}, aircraft: map[string]*solve.Result{},
	fullSizes: map[fullSizeKey]fullSizeKept{}, lively: map[livelyKey]string{}, pictures: map[pictureKey]string{}, charts: map[pictureKey]string{},
	taping: map[string]tapingKept{},
}

type fullSizeKey struct {
	result      *solve.Result
	view, sheet string
}

type fullSizeKept struct {
	f     *fullSize
	pages []string
}

type pictureKey struct {
	sweep *solve.Sweep
	opts  string // DiagramOptions, written out
}

type tapingKept struct {
	run  *linkage.Run
	plan []survey.Planned
}

type livelyKey struct {
	sweep *solve.Sweep
	opts  LiveOptions
}

// checkedOnce is a run checked for all tests.
func checkedOnce(t testing.TB, name, text string) *solve.Result {
	t.Helper()
	kept.Lock()
	defer kept.Unlock()
	key := [2]string{name, text}
	if kept.results[key] == nil {
		kept.results[key] = sample.Checked(t, name, text)
	}
	return kept.results[key]
}

// checkedAgain is the run of a result read and checked once more, for all tests that hold
// what is drawn of one against what is drawn of the other.
func checkedAgain(t testing.TB, result *solve.Result) *solve.Result {
	t.Helper()
	kept.Lock()
	defer kept.Unlock()
	if kept.again[result] == nil {
		kept.again[result] = sample.Checked(t, result.Run.Source.Name, string(result.Run.Source.Text))
	}
	return kept.again[result]
}

// aircraftOnce is an aircraft checked for all tests.
func aircraftOnce(t testing.TB, path string) *solve.Result {
	t.Helper()
	kept.Lock()
	defer kept.Unlock()
	if kept.aircraft[path] == nil {
		_, kept.aircraft[path] = sample.Aircraft(t, path)
	}
	return kept.aircraft[path]
}

// tapingOnce is a demo with its datum, and what to tape of it, for all tests.
func tapingOnce(t testing.TB, kind string) (*linkage.Run, []survey.Planned) {
	t.Helper()
	kept.Lock()
	defer kept.Unlock()
	k, ok := kept.taping[kind]
	if !ok {
		k.run = surveyedRun(t, kind)
		k.plan = survey.Plan(k.run)
		kept.taping[kind] = k
	}
	return k.run, k.plan
}

// pictureOnce is picture for all tests.
func pictureOnce(t testing.TB, result *solve.Result, sweep *solve.Sweep, opts DiagramOptions) string {
	t.Helper()
	kept.Lock()
	defer kept.Unlock()
	key := pictureKey{sweep, fmt.Sprintf("%+v", opts)}
	if _, ok := kept.pictures[key]; !ok {
		kept.pictures[key] = picture(t, result, sweep, opts)
	}
	return kept.pictures[key]
}

// chartsOnce is chartsSVG for all tests.
func chartsOnce(t testing.TB, result *solve.Result, sweep *solve.Sweep, opts DiagramOptions) string {
	t.Helper()
	kept.Lock()
	defer kept.Unlock()
	key := pictureKey{sweep, fmt.Sprintf("%+v", opts)}
	if _, ok := kept.charts[key]; !ok {
		kept.charts[key] = chartsSVG(t, result, sweep, opts)
	}
	return kept.charts[key]
}

// fullSizeOnce is fullSizeOf for all tests.
func fullSizeOnce(t testing.TB, result *solve.Result, view, sheet string) (*fullSize, []string) {
	t.Helper()
	kept.Lock()
	defer kept.Unlock()
	key := fullSizeKey{result, view, sheet}
	k, ok := kept.fullSizes[key]
	if !ok {
		k.f, k.pages = fullSizeOf(t, result, view, sheet)
		kept.fullSizes[key] = k
	}
	return k.f, k.pages
}

// livelyOnce is livelyAt for all tests.
func livelyOnce(t testing.TB, result *solve.Result, sweep *solve.Sweep, opts LiveOptions) string {
	t.Helper()
	kept.Lock()
	defer kept.Unlock()
	key := livelyKey{sweep, opts}
	if _, ok := kept.lively[key]; !ok {
		kept.lively[key] = livelyAt(t, result, sweep, opts)
	}
	require.NotEmpty(t, kept.lively[key])
	return kept.lively[key]
}
