package page

import (
	"testing"

	"fullfree/linkage"
	"fullfree/solve"

	"github.com/stretchr/testify/require"
)

// Many tests look at the same runs, each for something else: what they look at is made
// once. None changes it.
var kept = struct {
	judged   map[[2]string]judged // by name and text
	books    map[[2]string]BookRun
	told     map[*solve.Result]*book
	pages    map[*solve.Result]string
	aircraft map[string]BookAircraft // by path
}{map[[2]string]judged{}, map[[2]string]BookRun{}, map[*solve.Result]*book{}, map[*solve.Result]string{}, map[string]BookAircraft{}}

type judged struct {
	m      *solve.Mechanism
	result *solve.Result
}

// judgedOnce is a run checked for all tests, without bands.
func judgedOnce(t testing.TB, name, text string) (*solve.Mechanism, *solve.Result) {
	t.Helper()
	key := [2]string{name, text}
	j, ok := kept.judged[key]
	if !ok {
		run, err := linkage.Read(&linkage.Source{Name: name, Text: []byte(text)})
		require.NoError(t, err)
		j.m, err = solve.Compile(run)
		require.NoError(t, err)
		j.result, err = j.m.Check()
		require.NoError(t, err)
		kept.judged[key] = j
	}
	return j.m, j.result
}

// bookOf is bookAfresh for all tests.
func bookOf(t testing.TB, name, text string) BookRun {
	t.Helper()
	key := [2]string{name, text}
	b, ok := kept.books[key]
	if !ok {
		b = bookAfresh(t, name, text)
		kept.books[key] = b
	}
	return b
}

// toldOnce is what the book of a run of bookOf tells, for all tests.
func toldOnce(t testing.TB, run BookRun) *book {
	t.Helper()
	if kept.told[run.Result] == nil {
		b, err := bookOfRuns([]BookRun{run}, nil)
		require.NoError(t, err)
		kept.told[run.Result] = b
	}
	return kept.told[run.Result]
}

// pageOnce is the page of a run of bookOf, for all tests.
func pageOnce(t testing.TB, run BookRun) string {
	t.Helper()
	if kept.pages[run.Result] == "" {
		kept.pages[run.Result] = bookPage(t, run)
	}
	return kept.pages[run.Result]
}

// aircraftBook is aircraftBookAfresh for all tests.
func aircraftBook(t *testing.T, path string) BookAircraft {
	t.Helper()
	a, ok := kept.aircraft[path]
	if !ok {
		a = aircraftBookAfresh(t, path)
		kept.aircraft[path] = a
	}
	return a
}
