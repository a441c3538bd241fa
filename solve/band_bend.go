// Layer: questions.

package solve

import (
	"math"
	"math/rand/v2"

	"fullfree/solve/internal/num"
)

// What a slope leaves out. A figure that is worst by symmetry has no slope, and near
// where a run is on center it bends: there a band is more to the one side than to the
// other. So at the place where a figure is worst the run is built a few times over:
// two standard deviations along the figure's own slope, and out at random, the same number of times to one side and to the other, so that what is
// left of their mean is the bend.

const (
	// bendPairs is how many pairs of random builds are made.
	bendPairs = 4
	// bendCounts is the share of a band below which what bends is left out: it is
	// within what the random builds tell.
	bendCounts = 0.05
	// bendSeed is what the random builds start from: the same every time.
	bendSeed = 27
	// bendSteps is how often it is looked where a stop bites in a build.
	bendSteps = 8
)

// build is the run built off its drawing.
type build struct {
	m      *Mechanism
	sweeps map[int]*sweeper
}

func (b *bands) build(o *offsets) *build {
	if b.exhausted() {
		return nil
	}
	b.spent += float64(rebuildPoses * b.m.workOfPose())
	n, ok := b.m.built(b.m.run, o)
	if !ok {
		return nil
	}
	return &build{m: n, sweeps: make(map[int]*sweeper)}
}

// value is a quantity of the build at a place found in the run as drawn; false where
// the build doesn't come to that place.
func (k *build) value(g *gradients, q quantity, at *place) (v float64, ok bool) {
	if k == nil || !g.s.solveAt(at.x) {
		return 0, false
	}
	w := g.s.sweep
	s := k.sweeps[w.Index]
	if s == nil {
		s = k.m.newSweeper(w.Control, w.Held)
		k.sweeps[w.Index] = s
	}
	p, x, guess := s.p, at.x, g.now.st.q
	if sd := at.side; sd != nil {
		switch {
		case sd.onCenter() >= 0:
			return 0, false
		case sd.stop != nil && sd.stop.Of != w.Control.Of:
			if x, ok = s.bites(s.stops+sd.stop.Index, x, guess); !ok {
				return 0, false
			}
			guess = p.st.q
		}
	}
	if v, ok = s.valueAt(q.probe, x, guess); !ok {
		return 0, false
	}
	if k := q.mirror; k != nil {
		if !g.s.solveAt(-at.x) {
			return 0, false
		}
		other, ok := s.valueAt(k.probe, -x, g.now.st.q)
		if !ok {
			return 0, false
		}
		v += float64(k.sign * other)
	}
	if q.since {
		origin, ok := s.valueAt(q.probe, 0, g.s.origin.q)
		if !ok {
			return 0, false
		}
		v -= origin
	}
	return v, true
}

// valueAt is a probe at x solved from a guess.
func (s *sweeper) valueAt(probe int, x float64, guess []float64) (v float64, ok bool) {
	p := s.p
	if p.solve(x, guess) != allClosed {
		return 0, false
	}
	s.m.differentiate(&p.st, p.rates, p.input)
	v, _ = p.probes[probe].value(p)
	return v, !math.IsNaN(v)
}

// bites finds where a stop's gap is nothing near x, by Newton's method.
func (s *sweeper) bites(probe int, x float64, guess []float64) (at float64, ok bool) {
	p := s.p
	for range bendSteps {
		if p.solve(x, guess) != allClosed {
			return 0, false
		}
		s.m.differentiate(&p.st, p.rates, p.input)
		v, dv := p.probes[probe].value(p)
		if math.Abs(v) <= p.probes[probe].noise {
			return x, true
		}
		if dv == 0 || math.IsNaN(v/dv) {
			return 0, false
		}
		x -= v / dv
		guess = p.st.q
	}
	return x, true
}

// along is the drawing two standard deviations along a gradient, times that.
func (b *bands) alongSlope(s *sums, times float64) *offsets {
	o := &offsets{slots: b.slots, by: make([]float64, b.slots.count)}
	half := b.band(s) / 2
	for i := range b.surveys {
		k := &b.surveys[i]
		g, cov := k.slopes(s), k.Cov()
		for i, slot := range k.own {
			sum := 0.0
			for k, v := range g {
				sum += float64(v * cov.At(i, k))
			}
			if slot >= 0 {
				o.by[slot] = float64(times*2*sum) / half
			}
		}
	}
	if len(b.surveys) == 0 || b.m.run.Aircraft != nil {
		b.slope(s)
		rest := &offsets{slots: b.slots, by: make([]float64, b.slots.count)}
		for i, counts := range b.counts {
			out := float64(b.m.run.Uncertain / 2 * counts)
			if counts > 0 {
				rest.by[i] = float64(times*2*out*out) * b.by[i] / half
			}
		}
		rest.withArms()
		for i, v := range rest.by {
			o.by[i] += v
		}
	}
	return o
}

// random are pairs of builds, out at random to either side.
func (b *bands) random() [][2]*build {
	if b.pairs != nil {
		return b.pairs
	}
	random := rand.New(rand.NewPCG(bendSeed, 0))
	roots := make([][][]float64, len(b.surveys))
	wanted := len(b.slots.dimensions)
	for i, k := range b.surveys {
		roots[i] = num.Cholesky(k.Cov())
		wanted = max(wanted, len(k.own))
	}
	for range bendPairs {
		var pair [2]*build
		draw := func() []float64 {
			normal := make([]float64, wanted)
			for i := range normal {
				normal[i] = nearlyNormal(random)
			}
			return normal
		}
		normal := draw()
		normals := make([][]float64, len(b.surveys)) // of each survey its own
		for i := range b.surveys {
			if normals[i] = normal; i > 0 || b.m.run.Aircraft != nil {
				normals[i] = draw()
			}
		}
		for side, sign := range []float64{1, -1} {
			o := &offsets{slots: b.slots, by: make([]float64, b.slots.count)}
			if len(b.surveys) == 0 || b.m.run.Aircraft != nil {
				for i, counts := range b.counts {
					o.by[i] = float64(sign * b.m.run.Uncertain / 2 * normal[i] * counts)
				}
				o.withArms()
			}
			for k, root := range roots {
				for i, slot := range b.surveys[k].own {
					if slot >= 0 && root != nil {
						o.by[slot] = float64(sign * num.Dot(root[i], normals[k][:i+1]))
					}
				}
			}
			pair[side] = b.build(o)
		}
		b.pairs = append(b.pairs, pair)
	}
	return b.pairs
}

// uniformsOfNormal is how many uniform numbers nearlyNormal adds: the variance of each
// is 1/12, so the sum's is 1.
const uniformsOfNormal = 12

// nearlyNormal draws from nearly the normal distribution of mean 0 and deviation 1, by
// sums alone: the usual ways take logarithms or exponentials, whose last digits aren't
// the same on every processor. Mean, variance and skew are the normal's; the fourth
// moment, on which the scatter of a bend hangs, is 2.9 instead of 3, and nothing lies
// beyond six deviations, where none of so few builds would.
func nearlyNormal(random *rand.Rand) float64 {
	sum := -uniformsOfNormal / 2.0
	for range uniformsOfNormal {
		sum += random.Float64()
	}
	return sum
}

// bend is a figure at a place with the band against it (toward +1) or for it (-1), and
// what bends.
func (b *bands) bend(g *gradients, q quantity, k *place, tell figure, sign, toward float64) float64 {
	now := tell(k.v, float64(toward*k.band))
	further := func(v float64) {
		if toward*sign*v > toward*sign*now {
			now = v
		}
	}
	if k.band > 0 && b.steep(k) {
		times := 1.0
		if toward*sign*tell.slope(k.v) < 0 {
			times = -1
		}
		if v, ok := b.build(b.alongSlope(k.by, times)).value(g, q, k); ok {
			further(tell(v, 0))
		}
	}
	mean, square, n := 0.0, 0.0, 0.0
	for _, pair := range b.random() {
		one, ok := pair[0].value(g, q, k)
		other, also := pair[1].value(g, q, k)
		if ok && also {
			bent := 0.5*(one+other) - k.v
			mean, square, n = mean+bent, square+float64(bent*bent), n+1
		}
	}
	if n == 0 {
		return now
	}
	mean /= n
	square /= n
	if math.Sqrt(square) > bendCounts*k.band {
		further(tell(k.v+mean, float64(toward*math.Sqrt(float64(k.band*k.band)+float64(4*math.Max(0, square-float64(mean*mean)))))))
	}
	return now
}

// steep reports whether a figure has a slope at all.
func (b *bands) steep(k *place) bool { return k.band > valueNoise*b.m.size }
