// Layer: compile.

package solve

import (
	"slices"

	"fullfree/linkage"
	"fullfree/solve/internal/num"
)

// depends returns the freedoms that the constraint's length depends on, ascending. A
// body that carries every part at both ends moves the constraint as a whole and
// leaves its length alone.
func (m *Mechanism) depends(l *constraint) (list []int) {
	switch {
	case l.keep != nil:
		return m.dependsOfKeep(l.keep)
	case l.cablePaths == nil:
		return m.dependsOfEnds(l.from, l.to)
	}
	for i := range l.cablePaths {
		list = append(list, m.dependsOfCablePath(&l.cablePaths[i])...)
	}
	slices.Sort(list)
	return slices.Compact(list)
}

// equations is which unknowns each constraint that drives has, unknowns numbered
// without the controls' freedoms.
type equations struct {
	of          num.Incidence
	constraints []int   // the constraint of each equation
	unknowns    []int   // the freedom of each unknown
	depends     [][]int // by constraint: every freedom, controls' too
}

// incidence numbers the unknowns; the freedom of a control that is let go, where
// letGo isn't -1, is one of them.
func (m *Mechanism) incidence(letGo int) equations {
	var e equations
	number := make([]int, len(m.freedoms))
	for f := range m.freedoms {
		number[f] = -1
		if m.freedoms[f].input < 0 || m.freedoms[f].input == letGo {
			number[f] = len(e.unknowns)
			e.unknowns = append(e.unknowns, f)
		}
	}
	for i := range m.constraints {
		depends := m.depends(&m.constraints[i])
		e.depends = append(e.depends, depends)
		if m.constraints[i].secondPath() {
			continue
		}
		var own []int
		for _, f := range depends {
			if number[f] >= 0 {
				own = append(own, number[f])
			}
		}
		e.constraints = append(e.constraints, i)
		e.of = append(e.of, own)
	}
	return e
}

// addSteps orders the constraints into steps and says which bodies each must place.
func (m *Mechanism) addSteps(e equations, pairs num.Matching, faults *linkage.Faults) {
	known := make([]bool, len(m.freedoms))
	for _, f := range m.inputs {
		known[f] = true
	}
	done := make([]bool, len(m.bodies)) // placed for good by an earlier step
	done[airframe] = true
	settled := func(b int) bool { // everything that places b is known
		for _, u := range m.under(b) {
			first, count := m.freedomsOf(u)
			for f := first; f < first+count; f++ {
				if !known[f] {
					return false
				}
			}
		}
		return true
	}
	byAlgebra := make([]bool, len(m.freedoms)) // turns that algebra leaves as cosine and sine
	for _, block := range pairs.Blocks(e.of) {
		var s step
		var ends []int
		depends := make(map[int]bool)
		for _, u := range block {
			s.unknowns = append(s.unknowns, e.unknowns[u])
			s.constraints = append(s.constraints, e.constraints[pairs.EquationOf[u]])
		}
		slices.Sort(s.constraints)
		for _, i := range s.constraints {
			ends = append(ends, m.endsOf(&m.constraints[i])...)
			for _, f := range e.depends[i] {
				depends[f] = true
			}
		}
		for f := range depends {
			if !slices.Contains(s.unknowns, f) {
				s.given = append(s.given, f)
			}
		}
		slices.Sort(s.given)
		if len(block) > mostUnknowns {
			b := &m.bodies[m.freedoms[s.unknowns[0]].body]
			faults.Add(b.part.Span, "%d unknowns must be solved at once with %q; at most %d can: part the run into smaller ones", len(block), b.part.Name, mostUnknowns)
			continue
		}
		moved := make(map[int]bool)
		for _, f := range s.unknowns {
			moved[m.freedoms[f].body] = true
		}
		for _, b := range m.under(ends...) {
			if slices.ContainsFunc(m.rests(b), func(d int) bool { return moved[d] }) {
				moved[b] = true
			}
			if moved[b] {
				s.within = append(s.within, b)
			} else if !done[b] {
				s.before = append(s.before, b)
			}
		}
		m.addMovers(&s)
		m.chooseSolver(&s)
		if !m.setPull(&s, len(m.steps), faults) {
			continue
		}
		for _, i := range s.constraints {
			for _, f := range m.constraints[i].wound() {
				if byAlgebra[f] && !slices.Contains(s.wound, f) {
					s.wound = append(s.wound, f)
				}
			}
		}
		fast := s.kind == closeFourbar
		for _, b := range s.before {
			done[b] = done[b] || !fast && settled(b)
		}
		for _, f := range s.unknowns {
			known[f] = true
			byAlgebra[f] = s.kind < closePull && m.freedoms[f].kind == turn
		}
		for _, b := range s.within {
			done[b] = done[b] || !fast && settled(b)
		}
		m.hasBlocks = m.hasBlocks || s.kind == closePull || s.kind == closeBlock
		m.steps = append(m.steps, s)
	}
	for i := len(m.steps) - 1; i >= 0; i-- {
		s := &m.steps[i]
		if s.kind == closeFourbar {
			s.inRow = 1
			if i+1 < len(m.steps) {
				s.inRow += m.steps[i+1].inRow
			}
		}
	}
	for _, b := range m.placing {
		if !done[b] {
			m.remains = append(m.remains, b)
		}
	}
}

// chooseSolver takes algebra where one hinge or slide and one rod are left,
// else Newton's method.
func (m *Mechanism) chooseSolver(s *step) {
	s.kind = closeBlock
	if len(s.unknowns) != 1 {
		return
	}
	f := m.freedoms[s.unknowns[0]]
	l := &m.constraints[s.constraints[0]]
	switch {
	case l.pair != nil:
		s.kind = closePull
		return
	case l.joint != nil:
		s.kind = closeJoint
		return
	case l.rod == nil:
		return
	}
	own, other := l.from, l.to
	ownMoves := slices.Contains(m.under(own.body), f.body)
	otherMoves := slices.Contains(m.under(other.body), f.body)
	if ownMoves == otherMoves {
		return // both ends move with it: through a point of a rod
	}
	if otherMoves {
		own, other = other, own
	}
	if m.bodies[own.body].kind == followsRod {
		return // the end isn't rigid to the unknown's part
	}
	switch f.kind {
	case turn:
		m.freedoms[s.unknowns[0]].algebra = true
		s.kind = closeCrank
		c := m.newCrank(f.body, own, other)
		s.crank = &c
		if m.inParallelPlanes(f.body, own, other) {
			s.kind = closeFourbar
			s.fourbar = len(m.fourbars)
			m.fourbars = append(m.fourbars, m.newFourbar(f.body, other, s.crank))
			m.flats = append(m.flats, m.newFlat(s.crank, other))
		}
	case slide:
		s.kind = closeGuide
		g := m.newGuide(f.body, own, other)
		s.guide = &g
	}
	m.setLength(s, l.drawn)
}
