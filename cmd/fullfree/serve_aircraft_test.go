package main

import (
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// aircraftPictures are the pictures of the runs of an aircraft as a page gets them.
type aircraftPictures struct {
	Pictures []struct {
		Name, Title, Picture string
		Moves                []string
		Bodies, Series       []int
		SVG                  *string
	}
}

// The page of an aircraft has a slider for each hand, rows of the ends of all runs, and a
// picture a run, each with what of the aircraft's frames is its own.
func TestServeAircraft(t *testing.T) {
	_, file := aircraftIn(t, splitInTwo)
	s := serveFile(t, file)
	var page struct {
		Run, File, Saves string
		Controls, Ends   []struct{ Name string }
	}
	s.answered("/workbench", "", &page)
	assert.Equal(t, "Chain", page.Run)
	assert.Equal(t, "the file of its run", page.Saves)
	require.Len(t, page.Controls, 1)
	assert.Equal(t, "front.hand", page.Controls[0].Name)
	require.Len(t, page.Ends, 4)
	assert.Equal(t, "rear.last-rod.from", page.Ends[3].Name)

	var stand struct {
		Stand struct {
			Position struct{ Frames []float64 }
		}
	}
	s.answered("/pose", `{"at":{"front.hand":10}}`, &stand)
	var drawn aircraftPictures
	s.answered("/picture", `{"at":{"front.hand":10}}`, &drawn)
	require.Len(t, drawn.Pictures, 2)
	front, rear := drawn.Pictures[0], drawn.Pictures[1]
	assert.Equal(t, "front: Front", front.Title)
	assert.Equal(t, []string{"front.hand"}, rear.Moves, "the hand is another run's")
	assert.Equal(t, []int{0, 1, 2}, front.Bodies)
	assert.Equal(t, []int{3, 4, 5}, rear.Bodies)
	assert.Len(t, stand.Stand.Position.Frames, 12*6)
	require.NotNil(t, rear.SVG)
	assert.Contains(t, *rear.SVG, "live-1-title")
	shown := `{"pictures":{"front":"` + front.Picture + `","rear":"` + rear.Picture + `"},"at":{"front.hand":10}}`
	s.answered("/picture", shown, &drawn)
	assert.Nil(t, drawn.Pictures[0].SVG, "the page has it")
	assert.NotEmpty(t, drawn.Pictures[1].Bodies)

	got := s.try(`{"turns":{"rear.last-rod.from":1}}`)
	require.Len(t, got.Writes, 2)
}

// Saving writes the file of the run in which the setting stands, and only that.
func TestServeAircraftSaves(t *testing.T) {
	folder, file := aircraftIn(t, splitInTwo)
	s := serveFile(t, file)
	texts := func() map[string]string {
		all := map[string]string{}
		for _, name := range []string{"aircraft.hcl", "front.hcl", "rear.hcl"} {
			all[name] = string(fileText(t, folder, name))
		}
		return all
	}
	before := texts()
	_, hash := s.page()
	got := s.ask("/save", `{"hash":"`+hash+`","turns":{"rear.last-rod.from":1}}`, nil)
	require.Equal(t, http.StatusOK, got.status, got.body)
	assert.Contains(t, got.body, `"file":"rear.hcl"`)
	after := texts()
	assert.Equal(t, before["aircraft.hcl"], after["aircraft.hcl"])
	assert.Equal(t, before["front.hcl"], after["front.hcl"])
	assert.Equal(t, strings.NewReplacer("length = 279", "length = 280").Replace(before["rear.hcl"]), strings.Replace(after["rear.hcl"], "engaged = 11", "engaged = 12", 1))
	_, now := s.page()
	assert.NotEqual(t, hash, now, "the page is told that its files have changed")

	// Of two runs both files, or neither.
	both := `"turns":{"rear.last-rod.from":-1,"front.floor-rod.from":1}}`
	require.NoError(t, os.Chmod(filepath.Join(folder, "rear.hcl"), 0o444))
	got = s.ask("/save", `{"hash":"`+now+`",`+both, nil)
	assert.Equal(t, http.StatusInternalServerError, got.status, got.body)
	assert.Contains(t, got.body, "rear.hcl")
	assert.Equal(t, after, texts(), "none is written where one can't be")
	require.NoError(t, os.Chmod(filepath.Join(folder, "rear.hcl"), 0o644))
	got = s.ask("/save", `{"hash":"`+now+`",`+both, nil)
	require.Equal(t, http.StatusOK, got.status, got.body)
	assert.Contains(t, texts()["front.hcl"], "length = 245.3")
	assert.Equal(t, before["rear.hcl"], texts()["rear.hcl"])
	beside, err := os.ReadDir(folder)
	require.NoError(t, err)
	assert.Len(t, beside, 3, "nothing temporary is left")
}

// A run's file that is edited shows up on the page, faulty or mended, and nothing is saved
// over it.
func TestServeAircraftFollowsItsFiles(t *testing.T) {
	folder, file := aircraftIn(t, splitInTwo)
	s := serveFile(t, file)
	rear := filepath.Join(folder, "rear.hcl")
	text := string(fileText(t, folder, "rear.hcl"))
	state := func() (known struct{ Hash, Faults string }) {
		s.answered("/file", "", &known)
		return known
	}
	filed := state()
	assert.Empty(t, filed.Faults)
	edit := func(text string) { require.NoError(t, os.WriteFile(rear, []byte(text), 0o644)) }
	edit(text + "part {")
	broken := state()
	assert.Equal(t, filed.Hash, broken.Hash)
	assert.Contains(t, broken.Faults, "rear.hcl")
	got := s.ask("/save", `{"hash":"`+filed.Hash+`","turns":{"front.floor-rod.from":1}}`, nil)
	assert.Equal(t, http.StatusConflict, got.status)
	edit(text)
	assert.Equal(t, filed, state(), "put back")
	edit(strings.Replace(text, "length = 279", "length = 278.5", 1))
	edited := state()
	assert.NotEqual(t, filed.Hash, edited.Hash)
	assert.Empty(t, edited.Faults)
	got = s.ask("/save", `{"hash":"`+filed.Hash+`","turns":{"front.floor-rod.from":1}}`, nil)
	assert.Equal(t, http.StatusConflict, got.status)
	require.NoError(t, os.Remove(rear))
	assert.Contains(t, state().Faults, "there is no such file")
	edit(text)
	assert.Equal(t, filed.Hash, state().Hash)
}

// Two runs with one file can be tried, and not saved for one of them.
func TestServeAircraftWithOneFileTwice(t *testing.T) {
	folder := t.TempDir()
	file := filepath.Join(folder, "aircraft.hcl")
	require.NoError(t, os.WriteFile(file, []byte("aircraft \"Two\" {}\nrun \"left\" {\n  file = \"bars.hcl\"\n}\nrun \"right\" {\n  file = \"bars.hcl\"\n}\n"), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(folder, "bars.hcl"), []byte(threaded), 0o644))
	s := serveFile(t, file)
	_, hash := s.page()
	got := s.ask("/save", `{"hash":"`+hash+`","turns":{"left.link.from":1}}`, nil)
	assert.Equal(t, http.StatusUnprocessableEntity, got.status, got.body)
	assert.Contains(t, got.body, "bars.hcl is the file of the runs left and right")
	assert.Equal(t, threaded, string(fileText(t, folder, "bars.hcl")))
}
