package solve

import (
	"slices"

	"gonum.org/v1/gonum/mat"

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
// undetermined, of several the one that removes most of the sum of all
// variances, of several the first in the file's order.
func (s *Survey) suggest(among func(from, to int) bool) (best Suggestion) {
	n := s.net
	taped := make(map[[2]int]bool)
	for _, g := range n.sightings {
		if g.measured.Kind == linkage.Taped {
			taped[[2]int{min(g.from, g.to), max(g.from, g.to)}] = true
		}
	}
	sigma, most := n.tape(), 0.0
	for from := range n.places {
		for to := from + 1; to < len(n.places); to++ {
			if taped[[2]int{from, to}] || !among(from, to) {
				continue
			}
			l := line{ends: n.ends(from, to), axes: n.axes, slope: n.between(from, to, n.x)}
			if len(l.ends) == 0 || n.seen(l.slope) < shortestTaped*sigma {
				continue
			}
			l.slope = l.slope.Unit()
			settles, removes := s.settles(&l), s.removes(&l, sigma)
			if !best.OK || settles > best.Settles || settles == best.Settles && removes > most+float64(sameHelp*most) {
				best = Suggestion{OK: true, From: n.places[from].ref, To: n.places[to].ref, Settles: settles}
				most = removes
			}
		}
	}
	if best.OK {
		best.Removes = most / mat.Trace(s.cov)
	}
	return best
}

// line is a distance as a row: unknowns of its ends, and how it goes with them.
type line struct {
	ends  []surveyEnd
	axes  int
	slope vec // length 1
}

// times returns the row times a column that is given by its entries.
func (l *line) times(column func(u int) float64) (sum float64) {
	for _, e := range l.ends {
		for axis := range l.axes {
			sum += float64(e.sign * *component(&l.slope, axis) * column(e.first+axis))
		}
	}
	return sum
}

// through returns a symmetric matrix times the row, and that times the row.
func (l *line) through(m mat.Symmetric) (column []float64, twice float64) {
	column = make([]float64, m.SymmetricDim())
	for u := range column {
		column[u] = l.times(func(v int) float64 { return m.At(u, v) })
	}
	return column, l.times(func(u int) float64 { return column[u] })
}

// removes is how much of the sum of all variances a further distance takes away:
// with its row a it changes C by C a a' C / (sigma^2 + a' C a).
func (s *Survey) removes(l *line, sigma float64) float64 {
	column, twice := l.through(s.cov)
	squares := 0.0
	for _, c := range column {
		squares += float64(c * c)
	}
	return squares / (float64(sigma*sigma) + twice)
}

// settles is how many coordinates fewer a further distance leaves undetermined:
// it ties the direction of the loose space that its row has a part in.
func (s *Survey) settles(l *line) (count int) {
	column, twice := l.through(s.loose)
	if twice <= rankShare*rankShare {
		return 0
	}
	for u, c := range column {
		if s.loose.has(u) && s.loose.At(u, u)-float64(c*c)/twice <= looseShare*looseShare {
			count++
		}
	}
	return count
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
