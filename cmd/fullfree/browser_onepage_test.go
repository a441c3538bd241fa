//go:build browser

package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"fullfree/demo"

	"github.com/chromedp/cdproto/browser"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// onePages are the pages that were made, by the files in them: the program in them takes
// its time to compile.
var onePages struct {
	sync.Mutex
	folder string
	paths  map[string]string
}

// onePage makes the page that is one file, with files in it, and returns its address.
func onePage(t *testing.T, files ...string) string {
	t.Helper()
	onePages.Lock()
	defer onePages.Unlock()
	if onePages.folder == "" {
		folder, err := os.MkdirTemp("", "onepage")
		require.NoError(t, err)
		atEnd = append(atEnd, func() { _ = os.RemoveAll(folder) })
		onePages.folder, onePages.paths = folder, map[string]string{}
		build := exec.Command("go", "build", "-trimpath", "-ldflags", "-s -w", "-o", filepath.Join(folder, "worker.wasm"), "fullfree/cmd/onepage/worker")
		build.Env = append(os.Environ(), "GOOS=js", "GOARCH=wasm")
		said, err := build.CombinedOutput()
		require.NoError(t, err, string(said))
	}
	key := strings.Join(files, "\n")
	path, known := onePages.paths[key]
	if !known {
		path = filepath.Join(onePages.folder, fmt.Sprintf("page-%d.html", len(onePages.paths)))
		said, err := exec.Command("go", append([]string{"run", "fullfree/cmd/onepage", "--program", filepath.Join(onePages.folder, "worker.wasm"), "-o", path}, files...)...).CombinedOutput()
		require.NoError(t, err, string(said))
		onePages.paths[key] = path
		info, err := os.Stat(path)
		require.NoError(t, err)
		require.LessOrEqual(t, info.Size(), int64(9_000_000), "the page is too large for a mail")
	}
	return "file://" + path
}

// onePageReady says that the page has judged and drawn what it shows.
const onePageReady = `document.documentElement.dataset.ready === "yes" && document.querySelector("#picture svg [data-at]") && document.querySelectorAll("#readings td").length > 0`

// openPage opens the page as nobody has opened it before in this browser, and waits until
// it has judged what it shows.
func (b *tab) openPage(address string) {
	b.t.Helper()
	b.open(address)
	b.open("about:blank") // what the page keeps when it is left is kept
	b.open(address)
	found[bool](b, `localStorage.clear(), sessionStorage.clear(), true`)
	b.open(address)
	b.until(onePageReady)
	// A picker of the system would wait for somebody.
	found[bool](b, `delete window.showSaveFilePicker, window.showSaveFilePicker = undefined, true`)
}

// again opens the page once more in the same tab, as after the screen was locked.
func (b *tab) again() {
	b.t.Helper()
	b.settle()
	time.Sleep(300 * time.Millisecond) // until what is kept is kept
	b.open(found[string](b, "location.href"))
	b.until(onePageReady)
	found[bool](b, `window.showSaveFilePicker = undefined, true`)
}

// asksNobody asserts that the page complained of nothing, and that nothing was asked from
// anywhere but its own file and the worker made from it.
func (b *tab) asksNobody(addresses ...string) {
	b.t.Helper()
	b.quiet(append(addresses, "blob:null/", "about:blank")...)
}

// downloads lets the page save into a folder, which it returns.
func (b *tab) downloads() string {
	b.t.Helper()
	folder := b.t.TempDir()
	call(b, browser.SetDownloadBehavior, browser.SetDownloadBehaviorParams{Behavior: browser.SetDownloadBehaviorBehaviorAllow, DownloadPath: folder})
	return folder
}

// saved waits until a file is saved, and returns it.
func (b *tab) saved(folder, name string) []byte {
	b.t.Helper()
	var text []byte
	require.Eventually(b.t, func() bool {
		var err error
		text, err = os.ReadFile(filepath.Join(folder, name))
		return err == nil && len(text) > 0
	}, browserPatience/3, 20*time.Millisecond, name)
	time.Sleep(50 * time.Millisecond) // it is renamed once it is whole
	text, err := os.ReadFile(filepath.Join(folder, name))
	require.NoError(b.t, err)
	return text
}

// pick gives the page files as its picker does.
func (b *tab) pick(files map[string]string) {
	b.t.Helper()
	var list []string
	for name, text := range files {
		list = append(list, fmt.Sprintf("new File([%q], %q)", text, name))
	}
	found[bool](b, `(() => {
		const list = new DataTransfer();
		for (const file of [`+strings.Join(list, ", ")+`]) list.items.add(file);
		const picker = document.getElementById("picker");
		picker.files = list.files;
		picker.dispatchEvent(new Event("change"));
		return true;
	})()`)
}

// takeDemo begins with a demo, and waits until it is judged.
func (b *tab) takeDemo(kind string) {
	b.t.Helper()
	found[bool](b, fmt.Sprintf(`document.getElementById("readings").replaceChildren(), document.getElementById("begin").open = true, document.getElementById("demos").value = %q, true`, kind))
	b.click("#take-demo")
	b.until(fmt.Sprintf(`document.getElementById("shown").value === %q && document.querySelectorAll("#readings td").length > 0`, kind+".hcl"))
}

// part shows a part of the page.
func (b *tab) part(name string) {
	b.t.Helper()
	b.click(fmt.Sprintf(".tabs > [data-part=%q]", name))
}

// clickFree clicks a button once it may be clicked, wherever what arrives above it has
// moved it by then.
func (b *tab) clickFree(selector string) {
	b.t.Helper()
	b.until(fmt.Sprintf(`!document.querySelector(%q).disabled`, selector))
	found[bool](b, fmt.Sprintf(`document.querySelector(%q).click(), true`, selector))
}

// The page answers what the command prints, byte for byte, for every demo.
func TestOnePageAnswersAsTheCommand(t *testing.T) {
	address := onePage(t)
	b := newTab(t, 1200)
	b.openPage(address)
	folder := b.downloads()
	here := t.TempDir()
	t.Chdir(here)
	for _, kind := range append(append(demo.Kinds(), demo.More()...), demo.Aircraft) {
		b.takeDemo(kind)
		if kind == demo.Aircraft {
			files, err := demo.AircraftFiles()
			require.NoError(t, err)
			for _, f := range files {
				require.NoError(t, os.WriteFile(f.Name, f.Text, 0o644))
			}
		} else {
			text, _ := demo.File(kind)
			require.NoError(t, os.WriteFile(kind+".hcl", text, 0o644))
		}
		b.part("paper")
		b.clickFree("[data-make=check]")
		got := b.saved(folder, kind+".json")
		want := fullfree("", "check", "--json", kind+".hcl")
		assert.True(t, want.out == string(got), "%s: the page and the command differ", kind)
		b.part("try")
		told := found[string](b, headline)
		assert.Contains(t, strings.Join(strings.Fields(fullfree("", "check", kind+".hcl").out), " "), told, kind)
	}
	b.asksNobody(address)
}

// With runs in it, it shows the first of them, an aircraft with its runs.
func TestOnePageHoldsRuns(t *testing.T) {
	address := onePage(t, demoFolder+"sticks.hcl", demoFolder+"aircraft/aircraft.hcl")
	b := newTab(t, 360)
	b.openPage(address)
	assert.Equal(t, "Twin sticks", found[string](b, "document.querySelector('h1').textContent"))
	names := found[[]string](b, `[...document.getElementById("shown").options].map((o) => o.value)`)
	assert.Subset(t, names, []string{"sticks.hcl", "aircraft.hcl", "pedals.hcl", "tail-run.hcl"})
	found[bool](b, `document.getElementById("shown").value = "aircraft.hcl", document.getElementById("shown").dispatchEvent(new Event("change")), true`)
	b.until(`document.querySelectorAll("#picture svg").length > 4`)
	assert.Contains(t, found[string](b, headline), "requirements")
	b.fits(360)
	b.asksNobody(address)
}
