package linkage

import "slices"

// tellPart tells what is wrong with a part.
func (v *validator) tellPart(p *Part) {
	about := what("part", p.Name)
	switch p.Motion {
	case Fixed, Floats, Roams:
		if p.Carrier != nil || p.NamedPivot != nil {
			v.tell(p.Span, "%s: it has no pivot to be carried by", about)
		}
	case Turns, Tilts, TurnsAndSlides:
	case Slides:
		if !isUnit(p.Slide) {
			v.tell(p.Span, "%s: its slide is no direction at length 1", about)
		}
	default:
		v.tell(p.Span, "%s: its motion is none that there is", about)
	}
	if p.Spatial() && (!isUnit(p.SquareTo) || p.Axis != p.SquareTo) {
		v.tell(p.Span, "%s: its SquareTo is a direction at length 1, and its Axis is the same", about)
	}
	if !isUnit(p.Axis) && (p.OnAxis() || p.Axis != Vec{}) { // bolts then stand square to the drawing
		v.tell(p.Span, "%s: its axis is no direction at length 1", about)
	}
	if p.Loose() && len(p.Points) == 0 {
		v.tell(p.Span, "%s: it is held by rods alone, and has no points for them", about)
	}
	v.tellCarrier(p, about)
	v.tellPoints(p.Points, p.Span, about)
	if !places(p.Pivot) {
		v.tell(p.Span, "%s: its pivot is no place", about)
	}
	for _, f := range p.Features {
		v.tellFeature(&f, p, about+", "+shortName(f.Name))
	}
}

// tellCarrier tells of a part that is carried by nothing there is.
func (v *validator) tellCarrier(p *Part, about string) {
	named, carrier := p.NamedPivot, p.Carrier
	switch {
	case named != nil && (!v.isPoint(*named) || named.Rod != nil || named.Part == p),
		carrier != nil && (!v.isPoint(*carrier) || carrier.Rod != nil || carrier.Part == p):
		v.tell(p.Span, "%s: what its pivot is on is no point of another part of the run", about)
		p = nil
	case carrier != nil && (named == nil || *named != *carrier):
		v.tell(p.Span, "%s: its Carrier is not its NamedPivot", about)
	case carrier != nil && carrier.Part.Motion == Fixed, carrier == nil && named != nil && named.Part.Motion != Fixed:
		v.tell(p.Span, "%s: it has a Carrier where its pivot is on a part that moves, and only there", about)
	}
}

func (v *validator) tellPoints(points []Point, at Span, about string) {
	for _, p := range points {
		if !places(p.At, p.offset) {
			v.tell(at, "%s: its point %s is no place", about, shortName(p.Name))
		}
		if p.Bolt != nil && !isUnit(*p.Bolt) {
			v.tell(at, "%s: the bolt at %s is no direction at length 1", about, shortName(p.Name))
		}
	}
}

// tellFeature tells what is wrong with metal of a part.
func (v *validator) tellFeature(f *Feature, p *Part, about string) {
	switch {
	case f.Shape == Round && (len(f.Through) != 1 || !(f.Radius > 0)):
		v.tell(p.Span, "%s: a round has one center and a radius more than 0", about)
	case f.Shape == Edge && len(f.Through) < 2:
		v.tell(p.Span, "%s: an edge goes through two points at least", about)
	case f.Shape != Round && f.Shape != Edge:
		v.tell(p.Span, "%s: its shape is none that there is", about)
	}
	if !places(f.Through...) || !sizes(f.Radius) || f.Radius < 0 || f.Z != nil && !(sizes(f.Z[:]...) && f.Z[0] <= f.Z[1]) {
		v.tell(p.Span, "%s: a number of it is none, below 0 or too large", about)
	}
}

// tellRod tells what is wrong with a rod.
func (v *validator) tellRod(r *Rod) {
	about := what("rod", r.Name)
	if !v.isPoint(r.From) || !v.isPoint(r.To) {
		v.tell(r.Span, "%s: its ends are not on points of the run", about)
	}
	if !sizes(append(maybe(r.Diameter, r.Misalignment), r.Length, r.Drawn, r.Play)...) || !(r.Length > 0) || !(r.Drawn > 0) || r.Play < 0 {
		v.tell(r.Span, "%s: a length of it is none, too large, or not more than 0", about)
	}
	if slices.ContainsFunc(maybe(r.Diameter, r.Misalignment), func(x float64) bool { return x < 0 }) {
		v.tell(r.Span, "%s: neither its diameter nor its misalignment is below 0", about)
	}
	if r.SecondPath && len(r.Points) > 0 {
		v.tell(r.Span, "%s: a second path has no points of its own", about)
	}
	if home := v.run.Home(r.In); len(r.Points) > 0 && (home == nil || !home.Plane) {
		v.tell(r.Span, "%s: a rod has points of its own in a plane run alone", about)
	}
	v.tellPoints(r.Points, r.Span, about)
	for i, e := range r.Ends {
		if e.Rod != r || !slices.Contains(rodSides, e.Side) || i > 0 && slices.ContainsFunc(r.Ends[:i], func(other *RodEnd) bool { return other.Side == e.Side }) {
			v.tell(r.Span, "%s: its ends are its own, at most one \"from\" and one \"to\"", about)
		}
		v.tellThread(e.Thread, r.Span, about, e.Engaged, e.Least, e.Step, e.Most, e.Shank)
	}
}

// tellJoint tells what is wrong with a joint.
func (v *validator) tellJoint(j *Joint) {
	about := what("joint", j.Name)
	first, second := j.Of[0], j.Of[1]
	switch {
	case !v.isPoint(first) || !v.isPoint(second) || first.Rod != nil || second.Rod != nil:
		v.tell(j.Span, "%s: it is between points of parts of the run", about)
	case first.Part == second.Part || first.Part.Motion == Fixed && second.Part.Motion == Fixed:
		v.tell(j.Span, "%s: it is between two parts, of which one moves", about)
	}
	if !sizes(append(maybe(j.JointPlay), j.Gap)...) || j.Gap < 0 {
		v.tell(j.Span, "%s: a number of it is none, below 0 or too large", about)
	}
}

// tellRotor tells what is wrong with what turns blades.
func (v *validator) tellRotor(rotor *Rotor) {
	switch {
	case rotor == nil:
	case !v.isPart(rotor.Hub) || rotor.Hub.Motion != Turns:
		v.tell(rotor.Span, "rotor: its hub is a part of the run that turns")
	case v.run.Aircraft == nil && (v.run.Up == nil || v.run.Forward == nil):
		v.tell(rotor.Span, "rotor: the run says neither what is up nor what is forward")
	}
}

// tellThread tells what is wrong with a threaded end.
func (v *validator) tellThread(t Thread, at Span, about string, engaged, least, step float64, may ...*float64) {
	if !sizes(append(maybe(may...), engaged, least, step, t.Pitch, t.Diameter)...) || !(t.Pitch > 0) || t.Diameter < 0 || step < 0 {
		v.tell(at, "%s: a number of a threaded end is none, below 0 or too large", about)
	}
}

// tellCable tells what is wrong with a cable.
func (v *validator) tellCable(c *Cable) {
	about := what("cable", c.Name)
	switch conduit := c.Conduit != nil || c.From != nil || c.To != nil; {
	case c.Open() == conduit:
		v.tell(c.Span, "%s: it has either From, To and Conduit, or Quadrants", about)
	case conduit && (c.From == nil || c.To == nil || c.Conduit == nil):
		v.tell(c.Span, "%s: it needs all of From, To and Conduit", about)
	case conduit:
		for _, leg := range c.Legs() {
			for _, p := range leg {
				if !v.isPoint(p) || p.Rod != nil {
					v.tell(c.Span, "%s: it is held on points of the run's parts alone", about)
				}
			}
		}
		if !(c.Core > 0) && c.Pair == nil || !sizes(c.Core, c.Drawn) {
			v.tell(c.Span, "%s: its core is no length", about)
		}
	default:
		for i, p := range c.Quadrants {
			if !v.isPart(p) || p.Motion != Turns || p.Carrier != nil || p == c.Quadrants[1-i] {
				v.tell(c.Span, "%s: its quadrants are two parts that turn on the airframe", about)
			}
			if !(c.Radius[i] > 0) || !sizes(c.Radius[i]) || c.Winds[i] != 1 && c.Winds[i] != -1 {
				v.tell(c.Span, "%s: a quadrant has a radius more than 0 and winds +1 or -1", about)
			}
		}
	}
	if !sizes(c.Taken, c.Grown, c.Stiffness, c.Length) || c.Stiffness < 0 || c.Length < 0 {
		v.tell(c.Span, "%s: a number of it is none, below 0 or too large", about)
	}
	if c.Pair != nil && (!v.isPair(c.Pair) || !slices.Contains(c.Pair.Cables[:], c)) {
		v.tell(c.Span, "%s: it isn't in the pair that it names", about)
	}
	for _, e := range c.Ends {
		if e.Cable != c || !slices.Contains(cableSides, e.Side) {
			v.tell(c.Span, "%s: its adjusters are its own, at \"conduit-from\" and \"conduit-to\"", about)
		}
		v.tellThread(e.Thread, c.Span, about, e.Engaged, e.Least, e.Step, e.Most)
	}
}

// tellPair tells what is wrong with a pair.
func (v *validator) tellPair(p *Pair) {
	about := what("pair", p.Name)
	one, other := p.Cables[0], p.Cables[1]
	if !v.isCable(one) || !v.isCable(other) || one == other || one.Pair != p || other.Pair != p {
		v.tell(p.Span, "%s: its cables are two of the run's, which name it", about)
		return
	}
	if !(p.Pretension > 0) || !sizes(p.Pretension) || !(one.Stiffness > 0) || !(other.Stiffness > 0) || one.Open() != other.Open() {
		v.tell(p.Span, "%s: it has a pretension, and its cables are of one kind and have a stiffness", about)
	}
}

// tellCircles tells of parts that carry each other, and of rods that hang on each
// other, in a circle.
func (v *validator) tellCircles() {
	if len(v.faults.List) > 0 {
		return
	}
	circles(len(v.run.Parts), func(i int) []int {
		if ref := v.run.Parts[i].NamedPivot; ref != nil {
			return []int{ref.Part.Index}
		}
		return nil
	}, func(circle []int) {
		first := v.run.Parts[circle[0]]
		v.tell(first.Span, "%s: it is carried by itself in a circle", what("part", first.Name))
	})
	circles(len(v.run.Rods), func(i int) (on []int) {
		for _, end := range []PointRef{v.run.Rods[i].From, v.run.Rods[i].To} {
			if end.Rod != nil {
				on = append(on, end.Rod.Index)
			}
		}
		return on
	}, func(circle []int) {
		first := v.run.Rods[circle[0]]
		v.tell(first.Span, "%s: it hangs on itself in a circle", what("rod", first.Name))
	})
}
