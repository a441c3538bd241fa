package photo

import (
	"math"

	"fullfree/linkage/elementary"
)

// kind is what was measured.
type kind int

const (
	taped kind = iota
	gauged
	told // the camera's distance
)

// sighting is a measurement as the adjustment takes it.
type sighting struct {
	kind     kind
	from, to int     // picks; 0 of the camera's distance
	is       float64 // run units, radians, or the logarithm of the distance
	sigma    float64 // its standard deviation
	// apart is by how much the depths of its ends differ as told or guessed, and aside the
	// variance of that: see sightings.
	apart, aside float64
}

// sightings are what was measured: the distances, the directions, the camera's distance.
//
// A difference of depths makes a distance longer by its square over twice the distance,
// so one that isn't known does nothing to first order where 0 is guessed, but makes it
// longer in the mean: by its variance v over twice the distance, with a standard deviation
// of the root of two times that. Both are taken into account, and else a distance goes
// straight with an error of depth: were it searched for, it would be as good to either side.
func (p *Photo) sightings(of *prior) []sighting {
	list := make([]sighting, 0, len(p.Tapes)+len(p.Levels)+1)
	for _, t := range p.Tapes {
		a, b := p.depthSigma(of, t.From), p.depthSigma(of, t.To)
		aside := float64(a*a) + float64(b*b)
		read := max(t.Within/2, of.finest*t.Is)
		list = append(list, sighting{
			kind: taped, from: t.From, to: t.To, is: t.Is,
			apart: p.Picks[t.To].Depth - p.Picks[t.From].Depth, aside: aside,
			sigma: elementary.Hypot(read, aside/t.Is/math.Sqrt2),
		})
	}
	for _, l := range p.Levels {
		list = append(list, sighting{
			kind: gauged, from: l.From, to: l.To,
			is: float64(math.Remainder(l.Is, 360) * degree), sigma: float64(max(l.Within/2, of.finestTurn) * degree),
		})
	}
	if p.Away > 0 {
		share := toldAway
		if p.AwayWithin > 0 {
			share = p.AwayWithin / 2 / p.Away
		}
		list = append(list, sighting{kind: told, is: elementary.Log(p.Away), sigma: max(share, finestAway)})
	}
	return list
}

// depthSigma is how far a pick's depth may be out.
func (p *Photo) depthSigma(of *prior, pick int) float64 {
	if p.Picks[pick].DepthKnown {
		return of.known
	}
	return of.guess
}

// row is a sighting as it stands: what was measured less what the places have, and how
// the places' figure goes with each unknown; all over standard deviations.
type row struct {
	off      float64
	camera   [cameraSize]float64
	from, to int
	ends     [2][pickSize]float64 // of from and of to
}

// tell fills in the row of a sighting between two picks that are seen so.
func (g *sighting) tell(from, to *seen, r *row) {
	x, y := to.x-from.x, to.y-from.y
	flat := elementary.Hypot(x, y)
	var byX, byY, byZ float64
	switch g.kind {
	case taped:
		length := math.Sqrt(float64(x*x) + float64(y*y) + float64(g.apart*g.apart) + g.aside)
		byZ = g.apart / length
		longer := float64(byZ * (to.depth - from.depth - g.apart))
		r.off = g.is - length - longer
		byX, byY = (1-longer/length)*x/length, (1-longer/length)*y/length
	default:
		r.off = math.Remainder(g.is-elementary.Atan2(y, x), 2*math.Pi)
		byX, byY = -y/flat/flat, x/flat/flat
	}
	r.off /= g.sigma
	r.from, r.to = g.from, g.to
	by := func(of [2]float64) float64 { return (float64(byX*of[0]) + float64(byY*of[1])) / g.sigma }
	for k := range r.camera {
		r.camera[k] = by(to.camera[k]) - by(from.camera[k])
	}
	for k := range pickSize {
		r.ends[0][k], r.ends[1][k] = -by(from.pick[k]), by(to.pick[k])
	}
	r.ends[0][depth] -= byZ / g.sigma
	r.ends[1][depth] += byZ / g.sigma
}

// scale brings what a row goes with to unknowns that are told in standard deviations.
func (r *row) scale(camera *[cameraSize]float64, from, to *[pickSize]float64) {
	for k := range r.camera {
		r.camera[k] = float64(r.camera[k] * camera[k])
	}
	for k := range pickSize {
		r.ends[0][k], r.ends[1][k] = float64(r.ends[0][k]*from[k]), float64(r.ends[1][k]*to[k])
	}
}

// shrink makes a row count for less.
func (r *row) shrink(by float64) {
	r.off = float64(r.off * by)
	for k := range r.camera {
		r.camera[k] = float64(r.camera[k] * by)
	}
	for k := range pickSize {
		r.ends[0][k], r.ends[1][k] = float64(r.ends[0][k]*by), float64(r.ends[1][k]*by)
	}
}

// dot is the product of two rows, as vectors over all unknowns.
func (r *row) dot(other *row) float64 {
	sum := 0.0
	for k := range r.camera {
		sum += float64(r.camera[k] * other.camera[k])
	}
	sum += r.dotPick(other.from, &other.ends[0])
	return sum + r.dotPick(other.to, &other.ends[1])
}

// dotPick is the product with a vector over one pick's unknowns.
func (r *row) dotPick(pick int, v *[pickSize]float64) float64 {
	sum := 0.0
	for end, of := range [2]int{r.from, r.to} {
		if of == pick {
			for k := range pickSize {
				sum += float64(r.ends[end][k] * v[k])
			}
		}
	}
	return sum
}
