// Layer: questions.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
)

// ofCyclicSense: where pitch is least goes with the drawing as the direction of the harmonic
// does that the hand makes: across it, by what that is long. An azimuth is told by the
// blade's direction, which its hinge gives; the drawing moves it through the harmonic alone.
func (b *bands) ofCyclicSense(j *Judgement) *told {
	r, t := j.Requirement, j.gather()
	i := slices.Index(b.m.run.Requirements, r)
	var about []*sweeper
	along, around := map[*sweeper]*gradients{}, map[*sweeper]cycleSums{}
	for _, g := range b.about(r) {
		about = append(about, g.s)
		along[g.s] = g
	}
	list, _ := b.m.handPitches(i, r, about)
	blade, ok := BladeOf(b.m.run, r.Of[0].Output)
	if len(list) == 0 || !ok {
		return nil
	}
	for k := range list {
		h := &list[k]
		if h.amiss != Plain {
			continue
		}
		by, ok := b.phaseBy(i, r, h, along, around)
		if !ok {
			return &told{why: BandOnCenter}
		}
		by.scale(blade.With)
		band := b.band(by)
		t.against(math.Abs(h.off)+band, by)
		t.inFavor(math.Max(0, math.Abs(h.off)-band))
		side := math.Copysign(1, h.off)
		t.drawn(math.Abs(h.off), by, side)
	}
	return t.done(b, j)
}

// phaseBy is how the place of least pitch goes with the drawing, degrees of the control. What
// it takes around a turn is kept, since one neutral serves both ends of the hand.
func (b *bands) phaseBy(i int, r *linkage.Requirement, h *handPitch, along map[*sweeper]*gradients, around map[*sweeper]cycleSums) (by *sums, ok bool) {
	by = b.m.newSums(b.slots)
	per := float64(h.amplitude * h.amplitude * degree)
	for _, of := range []struct {
		s    *sweeper
		sign float64
	}{{h.at, 1}, {h.from, -1}} {
		k, sign, why := of.s.pitchIn(i, r)
		if why != Plain {
			return nil, false
		}
		c, known := around[of.s]
		if !known {
			g := along[of.s]
			if c, ok = g.aroundTurn(g.required(r, g.s.judgedOf(r).probe), k); !ok {
				return nil, false
			}
			around[of.s] = c
		}
		turned := float64(of.sign*sign) / per
		by.addScaled(c.sine, float64(turned*h.cosine))
		by.addScaled(c.cosine, float64(-turned*h.sine))
	}
	return by, true
}
