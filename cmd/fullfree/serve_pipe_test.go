//go:build unix

package main

import (
	"net/http"
	"os"
	"syscall"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A pipe in the file's place holds nobody up: it isn't opened.
func TestPipeInPlaceOfTheFile(t *testing.T) {
	s := serveWorkbench(t, threaded)
	require.NoError(t, os.Remove(s.path))
	require.NoError(t, syscall.Mkfifo(s.path, 0o600))
	assert.Contains(t, s.ask("/file", "", nil).body, "it is a pipe")
	assert.NotEmpty(t, s.try(`{}`).Series, "the rest is as it last read well")
	got := s.save(`{"turns":{"link.from":1}}`)
	assert.Equal(t, http.StatusConflict, got.status)
}
