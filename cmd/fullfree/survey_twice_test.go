package main

import (
	"os"
	"path/filepath"
	"testing"

	"fullfree/demo"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Written a second time, an adjusted drawing is left byte for byte, and that is
// told; with another measurement that says something new it isn't.
func TestSurveyWrittenTwice(t *testing.T) {
	inches, err := os.ReadFile("../../testdata/answers/survey-in-inches.hcl")
	require.NoError(t, err)
	for name, text := range map[string]string{"taped": demoText(t, demo.Taped), "inches": string(inches)} {
		t.Run(name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "a.hcl")
			require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
			write := func() (string, string) {
				got := fullfree("", "survey", path, "--write")
				require.Equal(t, exitOK, got.status, got.err)
				now, err := os.ReadFile(path)
				require.NoError(t, err)
				return string(now), got.err
			}
			once, said := write()
			assert.NotEqual(t, text, once)
			assert.Contains(t, said, "wrote 10 adjusted coordinates")
			twice, said := write()
			assert.Equal(t, once, twice)
			assert.Contains(t, said, "nothing to write: "+path+" is adjusted already, each place to within its ±")
			if name == "taped" {
				require.NoError(t, os.WriteFile(path, []byte(once+"taped \"again\" {\n  from = left-pedal.horn\n  to = rocker.lower\n  is = 299\n  within = 0.1\n}\n"), 0o644))
				thrice, said := write()
				assert.NotEqual(t, once, thrice)
				assert.Contains(t, said, "wrote 10 adjusted coordinates")
			}
		})
	}
}
