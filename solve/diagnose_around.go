// Layer: questions.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
)

const (
	// leastArm is the arm, as a share of the run's size, below which a part has none: what
	// is drawn in one place.
	leastArm = 1e-12
	// aroundFirst and aroundReach are the nearest and the farthest values about
	// the nominal one at which a dimension is tried before it is fitted, as shares of
	// the arms that it moves; between them each is twice the one before. Where
	// readings rise and fall with a dimension, values to both sides of the turn may
	// explain them, and a search downhill finds but one. Beyond half an arm nobody is
	// mistaken.
	aroundFirst = 1.0 / 64
	aroundReach = 1.0 / 2
	// changesLeast is the change of a prediction, radians or shares of the run's size,
	// that is more than rounding.
	changesLeast = 1e-9
	// spreadHalvings is how often the interval is halved in which the sum of squares
	// has risen by 1: to a thousandth of it.
	spreadHalvings = 10
)

// around tries values of a dimension about its nominal one, ascending, as far as
// the run closes to each side.
func (g *diagnoser) around(r *readings, d linkage.Dimension) []trial {
	arm := g.m.shortestArm(d)
	nominal := trial{d.Value(), r.asDrawn(), r.sum(r.drawn)}
	side := func(sign float64) (list []trial) {
		last := nominal
		for share := aroundFirst; share <= aroundReach; share *= 2 {
			t, ok := g.try(r, d, nominal.value+float64(sign*share*arm), last.at)
			if !ok {
				break
			}
			list, last = append(list, t), t
		}
		return list
	}
	below := side(-1)
	slices.Reverse(below)
	return slices.Concat(below, []trial{nominal}, side(1))
}

// shortestArm is the least reach, from pivot to farthest point, of the parts that a
// dimension is of or that are joined to it by a rod, a cable or their pivot: what it
// changes is to be seen by that. The run's size where none of them turns.
func (m *Mechanism) shortestArm(d linkage.Dimension) float64 {
	shortest := math.Inf(1)
	arm := func(p *linkage.Part) {
		longest := 0.0
		if p != nil && p.Motion == linkage.Turns {
			for i := range p.Points {
				longest = math.Max(longest, p.Points[i].At.Sub(p.Pivot).Norm())
			}
		}
		if longest > leastArm*m.size {
			shortest = math.Min(shortest, longest)
		}
	}
	joined := func(ends ...*linkage.Part) {
		if d.Part == nil || slices.Contains(ends, d.Part) {
			for _, p := range ends {
				arm(p)
			}
		}
	}
	arm(d.Part)
	for _, r := range m.run.Rods {
		if d.Rod == nil && d.Cable == nil || d.Rod == r {
			joined(r.From.Part, r.To.Part)
		}
	}
	for _, c := range m.run.Cables {
		if !c.Open() && (d.Rod == nil && d.Cable == nil || d.Cable == c) {
			for _, leg := range c.Legs() {
				joined(leg[0].Part, leg[1].Part)
			}
		}
	}
	for _, p := range m.run.Parts {
		if n := p.NamedPivot; n != nil && n.Part == d.Part {
			arm(p)
		}
	}
	if math.IsInf(shortest, 1) {
		return m.size
	}
	return shortest
}

// changes reports whether what is predicted changes with a dimension by more than
// rounding.
func (g *diagnoser) changes(r *readings, around []trial) bool {
	for _, t := range around {
		for i, v := range t.at.values {
			if math.Abs(v-r.drawn[i]) > g.m.noiseOf(r.units[i], changesLeast) {
				return true
			}
		}
	}
	return false
}

// hollows returns the trials that have no larger sum than those beside them.
func hollows(around []trial) (list []trial) {
	for i, t := range around {
		if (i == 0 || t.sum <= around[i-1].sum) && (i == len(around)-1 || t.sum <= around[i+1].sum) {
			list = append(list, t)
		}
	}
	return list
}

// spread is how far a dimension may be from where it was fitted before the sum of
// squares has risen by 1, to the side where that is farther, and no farther than
// fitReach: a standard error where derivatives tell none.
func (g *diagnoser) spread(r *readings, d linkage.Dimension, f trial) (most float64) {
	for _, sign := range []float64{-1, 1} {
		inside, last := 0.0, f
		away := float64(trialStep * g.m.size)
		for away < fitReach*g.m.size {
			t, ok := g.try(r, d, f.value+float64(sign*away), last.at)
			if !ok || t.sum > f.sum+1 {
				break
			}
			inside, last, away = away, t, 2*away
		}
		outside := math.Min(away, fitReach*g.m.size)
		for range spreadHalvings {
			middle := (inside + outside) / 2
			if t, ok := g.try(r, d, f.value+float64(sign*middle), last.at); ok && t.sum <= f.sum+1 {
				inside = middle
			} else {
				outside = middle
			}
		}
		most = math.Max(most, outside)
	}
	return most
}
