//go:build browser

package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const demoFolder = "../../demo/"

// bookOf writes the book of files, and returns its name.
func bookOf(t *testing.T, files ...string) string {
	t.Helper()
	book := filepath.Join(t.TempDir(), "book.html")
	require.Equal(t, outcome{}, fullfree("", append(append([]string{"report"}, files...), "-o", book)...))
	return book
}

// openBook opens a book, and waits until its script has begun.
func (b *tab) openBook(book string) {
	b.t.Helper()
	b.open("file://" + book)
	b.until(`document.querySelector("html.scripted .travel:not(.away) .cursor:not([visibility])")`)
}

// The travel that the page shows.
const travelShown = ".travel:not(.away) "

// slide moves the slider as a finger does.
func (b *tab) slide(to float64) {
	b.t.Helper()
	found[bool](b, fmt.Sprintf(`(s => { s.value = %v; return s.dispatchEvent(new Event("input", {bubbles: true})); })(document.querySelector(%q))`, to, travelShown+".slider"))
}

// slidTo is where the slider stands.
func (b *tab) slidTo() float64 {
	b.t.Helper()
	return found[float64](b, fmt.Sprintf("document.querySelector(%q).valueAsNumber", travelShown+".slider"))
}

// row is a row of the readout.
type row struct{ Label, Text string }

func (b *tab) readout() map[string]string {
	b.t.Helper()
	rows := map[string]string{}
	for _, r := range found[[]row](b, fmt.Sprintf(`[...document.querySelectorAll(%q)].map((c) => ({ Label: c.parentElement.firstElementChild.textContent, Text: c.textContent }))`, travelShown+"[data-series]")) {
		rows[strings.TrimSuffix(r.Label, " (output)")] = r.Text
	}
	return rows
}

// standsAsSwept asserts that the page shows the run as sweep has it: the picture,
// the readout, what is said of the place, and the cursors of the charts.
func (b *tab) standsAsSwept(parts []turning, s travelTable) {
	b.t.Helper()
	x := b.slidTo()
	at := s.at(x)
	b.shows(travelShown+".live", parts, at)
	rows := b.readout()
	for _, name := range s.columns {
		v, decimals := shownNumber(b.t, rows[name])
		assert.InDelta(b.t, at[name], v, 0.5*math.Pow10(-decimals)+0.01, "the readout of %s with the control at %v: %s", name, x, rows[name])
	}
	said := found[string](b, fmt.Sprintf("document.querySelector(%q).textContent", travelShown+".at"))
	if said != "neutral" {
		v, _ := shownNumber(b.t, said)
		assert.InDelta(b.t, x, v, 0.051, said)
	} else {
		assert.InDelta(b.t, 0, x, 0.01)
	}
	b.cursorsAt(x)
}

// cursor is that of a chart, with two ticks of the axis along its foot: where
// they are and what they say.
type cursor struct {
	At, X1, X2, V1, V2 float64
	Ticks              int
}

// cursorsAt asserts that every chart has its cursor at x, by the words on its
// own axis.
func (b *tab) cursorsAt(x float64) {
	b.t.Helper()
	cursors := found[[]cursor](b, fmt.Sprintf(`[...document.querySelectorAll(%q)].map((svg) => {
		const lines = new Map();
		for (const e of svg.querySelectorAll("text")) {
			if (/^[-−]?\d+(\.\d+)?°?$/.test(e.textContent)) {
				const y = e.getAttribute("y");
				const box = e.getBBox();
				lines.set(y, [...(lines.get(y) || []), { x: box.x + box.width / 2, v: parseFloat(e.textContent.replace("−", "-")) }]);
			}
		}
		const axis = [...lines.values()].sort((a, b) => b.length - a.length)[0].sort((a, b) => a.x - b.x);
		const [a, b] = [axis[0], axis[axis.length - 1]];
		const line = svg.querySelector(".cursor");
		return { At: Number(line.getAttribute("x1")), X1: a.x, X2: b.x, V1: a.v, V2: b.v, Ticks: axis.length };
	})`, travelShown+"svg[data-left]"))
	assert.NotEmpty(b.t, cursors, "charts")
	for _, c := range cursors {
		require.GreaterOrEqual(b.t, c.Ticks, 3, "the axis of a chart")
		want := c.X1 + (x-c.V1)/(c.V2-c.V1)*(c.X2-c.X1)
		assert.InDelta(b.t, want, c.At, 3, "the cursor of a chart with the control at %v; its axis goes from %v to %v", x, c.V1, c.V2)
	}
}

// The slider moves the parts to where sweep says, in the plane, in space, and
// with two controls, each with the other held.
func TestReportSliderMovesPartsAsSweepSays(t *testing.T) {
	for _, c := range []struct {
		demo   string
		parts  []turning
		travel string // as the page calls it; empty: there is only one
		sweep  []string
	}{
		{"pedals", pedalsParts, "", nil},
		{"pedals-swivel", swivelParts, "", nil},
		{"sticks", sticksParts, "roll, with pitch at 12.0°", []string{"--control", "roll", "--held", "pitch=12"}},
		{"mixer", mixerParts, "collective, with cyclic at -10.0°", []string{"--control", "collective", "--held", "cyclic=-10"}},
	} {
		t.Run(c.demo, func(t *testing.T) {
			b := newTab(t, 1200)
			file := demoFolder + c.demo + ".hcl"
			book := bookOf(t, file)
			b.openBook(book)
			if c.travel != "" {
				assert.True(t, found[bool](b, fmt.Sprintf(`(() => {
					const select = document.querySelector(".choose");
					select.value = [...select.options].find((o) => o.textContent === %q).value;
					return select.dispatchEvent(new Event("change", { bubbles: true }));
				})()`, c.travel)))
			}
			s := sweepOf(t, file, c.sweep...)
			reach := s.high() - s.low()
			for _, part := range []float64{0, 0.13, 0.5, 0.77, 1} {
				b.slide(s.low() + part*reach)
				assert.InDelta(t, s.low()+part*reach, b.slidTo(), 1e-6)
				b.standsAsSwept(c.parts, s)
			}

			// Dragged with the mouse, by the middle of its thumb.
			const thumb = 16
			slider := b.box(travelShown + ".slider")
			over := func(part float64) [2]float64 {
				return [2]float64{slider.X + thumb/2 + part*(slider.Width-thumb), slider.Y + slider.Height/2}
			}
			b.drag(over(1), over(0.3))
			assert.InDelta(t, s.low()+0.3*reach, b.slidTo(), 0.02*reach)
			b.standsAsSwept(c.parts, s)

			// By keyboard.
			b.focus(travelShown + ".slider")
			before := b.slidTo()
			b.press(kb.ArrowRight, kb.ArrowUp, kb.ArrowLeft, kb.PageUp)
			assert.InDelta(t, before+reach/200+reach/20, b.slidTo(), 1e-6)
			b.standsAsSwept(c.parts, s)
			b.press(kb.End)
			assert.InDelta(t, s.high(), b.slidTo(), 1e-6)
			b.press(kb.Home, kb.PageUp, kb.PageDown, kb.PageUp)
			assert.InDelta(t, s.low()+reach/20, b.slidTo(), 1e-6)
			b.standsAsSwept(c.parts, s)
			b.quiet("file://" + book)
		})
	}
}

// checkedRequirement is what check says of a requirement.
type checkedRequirement struct {
	Kind, Name string
	Worst, At  *float64
	Sweep      *int
}

// Clicking a requirement's place moves the slider to its worst place.
func TestReportGoesToTheWorstPlace(t *testing.T) {
	b := newTab(t, 1200)
	file := demoFolder + "mixer.hcl"
	book := bookOf(t, file)
	b.openBook(book)
	got := fullfree("", "check", file, "--json")
	var check struct{ Requirements []checkedRequirement }
	require.NoError(t, json.Unmarshal([]byte(got.out), &check))
	went := map[int]bool{}
	for i, r := range check.Requirements {
		if r.At == nil {
			continue
		}
		button := fmt.Sprintf(".requirement:nth-child(%d) .go", i+1)
		if i%2 == 0 {
			b.top()
			b.click(button)
		} else {
			b.focus(button)
			b.press(kb.Enter)
		}
		b.until(`document.activeElement.matches(".slider")`)
		assert.InDelta(t, *r.At, b.slidTo(), 1e-9, "%s %s", r.Kind, r.Name)
		assert.Equal(t, fmt.Sprintf("r1s%d", *r.Sweep+1), found[string](b, `document.activeElement.closest(".travel").id`), "%s %s", r.Kind, r.Name)
		assert.Equal(t, fmt.Sprintf("r1s%d", *r.Sweep+1), found[string](b, `document.querySelector(".choose").value`))
		went[*r.Sweep] = true
		if text, ok := b.readout()[fmt.Sprintf("%s %q", r.Kind, r.Name)]; ok {
			v, decimals := shownNumber(t, text)
			assert.InDelta(t, *r.Worst, math.Abs(v), 0.5*math.Pow10(-decimals)+1e-3, "%s %s", r.Kind, r.Name)
		}
		b.cursorsAt(*r.At)
	}
	assert.Greater(t, len(went), 2, "places in several travels")

	// A chart that is clicked moves the slider too.
	b.slide(0)
	chart := b.box(travelShown + "svg[data-left]")
	b.do(chromedp.MouseClickXY(chart.X+0.75*chart.Width, chart.Y+chart.Height/2))
	assert.Greater(t, b.slidTo(), 2.0)
	b.cursorsAt(b.slidTo())
	b.quiet("file://" + book)
}

// The keyboard alone can do the whole story, with a name for everything and the
// focus in sight.
func TestReportByKeyboard(t *testing.T) {
	b := newTab(t, 360)
	file := demoFolder + "mixer.hcl"
	book := bookOf(t, file)
	b.openBook(book)
	b.tabThrough()
	names := strings.Join(b.named(), "\n")
	for _, name := range []string{"combobox What moves", "slider collective, with cyclic at neutral", "button Play", "button Low end", "button Neutral", "button High end", "button collective at 12.0° (lever up), with cyclic at 10.0°"} {
		assert.Contains(t, names, name)
	}

	b.top()
	b.tabTo(".choose")
	b.press(kb.ArrowDown)
	b.tabTo(".slider")
	assert.Equal(t, "r1s2-slider", found[string](b, "document.activeElement.id"))
	s := sweepOf(t, file, "--control", "collective", "--held", "cyclic=-10")
	b.press(kb.PageUp)
	assert.InDelta(t, (s.high()-s.low())/20, b.slidTo(), 1e-6)
	said := found[string](b, `document.activeElement.getAttribute("aria-valuetext")`)
	assert.Equal(t, "1.1° (lever up)", said)
	status := fmt.Sprintf("document.querySelector(%q).textContent", travelShown+"[role=status]")
	b.until(status) // told at rest
	assert.Contains(t, found[string](b, status), "collective at 1.1° (lever up), height")

	b.tabTo(".play")
	b.press(" ")
	b.until(fmt.Sprintf("Math.abs(document.querySelector(%q).valueAsNumber - 1.1) > 0.1", travelShown+".slider"))
	assert.Equal(t, "Pause", found[string](b, "document.activeElement.textContent"))
	b.press(kb.Enter)
	assert.Equal(t, "Play", found[string](b, "document.activeElement.textContent"))
	stopped := b.slidTo()
	time.Sleep(100 * time.Millisecond)
	assert.InDelta(t, stopped, b.slidTo(), 0, "it stays where it was stopped")
	b.standsAsSwept(mixerParts, s)

	for _, to := range []struct {
		text string
		at   float64
	}{{"Low end", s.low()}, {"Neutral", 0}, {"High end", s.high()}} {
		b.tabTo(".to")
		assert.Equal(t, to.text, found[string](b, "document.activeElement.textContent"))
		b.press(kb.Enter)
		assert.InDelta(t, to.at, b.slidTo(), 1e-9)
	}
	b.tabTo(".go")
	b.press(kb.Enter)
	b.until(`document.activeElement.id === "r1s3-slider"`)
	assert.InDelta(t, 12, b.slidTo(), 1e-9)

	// Who wants no motion gets steps, and only when asked.
	b.media("", &emulation.MediaFeature{Name: "prefers-reduced-motion", Value: "reduce"})
	b.press(kb.Home)
	b.tabTo(".play")
	b.press(" ")
	low, step := s.low(), (s.high()-s.low())/12
	b.until(fmt.Sprintf("document.querySelector(%q).valueAsNumber > %v", travelShown+".slider", low))
	x := b.slidTo()
	b.press(" ")
	steps := (x - low) / step
	assert.InDelta(t, math.Round(steps), steps, 1e-6, "it goes by whole steps")
	b.quiet("file://" + book)
}

// longFile is a run with names as long as they get, without a place to break.
func longFile(t *testing.T) string {
	t.Helper()
	const times = 4
	text := barsHold
	for _, name := range []string{"lever", "crank", "horn", "link", "hand", "tail", "low", "high"} {
		long := strings.Repeat(name+"verylongname", times)
		text = regexp.MustCompile(`\b`+name+`\b`).ReplaceAllString(text, long)
	}
	text = strings.NewReplacer(
		`run "Bars"`, `run "`+strings.Repeat("Unbreakable", 12)+`"`,
		`require "together" {`, `require "together" "`+strings.Repeat("longer", 20)+`" {`,
	).Replace(text)
	folder, _ := folderWith(t, barsHold)
	file := filepath.Join(folder, strings.Repeat("longfilename", 12)+".hcl")
	require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
	return file
}

// Every demo, and a run with long names, fits a phone and a desktop; all its
// text is legible, and everything has a name.
func TestReportFits(t *testing.T) {
	files, err := filepath.Glob(demoFolder + "*.hcl")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	book := bookOf(t, append(files, longFile(t), hostileFile(t))...)
	b := newTab(t, 360)
	b.openBook(book)
	chosen := func(i int) bool { // in every run the i-th travel; false: none has so many
		return found[bool](b, fmt.Sprintf(`[...document.querySelectorAll(".choose")].filter((select) => {
			const option = select.options[%d];
			if (option) {
				select.value = option.value;
				select.dispatchEvent(new Event("change", { bubbles: true }));
			}
			return option;
		}).length > 0`, i))
	}
	b.fits(360)
	b.legible()
	for i := 1; chosen(i); i++ {
		b.fits(360)
	}
	b.wide(1200)
	b.fits(1200)
	assert.Equal(t, len(files)+2, found[int](b, `document.querySelectorAll(".summary a").length`))
	b.quiet("file://" + book)
}

// Printed, there is the sheet, and pictures in place of the slider.
func TestReportPrints(t *testing.T) {
	b := newTab(t, 1200)
	book := bookOf(t, demoFolder+"pedals.hcl")
	b.openBook(book)
	shown := func(selector string) int {
		return found[int](b, fmt.Sprintf("[...document.querySelectorAll(%q)].filter((e) => e.getClientRects().length > 0).length", selector))
	}
	assert.Zero(t, shown(".still"), "on a screen the picture moves instead")
	for name, paper := range map[string]chromedp.PaperSize{"A4": chromedp.PaperA4, "Letter": chromedp.PaperLetter} {
		pdf, err := chromedp.Run(b.ctx, chromedp.PrintToPDF(chromedp.PDFPaper(paper), chromedp.PDFPreferCSSPageSize()))
		require.NoError(t, err)
		require.True(t, strings.HasPrefix(string(pdf), "%PDF-"), name)
		pages := len(regexp.MustCompile(`/Type\s*/Page\b[^s]`).FindAll(pdf, -1))
		assert.Greater(t, pages, 4, name)
		assert.LessOrEqual(t, pages, 8, name)
		size := regexp.MustCompile(`/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)`).FindSubmatch(pdf)
		require.NotNil(t, size, name)
		width, _ := shownNumber(t, string(size[1]))
		assert.InDelta(t, paper.Width*72, width, 1, name)
	}

	b.media("print")
	assert.Zero(t, shown("input, select, .play, .to, .moving, [role=status]"), "nothing to operate")
	assert.Equal(t, "none", found[string](b, `getComputedStyle(document.querySelector(".go")).borderTopStyle`), "a place is plain words")
	assert.GreaterOrEqual(t, shown(".still svg"), 3)
	assert.LessOrEqual(t, shown(".still svg"), 5)
	assert.Positive(t, shown(".chart svg"))
	sheet := found[string](b, `document.querySelector(".sheet").innerText`)
	for _, words := range []string{"stops", "Breakout", "Free play", "econd person", "emporary", "Full and free"} {
		assert.Regexp(t, "(?i)"+words, sheet)
	}
	assert.Equal(t, "page", found[string](b, `getComputedStyle(document.querySelector(".sheet")).breakBefore`))
	assert.Contains(t, found[string](b, `document.querySelector(".listing").innerText`), `stop "left-stop"`)
	// Signatures are on a page with the last step, and the caution with them; a
	// browser keeps only neighbors together.
	assert.Equal(t, "avoid avoid", found[string](b, `((s) => s.breakBefore + " " + s.breakInside)(getComputedStyle(document.querySelector(".sheet-steps > .sheet-step + .sheet-signed:last-child")))`))
	assert.Zero(t, shown("footer"), "no page for what stands at the end of the sheet")
	b.wide(718) // as wide as A4 without its margins
	b.fits(718)
	b.legible()
	b.quiet("file://" + book)
}

// Without a script there are still pictures, the table and everything else.
func TestReportWithoutScript(t *testing.T) {
	b := newTab(t, 360)
	book := bookOf(t, demoFolder+"pedals.hcl")
	call(b, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	b.open("file://" + book)
	b.standsStill()
	b.fits(360)
	b.legible()
	b.quiet("file://" + book)
}

// standsStill asserts that a page whose script doesn't run shows the run all
// the same.
func (b *tab) standsStill() {
	b.t.Helper()
	got := found[map[string]int](b, `Object.fromEntries([".still svg", ".stills table", ".required .requirement", ".sheet", ".slider", ".play", ".live"]
		.map((selector) => [selector, [...document.querySelectorAll(selector)].filter((e) => e.getClientRects().length > 0).length]))`)
	assert.GreaterOrEqual(b.t, got[".still svg"], 3)
	assert.Equal(b.t, 1, got[".stills table"])
	assert.Equal(b.t, 8, got[".required .requirement"])
	assert.Equal(b.t, 1, got[".sheet"])
	assert.Zero(b.t, got[".slider"]+got[".play"]+got[".live"], "nothing that would do nothing")
}
