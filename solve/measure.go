// Layer: pose.

package solve

import (
	"math"

	"fullfree/linkage"
)

// measure is a quantity told of a pose: a sum of freedoms, or how far a point
// has gone along a direction; in degrees or run units.
type measure struct {
	unit  linkage.Unit
	reads float64 // at the drawn position
	terms []term
	// Where terms is empty, it is the travel of a point.
	point end
	along vec
	ref   *linkage.PointRef // of point
	build int               // of which point is; 0 where it is of no build
}

// at is the point whose travel it is. The probes of a build are kept from one to the next
// while its numbers change, so there it is asked for again once in each.
func (k *measure) at(p *path) end {
	if r := p.m.room; r != nil && k.ref != nil && k.build != r.builds {
		k.point, k.build = p.m.endAt(*k.ref), r.builds
	}
	return k.point
}

// term is a freedom with its sign.
type term struct {
	freedom int
	sign    float64
}

// value returns the measure for the pose last solved.
func (k *measure) value(p *path) float64 {
	v := k.reads
	if k.terms == nil {
		e := k.at(p)
		v += k.along.Dot(p.st.place(e).Sub(e.at))
	}
	for _, t := range k.terms {
		v += float64(t.sign * p.shown(t.freedom))
	}
	return v
}

// of returns the measure for the pose last solved, and its first and second
// rates by the control's position.
func (k *measure) of(p *path) (v, dv, ddv float64) {
	v = k.value(p)
	if k.terms == nil {
		e := k.at(p)
		at := p.st.place(e)
		dv = float64(k.along.Dot(p.rates.of(&p.st, e.body, at)) * p.unit)
		ddv = float64(k.along.Dot(p.rates.of2(&p.st, e.body, at)) * p.unit * p.unit)
		return v, dv, ddv
	}
	for _, t := range k.terms {
		per := float64(p.unit * t.sign)
		if p.m.freedoms[t.freedom].kind == turn {
			per /= degree
		}
		dv += float64(p.rates.d[t.freedom] * per)
		ddv += float64(p.rates.dd[t.freedom] * per * p.unit)
	}
	return v, dv, ddv
}

// shown is a freedom as it is told; what stands in the file comes back as it
// stands there.
func (p *path) shown(f int) float64 {
	switch {
	case f == p.input:
		return p.x
	case p.held[f] != nil:
		return p.held[f].At
	case p.m.freedoms[f].kind == turn:
		return p.st.q[f] / degree
	}
	return p.st.q[f]
}

// combined is a plus sign times b, from the drawn position.
func combined(a, b measure, sign float64) func(p *path) (v, dv, ddv float64) {
	a.reads, b.reads = 0, 0
	return func(p *path) (float64, float64, float64) {
		va, da, dda := a.of(p)
		vb, db, ddb := b.of(p)
		return va + float64(sign*vb), da + float64(sign*db), dda + float64(sign*ddb)
	}
}

const degrees = linkage.Degrees

// lengthUnit is the name of the run's unit of length.
func (m *Mechanism) lengthUnit() linkage.Unit { return m.run.Units }

// freedomMeasure tells one freedom by itself.
func (m *Mechanism) freedomMeasure(f int) measure {
	k := measure{unit: m.lengthUnit(), terms: []term{{f, 1}}}
	if m.freedoms[f].kind == turn {
		k.unit = degrees
	}
	return k
}

// partMeasure tells a part: its slide, or its turn: against the drawing where
// its axis stays parallel to its carrier's, else against its carrier.
func (m *Mechanism) partMeasure(p *linkage.Part) measure {
	b := m.partBody[p.Index]
	body := &m.bodies[b]
	if body.kind == sliding {
		return m.freedomMeasure(body.first)
	}
	k := m.freedomMeasure(m.turnOf(b))
	for c := body.carrier; c != airframe; c = m.bodies[c].carrier {
		carrier := &m.bodies[c]
		if carrier.kind == sliding {
			continue
		}
		if !inLine(carrier.axis, body.axis) {
			break
		}
		k.terms = append(k.terms, term{m.turnOf(c), math.Copysign(1, carrier.axis.Dot(body.axis))})
	}
	return k
}

// turnOf returns the freedom by which a body turns.
func (m *Mechanism) turnOf(b int) int {
	if m.bodies[b].kind == floating {
		return m.bodies[b].first + 2
	}
	return m.bodies[b].first
}

func (m *Mechanism) outputMeasure(o *linkage.Output) measure {
	if o.Point == nil {
		k := m.partMeasure(o.Part)
		if o.AgainstCarrier {
			k = m.freedomMeasure(m.turnOf(m.partBody[o.Part.Index]))
		}
		k.reads = o.Reads
		return k
	}
	return measure{unit: m.lengthUnit(), reads: o.Reads, point: m.endAt(*o.Point), along: o.Along, ref: o.Point}
}

func (m *Mechanism) subjectMeasure(s linkage.Subject) measure {
	s, _ = m.run.Subject(s) // of this run, where it is changed from the one that s is of
	switch {
	case s.Part != nil:
		return m.partMeasure(s.Part)
	case s.Output != nil:
		return m.outputMeasure(s.Output)
	}
	return m.freedomMeasure(m.inputs[s.Control.Index])
}

// stopMeasure tells what a stop by number limits.
func (m *Mechanism) stopMeasure(s *linkage.Stop) measure { return m.atMeasure(s.Of) }

// atMeasure tells a part as the `at` of a stop or pin does: a control against
// its carrier, another part as it is told.
func (m *Mechanism) atMeasure(p *linkage.Part) measure {
	for _, c := range m.run.Controls {
		if c.Of == p {
			return m.freedomMeasure(m.inputs[c.Index])
		}
	}
	return m.partMeasure(p)
}
