// Layer: questions.

package solve

import "math"

const (
	// bandSteps is into how many steps the travel is parted to look where a quantity
	// with its band is worst, and bandHalvings how often the steps about the worst
	// are halved then: what is missed of a bend goes with the square of the last.
	bandSteps    = 8
	bandHalvings = 4
)

// place is a quantity at one place of the travel, with its band.
type place struct {
	x, v, band float64
	by         *sums // its derivatives
	side       *side // the end of the travel that it is; nil: inside
	// others are what the quantity is where another stop bites farther out on that
	// side, which may come to bite first.
	others []place
}

// places are a quantity along the travel of one sweep.
type places struct {
	b    *bands
	g    *gradients
	q    quantity
	list []place
	// why is the reason why the quantity isn't known at an end of the travel, or beside
	// it; sides says at which.
	why   NoBand
	sides [2]bool
	// common is as far as is looked to either side, of a quantity that is mirrored; 0: as
	// far as the travel goes.
	common float64
}

// over finds a quantity over the travel of a sweep: at both ends, at neutral, at
// steps between, and at some more places.
func (b *bands) over(g *gradients, q quantity, more ...float64) *places {
	p := &places{b: b, g: g, q: q}
	w := g.s.sweep
	for i, sd := range g.s.sides {
		p.end(i, sd)
	}
	for i := 1; i < bandSteps; i++ {
		p.inside(w.Low + (w.High-w.Low)*float64(i)/bandSteps)
	}
	for _, x := range append(more, 0) {
		p.inside(x)
	}
	for _, x := range g.edges() { // where it bends without being smooth
		p.inside(x)
	}
	return p
}

// edges are the places inside the travel at which a pair goes slack or comes taut.
func (g *gradients) edges() (list []float64) {
	for _, stretches := range g.s.slack {
		for _, s := range stretches {
			for _, x := range s {
				if x > g.s.sweep.Low && x < g.s.sweep.High {
					list = append(list, x)
				}
			}
		}
	}
	return list
}

// besideEdge reports whether a place of a rate lies next to where a pair goes slack or
// comes taut: there a rate jumps, and the worst goes with the place of that.
func (p *places) besideEdge(at *place) bool {
	if !p.q.ofRates() {
		return false
	}
	for _, edge := range p.g.edges() {
		next := true
		for k := range p.list {
			if x := p.list[k].x; (x-at.x)*(edge-x) > 0 {
				next = false
			}
		}
		if next {
			return true
		}
	}
	return false
}

// atEndsAnd finds it at both ends of the travel and at some more places alone.
func (b *bands) atEndsAnd(g *gradients, q quantity, more ...float64) *places {
	p := &places{b: b, g: g, q: q}
	for i, sd := range g.s.sides {
		p.end(i, sd)
	}
	for _, x := range more {
		p.inside(x)
	}
	return p
}

// inside adds a place inside the travel, the control kept there.
func (p *places) inside(x float64) bool {
	w := p.g.s.sweep
	if !(x > w.Low && x < w.High) || p.common > 0 && !(math.Abs(x) < p.common) {
		return false
	}
	for i := range p.list {
		if p.list[i].x == x {
			return false
		}
	}
	by := p.b.sums()
	v, ok := p.g.of(p.q, x, by)
	if !ok {
		return false
	}
	p.list = append(p.list, place{x: x, v: v, by: by, band: p.b.band(by)})
	return true
}

// end adds an end of the travel, which moves with what makes it.
func (p *places) end(i int, sd *side) {
	at, why := p.b.atEnd(p.g, p.q, sd)
	if at == nil {
		p.sides[i], p.why = true, why
		return
	}
	for _, stop := range p.g.m.run.Stops {
		if stop != sd.stop && sd.bites[stop.Index] != nil {
			if dx, ok := p.g.bite(sd, stop); ok {
				if other := p.b.moving(p.g, p.q, *sd.bites[stop.Index], dx); other != nil {
					at.others = append(at.others, *other)
				}
			}
		}
	}
	p.list = append(p.list, *at)
}

// atEnd is a quantity at an end of the travel; nil, with the reason, where there is
// no telling.
func (b *bands) atEnd(g *gradients, q quantity, sd *side) (at *place, why NoBand) {
	if sd.onCenter() >= 0 {
		if sd.w.singularity.kind == ChangePoint {
			return nil, BandChangePoint
		}
		if dx, ok := g.inLine(sd); ok && !q.ofRates() {
			if at = b.moving(g, q, sd.end.x, dx); at != nil {
				at.side = sd
				return at, BandTold
			}
		}
		f := g.foldOf(sd)
		if f == nil {
			return nil, BandOnCenter
		}
		by, ok := f.total(g, q)
		if !ok {
			return nil, BandOnCenter
		}
		v := sd.end.v[q.probe]
		if q.since {
			v -= g.s.origin.v[q.probe]
		}
		return &place{x: sd.end.x, v: v, by: by, band: b.band(by), side: sd}, BandTold
	}
	dx, ok := g.end(sd)
	if ok {
		at = b.moving(g, q, sd.end.x, dx)
	}
	if at == nil {
		return nil, BandSlackCable
	}
	at.side = sd
	return at, BandTold
}

// moving is a quantity at a place that goes with the drawing as dx tells; nil where
// there is no telling.
func (b *bands) moving(g *gradients, q quantity, x float64, dx *sums) *place {
	by := b.sums()
	v, ok := g.of(q, x, by)
	if !ok {
		return nil
	}
	rate := g.at(x).dv[q.probe]
	if math.IsNaN(rate) {
		return nil
	}
	by.addScaled(dx, rate)
	return &place{x: x, v: v, by: by, band: b.band(by)}
}

// worst returns the place at which a figure is largest, looked at ever more closely
// about it; nil where there is none. tell is the figure of a place.
func (p *places) worst(tell func(*place) float64) *place {
	if len(p.list) == 0 {
		return nil
	}
	best := p.most(tell)
	h := (p.g.s.sweep.High - p.g.s.sweep.Low) / bandSteps
	for range bandHalvings {
		h /= 2
		x := p.list[best].x
		p.inside(x - h)
		p.inside(x + h)
		best = p.most(tell)
	}
	return &p.list[best]
}

func (p *places) most(tell func(*place) float64) (best int) {
	for i := range p.list {
		if tell(&p.list[i]) > tell(&p.list[best]) {
			best = i
		}
	}
	return best
}

// besideUntold reports whether a place lies next to an end of the travel at which the
// quantity isn't known: then the worst may lie there.
func (p *places) besideUntold(at *place) bool {
	for i, untold := range p.sides {
		if !untold {
			continue
		}
		next := true
		for k := range p.list {
			if i == 0 && p.list[k].x < at.x || i == 1 && p.list[k].x > at.x {
				next = false
			}
		}
		if next {
			return true
		}
	}
	return false
}
