package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
)

// Suggestion is a further distance to tape.
type Suggestion struct {
	OK       bool // there is one
	From, To linkage.PlaceRef
	// Settles is how many coordinates fewer would be undetermined. Removes is the
	// share of the sum of all variances that would go, 0 to 1.
	Settles int
	Removes float64
}

const (
	// firstTapeMillimeters and firstTapeInches are the standard deviation of a tape where
	// none was used yet: it reads to within twice that.
	firstTapeMillimeters = 0.5
	firstTapeInches      = 0.02
	// shortestTaped is the distance, in standard deviations of the tape, below
	// which two places lie too near each other for it to tell in which direction.
	shortestTaped = 10
	// sameHelp is by how much, as a share, one distance must help more than
	// another that comes before it in the file.
	sameHelp = 1e-9
)

// TapeTo is the further distance from one place that would help most.
func (s *Survey) TapeTo(place linkage.PlaceRef) Suggestion {
	is := func(i int) bool {
		p := s.net.places[i].ref
		return p.Part == place.Part && p.Point == place.Point
	}
	best := s.suggest(func(from, to int) bool { return is(from) || is(to) })
	if best.To.Part == place.Part && best.To.Point == place.Point {
		best.From, best.To = best.To, best.From
	}
	return best
}

// suggest is the distance that would help most, of those not taped yet between
// places that aren't both exact: the one that leaves the fewest coordinates
// undetermined, of several the one that removes most of the sum of all variances
// (by the rank-one change of C: with the row a and the tape's sigma,
// |C a|^2 / (sigma^2 + a' C a)), of several the first in the file's order.
func (s *Survey) suggest(among func(from, to int) bool) (best Suggestion) {
	n := s.net
	taped := make(map[[2]int]bool)
	for _, g := range n.sightings {
		if g.measured.Kind == linkage.Taped {
			taped[[2]int{min(g.from, g.to), max(g.from, g.to)}] = true
		}
	}
	sigma := n.tape()
	trace, loose := 0.0, s.loose.count()
	for u := range n.x {
		trace += s.cov.At(u, u)
	}
	most := 0.0
	for from := range n.places {
		for to := from + 1; to < len(n.places); to++ {
			ends := n.ends(from, to)
			line := n.between(from, to, n.x)
			if len(ends) == 0 || taped[[2]int{from, to}] || !among(from, to) || n.seen(line) < shortestTaped*sigma {
				continue
			}
			slope := line.Unit()
			removes := s.removes(ends, slope, sigma)
			settles := loose - s.looseWith(ends, slope)
			if !best.OK || settles > best.Settles || settles == best.Settles && removes > most+float64(sameHelp*most) {
				best = Suggestion{OK: true, From: n.places[from].ref, To: n.places[to].ref, Settles: settles}
				most = removes
			}
		}
	}
	if best.OK && trace > 0 {
		best.Removes = most / trace
	}
	return best
}

// tape is the standard deviation of a further distance: the median of those
// taped.
func (n *surveyNet) tape() float64 {
	var list []float64
	for _, g := range n.sightings {
		if g.measured.Kind == linkage.Taped {
			list = append(list, g.sigma)
		}
	}
	if len(list) == 0 {
		if n.run.Units == linkage.Inches {
			return firstTapeInches
		}
		return firstTapeMillimeters
	}
	slices.Sort(list)
	return (list[(len(list)-1)/2] + list[len(list)/2]) / 2
}

// removes is how much of the sum of all variances a further distance takes away.
func (s *Survey) removes(ends []surveyEnd, slope vec, sigma float64) float64 {
	axes := s.net.axes
	dot := func(of func(u int) float64) (sum float64) {
		for _, e := range ends {
			for axis := range axes {
				sum += float64(e.sign * *component(&slope, axis) * of(e.first+axis))
			}
		}
		return sum
	}
	ca := func(u int) float64 { return dot(func(v int) float64 { return s.cov.At(u, v) }) }
	squares := 0.0
	for u := range s.net.x {
		c := ca(u)
		squares += float64(c * c)
	}
	return squares / (float64(sigma*sigma) + dot(ca))
}

// looseWith is how many coordinates would be undetermined with a further
// distance.
func (s *Survey) looseWith(ends []surveyEnd, slope vec) (count int) {
	l, axes := s.loose, s.net.axes
	// The part of the distance's row in the loose space: one direction of it is
	// tied, the others stay.
	noticed := make([]float64, len(l.vectors))
	length := 0.0
	for k, v := range l.vectors {
		for _, e := range ends {
			for axis := range axes {
				noticed[k] += float64(e.sign * *component(&slope, axis) * v[e.first+axis])
			}
		}
		length = math.Hypot(length, noticed[k])
	}
	if length <= rankShare {
		return l.count()
	}
	for u := range l.part {
		along := 0.0
		for k, v := range l.vectors {
			along += float64(v[u]*noticed[k]) / length
		}
		if l.part[u]-float64(along*along) > looseShare*looseShare {
			count++
		}
	}
	return count
}
