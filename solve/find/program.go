package find

import "math"

const (
	// pivots is how many steps a linear program makes at most: many times what one of some
	// dozens of planes takes. What it has come to by then is a place within its bounds, too.
	pivots = 400
	// carefulAfter is after how many of them the first of what gains is taken instead of the
	// most, by which no step comes back to where another was (R. G. Bland, "New finite pivoting
	// rules for the simplex method", Mathematics of Operations Research 2, 1977).
	carefulAfter = 100
	// pivotNoise is the share of the largest coefficient below which one counts as nothing.
	pivotNoise = 1e-11
)

// maximize returns the x, none of it negative, at which c x is largest with a x <= b, b not
// negative: the simplex method from x = 0 on, of what has a bound. What it is given is
// written over. A general library's may go round for ever where many bounds meet.
func maximize(a [][]float64, b, c []float64) []float64 {
	rows, columns := len(b), len(c)
	inside, outside := make([]int, rows), make([]int, columns) // which unknown is which row's, which column's
	largest := 0.0
	for j := range outside {
		outside[j] = j
	}
	for i := range inside {
		inside[i] = columns + i
		for _, v := range a[i] {
			largest = math.Max(largest, math.Abs(v))
		}
	}
	noise := float64(pivotNoise * largest)
	for step := range pivots {
		enters := -1
		for j, gain := range c {
			switch {
			case gain <= pivotNoise:
			case enters < 0, step < carefulAfter && gain > c[enters], step >= carefulAfter && outside[j] < outside[enters]:
				enters = j
			}
		}
		if enters < 0 {
			break
		}
		leaves, nearest := -1, math.Inf(1)
		for i := range rows {
			if a[i][enters] <= noise {
				continue
			}
			if ratio := b[i] / a[i][enters]; ratio < nearest || ratio == nearest && inside[i] < inside[leaves] {
				leaves, nearest = i, ratio
			}
		}
		if leaves < 0 {
			break // without a bound
		}
		exchange(a, b, c, leaves, enters)
		inside[leaves], outside[enters] = outside[enters], inside[leaves]
	}
	x := make([]float64, columns)
	for i, unknown := range inside {
		if unknown < columns {
			x[unknown] = b[i]
		}
	}
	return x
}

// exchange makes the unknown of a column that of a row.
func exchange(a [][]float64, b, c []float64, row, column int) {
	by := a[row][column]
	for k := range a[row] {
		a[row][k] /= by
	}
	a[row][column] = 1 / by
	b[row] /= by
	for i := range a {
		f := a[i][column]
		if i == row || f == 0 {
			continue
		}
		for k := range a[i] {
			a[i][k] -= float64(f * a[row][k])
		}
		a[i][column] = -f / by
		b[i] = math.Max(0, b[i]-float64(f*b[row]))
	}
	f := c[column]
	for k := range c {
		c[k] -= float64(f * a[row][k])
	}
	c[column] = -f / by
}
