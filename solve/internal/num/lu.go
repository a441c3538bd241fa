package num

import "math"

// LU is a dense square matrix and its factors, for systems so small that a
// general library's allocations would cost more than the arithmetic.
// Elimination with partial pivoting (G. H. Golub and C. F. Van Loan, Matrix
// Computations, from memory); checked against gonum's mat.LU. The zero value is a
// matrix of no rows; Reset makes room. One that is factored is read by one goroutine
// at a time, since solving the transposed system takes space in it.
type LU struct {
	n    int
	a    []float64 // n by n, by rows; after factor: L below the diagonal (unit), U on and above
	row  []int     // row[i] is the row of the original that stands at i
	work []float64
}

// Reset makes it an n by n matrix of zeros, in the space that it has where that will do.
func (f *LU) Reset(n int) {
	if cap(f.a) < n*n {
		f.a, f.row, f.work = make([]float64, n*n), make([]int, n), make([]float64, n)
	}
	f.n, f.a, f.row, f.work = n, f.a[:n*n], f.row[:n], f.work[:n]
	clear(f.a)
}

// Set puts v into row i and column j, counted from 0, before Factor.
func (f *LU) Set(i, j int, v float64) { f.a[i*f.n+j] = v }

// Row is a row as it is to be filled in, before Factor.
func (f *LU) Row(i int) []float64 { return f.a[i*f.n : (i+1)*f.n] }

// Add adds v to what stands in row i and column j, before Factor.
func (f *LU) Add(i, j int, v float64) { f.a[i*f.n+j] += v }

// Factor replaces the matrix by its factors and reports whether every pivot is finite
// and other than zero. Where not, nothing else may be asked until the next Reset.
func (f *LU) Factor() bool {
	n, a := f.n, f.a
	for i := range f.row {
		f.row[i] = i
	}
	for k := range n {
		p, most := k, math.Abs(a[k*n+k])
		for i := k + 1; i < n; i++ {
			if v := math.Abs(a[i*n+k]); v > most {
				p, most = i, v
			}
		}
		if !(most > 0) || math.IsInf(most, 0) {
			return false
		}
		if p != k {
			f.row[k], f.row[p] = f.row[p], f.row[k]
			for j := range n {
				a[k*n+j], a[p*n+j] = a[p*n+j], a[k*n+j]
			}
		}
		inv := 1 / a[k*n+k]
		from := a[k*n+k+1 : (k+1)*n]
		for i := k + 1; i < n; i++ {
			l := float64(a[i*n+k] * inv)
			a[i*n+k] = l
			if l == 0 {
				continue
			}
			row := a[i*n+k+1 : (i+1)*n]
			for j, v := range from {
				row[j] -= float64(l * v)
			}
		}
	}
	return true
}

// Solve puts the solution of A x = b into x, which must not be b. Both have n entries
// at least.
func (f *LU) Solve(x, b []float64) {
	n, a := f.n, f.a
	for i := range n {
		v := b[f.row[i]]
		for j, l := range a[i*n : i*n+i] {
			v -= float64(l * x[j])
		}
		x[i] = v
	}
	for i := n - 1; i >= 0; i-- {
		v := x[i]
		known := x[i+1 : n]
		for j, u := range a[i*n+i+1 : (i+1)*n] {
			v -= float64(u * known[j])
		}
		x[i] = v / a[i*n+i]
	}
}

// SolveTransposed puts the solution of A' x = b into x, which must not be b. Both have n
// entries at least.
func (f *LU) SolveTransposed(x, b []float64) {
	n, a, y := f.n, f.a, f.work
	for i := range n {
		v := b[i]
		for j := range i {
			v -= float64(a[j*n+i] * y[j])
		}
		y[i] = v / a[i*n+i]
	}
	for i := n - 1; i >= 0; i-- {
		v := y[i]
		for j := i + 1; j < n; j++ {
			v -= float64(a[j*n+i] * y[j])
		}
		y[i] = v
	}
	for i := range n {
		x[f.row[i]] = y[i]
	}
}

// Pivot returns the pivot of row i, after Factor; of a 1 by 1 matrix, the matrix itself
// before it too.
func (f *LU) Pivot(i int) float64 { return f.a[i*f.n+i] }

// Determinant returns the determinant of what was factored. It may be beyond the range
// of numbers for a large matrix.
func (f *LU) Determinant() float64 {
	d := f.Sign()
	for i := range f.n {
		d = float64(d * math.Abs(f.Pivot(i)))
	}
	return d
}

// Sign returns the sign of the determinant, 1 or -1: the product of the signs of
// the pivots and of the row exchanges.
func (f *LU) Sign() float64 {
	sign := 1.0
	for i := range f.n {
		if f.a[i*f.n+i] < 0 {
			sign = -sign
		}
		for j := range i { // every pair of rows out of order is an exchange
			if f.row[j] > f.row[i] {
				sign = -sign
			}
		}
	}
	return sign
}
