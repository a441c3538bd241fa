// Layer: compile.

package solve

import (
	"fmt"
	"math"

	"fullfree/linkage"
)

// meetsWithin is how far, in shares of the run's size, axes that meet in one place as drawn
// may pass it: what typed coordinates leave of that, and well inside what joints hold to.
const meetsWithin = 1e-13

// addPins adds the equations of every joint. Points that meet as drawn but for rounding are
// taken to meet; others are brought together on the way to neutral.
func (m *Mechanism) addPins() {
	for _, j := range m.run.Joints {
		from, to := m.endAt(j.Of[0]), m.endAt(j.Of[1])
		frame, ways := m.pinWays(from, to)
		for _, way := range ways {
			l := constraint{pin: &pin{joint: j, frame: frame, along: way}, from: from, to: to, pull: -1}
			m.setPin(&l)
			m.constraints = append(m.constraints, l)
		}
	}
}

// takePinsAndKeeps adds the equations of another mechanism of the same structure, with the
// places of this one.
func (m *Mechanism) takePinsAndKeeps(other *Mechanism) {
	for i := range other.constraints {
		l := other.constraints[i]
		if l.pin == nil && l.keep == nil {
			continue
		}
		if l.pin != nil {
			p := *l.pin
			p.joint = m.run.Joints[p.joint.Index]
			l.pin = &p
			m.placePin(&l)
		} else {
			m.bodies[l.keep.body].line = l.keep.along
		}
		m.constraints = append(m.constraints, l)
	}
}

// placePin puts the points of a joint in their places.
func (m *Mechanism) placePin(l *constraint) {
	l.from, l.to = m.endAt(l.pin.joint.Of[0]), m.endAt(l.pin.joint.Of[1])
	m.setPin(l)
}

// setPin finds how far apart the points of a joint are drawn.
func (m *Mechanism) setPin(l *constraint) {
	l.drawn = l.pin.along.Dot(l.from.at.Sub(l.to.at))
	if math.Abs(l.drawn) <= m.lengthNoise(ContactNoise) {
		l.drawn = 0
	}
	l.set, l.length = 0, 0
}

// pinWays are the directions along which two points are kept together, and the body that
// they go with. Where all that moves them apart turns square to one axis, they can't part along
// that; where it turns about one place, they can't part away from that.
func (m *Mechanism) pinWays(from, to end) (frame int, ways []vec) {
	within, chain := m.meeting([]int{from.body, to.body})
	if normal, flat := m.commonNormal(chain); m.run.Plane || flat {
		if m.run.Plane {
			normal = zAxis
		}
		return within, squareTo(normal)
	}
	if about, ok := m.commonPlace(chain); ok {
		arm, other := from.at.Sub(about), to.at.Sub(about)
		if arm.Norm() > m.lengthNoise(ContactNoise) && math.Abs(arm.Norm()-other.Norm()) <= m.lengthNoise(ContactNoise) {
			return from.body, squareTo(arm.Unit())
		}
	}
	return within, []vec{{X: 1}, {Y: 1}, {Z: 1}}
}

// squareTo returns two directions square to a third of length 1, and to each other.
func squareTo(k vec) []vec {
	first := vec{X: 1}
	if math.Abs(k.X) > math.Abs(k.Y) {
		first = vec{Y: 1}
	}
	first = perpendicular(first, k).Unit()
	return []vec{first, k.Cross(first)}
}

// commonPlace returns the place, as drawn, about which all the bodies turn, seen from what
// carries them all.
func (m *Mechanism) commonPlace(chain []int) (about vec, ok bool) {
	about, off, ok := m.nearPlace(chain)
	return about, ok && off <= m.lengthNoise(meetsWithin)
}

// nearPlace returns a place near which all the bodies turn, and by how much the one that
// passes it farthest does; ok is false where one slides, or nothing fixes such a place.
func (m *Mechanism) nearPlace(chain []int) (about vec, off float64, ok bool) {
	for _, b := range chain {
		for _, c := range chain {
			if !ok {
				about, ok = m.crossing(&m.bodies[b], &m.bodies[c])
			}
		}
	}
	for _, i := range chain {
		b := &m.bodies[i]
		away := about.Sub(b.pivot)
		switch {
		case b.kind == turning:
			off = math.Max(off, perpendicular(away, b.axis).Norm())
		case b.kind == tilting:
			off = math.Max(off, away.Norm())
		default:
			return vec{}, 0, false
		}
	}
	return about, off, ok
}

// nearlyMeet is how far, in shares of the run's size, axes pass a place that are told to have been
// meant to meet there.
const nearlyMeet = 1e-3

// missedPlace tells by how much what one of the joints given joins misses turning about one place, where it
// nearly does; empty where none does.
func (m *Mechanism) missedPlace(constraints []*constraint) string {
	for _, l := range constraints {
		if l.pin == nil {
			continue
		}
		_, chain := m.meeting([]int{l.from.body, l.to.body})
		if _, off, ok := m.nearPlace(chain); ok && off > m.lengthNoise(meetsWithin) && off <= nearlyMeet*m.size {
			return fmt.Sprintf(", or give the pivots that should lie in one place the same numbers: what the joint %q joins misses turning about one by %s", l.pin.joint.Name, m.length(off, l.in()))
		}
	}
	return ""
}

// crossing is the only place that stands still as two bodies turn: the center of a ball, or where
// two axes cross.
func (m *Mechanism) crossing(a, b *body) (at vec, ok bool) {
	switch {
	case a.kind == tilting:
		return a.pivot, true
	case a.kind != turning || b.kind != turning || inLine(a.axis, b.axis):
		return vec{}, false
	}
	across := a.axis.Cross(b.axis)
	t := b.pivot.Sub(a.pivot).Cross(b.axis).Dot(across) / across.Dot(across)
	return a.pivot.Add(a.axis.Scale(t)), true
}

// endsOn are the places of a body at which constraints hold it. carries says that some hold it
// by what it carries.
func (m *Mechanism) endsOn(b int) (places []vec, carries bool) {
	take := func(e end) {
		switch {
		case e.body == b:
			places = append(places, e.at)
		case m.carriedBy(e.body, b):
			carries = true
		}
	}
	for i := range m.constraints {
		l := &m.constraints[i]
		if l.rod != nil || l.pin != nil {
			take(l.from)
			take(l.to)
		}
		for _, k := range l.cablePaths {
			for _, g := range k.legs {
				take(g.core)
				take(g.mouth)
			}
			for _, d := range k.drums {
				carries = carries || m.carriedBy(d.body, b)
			}
		}
	}
	return places, carries
}

// refersTo lists the places on a body, or on what it carries, of which something is told that
// is asked for: outputs, requirements, and metal that may touch. whole says that how it stands is.
func (m *Mechanism) refersTo(b int) (places []vec, whole bool) {
	point := func(r *linkage.PointRef) {
		if r == nil {
			return
		}
		if e := m.endAt(*r); e.body == b {
			places = append(places, e.at)
		} else if m.carriedBy(e.body, b) {
			whole = true
		}
	}
	part := func(p *linkage.Part) { whole = whole || p != nil && m.carriedBy(m.partBody[p.Index], b) }
	metal := func(r linkage.FeatureRef) {
		if r.Part == nil || !m.carriedBy(m.partBody[r.Part.Index], b) {
			return
		}
		if m.partBody[r.Part.Index] != b {
			whole = true
			return
		}
		for _, at := range r.Part.Features[r.Feature].Through {
			places = append(places, at.Sub(m.center))
		}
	}
	for _, o := range m.run.Outputs {
		point(o.Point)
		point(o.LeadingEdge)
		part(o.Part)
	}
	for _, c := range m.run.Controls {
		part(c.Of)
	}
	for _, s := range m.run.Stops {
		if part(s.Of); s.Of == nil {
			metal(s.Touch[0])
			metal(s.Touch[1])
		}
	}
	for _, r := range m.run.Requirements {
		for _, s := range r.Of {
			part(s.Part)
		}
		for i := range r.Places {
			point(&r.Places[i].Place)
		}
		switch r.Kind {
		case linkage.Misalignment: // the bolts turn with it
			for _, rod := range m.run.Rods {
				for _, end := range []linkage.PointRef{rod.From, rod.To} {
					whole = whole || end.Part != nil && m.partBody[end.Part.Index] == b
				}
			}
		case linkage.Meets:
			point(&r.Points[0])
			point(&r.Points[1])
		case linkage.Clearance:
			metal(r.Between[0])
			metal(r.Between[1])
		}
	}
	return places, whole
}
