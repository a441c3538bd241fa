package survey

import (
	"slices"

	"gonum.org/v1/gonum/mat"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
)

// Suggestion is a further distance to tape, or direction to gauge.
type Suggestion struct {
	OK       bool // there is one
	Kind     linkage.MeasurementKind
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
	// firstGauge is the same of a gauge, degrees.
	firstGauge = 0.25
	// shortestTaped is the distance, in standard deviations of the tape, below
	// which two places lie too near each other for it to tell in which direction.
	shortestTaped = 10
	// sameHelp is by how much, as a share, one distance must help more than
	// another that comes before it in the file.
	sameHelp = 1e-9
)

// TapeTo is the further distance from one place that would help most.
func (s *Survey) TapeTo(place linkage.PlaceRef) Suggestion {
	if !s.Adjusted() {
		return Suggestion{}
	}
	at := s.net.number(place)
	best := s.suggest(func(from, to int) bool { return from == at || to == at })
	if best.To.Same(place) {
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
	first := firstTapeMillimeters
	if n.run.Units == linkage.Inches {
		first = firstTapeInches
	}
	sigma, most := n.usual(linkage.Taped, first), 0.0
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
			settles, removes := s.untied.settles(&l), s.removes(&l, sigma)
			if !best.OK || settles > best.Settles || settles == best.Settles && removes > most+float64(sameHelp*most) {
				best = Suggestion{OK: true, Kind: linkage.Taped, From: n.places[from].ref, To: n.places[to].ref, Settles: settles}
				most = removes
			}
		}
	}
	if best.OK {
		best.Removes = most / mat.Trace(s.cov)
	}
	return best
}

// suggestGauge is the direction to gauge where all can turn: of the lines on one
// part, which a level can be laid on, and else of all, the one that leaves the
// fewest coordinates undetermined, of several the longest. It goes from left to
// right, or of what stands upright from below.
func (s *Survey) suggestGauge() (best Suggestion) {
	n := s.net
	longest, removes := 0.0, 0.0
	sigma := float64(n.usual(linkage.Gauged, firstGauge) * degree)
	for _, onOne := range []bool{true, false} {
		for from := range n.places {
			for to := from + 1; to < len(n.places); to++ {
				g := sighting{measured: &linkage.Measurement{Kind: linkage.Gauged}, from: from, to: to}
				d := n.between(from, to, n.x)
				if d.X+d.Y < 0 {
					g.from, g.to = to, from
				}
				length := elementary.Hypot(d.X, d.Y)
				if onOne != onOnePiece(n.places[from].ref, n.places[to].ref) || length <= drawnTogether*n.size {
					continue
				}
				l := line{ends: n.ends(g.from, g.to), axes: n.axes, slope: n.slope(&g, n.x)}
				if _, _, ok := s.loose.part(&l); !ok {
					continue
				}
				settles := s.loose.settles(&l)
				if !best.OK || settles > best.Settles || settles == best.Settles && length > longest+float64(sameHelp*longest) {
					best = Suggestion{OK: true, Kind: linkage.Gauged, From: n.places[g.from].ref, To: n.places[g.to].ref, Settles: settles}
					longest, removes = length, s.removes(&l, sigma)
				}
			}
		}
		if best.OK {
			best.Removes = removes / mat.Trace(s.cov)
			break
		}
	}
	return best
}

// onOnePiece reports whether two places are on one part, its pivot's own pin
// counted in.
func onOnePiece(a, b linkage.PlaceRef) bool {
	return a.Part == b.Part || turnsOn(a.Part, b) || turnsOn(b.Part, a)
}

// line is a distance as a row: unknowns of its ends, and how it goes with them.
type line struct {
	ends  []surveyEnd
	axes  int
	slope vec
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
func (s *Survey) removes(l *line, sigma float64) float64 { return removesOf(s.cov, l, sigma) }

func removesOf(cov mat.Symmetric, l *line, sigma float64) float64 {
	column, twice := l.through(cov)
	squares := 0.0
	for _, c := range column {
		squares += float64(c * c)
	}
	return squares / (float64(sigma*sigma) + twice)
}

// part is through of the space; ok is false where the row has no part in it.
func (space looseSpace) part(l *line) (column []float64, twice float64, ok bool) {
	column, twice = l.through(space)
	return column, twice, twice > rankShare*rankShare*l.slope.Dot(l.slope)
}

// settles is how many coordinates fewer a further row leaves undetermined: it
// ties the direction of the space that it has a part in.
func (space looseSpace) settles(l *line) (count int) {
	column, twice, ok := space.part(l)
	if !ok {
		return 0
	}
	for u, c := range column {
		if space.has(u) && space.At(u, u)-float64(c*c)/twice <= looseShare*looseShare {
			count++
		}
	}
	return count
}

// usual is the standard deviation of a further measurement: the median of those
// of its kind, without any the first; run units or degrees.
func (n *surveyNet) usual(kind linkage.MeasurementKind, first float64) float64 {
	var list []float64
	for _, g := range n.sightings {
		if g.measured.Kind == kind {
			list = append(list, g.measured.Within/2)
		}
	}
	if len(list) == 0 {
		return first
	}
	slices.Sort(list)
	return (list[(len(list)-1)/2] + list[len(list)/2]) / 2
}
