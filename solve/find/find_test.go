package find

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// mechanism compiles a run in which more varies than it says.
func mechanism(t testing.TB, text string, vary ...string) *solve.Mechanism {
	t.Helper()
	run, err := linkage.ReadVarying(&linkage.Source{Name: "find.hcl", Text: []byte(text)}, nil, vary)
	require.NoError(t, err)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	return m
}

func demo(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile("../../demo/" + name + ".hcl")
	require.NoError(t, err)
	return string(text)
}
