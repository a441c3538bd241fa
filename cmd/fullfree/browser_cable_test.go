//go:build browser

package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// slackLift is the collective of the demo with bent arms, drawn up so little that
// both its cables hang slack towards either end.
func slackLift(t *testing.T) string {
	t.Helper()
	slack := demoText(t, "lift-cables")
	for was, now := range map[string]string{
		"aft  = [-48, 0]":  "aft  = [-40, -30]",
		"fwd  = [48, 0]":   "fwd  = [40, -30]",
		"pretension = 120": "pretension = 8",
	} {
		require.Equal(t, 1, strings.Count(slack, was), was)
		slack = strings.Replace(slack, was, now, 1)
	}
	return slack
}

// slack counts which cores of the picture under a selector are marked slack: each
// core is in it twice, at both its ends.
func (b *tab) slack(root string) (marked, of int) {
	b.t.Helper()
	type cores struct{ Marked, Dashed, Of int }
	got := found[cores](b, fmt.Sprintf(`(() => {
		const all = [...document.querySelectorAll(%q)];
		return {
			Marked: all.filter((e) => e.classList.contains("slack")).length,
			Dashed: all.filter((e) => getComputedStyle(e).strokeDasharray !== "none").length,
			Of: all.length,
		};
	})()`, root+" [data-tension]"))
	assert.Equal(b.t, got.Marked, got.Dashed, "what is slack is dashed, and nothing else")
	return got.Marked, got.Of
}

// A cable is marked as slack while the slider stands where it hangs so, as check
// tells.
func TestReportMarksSlackCables(t *testing.T) {
	path := filepath.Join(t.TempDir(), "slack.hcl")
	require.NoError(t, os.WriteFile(path, []byte(slackLift(t)), 0o644))
	var told struct {
		Sweeps []struct {
			Cables []struct{ Slack []struct{ From, To float64 } }
		}
	}
	require.NoError(t, json.Unmarshal([]byte(fullfree("", "check", path, "--json").out), &told))
	spans := told.Sweeps[0].Cables[0].Slack
	require.Len(t, spans, 2, "towards either end")
	const near = 0.5 // degrees: nearer they pull less than the half newton that shows

	b := newTab(t, 360)
	b.openBook(bookOf(t, path))
	live := travelShown + ".live"
	marked, of := b.slack(live)
	assert.Zero(t, marked, "taut at neutral")
	assert.Equal(t, 4, of)
	for _, c := range []struct {
		at   float64
		want int
	}{{spans[0].To + near, 0}, {spans[0].To - near, 4}, {spans[0].From, 4}, {0, 0}} {
		b.slide(c.at)
		marked, _ := b.slack(live)
		assert.Equal(t, c.want, marked, "at %v", c.at)
		pulls, _ := shownNumber(t, b.readout()["tension of lift-up"])
		assert.Equal(t, c.want == 0, pulls > 0, "at %v it pulls %v", c.at, pulls)
	}
	assert.Contains(t, found[string](b, fmt.Sprintf("document.querySelector(%q).textContent", live)), "Thick dashes: a cable")
	b.quiet("file://")
}

// Nuts of a pair are turned: how tight they draw both cables stands there at once,
// slack shows in the picture, and that none of it can be saved is told.
func TestWorkbenchTurnsTheNutsOfAPair(t *testing.T) {
	text := slackLift(t)
	s := serveWorkbench(t, text)
	b := newTab(t, 360)
	b.openWorkbench(s)
	pulls := `[...document.querySelectorAll("#ends .pull strong")].map((e) => e.textContent).join()`
	reading := `[...document.querySelectorAll("#readings tr")].find((r) => r.firstElementChild.textContent === "tension of lift-up").children[1].textContent`
	refused := `document.getElementById("writes").parentElement.textContent.includes("This can't be saved.")`
	assert.Equal(t, "8 N,8 N,8 N,8 N", found[string](b, pulls), "both cables, under the nuts of each")
	assert.False(t, found[bool](b, refused), "nothing is tried")

	// A quarter of a turn of 1 mm between two cables of 38 N a mm.
	b.click(endButton("out", "lift-up.conduit-from"))
	b.until(pulls + ` === "13 N,13 N,13 N,13 N"`)
	b.until(reading + ` === "13 N"`)
	b.until(refused)
	assert.True(t, found[bool](b, `document.getElementById("save").disabled`))
	marked, of := b.slack("#picture")
	assert.Zero(t, marked)
	assert.Equal(t, 4, of)

	// Three quarters in: half a turn in, from where the file has it.
	for range 3 {
		b.click(endButton("in", "lift-up.conduit-from"))
	}
	b.until(pulls + ` === "0 N,0 N,0 N,0 N"`)
	b.until(reading + ` === "0 N"`)
	b.until(`document.querySelectorAll("#picture .slack").length === 4`)
	b.slack("#picture")
	assert.Contains(t, found[string](b, headline), "FALLS SHORT")
	b.fits(360)
	assert.Equal(t, text, s.file())
	b.quiet(s.url)
}
