package find

import (
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
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

// BenchmarkAlone looks through the dimensions of the pedals for one that will do.
func BenchmarkAlone(b *testing.B) {
	run, err := linkage.Read(&linkage.Source{Name: "pedals.hcl", Text: []byte(demo(b, "pedals"))}, linkage.Setting{Dimension: "rocker.tail.x", Value: "290"})
	require.NoError(b, err)
	m, err := solve.Compile(run)
	require.NoError(b, err)
	for b.Loop() {
		list, err := Alone(m, nil)
		require.NoError(b, err)
		require.NotEmpty(b, list)
	}
}
