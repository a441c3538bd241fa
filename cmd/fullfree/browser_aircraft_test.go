//go:build browser

package main

import (
	"fmt"
	"math"
	"path/filepath"
	"testing"

	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// splitParts are the parts of the aircraft in two runs, by run: their places on its own
// drawing.
var splitParts = map[string][]turning{
	"front": {
		{name: "front.lever", points: []vec{{-20, 300, 0}, {6, -70, 0}}},
		{name: "front.floor-crank", pivot: vec{240, -60, 0}, points: []vec{{244, -124, 0}, {302, -52, 0}}},
		{name: "front.deck-crank", pivot: vec{250, 180, 0}, points: []vec{{308, 186, 0}, {260, 246, 0}}},
	},
	"rear": {
		{name: "rear.deck-crank", points: []vec{{-58, 6, 0}, {-10, 66, 0}}},
		{name: "rear.boom-crank", pivot: vec{-390, 20, 0}, points: []vec{{-394, 90, 0}, {-382, -34, 0}}},
		{name: "rear.surface", pivot: vec{-650, -30, 0}, points: []vec{{-656, -88, 0}, {-810, -26, 0}}},
	},
}

// figureOf finds the picture of a run of an aircraft.
func figureOf(run int) string { return fmt.Sprintf("#picture figure:nth-of-type(%d)", run) }

// The page of an aircraft of two runs: one slider moves both pictures, each by its own
// drawing; a rod end of the second run is turned, judged through to the hand, and saved into
// that run's file alone. On a phone the pictures lie side by side, and nothing else does.
func TestWorkbenchOfAnAircraft(t *testing.T) {
	folder, file := aircraftIn(t, splitInTwo)
	s := serveFile(t, file)
	b := newTab(t, 1200)
	b.openWorkbench(s)
	assert.Equal(t, 1, found[int](b, `document.querySelectorAll("#controls input[type=range]").length`))
	assert.Equal(t, []string{"front: Front", "rear: Rear"}, found[[]string](b, `[...document.querySelectorAll("#picture figcaption")].map((c) => c.textContent)`))
	assert.Equal(t, 4, found[int](b, `document.querySelectorAll("#ends li").length`))
	assert.Contains(t, found[string](b, headline), "HOLDS: all 10")

	table := sweepOf(t, file)
	for _, key := range []string{kb.Home, kb.End} {
		b.focus(workbenchSlider)
		b.press(key)
		x := b.standsAt()
		assert.InDelta(t, map[string]float64{kb.Home: table.low(), kb.End: table.high()}[key], x, 1e-3)
		b.shows(figureOf(1), splitParts["front"], table.at(x))
		b.shows(figureOf(2), splitParts["rear"], table.at(x))
	}

	// Longer by a turn: the surface stands lower, and the stop in the rear run lets the
	// hand go elsewhere.
	end := endButton("out", "rear.last-rod.from")
	b.click(end)
	b.click(end) // half a turn each
	b.until(`!document.getElementById("save").disabled && document.getElementById("writes").textContent.includes("280 mm")`)
	assert.Contains(t, found[string](b, `document.getElementById("writes").textContent`), "Saving writes into rear.hcl:")
	tried := sweepOf(t, file, "--set", "rear.last-rod.length=280")
	require.Greater(t, math.Abs(tried.high()-table.high()), 0.1)
	b.focus(workbenchSlider)
	b.press(kb.End)
	x := b.standsAt()
	assert.InDelta(t, tried.high(), x, 1e-3)
	b.shows(figureOf(1), splitParts["front"], tried.at(x))
	b.shows(figureOf(2), splitParts["rear"], tried.at(x))

	front, rear := string(fileText(t, folder, "front.hcl")), string(fileText(t, folder, "rear.hcl"))
	b.click("#save")
	b.until(noteText + `.includes("Saved into rear.hcl: rear.last-rod.length 280 mm")`)
	assert.Equal(t, front, string(fileText(t, folder, "front.hcl")))
	assert.Equal(t, []string{"length = 279 -> length = 280", "engaged = 12 -> engaged = 11"}, changedLines(t, rear, string(fileText(t, folder, "rear.hcl"))))
	assert.Equal(t, exitOK, fullfree("", "draw", file, "-o", filepath.Join(folder, "sheets")).status)

	b.wide(360)
	b.fits(360)
	tops := found[[]float64](b, `[...document.querySelectorAll("#picture figure")].map((f) => f.getBoundingClientRect().top)`)
	assert.Equal(t, tops[0], tops[1], "side by side")
	b.quiet(s.url)
}

// The book of an aircraft moves each run by itself, under the hand of another too.
func TestBookOfAnAircraft(t *testing.T) {
	folder, file := aircraftIn(t, splitInTwo)
	book := filepath.Join(folder, "book.html")
	require.Equal(t, outcome{}, fullfree("", "report", file, "-o", book))
	b := newTab(t, 1200)
	b.open("file://" + book)
	b.until(`document.documentElement.classList.contains("scripted")`)
	table := sweepOf(t, file)
	for i, run := range []string{"front", "rear"} {
		for _, x := range []float64{table.low(), table.high()} {
			found[bool](b, fmt.Sprintf(`(() => { const s = document.querySelector("#r%d .slider"); s.value = %g; s.dispatchEvent(new Event("input")); return true; })()`, i+1, x))
			b.settle()
			b.shows(fmt.Sprintf("#r%d .live", i+1), splitParts[run], table.at(x))
		}
	}
	b.wide(360)
	b.fits(360)
	b.quiet("file://")
}
