package main

import (
	"bytes"
	"crypto/sha256"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fullfree/render/pdfscan"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// folderWith makes a folder with bars.hcl in it and returns both paths.
func folderWith(t *testing.T, text string) (folder, file string) {
	t.Helper()
	folder = t.TempDir()
	file = filepath.Join(folder, "bars.hcl")
	require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
	return folder, file
}

func names(t *testing.T, folder string) []string {
	t.Helper()
	entries, err := os.ReadDir(folder)
	require.NoError(t, err)
	var out []string
	for _, e := range entries {
		out = append(out, e.Name())
	}
	return out
}

func TestDraw(t *testing.T) {
	folder, file := folderWith(t, barsFallShort)
	svg := filepath.Join(folder, "bars.svg")
	got := fullfree("", "draw", file, "-o", svg)
	assert.Equal(t, outcome{}, got, "quiet, and 0 whatever the verdict")
	text, err := os.ReadFile(svg)
	require.NoError(t, err)
	assert.Contains(t, string(text), "</svg>")
	assert.Equal(t, []string{"bars.hcl", "bars.svg"}, names(t, folder), "nothing temporary is left")

	got = fullfree("", "draw", file, "-o", "-")
	assert.Equal(t, outcome{exitOK, string(text), ""}, got, "the same bytes")
}

// Charts come in place of the drawing, as a sheet of the same make.
func TestDrawCharts(t *testing.T) {
	folder, file := folderWith(t, barsFallShort)
	svg := filepath.Join(folder, "charts.svg")
	assert.Equal(t, outcome{}, fullfree("", "draw", file, "-o", svg, "--charts"), "quiet, and 0 whatever the verdict")
	text, err := os.ReadFile(svg)
	require.NoError(t, err)
	hash := fmt.Sprintf("%x", sha256.Sum256([]byte(barsFallShort)))[:12]
	for _, says := range []string{"</svg>", "<title", "Rod angle of ", "FALLS SHORT", hash, "approves nothing", version} {
		assert.Contains(t, string(text), says)
	}
	assert.NotContains(t, string(text), "Sweep diagram")
	assert.Equal(t, outcome{exitOK, string(text), ""}, fullfree("", "draw", file, "-o", "-", "--charts"), "the same bytes")
	set := fullfree("", "draw", file, "-o", "-", "--charts", "--set", "crank.pivot.x=201").out
	assert.Contains(t, set, "crank.pivot.x = 201")

	got := fullfree("", "draw", file, "-o", filepath.Join(folder, "none.svg"), "--charts", "--view", "xy")
	assert.Equal(t, outcome{exitFailed, "", "fullfree draw: --view is for drawings: charts have no view; leave out --view or --charts\n"}, got)
	assert.Equal(t, []string{"bars.hcl", "charts.svg"}, names(t, folder))
}

// A picture of a run that --set changed says so, and tells the hash of the file
// as it is.
func TestDrawTellsWhatWasSet(t *testing.T) {
	_, file := folderWith(t, barsHold)
	hash := fmt.Sprintf("%x", sha256.Sum256([]byte(barsHold)))[:12]
	plain := fullfree("", "draw", file, "-o", "-").out
	set := fullfree("", "draw", file, "-o", "-", "--set", "high.at=30", "--set", "crank.pivot.x=201").out
	assert.Contains(t, plain, hash)
	assert.NotContains(t, plain, "crank.pivot.x")
	assert.Contains(t, set, hash)
	assert.Contains(t, set, "high.at = 30")
	assert.Contains(t, set, "crank.pivot.x = 201")
}

func TestDrawRefusesOtherPictures(t *testing.T) {
	folder, file := folderWith(t, barsHold)
	got := fullfree("", "draw", file, "-o", filepath.Join(folder, "bars.png"))
	assert.Equal(t, exitFailed, got.status)
	assert.Equal(t, "fullfree draw: -o "+filepath.Join(folder, "bars.png")+": the drawing is PDF or SVG: name it "+filepath.Join(folder, "bars.pdf")+" or "+filepath.Join(folder, "bars.svg")+"\n", got.err)
	assert.Equal(t, []string{"bars.hcl"}, names(t, folder))
	other := filepath.Join(folder, "bars")
	assert.Equal(t, outcome{}, fullfree("", "draw", file, "-o", other), "an ending that says nothing is left as it is")
}

func TestDrawLeavesNothingOfAFault(t *testing.T) {
	folder, file := folderWith(t, "nonsense")
	got := fullfree("", "draw", file, "-o", filepath.Join(folder, "bars.svg"))
	assert.Equal(t, exitFailed, got.status)
	assert.Empty(t, got.out)
	assert.Equal(t, []string{"bars.hcl"}, names(t, folder))
}

func TestDrawRefusesToOverwriteTheRun(t *testing.T) {
	folder, file := folderWith(t, bars)
	link := filepath.Join(folder, "link.svg")
	require.NoError(t, os.Symlink(file, link))
	for _, out := range []string{file, link, filepath.Join(folder, ".", "bars.hcl")} {
		got := fullfree("", "draw", file, "-o", out)
		assert.Equal(t, exitFailed, got.status)
		assert.Contains(t, got.err, "is the file of the run itself")
	}
	// Also where the run comes in on standard input.
	in, err := os.Open(file)
	require.NoError(t, err)
	defer in.Close()
	var stdout, stderr bytes.Buffer
	assert.Equal(t, exitFailed, run([]string{"draw", "-", "-o", file}, in, &stdout, &stderr))
	assert.Contains(t, stderr.String(), "is the file of the run itself")
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, bars, string(text))
}

func TestDrawTellsWhyItCantWrite(t *testing.T) {
	folder, file := folderWith(t, bars)
	got := fullfree("", "draw", file, "-o", filepath.Join(folder, "nowhere", "bars.svg"))
	assert.Equal(t, exitFailed, got.status)
	assert.Contains(t, got.err, "there is no such folder")
	got = fullfree("", "draw", file, "-o", folder)
	assert.Equal(t, exitFailed, got.status)
	assert.Contains(t, got.err, "it is a folder")
	assert.Equal(t, []string{"bars.hcl"}, names(t, folder))
}

func TestWriteWholeKeepsWhatWasThere(t *testing.T) {
	folder := t.TempDir()
	path, link := filepath.Join(folder, "a.svg"), filepath.Join(folder, "link.svg")
	require.NoError(t, os.WriteFile(path, []byte("old, and longer"), 0o600))
	require.NoError(t, os.Symlink("a.svg", link))
	_, err := writeWhole(link, []byte("new"))
	require.NoError(t, err)
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, "new", string(text))
	info, err := os.Lstat(path)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o600), info.Mode(), "its permissions")
	info, err = os.Lstat(link)
	require.NoError(t, err)
	assert.NotZero(t, info.Mode()&os.ModeSymlink, "the link is still one")
	assert.Equal(t, []string{"a.svg", "link.svg"}, names(t, folder))
}

func TestWriteWholeWritesThroughWhatIsNoFile(t *testing.T) {
	_, err := writeWhole(os.DevNull, []byte(strings.Repeat("x", 1000)))
	require.NoError(t, err)
	info, err := os.Stat(os.DevNull)
	require.NoError(t, err)
	assert.NotZero(t, info.Mode()&os.ModeDevice, "it is still a device")
}

// Where the new text can't be put in place, the old one stays and nothing else is left.
func TestWriteWholeOrNotAtAll(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "a.svg")
	require.NoError(t, os.Mkdir(path, 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(path, "kept"), nil, 0o644))
	_, err := writeWhole(path, []byte("new"))
	assert.Error(t, err)
	assert.Equal(t, []string{"a.svg"}, names(t, folder))
	assert.Equal(t, []string{"kept"}, names(t, path))
}

// The name tells the format; every drawing is on paper in one file.
func TestDrawPDF(t *testing.T) {
	file := demoIn(t, "pedals")
	for _, drawn := range []struct {
		flags string
		pages int
	}{
		{"-o a.pdf", 1}, {"-o B.PDF --paper letter", 1}, {"-o c.pdf --charts", 1}, {"-o d.pdf --paper none", 1},
		{"-o e.pdf --full-size", 4}, {"-o f.pdf --full-size --only left-link", 2}, {"-o g.pdf --full-size --only left-link --paper a3", 1},
	} {
		got := fullfree("", append([]string{"draw", file}, strings.Fields(drawn.flags)...)...)
		assert.Equal(t, outcome{}, got, drawn.flags)
		data, err := os.ReadFile(strings.Fields(drawn.flags)[1])
		require.NoError(t, err)
		f, err := pdfscan.Read(data)
		require.NoError(t, err)
		assert.Equal(t, drawn.pages, len(f.Pages), drawn.flags)
		hash := fmt.Sprintf("%x", sha256.Sum256([]byte(demoText(t, "pedals"))))[:12]
		assert.Contains(t, f.Pages[len(f.Pages)-1].Text(), hash, drawn.flags)
	}
	// An SVG is a page of the paper too.
	for paper, attrs := range map[string]string{"a4": `width="210mm" height="297mm"`, "tabloid": `width="279.4mm" height="431.8mm"`, "none": `viewBox="0 0 560 `} {
		svg := fullfree("", "draw", file, "-o", "-", "--paper", paper).out
		head, _, _ := strings.Cut(svg, "<title")
		assert.Contains(t, strings.Join(strings.Fields(head), " "), attrs)
	}
	assert.Contains(t, fullfree("", "draw", file, "-o", "-", "--paper", "a5").err, "--paper a5: there is a4, letter, a3, tabloid, none")
}
