// Layer: questions.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
)

// The mean and the harmonic of a cycle are integrals over a turn whose ends stay where they
// are, so how they go with the drawing is the same integral of how the output does.

// cycleSums are how a cycle goes with the drawing.
type cycleSums struct{ mean, cosine, sine *sums }

// aroundTurn finds that of a quantity; false where there is no telling.
func (g *gradients) aroundTurn(q quantity, k *Cycle) (c cycleSums, ok bool) {
	c = cycleSums{g.m.newSums(g.slots), g.m.newSums(g.slots), g.m.newSums(g.slots)}
	weights := newCycleWeights(k.from, k.nodes)
	for j := range k.nodes {
		l := g.beside(k.from + float64(wholeTurn*float64(j))/float64(k.nodes))
		if l == nil || !l.gradient(g.work, func(l *linear) { q.seed(l, 1) }) {
			return c, false
		}
		c.mean.addScaled(g.work, 1/float64(k.nodes))
		c.cosine.addScaled(g.work, weights.cosine[j])
		c.sine.addScaled(g.work, weights.sine[j])
	}
	return c, true
}

// pitchPlace is the pitch at one combination of held settings, with its band.
type pitchPlace struct {
	v, band, aside float64
	by             *sums
}

// pitchAt finds it. What moves the harmonic square to itself counts in the square alone,
// which is all where there is no harmonic.
func (b *bands) pitchAt(g *gradients, r *linkage.Requirement, k *Cycle, sign float64) (p pitchPlace, ok bool) {
	c, ok := g.aroundTurn(g.required(r, g.s.judgedOf(r).probe), k)
	if !ok {
		return p, false
	}
	p.v = pitchOf(r, k, sign)
	if r.Kind == linkage.CollectivePitch {
		p.by = c.mean
		p.by.scale(sign)
		p.band = b.band(p.by)
		return p, true
	}
	cosine, sine := 1.0, 0.0
	if k.Amplitude > settled {
		cosine, sine = k.Cosine/k.Amplitude, k.Sine/k.Amplitude
	}
	p.by = b.m.newSums(b.slots)
	p.by.addScaled(c.cosine, cosine)
	p.by.addScaled(c.sine, sine)
	p.band = b.band(p.by)
	c.cosine.scale(-sine)
	c.cosine.addScaled(c.sine, cosine)
	p.aside = b.band(c.cosine)
	return p, true
}

// farthest is what the pitch may come to, up where sign is 1 and down where it is -1, and
// nearest what it surely does.
func (p *pitchPlace) farthest(sign float64) float64 {
	far := p.v + float64(sign*p.band)
	if p.aside == 0 {
		return far
	}
	if sign < 0 {
		return math.Max(0, far)
	}
	return math.Sqrt(float64(far*far) + float64(asideCounts*p.aside*p.aside))
}

// ofPitch: the least and the most of all settings may miss their figures to either side.
func (b *bands) ofPitch(j *Judgement) *told {
	r, t := j.Requirement, j.gather()
	var list []pitchPlace
	for _, g := range b.about(r) {
		if !g.s.pitchConcerns(r) {
			continue
		}
		k, sign, _ := g.s.pitchIn(slices.Index(b.m.run.Requirements, r), r)
		if k == nil {
			continue
		}
		p, ok := b.pitchAt(g, r, k, sign)
		if !ok {
			return &told{why: BandOnCenter}
		}
		list = append(list, p)
		t.rests = append(t.rests, p.by)
	}
	if len(list) == 0 {
		return nil
	}
	if r.Most != nil {
		for i := range list {
			p := &list[i]
			t.against(p.farthest(1), nil)
			t.inFavor(p.farthest(-1))
			t.drawnPitch(p, 0, 1)
		}
		return t.done(b, j)
	}
	for _, figure := range []struct{ sign, wants float64 }{{-1, r.Low}, {1, r.High}} {
		// What is reached lies between the farthest that any setting may come to and the
		// farthest that one surely does.
		far, near, at := math.Inf(-1), math.Inf(-1), 0
		for i := range list {
			p := &list[i]
			far = math.Max(far, float64(figure.sign*p.farthest(figure.sign)))
			near = math.Max(near, float64(figure.sign*p.farthest(-figure.sign)))
			if figure.sign*p.v > figure.sign*list[at].v {
				at = i
			}
		}
		over, under := far-float64(figure.sign*figure.wants), near-float64(figure.sign*figure.wants)
		better := math.Min(math.Abs(over), math.Abs(under))
		if over > 0 && under < 0 {
			better = 0
		}
		t.against(math.Max(math.Abs(over), math.Abs(under)), nil)
		t.inFavor(better)
		v := list[at].v - figure.wants
		t.drawnPitch(&list[at], figure.wants, math.Copysign(1, v))
	}
	return t.done(b, j)
}

// drawnPitch takes in the pitch as drawn, by which side of what is wanted it lies.
func (t *gathered) drawnPitch(p *pitchPlace, wants, side float64) {
	by := p.by
	if p.v <= settled && p.aside > 0 {
		by = nil // a harmonic of no size has no slope
	}
	t.drawn(float64(side*(p.v-wants)), by, side)
}
