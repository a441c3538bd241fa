//go:build browser

package main

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Names that mean something in a script are names like others.
func TestWorkbenchNamesOfTheLanguage(t *testing.T) {
	text := strings.NewReplacer(
		`control "hand"`, `control "__proto__"`,
		`stop "high"`, `stop "constructor"`,
		`hand,`, `__proto__,`,
	).Replace(screwed)
	b := newTab(t, 1200)
	s := serveWorkbench(t, text)
	b.openWorkbench(s)
	assert.Equal(t, "as filed", found[string](b, `document.querySelector("#stops .turns").textContent`))
	assert.True(t, found[bool](b, `document.getElementById("save").disabled && !document.querySelector("#stops .changed")`))
	b.click(`#stops [aria-label="less: constructor"]`)
	b.until(`document.getElementById("writes").textContent.includes("constructor.at")`)
	b.click(`#controls [aria-label="high end, __proto__"]`)
	b.until(`document.getElementById("readout-note").textContent.includes("__proto__ at " + Number(document.querySelector("#controls input").value).toFixed(1))`)
	assert.NotZero(t, found[float64](b, `Number(document.querySelector("#controls input").value)`))
	b.quiet(s.url)
}
