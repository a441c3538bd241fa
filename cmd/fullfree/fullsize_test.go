package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// demoIn writes a demo into a new folder, works there, and returns its name.
func demoIn(t *testing.T, kind string) string {
	t.Helper()
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile(kind+".hcl", []byte(demoText(t, kind)), 0o644))
	return kind + ".hcl"
}

func TestFullSizeWritesPages(t *testing.T) {
	file := demoIn(t, "pedals")
	got := fullfree("", "draw", file, "-o", "full.svg", "--full-size")
	assert.Equal(t, outcome{exitOK, "", "Written: full-1.svg, full-2.svg, full-3.svg, full-4.svg.\n"}, got)
	assert.Equal(t, []string{"full-1.svg", "full-2.svg", "full-3.svg", "full-4.svg", "pedals.hcl"}, names(t, "."))
	for i, name := range names(t, ".")[:4] {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		assert.Contains(t, string(text), "Page "+string(rune('1'+i))+" of 4")
		assert.Contains(t, string(text), `width="210mm"`)
	}

	// A shorter print leaves the rest of a longer one, and says so.
	got = fullfree("", "draw", file, "-o", "full.svg", "--full-size", "--paper", "a3")
	assert.Equal(t, outcome{exitOK, "", "Written: full-1.svg, full-2.svg.\nNot of this print, left over from a longer one: full-3.svg, full-4.svg.\n"}, got)
	text, err := os.ReadFile("full-2.svg")
	require.NoError(t, err)
	assert.Contains(t, string(text), "Page 2 of 2")
	assert.Len(t, names(t, "."), 5, "nothing temporary is left")
}

func TestFullSizeOneSheet(t *testing.T) {
	file := demoIn(t, "throttle")
	got := fullfree("", "draw", file, "-o", "full.svg", "--full-size", "--paper", "none")
	assert.Equal(t, outcome{}, got)
	text, err := os.ReadFile("full.svg")
	require.NoError(t, err)
	assert.Equal(t, outcome{exitOK, string(text), ""}, fullfree("", "draw", file, "-o", "-", "--full-size", "--paper", "none"))
	set := fullfree("", "draw", file, "-o", "-", "--full-size", "--paper", "none", "--set", "link.length=243")
	assert.Contains(t, set.out, "link.length = 243")

	got = fullfree("", "draw", file, "-o", "small.svg", "--full-size", "--paper", "a3")
	assert.Equal(t, outcome{exitOK, "", "Written: small-1.svg.\n"}, got, "one page is numbered too")
}

// A run in inches is printed on Letter, one in space in one view.
func TestFullSizeChooses(t *testing.T) {
	file := demoIn(t, "chain")
	require.Equal(t, exitOK, fullfree("", "draw", file, "-o", "chain.svg", "--full-size").status)
	text, err := os.ReadFile("chain-1.svg")
	require.NoError(t, err)
	assert.Regexp(t, `width="(215\.9|279\.4)mm"`, string(text))
	assert.Contains(t, string(text), "4 in (101.6 mm)")

	file = demoIn(t, "sticks")
	got := fullfree("", "draw", file, "-o", "s.svg", "--full-size")
	assert.Contains(t, got.err, "one view at a time: this is xy; --view picks another.\n")
	got = fullfree("", "draw", file, "-o", "s.svg", "--full-size", "--view", "xz")
	assert.Regexp(t, `\AWritten: s-1.svg`, got.err)
}

func TestFullSizeRefuses(t *testing.T) {
	file := demoIn(t, "pedals")
	for flags, says := range map[string]string{
		"-o a.svg --only rocker":          "--only is for --full-size",
		"-o a.pdf --full-size --only rod": "--only: there is no part or rod \"rod\"",
		"-o a.svg --full-size --charts":   "charts have no size",
		"-o a.svg --full-size --paper a5": "--paper a5: there is a4, letter, a3, tabloid, none",
		"-o - --full-size":                "standard output takes one picture, and pages are one each: give a name (-o OUT.svg), or --paper none",
		"-o - --full-size --paper a4":     "standard output takes one picture",
		"-o a.png --full-size":            "the drawing is PDF or SVG: name it a.pdf or a.svg",
		"-o a.svg --full-size --view yx":  "there is xy, xz, yz",
		"--full-size":                     "tell where to draw",
		"-o ./ --full-size":               "-o ./: pages are files of their own, OUT-1.svg and so on: give a name (-o OUT.svg)",
		"-o .svg --full-size":             "give a name (-o OUT.svg)",
		"-o .. --full-size":               "give a name (-o OUT.svg)",
		"-o /dev/null --full-size":        "-o /dev/null: pages are files of their own",
		"-o nowhere/a.svg --full-size":    "can't write nowhere/a-1.svg: there is no such folder; nothing is written",
		"-o a.svg --full-size --set rocker.pivot.x=50000 --set left-link.length=50000 --set right-link.length=50000": "pages of a4",
	} {
		got := fullfree("", append([]string{"draw", file}, strings.Fields(flags)...)...)
		assert.Equal(t, exitFailed, got.status, flags)
		assert.Empty(t, got.out, flags)
		assert.Contains(t, got.err, says, flags)
	}
	assert.Equal(t, []string{"pedals.hcl"}, names(t, "."))

	// A page that would be the run's own file.
	require.NoError(t, os.Rename(file, "full-2.svg"))
	got := fullfree("", "draw", "full-2.svg", "-o", "full.svg", "--full-size")
	assert.Equal(t, exitFailed, got.status)
	assert.Contains(t, got.err, "full-2.svg is the file of the run itself")
	assert.Equal(t, []string{"full-2.svg"}, names(t, "."))
}

// Where one page can't be written none is, and what was there stays.
func TestFullSizeAllOrNothing(t *testing.T) {
	file := demoIn(t, "pedals")
	require.NoError(t, os.WriteFile("full-1.svg", []byte("old"), 0o600))
	require.NoError(t, os.Mkdir("full-3.svg", 0o755))
	got := fullfree("", "draw", file, "-o", "full.svg", "--full-size")
	assert.Equal(t, outcome{exitFailed, "", "fullfree draw: can't write full-3.svg: it is a folder; nothing is written\n"}, got)
	assert.Equal(t, []string{"full-1.svg", "full-3.svg", "pedals.hcl"}, names(t, "."))
	text, err := os.ReadFile("full-1.svg")
	require.NoError(t, err)
	assert.Equal(t, "old", string(text))
}

// Two pages are never written into one file, of which the second would be left.
func TestFullSizeLinkedPages(t *testing.T) {
	file := demoIn(t, "pedals")
	require.NoError(t, os.WriteFile("full-1.svg", []byte("old"), 0o600))
	require.NoError(t, os.Symlink(filepath.Join(filepath.Dir(file), "full-1.svg"), "full-2.svg"))
	got := fullfree("", "draw", file, "-o", "full.svg", "--full-size")
	assert.Equal(t, outcome{exitFailed, "", "fullfree draw: can't write full-2.svg: it leads to the same file as full-1.svg; nothing is written\n"}, got)
	assert.Equal(t, []string{"full-1.svg", "full-2.svg", "pedals.hcl"}, names(t, "."))
	text, err := os.ReadFile("full-1.svg")
	require.NoError(t, err)
	assert.Equal(t, "old", string(text))
}

// Also where the fault shows only when the files are put in place: what was
// swapped is swapped back.
func TestWriteTogetherSwapsBack(t *testing.T) {
	folder := t.TempDir()
	in := func(name string) string { return filepath.Join(folder, name) }
	require.NoError(t, os.WriteFile(in("a"), []byte("old"), 0o600))
	_, err := writeTogether([]string{in("a"), in("b")}, [][]byte{[]byte("new a"), []byte("new b")})
	require.NoError(t, err)
	assert.Equal(t, []string{"a", "b"}, names(t, folder))

	a, err := prepare(in("a"), []byte("third a"))
	require.NoError(t, err)
	c, err := prepare(in("c"), []byte("third c"))
	require.NoError(t, err)
	require.NoError(t, a.swap())
	require.NoError(t, c.swap())
	a.swapBack()
	c.swapBack()
	assert.Equal(t, []string{"a", "b"}, names(t, folder))
	text, err := os.ReadFile(in("a"))
	require.NoError(t, err)
	assert.Equal(t, "new a", string(text))
	info, err := os.Stat(in("a"))
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o600), info.Mode())
}

func TestStalePages(t *testing.T) {
	t.Chdir(t.TempDir())
	for _, name := range []string{"a-1.svg", "a-3.svg", "a-12.svg", "a-03.svg", "a-x.svg", "b-9.svg", "a-4.txt", "a--5.svg"} {
		require.NoError(t, os.WriteFile(name, nil, 0o644))
	}
	assert.Equal(t, []string{"a-3.svg", "a-12.svg"}, stalePages("a.svg", 2))
	assert.Equal(t, []string{"./a-12.svg"}, stalePages("./a.svg", 3))
	assert.Empty(t, stalePages("nowhere/a.svg", 1))
	assert.Equal(t, []string{"x/a-1", "x/a-2"}, pageNames("x/a", 2))
}
