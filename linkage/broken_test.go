package linkage

import (
	"flag"
	"fmt"
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
	holdBroken(t, "../testdata/broken", func(src *Source) error {
		_, err := Read(src)
		return err
	})
}

// TestBrokenAircraft does so for aircraft, whose runs lie beside them.
func TestBrokenAircraft(t *testing.T) {
	const folder = "../testdata/aircraft/broken"
	holdBroken(t, folder, func(src *Source) error {
		_, err := ReadWith(src, func(name string) (*Source, error) {
			text, err := os.ReadFile(filepath.Join(folder, name))
			if err != nil {
				return nil, fmt.Errorf("can't read %s: there is no such file", name)
			}
			return &Source{Name: name, Text: text}, nil
		})
		return err
	})
}

// holdBroken holds every file of a folder against the message expected beside it.
func holdBroken(t *testing.T, folder string, read func(src *Source) error) {
	files, err := filepath.Glob(folder + "/*.hcl")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".hcl")
		t.Run(name, func(t *testing.T) {
			text, err := os.ReadFile(file)
			require.NoError(t, err)
			err = read(&Source{Name: name + ".hcl", Text: text})
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
