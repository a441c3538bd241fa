// Layer: compile.

package solve

import (
	"fmt"
	"math"
	"slices"

	"fullfree/linkage"
)

// setPull notes what a pair holds, if the step is one's. It adds a fault and
// returns false where that can't be solved.
func (m *Mechanism) setPull(s *step, index int, faults *linkage.Faults) bool {
	at := slices.IndexFunc(s.constraints, func(i int) bool { return m.constraints[i].pair != nil })
	if at < 0 {
		return true
	}
	l := &m.constraints[s.constraints[at]]
	if len(s.constraints) > 1 {
		var others []*constraint
		for _, i := range s.constraints {
			if i != s.constraints[at] {
				others = append(others, &m.constraints[i])
			}
		}
		faults.Add(l.span(), "the pair %q closes a loop together with %s: cables that close a loop with others can't be solved here; a pair must hold one part by itself",
			l.name(), ofConstraints(others))
		return false
	}
	f := s.unknowns[0]
	b := &m.bodies[m.freedoms[f].body]
	if b.carrier != airframe || b.kind == floating {
		faults.Add(l.span(), "the pair %q holds %q, which doesn't turn or slide on the airframe itself: a pair can hold only a part that does", l.name(), b.part.Name)
		return false
	}
	p := &m.pulls[l.pull]
	p.freedom, p.step = f, index
	st := m.newState()
	for i := range l.cablePaths {
		k := &l.cablePaths[i]
		if !(k.stiffness > 0) || !(l.pair.Pretension > 0) {
			faults.Add(l.span(), "the pair %q has no stiffness or no pretension, so how it holds %q can't be told", l.name(), b.part.Name)
			return false
		}
		_, speed := m.pathPartial(&st, k, f)
		if speed == 0 {
			faults.Add(k.cable.Span, "the cable %q doesn't move %q, which the pair %q should hold", k.cable.Name, b.part.Name, l.name())
			return false
		}
		p.scale += float64(k.stiffness * speed)
	}
	return true
}

// checkCables adds a fault for each cable that loads what a pair holds: how far
// that gives way isn't told, for a pair is balanced without load. And for each
// that a spring keeps taut in a loop, where the spring's side doesn't say so.
func (m *Mechanism) checkCables(faults *linkage.Faults) {
	if len(m.pulls) == 0 && !slices.ContainsFunc(m.constraints, func(l constraint) bool { return l.cablePaths != nil }) {
		return
	}
	holds := make([]int, len(m.freedoms)) // by freedom: a pair that it goes with, from 1; 0: none
	for i := range m.steps {
		s := &m.steps[i]
		held := 0
		for _, f := range s.given {
			held = max(held, holds[f])
		}
		for _, n := range s.constraints {
			l := &m.constraints[n]
			switch {
			case l.cablePaths == nil:
			case held > 0 && l.pair != nil:
				faults.Add(l.span(), "the pair %q pulls on what the pair %q holds: two pairs in a row can't be balanced here, for each would draw the other off", l.name(), m.pulls[held-1].pair.Name)
			case held > 0 && l.sprung():
				faults.Add(l.span(), "the spring that keeps the cable %q taut pulls on what the pair %q holds, and how hard isn't known: only a pushing cable (pushes = true) or rods can go on from there", l.name(), m.pulls[held-1].pair.Name)
			case l.sprung() && len(s.constraints) > 1:
				faults.Add(l.span(), "the cable %q, which only pulls, closes a loop with others, so it can't be told from the side of a spring that it stays taut: let it drive a part by itself, or use one that pushes", l.name())
			}
		}
		for _, n := range s.constraints {
			if l := &m.constraints[n]; l.pair != nil {
				held = l.pull + 1
			}
		}
		for _, f := range s.unknowns {
			holds[f] = held
		}
	}
}

// sprung reports whether a constraint is a cable that only a spring keeps taut.
func (l *constraint) sprung() bool {
	return l.pair == nil && l.cable() != nil && l.cablePaths[0].cable.Spring != "" && !l.cablePaths[0].cable.Pushes
}

// tellSprings adds a fault for each cable that pulls where its spring does.
// Where it pulls against it here it does over the whole travel: in between it
// would come in line with what it moves, and that ends the travel.
func (m *Mechanism) tellSprings(st *state, faults *linkage.Faults) {
	for i := range m.steps {
		s := &m.steps[i]
		l := &m.constraints[s.constraints[0]]
		if len(s.constraints) > 1 || !l.sprung() {
			continue
		}
		c := l.cablePaths[0].cable
		side, other := 1.0, "minus"
		if c.Spring == "minus" {
			side, other = -1, "plus"
		}
		if slope, _ := m.pathPartial(st, &l.cablePaths[0], s.unknowns[0]); slope*side < 0 {
			faults.Add(c.Span, "the cable %q pulls %q to its %s side, and so does its spring: nothing keeps the cable taut; where the spring returns it to the other side, say spring = %q",
				c.Name, m.bodies[m.freedoms[s.unknowns[0]].body].part.Name, c.Spring, other)
		}
	}
}

// tellPullOnCenter adds a fault for a pair that doesn't hold its part where it
// stands.
func (m *Mechanism) tellPullOnCenter(st *state, s *step, when string, faults *linkage.Faults) {
	l := &m.constraints[s.constraints[0]]
	part := m.bodies[m.freedoms[s.unknowns[0]].body].part
	now := m.swings(st, l)
	for i := range now {
		if !(math.Abs(now[i].p1) >= criticalSine*math.Sqrt(now[i].speed2)) {
			c := l.cablePaths[i].cable
			faults.Add(c.Span, "%q stands on center %s: the cable %q is in line with what it should move; draw the run away from there", part.Name, when, c.Name)
			return
		}
	}
	if now[0].p1*now[1].p1 > 0 {
		faults.Add(l.span(), "both cables of the pair %q pull %q the same way %s: they hold it only if they pull it opposite ways", l.name(), part.Name, when)
		return
	}
	if _, k := balanceOf(now); !(k > criticalSine*fullStiffness(now)) {
		faults.Add(l.span(), "the pair %q doesn't hold %q %s: it would go over center, for its cables are drawn up harder than they are stiff", l.name(), part.Name, when)
	}
}

// tellUnheld adds the fault of a pair that finds no balance.
func (m *Mechanism) tellUnheld(s *step, faults *linkage.Faults) {
	l := &m.constraints[s.constraints[0]]
	faults.Add(l.span(), "the run can't be closed: as its cables are set, the pair %q finds no place where they hold %q between them",
		l.name(), m.bodies[m.freedoms[s.unknowns[0]].body].part.Name)
}

// setting writes how a rod or cable is set, for a message.
func (m *Mechanism) setting(l *constraint) string {
	switch {
	case l.rod != nil:
		return "to " + m.length(l.set, l.in())
	case l.pin != nil:
		return "together"
	case l.pair != nil:
		return "as drawn up"
	case l.cablePaths[0].cable.Open():
		return fmt.Sprintf("%s longer than drawn", m.length(l.set, l.in()))
	}
	return "to a core of " + m.length(l.set, l.in())
}
