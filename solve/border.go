// Layer: events.

package solve

import (
	"math"

	"fullfree/solve/internal/num"
)

// Where both cables of a pair go slack or come taut again, what the pair holds
// moves on at another rate. So that neither the walk nor what follows it takes
// the kink for a bend, the walk steps on that place and goes on from there with
// the rates of the other side.

// border returns the first place between two neighboring samples where a pair
// goes slack or comes taut: as it is on a's side, nil where that is a itself, and
// as on b's side. Both are nil where there is none.
func (w *walk) border(a, b *sample) (edge, beyond *sample) {
	m := w.p.m
	first := -1
	var at float64
	for i := range m.pulls {
		if x, ok := w.turnsSlack(a, b, i); ok && (first < 0 || (x-at)*w.dir < 0) {
			first, at = i, x
		}
	}
	if first < 0 {
		return nil, nil
	}
	slack := a.slack[first]
	if at != a.x {
		if edge = w.p.takeAs(a, b, at, first, slack); edge == nil {
			return nil, nil
		}
	}
	if beyond = w.p.takeAs(a, b, at, first, !slack); beyond == nil {
		return nil, nil
	}
	return edge, beyond
}

// turnsSlack finds the first place from a on, b's included, where a pair isn't as
// it is at a.
func (w *walk) turnsSlack(a, b *sample, i int) (x float64, ok bool) {
	if !a.valid || !b.valid {
		return 0, false
	}
	probe := w.p.sumOf(i)
	noise := w.p.probes[probe].noise
	f := func(x float64) float64 {
		v, _, ok := w.p.evaluate(a, b, x, probe)
		if !ok {
			return 0
		}
		return v
	}
	// Counted so that it is above 0 as long as the pair is as at a.
	sign := 1.0
	if a.slack[i] {
		sign = -1
	}
	va, vb := float64(sign*a.v[probe]), float64(sign*b.v[probe])
	da, db := float64(sign*a.dv[probe]*w.dir), float64(sign*b.dv[probe]*w.dir)
	h := math.Abs(b.x - a.x)
	changes := a.slack[i] != b.slack[i]
	if va <= noise {
		switch {
		case da*h < -noise:
			return a.x, true // it is on the border already, and on its way over
		case !changes:
			return 0, false
		}
	} else if changes {
		if vb >= 0 {
			return b.x, true
		}
		return num.Root(f, a.x, a.v[probe], b.x, b.v[probe]), true
	}
	// Over and back again, or from the border away and over it again.
	back := !changes && da < 0 && db > 0 && va <= h*-da && vb <= h*db
	over := changes && da > 0 && db < 0
	if !back && !over {
		return 0, false
	}
	v, turn, ok := w.p.extreme(a, b, probe)
	switch {
	case !ok:
		return 0, false
	case back && sign*v < -noise:
		return num.Root(f, a.x, a.v[probe], turn, v), true
	case over && sign*v > noise:
		return num.Root(f, turn, v, b.x, b.v[probe]), true
	}
	return 0, false
}

// takeAs is a sample at x between two with a pair taken as slack or taut; nil
// where the run doesn't close.
func (p *path) takeAs(a, b *sample, x float64, pair int, slack bool) *sample {
	switch x { // between two samples there would be nothing to guess from
	case a.x:
		if p.solve(x, a.q) != allClosed {
			return nil
		}
	case b.x:
		if p.solve(x, b.q) != allClosed {
			return nil
		}
	default:
		if !p.within(a, b, x) {
			return nil
		}
	}
	if p.st.hung[pair].slack != slack && !p.m.hang(&p.st, &p.m.steps[p.m.pulls[pair].step], slack) {
		return nil
	}
	return p.take(x)
}

// sumOf is the probe of both tensions of a pair together, counted below 0 where
// its cables are slack. It stands behind those of the sines.
func (p *path) sumOf(pair int) int { return len(p.m.constraints) + pair }
