//go:build browser

package main

import (
	"fmt"
	"math"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// openWorkbench opens the page of a workbench, and waits until it has judged the run and
// drawn it.
func (b *tab) openWorkbench(s *servedWorkbench) {
	b.t.Helper()
	b.open(s.address())
	b.until(`document.querySelector("#picture svg [data-at]") && document.querySelectorAll("#readings td").length > 0`)
}

// Parts of the page of a workbench.
const (
	workbenchSlider = "#controls input[type=range]"
	headline        = `document.getElementById("headline").textContent`
	noteText        = `document.getElementById("note").textContent`
)

func endButton(way, end string) string { return fmt.Sprintf("#ends [aria-label=%q]", way+": "+end) }

// standsAt waits until the page shows the run where its one slider is, and
// returns where that is.
func (b *tab) standsAt() float64 {
	b.t.Helper()
	b.until(`(() => {
		const at = document.querySelector("` + workbenchSlider + `").valueAsNumber.toFixed(1);
		return document.getElementById("readout-note").textContent.includes(" at " + (Number(at) === 0 ? "0.0" : at) + "°");
	})()`)
	return found[float64](b, fmt.Sprintf("document.querySelector(%q).valueAsNumber", workbenchSlider))
}

// changedLines lists the lines that differ, as "old -> new".
func changedLines(t *testing.T, before, after string) []string {
	t.Helper()
	old, now := strings.Split(before, "\n"), strings.Split(after, "\n")
	require.Len(t, now, len(old))
	var list []string
	for i := range old {
		if old[i] != now[i] {
			list = append(list, strings.Join(strings.Fields(old[i]), " ")+" -> "+strings.Join(strings.Fields(now[i]), " "))
		}
	}
	return list
}

// A rod end is turned, the verdict changes, the picture follows, and what is
// saved is in the file: that, and nothing else.
func TestWorkbenchTriesASetting(t *testing.T) {
	filed := demoText(t, "pedals-unequal")
	s := serveWorkbench(t, filed)
	b := newTab(t, 1200)
	b.openWorkbench(s)
	assert.Contains(t, found[string](b, headline), "FALLS SHORT")
	assert.True(t, found[bool](b, `document.getElementById("save").disabled`))
	changed := `[...document.querySelectorAll("#requirements tr.differs")].map((row) => row.firstElementChild.firstChild.textContent)`
	assert.Empty(t, found[[]string](b, changed))

	// Three half turns in: 1.5 mm shorter.
	for range 3 {
		b.click(endButton("in", "right-link.from"))
	}
	b.until(headline + `.includes("HOLDS")`)
	assert.Contains(t, found[string](b, `document.getElementById("filed").textContent`), "FALLS SHORT", "beside it what is filed")
	assert.Contains(t, found[[]string](b, changed), "opposite")
	row := found[string](b, `document.querySelector("#ends li.changed").innerText`)
	assert.Contains(t, row, "296.65")
	assert.Contains(t, row, "298.15")
	assert.Contains(t, row, "12.5")
	assert.Equal(t, 1, found[int](b, `document.querySelectorAll("#ends li.changed").length`))
	assert.Equal(t, filed, s.file(), "nothing is written yet")

	// The picture follows the slider, with the rod as it is tried.
	table := sweepOf(t, s.path, "--set", "right-link.length=296.65")
	const thumb = 16
	slider := b.box(workbenchSlider)
	over := func(part float64) [2]float64 {
		return [2]float64{slider.X + thumb/2 + part*(slider.Width-thumb), slider.Y + slider.Height/2}
	}
	for _, to := range []float64{0.9, 0.2} {
		b.drag(over(-table.low()/(table.high()-table.low())), over(to))
		x := b.standsAt()
		assert.InDelta(t, table.low()+to*(table.high()-table.low()), x, 0.03*(table.high()-table.low()))
		b.shows("#picture", pedalsParts, table.at(x))
		b.focus(workbenchSlider)
		b.press(kb.Home)
		x = b.standsAt()
		assert.InDelta(t, table.low(), x, 1e-3)
		b.shows("#picture", pedalsParts, table.at(x))
		b.click("#controls [aria-label='neutral, pedals']")
		assert.Zero(t, b.standsAt())
	}
	b.shows("#picture", pedalsParts, table.at(0))

	// Reverted, and tried again, and saved.
	b.click("#revert")
	b.until(headline + `.includes("FALLS SHORT")`)
	assert.Zero(t, found[int](b, `document.querySelectorAll("#ends li.changed").length`))
	b.click(endButton("out", "right-link.from"))
	b.until(`document.querySelector("#ends li.changed")`)
	for range 4 {
		b.click(endButton("in", "right-link.from"))
	}
	b.until(headline + `.includes("HOLDS")`)
	b.until(`!document.getElementById("save").disabled && document.getElementById("writes").textContent.includes("296.65")`)
	assert.Equal(t, filed, s.file())
	b.click("#save")
	b.until(noteText + `.includes("Saved into")`)
	assert.Equal(t, []string{
		"length = 298.15 # hole to hole -> length = 296.65 # hole to hole",
		"engaged = 11 -> engaged = 12.5",
	}, changedLines(t, filed, s.file()))
	b.until(`document.getElementById("save").disabled`)
	// What is tried has been dropped by now; that nothing is tried is told once the
	// saved file has been judged.
	b.until(`document.getElementById("filed").textContent.includes("nothing is tried")`)
	assert.Contains(t, found[string](b, headline), "HOLDS")
	assert.Empty(t, found[[]string](b, changed), "now it is as filed")
	assert.Equal(t, exitOK, fullfree("", "check", s.path).status)
	b.quiet(s.url)
}

// A file that is edited shows up on the page, faulty or mended; what is tried
// stays.
func TestWorkbenchFollowsTheFile(t *testing.T) {
	text := screwed
	s := serveWorkbench(t, text)
	b := newTab(t, 1200)
	b.openWorkbench(s)
	end := found[string](b, `document.querySelector("#ends [aria-label^='out: ']").getAttribute("aria-label").slice(5)`)
	b.click(endButton("out", end))
	b.until(`document.querySelector("#ends li.changed")`)

	edit := func(text string) { require.NoError(t, os.WriteFile(s.path, []byte(text), 0o644)) }
	edit(strings.Replace(text, `run "Bars"`, `run "Bars, edited"`, 1))
	b.until(`document.querySelector("h1").textContent === "Bars, edited"`)
	b.until(`document.querySelector("#ends li.changed")`) // what is tried stays

	edit(text + "\nnonsense {")
	b.until(`document.getElementById("trouble").getClientRects().length > 0 && document.getElementById("trouble-why").textContent.includes("nonsense")`)
	assert.True(t, found[bool](b, `document.getElementById("picture").classList.contains("old") && document.getElementById("stale").getClientRects().length > 0`), "the picture is marked as old")
	assert.True(t, found[bool](b, `document.getElementById("save").disabled`))

	edit(text)
	b.until(`document.getElementById("trouble").hidden && document.querySelector("h1").textContent === "Bars"`)
	b.quiet(s.url)
}

// By keyboard alone, on a phone's width: everything is reached and named, a stop
// screw is set, a rod end turned, and it is saved.
func TestWorkbenchByKeyboard(t *testing.T) {
	s := serveWorkbench(t, screwed)
	b := newTab(t, 360)
	b.openWorkbench(s)
	b.fits(360)
	b.legible()
	b.named()
	b.tabThrough()

	b.top()
	b.tabTo(workbenchSlider)
	b.press(kb.End)
	x := b.standsAt()
	assert.Greater(t, x, 20.0)
	b.tabTo("#ends [aria-label^='out: ']")
	b.press(kb.Enter)
	b.until(`document.querySelector("#ends li.changed")`)
	b.press(" ")
	b.tabTo("#stops input")
	b.press(kb.ArrowUp)
	b.until(`document.querySelector("#stops li.changed")`)
	b.until(`document.getElementById("writes").textContent.includes("→")`)
	b.tabTo("#save")
	b.press(kb.Enter)
	b.until(noteText + `.includes("Saved into")`)
	for _, line := range changedLines(t, screwed, s.file()) {
		assert.Regexp(t, `^(length|engaged|at) = `, line)
	}
	assert.NotEqual(t, screwed, s.file())
	b.tabThrough() // as it is now
	b.fits(360)
	b.quiet(s.url)
}

// The workbench fits a phone with every demo, and with long names; names stay text.
func TestWorkbenchFits(t *testing.T) {
	files, err := filepath.Glob(demoFolder + "*.hcl")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	hostile := hostileFile(t)
	b := newTab(t, 360)
	var from []string
	for _, file := range append(files, longFile(t), hostile) {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		s := serveWorkbench(t, string(text))
		from = append(from, s.url)
		b.openWorkbench(s)
		b.fits(360)
		if file == hostile {
			assert.Equal(t, hostileName, found[string](b, "document.querySelector('h1').textContent"))
			assert.Zero(t, found[int](b, "document.querySelectorAll('img, b, i, u, iframe, object, embed, link, base, form, [autofocus], [onfocus], [onload], [onerror], [style]').length"))
			assert.Equal(t, 1, found[int](b, "document.querySelectorAll('script').length"), "the page's own")
		}
	}
	b.wide(1200)
	b.fits(1200)
	b.legible()
	b.quiet(from...)

	found[bool](b, `(() => {
		const e = document.createElement("script");
		e.textContent = "window.ran = true";
		document.body.append(e);
		return true;
	})()`)
	assert.True(t, found[bool](b, "window.ran === undefined"), "an injected script")
}

// With two controls each moves with the other where it stands.
func TestWorkbenchTwoControls(t *testing.T) {
	s := serveWorkbench(t, demoText(t, "mixer"))
	b := newTab(t, 1200)
	b.openWorkbench(s)
	b.focus("[aria-label^='cyclic, ']")
	b.press(kb.PageUp, kb.PageUp, kb.PageUp, kb.PageUp)
	cyclic := found[float64](b, "document.activeElement.valueAsNumber")
	assert.InDelta(t, 4, cyclic, 1e-6)
	b.focus("[aria-label^='collective, ']")
	b.press(kb.PageDown, kb.PageDown)
	collective := found[float64](b, "document.activeElement.valueAsNumber")
	b.until(fmt.Sprintf(`document.getElementById("readout-note").textContent.includes("collective at %.1f°, cyclic at %.1f°")`, collective, cyclic))
	table := sweepOf(t, s.path, "--control", "collective", "--held", fmt.Sprintf("cyclic=%v", math.Round(cyclic*1e6)/1e6))
	b.shows("#picture", mixerParts, table.at(collective))
	b.quiet(s.url)
}

// A page from elsewhere gets nothing out of the workbench, nor into it. With what it
// is refused, and that oversized bodies are, TestWhatServeRefuses tells.
func TestWorkbenchIsForItsOwnPageAlone(t *testing.T) {
	text := demoText(t, "pedals-unequal")
	s := serveWorkbench(t, text)
	token, hash := s.page()
	elsewhere := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, _ *http.Request) {
		fmt.Fprintf(w, `<!DOCTYPE html><title>elsewhere</title><iframe src=%q></iframe>`, s.url)
	}))
	defer elsewhere.Close()
	b := newTab(t, 1200)
	b.open(elsewhere.URL)
	b.until(`document.querySelector("iframe")`)
	found[bool](b, fmt.Sprintf(`(() => {
		window.got = [];
		const body = JSON.stringify({ hash: %q, turns: { "right-link.from": -1.5 } });
		const ask = (path, options) => fetch(%q + path, options).then((a) => window.got.push(a.type + " " + a.status), () => window.got.push("refused"));
		ask("/file", { mode: "no-cors" });
		ask("/workbench", {});
		ask("/save", { method: "POST", mode: "no-cors", body });
		ask("/save", { method: "POST", headers: { "Content-Type": "application/json", %q: %q }, body });
		return true;
	})()`, hash, s.url, tokenHeader, token))
	b.until("window.got.length === 4")
	assert.Equal(t, []string{"refused", "refused", "refused", "refused"}, found[[]string](b, "window.got"))
	assert.True(t, b.troubled("frame"), "it isn't shown inside another page")

	// The same server under a name that isn't its own.
	b.open(strings.Replace(s.url, "127.0.0.1", reboundName, 1))
	assert.Contains(t, found[string](b, "document.body.textContent"), "not served under that name")
	assert.Equal(t, text, s.file())
}
