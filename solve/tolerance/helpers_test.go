package tolerance_test

import (
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// halfWidths is a tolerance block for a run without one.
const halfWidths = `
tolerance {
  points = 0.1
  pivots = 0.2
  rods   = 0.1
  stops  = 0.5
}
`

func demo(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile("../../demo/" + name + ".hcl")
	require.NoError(t, err)
	return string(text)
}

func compiled(t testing.TB, text string, set ...linkage.Setting) *solve.Mechanism {
	t.Helper()
	run, err := linkage.Read(&linkage.Source{Name: "test.hcl", Text: []byte(text)}, set...)
	require.NoError(t, err)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	return m
}

// exactly writes a number so that reading it gives the same.
func exactly(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
