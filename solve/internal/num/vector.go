package num

import "math"

// Dot is the product of two vectors; b has as many entries as a at least.
func Dot(a, b []float64) float64 {
	sum := 0.0
	for i, v := range a {
		sum += float64(v * b[i])
	}
	return sum
}

// AddScaled adds k times b to a, which has as many entries as b at least.
func AddScaled(a, b []float64, k float64) {
	for i, v := range b {
		a[i] += float64(k * v)
	}
}

// Remainder returns what of a row is new to a basis of vectors of length 1, square to
// one another, at length 1, and how long it was; a row of zeros and 0 where nothing is.
func Remainder(row []float64, basis [][]float64) ([]float64, float64) {
	rest := append([]float64(nil), row...)
	for range 2 { // once more against rounding
		for _, b := range basis {
			AddScaled(rest, b, -Dot(rest, b))
		}
	}
	gain := math.Sqrt(Dot(rest, rest))
	if gain > 0 {
		for k := range rest {
			rest[k] /= gain
		}
	}
	return rest, gain
}

// Norm is the length of a vector. Its square must be in the range of numbers.
func Norm(list []float64) float64 {
	sum := 0.0
	for _, v := range list {
		sum += float64(v * v)
	}
	return math.Sqrt(sum)
}
