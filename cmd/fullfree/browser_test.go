//go:build browser

package main

import (
	"context"
	"fmt"
	"os/exec"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	cdpinput "github.com/chromedp/cdproto/input"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// browserNames are what Chromium may be called on the PATH.
var browserNames = []string{"chromium", "chromium-browser", "google-chrome", "chrome"}

// browserPatience is how long one test may take in the browser: it starts
// slowly on a busy machine.
const browserPatience = 90 * time.Second

// reboundName is a name that the browser takes for this machine: what whoever
// holds a name can make of it, to have a page of theirs reach what is served here.
const reboundName = "rebound.test"

// theBrowser is one browser for all tests of this package.
var theBrowser struct {
	once sync.Once
	path string
	ctx  context.Context
	err  error
}

// startBrowser starts it, without any network but this machine's own.
func startBrowser() {
	for _, name := range browserNames {
		if path, err := exec.LookPath(name); err == nil {
			theBrowser.path = path
			break
		}
	}
	if theBrowser.path == "" {
		return
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(theBrowser.path),
		chromedp.WindowSize(1200, 900),
		chromedp.Flag("host-resolver-rules", "MAP "+reboundName+" 127.0.0.1, MAP * ~NOTFOUND, EXCLUDE 127.0.0.1, EXCLUDE localhost"),
	)
	allocator, stopAllocator := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, stop := chromedp.NewContext(allocator)
	theBrowser.ctx = ctx
	atEnd = append(atEnd, stop, stopAllocator)
	theBrowser.err = chromedp.Do(ctx) // its life is that of ctx
}

// tab is a page in the browser, and all that it complained of and asked for.
type tab struct {
	t        *testing.T
	ctx      context.Context
	mu       sync.Mutex
	troubles []string // errors on the console, exceptions
	requests []string // addresses asked for
}

// newTab opens a tab of the given width.
func newTab(t *testing.T, width int64) *tab {
	t.Helper()
	theBrowser.once.Do(startBrowser)
	require.NotEmpty(t, theBrowser.path, "there is no Chromium on the PATH (apt-get install chromium): the pages can't be tried in a browser")
	require.NoError(t, theBrowser.err, "the browser doesn't start")
	ctx, closeTab := chromedp.NewContext(theBrowser.ctx)
	ctx, cancel := context.WithTimeout(ctx, browserPatience)
	t.Cleanup(func() { cancel(); closeTab() })
	b := &tab{t: t, ctx: ctx}
	b.wide(width)
	call(b, network.Enable, network.EnableParams{})
	call(b, log.Enable, cdp.Empty{})
	call(b, emulation.SetFocusEmulationEnabled, emulation.SetFocusEmulationEnabledParams{Enabled: true})
	watch(b, runtime.ConsoleAPICalled, func(e runtime.EventConsoleAPICalled) {
		if e.Type == runtime.ConsoleAPICalledTypeError || e.Type == runtime.ConsoleAPICalledTypeWarning || e.Type == runtime.ConsoleAPICalledTypeAssert {
			b.trouble("console: %s", spoken(e.Args))
		}
	})
	watch(b, runtime.ExceptionThrown, func(e runtime.EventExceptionThrown) { b.trouble("exception: %s", e.ExceptionDetails.Text) })
	watch(b, log.EntryAdded, func(e log.EventEntryAdded) {
		if e.Entry.Level == log.EntryLevelError || e.Entry.Level == log.EntryLevelWarning {
			b.trouble("log: %s", e.Entry.Text)
		}
	})
	watch(b, page.JavascriptDialogOpening, func(e page.EventJavascriptDialogOpening) {
		b.trouble("dialog: %s", e.Message)
		_, _ = chromedp.Call(ctx, page.HandleJavaScriptDialog, page.HandleJavaScriptDialogParams{}) // else the page waits
	})
	watch(b, network.RequestWillBeSent, func(e network.EventRequestWillBeSent) {
		b.mu.Lock()
		defer b.mu.Unlock()
		b.requests = append(b.requests, e.Request.URL)
	})
	return b
}

// watch tells of every event of a kind until the tab closes.
func watch[E any](b *tab, event cdp.Event[E], tell func(e E)) {
	events := chromedp.Events(b.ctx, event) // from now on
	go func() {
		for e, err := range events {
			if err != nil {
				return
			}
			tell(e)
		}
	}()
}

func (b *tab) trouble(format string, args ...any) {
	b.mu.Lock()
	defer b.mu.Unlock()
	b.troubles = append(b.troubles, fmt.Sprintf(format, args...))
}

// quiet asserts that the page complained of nothing, and asked for nothing from
// anywhere but the addresses that it came from.
func (b *tab) quiet(from ...string) {
	b.t.Helper()
	b.settle()
	b.mu.Lock()
	defer b.mu.Unlock()
	assert.Empty(b.t, b.troubles, "the page complains")
	for _, address := range b.requests {
		if !slices.ContainsFunc(append(from, "data:"), func(own string) bool { return strings.HasPrefix(address, own) }) {
			b.t.Errorf("the page asks for %s", address)
		}
	}
}

// settle lets the browser tell what it has to tell.
func (b *tab) settle() {
	b.t.Helper()
	found[int](b, "0")
	time.Sleep(50 * time.Millisecond)
}

// troubled says whether the page complained in words that hold the given ones.
func (b *tab) troubled(words string) bool {
	b.mu.Lock()
	defer b.mu.Unlock()
	return strings.Contains(strings.Join(b.troubles, "\n"), words)
}

// call gives the browser a command of its protocol.
func call[P, R any](b *tab, command cdp.Command[P, R], params P) R {
	b.t.Helper()
	result, err := chromedp.Call(b.ctx, command, params)
	require.NoError(b.t, err, command.Method)
	return result
}

// wide makes the window so wide.
func (b *tab) wide(width int64) {
	b.t.Helper()
	b.do(chromedp.EmulateViewport(width, 800))
}

// media tells the page how it is shown: "print", or "" on a screen, and what its
// reader asks for, such as prefers-reduced-motion.
func (b *tab) media(media string, features ...*emulation.MediaFeature) {
	b.t.Helper()
	call(b, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: media, Features: features})
}

// do runs actions.
func (b *tab) do(actions ...chromedp.Action[chromedp.Void]) {
	b.t.Helper()
	require.NoError(b.t, chromedp.Do(b.ctx, actions...))
}

// open goes to an address.
func (b *tab) open(address string) {
	b.t.Helper()
	b.do(chromedp.Navigate(address))
}

// found is what a script finds in the page.
func found[T any](b *tab, script string) T {
	b.t.Helper()
	v, err := chromedp.Run(b.ctx, chromedp.Evaluate[T](script))
	require.NoError(b.t, err, script)
	return v
}

// until waits until a script finds that something is so.
func (b *tab) until(script string) {
	b.t.Helper()
	// Not by chromedp's own polling, for that evaluates a text in the page, which
	// the policy of these pages forbids.
	require.Eventually(b.t, func() bool { return found[bool](b, "!!("+script+")") }, browserPatience/3, 20*time.Millisecond, script)
}

// focus puts the focus on the first element that a selector finds.
func (b *tab) focus(selector string) {
	b.t.Helper()
	require.True(b.t, found[bool](b, fmt.Sprintf("(e => { e.focus(); return document.activeElement === e; })(document.querySelector(%q))", selector)), selector)
}

// click clicks with the mouse on the middle of the first element that a
// selector finds.
func (b *tab) click(selector string) {
	b.t.Helper()
	at := b.box(selector).middle()
	b.do(chromedp.MouseClickXY(at[0], at[1]))
}

// drag drags from one place in the window to another.
func (b *tab) drag(from, to [2]float64) {
	b.t.Helper()
	left := chromedp.ButtonType(cdpinput.MouseButtonLeft)
	b.do(chromedp.MouseEvent(chromedp.MousePressed, from[0], from[1], left, chromedp.ClickCount(1)))
	const moves = 8
	for i := 1; i <= moves; i++ {
		t := float64(i) / moves
		b.do(chromedp.MouseEvent(chromedp.MouseMoved, from[0]+t*(to[0]-from[0]), from[1]+t*(to[1]-from[1]), left))
	}
	b.do(chromedp.MouseEvent(chromedp.MouseReleased, to[0], to[1], left, chromedp.ClickCount(1)))
}

// box is where an element is in the window, in CSS pixels.
type box struct{ X, Y, Width, Height float64 }

func (b box) middle() [2]float64 { return [2]float64{b.X + b.Width/2, b.Y + b.Height/2} }

// box finds the first element that a selector finds, scrolled into the middle of
// the window.
func (b *tab) box(selector string) box {
	b.t.Helper()
	return found[box](b, fmt.Sprintf("(e => { e.scrollIntoView({block: 'center'}); const r = e.getBoundingClientRect(); return {X: r.x, Y: r.y, Width: r.width, Height: r.height}; })(document.querySelector(%q))", selector))
}

// press presses keys, such as kb.ArrowRight, in what has the focus.
func (b *tab) press(keys ...string) {
	b.t.Helper()
	for _, key := range keys {
		b.do(chromedp.KeyEvent(key))
	}
}

// spoken is what was said on the console.
func spoken(args []*runtime.RemoteObject) string {
	var words []string
	for _, arg := range args {
		words = append(words, string(arg.Value)+arg.Description)
	}
	return strings.Join(words, " ")
}
