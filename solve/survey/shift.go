package survey

import (
	"math"

	"fullfree/linkage"
)

// mostSettledShift is how far, in standard deviations, an adjusted drawing may
// still be shifted by being adjusted again: what the report gives as ±. The second
// adjustment starts from a better sketch than the first, whose pull has given way.
const mostSettledShift = 2

// Settled reports whether the drawing is as good as adjusted already: no place
// would move by more than its ±, and what was measured wouldn't change by more.
func (s *Survey) Settled() bool { return s.Shift() <= mostSettledShift }

// Shift is how far the adjusted coordinates lie from those of the drawing, in
// standard deviations; 0 where nothing is adjusted. It is the root of the sum of
// the squares of what every measured figure and every sketched coordinate changes
// by, each over its standard deviation. Of a small shift d it is the root of
// d' C^-1 d: the most that any figure that hangs on the coordinates changes by over
// its own standard deviation (by the inequality of Cauchy and Schwarz).
//
// A place that is hardly tied along an arc may go far along it, and no tape notices:
// so what is measured is compared itself, not by its slope, which tells of the arc's
// bend as if the tape had changed. Where a coordinate moves by more, over its own
// standard deviation, than the root comes to, it is that.
func (s *Survey) Shift() float64 {
	if !s.Adjusted() {
		return 0
	}
	n := s.net
	sum, most := 0.0, 0.0
	for i := range n.sightings {
		g := &n.sightings[i]
		w := n.changed(g) / g.sigma
		sum += float64(w * w)
	}
	for u := range n.x {
		moved := n.x[u] - n.drawn[u]
		w := moved / n.sketch
		sum += float64(w * w)
		most = math.Max(most, math.Abs(moved)/math.Sqrt(s.cov.At(u, u)))
	}
	return math.Max(math.Sqrt(sum), most)
}

// changed is what a measured figure changes by from the drawing to where the
// unknowns stand, a direction by the nearest turn.
func (n *surveyNet) changed(g *sighting) float64 {
	by := n.misfit(g, n.drawn) - n.misfit(g, n.x)
	if g.measured.Kind == linkage.Gauged {
		by = math.Remainder(by, 2*math.Pi)
	}
	return by
}
