package num

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// Cholesky returns the lower triangle L with L L' = a, row by row, the diagonal last in
// each; nil where a isn't positive definite.
func Cholesky(a mat.Symmetric) [][]float64 {
	l := make([][]float64, a.SymmetricDim())
	for i := range l {
		l[i] = make([]float64, i+1)
		for j := range i {
			l[i][j] = (a.At(i, j) - Dot(l[i][:j], l[j])) / l[j][j]
		}
		rest := a.At(i, i) - Dot(l[i][:i], l[i])
		if !(rest > 0) {
			return nil
		}
		l[i][i] = math.Sqrt(rest)
	}
	return l
}

// Definite reports whether a symmetric matrix is positive definite: whether
// Cholesky's factors are real.
func Definite(a mat.Symmetric) bool { return Cholesky(a) != nil }
