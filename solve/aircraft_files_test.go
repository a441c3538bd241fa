package solve_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/solve"
)

// Each run of the aircraft in testdata is a run by itself, and so is the same metal
// written in one: they hold, so that what an aircraft of them falls short in comes of
// the joining.
func TestTheRunsOfEachAircraftHoldAlone(t *testing.T) {
	runs := 0
	err := filepath.WalkDir("../testdata/aircraft", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || filepath.Ext(path) != ".hcl" {
			return err
		}
		text, err := os.ReadFile(path)
		require.NoError(t, err)
		if strings.Contains(string(text), "\naircraft \"") || strings.Contains(path, "/faulty/") {
			return nil
		}
		runs++
		assert.Equal(t, solve.Holds, check(t, string(text)).Verdict, path)
		return nil
	})
	require.NoError(t, err)
	assert.Greater(t, runs, 30)
}
