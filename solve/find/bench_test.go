package find

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// BenchmarkHoles searches ten thousand combinations of the pedals' holes; less than two
// seconds are wanted.
func BenchmarkHoles(b *testing.B) {
	m := mechanism(b, demo(b, "pedals"), "rocker.upper.x=280..298:2", "rocker.lower.x=280..298:2", "left-pedal.horn.y=-64..-55:1", "right-pedal.horn.y=-64..-55:1")
	for b.Loop() {
		a, err := Search(m, Options{})
		require.NoError(b, err)
		require.True(b, a.Searched.Complete)
		require.Equal(b, 10_000.0, a.Searched.Combinations)
	}
}

// BenchmarkRanges seeks three ranges of the pedals; less than one second is wanted.
func BenchmarkRanges(b *testing.B) {
	m := mechanism(b, demo(b, "pedals"), "rocker.upper.x=280..300", "rocker.lower.x=280..300", "left-link.length=290..300")
	for b.Loop() {
		a, err := Search(m, Options{})
		require.NoError(b, err)
		require.True(b, a.Found)
	}
}
