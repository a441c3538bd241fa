//go:build browser

package main

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"fullfree/demo"

	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	textFaults = `document.getElementById("faults").textContent`
	textNow    = `document.getElementById("text").value`
	deskNote   = `document.getElementById("desk-note").textContent`
)

// caret puts the caret into the text behind some words.
func (b *tab) caret(behind string) {
	b.t.Helper()
	require.True(b.t, found[bool](b, fmt.Sprintf(`((a, w) => { const at = a.value.indexOf(w); a.focus(); a.setSelectionRange(at + w.length, at + w.length); return at >= 0; })(document.getElementById("text"), %q)`, behind)), behind)
}

// A text is edited: what is wrong shows at its line as one types, names are completed by key
// and by touch, what was done is undone, and the verdict is that of the text.
func TestOnePageText(t *testing.T) {
	address := onePage(t, demoFolder+"pedals-unequal.hcl", demoFolder+"pedals-tolerance.hcl")
	b := newTab(t, 360)
	b.openPage(address)
	b.part("text")
	filed := found[string](b, textNow)
	assert.Equal(t, demoText(t, "pedals-unequal"), filed)
	verdict := `document.getElementById("text-verdict").textContent`
	before := found[string](b, verdict)
	assert.Contains(t, before, "FALLS SHORT")

	// The rod that was made up too long: a number is typed over, and all holds.
	b.caret("298.15")
	b.press(kb.Backspace, kb.Backspace, kb.Backspace, kb.Backspace, "6", ".", "6", "5")
	b.until(verdict + `.startsWith("HOLDS")`)
	assert.Equal(t, "* pedals-unequal.hcl: fullfree", found[string](b, "document.title"))
	b.until(textFaults + ` === ""`)

	// A fault, at its line.
	line := 1 + strings.Count(filed[:strings.Index(filed, `rod "right-link"`)], "\n")
	b.caret(`rod "right-link"`)
	b.press("x")
	b.until(textFaults + ` !== ""`)
	assert.Contains(t, found[string](b, textFaults), fmt.Sprintf("line %d: ", line))
	assert.Equal(t, 1, found[int](b, `document.querySelectorAll("#marks .faulty").length`))
	assert.Equal(t, fmt.Sprintf("▶ %d", line), found[string](b, `document.querySelector("#gutter .faulty").textContent`))
	b.part("try")
	assert.True(t, found[bool](b, `document.getElementById("trouble").getClientRects().length > 0 && document.getElementById("picture").classList.contains("old")`))
	b.part("text")
	b.fits(360)
	b.tap("#undo")
	b.until(textFaults + ` === "" && ` + verdict + `.startsWith("HOLDS")`)

	// A name is completed by key, and one by touch.
	b.caret("rod \"right-link\" {\n")
	b.press("m", "i", "s", "a", "l")
	b.until(`[...document.querySelectorAll("#names button")].some((n) => n.textContent === "misalignment")`)
	found[bool](b, `document.getElementById("text").dispatchEvent(new KeyboardEvent("keydown", { key: " ", ctrlKey: true, cancelable: true })), true`)
	b.until(textNow + `.includes("misalignment\n") || ` + textNow + `.includes("misalignment  ") && ` + textNow + `.split("misalignment").length > ` + fmt.Sprint(1+strings.Count(filed, "misalignment")))
	b.tap("#undo")
	b.caret("misal")
	found[bool](b, `document.getElementById("text").dispatchEvent(new MouseEvent("click")), true`) // as a tap into it
	b.until(`document.querySelector("#names button")`)
	b.tap("#names button")
	assert.NotEqual(t, filed, found[string](b, textNow))

	// All of it undone by key, and done again.
	for range 40 {
		found[bool](b, `document.getElementById("text").dispatchEvent(new KeyboardEvent("keydown", { key: "z", ctrlKey: true, cancelable: true })), true`)
	}
	assert.Equal(t, filed, found[string](b, textNow))
	b.until(verdict + fmt.Sprintf(` === %q`, before))
	assert.True(t, found[bool](b, `document.getElementById("undo").disabled`))
	b.tap("#redo")
	assert.NotEqual(t, filed, found[string](b, textNow))
	b.asksNobody(address)
}

// What is tried is written into the text, and saved: as a download, or where the browser
// gives the file itself, into it.
func TestOnePageSaves(t *testing.T) {
	address := onePage(t, demoFolder+"pedals-unequal.hcl", demoFolder+"pedals-tolerance.hcl")
	b := newTab(t, 1200)
	b.openPage(address)
	folder := b.downloads()
	filed := demoText(t, "pedals-unequal")
	for range 3 {
		b.click(endButton("in", "right-link.from"))
	}
	b.until(headline + `.includes("HOLDS")`)
	b.until(`!document.getElementById("save").disabled`)
	b.click("#save")
	b.until(noteText + `.includes("Saved into")`)
	want := []string{
		"length = 298.15 # hole to hole -> length = 296.65 # hole to hole",
		"engaged = 11 -> engaged = 12.5",
	}
	assert.Equal(t, want, changedLines(t, filed, found[string](b, textNow)))
	b.click("#save-file")
	assert.Equal(t, want, changedLines(t, filed, string(b.saved(folder, "pedals-unequal.hcl"))))

	// The file itself.
	found[bool](b, `window.showSaveFilePicker = async () => ({ name: "mine.hcl", createWritable: async () => ({ write: async (text) => { window.written = text; }, close: async () => { window.isClosed = true; } }) }), true`)
	b.part("text")
	b.caret("296.65")
	b.press("1")
	b.until(`document.title.startsWith("*")`)
	b.click("#save-file")
	b.until(`window.isClosed === true`)
	assert.Contains(t, found[string](b, "window.written"), "296.651")
	b.until(`!document.title.startsWith("*")`)
	b.asksNobody(address)
}

// What is open is kept in this browser, under names of its own, is there again in the same
// tab and, in another, when asked for; and one button erases it, and nothing else.
func TestOnePageKeepsWhatIsOpen(t *testing.T) {
	address := onePage(t)
	b := newTab(t, 360)
	b.openPage(address)
	found[bool](b, `localStorage.setItem("of another page", "stays"), true`)
	assert.Equal(t, "pedals.hcl", found[string](b, `document.getElementById("shown").value`), "a demo, where it holds nothing")
	b.pick(map[string]string{"mine.hcl": screwed})
	b.until(`document.querySelector("h1").textContent === "Bars" && ` + onePageReady)
	b.settle() // the picture moves what stands below it
	b.tap(endButton("out", "link.from"))
	b.until(`document.querySelector("#ends li.changed")`)
	b.again()
	assert.Equal(t, "Bars", found[string](b, `document.querySelector("h1").textContent`))
	b.until(`document.querySelector("#ends li.changed")`)

	// In another tab: what it opens with, and what was last open when asked for.
	first := b
	b = newTab(t, 360)
	b.open(address)
	b.until(onePageReady)
	assert.Equal(t, "pedals.hcl", found[string](b, `document.getElementById("shown").value`))
	found[bool](b, `document.getElementById("begin").open = true, true`)
	assert.Contains(t, found[string](b, `document.getElementById("keeps").textContent`), "browser's own storage")
	b.tap("#last")
	b.until(`document.querySelector("h1").textContent === "Bars"`)
	b.until(`document.querySelector("#ends li.changed")`)

	b.tap("#erase")
	b.until(deskNote + `.includes("erased")`)
	assert.Equal(t, []string{"of another page"}, found[[]string](b, "Object.keys(localStorage)"))
	assert.Zero(t, found[int](b, "sessionStorage.length"))
	b.again()
	first.asksNobody(address)
	assert.Equal(t, "pedals.hcl", found[string](b, `document.getElementById("shown").value`))
	assert.Equal(t, []string{"of another page"}, found[[]string](b, "Object.keys(localStorage)"))
	b.asksNobody(address)
}

// A hostile file does nothing to the page, nor to what is kept beside it: its names stay
// text, what is no run is told, what is too long isn't read, and what goes on is stopped.
func TestOnePageHostile(t *testing.T) {
	address := onePage(t)
	b := newTab(t, 360)
	b.openPage(address)
	found[bool](b, `localStorage.setItem("of another page", "stays"), true`)
	const script = `</script><img src=x onerror=alert(1)><b>`
	text := strings.Replace(demoText(t, "pedals-unequal"), `"Pedals, as found"`, `"`+script+`"`, 1)
	require.Contains(t, text, script)
	b.pick(map[string]string{script + ".hcl": text})
	b.until(fmt.Sprintf(`document.querySelector("h1").textContent === %q`, script))
	for _, part := range []string{"text", "ask", "paper", "aircraft", "try"} {
		b.part(part)
		b.fits(360)
		assert.Zero(t, found[int](b, "document.querySelectorAll('img, b, i, u, iframe, object, embed, link, base, form, [onload], [onerror]').length"))
	}
	b.again()
	assert.Equal(t, script, found[string](b, "document.querySelector('h1').textContent"))

	for name, text := range map[string]string{
		"empty.hcl": "", "binary.hcl": "\x00\x01\xff", "deep.hcl": "x = " + strings.Repeat("[", 1000), "block.hcl": strings.Repeat("a {\n", 500),
		"many.hcl": strings.Repeat("part \"a\" {}\n", 20000), "mean.hcl": "run \"x\" {\n units = \"${file(\"/etc/passwd\")}\"\n}\n",
	} {
		b.pick(map[string]string{name: text})
		b.until(fmt.Sprintf(`document.getElementById("shown").value === %q && document.getElementById("faults").children.length > 0`, name))
		assert.True(t, found[bool](b, `document.getElementById("unlocked").hidden`), name)
		b.fits(360)
	}
	b.pick(map[string]string{"long.hcl": strings.Repeat("#", 1<<20+1)})
	b.until(deskNote + `.includes("longer than 1 MiB")`)
	assert.Equal(t, "stays", found[string](b, `localStorage.getItem("of another page")`))

	// What goes on and on is stopped, and the page goes on.
	b.takeDemo("pedals-tolerance")
	b.part("ask")
	found[bool](b, `document.getElementById("builds").value = "100000", true`)
	b.tap("[data-ask=tolerance]")
	b.until(`document.getElementById("busy").getClientRects().length > 0 && document.getElementById("busy-bar").value > 0`)
	start := time.Now()
	b.tap("#stop")
	b.until(deskNote + ` === "Stopped."`)
	assert.Less(t, time.Since(start), 5*time.Second)
	b.until(`document.getElementById("busy").hidden`)
	b.part("try")
	b.tap(endButton("in", "right-link.from"))
	b.until(`document.querySelector("#ends li.changed") && document.getElementById("filed").textContent.startsWith("As filed")`)
	b.asksNobody(address)
}

// A run that takes too long is given up with the same button, wherever it is: the page goes
// on, and the next one is judged.
func TestOnePageGivesUp(t *testing.T) {
	address := onePage(t)
	b := newTab(t, 360)
	b.openPage(address)
	b.pick(map[string]string{"long.hcl": longBars(2000)})
	b.until(`document.getElementById("busy").getClientRects().length > 0`)
	b.tap("#stop")
	b.until(deskNote + ` === "Stopped." && document.getElementById("unlocked").hidden`)
	assert.Contains(t, found[string](b, `document.getElementById("wait").textContent`), "takes too long")
	b.until(`document.getElementById("busy").hidden`)
	b.takeDemo("throttle")
	assert.Contains(t, found[string](b, headline), "HOLDS")
	b.asksNobody(address)
}

// Files are dropped, an aircraft with its runs; one that misses runs says which.
func TestOnePageDrop(t *testing.T) {
	address := onePage(t)
	b := newTab(t, 1200)
	b.openPage(address)
	drop := func(files map[string]string) {
		var list []string
		for name, text := range files {
			list = append(list, fmt.Sprintf("new File([%q], %q)", text, name))
		}
		found[bool](b, `(() => {
			const dataTransfer = new DataTransfer();
			for (const file of [`+strings.Join(list, ", ")+`]) dataTransfer.items.add(file);
			document.body.dispatchEvent(new DragEvent("drop", { dataTransfer, bubbles: true, cancelable: true }));
			return true;
		})()`)
	}
	files, err := demo.AircraftFiles()
	require.NoError(t, err)
	all := map[string]string{}
	for _, f := range files {
		all[f.Name] = string(f.Text)
	}
	drop(map[string]string{"aircraft.hcl": all["aircraft.hcl"]})
	b.until(`document.getElementById("wait").textContent.includes("isn't here: open it too")`)
	drop(all)
	b.until(`document.querySelectorAll("#picture svg").length > 4 && document.getElementById("shown").value === "aircraft.hcl"`)
	b.asksNobody(address)
}

// What is asked is answered, what is found can be tried, and what is made is made.
func TestOnePageAsks(t *testing.T) {
	address := onePage(t)
	b := newTab(t, 360)
	b.openPage(address)
	folder := b.downloads()
	ask := func(call string) string {
		b.part("ask")
		found[bool](b, `document.getElementById("answer").replaceChildren(), true`)
		b.clickFree(fmt.Sprintf("[data-ask=%q]", call))
		b.until(`document.getElementById("answer").children.length > 1 && document.getElementById("busy").hidden`)
		b.fits(360)
		return found[string](b, `document.getElementById("answer").textContent`)
	}
	for kind, call := range map[string]string{"pedals-unequal": "rig", "throttle-wrong-hole": "find"} {
		b.takeDemo(kind)
		b.until(headline + `.startsWith("FALLS SHORT")`)
		assert.Contains(t, ask(call), "FOUND: ")
		assert.Contains(t, ask("charts"), "Charts")
		assert.NotZero(t, found[int](b, `document.querySelectorAll("#answer svg").length`))
		ask(call)
		b.tap("#try-found")
		b.until(headline + `.startsWith("HOLDS")`)
		b.until(`document.getElementById("writes").textContent.includes("→")`)
		assert.Contains(t, ask("compare"), "COMPARED: as filed, and 1 other setting.")
		b.part("try")
		b.tap("#revert")
		b.until(headline + `.startsWith("FALLS SHORT")`)
	}
	b.takeDemo("pedals-tolerance")
	assert.Contains(t, ask("effect"), "WHICH ROD END")
	found[bool](b, `document.getElementById("builds").value = "300", true`)
	assert.Contains(t, ask("tolerance"), "300 builds")

	b.part("paper")
	for made, begins := range map[string]string{"book": "<!DOCTYPE html>", "book-pdf": "%PDF-", "full-size": "%PDF-"} {
		b.tap(fmt.Sprintf("[data-make=%q]", made))
		name := map[string]string{"book": "pedals-tolerance.html", "book-pdf": "pedals-tolerance.pdf", "full-size": "pedals-tolerance-full-size.pdf"}[made]
		assert.True(t, strings.HasPrefix(string(b.saved(folder, name)), begins), made)
		b.until(`document.getElementById("busy").hidden`)
	}
	b.asksNobody(address)
}

// How long the page takes is printed, not judged: it depends on the machine.
func TestOnePageTimes(t *testing.T) {
	address := onePage(t)
	b := newTab(t, 1200)
	b.openPage(address)
	b.open("about:blank")
	start := time.Now()
	b.open(address)
	b.until(onePageReady)
	t.Logf("ready from a file: %s", time.Since(start).Round(10*time.Millisecond))
	// measured is the median time from a change to the verdict of it.
	measured := func(change string) float64 {
		const many = 15
		found[bool](b, fmt.Sprintf(`window.times = null, void (async () => {
			const list = [];
			for (let i = 0; i < %d; i++) {
				const start = performance.now();
				const told = new Promise((done) => {
					const watcher = new MutationObserver(() => { watcher.disconnect(); done(); });
					watcher.observe(document.getElementById("requirements"), { childList: true });
				});
				(%s)(i);
				await told;
				list.push(performance.now() - start);
				await new Promise((done) => setTimeout(done, 700)); // until that, too, is told how sure it is
			}
			window.times = list.sort((a, b) => a - b);
		})(), true`, many, change))
		b.until("window.times")
		return found[float64](b, fmt.Sprintf("window.times[%d]", many/2))
	}
	const edit = `(i) => { const a = document.getElementById("text"); window.was ??= a.value; a.value = window.was.replace(/([0-9]\.[0-9])\b/, (v) => v + "000" + (i + 1)); a.dispatchEvent(new InputEvent("input")); }`
	const turn = `(i) => document.querySelector("#ends [aria-label^='" + (i < 8 ? "out" : "in") + ": ']").click()`
	for _, kind := range []string{"pedals", "sticks"} {
		b.takeDemo(kind)
		b.settle()
		time.Sleep(time.Second)
		found[bool](b, "window.was = undefined, true")
		t.Logf("%s, a number of the text changed: median %.0f ms", kind, measured(edit))
	}
	b.takeDemo("pedals-unequal")
	time.Sleep(time.Second)
	t.Logf("pedals, a rod end turned: median %.0f ms", measured(turn))
	b.asksNobody(address)
}
