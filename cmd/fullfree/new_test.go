package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fullfree/demo"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestNew(t *testing.T) {
	for _, kind := range demo.Kinds() {
		text, _ := demo.File(kind)
		assert.Equal(t, outcome{exitOK, string(text), ""}, fullfree("", "new", kind))
		checked := fullfreeOnce(string(text), "check", "-")
		assert.Equal(t, exitOK, checked.status, checked.out+checked.err)
	}
	told := fullfree("", "new")
	assert.Equal(t, outcome{status: exitOK}, outcome{status: told.status, err: told.err})
	lines := strings.Split(strings.TrimSuffix(told.out, "\n"), "\n")
	for i, kind := range demo.Kinds() {
		assert.Regexp(t, "^"+kind+" +"+demo.About(kind)+"$", lines[i])
		assert.LessOrEqual(t, len(lines[i]), 80, "a line of a terminal")
	}
	require.Len(t, lines, len(demo.Kinds())+1)
	assert.Regexp(t, "^aircraft ", lines[len(lines)-1])
}

// The demo aircraft is several files, written into a folder of their own.
func TestNewAircraft(t *testing.T) {
	folder := filepath.Join(t.TempDir(), "mine")
	assert.Equal(t, outcome{status: exitOK}, fullfree("", "new", "aircraft", "-o", folder))
	files, err := demo.AircraftFiles()
	require.NoError(t, err)
	require.Greater(t, len(files), 2)
	for _, f := range files {
		written, err := os.ReadFile(filepath.Join(folder, f.Name))
		require.NoError(t, err)
		assert.Equal(t, string(f.Text), string(written), f.Name)
	}
	for _, refused := range [][]string{{"new", "aircraft"}, {"new", "aircraft", "-o", folder}, {"new", "aircraft", "--blank", "-o", folder + "2"}} {
		again := fullfree("", refused...)
		assert.Equal(t, exitFailed, again.status, refused)
		assert.NotEmpty(t, again.err, refused)
	}
}
