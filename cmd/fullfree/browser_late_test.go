//go:build browser

package main

import (
	"fmt"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/fetch"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// latecomers holds back answers on their way to a page.
type latecomers struct {
	b    *tab
	mu   sync.Mutex
	held map[string][]fetch.RequestID // by path
}

// holdBack holds back what is answered to the given paths.
func holdBack(b *tab) *latecomers {
	l := &latecomers{b: b, held: map[string][]fetch.RequestID{}}
	watch(b, fetch.RequestPaused, func(e fetch.EventRequestPaused) {
		l.mu.Lock()
		defer l.mu.Unlock()
		path := e.Request.URL[strings.LastIndexByte(e.Request.URL, '/'):]
		l.held[path] = append(l.held[path], e.RequestID)
	})
	return l
}

// of sets the paths whose answers are held back from now on.
func (l *latecomers) of(paths ...string) {
	l.b.t.Helper()
	var patterns []*fetch.RequestPattern
	for _, path := range paths {
		patterns = append(patterns, &fetch.RequestPattern{URLPattern: "*" + path, RequestStage: fetch.RequestStageResponse})
	}
	call(l.b, fetch.Enable, fetch.EnableParams{Patterns: patterns})
}

// await waits until an answer of a path is held back.
func (l *latecomers) await(path string) {
	l.b.t.Helper()
	require.Eventually(l.b.t, func() bool {
		l.mu.Lock()
		defer l.mu.Unlock()
		return len(l.held[path]) > 0
	}, browserPatience/3, 20*time.Millisecond, path)
}

// release lets the answers of a path through.
func (l *latecomers) release(path string) {
	l.b.t.Helper()
	l.mu.Lock()
	list := l.held[path]
	l.held[path] = nil
	l.mu.Unlock()
	for _, id := range list {
		_, err := chromedp.Call(l.b.ctx, fetch.ContinueResponse, fetch.ContinueResponseParams{RequestID: id})
		require.NoError(l.b.t, err)
	}
}

// An answer of how the run fares that comes late, when the control has been moved on
// and is shown there, leaves the picture and the figures where they are.
func TestBenchPictureDoesNotGoBack(t *testing.T) {
	s := serveWorkbench(t, demoText(t, "mixer"))
	b := newTab(t, 1200)
	b.openWorkbench(s)
	note := func(at float64) string {
		return fmt.Sprintf(`document.getElementById("readout-note").textContent.includes("cyclic at %.1f°")`, at)
	}
	late := holdBack(b)
	late.of("/try")
	b.focus("[aria-label^='cyclic, ']")
	b.press(kb.PageUp)
	b.until(note(1))
	late.await("/try")
	late.of("/try", "/pose")
	b.press(kb.PageUp)
	late.await("/pose")
	late.release("/pose")
	b.until(note(2))

	// The late answer is of 1 degree. What the page asks for after it would mend what
	// it spoils, so that is held back.
	late.release("/try")
	late.await("/pose")
	assert.True(t, found[bool](b, note(2)))
	b.shows("#picture", mixerParts, sweepOf(t, s.path, "--control", "cyclic").at(2))

	call(b, fetch.Disable, cdp.Empty{}) // all go through
	b.until(note(2))
	b.quiet(s.url)
}
