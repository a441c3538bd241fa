package rig_test

import (
	"os"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/solve"
	"fullfree/solve/rig"
)

// BenchmarkTogether is what several processors work on together: compare -cpu 1,2.
func BenchmarkTogether(b *testing.B) {
	text, err := os.ReadFile("../../demo/pedals-unequal.hcl")
	require.NoError(b, err)
	m, err := solve.Compile(read(b, string(text)))
	require.NoError(b, err)
	b.Run("rig", func(b *testing.B) {
		for b.Loop() {
			if _, err := rig.Search(m, nil); err != nil {
				b.Fatal(err)
			}
		}
	})
}
