package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
)

const (
	// aroundFirst and aroundReach are the nearest and the farthest values about
	// the nominal one at which a dimension is tried before it is fitted, as shares of
	// the run's size; between them each is twice the one before. Where readings rise
	// and fall with a dimension, values to both sides of the turn may explain them,
	// and a search downhill finds but one. Beyond an eighth nobody is mistaken.
	aroundFirst = 1.0 / 256
	aroundReach = 1.0 / 8
	// spreadHalvings is how often the interval is halved in which the sum of squares
	// has risen by 1: to a thousandth of it.
	spreadHalvings = 10
)

// around tries values of a dimension about its nominal one, ascending, as far as
// the run closes to each side.
func (g *diagnoser) around(r *readings, d linkage.Dimension) []trial {
	nominal := trial{d.Value(), r.asDrawn(), r.sum(r.drawn)}
	side := func(sign float64) (list []trial) {
		last := nominal
		for share := aroundFirst; share <= aroundReach; share *= 2 {
			t, ok := g.try(r, d, nominal.value+float64(sign*share*g.m.size), last.at)
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

// changes reports whether what is predicted changes with a dimension by more than
// rounding.
func (g *diagnoser) changes(r *readings, around []trial) bool {
	for _, t := range around {
		for i, v := range t.at.values {
			if math.Abs(v-r.drawn[i]) > g.m.noiseOf(r.units[i], mattersLeast*aroundFirst) {
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
		away := trialStep * g.m.size
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
