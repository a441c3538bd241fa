//go:build browser

package main

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
)

// unsoundlyKept are changes to what the form keeps (k), by which nothing may break: others may
// write where it is kept, and an older page may have.
var unsoundlyKept = []string{
	`k.photo = { picks: [null, 5, { place: {}, x: 1, y: 2 }, { place: "lever.horn", x: "1", y: null, depth: "" }], tapes: [null, {}], levels: "no", distance: 5, photo: 7, keep: "yes" }`,
	`k.state.next = 1; k.photo = [[]]; k.text = { taken: { name: 1 }, loose: "x" }; k.step = {}`,
	`k.state.parts[0].holes = null; k.photo = null`,
	`k.state.parts[0].on = k.state.parts[0].holes[0].id; k.state.view = "<b>"; k.state.units = "furlong"; k.state.datum = 4711;
	 k.state.taped = [{ kind: "taped", from: 987, to: 654, is: "5", within: "" }, { kind: "<img src=x onerror=alert(1)>", from: 1, to: 1, is: "", within: "" }]; k.state.skip = [{ kind: "gauged", from: -1, to: 0 }]`,
	`k.state.parts[0].name = "__proto__"; k.state.parts[1].name = "constructor"; k.state.airframe[0].name = "<img src=x onerror=alert(1)>"`,
	`for (let i = 0; i < 300; i++) { k.state.parts.push({ id: 1000 + i, name: "p" + i, kind: "turns", on: 1000 + (i + 1) % 300, angle: "", holes: [] }); }`,
}

// Whatever is kept, the page begins, and the form can be worked in.
func TestMeasureFormOfWhatIsKeptUnsoundly(t *testing.T) {
	address := onePage(t)
	b := newTab(t, 1200)
	b.openPage(address)
	h := hands{b, true}
	b.tap(`.tabs > [data-part="measure"]`)
	h.outline()
	h.answered()
	b.until(`JSON.parse(localStorage.getItem("fullfree page: last open"))?.measure?.state?.parts?.length === 2`)
	sound := found[string](b, `localStorage.getItem("fullfree page: last open")`)
	for _, change := range unsoundlyKept {
		b.open("about:blank")
		b.open(address)
		b.until(onePageReady)
		found[bool](b, fmt.Sprintf(`(() => {
			const all = JSON.parse(%q), k = all.measure;
			%s;
			localStorage.setItem("fullfree page: last open", JSON.stringify(all));
			sessionStorage.setItem("fullfree page: open in this tab", "yes");
			Storage.prototype.setItem = () => {}; // what the page keeps when it is left is not kept
			return true;
		})()`, sound, change))
		b.open(address)
		b.until(onePageReady)
		found[bool](b, `window.broken = [], ["error", "unhandledrejection"].forEach((kind) => window.addEventListener(kind, (e) => window.broken.push(String(e.message ?? e.reason)))), true`)
		b.part("measure")
		h.step(1)
		h.write(field("title"), "Another")
		h.step(2)
		h.push("#measure-add-part")
		h.answered()
		assert.Equal(t, []string{}, found[[]string](b, `window.broken`), change)
		assert.Zero(t, found[int](b, `document.querySelectorAll(".measure img[src=x]").length`), change)
		ids := found[[]int](b, `(() => { const s = JSON.parse(localStorage.getItem("fullfree page: last open")).measure.state; return [...s.airframe, ...s.parts, ...s.parts.flatMap((p) => p.holes)].map((p) => p.id); })()`)
		seen := map[int]bool{}
		for _, id := range ids {
			assert.False(t, seen[id], "%s: two things have the number %d", change, id)
			seen[id] = true
		}
	}
	b.asksNobody(address)
}
