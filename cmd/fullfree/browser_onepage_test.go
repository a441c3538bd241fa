//go:build browser

package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"

	"github.com/chromedp/cdproto/network"
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
	key := ""
	for _, file := range files {
		key += file + "\n"
	}
	path, known := onePages.paths[key]
	if !known {
		path = filepath.Join(onePages.folder, string(rune('a'+len(onePages.paths)))+".html")
		said, err := exec.Command("go", append([]string{"run", "fullfree/cmd/onepage", "--program", filepath.Join(onePages.folder, "worker.wasm"), "-o", path}, files...)...).CombinedOutput()
		require.NoError(t, err, string(said))
		onePages.paths[key] = path
	}
	return "file://" + path
}

// openPage opens the page, with nothing kept from before, and waits until it has judged
// what it shows.
func (b *tab) openPage(address string) {
	b.t.Helper()
	b.open(address)
	b.until(onePageReady)
}

// onePageReady says that the page has judged and drawn what it shows.
const onePageReady = `document.documentElement.dataset.ready === "yes" && document.querySelector("#picture svg [data-at]") && document.querySelectorAll("#readings td").length > 0`

// forgotten opens the page as nobody has opened it before.
func (b *tab) forgotten(address string) {
	b.t.Helper()
	b.open(address)
	found[bool](b, `localStorage.clear(), sessionStorage.clear(), true`)
	b.openPage(address)
}

// asksNobody asserts that nothing was asked from anywhere but the page's own file.
func (b *tab) asksNobody(address string) {
	b.t.Helper()
	b.quiet(address, "blob:null/", "blob:file:")
	_ = network.Enable
}
