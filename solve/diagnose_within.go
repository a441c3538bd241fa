// Layer: questions.

package solve

import "math"

const (
	// withinSteps bounds the search for a value that leaves every reading within
	// what it reads to; each step is right but for how predictions bend.
	withinSteps = 8
	// withinTie is the share of what readings read to by which rounding may put one
	// beyond it.
	withinTie = 1e-9
)

// leavesAllWithin reports whether some value of a candidate leaves every reading
// within what it reads to. That need not be the value of least squares: from there
// it is sought.
func (g *diagnoser) leavesAllWithin(r *readings, s *suspect) bool {
	most := 4.0 * float64(len(r.read)) // each within twice its standard deviation
	if s.SumOfSquares > most*(1+withinTie) {
		return false
	}
	at := s.fitted.trial
	farthest := r.farthest(at.at.values, s.slopes, 0)
	for range withinSteps {
		if farthest <= 1+withinTie {
			return true
		}
		slopes := s.slopes
		if s.Dim != nil {
			var closes bool
			if slopes, _, closes = g.derive(r, *s.Dim, at.value, at.at); !closes {
				return false
			}
		}
		move := r.nearest(at.at.values, slopes)
		next, ok := g.moved(r, s, at, move)
		if !ok {
			return false
		}
		left := r.farthest(next.at.values, slopes, 0)
		if !(left < farthest) {
			return false
		}
		at, farthest = next, left
	}
	return false
}

// moved is a candidate moved on from a trial of it.
func (g *diagnoser) moved(r *readings, s *suspect, from trial, move float64) (trial, bool) {
	if s.Dim != nil {
		return g.try(r, *s.Dim, from.value+move, from.at)
	}
	f := &forecast{append([]float64(nil), from.at.values...), from.at.poses}
	for i, slope := range s.slopes {
		f.values[i] += float64(slope * move)
	}
	return trial{from.value + move, f, r.sum(f.values)}, true
}

// farthest is how far off the farthest reading would be, by what it reads to, were
// the predictions moved on along slopes.
func (r *readings) farthest(predicted, slopes []float64, move float64) (most float64) {
	for i, v := range predicted {
		off := r.read[i] - v - float64(slopes[i]*move)
		most = math.Max(most, math.Abs(off)/(2*r.sigma[i]))
	}
	return most
}

// nearest is the move along slopes that brings the farthest reading nearest: the
// least of a function that is hollow everywhere, by golden sections.
func (r *readings) nearest(predicted, slopes []float64) float64 {
	const (
		sections = 100
		golden   = 0.6180339887498949 // (sqrt(5) - 1) / 2
	)
	// No reading need go farther than from one side of what it reads to, to the other.
	reach := 0.0
	for i, v := range predicted {
		if slopes[i] != 0 {
			reach = math.Max(reach, (math.Abs(r.read[i]-v)+4*r.sigma[i])/math.Abs(slopes[i]))
		}
	}
	low, high := -reach, reach
	for range sections {
		a, b := high-float64(golden*(high-low)), low+float64(golden*(high-low))
		if r.farthest(predicted, slopes, a) <= r.farthest(predicted, slopes, b) {
			high = b
		} else {
			low = a
		}
	}
	return (low + high) / 2
}
