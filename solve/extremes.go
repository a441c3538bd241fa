// Layer: events.

package solve

import (
	"math"

	"fullfree/solve/internal/num"
)

// In a long chain many probes have an extreme between the same two samples, each at a
// place of its own. A pose for each would cost as the square of the chain's length: so
// they share poses between the samples, until the curve through these is exact.

const (
	// fewExtremes is up to how many extremes are each found by poses of their own,
	// about three each: no more than sharing costs.
	fewExtremes = 3
	// sharedHalvings is how often a stretch is halved for what is shared. What is not
	// told then has a kink, or is no curve that anything is told of from beside it.
	sharedHalvings = 4
	// agreeAt is how closely two orders of the curve have to agree on where an extreme
	// lies, as a share of the stretch, and agreeOn how closely on its value, in the
	// probe's rounding. The higher order is then off by far less: the orders' errors go
	// with the fourth and the sixth power of the stretch, so where the lower is out by
	// 1e-7 of what bends the curve, the higher is by its power 3/2, below 1e-10.
	agreeAt = 1e-7
	agreeOn = 32
)

// node is a place between two samples, with the value and the rate there of the probes
// that are looked at, in their order.
type node struct {
	x     float64
	v, dv []float64
}

// nodeOf takes some probes of a sample.
func nodeOf(s *sample, probes []int) *node {
	k := &node{x: s.x, v: make([]float64, len(probes)), dv: make([]float64, len(probes))}
	for n, i := range probes {
		k.v[n], k.dv[n] = s.v[i], s.dv[i]
	}
	return k
}

// nodeAt solves the pose at x, between two samples; nil where the run doesn't close.
func (p *path) nodeAt(a, b *sample, x float64, probes []int) *node {
	if !p.within(a, b, x) {
		return nil
	}
	p.m.differentiate(&p.st, p.rates, p.input)
	if !p.rates.valid {
		return nil
	}
	k := &node{x: x, v: make([]float64, len(probes)), dv: make([]float64, len(probes))}
	for n, i := range probes {
		k.v[n], k.dv[n] = p.probes[i].value(p)
	}
	return k
}

// extremes tells the extremes of probes between two samples at which the rate of each
// has different signs, in no certain order. What can't be found isn't told.
func (p *path) extremes(a, b *sample, probes []int, tell func(probe int, v, x float64)) {
	if len(probes) > fewExtremes {
		if a.x > b.x {
			a, b = b, a
		}
		which := make([]int, len(probes))
		for n := range which {
			which[n] = n
		}
		shared := &sharedExtremes{p: p, a: a, b: b, probes: probes, tell: tell}
		shared.between(nodeOf(a, probes), nodeOf(b, probes), which, 0)
		return
	}
	for _, i := range probes {
		if v, x, ok := p.extreme(a, b, i); ok {
			tell(i, v, x)
		}
	}
}

// sharedExtremes looks for many extremes between two samples.
type sharedExtremes struct {
	p      *path
	a, b   *sample // a before b
	probes []int
	tell   func(probe int, v, x float64)
}

// between tells the extremes of some of the probes between two nodes.
func (e *sharedExtremes) between(lo, hi *node, which []int, halved int) {
	middle := lo.x + 0.5*(hi.x-lo.x)
	var mid *node
	if len(which) > fewExtremes && halved < sharedHalvings && middle > lo.x && middle < hi.x {
		mid = e.p.nodeAt(e.a, e.b, middle, e.probes)
	}
	if mid == nil {
		for _, n := range which {
			if v, x, ok := e.p.extreme(e.a, e.b, e.probes[n]); ok {
				e.tell(e.probes[n], v, x)
			}
		}
		return
	}
	var before, after []int
	for _, n := range which {
		v, x, ok := e.of(lo, mid, hi, n)
		switch {
		case ok:
			e.tell(e.probes[n], v, x)
		case math.Signbit(mid.dv[n]) == math.Signbit(lo.dv[n]):
			after = append(after, n)
		default:
			before = append(before, n)
		}
	}
	e.between(lo, mid, before, halved+1)
	e.between(mid, hi, after, halved+1)
}

// of is the extreme of one probe by the curve of the fifth order through three nodes; ok
// is false where that and the cubic of the half on which it lies don't agree.
func (e *sharedExtremes) of(lo, mid, hi *node, n int) (v, x float64, ok bool) {
	from, to := lo, mid
	if math.Signbit(mid.dv[n]) == math.Signbit(lo.dv[n]) {
		from, to = mid, hi
	}
	h := to.x - from.x
	at, slope := num.CubicExtreme(from.v[n], from.dv[n], to.v[n], to.dv[n], h)
	if !(at >= 0 && at <= h) {
		return 0, 0, false
	}
	cubic := hermite([]*node{from, to}, n)
	quintic := hermite([]*node{lo, mid, hi}, n)
	guess := from.x + at
	x = guess
	for range 2 { // the curves lie so near to each other that one step is enough
		_, rate := quintic.at(x)
		x -= rate / slope
	}
	v, _ = quintic.at(x)
	lower, _ := cubic.at(guess)
	agree := x >= from.x && x <= to.x && math.Abs(x-guess) <= float64(agreeAt*(hi.x-lo.x)) &&
		math.Abs(v-lower) <= float64(agreeOn*e.p.probes[e.probes[n]].noise)
	return v, x, agree
}

// curve is a polynomial through values and rates, by divided differences at places of
// which each stands twice.
type curve struct {
	places [6]float64
	by     [6]float64
	n      int
}

// hermite is the curve through up to three nodes of one probe.
func hermite(nodes []*node, probe int) *curve {
	c := &curve{n: 2 * len(nodes)}
	for k, node := range nodes {
		c.places[2*k], c.places[2*k+1] = node.x, node.x
		c.by[2*k], c.by[2*k+1] = node.v[probe], node.v[probe]
	}
	for order := 1; order < c.n; order++ {
		for i := c.n - 1; i >= order; i-- {
			if order == 1 && i%2 == 1 {
				c.by[i] = nodes[i/2].dv[probe]
				continue
			}
			c.by[i] = (c.by[i] - c.by[i-1]) / (c.places[i] - c.places[i-order])
		}
	}
	return c
}

// at is the curve and its rate.
func (c *curve) at(x float64) (v, dv float64) {
	for i := c.n - 1; i >= 0; i-- {
		dv = float64(dv*(x-c.places[i])) + v
		v = float64(v*(x-c.places[i])) + c.by[i]
	}
	return v, dv
}
