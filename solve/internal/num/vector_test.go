package num

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
)

// What is new to a basis is square to it to rounding, even where next to nothing is new.
func TestRemainderIsSquareToItsBasis(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 6))
	row := func() []float64 {
		list := make([]float64, 6)
		for i := range list {
			list[i] = random.NormFloat64()
		}
		return list
	}
	for range 100 {
		var basis [][]float64
		mixed := make([]float64, 6)
		for range 3 {
			rest, gain := Remainder(row(), basis)
			require.Positive(t, gain)
			basis = append(basis, rest)
			AddScaled(mixed, rest, random.NormFloat64())
		}
		AddScaled(mixed, row(), 1e-9)
		rest, gain := Remainder(mixed, basis)
		require.Less(t, gain, 1e-8)
		require.InDelta(t, 1, Norm(rest), 1e-14)
		for _, b := range basis {
			require.InDelta(t, 0, Dot(rest, b), 1e-15)
		}
	}
	rest, gain := Remainder([]float64{3, 0}, [][]float64{{1, 0}})
	require.Zero(t, gain)
	require.Equal(t, []float64{0, 0}, rest)
}

// Of rows in one line, however short, there is one, and all else is square to it.
func TestNullSpace(t *testing.T) {
	for _, scale := range []float64{1, 1e-6} {
		for _, rows := range [][][]float64{{{1, 2, 2}}, {{1, 2, 2}, {-2, -4, -4}}, {{1, 2, 2}, {1, 2, 2}, {0, 0, 0}, {3, 6, 6}}} {
			for i := range rows {
				for j := range rows[i] {
					rows[i][j] *= scale
				}
			}
			rank, null := NullSpace(rows, 3, 1e-4)
			require.Equal(t, 1, rank)
			require.Len(t, null, 2)
			for _, v := range null {
				require.InDelta(t, 0, v[0]+2*v[1]+2*v[2], 1e-14)
				require.InDelta(t, 1, Norm(v), 1e-14)
			}
			require.InDelta(t, 0, Dot(null[0], null[1]), 1e-14)
		}
	}
	rank, null := NullSpace(nil, 2, 1e-4)
	require.Zero(t, rank)
	require.Len(t, null, 2)
	rank, null = NullSpace([][]float64{{3, 0}, {0, 1}}, 2, 1e-4)
	require.Equal(t, 2, rank)
	require.Empty(t, null)
}
