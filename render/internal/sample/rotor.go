package sample

import (
	"testing"

	"fullfree/linkage"
	"fullfree/solve"

	"github.com/stretchr/testify/require"
)

// Rotor is the demo's rotor head, checked, with what its controls do to the blades.
func Rotor(t testing.TB) *solve.Result {
	t.Helper()
	run, err := linkage.Read(&linkage.Source{Name: "rotor.hcl", Text: []byte(DemoText(t, "rotor"))})
	require.NoError(t, err)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	result, err := m.Check()
	require.NoError(t, err)
	require.NoError(t, m.AddRotor(result))
	return result
}
