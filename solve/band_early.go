// Layer: questions.

package solve

import "math"

// Where the travel of a build may end earlier than as drawn: its end shifts, a stop that
// nothing touches as drawn may come to bite, and where it is on center that may come to
// lie past what is explored. What is found from there on tells what a build may come to,
// but none need come there: it is no reason to be sure.

// earliest is how far from neutral, by size, a side of the travel may end in a build.
type earliest struct {
	other   float64 // otherwise than by the end that it has; +Inf: it can't
	shifted float64 // by the end that it has, out by its own band
}

// earliest finds where a side of the travel may end.
func (b *bands) earliest(g *gradients, sd *side) earliest {
	if e, ok := b.ends[sd]; ok {
		return e
	}
	e := earliest{math.Inf(1), math.Abs(sd.end.x)}
	for i := range g.m.run.Stops {
		if k := &sd.near[i]; sd.bites[i] == nil && k.seen && k.gap < math.MaxFloat64 && b.mayBite(g, sd, i) {
			e.other = math.Min(e.other, math.Abs(k.at))
		}
	}
	dx, ok := g.end(sd)
	if ok {
		e.shifted -= b.band(dx)
	}
	if sd.onCenter() >= 0 && (!ok || math.Abs(g.s.limitOf(sd)-sd.end.x) <= b.band(dx)) {
		e.other = math.Min(e.other, math.Abs(sd.end.x))
	}
	if b.ends == nil {
		b.ends = make(map[*side]earliest)
	}
	b.ends[sd] = e
	return e
}

// perhaps reports whether a build need not come to a place of the travel. An end of it
// has its own shift in its band.
func (b *bands) perhaps(g *gradients, x float64) bool {
	if x == 0 {
		return false
	}
	sd := g.s.sideOf(x)
	e := b.earliest(g, sd)
	return math.Abs(x) >= e.other || x != sd.end.x && math.Abs(x) > e.shifted
}

// mayBite reports whether a stop may bite in a build where it comes nearest on a side
// on which it doesn't as drawn; also where there is no telling.
func (b *bands) mayBite(g *gradients, sd *side, stop int) bool {
	k := &sd.near[stop]
	probe := g.s.stops + stop
	q := quantity{probe: probe, seed: g.m.seedOfStop(g.m.run.Stops[stop])}
	if sd.onCenter() >= 0 && sd.end.v[probe] <= k.gap+g.m.stopNoise(g.m.run.Stops[stop]) {
		at, _ := b.atEnd(g, q, sd)
		return at == nil || k.gap <= at.band
	}
	by := b.m.newSums(b.slots)
	_, ok := g.of(q, k.at, by)
	return !ok || k.gap <= b.band(by)
}
