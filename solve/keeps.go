// Layer: compile.

package solve

import (
	"slices"

	"fullfree/linkage"
)

// A part may be free to turn where that moves nothing else: a rod about its own ends, a sleeve
// on a mast, a ball that nobody ties. It then turns as little as it can by an equation of
// its own, so that everything has one place. Where an output, a requirement or metal
// that may touch hangs on that turn, none is added, and the part is told as loose.

// addKeeps adds what parts keep by themselves.
func (m *Mechanism) addKeeps() {
	for b := range m.bodies {
		if m.bodies[b].kind == tilting {
			m.addKeep(keep{kind: keepsLength, body: b, freedom: m.bodies[b].first})
		}
	}
	for b := range m.bodies {
		switch body := &m.bodies[b]; {
		case body.kind == tilting:
			m.stillBall(b)
		case body.kind == turning && body.part != nil && body.part.Motion == linkage.TurnsAndSlides && m.spinsIdly(b):
			m.addKeep(keep{kind: keepsStill, body: b, freedom: body.first})
		}
	}
}

func (m *Mechanism) addKeep(k keep) {
	m.constraints = append(m.constraints, constraint{keep: &k, pull: -1})
}

// stillBall takes from a part on a ball, or loose in space, the turns that move nothing.
func (m *Mechanism) stillBall(b int) {
	body := &m.bodies[b]
	places, carries := m.endsOn(b)
	told, whole := m.refersTo(b)
	if carries || whole || len(places) == 0 && isLoose(body.part) {
		return
	}
	center := body.pivot
	if isLoose(body.part) {
		center = places[0]
	}
	along, ok := m.lineOf(center, places)
	switch {
	case !ok || !m.onLine(center, along, told):
	case along == (vec{}):
		for i := 1; i < len(orientParts); i++ {
			m.addKeep(keep{kind: keepsStill, body: b, freedom: body.first + i})
		}
	default:
		m.addKeep(m.idleKeep(b, along))
	}
}

// lineOf is the direction of the line through a place on which others lie; none where all
// are that place. ok is false where they lie on no line.
func (m *Mechanism) lineOf(center vec, places []vec) (along vec, ok bool) {
	for _, p := range places {
		if away := p.Sub(center); away.Norm() > along.Norm() {
			along = away
		}
	}
	if along.Norm() <= m.lengthNoise(ContactNoise) {
		return vec{}, true
	}
	along = along.Unit()
	return along, m.onLine(center, along, places)
}

// onLine reports whether places lie on a line.
func (m *Mechanism) onLine(center, along vec, places []vec) bool {
	return !slices.ContainsFunc(places, func(p vec) bool {
		return perpendicular(p.Sub(center), along).Norm() > m.lengthNoise(ContactNoise)
	})
}

// idleKeep takes from a body its turn about a line on which it is held. A direction of
// the body square to the line stays square to the axis of a hinge that moves one end of it: the line
// mostly turns about that, so that it never comes near it, however far it goes round. Where there is no
// such axis the body turns no more than its line does, which only tells nothing where the
// line has come to point the other way.
func (m *Mechanism) idleKeep(b int, along vec) keep {
	axis, frame := vec{}, airframe
	steepest := 0.5 // the sine of the angle from which on an axis is far enough from the line
	for _, end := range m.joinedTo(b) {
		for c := end; c != airframe; c = m.bodies[c].carrier {
			by := &m.bodies[c]
			if by.kind != turning {
				continue
			}
			if sine := along.Cross(by.axis).Norm(); sine > steepest {
				steepest, axis, frame = sine, by.axis, by.carrier
			}
		}
	}
	if axis == (vec{}) {
		return keep{kind: keepsLeast, body: b, freedom: m.bodies[b].first, own: along}
	}
	return keep{kind: keepsSquare, body: b, other: frame, own: along.Cross(axis).Unit(), across: axis}
}

// joinedTo are the bodies that a body is held by: what carries it, and what rods and joints
// join it to, but for what it carries itself.
func (m *Mechanism) joinedTo(b int) (list []int) {
	list = append(list, m.bodies[b].carrier)
	for i := range m.constraints {
		l := &m.constraints[i]
		if l.rod == nil && l.pin == nil {
			continue
		}
		for _, e := range [][2]int{{l.from.body, l.to.body}, {l.to.body, l.from.body}} {
			if e[0] == b && !m.carriedBy(e[1], b) {
				list = append(list, e[1])
			}
		}
	}
	return list
}

// spinsIdly reports whether a sleeve's turn moves nothing: all that holds it, or a ball that
// it carries, is on its axis.
func (m *Mechanism) spinsIdly(b int) bool {
	body := &m.bodies[b]
	if m.freedoms[body.first].input >= 0 {
		return false
	}
	places, _ := m.endsOn(b)
	told, whole := m.refersTo(b)
	if whole {
		told = nil
		for _, o := range m.run.Outputs {
			if o.Part != nil && m.partBody[o.Part.Index] == b {
				return false
			}
		}
	}
	for c := range m.bodies {
		if m.bodies[c].carrier != b {
			continue
		}
		if m.bodies[c].kind != tilting {
			return false
		}
		places = append(places, m.bodies[c].pivot)
	}
	return m.onLine(body.pivot, body.axis, slices.Concat(places, told))
}

// dependsOfKeep returns the freedoms that what a part keeps depends on, ascending.
func (m *Mechanism) dependsOfKeep(k *keep) (list []int) {
	switch k.kind {
	case keepsLength:
		for i := range orientParts {
			list = append(list, k.freedom+i)
		}
	case keepsStill:
		list = []int{k.freedom}
	case keepsLeast:
		for i := 1; i < len(orientParts); i++ {
			if orientParts[i].v.Dot(k.own) != 0 {
				list = append(list, k.freedom+i)
			}
		}
	default:
		for _, f := range m.dependsOfEnds(end{body: k.body}, end{body: k.other}) {
			if !m.freedoms[f].kind.isLength() {
				list = append(list, f)
			}
		}
	}
	return list
}

// looseTurn tells how a part on a ball, loose in space or on a sleeve turns in a motion
// that nothing holds, as a builder would say it; empty where it doesn't turn.
func (m *Mechanism) looseTurn(st *state, p *linkage.Part, freedoms []int, by []float64) string {
	b := m.partBody[p.Index]
	var spin vec
	for j, f := range freedoms {
		spin = spin.Add(m.spinPartial(st, b, f).Scale(by[j]))
	}
	if spin.Norm() == 0 {
		return ""
	}
	axis := spin.Unit()
	for c := m.bodies[b].carrier; c != airframe; c = m.bodies[c].carrier {
		k := &m.bodies[c]
		way := k.axis
		if k.kind == sliding {
			way = k.slide
		}
		if way != (vec{}) && axis.Cross(way).Norm() < looseNear {
			return "turns about the axis of \"" + k.part.Name + "\""
		}
	}
	for _, way := range []struct {
		of   *vec
		says string
	}{{m.run.Up, "an upright axis"}, {m.run.Forward, "a fore-and-aft axis"}, {m.run.Right, "a left-and-right axis"}, {&p.SquareTo, "its own square-to"}} {
		if way.of != nil && *way.of != (vec{}) && axis.Cross(*way.of).Norm() < looseNear {
			return "turns about " + way.says
		}
	}
	return "turns"
}

// looseNear is the sine of the angle, 5 degrees, within which a turn is told as one about a
// known axis: nobody could tell by eye.
const looseNear = 0.0872
