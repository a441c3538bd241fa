package num

import (
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
		}
	}
}

func TestLURefusesSingular(t *testing.T) {
	var f LU
	f.Reset(2)
	f.Set(0, 0, 1)
	f.Set(0, 1, 2)
	require.False(t, f.Factor())
}
