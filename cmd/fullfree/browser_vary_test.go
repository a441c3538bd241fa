//go:build browser

package main

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// What may vary has a row: a range goes by its buttons, a place is chosen, and both are
// saved.
func TestWorkbenchVaries(t *testing.T) {
	s := serveWorkbench(t, varying)
	b := newTab(t, 360)
	b.openWorkbench(s)
	b.click(`#varies [aria-label='more: lever.horn.y, arm']`)
	b.until(`document.getElementById("writes").textContent.includes("-59.5")`)
	assert.Equal(t, 1, found[int](b, `document.querySelectorAll("#varies li.changed").length`))
	assert.Contains(t, found[string](b, `document.querySelector("#varies li.changed").innerText`), "filed -60 mm")
	found[bool](b, `(() => {
		const choose = document.querySelector("#varies select");
		choose.value = "0";
		return choose.dispatchEvent(new Event("change"));
	})()`)
	b.until(`document.getElementById("writes").textContent.includes("crank.horn")`)
	assert.Equal(t, 2, found[int](b, `document.querySelectorAll("#varies li.changed").length`))
	b.click("#save")
	b.until(noteText + `.includes("Saved into")`)
	assert.Contains(t, s.file(), "points = { horn = [0, -59.5] }")
	assert.Contains(t, s.file(), "points = { horn = [200, -50] }")
	assert.Zero(t, found[int](b, `document.querySelectorAll("#varies li.changed").length`))
	b.quiet(s.url)
}
