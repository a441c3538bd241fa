package survey

import (
	"math"

	"fullfree/linkage"
)

const (
	// farDirection is the angle, in degrees, by which a line may be gauged
	// otherwise than it is drawn: more than a sketch is mistaken by, and less than
	// the quarter turn of a level that was read as told from plumb.
	farDirection = 60
	// farMoved is how many times what the sketch may be out (one standard
	// deviation) a place may move: chance alone goes so far once in 90.
	farMoved = 3
)

// FarGauge is a line gauged far from the direction in which it is drawn: read
// from plumb, or the other way round, or sketched so.
type FarGauge struct {
	Measurement *linkage.Measurement
	// Drawn is the direction as drawn, of its turns the one nearest to what was
	// read; Off is what was read less that. Degrees.
	Drawn, Off float64
}

// FarPlace is a place that the measurements move farther than the sketch may
// well be out.
type FarPlace struct {
	Place  linkage.PlaceRef
	Name   string
	Moved  float64 // run units
	Sigmas float64 // Moved by what the sketch may be out, one standard deviation
}

// tellFar fills in what lies far from where it is drawn.
func (s *Survey) tellFar() {
	n := s.net
	for i := range n.sightings {
		g := &n.sightings[i]
		if g.measured.Kind != linkage.Gauged || n.drawnInOne(g) {
			continue
		}
		if off := n.misfit(g, n.drawn) / degree; math.Abs(off) > farDirection {
			s.FarGauges = append(s.FarGauges, FarGauge{Measurement: g.measured, Drawn: g.measured.Is - off, Off: off})
		}
	}
	for _, p := range s.Points {
		if moved := p.At.Sub(p.Drawn).Norm(); !p.Exact && moved > farMoved*n.sketch {
			s.FarPlaces = append(s.FarPlaces, FarPlace{Place: p.Place, Name: p.Name, Moved: moved, Sigmas: moved / n.sketch})
		}
	}
}

// drawnInOne reports whether the ends of a measurement are drawn in one place,
// in a plane run one behind the other, so that the drawing has no direction from
// one to the other.
func (n *surveyNet) drawnInOne(g *sighting) bool {
	return n.seen(n.between(g.from, g.to, n.drawn)) <= drawnTogether*n.size
}
