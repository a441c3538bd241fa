package linkage

import (
	"math"

	"fullfree/linkage/elementary"
)

// checkCables tells of cables that move nothing or can't be told apart from such,
// and of pairs that don't pull against each other. plane says that the run is
// known to be plane.
func (r *reader) checkCables(plane bool) {
	none := float64(nothing * r.run.Size())
	for _, b := range r.cables {
		if c := b.cable; !r.bad[c] && !c.Open() {
			r.checkConduit(c, plane, none)
		}
	}
	for i, p := range r.run.Pairs {
		first, second := p.Cables[0], p.Cables[1]
		if first != nil && second != nil && !r.bad[first] && !r.bad[second] {
			r.checkPair(p, r.pairs[i].at("cables"))
			r.checkPretension(p, r.pairs[i].at("pretension"))
		}
	}
}

// checkConduit tells of a conduit cable that moves nothing.
func (r *reader) checkConduit(c *Cable, plane bool, none float64) {
	legs := c.Legs()
	if onOneBody(legs[0]) && onOneBody(legs[1]) {
		r.faults.Add(c.Span, "the core of the cable %s and its conduit are held on the same piece at each end, so that nothing changes its length", shortName(c.Name))
		return
	}
	if joins := c.Joins(); joins[0] == joins[1] && joins[0].Motion != Fixed {
		r.faults.Add(c.Span, "both ends of the cable %s are on %s, so it joins nothing to it", shortName(c.Name), shortName(joins[0].Name))
		return
	}
	climb := 0.0
	for _, leg := range legs {
		climb += r.checkLeg(c, leg, plane, none)
	}
	if plane && c.CoreGiven && c.Core > 0 && c.Core <= climb {
		r.tellAt(c.Name+".core", c.CoreSpan, "the ends of the cable %s differ in height by %g together, so more core than that must be outside its conduit", shortName(c.Name), climb)
	}
}

// onOneBody reports whether nothing changes the distance of two points.
func onOneBody(leg [2]PointRef) bool { return sameBody(leg[0].Part, leg[1].Part) }

// sameBody reports whether two parts can't move against each other, since they
// are one or both are fixed.
func sameBody(a, b *Part) bool { return a == b || a.Motion == Fixed && b.Motion == Fixed }

// checkLeg tells of an end of a cable that has no direction, and returns by how
// much it climbs.
func (r *reader) checkLeg(c *Cable, leg [2]PointRef, plane bool, none float64) (climb float64) {
	core, conduit := leg[0], leg[1]
	d := core.Get().At.Sub(conduit.Get().At)
	climb = math.Abs(d.Z)
	switch {
	case d.Norm() <= none:
		r.faults.Add(core.Span, "%s is drawn where the conduit ends, at %s, so the core has no direction there", shortName(core.String()), shortName(conduit.String()))
	case plane && elementary.Hypot(d.X, d.Y) <= none:
		r.faults.Add(core.Span, "from %s to %s the core stands square to the drawing, so it moves nothing in it", shortName(conduit.String()), shortName(core.String()))
	}
	if p := core.Part; p.Motion == Turns && core.Get().At.Sub(p.Pivot).Cross(p.Axis).Norm() <= none {
		r.faults.Add(core.Span, "%s lies on the axis that %s turns about, so a cable there can't turn it", shortName(core.String()), shortName(p.Name))
	}
	for i, end := range leg {
		if end.Part.Motion != Floats || onOneBody(leg) {
			continue
		}
		if climb > none {
			r.faults.Add(end.Span, "the core of the cable %s goes to another height here, and %s is held by rods alone: their ball ends would not keep it in its plane", shortName(c.Name), shortName(end.Part.Name))
			break
		}
		if other := leg[1-i]; leaves(other.Part) != nil {
			r.faults.Add(other.Span, "%s is held by rods alone, so the core must stay in its plane, and %s moves out of it", shortName(end.Part.Name), shortName(leaves(other.Part).Name))
			break
		}
	}
	return climb
}

// checkPair tells of a pair whose cables don't pull against each other. at is
// where they are named.
func (r *reader) checkPair(p *Pair, at Span) {
	first, second := p.Cables[0], p.Cables[1]
	if first.Open() != second.Open() {
		r.faults.Add(at, "of a pair both cables are open or both in conduits, and here only %s is open", shortName(openOf(first, second).Name))
		return
	}
	one, other := first.Joins(), second.Joins()
	straight := sameBody(one[0], other[0]) && sameBody(one[1], other[1])
	if !straight && (!sameBody(one[0], other[1]) || !sameBody(one[1], other[0])) {
		r.faults.Add(at, "both cables of a pair join the same two parts, and %s joins %s, %s joins %s",
			shortName(first.Name), allOf([]string{one[0].Name, one[1].Name}), shortName(second.Name), allOf([]string{other[0].Name, other[1].Name}))
		return
	}
	if !first.Open() {
		return
	}
	for i, quadrant := range one {
		k := i
		if !straight {
			k = 1 - i
		}
		if winds := first.Winds[i]; winds != 0 && winds == second.Winds[k] {
			r.faults.Add(at, "on %s both cables of the pair wind %s, so that they pull it the same way: one winds up where the other winds down", shortName(quadrant.Name), windsWord(first.Winds[i]))
		}
	}
}

// checkPretension tells of a pretension that no cable of a pair stands. at is where
// it is written.
func (r *reader) checkPretension(p *Pair, at Span) {
	unit := r.run.Units.ForceUnit()
	for _, c := range p.Cables {
		if c.Wire != nil {
			breaks, known := c.Wire.BreaksAt(r.run.Units)
			if known && p.Pretension >= breaks {
				r.tellAt(p.Name+".pretension", at, "at %.0f %s %s would break: of its wire and size that takes %.0f %s (AC 43.13-1B)", p.Pretension, unit, shortName(c.Name), breaks, unit)
				return
			}
		}
		most := c.Drawn
		if c.Open() {
			most = c.Length
		}
		if c.Stiffness <= 0 {
			continue // told already
		}
		if stretch := p.Pretension / c.Stiffness; stretch > MaxSize || most > 0 && stretch >= most {
			r.tellAt(p.Name+".pretension", at, "%.4g %s would stretch %s by %.4g %s, by its stiffness: no cable does that", p.Pretension, unit, shortName(c.Name), stretch, r.run.Units)
			return
		}
	}
}

// openOf returns which of two cables is open.
func openOf(first, second *Cable) *Cable {
	if first.Open() {
		return first
	}
	return second
}

// windsWord is how the file says which way a cable winds.
func windsWord(winds float64) string {
	if winds > 0 {
		return "up"
	}
	return "down"
}
