package linkage

import "slices"

// Without returns a copy of the run that can be changed by itself, without some
// of its parts, rods, cables, stops and controls, nor what can't be there
// without them: what a part carries, rods and cables that end on it, rods that
// hang on a rod, controls and outputs of it, stops that it would touch. What is
// left of a pair is a cable by itself, as long as it is unloaded. What is required, pinned and measured is
// left out: it is about the whole. Names stay as they are, and so does whether
// the run counts as plane.
func (run *Run) Without(gone ...any) *Run {
	c := copier{parts: map[*Part]*Part{}, rods: map[*Rod]*Rod{}, gone: map[any]bool{}}
	for _, g := range gone {
		c.gone[g] = true
	}
	c.spread(run)
	left := *run
	left.Parts, left.Rods, left.Cables, left.Pairs = nil, nil, nil, nil
	left.Controls, left.Outputs, left.Stops = nil, nil, nil
	left.Requirements, left.Measurements, left.Pins, left.Riggings = nil, nil, nil, nil
	c.copyParts(run, &left)
	c.copyRods(run, &left)
	c.copyCables(run, &left)
	c.copyUses(run, &left)
	return &left
}

// copier makes a copy of a run without what is gone.
type copier struct {
	gone  map[any]bool
	parts map[*Part]*Part // the copies
	rods  map[*Rod]*Rod
}

// spread adds to what is gone what can't be there without it.
func (c *copier) spread(run *Run) {
	for more := true; more; {
		more = false
		lose := func(what any, because bool) {
			if because && !c.gone[what] {
				c.gone[what] = true
				more = true
			}
		}
		for _, p := range run.Parts {
			lose(p, p.Carrier != nil && c.gone[p.Carrier.Part])
		}
		for _, r := range run.Rods {
			lose(r, c.lost(r.From) || c.lost(r.To))
		}
		for _, k := range run.Cables {
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
func (c *copier) lost(r PointRef) bool {
	return c.gone[r.Part] || c.gone[r.Rod]
}

// point is a reference to the copy of a point.
func (c *copier) point(r PointRef) PointRef {
	r.Part, r.Rod = c.parts[r.Part], c.rods[r.Rod] // of nil there is no copy
	return r
}

func (c *copier) pointOrNone(r *PointRef) *PointRef {
	if r == nil {
		return nil
	}
	p := c.point(*r)
	return &p
}

func (c *copier) copyParts(run, left *Run) {
	for _, p := range run.Parts {
		if c.gone[p] {
			continue
		}
		own := *p
		own.Index = len(left.Parts)
		own.Points = slices.Clone(p.Points)
		own.Features = slices.Clone(p.Features)
		c.parts[p] = &own
		left.Parts = append(left.Parts, &own)
	}
	for _, p := range left.Parts {
		p.Carrier, p.NamedPivot = c.pointOrNone(p.Carrier), c.pointOrNone(p.NamedPivot)
	}
}

func (c *copier) copyRods(run, left *Run) {
	for _, r := range run.Rods {
		if c.gone[r] {
			continue
		}
		own := *r
		own.Index = len(left.Rods)
		own.Points = slices.Clone(r.Points)
		own.Ends = nil
		for _, e := range r.Ends {
			end := *e
			end.Rod = &own
			own.Ends = append(own.Ends, &end)
		}
		c.rods[r] = &own
		left.Rods = append(left.Rods, &own)
	}
	for _, r := range left.Rods {
		r.From, r.To = c.point(r.From), c.point(r.To)
	}
}

func (c *copier) copyCables(run, left *Run) {
	cables := map[*Cable]*Cable{}
	for _, k := range run.Cables {
		if c.gone[k] {
			continue
		}
		own := *k
		own.Index = len(left.Cables)
		own.Pair = nil
		own.From, own.To = c.pointOrNone(k.From), c.pointOrNone(k.To)
		if k.Conduit != nil {
			own.Conduit = &[2]PointRef{c.point(k.Conduit[0]), c.point(k.Conduit[1])}
		}
		if k.Quadrants != nil {
			own.Quadrants = &[2]*Part{c.parts[k.Quadrants[0]], c.parts[k.Quadrants[1]]}
		}
		own.Ends = nil
		for _, e := range k.Ends {
			end := *e
			end.Cable = &own
			own.Ends = append(own.Ends, &end)
		}
		cables[k] = &own
		left.Cables = append(left.Cables, &own)
	}
	for _, p := range run.Pairs {
		a, b := cables[p.Cables[0]], cables[p.Cables[1]]
		if a == nil || b == nil {
			for _, alone := range []*Cable{a, b} {
				if alone != nil {
					alone.Grown -= p.Pretension / alone.Stiffness
				}
			}
			continue
		}
		own := *p
		own.Index = len(left.Pairs)
		own.Cables = [2]*Cable{a, b}
		a.Pair, b.Pair = &own, &own
		left.Pairs = append(left.Pairs, &own)
	}
}

// copyUses copies what moves, what is moved and what ends the travel.
func (c *copier) copyUses(run, left *Run) {
	for _, k := range run.Controls {
		if !c.gone[k] && !c.gone[k.Of] {
			own := *k
			own.Index, own.Of = len(left.Controls), c.parts[k.Of]
			left.Controls = append(left.Controls, &own)
		}
	}
	for _, o := range run.Outputs {
		if c.gone[o.Part] || o.Point != nil && c.lost(*o.Point) {
			continue
		}
		own := *o
		own.Index, own.Part, own.Point = len(left.Outputs), c.parts[o.Part], c.pointOrNone(o.Point)
		left.Outputs = append(left.Outputs, &own)
	}
	for _, s := range run.Stops {
		if c.gone[s] || c.gone[s.Of] || c.metalLost(s.Touch[0]) || c.metalLost(s.Touch[1]) {
			continue
		}
		own := *s
		own.Index, own.Of = len(left.Stops), c.parts[s.Of]
		own.Touch = [2]FeatureRef{c.metal(s.Touch[0]), c.metal(s.Touch[1])}
		left.Stops = append(left.Stops, &own)
	}
}

func (c *copier) metalLost(r FeatureRef) bool {
	return c.gone[r.Part] || c.gone[r.Rod]
}

// metal is a reference to the copy of a feature or rod.
func (c *copier) metal(r FeatureRef) FeatureRef {
	r.Part, r.Rod = c.parts[r.Part], c.rods[r.Rod]
	return r
}
