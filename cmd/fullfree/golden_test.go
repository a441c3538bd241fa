package main

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"fullfree/demo"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "write the golden reports anew")

// The reports of the demos, as a builder reads them.
func TestGoldenReports(t *testing.T) {
	for _, kind := range append(demo.Kinds(), demo.WrongHole) {
		t.Run(kind, func(t *testing.T) {
			text, ok := demo.File(kind)
			require.True(t, ok)
			got := fullfree(string(text), "check", "-")
			assert.Empty(t, got.err)
			want := exitOK
			if kind == demo.WrongHole {
				want = exitShort
			}
			assert.Equal(t, want, got.status)
			path := filepath.Join("..", "..", "testdata", "golden", kind+".txt")
			if *update {
				require.NoError(t, os.WriteFile(path, []byte(got.out), 0o644))
			}
			golden, err := os.ReadFile(path)
			require.NoError(t, err, "go test ./cmd/fullfree -update writes it")
			assert.Equal(t, string(golden), got.out)
		})
	}
}
