//go:build browser

package main

import (
	"fmt"
	"strings"
	"testing"
	"time"

	cdpinput "github.com/chromedp/cdproto/input"

	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// tap touches the middle of the first element that a selector finds, once it stays where it
// is: a finger that comes down while the page moves hits something else.
func (b *tab) tap(selector string) {
	b.t.Helper()
	const look = 30 * time.Millisecond
	at := b.standing(selector, look).middle()
	b.tapAt(at)
}

func (b *tab) tapAt(at [2]float64) {
	b.t.Helper()
	call(b, cdpinput.DispatchTouchEvent, cdpinput.DispatchTouchEventParams{Type: cdpinput.DispatchTouchEventTypeTouchStart, TouchPoints: []*cdpinput.TouchPoint{{X: at[0], Y: at[1]}}})
	call(b, cdpinput.DispatchTouchEvent, cdpinput.DispatchTouchEventParams{Type: cdpinput.DispatchTouchEventTypeTouchEnd, TouchPoints: []*cdpinput.TouchPoint{}})
}

// pressable are the buttons that are in sight and can be pressed, numbered in the page.
func (b *tab) pressable() []string {
	b.t.Helper()
	return found[[]string](b, `document.querySelectorAll("[data-pressable]").forEach((e) => { delete e.dataset.pressable; }), [...document.querySelectorAll("button, summary")].filter((e) => !e.disabled && e.checkVisibility()).map((e, i) => {
		e.dataset.pressable = String(i);
		return i + " " + (e.getAttribute("aria-label") || e.textContent);
	})`)
}

// The parts of the page, each with what is to be open in it.
var onePageParts = []string{"try", "text", "ask", "paper", "aircraft read", "aircraft turn", "aircraft sheet", "measure"}

func (b *tab) atPart(part string) {
	b.t.Helper()
	name, inner, _ := strings.Cut(part, " ")
	b.part(name)
	if inner != "" {
		b.click(fmt.Sprintf("button[data-air=%q]", inner))
	}
	if inner == "sheet" {
		b.until(`document.querySelector("#sheet-step h3")`)
	}
	found[bool](b, `document.getElementById("begin").open = true, true`)
}

// Every button in sight is pressed: by touch on a phone, by mouse on a desk, and with a key
// on both. It is reached, nothing lies over it, and nothing is complained of.
func TestOnePageEveryButton(t *testing.T) {
	address := onePage(t, demoFolder+"pedals-unequal.hcl", demoFolder+"pedals-tolerance.hcl")
	for _, width := range []int64{360, 1200} {
		t.Run(fmt.Sprint(width), func(t *testing.T) { pressEveryButton(t, address, width) })
	}
}

// pressEveryButton presses them on a page of a width.
func pressEveryButton(t *testing.T, address string, width int64) {
	b := newTab(t, 360)
	b.downloads()
	b.wide(width)
	b.openPage(address)
	found[bool](b, `(window.print = () => { window.printed = true; },
		document.addEventListener("click", (e) => { if (e.isTrusted) window.clicked = e.target.closest("[data-pressable]")?.dataset.pressable; }, true), true)`)
	all := 0
	for _, part := range onePageParts {
		b.atPart(part)
		b.fits(int(width))
		for i := 0; i < len(b.pressable()); i++ {
			names := b.pressable() // anew: pressing one shows and hides others
			if i >= len(names) || strings.Contains(names[i], "Erase") || strings.Contains(names[i], "last open") {
				continue // of these TestOnePageKeepsWhatIsOpen
			}
			selector := fmt.Sprintf("[data-pressable='%d']", i)
			label := fmt.Sprintf("%d %s: %s", width, part, names[i])
			size := b.standing(selector, 60*time.Millisecond)
			assert.GreaterOrEqual(t, size.Height, 28.0, label)
			press := func() string {
				found[bool](b, "window.clicked = null, true")
				switch {
				case width == 360 && all%2 == 0:
					b.tap(selector)
				case all%2 == 0:
					b.click(selector)
				default:
					b.focus(selector)
					b.press([]string{kb.Enter, " "}[all/2%2])
				}
				b.settle() // a touch becomes a click a little later
				return found[string](b, "String(window.clicked)")
			}
			clicked := press()
			if clicked == "undefined" || clicked == "null" { // what arrived above it moved it just then
				clicked = press()
			}
			all++
			assert.Equal(t, fmt.Sprint(i), clicked, label)
			b.until(`document.getElementById("busy").hidden`)
			if at := found[string](b, `[...document.querySelectorAll(".tabs > [aria-pressed=true]")].map((e) => e.dataset.part ?? e.dataset.air).join(" ")`); !strings.HasPrefix(at, strings.Fields(part)[0]) || strings.Contains(part, " ") && !strings.HasSuffix(at, strings.Fields(part)[1]) {
				b.atPart(part)
			}
		}
	}
	assert.Greater(t, all, 60)
	assert.True(t, found[bool](b, "window.printed === true"))
	b.asksNobody(address)
}

// standing waits until something stays where it is: an answer to what was pressed before it
// may still move it. It returns where that is.
func (b *tab) standing(selector string, look time.Duration) box {
	b.t.Helper()
	at := func() float64 { // on the page, wherever that is scrolled to
		return found[float64](b, fmt.Sprintf("document.querySelector(%q).getBoundingClientRect().y + scrollY", selector))
	}
	was := at()
	for until := time.Now().Add(browserPatience); time.Now().Before(until); {
		time.Sleep(look)
		now := at()
		if now == was {
			break
		}
		was = now
	}
	return b.box(selector)
}

// At the aircraft every button is at least 12 mm high and wide, and what it does is done.
func TestOnePageAtTheAircraft(t *testing.T) {
	address := onePage(t, demoFolder+"pedals-unequal.hcl", demoFolder+"pedals-tolerance.hcl")
	b := newTab(t, 360)
	b.openPage(address)
	b.part("aircraft")
	const millimeter = 96 / 25.4 // of CSS
	large := func() {
		for _, part := range []string{"read", "turn", "sheet"} {
			b.tap(fmt.Sprintf("button[data-air=%q]", part))
			b.until(fmt.Sprintf(`!document.querySelector("div[data-air=%s]").hidden`, part))
			for _, size := range found[[]box](b, `[...document.querySelectorAll(".at-aircraft button, .at-aircraft select")].filter((e) => e.getClientRects().length > 0).map((e) => { const r = e.getBoundingClientRect(); return { Width: r.width, Height: r.height }; })`) {
				assert.GreaterOrEqual(t, size.Height, 12*millimeter-0.1)
				assert.GreaterOrEqual(t, size.Width, 12*millimeter-0.1)
			}
			b.fits(360)
		}
	}
	large()

	// One large figure, as sweep has it.
	b.tap(`button[data-air="read"]`)
	assert.GreaterOrEqual(t, found[float64](b, `parseFloat(getComputedStyle(document.getElementById("air-figure")).fontSize)`), 48.0)
	b.tap("#air-high")
	b.until(`document.getElementById("air-figure").textContent === "38.2 mm"`)
	b.tap("#air-neutral")
	b.until(`document.getElementById("air-figure").textContent === "0.0 mm"`)
	b.focus("#air-slider")
	b.press(kb.End)
	b.until(`document.getElementById("air-figure").textContent === "38.2 mm"`)

	// Half turns, with the verdict and the thread left.
	b.tap(`button[data-air="turn"]`)
	found[bool](b, `document.getElementById("air-end").value = "right-link.from", document.getElementById("air-end").dispatchEvent(new Event("change")), true`)
	for range 3 {
		b.tap("#air-in")
	}
	b.until(`document.getElementById("air-verdict").textContent.startsWith("HOLDS")`)
	assert.Contains(t, found[string](b, `document.getElementById("air-turned").textContent`), "1.5 turns in")
	assert.Contains(t, found[string](b, `document.getElementById("air-thread").textContent`), "12.50 mm")

	// The sheet: a step a screen; what is ticked and typed is there after the screen was locked.
	b.tap(`button[data-air="sheet"]`)
	b.until(`document.querySelector("#sheet-step h3")`)
	hash := found[string](b, `document.getElementById("sheet-origin").textContent`)
	assert.Contains(t, hash, "SHA-256 begins ")
	assert.Regexp(t, `Begun \d{4}-\d\d-\d\d`, hash)
	for range 30 {
		if found[bool](b, `document.querySelector("#sheet-step").textContent.includes("predicted: ") && !!document.querySelector("#sheet-step input")`) {
			break
		}
		b.tap("#sheet-next")
	}
	step := found[string](b, `document.querySelector("#sheet-step h3").textContent`)
	require.Contains(t, step, "Step ")
	assert.Contains(t, found[string](b, `document.querySelector("#sheet-step").textContent`), "allowed: ")
	b.focus("#sheet-step input")
	b.press("2", "9")
	b.tap("#sheet-step > .tick")
	b.again()
	assert.Equal(t, step, found[string](b, `document.querySelector("#sheet-step h3").textContent`))
	assert.Equal(t, "29", found[string](b, `document.querySelector("#sheet-step input").value`))
	assert.Equal(t, "true", found[string](b, `document.querySelector("#sheet-step > .tick").getAttribute("aria-pressed")`))
	b.until(`document.getElementById("air-verdict").textContent.startsWith("HOLDS")`) // the half turns are there too
	found[bool](b, `window.print = () => { window.printed = document.getElementById("printed").textContent; }, true`)
	b.part("paper")
	b.tap("#print-sheet")
	b.until("window.printed")
	printed := found[string](b, "window.printed")
	assert.Contains(t, printed, "noted: 29")
	assert.Contains(t, printed, "noted: done")
	assert.Contains(t, printed, "is no signature")

	// The file changes: what was noted is void.
	b.part("text")
	b.focus("#text")
	b.press("#")
	time.Sleep(200 * time.Millisecond)
	b.part("aircraft")
	b.until(`document.getElementById("sheet-void").textContent.includes("void")`)
	b.asksNobody(address)
}
