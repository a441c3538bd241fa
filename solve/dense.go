package solve

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// What the adjustment of a survey reckons with. Its covariance is in the bands
// that check tells, so these are plain loops with every product rounded, which
// give the same bits on every processor; a general library's are not, being
// assembly on some and fused on others. Checked against gonum's factors.

// tooSmall is how small a pivot may be beside the largest before rounding makes
// nonsense of what is solved.
const tooSmall = rounding

// upper is a square matrix of zeros below its diagonal, by rows.
type upper [][]float64

// reduce turns a matrix with at least as many rows as columns into the upper
// factor R of Q R by Householder's reflections, and off into the first entries
// of Q' off. Neither argument is changed.
func reduce(rows *mat.Dense, off []float64) (r upper, right []float64) {
	m, n := rows.Dims()
	a := make([][]float64, m)
	for i := range a {
		a[i] = slices.Clone(rows.RawRowView(i))
	}
	right = slices.Clone(off)
	normal, along := make([]float64, m), make([]float64, n)
	for k := range n {
		sum := 0.0
		for i := k; i < m; i++ {
			sum += float64(a[i][k] * a[i][k])
		}
		if sum == 0 {
			continue
		}
		// The mirror's normal: the column, with its length added to its first
		// entry away from zero.
		length := math.Copysign(math.Sqrt(sum), a[k][k])
		for i := k; i < m; i++ {
			normal[i] = a[i][k]
		}
		normal[k] += length
		per := 1 / float64(length*normal[k]) // two over the square of the normal
		clear(along)
		offAlong := 0.0
		for i := k; i < m; i++ {
			if normal[i] == 0 {
				continue
			}
			for j := k; j < n; j++ {
				along[j] += float64(normal[i] * a[i][j])
			}
			offAlong += float64(normal[i] * right[i])
		}
		for i := k; i < m; i++ {
			by := float64(normal[i] * per)
			if by == 0 {
				continue
			}
			for j := k; j < n; j++ {
				a[i][j] -= float64(by * along[j])
			}
			right[i] -= float64(by * offAlong)
		}
	}
	r = make(upper, n)
	for i := range r {
		r[i] = a[i][:n]
		clear(r[i][:i])
	}
	return r, right[:n]
}

// sound reports whether every pivot is large enough to divide by.
func (r upper) sound() bool {
	least, most := math.Inf(1), 0.0
	for i := range r {
		least, most = min(least, math.Abs(r[i][i])), max(most, math.Abs(r[i][i]))
	}
	return least > float64(tooSmall*most)
}

// solve returns the solution of R x = right.
func (r upper) solve(right []float64) []float64 {
	x := slices.Clone(right)
	for i := len(r) - 1; i >= 0; i-- {
		for j := i + 1; j < len(r); j++ {
			x[i] -= float64(r[i][j] * x[j])
		}
		x[i] /= r[i][i]
	}
	return x
}

// solveTransposed returns the solution of R' x = right.
func (r upper) solveTransposed(right []float64) []float64 {
	x := slices.Clone(right)
	for i := range r {
		x[i] /= r[i][i]
		for j := i + 1; j < len(r); j++ {
			x[j] -= float64(r[i][j] * x[i])
		}
	}
	return x
}

// inverseOfSquare returns the inverse of R'R.
func (r upper) inverseOfSquare() *mat.SymDense {
	inverse := mat.NewSymDense(len(r), nil)
	for k := range r {
		unit := make([]float64, len(r))
		unit[k] = 1
		for i, v := range r.solve(r.solveTransposed(unit)) {
			if i <= k {
				inverse.SetSym(i, k, v)
			}
		}
	}
	return inverse
}

// normalEquations returns A'A and A' off.
func normalEquations(rows *mat.Dense, off []float64) (square *mat.SymDense, down []float64) {
	m, n := rows.Dims()
	square, down = mat.NewSymDense(n, nil), make([]float64, n)
	for k := range m {
		row := rows.RawRowView(k)
		for i, v := range row {
			if v == 0 {
				continue
			}
			for j := i; j < n; j++ {
				if row[j] != 0 {
					square.SetSym(i, j, square.At(i, j)+float64(v*row[j]))
				}
			}
			down[i] += float64(v * off[k])
		}
	}
	return square, down
}

// twice returns g' A g.
func twice(a mat.Symmetric, g []float64) (sum float64) {
	for i, v := range g {
		for j, w := range g {
			sum += float64(v * w * a.At(i, j))
		}
	}
	return sum
}

// jacobiSweeps is how often Jacobi's method may go over a matrix: it takes five
// to ten, as it converges quadratically.
const jacobiSweeps = 40

// eigen returns the eigenvalues of a symmetric matrix, the least first, and the
// vectors of length 1 that go with them, by Jacobi's method: turns of two axes
// at a time that make what is aside of the diagonal vanish.
func eigen(of *mat.SymDense) (values []float64, vectors [][]float64) {
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
				if math.Abs(a[p][q]) <= rounding*math.Sqrt(math.Abs(a[p][p]))*math.Sqrt(math.Abs(a[q][q])) {
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

// definite reports whether a symmetric matrix is positive definite: whether
// Cholesky's factors are real.
func definite(of *mat.SymDense) bool {
	n := of.SymmetricDim()
	l := make([][]float64, n)
	for i := range n {
		l[i] = make([]float64, i+1)
		for j := range i + 1 {
			v := of.At(i, j)
			for k := range j {
				v -= float64(l[i][k] * l[j][k])
			}
			switch {
			case j < i:
				l[i][j] = v / l[j][j]
			case !(v > 0):
				return false
			default:
				l[i][i] = math.Sqrt(v)
			}
		}
	}
	return true
}
