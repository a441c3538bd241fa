//go:build browser

package main

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// hands fill the form "No drawing", by touch alone or by key alone.
type hands struct {
	*tab
	touch bool
}

func field(at string) string { return fmt.Sprintf(`.measure [data-at=%q]`, at) }

// push presses a button.
func (h hands) push(selector string) {
	h.t.Helper()
	h.answered() // which moves what is below
	h.until(fmt.Sprintf("!document.querySelector(%q).disabled", selector))
	if h.touch {
		h.tap(selector)
	} else {
		h.tabTo(selector)
		h.press(kb.Enter)
	}
	h.settle()
}

// write writes into a field, in place of what is in it.
func (h hands) write(selector, text string) {
	h.t.Helper()
	if h.touch {
		h.tap(selector)
		h.until(fmt.Sprintf("document.activeElement.matches(%q)", selector))
		found[bool](h.tab, "(document.activeElement.select(), true)") // as a long press does
	} else {
		h.tabTo(selector)
	}
	h.press(text)
}

// typeHere types into what has the focus, as after something was added.
func (h hands) typeHere(selector, text string) {
	h.t.Helper()
	h.until(fmt.Sprintf("document.activeElement.matches(%q)", selector))
	h.press(text)
}

// choose chooses from a list. Those that a phone opens for it are not of the page.
func (h hands) choose(selector, words string) {
	h.t.Helper()
	if h.touch {
		h.tap(selector)
		h.press(kb.Escape)
		found[bool](h.tab, fmt.Sprintf(`((list) => { list.value = [...list.options].find((o) => o.textContent === %q).value; list.dispatchEvent(new Event("change", { bubbles: true })); return true; })(document.querySelector(%q))`, words, selector))
	} else {
		h.tabTo(selector)
		h.press(words)
	}
	h.until(fmt.Sprintf(`document.querySelector(%q).selectedOptions[0].textContent === %q`, selector, words))
}

// step unfolds a step.
func (h hands) step(number int) {
	h.t.Helper()
	selector := fmt.Sprintf(`.measure-steps > [data-step="%d"]`, number)
	if !found[bool](h.tab, fmt.Sprintf("document.querySelector(%q).open", selector)) {
		h.push(selector + " > summary")
	}
	h.until(fmt.Sprintf("document.querySelector(%q).open", selector))
	h.settle()
}

// flapLever is where the places of a lever and a flap are, from the left side: what the tape
// will read follows from it by Pythagoras.
var flapLever = map[string][2]float64{
	"airframe.lever-pivot": {0, 0},
	"lever.horn":           {4, -61},
	"lever.hand":           {-8, 243},
	"airframe.flap-pivot":  {402, 11},
	"flap.horn":            {398, -52},
	"flap.tip":             {551, 3},
}

// reads is what a line of the list reads, "taped lever.horn to flap.horn", as it is typed.
func reads(t *testing.T, line string) string {
	t.Helper()
	kind, between, _ := strings.Cut(strings.ReplaceAll(line, "flap-handle", "lever"), " ") // whatever it is called by then
	from, to, _ := strings.Cut(between, " to ")
	a, known := flapLever[from]
	b, too := flapLever[to]
	require.True(t, known && too, line)
	if kind == "gauged" {
		return strconv.FormatFloat(math.Atan2(b[1]-a[1], b[0]-a[0])*180/math.Pi, 'f', 1, 64)
	}
	halves := math.Round(2 * math.Hypot(b[0]-a[0], b[1]-a[1]))
	if whole := math.Floor(halves / 2); halves > 2*whole {
		return fmt.Sprintf("%.0f 1/2", whole)
	}
	return fmt.Sprintf("%.0f", halves/2)
}

// outline fills the steps before the tape in: a flap lever.
func (h hands) outline() {
	h.t.Helper()
	h.nameParts()
	h.typePlaces()
	h.tellMotion()
}

// nameParts fills in what there is.
func (h hands) nameParts() {
	h.t.Helper()
	h.step(1)
	h.write(field("title"), "Flap lever")
	h.step(2)
	h.push("#measure-add-part")
	h.typeHere(field("parts.0.name"), "Lever") // a small letter, as a file takes it
	h.write(field("parts.0.holes.0.name"), "horn")
	h.push(`[aria-label="Add a hole to lever"]`)
	h.typeHere(field("parts.0.holes.1.name"), "hand")
	h.push("#measure-add-part")
	h.typeHere(field("parts.1.name"), "flap")
	h.write(field("parts.1.holes.0.name"), "horn")
	h.push(`[aria-label="Add a hole to flap"]`)
	h.typeHere(field("parts.1.holes.1.name"), "tip")
	h.step(3)
	h.push("#measure-add-rod")
	h.choose(field("rods.0.from"), "lever.horn")
	h.choose(field("rods.0.to"), "flap.horn")
	assert.Equal(h.t, "lever-to-flap", found[string](h.tab, fmt.Sprintf("document.querySelector(%q).value", field("rods.0.name"))))
}

// typePlaces types about where it is.
func (h hands) typePlaces() {
	h.t.Helper()
	h.step(4)
	h.push(`[data-way="typed"]`)
	for at, xy := range map[string][2]string{
		"parts.0.holes.0": {"0", "-60"}, "parts.0.holes.1": {"0", "250"},
		"airframe.1": {"400", "0"}, "parts.1.holes.0": {"400", "-59 1/2"}, "parts.1.holes.1": {"550", "0"},
	} {
		h.write(field(at+".x"), xy[0])
		h.write(field(at+".y"), xy[1])
	}
}

// tellMotion fills in what moves it, and which way.
func (h hands) tellMotion() {
	h.t.Helper()
	h.step(5)
	h.choose(field("control.of"), "lever")
	h.write(field("control.plus"), "pushed")
	h.write(field("control.high"), "25")
	h.write(field("control.minus"), "pulled")
	h.write(field("control.low"), "-25")
	h.choose(field("output.of"), "flap")
	h.write(field("output.plus"), "flap up")
	h.write(field("output.high"), "24")
	h.write(field("output.minus"), "flap down")
	h.write(field("output.low"), "-24")
	h.write(field("output.within"), "5")
	h.choose(field("sense.place"), "lever.hand")
	h.choose(field("sense.goes"), "forward")
	h.choose(field("sense.then"), "flap.tip")
	h.choose(field("sense.is"), "up")
}

const measureHeadline = `document.getElementById("measure-headline").textContent`

// answered waits until what is told is of what was entered last.
func (h hands) answered() {
	h.t.Helper()
	h.until(`document.getElementById("measure-verdict").getAttribute("aria-busy") !== "true"`)
}

// tape measures what stands first, until nothing is left or so many are measured.
func (h hands) tape(most int) (measured int) {
	h.t.Helper()
	h.step(6)
	h.answered()
	for ; measured < most; measured++ {
		line := found[string](h.tab, `document.querySelector("#measure-blanks > li")?.dataset.line ?? ""`)
		if line == "" {
			break
		}
		was := found[int](h.tab, `document.querySelectorAll("#measure-done > li").length`)
		h.write(fmt.Sprintf("[data-line=%q] input", line), reads(h.t, line))
		if h.touch {
			h.tap("#measure-head")
		} else {
			h.press(kb.Enter)
			h.tabTo("summary")
		}
		h.until(fmt.Sprintf(`document.querySelectorAll("#measure-done > li").length === %d && document.querySelector('#measure-done > [data-line=%q]')`, was+1, line))
		h.answered()
		assert.False(h.t, found[bool](h.tab, `!!document.querySelector(".measure [aria-invalid=true]")`), line)
	}
	return measured
}

// From nothing to a run that is judged, by touch on a phone.
func TestMeasureFormByTouch(t *testing.T) {
	address := onePage(t)
	b := newTab(t, 360)
	b.openPage(address)
	h := hands{b, true}
	b.tap(`.tabs > [data-part="measure"]`)
	assert.Equal(t, "Nothing is told yet.", found[string](b, measureHeadline))
	h.outline()
	b.fits(360)
	measured := h.tape(30)
	assert.GreaterOrEqual(t, measured, 7)
	assert.Contains(t, found[string](b, measureHeadline), "AGREE")
	assert.Equal(t, "verdict holds", found[string](b, `document.getElementById("measure-verdict").className`))
	assert.NotContains(t, found[string](b, `document.getElementById("measure-places").textContent`), "open")
	b.fits(360)

	// As a run among the texts, judged under "Try".
	h.push("#measure-take")
	b.until(`document.getElementById("shown").value === "flap-lever.hcl" && document.querySelector(".tabs > [data-part=try]").getAttribute("aria-pressed") === "true"`)
	b.until(`document.getElementById("run").textContent === "Flap lever" && ` + headline + `.startsWith("HOLDS")`)
	text := found[string](b, `document.getElementById("text").value`)
	assert.Contains(t, text, `run "Flap lever" {`)
	assert.Contains(t, text, "1/2")

	// What is entered further on goes into the same text.
	b.tap(`.tabs > [data-part="measure"]`)
	h.write(field("taped.0.within"), "2 1/2")
	b.until(`document.getElementById("text").value.includes("within = 2 + 1/2") || document.getElementById("text").value.includes("2.5")`)

	// What stands below its line is the user's own, and stays; what is above is asked about.
	edit := func(js string) {
		found[bool](b, fmt.Sprintf(`((a) => { a.value = %s; a.dispatchEvent(new InputEvent("input")); return true; })(document.getElementById("text"))`, js))
	}
	edit(`a.value + "# mine\n"`)
	h.write(field("taped.0.within"), "3")
	b.until(`document.getElementById("text").value.includes("within = 3\n") && document.getElementById("text").value.endsWith("# mine\n")`)
	edit(`a.value.replace("Flap lever", "Flaps")`)
	h.write(field("taped.0.within"), "4")
	b.until(`!document.getElementById("measure-ask").hidden`)
	assert.NotContains(t, found[string](b, `document.getElementById("text").value`), "within = 4\n")
	h.push("#measure-over")
	b.until(`document.getElementById("measure-ask").hidden && document.getElementById("text").value.includes("within = 4\n")`)
	assert.Contains(t, found[string](b, `document.getElementById("text").value`), `run "Flap lever" {`)
	assert.True(t, found[bool](b, `document.getElementById("text").value.endsWith("# mine\n")`))

	// Begun anew, nothing of it is left; undone, it goes into the same text again.
	h.push("#measure-other > summary")
	h.push("#measure-anew")
	assert.NotContains(t, found[string](b, `document.getElementById("measure-take").textContent`), "flap-lever")
	h.push("#measure-note button")
	h.answered()
	b.until(`document.getElementById("measure-take").textContent === "Show flap-lever.hcl"`)

	// Where a text of the same name is to stay, it is taken under another one.
	h.step(6)
	edit(`a.value.replace("Flap lever", "Flaps")`)
	h.write(field("taped.0.within"), "5")
	b.until(`!document.getElementById("measure-ask").hidden`)
	h.push("#measure-leave")
	h.push("#measure-take")
	b.until(`document.getElementById("measure-leave").textContent === "Take it as flap-lever-2.hcl"`)
	h.push("#measure-leave")
	b.until(`document.getElementById("shown").value === "flap-lever-2.hcl" && document.getElementById("text").value.includes("within = 5\n")`)
	assert.Equal(t, []string{"flap-lever-2.hcl", "flap-lever.hcl"}, found[[]string](b, `[...document.getElementById("shown").options].map((o) => o.value).filter((v) => v.startsWith("flap-lever")).sort()`))
	b.asksNobody(address)
}

// The same by key alone, on the page that is served; the text is saved as a download.
func TestMeasureFormByKey(t *testing.T) {
	s := serveWorkbench(t, demoText(t, "pedals"))
	b := newTab(t, 1200)
	b.openWorkbench(s)
	folder := b.downloads()
	h := hands{b, false}
	h.push(`.tabs > [data-part="measure"]`)
	h.outline()
	b.fits(1200)
	h.tape(3)
	assert.Contains(t, found[string](b, `document.getElementById("measure-places").textContent`), "open")
	h.tape(30)
	assert.Equal(t, "verdict holds", found[string](b, `document.getElementById("measure-verdict").className`))
	h.push("#measure-take-last")
	text := string(b.saved(folder, "flap-lever.hcl"))
	assert.Contains(t, text, `run "Flap lever" {`)
	assert.Equal(t, demoText(t, "pedals"), s.file(), "nothing else is written")
	b.tabThrough()
	b.legible()

	// It is kept in the browser's own storage, until it is erased.
	again := func() {
		b.settle()
		b.open("about:blank")
		b.openWorkbench(s)
		b.top()
		h.push(`.tabs > [data-part="measure"]`)
		h.answered()
	}
	title := fmt.Sprintf("document.querySelector(%q).value", field("title"))
	again()
	assert.Equal(t, "Flap lever", found[string](b, title))
	assert.GreaterOrEqual(t, found[int](b, `document.querySelectorAll("#measure-done > li").length`), 7)
	h.push("#erase")
	assert.Zero(t, found[int](b, `localStorage.length`))
	again()
	assert.Equal(t, "", found[string](b, title))
	b.quiet(s.url)
}

// The form grows, names go with what is renamed, what is removed comes back, what is wrong
// is told at its field, and all is there again after the screen was locked.
func TestMeasureFormGrows(t *testing.T) {
	address := onePage(t)
	b := newTab(t, 360)
	b.openPage(address)
	h := hands{b, true}
	b.tap(`.tabs > [data-part="measure"]`)
	h.outline()
	h.tape(2)
	value := func(at string) string {
		return found[string](b, fmt.Sprintf("document.querySelector(%q).value", field(at)))
	}
	chosen := func(at string) string {
		return found[string](b, fmt.Sprintf("document.querySelector(%q).selectedOptions[0].textContent", field(at)))
	}

	// A name goes into the rod, the sense and what was measured; one that is there is told.
	h.step(2)
	h.write(field("parts.0.name"), "Flap Handle")
	assert.Equal(t, "flap-handle", value("parts.0.name"))
	b.until(fmt.Sprintf(`document.querySelector(%q).selectedOptions[0].textContent === "flap-handle.horn"`, field("rods.0.from")))
	assert.Equal(t, "flap-handle-to-flap", value("rods.0.name"))
	assert.Equal(t, "flap-handle.hand", chosen("sense.place"))
	assert.Equal(t, "flap-handle-pivot", value("airframe.0.name"))
	assert.Equal(t, 2, found[int](b, `document.querySelectorAll("#measure-done > li").length`))
	h.write(field("parts.1.name"), "flap handle")
	b.until(fmt.Sprintf(`document.querySelector(%q).getAttribute("aria-invalid") === "true"`, field("parts.1.name")))
	assert.Contains(t, found[string](b, fmt.Sprintf(`((e) => e.getAttribute("aria-describedby").split(" ").map((id) => document.getElementById(id).textContent).join(" "))(document.querySelector(%q))`, field("parts.1.name"))), "already")
	h.write(field("parts.1.name"), "flap")
	b.until(`!document.querySelector(".measure [aria-invalid=true]")`)

	// A minus that was forgotten is written, where a figure can't be without: on one side only.
	h.step(5)
	h.write(field("control.low"), "24 1/2")
	h.tap("#measure-head")
	b.until(fmt.Sprintf(`document.querySelector(%q).value === "-24 1/2"`, field("control.low")))
	assert.False(t, strings.HasPrefix(value("control.high"), "-"))
	h.step(2)

	// Removed, with what goes with it, and back.
	h.push(`[aria-label="Remove the part flap-handle"]`)
	note := found[string](b, `document.getElementById("measure-note").textContent`)
	for _, words := range []string{"flap-handle is removed", "2 holes", "the rod flap-handle-to-flap", "what moves it"} {
		assert.Contains(t, note, words)
	}
	assert.Zero(t, found[int](b, `document.querySelectorAll("#measure-rods > *").length`))
	h.push("#measure-note button")
	assert.Equal(t, "flap-handle-to-flap", value("rods.0.name"))
	assert.Equal(t, "flap-handle", chosen("control.of"))
	h.answered()
	assert.Equal(t, 2, found[int](b, `document.querySelectorAll("#measure-done > li").length`))

	// Fractions are read, what is no figure is told at its field, and rows stay while one is
	// typed in.
	h.step(6)
	rows := `[...document.querySelectorAll("#measure-blanks > li:not([hidden])")].map((e) => e.dataset.line)`
	before := found[[]string](b, rows)
	h.write("#measure-blanks input", "seven")
	b.until(fmt.Sprintf(`document.querySelector("[data-line='%s'] [aria-invalid=true]")`, before[0]))
	h.write("#measure-blanks input", reads(t, before[0]))
	b.until(`!document.querySelector(".measure [aria-invalid=true]")`)
	h.answered()
	assert.Equal(t, before, found[[]string](b, rows), "while it has the focus")
	h.tap("#measure-head")
	b.until(fmt.Sprintf(`document.querySelector("#measure-done > [data-line='%s']")`, before[0]))
	skipped := found[string](b, `document.querySelector("#measure-blanks > li").dataset.line`)
	h.push(`#measure-blanks [aria-label^="Can't be reached"]`)
	b.until(fmt.Sprintf(`!document.querySelector("[data-line='%s']") && document.querySelectorAll("#measure-skipped > li").length === 1`, skipped))
	b.fits(360)
	b.legible()
	b.named()
	for _, size := range found[[]box](b, `[...document.querySelectorAll(".measure button, .measure select, .measure input[type=text], .measure summary")].filter((e) => e.checkVisibility()).map((e) => { const r = e.getBoundingClientRect(); return { Width: r.width, Height: r.height }; })`) {
		assert.GreaterOrEqual(t, size.Height, 43.9)
		assert.GreaterOrEqual(t, size.Width, 43.9)
	}

	// After the screen was locked.
	is := value("taped.0.is")
	require.NotEmpty(t, is)
	b.again()
	b.until(`document.querySelectorAll("#measure-done > li").length === 3`)
	assert.Equal(t, is, value("taped.0.is"))
	assert.Equal(t, "-59 1/2", value("parts.1.holes.0.y"))
	assert.True(t, found[bool](b, `!document.querySelector(".part[data-part=measure]").hidden && document.querySelector(".measure-steps > [data-step='6']").open`))
	assert.Equal(t, 1, found[int](b, `document.querySelectorAll("#measure-skipped > li").length`))
	b.part("try")
	found[bool](b, `document.getElementById("begin").open = true, true`)
	b.tap("#erase")
	b.settle()
	assert.Zero(t, found[int](b, `Object.keys(localStorage).filter((k) => k.startsWith("fullfree")).length`))
	b.asksNobody(address)
}

// What the form wrote is taken up again; what it didn't is filled in, and nothing else of it
// changed; of what has nothing to measure it is told why.
func TestMeasureFormGoesOn(t *testing.T) {
	address := onePage(t)
	b := newTab(t, 1200)
	b.openPage(address)
	h := hands{b, true}
	goOn := func() {
		b.part("measure")
		found[bool](b, `document.getElementById("measure-other").open = true, true`)
		h.push("#measure-goon button")
	}
	goOn() // with the demo that the page begins with
	b.until(`document.getElementById("measure-note").textContent.includes("pedals.hcl can't be gone on with")`)

	b.part("measure")
	h.outline()
	h.tape(3)
	h.push("#measure-take")
	b.until(`document.getElementById("shown").value === "flap-lever.hcl"`)
	text := found[string](b, `document.getElementById("text").value`)
	b.part("measure")
	found[bool](b, `document.getElementById("measure-other").open = true, true`)
	h.push("#measure-anew")
	assert.Equal(t, "", found[string](b, fmt.Sprintf("document.querySelector(%q).value", field("title"))))
	goOn()
	b.until(`document.querySelectorAll("#measure-done > li").length === 3`)
	h.answered()
	assert.Equal(t, "Flap lever", found[string](b, fmt.Sprintf("document.querySelector(%q).value", field("title"))))
	assert.Equal(t, text, found[string](b, `document.getElementById("text").value`), "it is the same")
	h.tape(1)
	h.answered()
	assert.NotEqual(t, text, found[string](b, `document.getElementById("text").value`), "what is entered goes into it")

	// A text of somebody else's with blanks.
	foreign := strings.Replace(demoText(t, "pedals-taped"), "is     = 298", "is     = blank", 1)
	require.NotEqual(t, demoText(t, "pedals-taped"), foreign)
	b.pick(map[string]string{"theirs.hcl": foreign})
	b.until(`document.getElementById("shown").value === "theirs.hcl"`)
	goOn()
	line := "#measure-blanks > [data-line='taped left-pedal.horn to rocker.lower']"
	b.until(fmt.Sprintf("document.querySelector(%q)", line))
	assert.Equal(t, 1, found[int](b, `[...document.querySelectorAll(".measure-steps > [data-step]")].filter((e) => e.checkVisibility()).length`), "there is nothing else to fill in")
	h.write(line+" input", "297 1/2")
	h.answered()
	b.part("text")
	assert.Equal(t, strings.Replace(foreign, "= blank", "= 297 + 1/2", 1), found[string](b, `document.getElementById("text").value`))
	b.asksNobody(address)
}

// A place that is touched on the grid, or nudged there by key, is where its figures say; the
// one that all is told from stays, and all else moves instead.
func TestMeasureFormTouchesTheGrid(t *testing.T) {
	address := onePage(t)
	b := newTab(t, 360)
	b.openPage(address)
	h := hands{b, true}
	b.part("measure")
	h.outline()
	h.answered()
	h.step(4)
	h.push(`[data-way="grid"]`)
	put := func(name string, does func()) (x, y float64) {
		found[bool](b, fmt.Sprintf(`((list) => { list.value = %q; list.dispatchEvent(new Event("change")); return true; })(document.querySelector("#measure-grid [data-touch=place]"))`, name))
		does()
		h.answered()
		require.False(t, found[bool](b, `!!document.querySelector(".measure [aria-invalid=true]")`))
		at := found[[]string](b, fmt.Sprintf(`["x", "y"].map((k) => document.querySelector("[aria-label='" + k + " of %s']").value)`, name))
		x, err := strconv.ParseFloat(at[0], 64)
		require.NoError(t, err)
		y, err = strconv.ParseFloat(at[1], 64)
		require.NoError(t, err)
		return x, y
	}
	touched := func() { b.tap(`#measure-grid canvas[data-touch="sheet"]`) }
	x, y := put("flap.tip", touched)
	assert.NotEqual(t, [2]float64{550, 0}, [2]float64{x, y})
	right, up := put("flap.tip", func() {
		b.focus(`#measure-grid canvas[data-touch="sheet"]`)
		b.press(kb.ArrowRight, kb.ArrowUp)
	})
	assert.Greater(t, right, x)
	assert.Greater(t, up, y)
	found[bool](b, `((list) => { list.value = "airframe.lever-pivot"; list.dispatchEvent(new Event("change")); return true; })(document.querySelector("#measure-grid [data-touch=place]"))`)
	b.focus(`#measure-grid canvas[data-touch="sheet"]`)
	b.press(kb.ArrowRight)
	left, _ := put("flap.tip", func() {})
	assert.Less(t, left, right)
	b.asksNobody(address)
}
