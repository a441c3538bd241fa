// Layer: events.

package solve

import (
	"math"
	"slices"

	"fullfree/solve/internal/num"
)

// Towards a toggle the unknowns go as the root of what is left of the control's
// way, and rates without bound; as functions of that root they are smooth. So
// the last stretch before a singular place is told at places each a quarter as
// far from it as the one before, and the pose in the place itself is the limit
// of those: there the equations tell less than the way to it.

const (
	// toToggle is how often the stretch before a toggle is quartered, so that
	// what happens just short of it is seen.
	toToggle = 12
	// toChangePoint is the same before a change point. There a pose is known to
	// the root of rounding only, and rates sooner lose their digits.
	toChangePoint = 2
	// approachNoise is the noise in any freedom, radians or shares of the run's
	// size, from which on a place so near to a singular one is no longer told.
	approachNoise = 1e-9
	// noisier is by how much a place must miss where those before expect it, against
	// how much the last one did, to be taken for noise: without noise it misses
	// by less each time.
	noisier = 2
	// limitNear is how near to its limit, radians or shares of the run's size, a
	// step's solution in the singular place must lie to be taken for it.
	limitNear = 1e-6
	// doubtful is how many times the doubt of its limit the solution may lie off it
	// besides: the doubt is an estimate.
	doubtful = 10
)

// finish tells the stretch from a to the singular place at which the walk
// ends; nil: it isn't known what is there, and the run is lost.
func (w *walk) finish(a *sample, c *critical) {
	if c == nil {
		w.lost = true
		return
	}
	places := slices.Concat(w.trail, []*sample{a})
	for {
		nearer, sooner := w.approach(&places, c)
		for i := len(places) - nearer; i < len(places); i++ {
			w.between(w, places[i-1], places[i])
		}
		if sooner == nil {
			break
		}
		c = sooner
	}
	w.singularity = c
	w.last = places[len(places)-1]
	c.at = w.limitOf(places, c)
	w.between(w, w.last, c.at)
	w.last = c.at
}

// approach adds places nearer and nearer to a singular place, and returns how
// many. sooner is another singular place that lies before it.
func (w *walk) approach(places *[]*sample, c *critical) (nearer int, sooner *critical) {
	a := (*places)[len(*places)-1]
	left := c.x - a.x
	quarterings := toToggle
	if c.kind == ChangePoint {
		quarterings = toChangePoint
	}
	if left*w.dir <= 0 {
		return 0, nil // Newton's method closed it a rounding past the place
	}
	missed := math.Inf(1)
	for k := range quarterings {
		x := c.x - math.Ldexp(left, -2*(k+1))
		if x == a.x {
			break
		}
		trouble := w.p.toward(a, x, c, w.guess)
		var b *sample
		if trouble == noStep {
			b = w.p.take(x)
			trouble = w.p.differs(a, b)
		}
		if trouble != noStep {
			if trouble != c.step {
				if sooner = w.locate(a, c.x, trouble); sooner != nil && (c.x-sooner.x)*w.dir <= tieOfStops*math.Abs(c.x) {
					sooner = nil
				}
			}
			return nearer, sooner
		}
		if !b.valid {
			break
		}
		if len(*places) >= num.LimitPlaces-1 {
			miss := w.missOf((*places)[len(*places)-num.LimitPlaces+1:], b, c)
			if miss > approachNoise && miss > noisier*missed {
				break
			}
			missed = miss
		}
		*places = append(*places, b)
		nearer++
		a = b
	}
	return nearer, nil
}

// toward solves x on the way from a to a singular place. trouble is the step
// that doesn't close, or not where it was expected.
func (p *path) toward(a *sample, x float64, c *critical, guess []float64) (trouble int) {
	if c.kind == Toggle {
		// With s the root of what is left, q is smooth in s, and x = c.x - dir s s.
		dir := math.Copysign(1, c.x-a.x)
		s := math.Sqrt(math.Abs(c.x - a.x))
		ds := math.Sqrt(math.Abs(c.x-x)) - s
		for f := range guess {
			d := float64(-2 * dir * s * a.d[f])
			dd := float64(4*s*s*a.dd[f]) - float64(2*dir*a.d[f])
			guess[f] = a.q[f] + float64(ds*(d+float64(0.5*ds*dd)))
		}
	} else {
		p.predict(a, x, guess)
	}
	if failed := p.solve(x, guess); failed != allClosed {
		return int(failed)
	}
	return p.strays(a, guess)
}

// differs returns the first step closed by Newton's method whose determinant has
// another sign at b than at a.
func (p *path) differs(a, b *sample) int {
	for i := range p.m.steps {
		if p.m.steps[i].kind == closeBlock && b.valid && a.sign[i] != b.sign[i] {
			return i
		}
	}
	return noStep
}

// leftTo is what the way to a singular place is smooth in.
func (c *critical) leftTo(x float64) float64 {
	left := math.Abs(c.x - x)
	if c.kind == Toggle {
		left = math.Sqrt(left)
	}
	return left
}

// missOf is by how much b misses, radians or shares of the run's size, where the
// places before it expect it.
func (w *walk) missOf(places []*sample, b *sample, c *critical) (miss float64) {
	x, y := make([]float64, len(places)), make([]float64, len(places))
	for i, a := range places {
		x[i] = c.leftTo(a.x) - c.leftTo(b.x)
	}
	for f := range b.q {
		for i, a := range places {
			y[i] = a.q[f]
		}
		miss = math.Max(miss, math.Abs(num.Limit(x, y)-b.q[f])/w.p.sizeOf(f))
	}
	return miss
}

// limitOf is the sample in a singular place: the limit along the way to it.
func (w *walk) limitOf(places []*sample, c *critical) *sample {
	p, m := w.p, w.p.m
	last := places[len(places)-1]
	// A place at the singular one itself is no way to it.
	for len(places) > 0 && (c.x-places[len(places)-1].x)*w.dir <= 0 {
		places = places[:len(places)-1]
	}
	x, y := make([]float64, len(places)), make([]float64, len(places))
	for i, a := range places {
		x[i] = c.leftTo(a.x)
	}
	along := func(value func(a *sample) float64) (v, doubt float64, ok bool) {
		for i, a := range places {
			y[i] = value(a)
		}
		return num.BestLimit(x, y)
	}
	q, doubts := slices.Clone(last.q), make([]float64, len(last.q))
	if len(places) >= 3 {
		for f := range q {
			q[f], doubts[f], _ = along(func(a *sample) float64 { return a.q[f] })
		}
	} else if p.toward(last, c.x, c, w.guess) == noStep {
		copy(q, p.st.q)
	}
	if m.steps[c.step].kind == closePull && c.own == nil {
		// A cable in line is no fold: the pose there is solved for as any other.
		if p.solve(c.x, w.p.predict(last, c.x, w.guess)) == allClosed {
			copy(q, p.st.q)
		}
	}
	for j, f := range m.steps[c.step].unknowns {
		if c.own != nil {
			q[f] = c.own[j]
		}
	}
	q[p.input] = float64(c.x * p.unit)
	p.settleAt(c, q, doubts)
	at := p.take(c.x)
	for l := range m.constraints {
		if m.constraints[l].pair != nil {
			continue // its probe is no sine
		}
		// At the place itself a sine may be nothing but rounding.
		v, doubt, ok := along(func(a *sample) float64 { return a.v[l] })
		if ok && doubt < limitNear && (slices.Contains(m.steps[c.step].constraints, l) || math.Abs(v-at.v[l]) > criticalSine) {
			at.v[l] = math.Max(0, math.Min(1, v))
		}
	}
	// What rates it has are the difference of large numbers.
	at.valid = false
	return at
}

// settleAt puts the pose in a singular place: every freedom in its limit q, but
// what closes there as near to it as the limit is known is closed.
func (p *path) settleAt(c *critical, q, doubts []float64) {
	m, st := p.m, &p.st
	for f, v := range q {
		m.setFreedom(st, f, v)
	}
	p.x = c.x
	m.placeAll(st, m.placing)
	for i := range m.steps {
		s := &m.steps[i]
		if i == c.step && (c.own != nil || s.kind == closePull) || s.kind != closePull && p.stepIsMet(s) {
			continue
		}
		closes := m.closeStep(st, i)
		if s.kind < closePull {
			m.unwindStep(st, s)
		}
		near := closes
		for _, f := range s.unknowns {
			near = near && math.Abs(st.q[f]-q[f]) <= float64(limitNear*p.sizeOf(f))+float64(doubtful*doubts[f])
		}
		if !near {
			for _, f := range s.unknowns {
				m.setFreedom(st, f, q[f])
			}
		}
		for _, l := range s.constraints {
			m.placeAll(st, m.under(m.endsOf(&m.constraints[l])...))
		}
	}
	m.placeAll(st, m.placing)
	m.rehang(st)
}

// stepIsMet reports whether a step's constraints are met where everything stands.
func (p *path) stepIsMet(s *step) bool {
	return p.m.residuals(&p.st, s, p.st.newton.residual) <= newtonAccept*p.m.size
}
