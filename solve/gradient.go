// Layer: gradient.

package solve

import (
	"math"

	"fullfree/linkage"
)

// Gradient is how a quantity of a position changes with every number of the run:
// for each unit of length of a coordinate, length, radius or diameter, each degree
// or unit of length of a stop, each unit of a force. The controls stay where they
// stand. What is drawn from a number goes along, as with a Setting: arms with
// their pivot, a rod without a set length and a cable without a core with their
// ends. Whatever the sweep doesn't hang on has 0.
type Gradient struct {
	// Dimensions are by Run.Dimensions(), in that order. Of a length that the file
	// leaves as drawn, what setting it would do.
	Dimensions []float64
	Stops      []float64    // by Run.Stops: of the numbers of those that have one
	Taken      []float64    // by Run.Cables: of how far the cable's adjusters take it up
	Stiffness  []float64    // by Run.Cables
	Radii      [][2]float64 // by Run.Cables: of the quadrants of an open one
	Pretension []float64    // by Run.Pairs
	Metal      [][]Metal    // by Run.Parts, then by Part.Features
	Diameters  []float64    // by Run.Rods
	// ByControl is the derivative by the swept control, for each degree or unit of
	// length of it.
	ByControl float64
}

// Metal is the part of a gradient that is by a feature.
type Metal struct {
	Through []linkage.Vec
	Radius  float64
}

// Gradient returns how a series (one of Series) at x of the control changes with
// every number of the run; false where x lies outside what is explored, and where
// the run is on center there, or so near to it that a rate can't be told. It may
// be called from several goroutines.
func (w *Sweep) Gradient(x float64, k Series) (*Gradient, bool) {
	if w == nil || w.of == nil {
		return nil, false
	}
	g := w.of.gradients(newSlots(w.of.m.run))
	q, ok := g.quantityOf(&k)
	if !ok {
		return nil, false
	}
	sums := g.m.newSums(g.slots)
	if _, ok := g.of(q, x, sums); !ok {
		return nil, false
	}
	if k.degrees {
		v, _ := g.now.probes[k.probe].value(g.now)
		scale := 1 / (degree * math.Sqrt(math.Max(0, 1-float64(v*v))))
		if math.IsInf(scale, 0) {
			return nil, false
		}
		sums.scale(scale)
	}
	return g.told(sums), true
}

func (s *sums) scale(by float64) {
	for i := range s.free {
		s.free[i] = float64(s.free[i] * by)
	}
	for i := range s.drawn {
		s.drawn[i] = float64(s.drawn[i] * by)
	}
}

// told is a gradient as it is handed out.
func (g *gradients) told(s *sums) *Gradient {
	t := toldBy(g.m.run, g.slots, s)
	t.ByControl = float64(s.free[g.now.input] * g.now.unit)
	return t
}

// toldBy is that without what is by a control.
func toldBy(run *linkage.Run, slots *slots, s *sums) *Gradient {
	by := append([]float64(nil), s.drawn...)
	slots.alongArms(by)
	part := func(first, n int) []float64 { return by[first : first+n : first+n] }
	t := &Gradient{
		Dimensions: part(0, len(slots.dimensions)), Stops: part(slots.stops, len(run.Stops)),
		Taken: part(slots.taken, len(run.Cables)), Stiffness: part(slots.stiffness, len(run.Cables)),
		Pretension: part(slots.tensions, len(run.Pairs)), Diameters: part(slots.diameters, len(run.Rods)),
	}
	for i := range run.Cables {
		t.Radii = append(t.Radii, [2]float64{by[slots.radii+2*i], by[slots.radii+2*i+1]})
	}
	for i, p := range run.Parts {
		var list []Metal
		for j := range p.Features {
			at, n := slots.metal[i][j], len(p.Features[j].Through)
			k := Metal{Radius: by[at+3*n]}
			for range n {
				k.Through = append(k.Through, linkage.Vec{X: by[at], Y: by[at+1], Z: by[at+2]})
				at += 3
			}
			list = append(list, k)
		}
		t.Metal = append(t.Metal, list)
	}
	return t
}

// quantity is what has a gradient: a probe's value, or where slope is set the rate
// of what seed is of.
type quantity struct {
	probe  int
	seed   seed
	slope  bool
	since  bool            // it is told from what it is where the sweep starts, at neutral
	mirror *mirrorQuantity // added to it, at the other sign of the control; nil: nothing is
	// Of a ratio of two rates: the second's by the first's, times sign; seed is nil.
	first, second seed
	sign          float64
}

// mirrorQuantity is the second of two that mirror each other.
type mirrorQuantity struct {
	probe int
	seed  seed
	sign  float64
}

// quantityOf is the quantity of a series.
func (g *gradients) quantityOf(k *Series) (q quantity, ok bool) {
	m, s := g.m, g.s
	q.probe = k.probe
	switch k.Kind {
	case SeriesPart:
		for i, t := range s.sweep.Parts {
			if s.parts[i] == k.probe {
				q.seed = m.seedOfPart(t.Part, t.Name)
			}
		}
	case SeriesOutput, SeriesRatio:
		measure := m.outputMeasure(k.Output)
		q.seed, q.slope = measure.seed(k.Output.Point), k.Kind == SeriesRatio
	case SeriesRodAngle:
		q.seed = m.seedOfSine(k.Rod.Index)
	case SeriesTilt:
		q.seed = m.seedOfTilt(k.Rod, k.End == "to")
	case SeriesNeeded:
		q.seed = func(l *linear, c float64) { l.pushLength(k.Rod.Index, c) }
	case SeriesTension:
		q.seed = m.seedOfTension(k.Cable)
	case SeriesFree:
		q.seed = m.seedOfFree(k.Pair)
	case SeriesStop:
		q.seed = m.seedOfStop(k.Stop)
	case SeriesRequirement:
		q = g.required(k.Requirement, k.probe)
	}
	return q, q.seed != nil || q.first != nil
}

// seedOfPart is that of how a part is told, or what is told of it by a name.
func (m *Mechanism) seedOfPart(part *linkage.Part, name string) seed {
	k, ok := m.named(part, name)
	if !ok {
		k = m.partMeasure(part)
	}
	return k.seed(nil)
}

// required is the quantity that a requirement follows in a probe of its own.
func (g *gradients) required(r *linkage.Requirement, probe int) (q quantity) {
	m := g.m
	q.probe = probe
	switch r.Kind {
	case linkage.Opposite, linkage.Together:
		sign := 1.0
		if r.Kind == linkage.Together {
			sign = -1
		}
		q.seed = m.seedOfSubject(r.Of[0]).plus(m.seedOfSubject(r.Of[1]), float64(sign*m.perFirst(r)))
	case linkage.Steady:
		q.seed, q.since = m.seedOfSubject(r.Of[0]), true
	case linkage.Travel, linkage.Reading, linkage.CollectivePitch, linkage.CyclicPitch, linkage.CyclicSense:
		q.seed = m.seedOfSubject(r.Of[0])
	case linkage.Symmetrical:
		q.seed = m.seedOfSubject(r.Of[0])
		q.mirror = &mirrorQuantity{g.s.judgedOf(r).second, m.seedOfSubject(r.Of[1]).times(m.perFirst(r)), mirrorSign(r)}
	case linkage.Clearance:
		q.seed = m.seedOfGap(r.Between)
	case linkage.Sense:
		if r.Places != nil {
			a, b, sign := m.senseMeasures(r)
			q.first, q.second, q.sign = a.seed(&r.Places[0].Place), b.seed(&r.Places[1].Place), sign
			break
		}
		q.first, q.second, q.sign = m.seedOfSubject(r.Of[0]), m.seedOfSubject(r.Of[1]), -1
		if r.Same {
			q.sign = 1
		}
	}
	return q
}

// gradients finds gradients along a sweep, in poses of its own.
type gradients struct {
	m     *Mechanism
	s     *sweeper // with a path of its own
	now   *path
	slots *slots
	kept  map[float64]*linearized
	ends  map[int]*sums // by side: how it goes with the drawing; nil where there is no telling
	folds map[int]*fold // by side
	aside *linear       // of what is not kept
	work  *sums
	spent *float64 // the account that it is charged to
}

// linearized is a place of the control with the run linearized there.
type linearized struct {
	*linear
	x     float64
	v, dv []float64 // by probe
	d     []float64 // by freedom
	valid bool
}

func (s *sweeper) gradients(slots *slots) *gradients {
	own := s.apart()
	return &gradients{m: s.m, s: own, now: own.p, slots: slots, spent: new(float64), kept: make(map[float64]*linearized), ends: make(map[int]*sums), folds: make(map[int]*fold), work: s.m.newSums(slots)}
}

const (
	// keptPoses is the work of linearizing the run at a place and keeping that, in poses:
	// more than it takes, so that what is kept doesn't fill the memory.
	keptPoses = 40
	// besidePoses is that of a place that isn't kept.
	besidePoses = 4
)

// charge counts work of so many poses; false where there was more than is for one
// answer, or it is to be given up.
func (g *gradients) charge(poses float64) bool {
	return !g.m.spend(g.spent, float64(poses*(g.m.workOfPose()+g.now.reading)))
}

// at linearizes the run at x of the control, where it has probes too; nil where it
// doesn't close there.
func (g *gradients) at(x float64) *linearized {
	if l, ok := g.kept[x]; ok {
		return l
	}
	g.kept[x] = nil
	if !g.charge(keptPoses) || !g.s.solveAt(x) {
		return nil
	}
	sample := g.now.take(x)
	l := &linearized{linear: g.m.newLinear(g.slots), x: x, v: sample.v, dv: sample.dv, d: sample.d, valid: sample.valid}
	l.linear.at(&g.now.st)
	g.kept[x] = l
	return l
}

// beside linearizes the run at x for once.
func (g *gradients) beside(x float64) *linear {
	if !g.charge(besidePoses) || !g.s.solveAt(x) {
		return nil
	}
	if g.aside == nil {
		g.aside = g.m.newLinear(g.slots)
	}
	g.aside.at(&g.now.st)
	return g.aside
}

// of finds the derivatives of a quantity at x, the control kept there, with its
// value.
func (g *gradients) of(q quantity, x float64, into *sums) (v float64, ok bool) {
	l := g.at(x)
	if l == nil || q.ofRates() && !l.valid {
		return 0, false
	}
	v = l.v[q.probe]
	switch {
	case q.first != nil:
		ok = g.ofRatio(q, l, into)
	case q.slope:
		ok = g.ofSlope(q.seed, x, into)
	default:
		ok = l.gradient(into, func(l *linear) { q.seed(l, 1) })
	}
	if q.since {
		v -= g.s.origin.v[q.probe]
	}
	if k := q.mirror; ok && k != nil {
		other := g.at(-x)
		if other == nil || !other.gradient(g.work, func(l *linear) { k.seed(l, 1) }) {
			return 0, false
		}
		v += float64(k.sign * other.v[k.probe])
		into.addScaled(g.work, k.sign)
	}
	return v, ok && !math.IsNaN(v) && g.since(q, into)
}

// rateAt is how fast a quantity goes with the control at x; no number where there is no
// telling.
func (g *gradients) rateAt(q quantity, x float64) float64 {
	l := g.at(x)
	if l == nil || !l.valid {
		return math.NaN()
	}
	rate := l.dv[q.probe]
	if k := q.mirror; k != nil {
		other := g.at(-x)
		if other == nil || !other.valid {
			return math.NaN()
		}
		rate -= float64(k.sign * other.dv[k.probe])
	}
	return rate
}

// since takes off how what a quantity is told from goes, which is what it is at
// neutral.
func (g *gradients) since(q quantity, into *sums) bool {
	if !q.since {
		return true
	}
	origin := g.at(0)
	if origin == nil || !origin.gradient(g.work, func(l *linear) { q.seed(l, 1) }) {
		return false
	}
	into.addScaled(g.work, -1)
	return true
}

func (q *quantity) ofRates() bool { return q.slope || q.first != nil }

// ofRatio is that of the ratio b'/a' of two rates: (b' - r a')/a' differentiated
// with r kept.
func (g *gradients) ofRatio(q quantity, l *linearized, into *sums) bool {
	r := float64(q.sign * l.v[q.probe])
	rate := 0.0
	if !l.gradient(g.work, func(l *linear) { q.first(l, 1) }) {
		return false
	}
	rate = float64(g.work.free[g.now.input] * g.now.unit)
	if math.Abs(rate) <= g.now.perControl(movingRate) || math.IsNaN(r) {
		return false
	}
	if !g.ofSlope(q.second.plus(q.first, -r), l.x, into) {
		return false
	}
	into.scale(q.sign / rate)
	return true
}

// slopeStep is how far apart, in steps of samples, poses are taken to differentiate
// along the control: what is left out goes with the fourth power, below 1e-9 of
// what a half degree does, and rounding with its inverse.
const slopeStep = 2

// stencils differentiate by five places in a row, at each of these.
var stencils = [5][5]float64{
	{-25, 48, -36, 16, -3}, {-3, -10, 18, -6, 1}, {1, -8, 0, 8, -1}, {-1, 6, -18, 10, 3}, {3, -16, 36, -48, 25},
}

// ofSlope is that of a rate by the control: the derivatives of the quantity itself
// differentiated along the control, over five poses of one smooth stretch.
func (g *gradients) ofSlope(of seed, x float64, into *sums) bool {
	low, high, ok := g.smooth(x)
	if !ok {
		return false
	}
	h := math.Min(slopeStep*g.now.longest, (high-low)/4)
	if h < leastStencil*g.now.longest {
		return false
	}
	at := 2
	for at > 0 && x-float64(float64(at)*h) < low-float64(0.01*h) {
		at--
	}
	for at < 4 && x+float64(float64(4-at)*h) > high+float64(0.01*h) {
		at++
	}
	total := g.m.newSums(g.slots)
	for i, weight := range stencils[at] {
		if weight == 0 {
			continue
		}
		place := x
		if i != at {
			place = math.Min(high, math.Max(low, x+float64(float64(i-at)*h)))
		}
		l := g.beside(place)
		if l == nil || !l.gradient(g.work, func(l *linear) { of(l, 1) }) {
			return false
		}
		total.addScaled(g.work, weight/(12*h))
	}
	*into = *total
	return true
}

// leastStencil is the shortest way between poses, in steps of samples, from which a
// rate is told.
const leastStencil = 0.05

// smooth is the stretch about x in which no pair goes slack or comes taut and which
// keeps off the places where the run is on center; false where x is too near to
// one of them.
func (g *gradients) smooth(x float64) (low, high float64, ok bool) {
	s := g.s
	low, high = s.sides[0].w.last.x, s.sides[1].w.last.x
	for i, sd := range s.sides {
		if sd.w.singularity == nil {
			continue
		}
		// Rates go there as a root does: keep off by some times what is between x
		// and it.
		if i == 0 {
			low += float64(offCenter * math.Max(0, x-low))
		} else {
			high -= float64(offCenter * math.Max(0, high-x))
		}
	}
	for _, stretches := range s.slack {
		for _, b := range stretches {
			for _, edge := range b {
				switch {
				case edge == x && edge != s.sides[0].end.x && edge != s.sides[1].end.x:
					return 0, 0, false
				case edge < x:
					low = math.Max(low, edge)
				case edge > x:
					high = math.Min(high, edge)
				}
			}
		}
	}
	return low, high, low <= x && x <= high
}

// offCenter is the share of the way to a place on center that is kept off when
// rates are taken beside it.
const offCenter = 0.9
