package page

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/solve"
)

// effectsOf returns what a turn of every rod end does.
func effectsOf(t testing.TB, m *solve.Mechanism, r *solve.Result) []solve.Effect {
	t.Helper()
	effects, err := m.Effects(r)
	require.NoError(t, err)
	return effects
}
