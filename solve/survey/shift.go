package survey

import "gonum.org/v1/gonum/mat"

// mostSettledShift is how far, in standard deviations, an adjusted drawing may
// still be shifted by being adjusted again: what the report gives as ±. The second
// adjustment starts from a better sketch than the first, whose pull has given way.
const mostSettledShift = 2

// Settled reports whether the drawing is as good as adjusted already: nothing that
// hangs on its coordinates would move by more than its ±.
func (s *Survey) Settled() bool { return s.Shift() <= mostSettledShift }

// Shift is how far the adjusted coordinates lie from those of the drawing, in
// standard deviations: the most that any figure that hangs on them linearly, a
// coordinate, a distance or whatever else, moves by, over its own standard
// deviation. With d what they moved by it is the root of d' C^-1 d (by the
// inequality of Cauchy and Schwarz); 0 where nothing is adjusted.
func (s *Survey) Shift() float64 {
	if !s.Adjusted() {
		return 0
	}
	n := s.net
	if len(n.x) == 0 {
		return 0
	}
	moved := mat.NewVecDense(len(n.x), nil)
	for u := range n.x {
		moved.SetVec(u, n.x[u]-n.drawn[u])
	}
	// C is the inverse of R'R, of which the rows are, over their standard
	// deviations.
	rows, _ := n.system(1 / n.sketch)
	var all mat.VecDense
	all.MulVec(rows, moved)
	return mat.Norm(&all, 2)
}
