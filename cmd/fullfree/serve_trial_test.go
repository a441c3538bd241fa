package main

import (
	"crypto/sha256"
	"fmt"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// screwed is threaded with a stop screw.
var screwed = strings.Replace(threaded, "  at = 24\n", "  at = 24                     # as welded\n  adjust = [20, 28]\n", 1)

// trialAnswer is what the tests read of the answer to a trial.
type trialAnswer struct {
	Hash, Fault    string
	Verdict, Filed struct{ Mark, Headline string }
	Beside         []string
	Requirements   []struct {
		Title, Changed, Says string
		Now, Filed           struct{ Mark, Words, Worst string }
	}
	Ends []struct {
		Name, Length, Filed string
		Thread              []struct {
			End, Filed, Least, Fault string
			InRod                    string `json:"in_rod"`
		}
	}
	Stops []struct {
		Name, Words, Filed string
		At                 float64
	}
	Controls []struct {
		Name         string
		Low, High    *float64
		Words, Filed [2]string
	}
	Series []struct{ Kind, Name string }
	Stand  struct {
		Moves     string
		At        map[string]float64
		Low, High float64
		Position  struct {
			At     float64
			Values []*float64
			Frames []float64
		}
		Filed []*float64
	}
	Writes []struct{ Name, Was, Now string }
}

// try asks for a trial that is answered.
func (s *servedWorkbench) try(body string) (answer trialAnswer) {
	s.t.Helper()
	s.answered("/try", body, &answer)
	return answer
}

// pictureAnswer is a picture.
type pictureAnswer struct {
	Picture string
	SVG     *string
}

// picture asks for a picture that is answered.
func (s *servedWorkbench) picture(body string) (answer pictureAnswer) {
	s.t.Helper()
	s.answered("/picture", body, &answer)
	return answer
}

// save asks to save as the page does.
func (s *servedWorkbench) save(body string) reply {
	s.t.Helper()
	_, hash := s.page()
	body = strings.Replace(body, "{", `{"hash":"`+hash+`",`, 1)
	return s.ask("/save", body, nil)
}

func TestTrialAnswers(t *testing.T) {
	s := serveWorkbench(t, screwed)
	filed := s.try(`{}`)
	assert.Equal(t, fmt.Sprintf("%x", sha256.Sum256([]byte(screwed))), filed.Hash)
	assert.Empty(t, filed.Writes)
	assert.Nil(t, filed.Stand.Filed, "nothing is tried")
	drawn := s.picture(`{}`)
	require.NotNil(t, drawn.SVG)
	assert.Contains(t, *drawn.SVG, "data-at=")

	// By hand: 1.5 turns of 1 mm out.
	got := s.try(`{"turns":{"link.from":1.5},"stops":{"high":26},"at":{"hand":99}}`)
	require.Len(t, got.Ends, 2)
	assert.Equal(t, "201.00 mm", got.Ends[0].Length)
	assert.Equal(t, "199.50 mm", got.Ends[0].Filed)
	assert.Equal(t, "9.00 mm", got.Ends[0].Thread[0].InRod)
	assert.Equal(t, "10.50 mm", got.Ends[0].Thread[0].Filed)
	assert.Empty(t, got.Ends[0].Thread[0].Fault, "on its least")
	assert.Equal(t, "11.00 mm", got.Ends[1].Thread[0].InRod)
	require.Len(t, got.Stops, 1)
	assert.Equal(t, "26°", got.Stops[0].Words)
	assert.Equal(t, "24°", got.Stops[0].Filed)
	assert.Equal(t, 26.0, got.Stand.At["hand"], "no further than the stop")
	assert.Equal(t, 26.0, got.Stand.Position.At)
	assert.Nil(t, got.Stand.Filed, "as filed it stops at 24")
	assert.Equal(t, [2]string{"-24.0° (low)", "26.0° (high)"}, got.Controls[0].Words)
	assert.Equal(t, [2]string{"-24.0° (low)", "24.0° (high)"}, got.Controls[0].Filed)
	other := s.picture(`{"stops":{"high":26},"picture":"` + drawn.Picture + `"}`)
	assert.NotNil(t, other.SVG, "the end of the travel is drawn elsewhere")
	assert.Equal(t, "worse", got.Requirements[0].Changed, "1 mm long where it was 0.5 mm short")
	assert.Equal(t, "short", got.Verdict.Mark)
	assert.Equal(t, []struct{ Name, Was, Now string }{
		{"link.length", "199.5 mm", "201 mm"}, {"link.from.engaged", "10.5 mm", "9 mm"}, {"high.at", "24°", "26°"},
	}, got.Writes)

	again := s.picture(`{"stops":{"high":26},"at":{"hand":3},"picture":"` + other.Picture + `"}`)
	assert.Nil(t, again.SVG, "the page has it")

	short := s.try(`{"turns":{"link.from":2}}`)
	assert.Equal(t, "too little", short.Ends[0].Thread[0].Fault)
	assert.Equal(t, "short", short.Verdict.Mark)
	assert.Contains(t, short.Verdict.Headline, "FALLS SHORT in the setting of link.from, and in 1 of 1")
	require.Len(t, short.Requirements, 2)
	set := short.Requirements[1]
	assert.Equal(t, []string{`setting "link.from"`, "now falls short", "short", "8.50 mm", "holds", ""}, []string{set.Title, set.Changed, set.Now.Mark, set.Now.Worst, set.Filed.Mark, set.Filed.Worst})
	assert.Contains(t, set.Says, "link.from falls short of thread: in the rod 8.50 mm, wanted 9.00 mm, missed by 0.50 mm. The maker's figure is missing for link.from:")
	odd := s.try(`{"turns":{"link.from":0.3}}`)
	assert.Contains(t, odd.Requirements[1].Says, "it goes by half a turn at a time")
	none := s.try(`{"turns":{"link.from":0},"stops":{"high":24}}`)
	assert.Equal(t, filed.Verdict, none.Verdict)
	assert.Empty(t, none.Writes)
}

func TestTrialThatCantBeJudged(t *testing.T) {
	s := serveWorkbench(t, screwed)
	for body, want := range map[string]string{
		`{"turns":{"link.from":-300}}`: "turned so, link would be -100.5 mm long",
		`{"turns":{"link.from":1e6}}`:  "turned so, link would be 1000199.5 mm long",
		`{"turns":{"link.from":200}}`:  "link",
		`{"stops":{"high":29}}`:        `the stop "high" can be set from 20 to 28, and 29 is asked for`,
	} {
		got := s.try(body)
		assert.Contains(t, got.Fault, want, body)
		assert.NotContains(t, got.Fault, "run.hcl:", "the file isn't at fault")
		saved := s.save(body)
		assert.Equal(t, http.StatusUnprocessableEntity, saved.status, body)
		assert.Contains(t, saved.body, "nothing was saved")
	}
	assert.Equal(t, screwed, s.file())
}

// Saving a step out changes those numbers, and keeps the rest byte for byte.
func TestSaveWritesThoseNumbersAlone(t *testing.T) {
	s := serveWorkbench(t, screwed)
	token, hash := s.page()
	saved := s.save(`{"turns":{"link.from":1},"stops":{"high":24.5}}`)
	require.Equal(t, http.StatusOK, saved.status, saved.body)
	want := strings.NewReplacer("length = 199 + 1/2 ", "length = 200.5 ", "engaged = 10 + 1/2 ", "engaged = 9.5 ", "at = 24   ", "at = 24.5   ").Replace(screwed)
	assert.Equal(t, want, s.file())
	var told struct {
		Hash  string
		Saved []struct{ Name, Was, Now string }
	}
	decode(t, saved.body, &told)
	assert.Equal(t, fmt.Sprintf("%x", sha256.Sum256([]byte(want))), told.Hash)
	assert.Len(t, told.Saved, 3)
	// It is filed now, and turns are counted from there.
	now := s.try(`{}`)
	assert.Equal(t, told.Hash, now.Hash)
	assert.Equal(t, "200.50 mm", now.Ends[0].Filed)
	nothing := s.save(`{"turns":{}}`)
	assert.Equal(t, http.StatusOK, nothing.status)
	assert.Equal(t, want, s.file())
	// What the page knew before is no longer so.
	old := s.ask("/save", `{"hash":"`+hash+`","turns":{"link.from":1}}`, func(r *http.Request) { r.Header.Set(tokenHeader, token) })
	assert.Equal(t, http.StatusConflict, old.status)
	assert.Equal(t, want, s.file())
}

func TestBarrelHasOneRow(t *testing.T) {
	s := serveWorkbench(t, threaded)
	// A barrel: both ends by any part of a turn, of opposite hands.
	barrel := strings.ReplaceAll(threaded, `thread  = "M6x1"`, "thread  = \"M6x1\"\n    step    = 0")
	require.NoError(t, os.WriteFile(s.path, []byte(barrel), 0o644))
	var workbench struct {
		Ends []struct {
			Name, Label string
			Step        float64
		}
	}
	decode(t, s.ask("/workbench", "", nil).body, &workbench)
	require.Len(t, workbench.Ends, 1, "one row turns both")
	assert.Equal(t, "link.from", workbench.Ends[0].Name)
	assert.Contains(t, workbench.Ends[0].Label, "barrel")
	got := s.try(`{"turns":{"link.from":0.25}}`)
	require.Len(t, got.Ends[0].Thread, 2)
	assert.Equal(t, "200.00 mm", got.Ends[0].Length, "a quarter turn at both ends")
	assert.Equal(t, "10.25 mm", got.Ends[0].Thread[0].InRod)
	assert.Equal(t, "10.75 mm", got.Ends[0].Thread[1].InRod)
	both := s.ask("/try", `{"turns":{"link.from":0.25,"link.to":0.25}}`, nil)
	assert.Equal(t, http.StatusBadRequest, both.status)
	assert.Contains(t, both.body, "are one barrel")
}

func TestFileThatChangesMeanwhile(t *testing.T) {
	s := serveWorkbench(t, threaded)
	token, hash := s.page()
	state := func() (hash, faults string) {
		var told struct{ Hash, Faults string }
		decode(t, s.ask("/file?known="+hash, "", nil).body, &told)
		return told.Hash, told.Faults
	}
	save := func() reply {
		return s.ask("/save", `{"hash":"`+hash+`","turns":{"link.from":1}}`, func(r *http.Request) { r.Header.Set(tokenHeader, token) })
	}
	// Edited.
	edited := strings.Replace(threaded, "# as it came", "# as made", 1)
	require.NoError(t, os.WriteFile(s.path, []byte(edited), 0o644))
	got := save()
	assert.Equal(t, http.StatusConflict, got.status)
	assert.Contains(t, got.body, "has changed meanwhile, so nothing was saved")
	assert.Equal(t, edited, s.file())
	now, faults := state()
	assert.Equal(t, fmt.Sprintf("%x", sha256.Sum256([]byte(edited))), now)
	assert.Empty(t, faults)
	// What the page tries belongs to the file that it knows.
	stale := s.try(`{"hash":"` + hash + `","turns":{"gone.from":1}}`)
	assert.Equal(t, now, stale.Hash)
	assert.Empty(t, stale.Series)

	// Made faulty: the faults are told, the rest stays.
	require.NoError(t, os.WriteFile(s.path, []byte(edited+"rod {"), 0o644))
	kept, faults := state()
	assert.Equal(t, now, kept)
	assert.Contains(t, faults, "run.hcl:")
	assert.Contains(t, s.ask("/workbench", "", nil).body, "link.from")
	assert.NotNil(t, s.picture(`{"turns":{"link.from":1}}`).SVG)
	assert.Len(t, s.try(`{"turns":{"link.from":1}}`).Writes, 2)
	hash = kept
	assert.Equal(t, http.StatusConflict, save().status, "it would undo the edit")
	assert.Equal(t, edited+"rod {", s.file())

	// One that reads, but doesn't close; none at all; a folder; and put back.
	require.NoError(t, os.WriteFile(s.path, []byte(strings.Replace(threaded, "199 + 1/2", "900", 1)), 0o644))
	_, faults = state()
	assert.Contains(t, faults, "link")
	require.NoError(t, os.Remove(s.path))
	_, faults = state()
	assert.Contains(t, faults, "there is no such file")
	assert.Equal(t, http.StatusConflict, save().status)
	require.NoError(t, os.Mkdir(s.path, 0o755))
	_, faults = state()
	assert.NotEmpty(t, faults)
	require.NoError(t, os.Remove(s.path))
	require.NoError(t, os.WriteFile(s.path, []byte(edited), 0o644))
	kept, faults = state()
	assert.Equal(t, now, kept)
	assert.Empty(t, faults)
	assert.Equal(t, http.StatusOK, save().status)
	assert.Contains(t, s.file(), "200.5          # as made")
}

// What is written the same is not told as written.
func TestSaveOfLessThanIsWritten(t *testing.T) {
	s := serveWorkbench(t, threaded)
	got := s.save(`{"turns":{"link.from":1e-9}}`)
	require.Equal(t, http.StatusOK, got.status, got.body)
	assert.Contains(t, got.body, `"saved":[]`)
	assert.Equal(t, threaded, s.file())
}

// Of a file that may only be read nothing is lost, and nothing left beside it.
func TestSaveThatCantBeWritten(t *testing.T) {
	s := serveWorkbench(t, threaded)
	require.NoError(t, os.Chmod(s.path, 0o444))
	got := s.save(`{"turns":{"link.from":1}}`)
	assert.Equal(t, http.StatusInternalServerError, got.status)
	assert.Contains(t, got.body, "it may only be read")
	assert.Equal(t, threaded, s.file())
	beside, err := os.ReadDir(filepath.Dir(s.path))
	require.NoError(t, err)
	assert.Len(t, beside, 1)
}

// A run in which nothing can be set says what to write; one that is large leaves
// out what would take too long, and says so.
func TestWhatThePageSaysOfARun(t *testing.T) {
	type told struct {
		Nothing, Example, Caution string
		Ends, Stops               []struct{ Name string }
		Scope                     []string
	}
	of := func(text string) (s *servedWorkbench, page told) {
		s = serveWorkbench(t, text)
		decode(t, s.ask("/workbench", "", nil).body, &page)
		assert.Contains(t, page.Caution, "approves nothing")
		return s, page
	}
	s, page := of(barsHold)
	assert.Contains(t, page.Nothing, "no rod ends to turn and no stop to set")
	assert.Contains(t, page.Example, "thread  = \"M6x1\"")
	assert.Contains(t, page.Example, "adjust = ")
	assert.Equal(t, []string{"Not surely in 1: together."}, s.try(`{}`).Beside)
	// What it says to write can be read.
	example, adjust, _ := strings.Cut(page.Example, "\n\n")
	written := strings.Replace(barsHold, "to   = crank.horn\n", "to   = crank.horn\n"+example+"\n", 1)
	_, page = of(strings.Replace(written, "at = 24\n", "at = 24\n"+adjust+"\n", 1))
	assert.Empty(t, page.Nothing)
	assert.Len(t, page.Ends, 1)
	assert.Len(t, page.Stops, 1)
	assert.Contains(t, strings.Join(page.Scope, " "), "out is plus, and makes the rod longer")
	_, page = of(strings.Replace(barsHold, "at = 24\n", "at = 24\n"+adjust+"\n", 1))
	assert.Contains(t, page.Nothing, "no rod ends")
	_, page = of(strings.Replace(barsHold, `"mm"`, `"in"`, 1))
	assert.Contains(t, page.Example, "1/4-28")

	long := barsHold
	for i := range 60 {
		long += fmt.Sprintf("part \"c%d\" {\n pivot = [%d, 0]\n points = { horn = [%d, -60] }\n}\n", i, 300+100*i, 300+100*i)
		from := "crank"
		if i > 0 {
			from = fmt.Sprintf("c%d", i-1)
		}
		long += fmt.Sprintf("rod \"r%d\" {\n from = %s.horn\n to = c%d.horn\n}\n", i, from, i)
	}
	s, _ = of(long)
	assert.Contains(t, strings.Join(s.try(`{}`).Beside, " "), "How sure each answer is was left out here")
}
