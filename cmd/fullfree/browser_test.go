package main

import (
	"context"
	"fmt"
	"os"
	"os/exec"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
)

// browserNames are what Chromium may be called on the PATH.
var browserNames = []string{"chromium", "chromium-browser", "google-chrome", "chrome"}

// browserPatience is how long one test may take in the browser: it starts
// slowly on a busy machine.
const browserPatience = 90 * time.Second

// theBrowser is one browser for all tests of this package.
var theBrowser struct {
	once sync.Once
	path string
	ctx  context.Context
	stop context.CancelFunc
	err  error
}

func TestMain(m *testing.M) {
	progressEvery = time.Hour // what a busy machine adds to standard error is in no test
	status := m.Run()
	if theBrowser.stop != nil {
		theBrowser.stop()
	}
	os.Exit(status)
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
	)
	allocator, stopAllocator := chromedp.NewExecAllocator(context.Background(), options...)
	ctx, stop := chromedp.NewContext(allocator)
	theBrowser.ctx = ctx
	theBrowser.stop = func() { stop(); stopAllocator() }
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

// newTab opens a tab of the given width. Without a browser the test is skipped,
// and where CI is set it fails.
func newTab(t *testing.T, width int64) *tab {
	t.Helper()
	if testing.Short() {
		t.Skip("no browser in short mode: the pages were not tried in one")
	}
	theBrowser.once.Do(startBrowser)
	if theBrowser.path == "" {
		const missing = "there is no Chromium on the PATH (apt-get install chromium): the pages were not tried in a browser"
		if os.Getenv("CI") != "" {
			t.Fatal(missing)
		}
		t.Skip(missing)
	}
	require.NoError(t, theBrowser.err, "the browser doesn't start")
	ctx, closeTab := chromedp.NewContext(theBrowser.ctx)
	ctx, cancel := context.WithTimeout(ctx, browserPatience)
	t.Cleanup(func() { cancel(); closeTab() })
	b := &tab{t: t, ctx: ctx}
	b.do(chromedp.EmulateViewport(width, 800))
	_, err := chromedp.Call(ctx, network.Enable, network.EnableParams{})
	require.NoError(t, err)
	_, err = chromedp.Call(ctx, log.Enable, cdp.Empty{})
	require.NoError(t, err)
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
// anywhere but the address that it came from.
func (b *tab) quiet(from string) {
	b.t.Helper()
	b.mu.Lock()
	defer b.mu.Unlock()
	require.Empty(b.t, b.troubles, "the page complains")
	for _, address := range b.requests {
		if !strings.HasPrefix(address, from) {
			b.t.Errorf("the page asks for %s", address)
		}
	}
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
	_, err := chromedp.Run(b.ctx, chromedp.Poll[bool](script, chromedp.WithPollingTimeout(browserPatience/3)))
	require.NoError(b.t, err, script)
}

// press presses keys, such as kb.ArrowRight, in what has the focus.
func (b *tab) press(keys ...string) {
	b.t.Helper()
	for _, key := range keys {
		b.do(chromedp.KeyEvent(key))
	}
}

func TestTheHarness(t *testing.T) {
	b := newTab(t, 360)
	b.open("data:text/html,<title>x</title><p id=p>hello<script>document.getElementById('p').textContent='ok';console.error('no')</script>")
	b.until("document.getElementById('p').textContent === 'ok'")
	require.Equal(t, 360, found[int](b, "innerWidth"))
	time.Sleep(200 * time.Millisecond)
	t.Log(b.troubles, b.requests)
}

// spoken is what was said on the console.
func spoken(args []*runtime.RemoteObject) string {
	var words []string
	for _, arg := range args {
		words = append(words, string(arg.Value)+arg.Description)
	}
	return strings.Join(words, " ")
}
