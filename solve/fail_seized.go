// Layer: questions.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
)

// seizing is how far, from neutral, things turn or slide in their own bearings
// over the travel of a control, the others at neutral: what they could not do if
// they seized.
type seizing struct {
	part  *linkage.Part // of the run swept; or
	rod   *linkage.Rod
	end   string
	cable *linkage.Cable // or the core of it, in its conduit
	unit  linkage.Unit
	most  float64 // degrees or run units; of a part that floats its turn, or what of it moves
	// size is the same in radians or shares of the run's size.
	size float64
}

// seizings follows every part, and every rod end against what it is bolted to,
// through the travel of a sweep.
func seizings(w *Sweep) (list []seizing) {
	s := w.of
	m := s.m
	var inside []*sample
	for _, k := range s.knots {
		if k.x >= w.Low && k.x <= w.High {
			inside = append(inside, k)
		}
	}
	for _, p := range m.run.Parts {
		if p.Motion == linkage.Fixed {
			continue
		}
		k := seizing{part: p}
		first, count := m.freedomsOfPart(m.partBody[p.Index])
		for f := first; f < first+count; f++ {
			if i, ok := m.freedoms[f].kind.orients(); ok {
				if i == 0 {
					k.turns(inside, s.origin, f)
				}
				continue
			}
			for _, at := range inside {
				moved := math.Abs(at.q[f] - s.origin.q[f])
				if size := moved / m.sizeOf(f); size > k.size {
					k.size, k.most, k.unit = size, moved, m.lengthUnit(p.In)
					if m.freedoms[f].kind == turn {
						k.most, k.unit = moved/degree, degrees
					}
				}
			}
		}
		list = append(list, k)
	}
	list = append(list, endSeizings(s, inside)...)
	return append(list, coreSeizings(s, inside)...)
}

// turns finds how far a part on a ball turns from where it stands at neutral; first is the
// first freedom of its quaternion.
func (k *seizing) turns(inside []*sample, origin *sample, first int) {
	stands := orientation(origin.q[first:])
	for _, at := range inside {
		now := orientation(at.q[first:])
		apart := quaternion{now.w - stands.w, now.v.Sub(stands.v)}
		if apart.dot(stands) < -1 { // the other quaternion of the same place is nearer
			apart = quaternion{now.w + stands.w, now.v.Add(stands.v)}
		}
		turned := 4 * elementary.Asin(math.Min(1, math.Sqrt(apart.dot(apart))/2))
		if turned > k.size {
			k.size, k.most, k.unit = turned, turned/degree, degrees
		}
	}
}

// coreSeizings finds how far the core of each cable goes through its conduit: what
// comes out at one end and goes in at the other. What comes out at both only
// stretches the core. Where it is stretched by more than it goes through, as where a
// control carries both conduits of a pair along and draws both cables up, and their
// difference moves what they hold a little, a core that seizes changes little and
// locks nothing.
func coreSeizings(s *sweeper, inside []*sample) (list []seizing) {
	m, p := s.m, s.p
	for i := range m.constraints {
		for j := range m.constraints[i].cablePaths {
			cablePath := &m.constraints[i].cablePaths[j]
			if len(cablePath.legs) == 0 {
				continue
			}
			k := seizing{cable: cablePath.cable, unit: m.lengthUnit(cablePath.cable.In)}
			out := func(g leg) float64 { return p.st.place(g.core).Sub(p.st.place(g.mouth)).Norm() }
			p.restore(s.origin)
			drawn := [2]float64{out(cablePath.legs[0]), out(cablePath.legs[1])}
			stretched := 0.0
			for _, at := range inside {
				p.restore(at)
				from, to := out(cablePath.legs[0])-drawn[0], out(cablePath.legs[1])-drawn[1]
				stretched = math.Max(stretched, math.Abs(from+to))
				if from*to < 0 {
					k.most = math.Max(k.most, math.Min(math.Abs(from), math.Abs(to)))
				}
			}
			if k.most <= stretched {
				k.most = 0
			}
			k.size = k.most / m.size
			list = append(list, k)
		}
	}
	return list
}

// endSeizings finds how far each rod turns against what its ends are bolted to.
func endSeizings(s *sweeper, inside []*sample) (list []seizing) {
	m, p := s.m, s.p
	ways := func() (ways []vec) {
		for i := range m.run.Rods {
			l := &m.constraints[i]
			way := p.st.place(l.to).Sub(p.st.place(l.from)).Unit()
			ways = append(ways, p.st.frames[l.from.body].turn.unapply(way), p.st.frames[l.to.body].turn.unapply(way))
		}
		return ways
	}
	for _, rod := range m.run.Rods {
		list = append(list, seizing{rod: rod, end: "from", unit: degrees}, seizing{rod: rod, end: "to", unit: degrees})
	}
	p.restore(s.origin)
	drawn := ways()
	for _, at := range inside {
		p.restore(at)
		for i, way := range ways() {
			turned := elementary.Atan2(drawn[i].Cross(way).Norm(), drawn[i].Dot(way))
			if k := &list[i]; turned > k.size {
				k.size, k.most = turned, turned/degree
			}
		}
	}
	return list
}

// seize fills in what is left when something seizes at neutral: each control
// that would have to move it is locked by itself, and the others go on as filed.
func (f *failing) seize(c *Failure) {
	over := false
	c.OverCenter = &over
	for i := range f.filed {
		k := f.seizingOf(i, &c.Element)
		var locked *bool
		if k.size >= follows || k.size <= stands {
			yes := k.size >= follows
			locked = &yes
		}
		now := f.filed[i]
		if locked == nil || *locked {
			now = nil
		}
		told := len(c.Reaches)
		f.compare(c, i, now)
		if locked == nil {
			c.Reaches = c.Reaches[:told]
		}
		left := &c.Controls[i]
		left.Gone, left.Locked, left.Would, left.WouldUnit = false, locked, k.most, k.unit
	}
	f.tellLost(c)
	f.tellTaken(c)
}

// seizingOf finds how far an element would have to go for a control.
func (f *failing) seizingOf(i int, e *Element) seizing {
	for _, k := range f.turns[i] {
		if e.Part != nil && k.part != nil && k.part.Name == e.Part.Name ||
			e.Cable != nil && k.cable != nil && k.cable.Name == e.Cable.Name ||
			e.Rod != nil && k.rod != nil && k.rod.Name == e.Rod.Name && k.end == e.End {
			return k
		}
	}
	return seizing{}
}

// tellTaken lists the parts under hands that a seizure locks, where the run has
// several.
func (f *failing) tellTaken(c *Failure) {
	var all []*linkage.Part
	locked := false
	for i, hands := range f.hands {
		k := &c.Controls[i]
		if k.Locked == nil {
			return
		}
		locked = locked || *k.Locked
		for _, p := range hands {
			if !slices.Contains(all, p) {
				all = append(all, p)
			}
			if *k.Locked && !slices.Contains(c.Takes, p) && (p == k.Control.Of || f.stopped(c, i, p.Name)) {
				c.Takes = append(c.Takes, p)
			}
		}
	}
	if len(all) < 2 || !locked {
		c.Takes = nil
		return
	}
	takes := len(c.Takes) == len(all)
	c.TakesAll = &takes
}
