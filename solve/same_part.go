// Layer: compile.

package solve

import "fullfree/linkage"

// addJoints adds a constraint for each two parts of an aircraft that are one. It is written
// as a cable wound on both, so that what follows of an open cable follows of it: what the
// second part goes, less what the first makes of it, stays nothing. Lengths, as the run's
// size for a radian, give it the tolerance of other constraints.
func (m *Mechanism) addJoints() {
	for _, s := range m.run.SameParts {
		k := cablePath{drums: []drum{m.drumOf(s.Follows.Of, 1)}}
		terms := m.partMeasure(s.Leads).terms
		if s.OnCarriers {
			terms = m.freedomMeasure(m.turnOf(m.partBody[s.Leads.Index])).terms
		}
		for _, t := range terms {
			d := m.drumOf(s.Follows.Of, float64(-s.Times*t.sign))
			d.freedom, d.body = t.freedom, m.freedoms[t.freedom].body
			k.drums = append(k.drums, d)
		}
		m.constraints = append(m.constraints, constraint{joint: s, cablePaths: []cablePath{k}, pull: -1})
	}
}

// drumOf is a part's only freedom as it counts in a joint.
func (m *Mechanism) drumOf(p *linkage.Part, times float64) drum {
	b := m.partBody[p.Index]
	f := m.bodies[b].first
	takes := times
	if m.freedoms[f].kind == turn {
		takes = float64(times * m.size)
	}
	return drum{b, f, takes}
}
