package main

import (
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

func TestReportWritesABook(t *testing.T) {
	folder, file := folderWith(t, barsFallShort)
	book := filepath.Join(folder, "bars.html")
	got := fullfree("", "report", file, "-o", book)
	assert.Equal(t, outcome{}, got, "quiet, and 0 whatever the verdict")
	text, err := os.ReadFile(book)
	require.NoError(t, err)
	assert.True(t, strings.HasPrefix(string(text), "<!DOCTYPE html>"))
	assert.True(t, strings.HasSuffix(string(text), "</html>\n"))
	assert.Contains(t, string(text), "FALLS SHORT")
	assert.Contains(t, string(text), fmt.Sprintf("%x", sha256.Sum256([]byte(barsFallShort))))
	assert.Contains(t, string(text), "fullfree "+version)
	assert.Equal(t, []string{"bars.hcl", "bars.html"}, names(t, folder), "nothing temporary is left")

	assert.Equal(t, outcome{exitOK, string(text), ""}, fullfree("", "report", file, "-o", "-"), "the same bytes")
	assert.Contains(t, fullfree(barsHold, "report", "-", "-o", "-").out, "HOLDS")
}

// A book names files without their folders, and is a PDF where its name says so.
func TestReportPDF(t *testing.T) {
	folder, file := folderWith(t, barsFallShort)
	book := filepath.Join(folder, "bars.pdf")
	assert.Equal(t, outcome{}, fullfree("", "report", file, "-o", book, "--paper", "letter"))
	data, err := os.ReadFile(book)
	require.NoError(t, err)
	f, err := pdfscan.Read(data)
	require.NoError(t, err)
	assert.LessOrEqual(t, len(f.Pages), 8)
	text := ""
	for _, page := range f.Pages {
		assert.Equal(t, []float64{612, 792}, []float64{page.Wide, page.High})
		text += page.Text() + "\n"
	}
	for _, says := range []string{"FALLS SHORT", "File: bars.hcl.", fmt.Sprintf("%x", sha256.Sum256([]byte(barsFallShort)))} {
		assert.Contains(t, text, says)
	}
	assert.NotContains(t, text, folder)
	assert.NotContains(t, fullfree("", "report", file, "-o", "-").out, folder)
}

// What --set changed is told, with the hash of the file as it is.
func TestReportTellsWhatWasSet(t *testing.T) {
	_, file := folderWith(t, barsHold)
	got := fullfree("", "report", file, "-o", "-", "--set", "high.at=30")
	assert.Equal(t, exitOK, got.status)
	assert.Contains(t, got.out, "high.at = 30")
	assert.Contains(t, got.out, fmt.Sprintf("%x", sha256.Sum256([]byte(barsHold))))
}

// One file that can't be read or judged, and there is no book; all that is wrong
// with any is told.
func TestReportTellsTheFaultsOfAllFiles(t *testing.T) {
	folder, file := folderWith(t, barsHold)
	faulty, worse := filepath.Join(folder, "faulty.hcl"), filepath.Join(folder, "worse.hcl")
	require.NoError(t, os.WriteFile(faulty, []byte(strings.Replace(barsHold, "pivot", "pivo", 1)), 0o644))
	require.NoError(t, os.WriteFile(worse, []byte("nonsense"), 0o644))
	book := filepath.Join(folder, "book.html")
	got := fullfree("", "report", file, faulty, filepath.Join(folder, "absent.hcl"), worse, "-o", book)
	assert.Equal(t, exitFailed, got.status)
	assert.Empty(t, got.out)
	assert.Contains(t, got.err, faulty+":")
	assert.Contains(t, got.err, "absent.hcl: there is no such file")
	assert.Contains(t, got.err, worse+":")
	assert.NoFileExists(t, book)
}

func TestReportRefuses(t *testing.T) {
	folder, file := folderWith(t, barsHold)
	for _, c := range []struct {
		args []string
		want string
	}{
		{[]string{file}, "tell where to write the book: -o BOOK.html"},
		{[]string{"-o", "book.html"}, "a file is missing"},
		{[]string{file, "-o", file}, "the book is HTML or PDF: name it " + strings.TrimSuffix(file, ".hcl") + ".html or "},
		{[]string{file, "-o", filepath.Join(folder, "bars.png")}, "name it " + filepath.Join(folder, "bars.html")},
		{[]string{file, "-o", "book.pdf", "--paper", "none"}, "--paper none: there is a4, letter, a3, tabloid"},
		{[]string{file, "-o", "book.html", "--paper", "a4"}, "--paper is for a PDF"},
		{[]string{file, "-o", filepath.Join(folder, "bars.svg")}, "the book is HTML"},
		{[]string{file, file, "-o", "book.html", "--set", "high.at=30"}, "--set goes with one file, not 2"},
		{[]string{file, "-o", "book.html", "--set", "nothing"}, "is no DIMENSION=VALUE"},
		{[]string{"-", "-", "-o", "book.html"}, "can be read only once"},
		{[]string{file, "-o", filepath.Join(folder, "nowhere", "book.html")}, "there is no such folder"},
		{[]string{file, "-o", folder}, "it is a folder"},
	} {
		got := fullfree(barsHold, append([]string{"report"}, c.args...)...)
		assert.Equal(t, exitFailed, got.status, c.args)
		assert.Contains(t, got.err, c.want)
		assert.True(t, strings.HasPrefix(got.err, "fullfree report: "), got.err)
		assert.Empty(t, got.out)
	}
	// A file of another name may be a run too.
	plain := filepath.Join(folder, "bars")
	require.NoError(t, os.WriteFile(plain, []byte(barsHold), 0o644))
	got := fullfree("", "report", file, plain, "-o", plain)
	assert.Equal(t, exitFailed, got.status)
	assert.Contains(t, got.err, "is the file of the run itself, and would be lost")
	kept, err := os.ReadFile(plain)
	require.NoError(t, err)
	assert.Equal(t, barsHold, string(kept))
	assert.Equal(t, []string{"bars", "bars.hcl"}, names(t, folder))
}
