// Layer: pose.

package solve

import (
	"math"
	"slices"

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
	// Where one is set, it is that instead.
	tilt  *tilt
	twist *twist
	build int // of which point is; 0 where it is of no build
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
	switch {
	case k.tilt != nil:
		return v + k.tilt.value(&p.st)
	case k.twist != nil:
		return v + k.twist.value(&p.st)
	case k.terms == nil:
		e := k.at(p)
		v += k.along.Dot(p.st.place(e).Sub(e.at))
	}
	for _, t := range k.terms {
		v += float64(t.sign * p.shown(t.freedom))
	}
	return v
}

// withRate returns the measure for the pose last solved, and its rate by the control's
// position.
func (k *measure) withRate(p *path) (v, dv float64) {
	v = k.value(p)
	switch {
	case k.tilt != nil || k.twist != nil:
		dv, _ = k.rates(p)
		return v, dv
	case k.terms == nil:
		e := k.at(p)
		return v, float64(k.along.Dot(p.rates.of(&p.st, e.body, p.st.place(e))) * p.unit)
	}
	for _, t := range k.terms {
		dv += float64(p.rates.d[t.freedom] * p.per(t))
	}
	return v, dv
}

// rates returns the first and the second rate of the measure by the control's position,
// for the pose last solved.
func (k *measure) rates(p *path) (dv, ddv float64) {
	switch {
	case k.tilt != nil:
		dv, ddv = k.tilt.rates(&p.st, p.rates)
		return float64(dv * p.unit), float64(ddv * p.unit * p.unit)
	case k.twist != nil:
		dv, ddv = k.twist.rates(&p.st, p.rates)
		return float64(dv * p.unit), float64(ddv * p.unit * p.unit)
	case k.terms == nil:
		e := k.at(p)
		at := p.st.place(e)
		return float64(k.along.Dot(p.rates.of(&p.st, e.body, at)) * p.unit),
			float64(k.along.Dot(p.rates.of2(&p.st, e.body, at)) * p.unit * p.unit)
	}
	for _, t := range k.terms {
		per := p.per(t)
		dv += float64(p.rates.d[t.freedom] * per)
		ddv += float64(p.rates.dd[t.freedom] * per * p.unit)
	}
	return dv, ddv
}

// ratesKnown are those rates of a measure where they were found.
type ratesKnown struct {
	made    int
	dv, ddv float64
}

// sharedRates is rates of a measure that several probes ask for at one pose.
func (k measure) sharedRates(p *path) func(p *path) (dv, ddv float64) {
	place := p.shared
	p.shared++
	return func(p *path) (dv, ddv float64) {
		r := p.rates
		if place >= len(r.known) {
			r.known = append(r.known, make([]ratesKnown, place+1-len(r.known))...)
		}
		known := &r.known[place]
		if known.made != r.made {
			known.made = r.made
			known.dv, known.ddv = k.rates(p)
		}
		return known.dv, known.ddv
	}
}

// per is by how much a term goes, as it is told, for each unit of its freedom's rate.
func (p *path) per(t term) float64 {
	per := float64(p.unit * t.sign)
	if p.m.freedoms[t.freedom].kind == turn {
		per /= degree
	}
	return per
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
func combined(a, b measure, sign float64) func(p *path) (v, dv float64) {
	a.reads, b.reads = 0, 0
	return func(p *path) (float64, float64) {
		va, da := a.withRate(p)
		vb, db := b.withRate(p)
		return va + float64(sign*vb), da + float64(sign*db)
	}
}

// times is the measure as a multiple of it.
func (k measure) times(factor float64) measure {
	if factor == 1 {
		return k
	}
	k.reads = float64(k.reads * factor)
	k.along = k.along.Scale(factor)
	if k.tilt != nil {
		t := *k.tilt
		t.times = float64(t.times * factor)
		k.tilt = &t
	}
	if k.twist != nil {
		t := *k.twist
		t.times = float64(t.times * factor)
		k.twist = &t
	}
	k.terms = slices.Clone(k.terms) // nil of a point's travel
	for i := range k.terms {
		k.terms[i].sign = float64(k.terms[i].sign * factor)
	}
	return k
}

// perFirst is how many of the unit of the first of two that a requirement compares are one
// of the second's: other than 1 of lengths in an aircraft alone, whose runs have each their
// unit.
func (m *Mechanism) perFirst(r *linkage.Requirement) float64 {
	first, second := m.subjectMeasure(r.Of[0]).unit, m.subjectMeasure(r.Of[1]).unit
	if first == second {
		return 1
	}
	return second.Millimeters(1) / first.Millimeters(1)
}

const degrees = linkage.Degrees

// lengthUnit is the unit of length of something of a member of an aircraft; of nil that
// of the run by itself.
func (m *Mechanism) lengthUnit(in *linkage.Member) linkage.Unit { return m.run.UnitsOf(in) }

// freedomMeasure tells one freedom by itself.
func (m *Mechanism) freedomMeasure(f int) measure {
	k := measure{unit: m.lengthUnit(m.bodies[m.freedoms[f].body].part.In), terms: []term{{f, 1}}}
	if kind := m.freedoms[f].kind; kind == turn {
		k.unit = degrees
	} else if !kind.isLength() {
		k.unit = linkage.NoUnit
	}
	return k
}

// partMeasure tells a part: its slide, or its turn: against the drawing where
// its axis stays parallel to its carrier's, else against its carrier. Of a part on a ball or
// loose in space it is the turn about its square-to.
func (m *Mechanism) partMeasure(p *linkage.Part) measure {
	b := m.partBody[p.Index]
	body := &m.bodies[b]
	switch body.kind {
	case sliding:
		return m.freedomMeasure(body.first)
	case tilting:
		return measure{unit: degrees, twist: &twist{body.first, p.SquareTo, 1}}
	}
	k := m.freedomMeasure(m.turnOf(b))
	for c := body.carrier; c != airframe; c = m.bodies[c].carrier {
		carrier := &m.bodies[c]
		if carrier.kind == sliding {
			continue
		}
		if carrier.kind == tilting || !inLine(carrier.axis, body.axis) {
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

// outputMeasure tells what an output reads.
func (m *Mechanism) outputMeasure(o *linkage.Output) measure {
	if o.Tilts != nil {
		k := m.tiltMeasure(o.Part, *o.Tilts)
		k.reads += o.Reads
		return k
	}
	if o.Point == nil {
		k := m.partMeasure(o.Part)
		if o.AgainstCarrier {
			k = m.freedomMeasure(m.turnOf(m.partBody[o.Part.Index]))
		}
		k.reads = o.Reads
		return k
	}
	return measure{unit: m.lengthUnit(o.In), reads: o.Reads, point: m.endAt(*o.Point), along: o.Along, ref: o.Point}
}

func (m *Mechanism) subjectMeasure(s linkage.Subject) measure {
	s, _ = m.run.Subject(s) // of this run, where it is changed from the one that s is of
	switch {
	case s.Part != nil:
		return m.partMeasure(s.Part)
	case s.Output != nil:
		return m.outputMeasure(s.Output)
	}
	return m.freedomMeasure(m.freedomOf(s.Control))
}

// stopMeasure tells what a stop by number limits.
func (m *Mechanism) stopMeasure(s *linkage.Stop) measure { return m.atMeasure(s.Of) }

// atMeasure tells a part as the `at` of a stop or pin does: a control against
// its carrier, another part as it is told.
func (m *Mechanism) atMeasure(p *linkage.Part) measure {
	own := func(c *linkage.Control) bool { return c.Of == p }
	if slices.ContainsFunc(m.run.Controls, own) || slices.ContainsFunc(m.run.SameParts, func(s *linkage.SamePart) bool { return own(s.Follows) }) {
		return m.freedomMeasure(m.bodies[m.partBody[p.Index]].first)
	}
	return m.partMeasure(p)
}

// freedomOf is the freedom that a control moves; of one that is none in an aircraft, that
// which its part has.
func (m *Mechanism) freedomOf(c *linkage.Control) int {
	return m.bodies[m.partBody[c.Of.Index]].first
}

// gapUnit is the unit in which the gap of a stop is told.
func (m *Mechanism) gapUnit(stop *linkage.Stop) linkage.Unit {
	if stop.Of != nil {
		return m.stopMeasure(stop).unit
	}
	return m.lengthUnit(stop.In)
}
