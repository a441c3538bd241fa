package main

import (
	"os"
	"path/filepath"
	"testing"

	"fullfree/cmd/internal/calls"
	"fullfree/render/pdfscan"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// aircraftIn copies an aircraft of testdata, or another folder, into a folder of its own
// and returns the path of its aircraft file.
func aircraftIn(t *testing.T, from string) (folder, file string) {
	t.Helper()
	folder = t.TempDir()
	require.NoError(t, os.CopyFS(folder, os.DirFS(filepath.Join("..", "..", from))))
	return folder, filepath.Join(folder, "aircraft.hcl")
}

const splitInTwo = "testdata/aircraft/split2"

// An aircraft is drawn as a sheet a run into a folder, or on the pages of one PDF.
func TestDrawAircraft(t *testing.T) {
	folder, file := aircraftIn(t, splitInTwo)
	sheets := filepath.Join(folder, "sheets")
	got := fullfree("", "draw", file, "-o", sheets)
	assert.Equal(t, outcome{exitOK, "", "Written: " + filepath.Join(sheets, "front.svg") + ", " + filepath.Join(sheets, "rear.svg") + ".\n"}, got)
	assert.Equal(t, []string{"front.svg", "rear.svg"}, names(t, sheets))
	rear, err := os.ReadFile(filepath.Join(sheets, "rear.svg"))
	require.NoError(t, err)
	for _, says := range []string{"at 15.1° of front.hand", "Run rear of Chain", "front.hcl", "rear.hcl " + calls.HashOf(fileText(t, folder, "rear.hcl"))[:12], "HOLDS: all 10 requirements"} {
		assert.Contains(t, string(rear), says)
	}
	assert.NotContains(t, string(rear), folder)
	for _, more := range [][]string{{"--charts"}, {"--held", "front.hand=3"}, {"--control", "front.hand"}, {"--view", "xy", "--paper", "none"}} {
		assert.Equal(t, exitOK, fullfree("", append([]string{"draw", file, "-o", sheets}, more...)...).status, more)
		pdf := filepath.Join(folder, "sheets.pdf")
		assert.Equal(t, outcome{}, fullfree("", append([]string{"draw", file, "-o", pdf}, more...)...), more)
		require.NoError(t, os.Remove(pdf))
	}
	pdf := filepath.Join(folder, "crank.pdf")
	got = fullfree("", "draw", file, "-o", pdf, "--full-size", "--only", "rear.surface")
	assert.Equal(t, exitOK, got.status, got.err)
	assert.Contains(t, pdfText(t, pdf), "rear.surface alone")
}

// pdfText is what a PDF says.
func pdfText(t *testing.T, path string) (text string) {
	t.Helper()
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	f, err := pdfscan.Read(data)
	require.NoError(t, err)
	for _, page := range f.Pages {
		text += page.Text() + "\n"
	}
	return text
}

func fileText(t *testing.T, folder, name string) []byte {
	t.Helper()
	text, err := os.ReadFile(filepath.Join(folder, name))
	require.NoError(t, err)
	return text
}

// Where the sheets of an aircraft can't go, it says where they can, and nothing is written.
func TestDrawAircraftNowhere(t *testing.T) {
	folder, file := aircraftIn(t, splitInTwo)
	before := names(t, folder)
	for _, bad := range []struct {
		args []string
		says string
	}{
		{[]string{"-o", "x.svg"}, "-o x.svg: 2 runs are a sheet each: name a folder for their pictures (-o x), or one PDF (-o x.pdf)"},
		{[]string{"-o", "x.png"}, "2 runs are a sheet each"},
		{[]string{"-o", "-"}, "standard output takes one picture, and 2 runs are a sheet each: name a folder for their pictures (-o sheets), or one PDF (-o sheets.pdf)"},
		{[]string{"-o", file}, "is the file of the run itself, and would be lost"},
		{[]string{"-o", filepath.Join(folder, "front.hcl")}, "is the name of a run, which would be lost"},
		{[]string{"-o", filepath.Join(folder, "none", "deep")}, "can't make the folder"},
		{[]string{"-o", "x.pdf", "--full-size"}, "--full-size is of one run: name its file (fullfree draw " + filepath.Join(folder, "front.hcl")},
		{[]string{"-o", "x.pdf", "--full-size", "--only", "surface"}, "there is no part or rod \"surface\""},
		{[]string{"-o", "x.pdf", "--control", "hand"}, `there is no control "hand"; did you mean "front.hand"?`},
		{[]string{"-o", "x.pdf", "--control", "rear.crank"}, "rear.crank is no control in the aircraft: front.deck-crank drives it; there is front.hand"},
		{[]string{"-o", "x.pdf", "--control", "front.hand", "--held", "front.hand=1"}, "front.hand is the control that moves"},
	} {
		got := fullfree("", append([]string{"draw", file}, bad.args...)...)
		assert.Equal(t, exitFailed, got.status, bad.args)
		assert.Contains(t, got.err, bad.says)
		assert.Equal(t, before, names(t, folder), bad.args)
	}
	// One that can't be written over: the other stays away too.
	sheets := filepath.Join(folder, "sheets")
	require.NoError(t, os.MkdirAll(filepath.Join(sheets, "rear.svg"), 0o755))
	got := fullfree("", "draw", file, "-o", sheets)
	assert.Equal(t, exitFailed, got.status)
	assert.Contains(t, got.err, "nothing is written")
	assert.Equal(t, []string{"rear.svg"}, names(t, sheets))
}

// The book of an aircraft is one, of all its files; it is named alone.
func TestReportAircraft(t *testing.T) {
	folder, file := aircraftIn(t, splitInTwo)
	book := filepath.Join(folder, "book.html")
	assert.Equal(t, outcome{}, fullfree("", "report", file, "-o", book))
	text := string(fileText(t, folder, "book.html"))
	all := append(append(fileText(t, folder, "aircraft.hcl"), fileText(t, folder, "front.hcl")...), fileText(t, folder, "rear.hcl")...)
	for _, says := range []string{calls.HashOf(fileText(t, folder, "front.hcl"))[:12], calls.HashOf(fileText(t, folder, "rear.hcl")), calls.HashOf(all), "Rigging sheet: Chain", "front.deck-crank is rear.deck-crank"} {
		assert.Contains(t, text, says)
	}
	assert.NotContains(t, text, folder)
	pdf := filepath.Join(folder, "book.pdf")
	assert.Equal(t, outcome{}, fullfree("", "report", file, "-o", pdf, "--set", "front.floor-rod.length=244"))
	said := pdfText(t, pdf)
	assert.Contains(t, said, "Changed for this: front.floor-rod.length = 244")
	assert.Contains(t, said, "Rigging sheet of the aircraft whose files together have the SHA-256 that begins "+calls.HashOf(all)[:12])

	before := names(t, folder)
	for _, bad := range []struct {
		args []string
		says string
	}{
		{[]string{file, filepath.Join(folder, "front.hcl"), "-o", "x.html"}, "is an aircraft, which has a book of its own: name it alone"},
		{[]string{file, "-o", "x.svg"}, "the book is HTML or PDF"},
		{[]string{file, "-o", folder}, "it is a folder"},
		{[]string{file, "-o", filepath.Join(folder, "rear.hcl")}, "the book is HTML or PDF"},
		{[]string{file, "-o", "x.html", "--set", "floor-rod.length=244"}, "floor-rod"},
	} {
		got := fullfree("", append([]string{"report"}, bad.args...)...)
		assert.Equal(t, exitFailed, got.status, bad.args)
		assert.Contains(t, got.err, bad.says)
		assert.Equal(t, before, names(t, folder))
	}
}
