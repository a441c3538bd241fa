package photo

import (
	"math"
	"slices"

	"fullfree/linkage/elementary"
)

// start is where the search begins: the distances scale the photo, one half of them more
// and one less, so that a slip of one does nothing. The scale is the camera's distance over
// its focal length, which are as far from the usual as that asks.
func (n *network) start() [cameraSize]float64 {
	at, foremost := n.prior.mean, 0.0
	var scales []float64
	for _, t := range n.photo.Tapes {
		z := n.depths[t.To] - n.depths[t.From]
		flat := float64(t.Is*t.Is) - float64(z*z)
		if flat < t.Is*t.Is/4 {
			flat = float64(t.Is * t.Is)
		}
		scales = append(scales, math.Sqrt(flat)/n.photo.pixelsApart(t.From, t.To))
	}
	slices.Sort(scales)
	scale := elementary.Log(scales[(len(scales)-1)/2])
	for _, z := range n.depths {
		foremost = max(foremost, z)
	}
	known, knownSigma := at[lnAway], n.prior.sigma[lnAway]
	if last := n.sightings[len(n.sightings)-1]; last.kind == told {
		known, knownSigma = last.is, last.sigma
	}
	away, focal := float64(knownSigma*knownSigma), float64(n.prior.sigma[lnFocal]*n.prior.sigma[lnFocal])
	off := scale - (known - at[lnFocal])
	at[lnAway] = known + float64(off*away)/(away+focal)
	// Every hole must be before the camera.
	at[lnAway] = max(at[lnAway], elementary.Log(max(3*foremost, leastLength/n.photo.Unit)))
	at[lnFocal] = at[lnAway] - scale
	return at
}

const (
	// grossFrom is the standardized misclosure from which a measurement can't be of this
	// photo: chance hardly goes so far, nor does what a tilt bends. With the next two that is
	// a distance that is off by a quarter or more, or a direction by 30 degrees.
	grossFrom = 6
	// grossTape is by how much a distance may be off beside what goes straight with the
	// camera's unknowns, as a share of it: the cosine of 16 degrees.
	grossTape = 0.04
	// grossLevel is the same of a direction, in degrees.
	grossLevel = 4
)

// slip returns the measurement that is farthest from what the others and the usual camera
// make of it, from where the search begins, and how far in its standard deviation. A gross
// slip is told so, and not from where the search ends: that finds a camera so far askew
// that it fits, or none.
func (n *network) slip() (*sighting, float64) {
	whole := part{mean: n.prior.mean, sigma: n.prior.sigma}
	at, here := n.begin(&whole), n.unsettled(&whole)
	if !n.measure(here, at) {
		return nil, 0
	}
	for i := range here.rows {
		g, r := &n.sightings[i], &here.rows[i]
		slack := 0.0
		switch g.kind {
		case taped:
			slack = float64(grossTape * g.is)
		case gauged:
			slack = float64(grossLevel * degree)
		}
		r.shrink(g.sigma / elementary.Hypot(g.sigma, slack))
	}
	off := here.expected(at, 1)
	if here.lower = factor(here.rows, 1); here.lower == nil {
		return nil, 0
	}
	forward(here.lower, off)
	backward(here.lower, off)
	var worst *sighting
	most := 0.0
	column := make([]float64, len(off))
	for i, redundancy := range here.redundancies(column) {
		if by := math.Abs(off[i]) / math.Sqrt(redundancy); by > most {
			worst, most = &n.sightings[i], by
		}
	}
	return worst, most
}

// blame is the error of a measurement that doesn't fit.
func (n *network) blame(reason Reason, g *sighting) *Error {
	for i := range n.sightings {
		tapes := len(n.photo.Tapes)
		switch {
		case g != &n.sightings[i]:
		case g.kind == taped:
			return &Error{Reason: reason, Of: OfTape, At: i}
		case g.kind == gauged:
			return &Error{Reason: reason, Of: OfLevel, At: i - tapes}
		default:
			return &Error{Reason: reason, Of: OfAway}
		}
	}
	return &Error{Reason: reason}
}
