package linkage

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The demos are drawn as they were meant and in their own unit.
func TestDemosAreNotOdd(t *testing.T) {
	files, err := filepath.Glob("../demo/*.hcl")
	require.NoError(t, err)
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		run, err := Read(&Source{Name: file, Text: text})
		if err != nil {
			continue // one with blanks
		}
		size, arm, _, odd := run.OddSize()
		assert.Zero(t, odd, "%s: %g mm, shortest arm %g mm", file, size, arm)
		for _, o := range run.OddRods() {
			t.Errorf("%s: %s is odd: %d %g %g", file, o.Rod.Name, o.Why, o.Times, o.Tilt)
		}
	}
}
