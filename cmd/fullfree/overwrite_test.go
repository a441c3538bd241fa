package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// No command that writes a picture or a page writes over a run, this one or
// another, there already or not, whatever the case of its ending, and through a
// link neither.
func TestNothingIsWrittenOverARun(t *testing.T) {
	folder, file := folderWith(t, threaded)
	other := filepath.Join(folder, "other.HCL")
	require.NoError(t, os.WriteFile(other, []byte(bars), 0o644))
	link := filepath.Join(folder, "link.svg")
	require.NoError(t, os.Symlink("other.HCL", link))
	paged := filepath.Join(folder, "paged-1.svg")
	require.NoError(t, os.Symlink("other.HCL", paged))
	twice := filepath.Join(folder, "twice.html")
	require.NoError(t, os.Symlink("link.svg", twice))
	nowhere := filepath.Join(folder, "nowhere.svg")
	require.NoError(t, os.Symlink("fresh.hcl", nowhere))
	before := names(t, folder)
	for _, args := range [][]string{
		{"draw", file, "-o"}, {"draw", file, "--charts", "-o"}, {"draw", file, "--full-size", "-o"},
		{"draw", file, "--full-size", "--paper", "none", "-o"}, {"compare", file, "--with", "link.from=1", "--draw"}, {"report", file, "-o"},
	} {
		for _, out := range []string{file, other, filepath.Join(folder, "fresh.hcl"), filepath.Join(folder, "fresh.Hcl"), link, twice, nowhere} {
			got := fullfree("", append(args, out)...)
			assert.Equal(t, exitFailed, got.status, "%v %s", args, out)
			assert.Empty(t, got.out)
			assert.NotEmpty(t, got.err)
		}
	}
	got := fullfree("", "draw", file, "--full-size", "-o", filepath.Join(folder, "paged.svg"))
	assert.Equal(t, exitFailed, got.status)
	assert.Contains(t, got.err, "paged-1.svg is the name of a run, which would be lost")
	got = fullfree("", "draw", file, "-o", other)
	assert.Equal(t, "fullfree draw: -o "+other+" is the name of a run, which would be lost\n", got.err)
	assert.Equal(t, before, names(t, folder))
	for path, want := range map[string]string{file: threaded, other: bars} {
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		assert.Equal(t, want, string(text))
	}
	// A folder whose name ends so is no run.
	inside := filepath.Join(folder, "runs.hcl", "a.svg")
	require.NoError(t, os.Mkdir(filepath.Dir(inside), 0o755))
	assert.Equal(t, exitOK, fullfree("", "draw", file, "-o", inside).status)
}
