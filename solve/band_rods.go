// Layer: questions.

package solve

import (
	"cmp"
	"math"
	"slices"
)

// rodStrand is one rod of a requirement that is about all of them: its quantity, and
// where that is worst by itself.
type rodStrand struct {
	g     *gradients
	q     quantity
	tell  figure
	worst float64 // the requirement's figure there
	at    float64
}

// rods takes in rods, each at its own worst and at both ends of the travel. One that is
// worst inside the travel is looked at there only if it can be the worst of all: by
// its band at the ends.
func (t *gathered) rods(b *bands, list []rodStrand) {
	type later struct {
		*rodStrand
		p    *places
		most float64 // what the figure may be there
	}
	var inside []later
	for i := range list {
		r := &list[i]
		p := b.atEndsAnd(r.g, r.q)
		for k, sd := range r.g.s.sides {
			// Where it is on center its angle is 0 as long as that ends the travel.
			if p.sides[k] && sd.onCenter() < 0 {
				t.untold(p.why)
			}
		}
		band := 0.0
		for k := range p.list {
			at := &p.list[k]
			t.take(p, at, r.tell)
			band = math.Max(band, math.Abs(r.tell(at.v, at.band)-r.tell(at.v, 0)))
		}
		t.spare(b, p)
		w := r.g.s.sweep
		if r.at > w.Low && r.at < w.High {
			inside = append(inside, later{r, p, float64(t.sign*r.worst) + float64(bandMayGrow*band)})
		} else if len(p.list) < 2 {
			t.takeShift(r.worst, 0, b.m.newSums(b.slots), b.perhaps(r.g, r.at))
		}
	}
	slices.SortStableFunc(inside, func(x, y later) int { return cmp.Compare(y.most, x.most) })
	for _, r := range inside {
		if len(r.p.list) > 0 && r.most < t.sign*t.worse && r.most < t.sign*t.found {
			break
		}
		r.p.inside(r.at)
		if at := r.p.find(r.at); at != nil {
			t.take(r.p, at, r.tell)
		} else {
			t.untold(BandOnCenter)
		}
	}
}

// spare gives back the room of the gradients at places on which nothing rests: of a
// long run there are many, and each is as large as its drawing.
func (t *gathered) spare(b *bands, p *places) {
	for i := range p.list {
		by := p.list[i].by
		if t.bad != nil && t.bad.by == by || t.good != nil && t.good.by == by || t.slope == by || slices.Contains(t.rests, by) {
			continue
		}
		p.list[i].by = nil
		b.spare = append(b.spare, by)
	}
}

// bandMayGrow is how many times its band at the ends of the travel that of a rod may be
// between them and not be looked at.
const bandMayGrow = 3

// find is the place at x; nil where there is none.
func (p *places) find(x float64) *place {
	for i := range p.list {
		if p.list[i].x == x {
			return &p.list[i]
		}
	}
	return nil
}

// angleWith is the angle of a sine with a band of that, degrees. Near square, where the
// angle has no derivative by its sine, it is that of the sine with the band.
func angleWith(sine, band float64) float64 {
	cos := math.Sqrt(math.Max(0, 1-float64(sine*sine)))
	if cos < nearSquare {
		return asinDegrees(sine + band)
	}
	return asinDegrees(sine) + band/cos/degree
}

// nearSquare is the cosine of an angle below which it is near square: there its
// own derivative is lost in that of the sine.
const nearSquare = 1e-3

func (b *bands) ofRodAngle(j *Judgement) *told {
	t := j.gather()
	var list []rodStrand
	for _, g := range b.about(j.Requirement) {
		for l, rod := range b.m.run.Rods {
			if rod.SecondPath || !isAbout(j.Requirement, rod.In) {
				continue
			}
			track := g.s.trackers[l]
			list = append(list, rodStrand{
				g: g, q: quantity{probe: l, seed: b.m.seedOfSine(l)}, worst: asinDegrees(track.least), at: track.leastAt,
				tell: func(v, band float64) float64 { return math.Max(0, angleWith(v, -band)) },
			})
		}
	}
	t.rods(b, list)
	return t.done(b, j)
}

func (b *bands) ofMisalignment(j *Judgement) *told {
	r, t := j.Requirement, j.gather()
	var list []rodStrand
	for _, g := range b.about(r) {
		for l, rod := range b.m.run.Rods {
			if !isAbout(r, rod.In) {
				continue
			}
			own := 0.0
			if r.Most == nil {
				if rod.Misalignment == nil {
					continue
				}
				own = *rod.Misalignment
			}
			for i, probe := range g.s.tilts[l] {
				track := g.s.trackers[probe]
				at := track.mostAt
				if -track.least > track.most {
					at = track.leastAt
				}
				list = append(list, rodStrand{
					g: g, q: quantity{probe: probe, seed: b.m.seedOfTilt(rod, i == 1)}, worst: asinDegrees(g.s.largest(probe)) - own, at: at,
					tell: func(v, band float64) float64 { return math.Max(0, angleWith(math.Abs(v), band)) - own },
				})
			}
		}
	}
	t.rods(b, list)
	return t.done(b, j)
}

// ofSecondPath: how far a second path is from what it needs, beyond its play.
func (b *bands) ofSecondPath(j *Judgement) *told {
	t := j.gather()
	for _, g := range b.about(j.Requirement) {
		for l, rod := range b.m.run.Rods {
			if !rod.SecondPath || !isAbout(j.Requirement, rod.In) {
				continue
			}
			q := quantity{probe: g.s.needed[l], seed: func(l2 *linear, c float64) { l2.pushOff(l, c) }}
			t.strand(b.over(g, q, j.placesIn(g)...), func(v, band float64) float64 {
				return math.Max(0, math.Abs(v-b.m.constraints[l].length)+band-rod.Play)
			})
		}
	}
	return t.done(b, j)
}

// ofTaut: the tension of either cable of a pair. Where one hangs loose there is no
// telling how much looser it would be.
func (b *bands) ofTaut(j *Judgement) *told {
	if *j.Worst == 0 {
		return &told{why: BandSlackCable}
	}
	r, t := j.Requirement, j.gather()
	for _, g := range b.about(r) {
		for _, c := range r.Pair.Cables {
			q := quantity{probe: g.s.tensions[c.Index], seed: b.m.seedOfTension(c)}
			t.strand(b.over(g, q, j.placesIn(g)...), func(v, band float64) float64 { return math.Max(0, v-band) })
		}
	}
	return t.done(b, j)
}
