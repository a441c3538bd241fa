// Layer: sweep.

package solve

import "fullfree/linkage"

// way is how a place goes as a control moves from neutral.
type way struct {
	velocity vec     // at neutral, for each unit of the control
	toEnd    [2]vec  // from neutral to the low and the high end of the travel
	noise    float64 // below which the velocity is none
}

// wayOf is how a place goes in this sweep; false where there is no velocity at neutral,
// on center. It moves the sweep's pose, so that one at a time may ask.
func (s *sweeper) wayOf(ref linkage.PointRef) (g way, ok bool) {
	for i := range s.ways {
		if k := &s.ways[i]; k.of == ref {
			return k.way, k.ok
		}
	}
	g, ok = s.findWay(ref)
	s.ways = append(s.ways, wayFound{ref, g, ok})
	return g, ok
}

// wayFound is a way that was asked for.
type wayFound struct {
	of  linkage.PointRef
	way way
	ok  bool
}

func (s *sweeper) findWay(ref linkage.PointRef) (g way, ok bool) {
	p, e := s.p, s.m.endAt(ref)
	if p.solve(s.origin.x, s.origin.q) != allClosed { // it stands there
		return g, false
	}
	p.m.differentiate(&p.st, p.rates, p.input)
	if !p.rates.valid {
		return g, false
	}
	at := p.st.place(e)
	g.velocity = p.rates.of(&p.st, e.body, at).Scale(p.unit)
	g.noise = p.perControl(p.m.lengthNoise(slopeNoise))
	for i, sd := range s.sides {
		p.restore(sd.end)
		g.toEnd[i] = p.st.place(e).Sub(at)
	}
	return g, true
}
