// Layer: sweep.

package solve

import (
	"math"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
	"fullfree/solve/internal/num"
)

// The mean and the first harmonic of what comes round again are integrals over the turn.
// By the rule of even steps they converge faster than any power of the step, since what is
// integrated is smooth and periodic: the steps are halved until nothing moves any more.

const (
	// firstNodes is in how many steps a turn is taken first, and mostNodes at most: what
	// hasn't settled then has a kink, as where a cable goes slack, and isn't told.
	firstNodes = 16
	mostNodes  = 2048
	// settled is how nearly two of these have to agree, degrees or run units: the accuracy
	// that is promised. What the finer is off by is about the square of that.
	settled = 1e-9
	// settledNoise is the same where rounding is more, in noises of the probe.
	settledNoise = 16
)

// cycler fits cycles to some probes of one sweep.
type cycler struct {
	s      *sweeper
	probes []int
	units  []linkage.Unit // of these
	from   float64
	values [][]float64 // by node, then by probe
	rates  [][]float64
}

// cycles fits a cycle to each of some probes, which are told in units; nil where the control makes no full turn,
// and of what doesn't come round again or doesn't settle.
func (s *sweeper) cycles(probes []int, units []linkage.Unit) []*Cycle {
	list := make([]*Cycle, len(probes))
	if len(probes) == 0 || !s.sweep.GoesRound() {
		return list
	}
	from, to := s.sweep.fullTurn()
	c := &cycler{s: s, probes: probes, units: units, from: from}
	first, rates, ok := c.at(from)
	if !ok {
		return list
	}
	last, _, ok := c.at(to)
	if !ok {
		return list
	}
	c.values, c.rates = [][]float64{first}, [][]float64{rates}
	var before []*Cycle
	for n := firstNodes; n <= mostNodes; n *= 2 {
		if !c.refine(n) {
			return list
		}
		now, done := make([]*Cycle, len(probes)), true
		for i := range probes {
			now[i] = c.fit(i)
			if before == nil {
				done = false
				continue
			}
			switch still := c.still(i); {
			case math.Abs(last[i]-first[i]) > still: // it doesn't come round again
			case list[i] == nil && now[i].near(before[i], still):
				list[i] = now[i]
			case list[i] == nil:
				done = false
			}
		}
		if before = now; done || s.work.overBy(s.p) {
			break
		}
	}
	for i, k := range list {
		if k != nil {
			c.finish(k, i)
		}
	}
	return list
}

// still is how nearly a probe has to agree.
func (c *cycler) still(i int) float64 {
	return math.Max(settled, float64(settledNoise*c.s.p.probes[c.probes[i]].noise))
}

// at reads every probe and its rate at x.
func (c *cycler) at(x float64) (values, rates []float64, ok bool) {
	s := c.s
	if !s.solveAt(x) {
		return nil, nil, false
	}
	s.m.differentiate(&s.p.st, s.p.rates, s.p.input)
	values, rates = make([]float64, len(c.probes)), make([]float64, len(c.probes))
	for i, probe := range c.probes {
		values[i], rates[i] = s.p.probes[probe].value(s.p)
		if math.IsNaN(values[i]) || math.IsInf(values[i], 0) {
			return nil, nil, false
		}
	}
	return values, rates, s.p.rates.valid
}

// node is the place of node k of n.
func (c *cycler) node(k, n int) float64 { return c.from + float64(wholeTurn*float64(k))/float64(n) }

// refine takes the turn in n steps, keeping the nodes that are among them.
func (c *cycler) refine(n int) bool {
	every := n / len(c.values)
	values, rates := make([][]float64, n), make([][]float64, n)
	for k := range n {
		if k%every == 0 {
			values[k], rates[k] = c.values[k/every], c.rates[k/every]
			continue
		}
		var ok bool
		if values[k], rates[k], ok = c.at(c.node(k, n)); !ok {
			return false
		}
	}
	c.values, c.rates = values, rates
	return true
}

// fit is the cycle of a probe by the nodes there are.
func (c *cycler) fit(i int) *Cycle {
	n := len(c.values)
	k := &Cycle{from: c.from, nodes: n}
	weights := newCycleWeights(c.from, n)
	for j, v := range c.values {
		k.Mean += v[i]
		k.Cosine += float64(v[i] * weights.cosine[j])
		k.Sine += float64(v[i] * weights.sine[j])
	}
	k.Mean /= float64(n)
	return k
}

// cycleWeights are the weights of the values at even nodes of a turn in the harmonic; in
// the mean all have the same.
type cycleWeights struct{ cosine, sine []float64 }

func newCycleWeights(from float64, n int) cycleWeights {
	w := cycleWeights{make([]float64, n), make([]float64, n)}
	for j := range n {
		sin, cos := elementary.Sincos(float64((from + float64(wholeTurn*float64(j))/float64(n)) * degree))
		w.cosine[j], w.sine[j] = cos*2/float64(n), sin*2/float64(n)
	}
	return w
}

// near reports whether two agree.
func (k *Cycle) near(o *Cycle, within float64) bool {
	return math.Abs(k.Mean-o.Mean) <= within && math.Abs(k.Cosine-o.Cosine) <= within && math.Abs(k.Sine-o.Sine) <= within
}

// finish tells the rest of a cycle.
func (c *cycler) finish(k *Cycle, i int) {
	k.Amplitude = elementary.Hypot(k.Cosine, k.Sine)
	least := c.still(i)
	if c.units[i] == degrees {
		least = LeastAmplitude
	}
	if k.Amplitude >= least {
		at := elementary.Atan2(k.Sine, k.Cosine) / degree
		for at >= c.from+wholeTurn {
			at -= wholeTurn
		}
		for at < c.from {
			at += wholeTurn
		}
		k.MostAt = &at
	}
	k.Residue = c.residue(k, i)
}

// on is the sinusoid and its rate.
func (k *Cycle) on(x float64) (v, dv float64) {
	sin, cos := elementary.Sincos(float64(x * degree))
	v = k.Mean + float64(k.Cosine*cos) + float64(k.Sine*sin)
	return v, float64((float64(k.Sine*cos) - float64(k.Cosine*sin)) * degree)
}

// farther is by which share a departure between two nodes, by the cubic through both, may
// lie below the largest found and still be looked at: more than the cubic is off.
const farther = 0.1

// residue is the most that a probe is off its cycle: at a node, or between two where the
// departure turns back.
func (c *cycler) residue(k *Cycle, i int) (most float64) {
	n := len(c.values)
	off, rate := make([]float64, n+1), make([]float64, n+1)
	for j := range n {
		v, dv := k.on(c.node(j, n))
		off[j], rate[j] = c.values[j][i]-v, c.rates[j][i]-dv
		most = math.Max(most, math.Abs(off[j]))
	}
	off[n], rate[n] = off[0], rate[0]
	if most <= c.still(i) {
		return most // rounding
	}
	h := wholeTurn / float64(n)
	for j := range n {
		if rate[j]*rate[j+1] >= 0 {
			continue
		}
		at, _ := num.CubicExtreme(off[j], rate[j], off[j+1], rate[j+1], h)
		if about, _ := num.CubicAt(off[j], rate[j], off[j+1], rate[j+1], h, at); !(math.Abs(about) >= float64(most*(1-farther))) {
			continue
		}
		num.Root(func(x float64) float64 {
			values, rates, ok := c.at(x)
			if !ok {
				return math.NaN()
			}
			v, dv := k.on(x)
			most = math.Max(most, math.Abs(values[i]-v))
			return rates[i] - dv
		}, c.node(j, n), rate[j], c.node(j+1, n), rate[j+1])
	}
	return most
}

// concludeCycles fills in the cycles of all outputs.
func (s *sweeper) concludeCycles() {
	units := make([]linkage.Unit, len(s.outputs))
	for i := range units {
		units[i] = s.sweep.Outputs[i].Unit
	}
	for i, k := range s.cycles(s.outputs, units) {
		s.sweep.Outputs[i].Cycle = k
	}
}
