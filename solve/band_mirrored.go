// Layer: questions.

package solve

import (
	"math"

	"fullfree/linkage"
)

// offBy is by how much a quantity is off from what is wanted, with a band.
func offBy(wants float64) figure {
	return func(v, band float64) float64 { return math.Max(0, math.Abs(v-wants)+band) }
}

// ofNeutral: where something stands at neutral.
func (b *bands) ofNeutral(j *Judgement) *told {
	t := j.gather()
	k := b.m.subjectMeasure(j.Requirement.Of[0])
	k.reads = 0
	var point *linkage.PointRef
	if o := j.Requirement.Of[0].Output; o != nil {
		own, _ := b.m.run.Subject(j.Requirement.Of[0])
		point = own.Output.Point
	}
	l := b.m.newLinear(b.slots)
	l.at(&b.m.neutral)
	by, seed := b.m.newSums(b.slots), k.seed(point)
	if !l.gradient(by, func(l *linear) { seed(l, 1) }) {
		return &told{why: BandOnCenter}
	}
	v, band, off := b.m.neutralValue(&k), b.band(by), offBy(0)
	t.against(off(v, band), by)
	t.inFavor(off(v, -band))
	if v != 0 {
		t.drawn(math.Abs(v), by, math.Copysign(1, v))
	}
	return t.done(b, j)
}

// ofReading: what is read with the control kept at one place.
func (b *bands) ofReading(j *Judgement) *told {
	r, t := j.Requirement, j.gather()
	for _, g := range b.about(r) {
		x, end := g.s.placeOfReading(r)
		if end >= 0 {
			continue
		}
		if b.perhaps(g, x) || g.endsNear(b, x) {
			return &told{why: BandEndsBefore}
		}
		p := &places{b: b, g: g, q: g.required(r, g.s.judgedOf(r).probe)}
		by := b.sums()
		v, ok := g.of(p.q, x, by)
		if !ok {
			t.untold(BandOnCenter)
			continue
		}
		t.take(p, &place{x: x, v: v, by: by, band: b.band(by)}, offBy(r.Wants))
	}
	return t.done(b, j)
}

// endsNear reports whether a build's travel may end before x, which is an end as drawn.
func (g *gradients) endsNear(b *bands, x float64) bool {
	sd := g.s.sideOf(x)
	if x == 0 || x != sd.end.x {
		return false
	}
	dx, ok := g.end(sd)
	return !ok || b.band(dx) > judgeNoise
}

// ofSymmetrical: two quantities at mirrored places, as far as the shorter side of the
// travel goes, whose end moves with what makes it.
func (b *bands) ofSymmetrical(j *Judgement) *told {
	r, t := j.Requirement, j.gather()
	tell := offBy(0)
	for _, g := range b.about(r) {
		common := g.s.commonTravel()
		if common == 0 {
			continue
		}
		p := &places{b: b, g: g, q: g.required(r, g.s.judgedOf(r).probe), common: common}
		for i, sd := range g.s.sides {
			if math.Abs(sd.end.x) > common+float64(tieOfStops*common) {
				continue // the other side ends before it
			}
			dx, ok := g.end(sd)
			if !ok {
				p.sides, p.why = [2]bool{true, true}, BandOnCenter
				continue
			}
			for _, x := range []float64{common, -common} {
				by := b.sums()
				v, ok := g.of(p.q, x, by)
				rate := g.rateAt(p.q, x)
				if !ok || math.IsNaN(rate) {
					p.sides, p.why = [2]bool{true, true}, BandOnCenter
					continue
				}
				by.addScaled(dx, float64(rate*math.Copysign(1, x)*float64(2*i-1)))
				p.list = append(p.list, place{x: x, v: v, by: by, band: b.band(by)})
			}
		}
		for i := 1 - bandSteps; i < bandSteps; i++ {
			p.inside(float64(common * float64(i) / bandSteps))
		}
		for _, x := range append(g.edges(), j.placesIn(g)...) {
			p.inside(x)
			p.inside(-x)
		}
		t.strand(p, tell)
	}
	return t.done(b, j)
}
