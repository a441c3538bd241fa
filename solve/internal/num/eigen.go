package num

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// jacobiSweeps is how often Jacobi's method may go over a matrix: it takes five
// to ten, as it converges quadratically.
const jacobiSweeps = 40

// Eigen returns the eigenvalues of a symmetric matrix, the least first, and the
// vectors of length 1 that go with them, by Jacobi's method: turns of two axes
// at a time that make what is aside of the diagonal vanish (Golub and Van Loan, from
// memory). vectors[i] goes with values[i].
func Eigen(of *mat.SymDense) (values []float64, vectors [][]float64) {
	n := of.SymmetricDim()
	a, v := make([][]float64, n), make([][]float64, n) // v by rows: a vector each
	for i := range n {
		a[i], v[i] = make([]float64, n), make([]float64, n)
		v[i][i] = 1
		for j := range n {
			a[i][j] = of.At(i, j)
		}
	}
	for range jacobiSweeps {
		turned := false
		for p := range n {
			for q := p + 1; q < n; q++ {
				if math.Abs(a[p][q]) <= Rounding*math.Sqrt(math.Abs(a[p][p]))*math.Sqrt(math.Abs(a[q][q])) {
					continue
				}
				turned = true
				theta := (a[q][q] - a[p][p]) / (2 * a[p][q])
				tan := math.Copysign(1/(math.Abs(theta)+math.Sqrt(1+float64(theta*theta))), theta)
				cos := 1 / math.Sqrt(1+float64(tan*tan))
				sin := float64(tan * cos)
				for k := range n {
					x, y := a[k][p], a[k][q]
					a[k][p], a[k][q] = float64(cos*x)-float64(sin*y), float64(sin*x)+float64(cos*y)
				}
				for k := range n {
					x, y := a[p][k], a[q][k]
					a[p][k], a[q][k] = float64(cos*x)-float64(sin*y), float64(sin*x)+float64(cos*y)
					x, y = v[p][k], v[q][k]
					v[p][k], v[q][k] = float64(cos*x)-float64(sin*y), float64(sin*x)+float64(cos*y)
				}
			}
		}
		if !turned {
			break
		}
	}
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		switch {
		case a[i][i] < a[j][j]:
			return -1
		case a[i][i] > a[j][j]:
			return 1
		}
		return 0
	})
	for _, i := range order {
		values, vectors = append(values, a[i][i]), append(vectors, v[i])
	}
	return values, vectors
}
