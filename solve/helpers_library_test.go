package solve_test

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/solve"
)

// What follows hands on what it must give, where it must.

func tableOf(t testing.TB, s *solve.Sweep, steps int) ([]solve.Column, [][]float64) {
	t.Helper()
	columns, rows, err := s.Table(steps)
	require.NoError(t, err)
	return columns, rows
}

func turnEffects(t testing.TB, m *solve.Mechanism, r *solve.Result) []solve.Effect {
	t.Helper()
	effects, err := m.Effects(r)
	require.NoError(t, err)
	return effects
}

func cableEffectsOf(t testing.TB, m *solve.Mechanism, r *solve.Result) []solve.CableEffect {
	t.Helper()
	effects, err := m.CableEffects(r)
	require.NoError(t, err)
	return effects
}
