package picture

import (
	"sync"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/render/internal/sample"
	"fullfree/solve"
)

// Many tests look at the same demos, each for something else: what they look at is made
// once. None changes it.
var kept = struct {
	sync.Mutex
	results   map[string]*solve.Result // by text
	fullSizes map[fullSizeKey]fullSizeKept
	lively    map[livelyKey]string
}{results: map[string]*solve.Result{}, fullSizes: map[fullSizeKey]fullSizeKept{}, lively: map[livelyKey]string{}}

type fullSizeKey struct {
	result      *solve.Result
	view, sheet string
}

type fullSizeKept struct {
	f     *fullSize
	pages []string
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
	if kept.results[text] == nil {
		kept.results[text] = sample.Checked(t, name, text)
	}
	return kept.results[text]
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
