package main

import (
	"net/http"
	"strings"
	"testing"

	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// cableAnswer is what the tests read of nuts in the answer to a trial.
type cableAnswer struct {
	Ends []struct {
		Name, In, Of, Length, Filed string
		Thread                      []struct {
			Filed, Fault string
			InRod        string `json:"in_rod"`
		}
		Pulls []struct{ Cable, Now, Filed string }
	}
	Series []struct{ Kind, Name string }
	Stand  struct {
		Position struct{ Values []*float64 }
		Filed    []*float64
	}
	Writes       []struct{ Name, Was, Now string }
	Unsaveable   string
	Verdict      struct{ Headline string }
	Beside       []string
	Requirements []struct{ Title, Says string }
}

func (s *servedWorkbench) tryCables(body string) (answer cableAnswer) {
	s.t.Helper()
	s.answered("/try", body, &answer)
	return answer
}

// Nuts of a pair have rows of their own, with how tight they draw both cables; a
// file can't carry their turns, so that they are tried alone.
func TestNutsOfAPairAreTriedAlone(t *testing.T) {
	text := demoText(t, "lift-cables")
	s := serveWorkbench(t, text)
	page := s.ask("/workbench", "", nil).body
	assert.Contains(t, page, `"name":"lift-up.conduit-from","label":"lift-up.conduit-from, the nuts at mast.up","thread":"M6x1","step":0.25,"goes":"by any part of a turn"`)
	assert.Contains(t, page, "Nuts of a pair can be tried, not saved")
	assert.NotContains(t, page, "witness hole", "there is no rod")

	// Two turns of 1 mm between two cables of 38 N a mm: each is stretched by
	// half of that more.
	got := s.tryCables(`{"turns":{"lift-up.conduit-from":1,"lift-down.conduit-from":1}}`)
	require.Len(t, got.Ends, 2)
	end := got.Ends[0]
	assert.Equal(t, "the nuts", end.In)
	assert.Equal(t, "13.00 mm", end.Thread[0].InRod)
	assert.Equal(t, "14.00 mm", end.Thread[0].Filed)
	assert.Equal(t, "185.86 mm", end.Length)
	assert.Equal(t, "186.86 mm", end.Filed)
	assert.Equal(t, []struct{ Cable, Now, Filed string }{{"lift-up", "158 N", "120 N"}, {"lift-down", "158 N", "120 N"}}, end.Pulls)
	assert.Empty(t, got.Writes)
	assert.Contains(t, got.Unsaveable, "write that as pretension into the pair")

	body := `{"turns":{"lift-up.conduit-from":1}}`
	saved := s.save(body)
	assert.Equal(t, http.StatusUnprocessableEntity, saved.status)
	assert.Contains(t, saved.body, "nothing was saved")
	assert.Contains(t, saved.body, "measure the tension in both cables")
	assert.Equal(t, text, s.file())

	deep := s.tryCables(`{"turns":{"lift-up.conduit-from":6}}`)
	assert.Equal(t, "too little", deep.Ends[0].Thread[0].Fault)
	assert.Contains(t, deep.Verdict.Headline, "engagement")
	last := deep.Requirements[len(deep.Requirements)-1]
	assert.Equal(t, "engagement", last.Title, "which tells it, and nothing tells it twice")
	assert.Contains(t, last.Says, "lift-up.conduit-from falls short of thread")
}

// A stop that doesn't hold the control itself is told beside the verdict, and falls
// short.
func TestServeTellsOfAStopThatCablesGoSlackPast(t *testing.T) {
	text := demoText(t, "throttle-cable")
	s := serveWorkbench(t, strings.Replace(text, "of   = grip\n", "of   = carburetor\n", 1))
	got := s.tryCables(`{}`)
	assert.Equal(t, []string{
		`Not surely in 1: travel "closed to full".`,
		`The stop "grip-idle" doesn't hold throttle itself: past it the cable throttle-cable, which only pulls, goes slack. throttle goes on alone; no other stop was met, looking to 30.0°.`,
	}, got.Beside)
	assert.Contains(t, got.Verdict.Headline, "FALLS SHORT in 1 of 5 requirements: stops")
}

// What a lone cable is set to is written as its core and the thread in its nuts,
// and check of the file then tells what was tried.
func TestNutsOfALoneCableAreSaved(t *testing.T) {
	text := demoText(t, "throttle-cable")
	s := serveWorkbench(t, text)
	body := `{"turns":{"throttle-cable.conduit-to":0.5}}`
	got := s.tryCables(body)
	assert.Empty(t, got.Unsaveable)
	assert.Equal(t, []struct{ Name, Was, Now string }{
		{"throttle-cable.core", "151.752529 mm", "151.252529 mm"}, {"throttle-cable.conduit-to.engaged", "12 mm", "11.5 mm"},
	}, got.Writes)
	assert.Empty(t, got.Ends[0].Pulls, "its tension isn't known")
	saved := s.save(body)
	require.Equal(t, http.StatusOK, saved.status, saved.body)
	want := strings.Replace(text, "engaged = 12", "engaged = 11.5", 1)
	want = strings.Replace(want, "carb-bracket]\n", "carb-bracket]\n  core    = 151.252529\n", 1)
	assert.Equal(t, want, s.file())
	assert.Contains(t, oneLine(fullfree("", "check", s.path).out), got.Verdict.Headline)
	// Turned on, the core that now stands there is changed.
	back := s.save(`{"turns":{"throttle-cable.conduit-to":-0.25}}`)
	require.Equal(t, http.StatusOK, back.status, back.body)
	assert.Contains(t, s.file(), "core    = 151.502529\n")
	assert.Contains(t, s.file(), "engaged = 11.75\n")
}

// What there is of nuts can be asked for alone.
func TestNutsThatThereAreNot(t *testing.T) {
	text := demoText(t, "throttle-cable")
	s := serveWorkbench(t, text)
	for body, want := range map[string]string{
		`{"turns":{"throttle-cable.conduit-from":1}}`:  `did you mean \"throttle-cable.conduit-to\"?`,
		`{"turns":{"throttle-cable.conduit-to":1e7}}`:  "can't make so many turns",
		`{"turns":{"throttle-cable.conduit-to":"in"}}`: "error",
	} {
		got := s.ask("/try", body, nil)
		assert.Equal(t, http.StatusBadRequest, got.status, body)
		assert.Contains(t, got.body, want)
	}
	assert.Contains(t, s.try(`{"turns":{"throttle-cable.conduit-to":500}}`).Fault, "throttle-cable", "there is no such setting, and that is told")
}

// A setting may let cables hang slack that don't as filed: every figure stays
// beside its own.
func TestFiguresStandUnderTheirOwn(t *testing.T) {
	text := demoText(t, "lift-cables")
	s := serveWorkbench(t, text)
	got := s.tryCables(`{"turns":{"lift-up.conduit-from":-4,"lift-down.conduit-from":-4}}`)
	require.Len(t, got.Stand.Position.Values, len(got.Series))
	require.Len(t, got.Stand.Filed, len(got.Series))
	filed := s.tryCables(`{}`)
	require.Less(t, len(filed.Series), len(got.Series), "what floats is told where it does")
	k := 0
	for i, series := range got.Series {
		if series.Kind == string(solve.SeriesFree) {
			assert.Zero(t, *got.Stand.Filed[i])
			assert.Positive(t, *got.Stand.Position.Values[i])
			continue
		}
		require.Equal(t, filed.Series[k], series)
		assert.Equal(t, filed.Stand.Position.Values[k], got.Stand.Filed[i], "%v", series)
		k++
	}
	// And the other way: slack as filed, taut as set.
	loose := serveWorkbench(t, strings.Replace(text, "pretension = 120", "pretension = 0.5", 1))
	was := loose.tryCables(`{}`)
	now := loose.tryCables(`{"turns":{"lift-up.conduit-from":1,"lift-down.conduit-from":1}}`)
	require.Len(t, now.Stand.Filed, len(now.Series))
	assert.LessOrEqual(t, len(now.Series), len(was.Series))
}
