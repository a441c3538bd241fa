// Layer: questions.

package solve

import (
	"math"

	"fullfree/linkage"
)

// WorseBy is +1 for a requirement whose figure is worse the larger it is, -1 where it
// is worse the smaller.
func WorseBy(k linkage.Kind) float64 {
	switch k {
	case linkage.Sense, linkage.OverCenter, linkage.RodAngle, linkage.Clearance, linkage.Order, linkage.Engagement, linkage.Taut:
		return -1
	}
	return 1
}

// of is what a judgement's figure comes to with its band; nil where it has no figure,
// or none that hangs on the drawing.
func (b *bands) of(j *Judgement) *told {
	if j.Worst == nil || j.Why != Plain && j.Why != HaltsOrNoise {
		return nil
	}
	switch j.Requirement.Kind {
	case linkage.Opposite, linkage.Together, linkage.Steady, linkage.Sense, linkage.Clearance:
		return b.ofProbe(j)
	case linkage.Travel:
		return b.ofTravel(j)
	case linkage.RodAngle:
		return b.ofRodAngle(j)
	case linkage.Misalignment:
		return b.ofMisalignment(j)
	case linkage.SecondPath:
		return b.ofSecondPath(j)
	case linkage.Taut:
		return b.ofTaut(j)
	case linkage.OverCenter:
		return b.ofOverCenter(j)
	case linkage.Order:
		return b.ofOrder(j)
	case linkage.Meets:
		return b.ofMeets(j)
	case linkage.Neutral:
		return b.ofNeutral(j)
	case linkage.Symmetrical:
		return b.ofSymmetrical(j)
	case linkage.Reading:
		return b.ofReading(j)
	case linkage.CollectivePitch, linkage.CyclicPitch:
		return b.ofPitch(j)
	case linkage.CyclicSense:
		return b.ofCyclicSense(j)
	}
	return nil
}

// about are the gradients along every sweep in which a requirement is judged.
func (b *bands) about(r *linkage.Requirement) (list []*gradients) {
	for _, w := range b.result.Sweeps {
		if b.m.concerns(w.Control, r) {
			list = append(list, b.in(w))
		}
	}
	return list
}

// gathered is the worst of several places, of sweeps and rods.
type gathered struct {
	told
	sign                float64 // +1: larger is worse
	hasWorse, hasBetter bool
	found               float64 // the worst without a band
	hasFound            bool
	// bad and good are the places of the worst with the band against it and for it.
	bad, good *strandPlace
}

func (j *Judgement) gather() *gathered {
	return &gathered{sign: WorseBy(j.Requirement.Kind)}
}

// figure is what a requirement makes of a quantity with a band: against the
// requirement where that is above 0, for it where it is below.
type figure func(v, band float64) float64

// strandPlace is a place of a quantity of which a figure is told.
type strandPlace struct {
	place
	g    *gradients
	q    quantity
	tell figure
}

// against takes in a figure with the band against it.
func (t *gathered) against(worse float64, by *sums) {
	if !t.hasWorse || t.sign*worse > t.sign*t.worse {
		t.worse, t.hasWorse, t.bad = worse, true, nil
		if by != nil {
			t.rests = append(t.rests, by)
		}
	}
}

// inFavor takes in a figure with the band for it.
func (t *gathered) inFavor(better float64) {
	if !t.hasBetter || t.sign*better > t.sign*t.better {
		t.better, t.hasBetter, t.good = better, true, nil
	}
}

// drawn takes in a figure as drawn, with how it goes with the drawing: per times by.
func (t *gathered) drawn(v float64, by *sums, per float64) {
	if !t.hasFound || t.sign*v > t.sign*t.found {
		t.found, t.hasFound, t.slope, t.per = v, true, by, per
	}
}

// take takes in a quantity of which a figure is told. others are where another stop
// may end the travel before it.
func (t *gathered) take(p *places, k *place, tell figure) {
	at := &strandPlace{*k, p.g, p.q, tell}
	if worse := tell(k.v, k.band); !t.hasWorse || t.sign*worse > t.sign*t.worse {
		t.against(worse, k.by)
		t.bad = at
	}
	t.drawn(tell(k.v, 0), k.by, tell.slope(k.v))
	if p.b.perhaps(p.g, k.x) || p.q.mirror != nil && p.b.perhaps(p.g, -k.x) {
		return
	}
	better := tell(k.v, -k.band)
	for _, o := range k.others {
		if v := tell(o.v, -o.band); t.sign*v < t.sign*better {
			better = v
		}
	}
	if !t.hasBetter || t.sign*better > t.sign*t.better {
		t.inFavor(better)
		t.good = at
	}
}

// bend takes in what a slope leaves out at the places found.
func (t *gathered) bend(b *bands, verdict Verdict) {
	if k := t.bad; k != nil {
		if v := b.bend(k.g, k.q, &k.place, k.tell, t.sign, 1); t.sign*v > t.sign*t.worse {
			t.worse = v
		}
	}
	if k := t.good; k != nil && verdict == FallsShort { // else nothing is told of it
		if v := b.bend(k.g, k.q, &k.place, k.tell, t.sign, -1); t.sign*v < t.sign*t.better {
			t.better = v
		}
	}
}

// slope is the derivative of a figure by its quantity, by differences.
func (tell figure) slope(v float64) float64 {
	by := float64(figureStep * math.Max(figureStep, math.Abs(v)))
	return (tell(v+by, 0) - tell(v-by, 0)) / (2 * by)
}

// figureStep is the share of a quantity by which it is changed for that.
const figureStep = 1e-6

// takeShift takes in a figure that goes with the drawing as its gradient tells;
// perhaps: no build need come to it.
func (t *gathered) takeShift(v, band float64, by *sums, perhaps bool) {
	t.against(v+float64(t.sign*band), by)
	if !perhaps {
		t.inFavor(v - float64(t.sign*band))
	}
	t.drawn(v, by, 1)
}

// untold notes that there is no telling.
func (t *gathered) untold(why NoBand) {
	if t.why == BandTold {
		t.why = why
	}
}

// done is what it comes to. The worst is at least what it was found to be.
func (t *gathered) done(b *bands, j *Judgement) *told {
	if t.why != BandTold {
		return &told{why: t.why}
	}
	t.bend(b, j.Verdict)
	if !t.hasWorse {
		return nil
	}
	if !t.hasBetter { // no build need come to any of it
		t.better = math.Inf(int(-t.sign))
	}
	t.ok = true
	if t.sign*t.worse < t.sign**j.Worst {
		t.worse = *j.Worst
	}
	if t.sign*t.better > t.sign**j.Worst {
		t.better = *j.Worst
	}
	return &t.told
}

// strand takes in a quantity over the travel.
func (t *gathered) strand(p *places, tell figure) {
	at := p.worst(func(k *place) float64 { return float64(t.sign * tell(k.v, k.band)) })
	switch {
	case p.why != BandTold && (at == nil || p.besideUntold(at)):
		t.untold(p.why)
		return
	case at == nil:
		return
	case p.besideEdge(at):
		t.untold(BandSlackCable)
		return
	}
	for i := range p.list {
		t.take(p, &p.list[i], tell)
	}
}

// ofProbe is that of a requirement with a quantity of its own.
func (b *bands) ofProbe(j *Judgement) *told {
	if len(j.Aside) > 0 {
		return &told{why: BandAside}
	}
	r, t := j.Requirement, j.gather()
	tell := func(v, band float64) float64 { return v - band }
	if r.Kind != linkage.Sense && r.Kind != linkage.Clearance {
		tell = func(v, band float64) float64 { return math.Max(0, math.Abs(v)+band) }
	}
	for _, g := range b.about(r) {
		k := g.s.judgedOf(r)
		if r.Kind == linkage.Sense && !g.s.movesFirst(k) {
			continue
		}
		t.strand(b.over(g, g.required(r, k.probe), j.placesIn(g)...), tell)
	}
	return t.done(b, j)
}

// movesFirst reports whether a sweep moves the first of a sense requirement at all.
func (s *sweeper) movesFirst(k judgedProbe) bool {
	t := s.trackers[k.first]
	return math.Max(math.Abs(t.least), math.Abs(t.most)) > s.p.probes[k.first].noise
}

// placesIn is where the worst was found, if in this sweep.
func (j *Judgement) placesIn(g *gradients) []float64 {
	if j.At == nil || j.Sweep != g.s.sweep.Index {
		return nil
	}
	return []float64{*j.At}
}

// ofTravel: what is reached at either end may miss its figure to either side.
func (b *bands) ofTravel(j *Judgement) *told {
	r, t := j.Requirement, j.gather()
	for _, g := range b.about(r) {
		k := g.s.judgedOf(r)
		track := g.s.trackers[k.probe]
		for _, figure := range []struct{ sign, wants, at float64 }{{-1, r.Low, track.leastAt}, {1, r.High, track.mostAt}} {
			p := b.over(g, g.required(r, k.probe), figure.at)
			far, near, by, ok := p.reach(figure.sign)
			if !ok {
				t.untold(p.why)
				continue
			}
			// Between near and far is what is reached.
			over, under := float64(figure.sign*(far-figure.wants)), float64(figure.sign*(near-figure.wants))
			worse := math.Max(math.Abs(over), math.Abs(under))
			better := math.Min(math.Abs(over), math.Abs(under))
			if over > 0 && under < 0 {
				better = 0
			}
			t.against(worse, by)
			t.inFavor(better)
			at := p.list[p.most(func(k *place) float64 { return float64(figure.sign * k.v) })]
			t.drawn(math.Abs(at.v-figure.wants), at.by, math.Copysign(1, at.v-figure.wants))
		}
	}
	return t.done(b, j)
}

// reach is how far a quantity reaches over the travel, up where sign is +1, down
// where it is -1, at most and at least.
func (p *places) reach(sign float64) (far, near float64, by *sums, ok bool) {
	at := p.worst(func(k *place) float64 { return float64(sign*k.v) + k.band })
	if at == nil || p.why != BandTold && p.besideUntold(at) {
		return 0, 0, nil, false
	}
	reaches := func(v, band float64) float64 { return v + float64(sign*band) }
	far, by = p.b.bend(p.g, p.q, at, reaches, sign, 1), at.by
	// What is surely reached: a place that a build need not come to doesn't tell.
	last := p.most(func(k *place) float64 {
		if p.b.perhaps(p.g, k.x) {
			return math.Inf(-1)
		}
		return float64(sign*k.v) - k.band
	})
	near = p.b.bend(p.g, p.q, &p.list[last], reaches, sign, -1)
	for _, o := range p.list[last].others { // another stop may end the travel before this
		near = float64(sign * math.Min(float64(sign*near), float64(sign*o.v)-o.band))
	}
	return far, near, by, true
}

// ofOverCenter: every critical point goes with the drawing, and so does the end that
// its margin counts from.
func (b *bands) ofOverCenter(j *Judgement) *told {
	if j.NoneFound {
		return &told{why: BandNotMet}
	}
	t := j.gather()
	take := func(g *gradients, margin float64, step int, sd *side, critical *sums) {
		perhaps := !math.IsInf(b.earliest(g, sd).other, 1) // then it has another margin
		end, ok := g.holds(sd)
		if g.s.hangsOn(sd, step) {
			end, ok = g.end(sd)
		}
		if !ok {
			t.untold(BandSlackCable)
			return
		}
		by := b.m.newSums(b.slots)
		by.addScaled(critical, sd.w.dir)
		by.addScaled(end, -sd.w.dir)
		t.takeShift(margin, b.band(by), by, perhaps)
	}
	for _, g := range b.about(j.Requirement) {
		for i := range g.s.dead {
			h := &g.s.dead[i]
			sd := g.s.sideOf(h.x)
			critical, ok := g.deadCenterSums(h)
			if !ok {
				t.untold(BandOnCenter)
				continue
			}
			take(g, g.s.marginOf(sd, h.step, h.x), h.step, sd, critical)
		}
		for _, sd := range g.s.sides {
			c := sd.w.singularity
			if c == nil {
				continue
			}
			margin := g.s.marginOf(sd, c.step, c.x)
			if sd.onCenter() >= 0 {
				t.takeShift(margin, 0, b.m.newSums(b.slots), b.perhaps(g, sd.end.x)) // it is the end
				continue
			}
			if c.kind == ChangePoint {
				t.untold(BandChangePoint)
				continue
			}
			critical, ok := g.center(sd)
			if !ok {
				t.untold(BandOnCenter)
				continue
			}
			take(g, margin, c.step, sd, critical)
		}
	}
	return t.done(b, j)
}

// ofOrder: both stops go with the drawing.
func (b *bands) ofOrder(j *Judgement) *told {
	if j.NotMet {
		return &told{why: BandNotMet}
	}
	r, t := j.Requirement, j.gather()
	for _, g := range b.about(r) {
		for _, sd := range g.s.sides {
			first, then := sd.bites[r.First.Index], sd.bites[r.Then.Index]
			if first == nil || then == nil {
				continue
			}
			by, ok := g.bite(sd, r.Then)
			one, also := g.bite(sd, r.First)
			if !ok || !also {
				t.untold(BandSlackCable)
				continue
			}
			by.addScaled(one, -1)
			by.scale(sd.w.dir)
			lead, band := math.Abs(*then)-math.Abs(*first), b.band(by)
			t.takeShift(lead, band, by, false)
		}
	}
	return t.done(b, j)
}

// asideCounts is the share at which what moves two points aside counts in the square
// of their distance: where they meet, and are as much out in any direction of the
// drawing, the distance is then less than told in 97 of 100 builds (the Rayleigh
// distribution), and in space in about as many.
const asideCounts = 0.75

// ofMeets: the distance of two points at neutral. What moves the one square to the
// way between them counts in the square only, which is all where they meet.
func (b *bands) ofMeets(j *Judgement) *told {
	r, t := j.Requirement, j.gather()
	from, to := b.m.endAt(r.Points[0]), b.m.endAt(r.Points[1])
	l := b.m.newLinear(b.slots)
	l.at(&b.m.neutral)
	w := b.m.neutral.place(from).Sub(b.m.neutral.place(to))
	n := w.Norm()
	axes := [3]vec{w.Scale(1 / n)}
	if n <= valueNoise*b.m.size {
		axes[0] = vec{X: 1}
	}
	axes[1] = perpendicular(zAxis, axes[0])
	if axes[1].Norm() < math.Sqrt(0.5) { // the way lies along z
		axes[1] = perpendicular(vec{X: 1}, axes[0])
	}
	axes[1] = axes[1].Unit()
	axes[2] = axes[0].Cross(axes[1])
	var out [3]float64
	for i, axis := range axes {
		by := b.m.newSums(b.slots)
		if !l.gradient(by, func(l *linear) {
			l.push(from, l.slots.of(r.Points[0]), axis)
			l.push(to, l.slots.of(r.Points[1]), axis.Scale(-1))
		}) {
			return &told{why: BandOnCenter}
		}
		out[i] = b.band(by)
		t.rests = append(t.rests, by)
	}
	aside := float64(out[1]*out[1]) + float64(out[2]*out[2])
	most := n + out[0]
	t.against(math.Sqrt(float64(most*most)+float64(asideCounts*aside)), nil)
	t.inFavor(math.Max(0, n-out[0]))
	if n > valueNoise*b.m.size {
		t.drawn(n, t.rests[0], 1)
	}
	return t.done(b, j)
}
