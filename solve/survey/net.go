package survey

import (
	"math"

	"gonum.org/v1/gonum/mat"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
)

type vec = linkage.Vec

// degree is a degree in radians.
const degree = math.Pi / 180

// surveyNet is a run as the survey sees it: places, and sightings between them.
// Directions are radians here.
type surveyNet struct {
	run       *linkage.Run
	size      float64 // extent of the drawing, run units
	sketch    float64 // standard deviation of a sketched coordinate
	axes      int     // 2 in a plane run, else 3
	places    []surveyPlace
	owner     []int // the place of each unknown
	sightings []sighting
	drawn, x  []float64   // the unknowns as drawn, and as they stand
	mirrors   [][]float64 // the unknowns where else they may as well be
	unsure    float64     // times their standard deviations is what the measurements count for; at last 1
}

// surveyPlace is a point or pivot.
type surveyPlace struct {
	ref   linkage.PlaceRef
	drawn vec
	first int // its first unknown; -1: it is exact
}

// sighting is a measurement between two places.
type sighting struct {
	measured *linkage.Measurement
	from, to int     // places
	is       float64 // run units or radians
	sigma    float64 // standard deviation
}

func newSurveyNet(run *linkage.Run) *surveyNet {
	n := &surveyNet{run: run, size: run.Size(), sketch: run.Sketch, axes: 3, unsure: 1}
	if run.Plane {
		n.axes = 2
	}
	type key struct {
		part  *linkage.Part
		point int
	}
	number := make(map[key]int)
	for i, ref := range Places(run) {
		place := surveyPlace{ref: ref, drawn: ref.At(), first: -1}
		if !ref.Part.Exact && run.Sketch > 0 {
			place.first = len(n.x)
			for axis := range n.axes {
				n.owner = append(n.owner, i)
				n.x = append(n.x, *component(&place.drawn, axis))
			}
		}
		number[key{ref.Part, ref.Point}] = i
		n.places = append(n.places, place)
	}
	n.drawn = append([]float64(nil), n.x...)
	for _, m := range run.Measurements {
		g := sighting{
			measured: m, is: m.Is, sigma: m.Within / 2,
			from: number[key{m.From.Part, m.From.Point}], to: number[key{m.To.Part, m.To.Point}],
		}
		if m.Kind == linkage.Gauged {
			g.is, g.sigma = float64(g.is*degree), float64(g.sigma*degree)
		}
		n.sightings = append(n.sightings, g)
	}
	return n
}

// component returns a coordinate of a place.
func component(v *vec, axis int) *float64 { return [...]*float64{&v.X, &v.Y, &v.Z}[axis] }

// dimension names an unknown.
func (n *surveyNet) dimension(u int) linkage.Dimension {
	p := n.places[n.owner[u]]
	return linkage.Dimension{Part: p.ref.Part, Point: p.ref.Point, Axis: u - p.first}
}

// at returns where a place is with the unknowns at x.
func (n *surveyNet) at(place int, x []float64) vec {
	p := n.places[place]
	v := p.drawn
	if p.first >= 0 {
		for axis := range n.axes {
			*component(&v, axis) = x[p.first+axis]
		}
	}
	return v
}

// between is the line from one place to another.
func (n *surveyNet) between(from, to int, x []float64) vec {
	return n.at(to, x).Sub(n.at(from, x))
}

// seen is a line's length as far as it can be adjusted: in a plane run, where
// heights are exact, as seen in the drawing.
func (n *surveyNet) seen(d vec) float64 {
	if n.axes == 2 {
		return elementary.Hypot(d.X, d.Y)
	}
	return d.Norm()
}

// misfit is what was measured less what the places have, a direction to the
// nearest turn, in (-pi, pi].
func (n *surveyNet) misfit(g *sighting, x []float64) float64 {
	d := n.between(g.from, g.to, x)
	if g.measured.Kind == linkage.Taped {
		return g.is - d.Norm()
	}
	off := math.Remainder(g.is-elementary.Atan2(d.Y, d.X), 2*math.Pi)
	if off <= -math.Pi {
		off += 2 * math.Pi
	}
	return off
}

// drawnTogether is the distance, as a share of the run's size, within which two
// places are drawn in one: what typed coordinates are rounded to. No direction
// goes from one to the other.
const drawnTogether = 1e-9

// slope is how a measurement goes with its `to` end; it goes with its `from` end
// the other way.
func (n *surveyNet) slope(g *sighting, x []float64) vec {
	d := n.between(g.from, g.to, x)
	if g.measured.Kind == linkage.Taped {
		return d.Unit()
	}
	r := math.Max(elementary.Hypot(d.X, d.Y), drawnTogether*n.size)
	return vec{X: -d.Y / r / r, Y: d.X / r / r}
}

// bend is the second derivative of a measurement with its `to` end, by rows.
func (n *surveyNet) bend(g *sighting, x []float64) [3]vec {
	d := n.between(g.from, g.to, x)
	if g.measured.Kind == linkage.Taped {
		r, u := math.Max(d.Norm(), drawnTogether*n.size), d.Unit()
		row := func(axis vec) vec { return axis.Sub(u.Scale(u.Dot(axis))).Scale(1 / r) }
		return [3]vec{row(vec{X: 1}), row(vec{Y: 1}), row(vec{Z: 1})}
	}
	r := math.Max(elementary.Hypot(d.X, d.Y), drawnTogether*n.size)
	c, s := d.X/r, d.Y/r
	along, across := 2*c*s/r/r, (float64(s*s)-float64(c*c))/r/r
	return [3]vec{{X: along, Y: across}, {X: across, Y: -along}, {}}
}

// surveyEnd is an end of a line that isn't exact: its first unknown, and -1 at
// `from`, +1 at `to`.
type surveyEnd struct {
	first int
	sign  float64
}

// ends returns the ends of a line between two places that aren't exact.
func (n *surveyNet) ends(from, to int) (list []surveyEnd) {
	if first := n.places[from].first; first >= 0 {
		list = append(list, surveyEnd{first, -1})
	}
	if first := n.places[to].first; first >= 0 {
		list = append(list, surveyEnd{first, 1})
	}
	return list
}

// row is what goes with a line between two places, given how it goes with the
// `to` end.
func (n *surveyNet) row(from, to int, slope vec) []float64 {
	row := make([]float64, len(n.x))
	for _, e := range n.ends(from, to) {
		for axis := range n.axes {
			row[e.first+axis] = float64(e.sign * *component(&slope, axis))
		}
	}
	return row
}

// system returns the measurements as rows over their standard deviations, with
// what they are off on the right, and below them a row for each unknown that
// ties it to where it stands with the weight's root `tie`.
func (n *surveyNet) system(tie float64) (rows *mat.Dense, off []float64) {
	m, size := len(n.sightings), len(n.x)
	rows = mat.NewDense(m+size, size, nil)
	off = make([]float64, m+size)
	for i := range n.sightings {
		g := &n.sightings[i]
		sigma := float64(n.unsure * g.sigma)
		off[i] = n.misfit(g, n.x) / sigma
		rows.SetRow(i, n.row(g.from, g.to, n.slope(g, n.x).Scale(1/sigma)))
	}
	for u := range n.x {
		rows.Set(m+u, u, tie)
	}
	return rows, off
}
