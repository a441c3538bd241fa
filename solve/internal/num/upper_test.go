package num

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

// TestDenseAgainstGonum holds the loops of the survey against gonum's factors of
// random matrices.
func TestDenseAgainstGonum(t *testing.T) {
	random := rand.New(rand.NewPCG(11, 12))
	for try := range 60 {
		n := 1 + random.IntN(12)
		m := n + random.IntN(10)
		rows, off := mat.NewDense(m, n, nil), make([]float64, m)
		for i := range m {
			for j := range n {
				if try%2 == 0 || random.IntN(3) == 0 || i == j { // sparse, as of distances
					rows.Set(i, j, random.NormFloat64())
				}
			}
			off[i] = random.NormFloat64()
		}
		if mat.Cond(rows, 2) > 1e4 {
			continue // gonum knows no better
		}
		r, right := Reduce(rows, off)
		require.True(t, r.Sound())
		var qr mat.QR
		qr.Factorize(rows)
		var want mat.VecDense
		require.NoError(t, qr.SolveVecTo(&want, false, mat.NewVecDense(m, off)))
		require.InDeltaSlice(t, want.RawVector().Data, r.Solve(right), 1e-9)

		square, down := NormalEquations(rows, off)
		var wantSquare, wantInverse mat.Dense
		wantSquare.Mul(rows.T(), rows)
		require.True(t, mat.EqualApprox(&wantSquare, square, 1e-12))
		var wantDown mat.VecDense
		wantDown.MulVec(rows.T(), mat.NewVecDense(m, off))
		require.InDeltaSlice(t, wantDown.RawVector().Data, down, 1e-12)
		require.NoError(t, wantInverse.Inverse(&wantSquare))
		inverse := r.InverseOfSquare()
		require.True(t, mat.EqualApprox(&wantInverse, inverse, 1e-6*mat.Max(&wantInverse)))
		g := off[:n]
		require.InEpsilon(t, mat.Inner(mat.NewVecDense(n, g), inverse, mat.NewVecDense(n, g)), Quadratic(inverse, g), 1e-9)
		require.True(t, Definite(square))

		shift := 3 * random.Float64()
		for i := range n {
			square.SetSym(i, i, square.At(i, i)-shift)
		}
		var symmetric mat.EigenSym
		require.True(t, symmetric.Factorize(square, true))
		values, vectors := Eigen(square)
		require.InDeltaSlice(t, symmetric.Values(nil), values, 1e-9)
		require.Equal(t, values[0] > 0, Definite(square))
		for i, v := range vectors {
			var by mat.VecDense
			by.MulVec(square, mat.NewVecDense(n, v))
			for k := range n {
				require.InDelta(t, values[i]*v[k], by.AtVec(k), 1e-9)
			}
			require.InDelta(t, 1, mat.Norm(mat.NewVecDense(n, v), 2), 1e-12)
		}
	}
}

func TestUpperUnsound(t *testing.T) {
	r, _ := Reduce(mat.NewDense(3, 2, []float64{1, 2, 2, 4, 3, 6}), []float64{1, 2, 3})
	require.False(t, r.Sound())
	r, _ = Reduce(mat.NewDense(2, 2, []float64{1, 0, 0, 1e-17}), []float64{1, 2})
	require.False(t, r.Sound(), "a pivot of rounding")
	r, _ = Reduce(mat.NewDense(2, 2, nil), []float64{1, 2})
	require.False(t, r.Sound())
	r, _ = Reduce(mat.NewDense(1, 1, []float64{math.NaN()}), []float64{1})
	require.False(t, r.Sound())
}
