// Layer: sweep.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
)

// A sense may be told by places, as the trade says it: as the stick's grip goes right, the
// right aileron's trailing edge goes up. It is the ratio of the two velocities, each along
// its own direction. Where the first place goes nearly square to its direction there is
// nothing to tell, and the ratio is left out.

// leastAlong is how much of its speed the first place must have along its direction for
// the sense to be judged there.
const leastAlong = 0.1

// senseMeasures are the two travels that a sense compares, and the sign of their ratio
// where the sense is right.
func (m *Mechanism) senseMeasures(r *linkage.Requirement) (a, b measure, sign float64) {
	if r.Places != nil {
		of := func(k *linkage.PlaceMotion) measure {
			return measure{unit: m.lengthUnit(k.Place.In()), point: m.endAt(k.Place), along: k.Along, ref: &k.Place}
		}
		return of(&r.Places[0]), of(&r.Places[1]), 1
	}
	a, b, sign = m.subjectMeasure(r.Of[0]), m.subjectMeasure(r.Of[1]), -1
	if r.Same {
		sign = 1
	}
	return a, b, sign
}

// addAside leaves out of a sense told by places where the first hardly goes along its
// direction. The ratio that is judged has no value there.
func (s *sweeper) addAside(j *judgedProbe, r *linkage.Requirement) {
	if r.Places == nil {
		return
	}
	p := s.p
	e, along := measure{point: s.m.endAt(r.Places[0].Place), ref: &r.Places[0].Place}, r.Places[0].Along
	// The square of the speed along the direction less that of the share of the whole.
	j.aside = p.add(probe{slope: true, noise: float64(p.probes[j.first].noise * p.probes[j.first].noise), value: func(p *path) (float64, float64) {
		e := e.at(p)
		at := p.st.place(e)
		v := p.rates.of(&p.st, e.body, at).Scale(p.unit)
		dv := p.rates.of2(&p.st, e.body, at).Scale(float64(p.unit * p.unit))
		to := v.Dot(along)
		return float64(to*to) - float64(leastAlong*leastAlong*v.Dot(v)),
			2 * (float64(to*dv.Dot(along)) - float64(leastAlong*leastAlong*v.Dot(dv)))
	}})
	j.ratio = j.probe
	whole, aside := p.probes[j.ratio].value, p.probes[j.aside].value
	s.trackers[j.ratio] = nil
	j.probe = s.track(p.add(probe{slope: true, noise: p.probes[j.ratio].noise, value: func(p *path) (float64, float64) {
		if v, _ := aside(p); v < 0 {
			return math.NaN(), math.NaN()
		}
		return whole(p)
	}}))
}

// goesAside reports whether the first place moves at the pose last solved, and nearly
// square to its direction.
func (s *sweeper) goesAside(j judgedProbe) bool {
	v, _ := s.p.probes[j.aside].value(s.p)
	return v < -s.p.probes[j.aside].noise
}

// seekAside takes in the ratio just where the first place begins or ceases to be left out.
func (s *sweeper) seekAside(w *walk, a, b *sample) {
	for _, j := range s.judged {
		if j.aside == 0 {
			continue
		}
		for _, x := range w.zeros(a, b, j.aside) {
			if v, _, ok := s.p.evaluate(a, b, x, j.ratio); ok {
				s.trackers[j.probe].consider(v, x, s.p.probes[j.probe].noise)
				s.edges = append(s.edges, asideEdge{j.requirement, x})
			}
		}
	}
}

// asideEdge is a place where a sense begins or ceases to be left out.
type asideEdge struct {
	requirement int
	x           float64
}

// asides are the stretches left out of a requirement in this sweep, along the control.
func (s *sweeper) asides(j judgedProbe) (list []Aside) {
	if j.aside == 0 {
		return nil
	}
	edges := []float64{s.sweep.Low, s.sweep.High}
	for _, e := range s.edges {
		if e.requirement == j.requirement && e.x > s.sweep.Low && e.x < s.sweep.High {
			edges = append(edges, e.x)
		}
	}
	slices.Sort(edges)
	for i := 1; i < len(edges); i++ {
		middle := edges[i-1] + float64(0.5*(edges[i]-edges[i-1]))
		if edges[i] == edges[i-1] || !s.solveAt(middle) {
			continue
		}
		s.p.m.differentiate(&s.p.st, s.p.rates, s.p.input)
		if s.goesAside(j) {
			list = append(list, Aside{s.sweep.Index, edges[i-1], edges[i]})
		}
	}
	return list
}

// movesPlace reports whether a sweep's control moves a place at neutral: where it is on
// center there, it may.
func (s *sweeper) movesPlace(place linkage.PointRef) bool {
	g, ok := s.wayOf(place)
	return !ok || g.velocity.Norm() > g.noise
}

// refuseUnmoved adds a fault for a sense told by places whose first no control moves at
// neutral.
func (m *Mechanism) refuseUnmoved(faults *linkage.Faults) {
	for _, r := range m.run.Requirements {
		if r.Places == nil {
			continue
		}
		first := r.Places[0].Place
		e := m.endAt(first)
		moved := false
		for _, c := range m.run.Controls {
			if r.Control != nil && r.Control != c {
				continue
			}
			p := m.newPath(c)
			p.st.take(&m.neutral)
			m.differentiate(&p.st, p.rates, p.input)
			v := p.rates.of(&p.st, e.body, p.st.place(e)).Scale(p.unit)
			moved = moved || !p.rates.valid || v.Norm() > p.perControl(m.lengthNoise(slopeNoise))
		}
		switch {
		case moved:
		case r.Control != nil:
			faults.Add(r.Span, "the control %q doesn't move %s at neutral: when = [...] names a place that it moves, as where the hand holds it", r.Control.Name, first)
		default:
			faults.Add(r.Span, "no control moves %s at neutral: when = [...] names a place that a control moves, as where the hand holds it", first)
		}
	}
}
