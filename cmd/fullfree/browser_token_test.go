//go:build browser

package main

import (
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
)

// The token leaves the address as soon as the page has it, and loading the page
// again works; a tab that was never given it is told what to do, and shows nothing.
func TestWorkbenchKeepsItsTokenToItself(t *testing.T) {
	s := serveWorkbench(t, screwed)
	b := newTab(t, 1200)
	b.openWorkbench(s)
	address := func() string { return found[string](b, "location.href") }
	assert.Equal(t, s.url+"/", address())
	assert.NotContains(t, found[string](b, "document.documentElement.outerHTML"), s.token)
	b.do(chromedp.Reload())
	b.until(`document.querySelector("#picture svg [data-at]")`)
	assert.Equal(t, s.url+"/", address())
	for _, asked := range b.requests {
		assert.NotContains(t, strings.Split(asked, "#")[0], s.token, "nor is it in what is asked for")
	}
	b.quiet(s.url)

	locked := `!document.getElementById("locked").hidden && document.getElementById("unlocked").hidden`
	other := newTab(t, 360)
	other.open(s.url)
	other.until(locked)
	told := found[string](other, "document.body.innerText")
	assert.Contains(t, told, "opened without its key")
	assert.Contains(t, told, `Open the whole address that "fullfree serve" has printed on its terminal`)
	assert.NotContains(t, told, "Bars")
	other.fits(360)
	other.quiet(s.url)
	// The whole address, put into the same tab, opens it.
	other.open(s.address())
	other.until(`document.querySelector("#picture svg [data-at]")`)
	assert.Equal(t, s.url+"/", found[string](other, "location.href"))

	wrong := newTab(t, 360)
	wrong.open(s.url + "/#" + strings.Repeat("0", 32))
	wrong.until(locked)
	assert.Contains(t, found[string](wrong, "document.body.innerText"), "is not, or no longer, the one that fullfree serves")
	assert.Empty(t, found[string](wrong, "sessionStorage.getItem('fullfree-token') || ''"))
}
