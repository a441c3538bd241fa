//go:build unix

package main

import (
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// opening runs the command with --open, and returns the address that it prints, the
// file that the browser is given, and what ends it. In the browser's place stands a
// script that notes what it was started with.
func opening(t *testing.T) (address, file string, end func() int) {
	t.Helper()
	folder := t.TempDir()
	note := filepath.Join(folder, "note")
	script := "#!/bin/sh\necho \"$*\" > " + note + ".new && mv " + note + ".new " + note + "\n"
	require.NoError(t, os.WriteFile(filepath.Join(folder, "xdg-open"), []byte(script), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(folder, "open"), []byte(script), 0o755))
	t.Setenv("PATH", folder+":"+os.Getenv("PATH"))
	t.Setenv("TMPDIR", t.TempDir())
	out, said, end := serving(t, "pedals.hcl", "--open")
	var started []byte
	require.Eventually(t, func() bool {
		var err error
		started, err = os.ReadFile(note)
		return err == nil
	}, 10*time.Second, 5*time.Millisecond, said.String())
	return strings.TrimSpace(out.String()), strings.TrimSpace(string(started)), end
}

// What the browser is started with, which everybody on the machine can read, tells
// nothing: it is a file that nobody else can read, and that is gone once the page is
// open.
func TestOpeningTellsNobodyElse(t *testing.T) {
	workFolder(t)
	address, file, end := opening(t)
	at, token, ok := strings.Cut(address, "#")
	require.True(t, ok)
	assert.NotContains(t, file, token)
	assert.NotContains(t, file, "http")
	info, err := os.Stat(file)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o600), info.Mode())
	info, err = os.Stat(filepath.Dir(file))
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o700), info.Mode().Perm())
	text, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Contains(t, string(text), address)

	ask := func(token string) {
		r, err := http.NewRequest(http.MethodGet, at+"workbench", nil)
		require.NoError(t, err)
		r.Header.Set(tokenHeader, token)
		answer, err := http.DefaultClient.Do(r)
		require.NoError(t, err)
		answer.Body.Close()
	}
	ask("wrong")
	assert.FileExists(t, file, "nobody has come in yet")
	ask(token)
	assert.NoDirExists(t, filepath.Dir(file))
	assert.Equal(t, exitOK, end())

	_, file, end = opening(t)
	assert.FileExists(t, file)
	assert.Equal(t, exitOK, end())
	assert.NoDirExists(t, filepath.Dir(file), "nor is it left over where the page was never opened")
}
