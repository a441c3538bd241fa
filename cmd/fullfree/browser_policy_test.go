//go:build browser

package main

import (
	"net/http"
	"net/http/httptest"
	"os"
	"strings"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// hostileName would be markup, if any text of a file could.
const hostileName = `</script></title></style></pre><img src=x onerror=alert(1)><script>alert(2)</script>`

// hostileFile is a run with such texts wherever one can be.
func hostileFile(t *testing.T) string {
	t.Helper()
	text := strings.NewReplacer(
		`run "Bars" {`, `run "`+hostileName+`" {`+"\n  view = \"<svg onload=alert(3)> {{.}} $${x}\"",
		"of   = lever\n  from = -40", "of    = lever\n  plus  = \"<b id=plus onmouseover=alert(4)>up\"\n  minus = \"--><i>\"\n  from = -40",
		`require "together" {`, `require "together" "x\" autofocus onfocus=alert(5) y=\"<u>" {`,
	).Replace(barsHold)
	_, file := folderWith(t, text+"\n# </pre></script><img src=x onerror=alert(6)>\n")
	return file
}

// Whatever a file's texts hold stays text.
func TestReportHostileNames(t *testing.T) {
	b := newTab(t, 1200)
	book := bookOf(t, hostileFile(t))
	b.openBook(book)
	b.slide(10)
	b.slide(-10)
	assert.Equal(t, "Rigging book: "+hostileName, found[string](b, "document.querySelector('h1').textContent"))
	assert.Equal(t, "Rigging book: "+hostileName, found[string](b, "document.title"))
	assert.Equal(t, "<b id=plus onmouseover=alert(4)>up", found[string](b, "document.querySelector('.sides').lastElementChild.textContent"))
	assert.Equal(t, "-10.0° (--><i>)", found[string](b, "document.querySelector('.at').textContent"))
	b.until(`document.querySelector("[role=status]").textContent.includes("<i>")`)
	assert.Contains(t, found[string](b, "document.querySelector('.required').textContent"), `x" autofocus onfocus=alert(5) y="<u>`)
	assert.Contains(t, found[string](b, "document.querySelector('.listing').textContent"), "# </pre></script><img src=x onerror=alert(6)>\n")
	assert.Zero(t, found[int](b, "document.querySelectorAll('img, b, i, u, iframe, object, embed, link, base, form, [autofocus], [onfocus], [onload], [onerror], [style]').length"))
	assert.Equal(t, 2, found[int](b, "document.querySelectorAll('script').length"), "the page's own, and its data")
	b.quiet("file://" + book)
}

// The page's policy lets nothing run, load or style but what it came with.
func TestReportPolicy(t *testing.T) {
	var asked atomic.Int32
	elsewhere := httptest.NewServer(http.HandlerFunc(func(http.ResponseWriter, *http.Request) { asked.Add(1) }))
	defer elsewhere.Close()
	b := newTab(t, 1200)
	book := bookOf(t, demoFolder+"pedals.hcl")
	b.openBook(book)
	found[bool](b, strings.ReplaceAll(`(() => {
		window.ran = [];
		window.broken = [];
		document.addEventListener("securitypolicyviolation", (e) => window.broken.push(e.effectiveDirective));
		const add = (name, change) => { const e = document.createElement(name); change(e); document.body.append(e); return e; };
		add("script", (e) => { e.textContent = "window.ran.push('script')"; });
		add("script", (e) => { e.src = "data:text/javascript,window.ran.push('data')"; });
		add("button", (e) => { e.setAttribute("onclick", "window.ran.push('handler')"); }).click();
		add("p", (e) => { e.id = "styled"; e.setAttribute("style", "position: fixed"); });
		add("style", (e) => { e.textContent = "#styled { position: fixed !important }"; });
		add("a", (e) => { e.href = "javascript:window.ran.push('link')"; }).click();
		add("img", (e) => { e.src = "ELSEWHERE/x.png"; });
		add("iframe", (e) => { e.src = "data:text/html,x"; });
		add("base", (e) => { e.href = "ELSEWHERE/"; });
		fetch("ELSEWHERE/").catch(() => window.ran.length);
		setTimeout("window.ran.push('timeout')");
		return true;
	})()`, "ELSEWHERE", elsewhere.URL))
	b.until(`["script-src-elem", "script-src-attr", "style-src-attr", "style-src-elem", "img-src", "frame-src", "base-uri", "connect-src"].every((d) => window.broken.includes(d))`)
	assert.Empty(t, found[[]string](b, "window.ran"))
	assert.Equal(t, "static", found[string](b, "getComputedStyle(document.querySelector('#styled')).position"))
	b.settle()
	assert.Zero(t, asked.Load(), "nothing gets out of the page")
}

// A book that somebody has written into runs nothing of that; one whose script
// was changed runs no script at all, and is whole without.
func TestReportChangedByHand(t *testing.T) {
	book := bookOf(t, demoFolder+"pedals.hcl")
	text, err := os.ReadFile(book)
	require.NoError(t, err)
	b := newTab(t, 1200)
	changed := func(old, new string) {
		require.Contains(t, string(text), old)
		require.NoError(t, os.WriteFile(book, []byte(strings.Replace(string(text), old, new, 1)), 0o644))
	}
	changed("</main>", `<script>window.ran = 1</script><p id="styled" style="position: fixed" onclick="window.ran = 2"><img src=x onerror="window.ran = 3"></main>`)
	b.openBook(book)
	found[bool](b, "(document.querySelector('#styled').click(), true)")
	b.settle()
	assert.True(t, found[bool](b, "window.ran === undefined"))
	assert.Equal(t, "static", found[string](b, "getComputedStyle(document.querySelector('#styled')).position"))
	assert.True(t, b.troubled("Content Security Policy"), "the browser says so")

	changed("const glide = 5000", "const glide = 5001")
	b.open("file://" + book)
	b.standsStill()
}
