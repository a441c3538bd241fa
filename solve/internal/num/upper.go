package num

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
)

// tooSmall is how small a pivot may be beside the largest before rounding makes
// nonsense of what is solved: the unit roundoff.
const tooSmall = Rounding

// Upper is a square matrix of zeros below its diagonal, by rows.
type Upper [][]float64

// Reduce turns a matrix of m rows and n columns, m at least n, into the upper factor R
// of Q R, n by n, by Householder's reflections, and off, of m entries, into the first n
// entries of Q' off: the x for which |rows x - off| is least is R.Solve of that. Neither
// argument is changed.
func Reduce(rows *mat.Dense, off []float64) (r Upper, right []float64) {
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
	r = make(Upper, n)
	for i := range r {
		r[i] = a[i][:n]
		clear(r[i][:i])
	}
	return r, right[:n]
}

// Sound reports whether every pivot is large enough to divide by: whether the columns
// that it comes from are independent, as far as rounding lets it be told.
func (r Upper) Sound() bool {
	least, most := math.Inf(1), 0.0
	for i := range r {
		least, most = min(least, math.Abs(r[i][i])), max(most, math.Abs(r[i][i]))
	}
	return least > float64(tooSmall*most)
}

// Solve returns the solution of R x = right. It must be Sound.
func (r Upper) Solve(right []float64) []float64 {
	x := slices.Clone(right)
	for i := len(r) - 1; i >= 0; i-- {
		for j := i + 1; j < len(r); j++ {
			x[i] -= float64(r[i][j] * x[j])
		}
		x[i] /= r[i][i]
	}
	return x
}

// SolveTransposed returns the solution of R' x = right. It must be Sound.
func (r Upper) SolveTransposed(right []float64) []float64 {
	x := slices.Clone(right)
	for i := range r {
		x[i] /= r[i][i]
		for j := i + 1; j < len(r); j++ {
			x[j] -= float64(r[i][j] * x[i])
		}
	}
	return x
}

// InverseOfSquare returns the inverse of R'R: of least squares with rows of weight 1,
// the covariance of what is sought. It must be Sound.
func (r Upper) InverseOfSquare() *mat.SymDense {
	inverse := mat.NewSymDense(len(r), nil)
	for k := range r {
		unit := make([]float64, len(r))
		unit[k] = 1
		for i, v := range r.Solve(r.SolveTransposed(unit)) {
			if i <= k {
				inverse.SetSym(i, k, v)
			}
		}
	}
	return inverse
}

// NormalEquations returns A'A and A' off, for an A of as many rows as off has entries.
func NormalEquations(rows *mat.Dense, off []float64) (normal *mat.SymDense, right []float64) {
	m, n := rows.Dims()
	normal, right = mat.NewSymDense(n, nil), make([]float64, n)
	for k := range m {
		row := rows.RawRowView(k)
		for i, v := range row {
			if v == 0 {
				continue
			}
			for j := i; j < n; j++ {
				if row[j] != 0 {
					normal.SetSym(i, j, normal.At(i, j)+float64(v*row[j]))
				}
			}
			right[i] += float64(v * off[k])
		}
	}
	return normal, right
}

// Quadratic returns g' A g: of a covariance A and a figure's gradient g, its variance.
func Quadratic(a mat.Symmetric, g []float64) (sum float64) {
	for i, v := range g {
		for j, w := range g {
			sum += float64(v * w * a.At(i, j))
		}
	}
	return sum
}
