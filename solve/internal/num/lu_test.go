package num

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"
)

// TestLUAgreesWithGonum solves random systems, plain and transposed, beside
// gonum's mat.LU.
func TestLUAgreesWithGonum(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	var f LU
	for n := 1; n <= 12; n++ {
		for range 20 {
			a := mat.NewDense(n, n, nil)
			b := mat.NewVecDense(n, nil)
			f.Reset(n)
			for i := range n {
				b.SetVec(i, r.NormFloat64())
				for j := range n {
					v := r.NormFloat64()
					a.Set(i, j, v)
					f.Set(i, j, v)
				}
			}
			require.True(t, f.Factor())
			var theirs mat.LU
			theirs.Factorize(a)
			tol := 1e-14 * theirs.Cond() * float64(n)
			x := make([]float64, n)
			want := mat.NewVecDense(n, nil)
			for _, transposed := range []bool{false, true} {
				require.NoError(t, theirs.SolveVecTo(want, transposed, b))
				if transposed {
					f.SolveTransposed(x, b.RawVector().Data)
				} else {
					f.Solve(x, b.RawVector().Data)
				}
				for i := range n {
					require.InDelta(t, want.AtVec(i), x[i], tol*(1+mat.Norm(want, 2)), "n %d transposed %v", n, transposed)
				}
			}
			require.Equal(t, theirs.Det() > 0, f.Sign() > 0, "the sign of the determinant, n %d", n)
			require.InEpsilon(t, theirs.Det(), f.Determinant(), 1e-9)
		}
	}
}

func TestLURefusesSingular(t *testing.T) {
	var f LU
	f.Reset(2)
	f.Set(0, 0, 1)
	f.Set(0, 1, 2)
	require.False(t, f.Factor())

	f.Reset(1)
	f.Set(0, 0, math.Inf(1))
	require.False(t, f.Factor())
}

// The largest of a column is its pivot whatever its sign: x = y and y = 1 but for a
// rounding. With the other pivot x comes out as 0.
func TestLUPivotsOnSize(t *testing.T) {
	var f LU
	f.Reset(2)
	for i, row := range [][]float64{{1e-20, 1}, {-1, 1}} {
		copy(f.Row(i), row)
	}
	require.True(t, f.Factor())
	x := make([]float64, 2)
	f.Solve(x, []float64{1, 0})
	require.InDeltaSlice(t, []float64{1, 1}, x, 1e-15)
	f.SolveTransposed(x, []float64{0, 2}) // 1e-20 x = y and x + y = 2
	require.InDeltaSlice(t, []float64{2, 2e-20}, x, 1e-15)
}

// A matrix that is made anew, as large or smaller, has nothing left of the one before.
func TestLUResetLeavesNothing(t *testing.T) {
	var f LU
	f.Reset(3)
	for i := range 3 {
		for j := range 3 {
			f.Set(i, j, float64(1+i*j*j+j))
		}
	}
	f.Factor()
	for _, n := range []int{3, 2} {
		f.Reset(n)
		for i := range n {
			f.Add(i, i, 2)
		}
		require.True(t, f.Factor())
		x := make([]float64, n)
		f.Solve(x, []float64{2, 4, 6}[:n])
		require.Equal(t, []float64{1, 2, 3}[:n], x)
	}
}
