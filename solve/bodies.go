// Layer: mechanism.

package solve

import (
	"math"

	"fullfree/linkage"
)

// motionsOf are what moves the bodies of a part, each carrying the next; the last is the
// part itself, the others are places that it moves through.
var motionsOf = [...][]motionKind{
	linkage.Turns:          {turning},
	linkage.Slides:         {sliding},
	linkage.Floats:         {floating},
	linkage.Tilts:          {tilting},
	linkage.Roams:          {shifting, tilting},
	linkage.TurnsAndSlides: {sliding, turning},
}

// freedomsBy are the freedoms of each kind of motion.
var freedomsBy = [...][]freedomKind{
	turning:    {turn},
	sliding:    {slide},
	floating:   {shiftX, shiftY, turn},
	followsRod: nil,
	tilting:    {orientW, orientX, orientY, orientZ},
	shifting:   {shiftX, shiftY, shiftZ},
}

// pivotOf is where a part turns; of one held by rods and joints alone the mean of its
// points, by which its travel is told.
func (m *Mechanism) pivotOf(p *linkage.Part) vec {
	if isLoose(p) {
		return m.off.mean(p).Sub(m.center)
	}
	return m.off.pivot(p).Sub(m.center)
}

// isLoose reports whether rods and joints alone hold a part.
func isLoose(p *linkage.Part) bool { return p.Motion == linkage.Floats || p.Motion == linkage.Roams }

// baseOf is the first of a part's bodies, which its carrier carries.
func (m *Mechanism) baseOf(p *linkage.Part) int {
	return m.partBody[p.Index] - len(motionsOf[p.Motion]) + 1
}

func (m *Mechanism) addBodies() {
	run := m.run
	m.bodies = []body{{kind: turning, axis: zAxis, first: -1}}
	m.partBody = make([]int, len(run.Parts))
	for i, p := range run.Parts {
		if p.Motion == linkage.Fixed {
			continue
		}
		carrier := airframe // of the last of its bodies
		for _, kind := range motionsOf[p.Motion] {
			b := body{kind: kind, part: p, carrier: carrier, pivot: m.pivotOf(p), axis: p.Axis, slide: p.Slide, first: len(m.freedoms)}
			switch {
			case p.Motion == linkage.Floats:
				b.axis = zAxis
			case p.Motion == linkage.TurnsAndSlides:
				b.slide = p.Axis
			}
			carrier = len(m.bodies)
			for _, k := range freedomsBy[kind] {
				m.freedoms = append(m.freedoms, freedom{body: carrier, kind: k, input: -1})
			}
			m.bodies = append(m.bodies, b)
		}
		m.partBody[i] = carrier
	}
	for _, p := range run.Parts {
		if p.Motion != linkage.Fixed && p.Carrier != nil {
			m.bodies[m.baseOf(p)].carrier = m.partBody[p.Carrier.Part.Index]
		}
	}
	for i := range m.bodies {
		b := &m.bodies[i]
		b.inPlane = i != airframe && b.kind == turning && b.carrier == airframe && b.axis == zAxis
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
			m.bodies = append(m.bodies, body{kind: followsRod, axis: zAxis, first: -1, constraint: i})
		}
	}
}

func (m *Mechanism) addConstraints() {
	for _, r := range m.run.Rods {
		l := constraint{rod: r, from: m.endAt(r.From), to: m.endAt(r.To), length: r.Length, drawn: r.Drawn, set: r.Length, pull: -1}
		m.off.setRod(&l)
		m.constraints = append(m.constraints, l)
	}
	m.addCables()
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
		return end{m.rodBody[r.Rod.Index], m.off.point(r).Sub(m.center)}
	}
	return end{m.partBody[r.Part.Index], m.off.point(r).Sub(m.center)}
}

// rests returns the bodies that directly place b.
func (m *Mechanism) rests(b int) []int {
	switch body := &m.bodies[b]; {
	case b == airframe:
		return nil
	case body.kind == followsRod:
		l := &m.constraints[body.constraint]
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
	if m.bodies[b].first < 0 {
		return 0, 0
	}
	return m.bodies[b].first, len(freedomsBy[m.bodies[b].kind])
}

// orientSize is how much a number of a quaternion changes where its part turns by a radian.
const orientSize = 0.5

// inLengths is by how much of a freedom the run's size, in lengths, stands for a radian.
func (m *Mechanism) inLengths(f int) float64 {
	if k := m.freedoms[f].kind; k.isLength() {
		return 1
	} else if k == turn {
		return m.size
	}
	return m.size / orientSize
}

// wholeOf is the last of the bodies of the part that a body is of, which stands as the part does.
func (m *Mechanism) wholeOf(b int) int {
	if p := m.bodies[b].part; p != nil {
		return m.partBody[p.Index]
	}
	return b
}

// freedomsOfPart are the freedoms of all bodies of a part, of which b is the last.
func (m *Mechanism) freedomsOfPart(b int) (first, count int) {
	first, count = m.freedomsOf(b)
	if p := m.bodies[b].part; p != nil {
		base := m.bodies[m.baseOf(p)].first
		first, count = base, first+count-base
	}
	return first, count
}

func (m *Mechanism) sizeOf(f int) float64 {
	switch k := m.freedoms[f].kind; {
	case k == turn:
		return 1
	case !k.isLength():
		return orientSize
	}
	return m.sizeIn(m.bodies[m.freedoms[f].body].part.In)
}

// addSizes measures the runs of an aircraft.
func (m *Mechanism) addSizes() {
	if m.run.Aircraft == nil {
		return
	}
	for _, in := range m.run.Aircraft.Members {
		m.sizes = append(m.sizes, in.Run.Size())
	}
}

// sizeIn is the extent of the drawing of a member of an aircraft, in its unit; of nil that
// of the run by itself.
func (m *Mechanism) sizeIn(in *linkage.Member) float64 {
	if in == nil || in.Index >= len(m.sizes) {
		return m.size
	}
	return m.sizes[in.Index]
}

// addCables adds a constraint for every cable that acts alone and one for every pair,
// each in the file's order.
func (m *Mechanism) addCables() {
	for _, c := range m.run.Cables {
		if c.Pair == nil {
			k := m.newCablePath(c)
			m.constraints = append(m.constraints, constraint{cablePaths: []cablePath{k}, length: k.set, drawn: k.drawn, set: k.set, pull: -1})
		}
	}
	for _, p := range m.run.Pairs {
		m.constraints = append(m.constraints, constraint{pair: p, cablePaths: []cablePath{m.newCablePath(p.Cables[0]), m.newCablePath(p.Cables[1])}, pull: len(m.pulls)})
		m.pulls = append(m.pulls, pull{pair: p, constraint: len(m.constraints) - 1, freedom: -1})
	}
}

func (m *Mechanism) newCablePath(c *linkage.Cable) cablePath {
	k := cablePath{cable: c, stiffness: c.Stiffness}
	if c.Open() {
		for i, q := range c.Quadrants {
			b := m.partBody[q.Index]
			k.drums = append(k.drums, drum{b, m.bodies[b].first, float64(c.Winds[i] * c.Radius[i])})
		}
	} else {
		for i, held := range []*linkage.PointRef{c.From, c.To} {
			g := leg{m.endAt(*held), m.endAt(c.Conduit[i])}
			k.legs = append(k.legs, g)
			k.drawn += g.core.at.Sub(g.mouth.at).Norm()
		}
	}
	k.set = k.drawn
	switch {
	case c.Pair != nil:
		k.set -= c.Pair.Pretension / c.Stiffness
	case c.CoreGiven:
		k.set = c.Core + m.off.core(c)
	}
	k.set += c.Grown - c.Taken
	k.free = k.set
	return k
}

// sizeFor is the extent of the largest drawing in a unit.
func (m *Mechanism) sizeFor(unit linkage.Unit) float64 {
	if m.run.Aircraft == nil {
		return m.size
	}
	most := 0.0
	for i, in := range m.run.Aircraft.Members {
		if in.Run.Units == unit {
			most = math.Max(most, m.sizes[i])
		}
	}
	return most
}
