// Layer: gradient.

package solve

import (
	"math"

	"fullfree/linkage"
)

// Where something happens along the travel, as functions of the drawing. A stop
// bites where its gap is nothing, and a part halts where its rate is: there
// dx/dd is minus the gradient of that over its own rate by the control.

// foundAgain is how many times its noise the gap of a stop may be off where it was
// found to bite.
const foundAgain = 10

// bite finds how the place at which a stop bites on a side goes with the drawing.
func (g *gradients) bite(sd *side, stop *linkage.Stop) (into *sums, ok bool) {
	at := sd.bites[stop.Index]
	if at == nil {
		return nil, false
	}
	into = g.m.newSums(g.slots)
	if stop.Of != nil && stop.Of == g.s.sweep.Control.Of {
		into.drawn[g.slots.stops+stop.Index] = 1 // the control's own position
		return into, true
	}
	l := g.at(*at)
	probe := g.s.stops + stop.Index
	if l == nil || !l.valid || math.Abs(l.v[probe]) > foundAgain*g.m.stopNoise(stop) {
		return nil, false // it bites with a cable slack: the pose there is another
	}
	rate := l.dv[probe]
	if !(math.Abs(rate) > g.now.probes[probe].noise) {
		return nil, false
	}
	of := g.m.seedOfStop(stop)
	if !l.gradient(into, func(l *linear) { of(l, 1) }) {
		return nil, false
	}
	into.scale(-1 / rate)
	return into, true
}

// end finds how an end of the travel goes with the drawing. It is not to be changed.
func (g *gradients) end(sd *side) (into *sums, ok bool) {
	k, found := g.ends[sd.index]
	if !found {
		k, _ = g.findEnd(sd)
		g.ends[sd.index] = k
	}
	return k, k != nil
}

func (g *gradients) findEnd(sd *side) (into *sums, ok bool) {
	switch {
	case sd.stop != nil:
		return g.bite(sd, sd.stop)
	case sd.onCenter() >= 0:
		return g.center(sd)
	}
	return g.m.newSums(g.slots), true
}

// center finds how the place goes with the drawing where a side's walk ended on
// center.
func (g *gradients) center(sd *side) (into *sums, ok bool) {
	if into, ok = g.inLine(sd); ok {
		return into, true
	}
	if f := g.foldOf(sd); f != nil {
		return f.dx, true
	}
	return nil, false
}

// inLine finds that where it is a cable of a taut pair that comes in line: the pose is
// a regular one, and the rate of that cable's length by its part is nothing.
func (g *gradients) inLine(sd *side) (into *sums, ok bool) {
	w := sd.w.singularity
	if w.kind != Toggle || g.m.steps[w.step].kind != closePull || w.at == nil || g.m.floatsAt(w) {
		return nil, false
	}
	l := g.at(w.x)
	if l == nil || !l.valid {
		return nil, false
	}
	constraint := &g.m.constraints[g.m.steps[w.step].constraints[0]]
	f := g.m.pulls[constraint.pull].freedom
	for i, now := range g.m.swings(&l.st, constraint) {
		if math.Abs(now.p1) > lostSine*math.Sqrt(now.speed2) {
			continue
		}
		into = g.m.newSums(g.slots)
		if !l.gradient(into, func(l *linear) { l.pushSwing(&constraint.cablePaths[i], f, 1) }) {
			return nil, false
		}
		rate := float64(into.free[g.now.input] * g.now.unit)
		if rate == 0 {
			return nil, false
		}
		into.scale(-1 / rate)
		return into, true
	}
	return nil, false
}

// holds finds how the place goes where the control itself is held on a side, or
// where none holds it the travel ends.
func (g *gradients) holds(sd *side) (into *sums, ok bool) {
	if sd.past != nil && sd.past.HoldsControl() {
		return g.bite(sd, sd.past.innermost().Stop)
	}
	return g.end(sd)
}

// halt finds how a dead center goes with the drawing.
func (g *gradients) deadCenterSums(h *deadCenter) (into *sums, ok bool) {
	k := g.m.outputMeasureOr(h.output, h.freedom)
	var point *linkage.PointRef
	if h.output != nil {
		point = h.output.Point
	}
	l := g.at(h.x)
	if l == nil || !l.valid {
		return nil, false
	}
	into = g.m.newSums(g.slots)
	rate := l.dv[h.probe]
	if !(math.Abs(rate)*g.now.longest > g.now.probes[h.probe].noise) || !g.ofSlope(k.seed(point), h.x, into) {
		return nil, false
	}
	into.scale(-1 / rate)
	return into, true
}

// outputMeasureOr is the measure of an output, or where that is nil of a freedom.
func (m *Mechanism) outputMeasureOr(o *linkage.Output, freedom int) measure {
	if o != nil {
		return m.outputMeasure(o)
	}
	return m.freedomMeasure(freedom)
}

// fold is a toggle, where the control's position as a function of a freedom t of the
// step that locks has an extreme. Told by t instead of the control all goes on
// smoothly through it, so what is there is the limit of poses before it.
type fold struct {
	freedom int
	nodes   []foldNode
	dx, dt  *sums // how its place goes with the drawing, of the control and of t
}

// foldNode is a pose before a toggle.
type foldNode struct {
	l      *linearized
	rate   float64 // of t by the control
	of     *sums   // the derivatives of t, the control kept
	weight float64 // of its share in the limit
}

const (
	// foldPoses is how many poses before a toggle a limit is taken from, and
	// foldReach how far t is from the toggle at the farthest, radians or shares of the
	// run's size: what a polynomial through them leaves out goes with the sixth
	// power.
	foldPoses = 6
	foldReach = 0.05
	// foldFirst is how far before a toggle, in steps of samples, is looked first to
	// see how fast t goes.
	foldFirst = 0.05
)

// foldOf finds the toggle at which a side's walk ended; nil where that is none, or it
// can't be told how it goes: a change point, which a change of the drawing does away
// with, and where what floats between slack cables ends.
func (g *gradients) foldOf(sd *side) *fold {
	if f, ok := g.folds[sd.index]; ok {
		return f
	}
	g.folds[sd.index] = nil
	w := sd.w.singularity
	if w == nil || w.kind != Toggle || w.at == nil || g.m.floatsAt(w) {
		return nil
	}
	f := &fold{}
	span := float64(foldFirst * g.now.longest)
	before := func(away float64) float64 { return w.x - float64(sd.w.dir*away) }
	l := g.at(before(span))
	if l == nil || !l.valid {
		return nil
	}
	f.freedom = g.m.fastest(l.d, w.step)
	moved := math.Abs(l.st.q[f.freedom]-w.at.q[f.freedom]) / g.m.sizeOf(f.freedom)
	if !(moved > 0) {
		return nil
	}
	reach := foldReach / moved
	span = math.Min(span*reach*reach, math.Abs(w.x)/2)
	for _, stretches := range g.s.slack {
		for _, b := range stretches {
			for _, edge := range b {
				if away := float64((w.x - edge) * sd.w.dir); away > 0 {
					span = math.Min(span, away)
				}
			}
		}
	}
	for j := 1; j <= foldPoses; j++ {
		share := float64(j) / foldPoses
		if !f.add(g, before(float64(span*share*share))) {
			return nil
		}
	}
	f.weigh(g, w)
	g.folds[sd.index] = f
	return f
}

// floatsAt reports whether a singular place is one of a pair that is slack.
func (m *Mechanism) floatsAt(c *critical) bool {
	s := &m.steps[c.step]
	return s.kind == closePull && c.at.slack[m.constraints[s.constraints[0]].pull]
}

// fastest is the unknown of a step that has the largest rate.
func (m *Mechanism) fastest(rates []float64, step int) int {
	best, most := -1, -1.0
	for _, f := range m.steps[step].unknowns {
		if d := math.Abs(rates[f]) / m.sizeOf(f); d > most {
			best, most = f, d
		}
	}
	return best
}

// add takes a pose before the toggle in.
func (f *fold) add(g *gradients, x float64) bool {
	l := g.at(x)
	if l == nil || !l.valid {
		return false
	}
	n := foldNode{l: l, of: g.m.newSums(g.slots)}
	if !l.gradient(n.of, func(l *linear) { l.pushFree(f.freedom, 1) }) {
		return false
	}
	n.rate = float64(n.of.free[g.now.input] * g.now.unit)
	f.nodes = append(f.nodes, n)
	return n.rate != 0
}

// weigh finds the weights of the limit, and how the toggle goes with the drawing.
// With x(t, d) for t kept, dx/dd = -(dt/dd)/(dt/dx), its limit is how the
// toggle's place goes, and the derivative by t of that, over minus the second
// derivative of x, how its t goes.
func (f *fold) weigh(g *gradients, w *critical) {
	at := w.at.q[f.freedom]
	f.dx, f.dt = g.m.newSums(g.slots), g.m.newSums(g.slots)
	bend := 0.0
	for j := range f.nodes {
		n := &f.nodes[j]
		t := n.l.st.q[f.freedom]
		n.weight = 1
		slope := 0.0
		for k := range f.nodes {
			if k != j {
				other := f.nodes[k].l.st.q[f.freedom]
				n.weight = float64(n.weight * (at - other) / (t - other))
				slope += 1 / (at - other)
			}
		}
		f.dx.addScaled(n.of, -n.weight/n.rate)
		f.dt.addScaled(n.of, n.weight*slope/n.rate)
		bend += n.weight * 2 * (n.l.x - w.x) / ((t - at) * (t - at))
	}
	f.dt.scale(1 / bend)
}

// total finds how a quantity at the toggle goes with the drawing.
func (f *fold) total(g *gradients, q quantity) (into *sums, ok bool) {
	if q.ofRates() {
		return nil, false // it hangs on how near the toggle is looked
	}
	into = g.m.newSums(g.slots)
	rate := 0.0
	for j := range f.nodes {
		n := &f.nodes[j]
		if !n.l.gradient(g.work, func(l *linear) { q.seed(l, 1) }) {
			return nil, false
		}
		by := n.l.dv[q.probe] / n.rate
		into.addScaled(g.work, n.weight)
		into.addScaled(n.of, float64(-n.weight*by))
		rate += float64(n.weight * by)
	}
	into.addScaled(f.dt, rate)
	return into, g.since(q, into)
}
