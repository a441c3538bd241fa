package linkage

import "slices"

// A run's elements point at each other, so a changed run has elements of its own.
// They are copied in one piece each kind; what no edit changes (the source, words,
// metal, points that stay) is shared with the run that they are copied from.

// Element is something that a run can be without: *Part, *Rod, *Joint, *Cable, *Control,
// *Output, *Stop or *Measurement.
type Element interface{ element() }

func (*Part) element()        {}
func (*Rod) element()         {}
func (*Joint) element()       {}
func (*Cable) element()       {}
func (*Control) element()     {}
func (*Output) element()      {}
func (*Stop) element()        {}
func (*Measurement) element() {}

// copier copies a run without what is gone. The copies are by the Index of what
// they are copied from; nil: gone.
type copier struct {
	from, to *Run
	gone     map[Element]bool
	parts    []*Part
	rods     []*Rod
	cables   []*Cable
	pairs    []*Pair
	controls []*Control
	joints   []*SamePart
	follows  []*Control // by joint: the control that is none
	outputs  []*Output
	stops    []*Stop
}

// copied returns a copy of the run without what is gone, nor what can't be there
// without that: what a part carries, rods, joints and cables that end on it, rods that hang
// on a rod, controls and outputs of it, stops that it would touch, and what is
// required, pinned or measured of any of these. What is left of a pair is a cable by
// itself, as long as it is unloaded. Whether it counts as plane stays as it was.
func (run *Run) copied(gone map[Element]bool) *Run { return run.copier(gone).to }

// copier is what made such a copy.
func (run *Run) copier(gone map[Element]bool) *copier {
	to := *run
	c := &copier{from: run, to: &to, gone: gone}
	if len(gone) > 0 {
		c.spread()
	}
	c.copyParts()
	c.copyRods()
	c.copyJoints()
	c.copyCables()
	c.copyPairs()
	c.copyUses()
	c.copyAsked()
	return c
}

// spread adds to what is gone what can't be there without it.
func (c *copier) spread() {
	for more := true; more; {
		more = false
		lose := func(what Element, because bool) {
			if because && !c.gone[what] {
				c.gone[what] = true
				more = true
			}
		}
		for _, p := range c.from.Parts {
			lose(p, p.Carrier != nil && c.gone[p.Carrier.Part])
		}
		for _, r := range c.from.Rods {
			lose(r, c.lost(r.From) || c.lost(r.To))
		}
		for _, k := range c.from.Cables {
			because := k.From != nil && c.lost(*k.From) || k.To != nil && c.lost(*k.To)
			if k.Conduit != nil {
				because = because || c.lost(k.Conduit[0]) || c.lost(k.Conduit[1])
			}
			if k.Quadrants != nil {
				because = because || c.gone[k.Quadrants[0]] || c.gone[k.Quadrants[1]]
			}
			lose(k, because)
		}
	}
}

// lost reports whether a point is gone with its part or rod.
func (c *copier) lost(r PointRef) bool { return c.gone[r.Part] || c.gone[r.Rod] }

// copyOf returns the copy of an element; nil of one that is gone. What a
// run made by hand points at and doesn't list is no part of it, and not copied.
func copyOf[T any](from, copies []*T, index int, of *T) *T {
	if index < 0 || index >= len(from) || from[index] != of {
		if index = slices.Index(from, of); index < 0 {
			return of
		}
	}
	return copies[index]
}

func (c *copier) part(p *Part) *Part {
	if p == nil {
		return nil
	}
	return copyOf(c.from.Parts, c.parts, p.Index, p)
}

func (c *copier) rod(r *Rod) *Rod {
	if r == nil {
		return nil
	}
	return copyOf(c.from.Rods, c.rods, r.Index, r)
}

func (c *copier) cable(k *Cable) *Cable {
	if k == nil {
		return nil
	}
	return copyOf(c.from.Cables, c.cables, k.Index, k)
}

func (c *copier) pair(p *Pair) *Pair {
	if p == nil {
		return nil
	}
	return copyOf(c.from.Pairs, c.pairs, p.Index, p)
}

func (c *copier) control(k *Control) *Control {
	if k == nil {
		return nil
	}
	if s := c.from.FollowerOf(k); s != nil {
		return c.follows[s.Index]
	}
	return copyOf(c.from.Controls, c.controls, k.Index, k)
}

func (c *copier) output(o *Output) *Output {
	if o == nil {
		return nil
	}
	return copyOf(c.from.Outputs, c.outputs, o.Index, o)
}

func (c *copier) stop(s *Stop) *Stop {
	if s == nil {
		return nil
	}
	return copyOf(c.from.Stops, c.stops, s.Index, s)
}

// point is a reference to the copy of a point.
func (c *copier) point(r PointRef) PointRef {
	r.Part, r.Rod = c.part(r.Part), c.rod(r.Rod)
	return r
}

// pointOrNone is that of one that may be missing, or gone.
func (c *copier) pointOrNone(r *PointRef) *PointRef {
	if r == nil || c.lost(*r) {
		return nil
	}
	p := c.point(*r)
	return &p
}

// metal is a reference to the copy of a feature or rod.
func (c *copier) metal(r FeatureRef) FeatureRef {
	r.Part, r.Rod = c.part(r.Part), c.rod(r.Rod)
	return r
}

// metalLost reports whether metal is gone with its part or rod.
func (c *copier) metalLost(r FeatureRef) bool { return c.gone[r.Part] || c.gone[r.Rod] }

// subject is a reference to the copy of a subject; whole is false where it is gone.
func (c *copier) subject(s Subject) (own Subject, whole bool) {
	own = Subject{c.part(s.Part), c.output(s.Output), c.control(s.Control)}
	return own, (own.Part == nil) == (s.Part == nil) && (own.Control == nil) == (s.Control == nil) && (own.Output == nil) == (s.Output == nil)
}

func (c *copier) copyParts() {
	own := make([]Part, len(c.from.Parts))
	c.parts, c.to.Parts = make([]*Part, len(own)), slices.Grow([]*Part(nil), len(own))
	for i, p := range c.from.Parts {
		if c.gone[p] {
			continue
		}
		own[i] = *p
		own[i].Index = len(c.to.Parts)
		c.parts[i] = &own[i]
		c.to.Parts = append(c.to.Parts, &own[i])
	}
	for _, p := range c.to.Parts {
		p.Carrier, p.NamedPivot = c.pointOrNone(p.Carrier), c.pointOrNone(p.NamedPivot)
	}
}

func (c *copier) copyRods() {
	own := make([]Rod, len(c.from.Rods))
	c.rods, c.to.Rods = make([]*Rod, len(own)), slices.Grow([]*Rod(nil), len(own))
	for i, r := range c.from.Rods {
		if c.gone[r] {
			continue
		}
		own[i] = *r
		own[i].Index = len(c.to.Rods)
		own[i].Ends = nil
		for _, e := range r.Ends {
			end := *e
			end.Rod = &own[i]
			own[i].Ends = append(own[i].Ends, &end)
		}
		c.rods[i] = &own[i]
		c.to.Rods = append(c.to.Rods, &own[i])
	}
	for _, r := range c.to.Rods {
		r.From, r.To = c.point(r.From), c.point(r.To)
	}
}

// copyJoints copies what makes points one, and what turns blades.
func (c *copier) copyJoints() {
	c.to.Joints = nil
	for _, j := range c.from.Joints {
		if c.gone[j] || c.lost(j.Of[0]) || c.lost(j.Of[1]) {
			continue
		}
		own := *j
		own.Index, own.Of = len(c.to.Joints), [2]PointRef{c.point(j.Of[0]), c.point(j.Of[1])}
		c.to.Joints = append(c.to.Joints, &own)
	}
	if rotor := c.from.Rotor; rotor != nil {
		own := *rotor
		if own.Hub = c.part(rotor.Hub); own.Hub == nil {
			c.to.Rotor = nil
		} else {
			c.to.Rotor = &own
		}
	}
}

func (c *copier) copyCables() {
	own := make([]Cable, len(c.from.Cables))
	c.cables, c.to.Cables = make([]*Cable, len(own)), slices.Grow([]*Cable(nil), len(own))
	for i, k := range c.from.Cables {
		if c.gone[k] {
			continue
		}
		to := &own[i]
		*to = *k
		to.Index, to.Pair = len(c.to.Cables), nil
		to.From, to.To = c.pointOrNone(k.From), c.pointOrNone(k.To)
		if k.Conduit != nil {
			to.Conduit = &[2]PointRef{c.point(k.Conduit[0]), c.point(k.Conduit[1])}
		}
		if k.Quadrants != nil {
			to.Quadrants = &[2]*Part{c.part(k.Quadrants[0]), c.part(k.Quadrants[1])}
		}
		to.Ends = nil
		for _, e := range k.Ends {
			end := *e
			end.Cable = to
			to.Ends = append(to.Ends, &end)
		}
		c.cables[i] = to
		c.to.Cables = append(c.to.Cables, to)
	}
}

func (c *copier) copyPairs() {
	c.pairs, c.to.Pairs = make([]*Pair, len(c.from.Pairs)), nil
	for i, p := range c.from.Pairs {
		a, b := c.cable(p.Cables[0]), c.cable(p.Cables[1])
		if a == nil || b == nil {
			for _, alone := range []*Cable{a, b} {
				if alone != nil {
					alone.Grown -= p.Pretension / alone.Stiffness
				}
			}
			continue
		}
		own := *p
		own.Index = len(c.to.Pairs)
		own.Cables = [2]*Cable{a, b}
		a.Pair, b.Pair = &own, &own
		c.pairs[i] = &own
		c.to.Pairs = append(c.to.Pairs, &own)
	}
}

// copyUses copies what moves, what is moved and what ends the travel.
func (c *copier) copyUses() {
	c.controls, c.to.Controls = make([]*Control, len(c.from.Controls)), nil
	for i, k := range c.from.Controls {
		if c.gone[k] || c.gone[k.Of] {
			continue
		}
		own := *k
		own.Index, own.Of, own.Grip = len(c.to.Controls), c.part(k.Of), c.pointOrNone(k.Grip)
		c.controls[i] = &own
		c.to.Controls = append(c.to.Controls, &own)
	}
	c.joints, c.follows, c.to.SameParts = make([]*SamePart, len(c.from.SameParts)), make([]*Control, len(c.from.SameParts)), nil
	for i, s := range c.from.SameParts {
		if c.gone[s.Leads] || c.gone[s.Follows.Of] {
			continue
		}
		own, follows := *s, *s.Follows
		follows.Of, follows.Grip = c.part(s.Follows.Of), c.pointOrNone(s.Follows.Grip)
		own.Index, own.Leads, own.Follows = len(c.to.SameParts), c.part(s.Leads), &follows
		c.joints[i], c.follows[i] = &own, &follows
		c.to.SameParts = append(c.to.SameParts, &own)
	}
	c.outputs, c.to.Outputs = make([]*Output, len(c.from.Outputs)), nil
	for i, o := range c.from.Outputs {
		if c.gone[o] || c.gone[o.Part] || o.Point != nil && c.lost(*o.Point) {
			continue
		}
		own := *o
		own.Index, own.Part, own.Point = len(c.to.Outputs), c.part(o.Part), c.pointOrNone(o.Point)
		own.SeenAt, own.LeadingEdge = c.pointOrNone(o.SeenAt), c.pointOrNone(o.LeadingEdge)
		c.outputs[i] = &own
		c.to.Outputs = append(c.to.Outputs, &own)
	}
	c.stops, c.to.Stops = make([]*Stop, len(c.from.Stops)), nil
	for i, s := range c.from.Stops {
		if c.gone[s] || c.gone[s.Of] || c.metalLost(s.Touch[0]) || c.metalLost(s.Touch[1]) {
			continue
		}
		own := *s
		own.Index, own.Of = len(c.to.Stops), c.part(s.Of)
		own.Touch = [2]FeatureRef{c.metal(s.Touch[0]), c.metal(s.Touch[1])}
		c.stops[i] = &own
		c.to.Stops = append(c.to.Stops, &own)
	}
}

// copyAsked copies what is required, measured and pinned.
func (c *copier) copyAsked() {
	c.to.Requirements = nil
	for _, r := range c.from.Requirements {
		if own := c.requirement(r); own != nil {
			own.Index = len(c.to.Requirements)
			c.to.Requirements = append(c.to.Requirements, own)
		}
	}
	c.to.Measurements = nil
	for _, m := range c.from.Measurements {
		if c.gone[m] || c.gone[m.From.Part] || c.gone[m.To.Part] {
			continue
		}
		own := *m
		own.From.Part, own.To.Part = c.part(m.From.Part), c.part(m.To.Part)
		c.to.Measurements = append(c.to.Measurements, &own)
	}
	c.to.Pins = nil
	for _, p := range c.from.Pins {
		if c.gone[p.Of] {
			continue
		}
		own := *p
		own.Index, own.Of = len(c.to.Pins), c.part(p.Of)
		c.to.Pins = append(c.to.Pins, &own)
	}
	c.to.Riggings = nil
	for _, r := range c.from.Riggings {
		own := *r
		of, whole := c.subject(r.Of)
		own.Of, own.Control = of, c.control(r.Control)
		if whole && own.Control != nil {
			c.to.Riggings = append(c.to.Riggings, &own)
		}
	}
}

// requirement copies a requirement; nil where something that it is about is gone.
func (c *copier) requirement(r *Requirement) *Requirement {
	own := *r
	own.Control, own.First, own.Then = c.control(r.Control), c.stop(r.First), c.stop(r.Then)
	whole := (own.Control == nil) == (r.Control == nil) && (own.First == nil) == (r.First == nil) && (own.Then == nil) == (r.Then == nil)
	own.Of = slices.Clone(r.Of)
	for i, s := range r.Of {
		of, there := c.subject(s)
		own.Of[i], whole = of, whole && there
	}
	for i := range r.Between {
		own.Between[i], own.Points[i] = c.metal(r.Between[i]), c.point(r.Points[i])
		whole = whole && !c.metalLost(r.Between[i]) && !c.lost(r.Points[i])
	}
	own.Places = slices.Clone(r.Places)
	for i, p := range r.Places {
		whole = whole && !c.lost(p.Place)
		own.Places[i].Place = c.point(p.Place)
	}
	if r.Through != nil && r.Through.Index < len(c.joints) {
		own.Through = c.joints[r.Through.Index]
		whole = whole && own.Through != nil
	}
	own.Pair = c.pair(r.Pair)
	if !whole || (own.Pair == nil) != (r.Pair == nil) {
		return nil
	}
	return &own
}
