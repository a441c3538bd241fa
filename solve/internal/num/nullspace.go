package num

import "gonum.org/v1/gonum/mat"

// NullSpace returns the rank of rows of a length, and orthonormal vectors square to all
// of them. A singular value counts from share of the largest on. It is gonum's
// decomposition: what is made of the vectors may differ in the last digits from one
// processor to another.
func NullSpace(rows [][]float64, length int, share float64) (rank int, null [][]float64) {
	if length == 0 {
		return 0, nil
	}
	// Rows of zeros make it at least square, so that the factors have all of the
	// vectors.
	a := mat.NewDense(max(len(rows), length), length, nil)
	for i, row := range rows {
		a.SetRow(i, row)
	}
	v := mat.NewDense(length, length, nil)
	var svd mat.SVD
	if svd.Factorize(a, mat.SVDThinV) {
		values := svd.Values(nil)
		for rank < length && values[rank] > share*values[0] {
			rank++
		}
		v.Reset()
		svd.VTo(v)
	} else { // it hasn't converged: nothing is known to be tied
		for i := range length {
			v.Set(i, i, 1)
		}
	}
	for j := rank; j < length; j++ {
		null = append(null, mat.Col(nil, j, v))
	}
	return rank, null
}
