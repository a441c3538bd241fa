package num

import "math"

// Limit returns what y goes to as x goes to 0: the polynomial through all places
// (Neville's scheme), there. x and y have as many
// entries, one at least, and the places must differ.
func Limit(x, y []float64) float64 {
	p := append([]float64(nil), y...)
	for k := 1; k < len(p); k++ {
		for i := range len(p) - k {
			p[i] = (float64(x[i+k]*p[i]) - float64(x[i]*p[i+1])) / (x[i+k] - x[i])
		}
	}
	return p[0]
}

// LimitPlaces is how many places a limit is taken from: with each half as far
// as the one before, the polynomial through six misses by less than rounding.
const LimitPlaces = 6

// nearestCounts is the share of what leaving out the nearest place changes that
// counts as doubt: it keeps a limit that agrees with itself by chance from
// being taken for the best.
const nearestCounts = 0.01

// BestLimit is the limit from those consecutive places, LimitPlaces at most,
// from which it is known best, and how well. Far places miss the limit by what
// the polynomial leaves out, near ones by their rounding: of each choice the
// limits with and without its outermost places are compared. x descends. Fewer
// than three places tell nothing: ok is false.
func BestLimit(x, y []float64) (best, doubt float64, ok bool) {
	for end := 3; end <= len(x); end++ {
		from := max(0, end-LimitPlaces)
		whole := Limit(x[from:end], y[from:end])
		d := math.Max(math.Abs(whole-Limit(x[from+1:end], y[from+1:end])),
			nearestCounts*math.Abs(whole-Limit(x[from:end-1], y[from:end-1])))
		if !ok || d < doubt {
			best, doubt, ok = whole, d, true
		}
	}
	return best, doubt, ok
}
