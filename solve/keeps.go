// Layer: compile.

package solve

import (
	"slices"
	"strconv"

	"fullfree/linkage"
)

// A part may be free to turn where that moves nothing else: a rod about its own ends, a sleeve
// on a mast, a ball that nobody ties. It then turns as little as it can by an equation of
// its own, so that as many equations are left as unknowns. Where an output, a requirement or metal
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
	m.bodies[k.body].line = k.along
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
		m.addKeep(keep{kind: keepsFromSpinning, body: b, freedom: body.first, along: along})
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
	if k.kind == keepsStill {
		return []int{k.freedom}
	}
	for i := range orientParts {
		list = append(list, k.freedom+i)
	}
	return list
}

// looseTurn tells how a part on a ball, loose in space or on a sleeve turns in a motion
// that nothing holds, as a builder would say it, and what is missing; empty where it doesn't turn.
func (m *Mechanism) looseTurn(st *state, p *linkage.Part, freedoms []int, by []float64) (says, missing string) {
	b := m.partBody[p.Index]
	var spin vec
	for j, f := range freedoms {
		spin = spin.Add(m.spinPartial(st, b, f).Scale(by[j]))
	}
	if spin.Norm() == 0 {
		return "", ""
	}
	axis := spin.Unit()
	along := func(way vec) bool { return way != (vec{}) && axis.Cross(way).Norm() < looseNear }
	missing = "a rod that holds it"
	if along(p.SquareTo) || p.Motion == linkage.TurnsAndSlides {
		missing = "an anti-rotation link or a rod that holds it"
	}
	for c := m.bodies[b].carrier; c != airframe; c = m.bodies[c].carrier {
		k := &m.bodies[c]
		way := k.axis
		if k.kind == sliding {
			way = k.slide
		}
		if k.kind != shifting && k.kind != tilting && k.part != p && along(way) {
			return "turns about the axis of " + strconv.Quote(k.part.Name), missing
		}
	}
	for _, way := range []struct {
		of   *vec
		says string
	}{{m.run.Up, "an upright axis"}, {m.run.Forward, "a fore-and-aft axis"}, {m.run.Right, "a left-and-right axis"}, {&p.SquareTo, "its own square-to"}} {
		if way.of != nil && along(*way.of) {
			return "turns about " + way.says, missing
		}
	}
	return "turns", missing
}

// looseNear is the sine of the angle, 5 degrees, within which a turn is told as one about a
// known axis: nobody could tell by eye.
const looseNear = 0.0872
