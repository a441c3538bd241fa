package linkage

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the expected messages of testdata/broken anew; read them before keeping them")

// TestBroken holds every file of testdata/broken against the message expected
// beside it, to the letter.
func TestBroken(t *testing.T) {
	files, err := filepath.Glob("../testdata/broken/*.hcl")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".hcl")
		t.Run(name, func(t *testing.T) {
			text, err := os.ReadFile(file)
			require.NoError(t, err)
			_, err = Read(&Source{Name: name + ".hcl", Text: text})
			require.Error(t, err, "a broken file reads")
			expected := strings.TrimSuffix(file, ".hcl") + ".txt"
			if *update {
				require.NoError(t, os.WriteFile(expected, []byte(err.Error()+"\n"), 0o644))
			}
			want, readErr := os.ReadFile(expected)
			require.NoError(t, readErr)
			assert.Equal(t, string(want), err.Error()+"\n")
		})
	}
}
