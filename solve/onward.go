// Layer: sweep.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
)

// Where a stop holds only what a cable pulls, against that part's own spring, the
// control goes on with the cable hanging slack, and where a part locks up on center
// what doesn't hang on it would go on if it could. What is met there is found in a
// copy of the run without what it has no more, that goes on from the same pose.

// onward takes a copy of the run, without some of it, on from a pose of a side of
// the sweep. It follows the gaps of stops alone. It is nil where the copy can't
// stand in that pose.
func (s *sweeper) onward(run *linkage.Run, from *sample, sd *side) (*sweeper, *side) {
	if run.Control(s.sweep.Control) == nil {
		return nil, nil
	}
	var sides []linkage.Edit
	for _, stop := range run.Stops { // what stood on neutral may stand a little elsewhere
		switch side := s.m.stopSide[s.m.run.Stop(stop).Index]; {
		case side > 0:
			sides = append(sides, linkage.LimitTo(stop, "high"))
		case side < 0:
			sides = append(sides, linkage.LimitTo(stop, "low"))
		}
	}
	run, err := run.With(sides...)
	if err != nil {
		return nil, nil
	}
	m, err := Compile(run)
	if err != nil {
		return nil, nil
	}
	control := run.Control(s.sweep.Control)
	o := &sweeper{m: m, p: m.newPath(control), sweep: &Sweep{Control: control}}
	o.p.addSines()
	o.stops = m.addStops(o.p)
	q := make([]float64, len(m.freedoms))
	for f := range m.freedoms {
		b := m.freedoms[f].body
		own := s.m.partBody[s.m.run.Part(m.bodies[b].part).Index]
		q[f] = from.q[s.m.bodies[own].first+f-m.bodies[b].first]
		if m.freedoms[f].input >= 0 && f != o.p.input {
			o.p.held[f] = &Held{run.Controls[m.freedoms[f].input], q[f]}
		}
	}
	if o.p.solve(from.x, q) != allClosed {
		return nil, nil
	}
	for f := range q {
		if math.Abs(o.p.st.q[f]-q[f]) > follows*m.sizeOf(f) {
			return nil, nil // it stands in another assembly
		}
	}
	on := &side{index: sd.index, slack: -1, bites: make([]*float64, len(run.Stops)), biteAt: make([]float64, len(run.Stops))}
	o.origin = o.p.take(from.x)
	on.w = newWalk(o.p, sd.w.dir, o.origin, nil)
	return o, on
}

// goOn walks outward to the limit, and no further than more asks for. Between is
// told every pair of neighboring samples.
func (o *sweeper) goOn(on *side, limit float64, between func(a, b *sample), more func() bool) {
	on.w.between = func(_ *walk, a, b *sample) { between(a, b) }
	for more() && !on.w.ended() && (limit-on.w.last.x)*on.w.dir > 0 {
		next := on.w.last.x + float64(o.p.longest*on.w.dir)
		if (limit-next)*on.w.dir < 0 {
			next = limit
		}
		on.w.to(next)
	}
}

// grip makes a control of a part, to hold or move it by itself.
func grip(p *linkage.Part, size float64) linkage.Edit {
	most := float64(halfTurn)
	if p.Motion == linkage.Slides {
		most = size
	}
	return linkage.Grip(p, -most, most)
}

// limitOf is how far the file explores a side.
func (s *sweeper) limitOf(sd *side) float64 {
	return [2]float64{s.sweep.Control.From, s.sweep.Control.To}[sd.index]
}

// goOnSlack finds how the control itself ends past a stop that ends a side of the
// travel but holds only what a lone cable moves; nil where that can't be told. It
// is followed with the cable hanging loose, and what that drove held by the stop.
func (s *sweeper) goOnSlack(sd *side) *End {
	m := s.m
	step := &m.steps[sd.slack]
	f := step.unknowns[0]
	driven := m.bodies[m.freedoms[f].body].part
	if driven.Motion == linkage.Floats {
		return nil
	}
	k := &m.constraints[step.constraints[0]].cablePaths[0]
	gone := []linkage.Element{k.cable}
	for _, stop := range m.run.Stops {
		if m.isBehind(stop, f) {
			gone = append(gone, stop)
		}
	}
	run, err := m.run.With(linkage.Bare(), linkage.Remove(gone...), grip(driven, m.size))
	if err != nil {
		return nil
	}
	o, on := s.onward(run, sd.end, sd)
	if o == nil {
		return nil
	}
	taut := o.p.addSlack(k)
	o.origin = o.p.take(sd.end.x)
	on.w.last = o.origin
	for i, stop := range o.m.run.Stops {
		if closing(on.w, o.origin, o.stops+i, o.m.stopNoise(stop)) {
			on.bites[i] = &o.origin.x
			o.endAt(on, o.origin, stop)
		}
	}
	still := m.placesContact(sd.stop)
	moved, comesTaut := false, false
	o.goOn(on, s.limitOf(sd), func(a, b *sample) {
		for _, f := range still {
			moved = moved || math.Abs(b.q[f]-o.origin.q[f]) > follows*m.sizeOf(f)
		}
		x, ok := on.w.touchdown(a, b, taut, m.lengthNoise(ContactNoise))
		e, stop := o.firstBite(on, a, b)
		switch {
		case stop != nil && !(ok && math.Abs(x) < math.Abs(e.x)):
			o.endAt(on, e, stop)
		case ok:
			comesTaut = true
			o.endAt(on, &sample{x: x}, nil)
		}
	}, func() bool { return on.end == nil && !moved })
	switch {
	case moved: // what stays at the stop has to move for that: it isn't held there
		return nil
	case comesTaut:
		return &End{At: on.end.x, Cause: ByCable, Part: driven}
	case on.end == nil:
		on.end = on.w.last
	}
	o.endSlack(on)
	e := endIn(m.run, o.endOf(on))
	for k := &e; k != nil; k = k.Past {
		if k.Stop != nil {
			sd.bites[k.Stop.Index] = &k.At
		}
	}
	return &e
}

// endSlack finds whether the stop that ends a side of the travel holds only what a
// lone cable moves, and what becomes of the control then.
func (s *sweeper) endSlack(sd *side) {
	if sd.slack = s.slackPast(sd); sd.slack >= 0 {
		sd.past = s.goOnSlack(sd)
	}
}

// holdsAt is how far the control itself goes on a side: to the stop that holds it,
// or where none does to where the travel ends.
func (sd *side) holdsAt() float64 {
	if sd.past != nil && sd.past.HoldsControl() {
		return sd.past.innermost().At
	}
	return sd.end.x
}

// innermost is how the control itself ends.
func (e *End) innermost() *End {
	for e.Past != nil {
		e = e.Past
	}
	return e
}

// hangsOn reports whether a step is one past which a side's slack cable hangs: its
// own, or of what that drives. Nothing is felt of it while the cable is slack.
func (s *sweeper) hangsOn(sd *side, step int) bool {
	if sd.slack < 0 || step == noStep {
		return false
	}
	moved := s.m.movedWith(s.m.steps[sd.slack].unknowns)
	return moved[s.m.steps[step].unknowns[0]]
}

// marginOf is how far past the end of its side of the travel a step is on center at
// x. What is felt while a cable hangs slack counts from where the control is held.
func (s *sweeper) marginOf(sd *side, step int, x float64) float64 {
	end := sd.end.x
	if !s.hangsOn(sd, step) {
		end = sd.holdsAt()
	}
	return float64((x - end) * sd.w.dir)
}

// sideOf is the side on which x lies.
func (s *sweeper) sideOf(x float64) *side {
	if x < 0 {
		return s.sides[0]
	}
	return s.sides[1]
}

// movedWith returns what moves with freedoms of a step: themselves, and all that is
// driven from them.
func (m *Mechanism) movedWith(unknowns []int) map[int]bool {
	moved := map[int]bool{}
	for _, f := range unknowns {
		moved[f] = true
	}
	for i := range m.steps {
		s := &m.steps[i]
		if slices.ContainsFunc(s.given, func(g int) bool { return moved[g] }) {
			for _, u := range s.unknowns {
				moved[u] = true
			}
		}
	}
	return moved
}

// isMoved reports whether a body, or what carries it, has one of these freedoms.
func (m *Mechanism) isMoved(b int, moved map[int]bool) bool {
	for _, u := range m.under(b) {
		first, count := m.freedomsOf(u)
		for f := first; f < first+count; f++ {
			if moved[f] {
				return true
			}
		}
	}
	return false
}

// placesContact returns the freedoms by which the two sides of a stop stand to each
// other.
func (m *Mechanism) placesContact(stop *linkage.Stop) (list []int) {
	var bodies []int
	if stop.Of != nil {
		for _, t := range m.stopMeasure(stop).terms {
			list = append(list, t.freedom)
		}
		return list
	}
	for _, t := range stop.Touch {
		bodies = append(bodies, m.partBody[t.Part.Index]) // a rod stands behind no cable
	}
	_, chain := m.meeting(bodies)
	for _, b := range chain {
		first, count := m.freedomsOf(b)
		for f := first; f < first+count; f++ {
			list = append(list, f)
		}
	}
	return list
}

// addSlack adds the probe of by how much a cable hangs slack.
func (p *path) addSlack(k *cablePath) int {
	return p.add(probe{noise: p.m.lengthNoise(valueNoise), value: func(p *path) (float64, float64) {
		rate := 0.0
		for _, g := range k.legs {
			core, mouth := p.st.place(g.core), p.st.place(g.mouth)
			apart := p.rates.of(&p.st, g.core.body, core).Sub(p.rates.of(&p.st, g.mouth.body, mouth))
			rate += core.Sub(mouth).Unit().Dot(apart)
		}
		for _, d := range k.drums {
			rate += float64(d.takes * p.rates.d[d.freedom])
		}
		return k.set - p.st.pathOf(k), float64(-rate * p.unit)
	}})
}

// onCenter returns the step that is singular where the travel ends; -1: none.
func (sd *side) onCenter() int {
	if w := sd.w.singularity; w != nil && sd.end == w.at {
		return w.step
	}
	return -1
}
