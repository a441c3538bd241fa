package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// assertLink says that a path is still a link, and that it leads to a file of
// that text.
func assertLink(t *testing.T, link, file, text string) {
	t.Helper()
	info, err := os.Lstat(link)
	require.NoError(t, err)
	assert.NotZero(t, info.Mode()&os.ModeSymlink, "%s is still a link", link)
	got, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, text, string(got))
}

// A link to a file that isn't there yet is filled at its far end.
func TestWriteWholeFillsADanglingLink(t *testing.T) {
	folder := t.TempDir()
	in := func(parts ...string) string { return filepath.Join(append([]string{folder}, parts...)...) }
	require.NoError(t, os.MkdirAll(in("deep", "deeper"), 0o755))
	require.NoError(t, os.Symlink("fresh.svg", in("near.svg")))
	require.NoError(t, os.Symlink(in("deep", "whole.svg"), in("far.svg")))
	require.NoError(t, os.Symlink("twice.svg", in("second.svg")))
	require.NoError(t, os.Symlink("second.svg", in("first.svg")))
	// ".." is the folder above where a link to a folder leads, not above the link.
	require.NoError(t, os.Symlink(filepath.Join("deep", "deeper"), in("down")))
	require.NoError(t, os.Symlink("../up.svg", in("deep", "deeper", "up.svg")))
	for link, file := range map[string]string{
		in("near.svg"):       in("fresh.svg"),
		in("far.svg"):        in("deep", "whole.svg"),
		in("first.svg"):      in("twice.svg"),
		in("down", "up.svg"): in("deep", "up.svg"),
	} {
		_, err := writeWhole(link, []byte("new"))
		require.NoError(t, err, link)
		assertLink(t, link, file, "new")
	}
	assertLink(t, in("second.svg"), in("twice.svg"), "new")
	assert.Equal(t, []string{"deep", "down", "far.svg", "first.svg", "fresh.svg", "near.svg", "second.svg", "twice.svg"}, names(t, folder))
}

// A link into a folder that isn't there, or round in a circle, stays as it is.
func TestWriteWholeRefusesALinkToNowhere(t *testing.T) {
	folder, file := folderWith(t, bars)
	nowhere, circle := filepath.Join(folder, "nowhere.svg"), filepath.Join(folder, "circle.svg")
	require.NoError(t, os.Symlink(filepath.Join("missing", "a.svg"), nowhere))
	require.NoError(t, os.Symlink("circle.svg", circle))
	got := fullfree("", "draw", file, "-o", nowhere)
	assert.Equal(t, outcome{exitFailed, "", "fullfree draw: can't write " + nowhere + ": there is no such folder\n"}, got)
	got = fullfree("", "draw", file, "-o", circle)
	assert.Equal(t, exitFailed, got.status)
	assert.Contains(t, got.err, "links")
	assert.Equal(t, []string{"bars.hcl", "circle.svg", "nowhere.svg"}, names(t, folder))
}
