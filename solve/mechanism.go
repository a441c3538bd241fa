package solve

import (
	"slices"

	"fullfree/linkage"
)

// Mechanism is a run compiled: flat lists of bodies, freedoms and links, and
// the steps that close a pose one after another. It isn't changed by solving.
type Mechanism struct {
	run       *linkage.Run
	size      float64 // extent of the drawing, run units
	bodies    []body  // bodies[0] is the airframe; then the moving parts, then the rods with points
	freedoms  []freedom
	links     []link // one a rod, in the file's order
	steps     []step
	fourbars  []fourbar // in the order of their steps
	inputs    []int     // the freedom that each control moves
	partBody  []int     // by linkage.Part.Index
	rodBody   []int     // by linkage.Rod.Index; -1 where a rod has no points of its own
	placing   []int     // every body but the airframe, carriers before carried
	remains   []int     // bodies that no step places for good
	hasBlocks bool      // some step is closed by Newton's method

	neutral  state     // the neutral pose
	stopSide []float64 // by stop: +1 where its number is a limit above, -1 below, 0 for metal that touches
}

const airframe = 0 // index of the body that never moves

// motionKind is what moves a body.
type motionKind int

const (
	turning motionKind = iota
	sliding
	floating
	followsRod // the body is a rod: placed by its two ends
)

// body is one rigid piece. Places and directions are as drawn.
type body struct {
	kind    motionKind
	part    *linkage.Part // nil for a rod
	carrier int
	pivot   vec // where it turns; the mean of its points for a floating part
	axis    vec
	slide   vec
	first   int // its first freedom; a floating part has three: x, y, turn
	link    int // of a rod
}

// freedom is one number that places a body: radians or a length.
type freedom struct {
	body  int
	kind  freedomKind
	input int // the control that sets it, or -1
}

type freedomKind int

const (
	turn freedomKind = iota
	slide
	shiftX
	shiftY
)

// end is a place on a body, as drawn.
type end struct {
	body int
	at   vec
}

// link is a rod as an equation: its ends keep their distance.
type link struct {
	rod      *linkage.Rod
	from, to end
	length   float64 // as set
	drawn    float64
}

// step solves some unknowns from as many links.
type step struct {
	kind     stepKind
	unknowns []int // freedoms, ascending
	links    []int // ascending
	given    []int // freedoms that its links depend on and that are known before
	before   []int // bodies to place first
	within   []int // bodies that its unknowns move and its links need
	fourbar  int   // in Mechanism.fourbars
	inRow    int   // how many steps from this one on are fourbars
	crank    *crank
	guide    *guide
}

type stepKind int

const (
	closeFourbar stepKind = iota // a hinge and a rod in parallel planes, from a hinge on the airframe
	closeCrank                   // a hinge and a rod, anyhow
	closeGuide                   // a slide and a rod
	closeBlock                   // Newton's method
)

// The largest system of equations that is solved at once.
const mostUnknowns = 64

// Compile finds how a run closes: which rod places which part, in which order,
// and the neutral pose. The error is *linkage.Faults.
func Compile(run *linkage.Run) (*Mechanism, error) {
	m := &Mechanism{run: run, size: run.Size()}
	m.addBodies()
	m.addLinks()
	faults := &linkage.Faults{Source: run.Source}
	in := m.incidence()
	pairs := match(in.of, len(in.unknowns))
	if m.tellMobility(in, pairs, faults); len(faults.List) > 0 {
		return nil, faults.Err()
	}
	if m.addSteps(in, pairs, faults); len(faults.List) > 0 {
		return nil, faults.Err()
	}
	m.checkFeatures(faults)
	if len(faults.List) > 0 {
		return nil, faults.Err()
	}
	if m.findNeutral(faults); len(faults.List) > 0 {
		return nil, faults.Err()
	}
	return m, nil
}

func (m *Mechanism) addBodies() {
	run := m.run
	m.bodies = []body{{kind: turning, axis: zAxis, first: -1}}
	m.partBody = make([]int, len(run.Parts))
	for i, p := range run.Parts {
		if p.Motion == linkage.Fixed {
			continue
		}
		m.partBody[i] = len(m.bodies)
		m.bodies = append(m.bodies, body{part: p, pivot: p.Pivot, axis: p.Axis, slide: p.Slide, first: len(m.freedoms)})
		b := &m.bodies[len(m.bodies)-1]
		kinds := []freedomKind{turn}
		switch p.Motion {
		case linkage.Turns:
			b.kind = turning
		case linkage.Slides:
			b.kind = sliding
			kinds[0] = slide
		case linkage.Floats:
			b.kind = floating
			b.axis = zAxis
			b.pivot = meanOf(p.Points)
			kinds = []freedomKind{shiftX, shiftY, turn}
		}
		for _, k := range kinds {
			m.freedoms = append(m.freedoms, freedom{body: m.partBody[i], kind: k, input: -1})
		}
	}
	for _, p := range run.Parts {
		if p.Motion != linkage.Fixed && p.Carrier != nil {
			m.bodies[m.partBody[p.Index]].carrier = m.partBody[p.Carrier.Part.Index]
		}
	}
	for _, c := range run.Controls {
		f := m.bodies[m.partBody[c.Of.Index]].first
		m.freedoms[f].input = c.Index
		m.inputs = append(m.inputs, f)
	}
	m.rodBody = make([]int, len(run.Rods))
	for i, r := range run.Rods {
		m.rodBody[i] = -1
		if len(r.Points) > 0 {
			m.rodBody[i] = len(m.bodies)
			m.bodies = append(m.bodies, body{kind: followsRod, axis: zAxis, first: -1, link: i})
		}
	}
}

// meanOf returns the mean of the points, the place by which the travel of a
// floating part is told.
func meanOf(points []linkage.Point) (mean vec) {
	for _, p := range points {
		mean = mean.Add(p.At)
	}
	return mean.Scale(1 / float64(max(1, len(points))))
}

func (m *Mechanism) addLinks() {
	for _, r := range m.run.Rods {
		m.links = append(m.links, link{
			rod: r, from: m.endAt(r.From), to: m.endAt(r.To), length: r.Length, drawn: r.Drawn,
		})
	}
	placed := make([]bool, len(m.bodies))
	placed[airframe] = true
	var place func(b int)
	place = func(b int) {
		if placed[b] {
			return
		}
		placed[b] = true
		for _, d := range m.rests(b) {
			place(d)
		}
		m.placing = append(m.placing, b)
	}
	for b := range m.bodies {
		place(b)
	}
}

func (m *Mechanism) endAt(r linkage.PointRef) end {
	if r.Rod != nil {
		return end{m.rodBody[r.Rod.Index], r.Get().At}
	}
	return end{m.partBody[r.Part.Index], r.Get().At}
}

// rests returns the bodies that directly place b.
func (m *Mechanism) rests(b int) []int {
	switch body := &m.bodies[b]; {
	case b == airframe:
		return nil
	case body.kind == followsRod:
		l := &m.links[body.link]
		return []int{l.from.body, l.to.body}
	default:
		return []int{body.carrier}
	}
}

// under returns the bodies that place the given ones, themselves included and
// the airframe not, carriers before carried.
func (m *Mechanism) under(bodies ...int) []int {
	seen := map[int]bool{airframe: true}
	var list []int
	var visit func(b int)
	visit = func(b int) {
		if seen[b] {
			return
		}
		seen[b] = true
		for _, d := range m.rests(b) {
			visit(d)
		}
		list = append(list, b)
	}
	for _, b := range bodies {
		visit(b)
	}
	return list
}

// freedomsOf returns the freedoms of a body's own.
func (m *Mechanism) freedomsOf(b int) (first, count int) {
	switch {
	case m.bodies[b].first < 0:
		return 0, 0
	case m.bodies[b].kind == floating:
		return m.bodies[b].first, 3
	}
	return m.bodies[b].first, 1
}

// depends returns the freedoms that the link's length depends on, ascending. A
// body that carries every part at both ends moves the link as a whole and
// leaves its length alone.
func (m *Mechanism) depends(l *link) []int {
	var leaves []int
	var descend func(b int)
	descend = func(b int) {
		if m.bodies[b].kind == followsRod {
			own := &m.links[m.bodies[b].link]
			descend(own.from.body)
			descend(own.to.body)
			return
		}
		leaves = append(leaves, b)
	}
	descend(l.from.body)
	descend(l.to.body)
	above := make(map[int]int) // how many of the leaves a body carries, or is
	for _, b := range leaves {
		for ; b != airframe; b = m.bodies[b].carrier {
			above[b]++
		}
	}
	var list []int
	for b, n := range above {
		if n == len(leaves) {
			continue
		}
		first, count := m.freedomsOf(b)
		for f := first; f < first+count; f++ {
			list = append(list, f)
		}
	}
	slices.Sort(list)
	return list
}

// equations is which unknowns each link has, unknowns numbered without the
// controls' freedoms.
type equations struct {
	of       incidence
	unknowns []int   // the freedom of each unknown
	depends  [][]int // by link: every freedom, controls' too
}

func (m *Mechanism) incidence() equations {
	var e equations
	number := make([]int, len(m.freedoms))
	for f := range m.freedoms {
		number[f] = -1
		if m.freedoms[f].input < 0 {
			number[f] = len(e.unknowns)
			e.unknowns = append(e.unknowns, f)
		}
	}
	for i := range m.links {
		depends := m.depends(&m.links[i])
		var own []int
		for _, f := range depends {
			if number[f] >= 0 {
				own = append(own, number[f])
			}
		}
		e.depends = append(e.depends, depends)
		e.of = append(e.of, own)
	}
	return e
}

// addSteps orders the links into steps and says which bodies each must place.
func (m *Mechanism) addSteps(e equations, pairs matching, faults *linkage.Faults) {
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
	for _, block := range pairs.blocks(e.of) {
		var s step
		var ends []int
		depends := make(map[int]bool)
		for _, u := range block {
			s.unknowns = append(s.unknowns, e.unknowns[u])
			s.links = append(s.links, pairs.equationOf[u])
		}
		slices.Sort(s.links)
		for _, i := range s.links {
			ends = append(ends, m.links[i].from.body, m.links[i].to.body)
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
		m.chooseSolver(&s)
		fast := s.kind == closeFourbar
		for _, b := range s.before {
			done[b] = done[b] || !fast && settled(b)
		}
		for _, f := range s.unknowns {
			known[f] = true
		}
		for _, b := range s.within {
			done[b] = done[b] || !fast && settled(b)
		}
		m.hasBlocks = m.hasBlocks || s.kind == closeBlock
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
	l := &m.links[s.links[0]]
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
		s.kind = closeCrank
		s.crank = m.newCrank(f.body, own, other)
		if m.inParallelPlanes(f.body, own, other) {
			s.kind = closeFourbar
			s.fourbar = len(m.fourbars)
			m.fourbars = append(m.fourbars, m.newFourbar(f.body, other, s.crank))
		}
	case slide:
		s.kind = closeGuide
		s.guide = m.newGuide(f.body, own, other)
	}
	m.setLength(s, l.drawn)
}
