package linkage

// What is one thing in two runs made from each other by With is found by its kind and
// its name, which With keeps: names are unique in a run. Each of these returns it in
// run; nil where run hasn't got it. One of run itself is returned as it is.

// twin looks where it most often is, and where something before it is gone, everywhere.
func twin[T any](list []*T, at int, is func(*T) bool) *T {
	if at >= 0 && at < len(list) && is(list[at]) {
		return list[at]
	}
	for _, t := range list {
		if is(t) {
			return t
		}
	}
	return nil
}

// Part returns the part of this run that is p, a part of another.
func (run *Run) Part(p *Part) *Part {
	if p == nil {
		return nil
	}
	return twin(run.Parts, p.Index, func(q *Part) bool { return q == p || q.Name == p.Name })
}

// Rod returns the rod of this run that is r, a rod of another.
func (run *Run) Rod(r *Rod) *Rod {
	if r == nil {
		return nil
	}
	return twin(run.Rods, r.Index, func(q *Rod) bool { return q == r || q.Name == r.Name })
}

// Joint returns the joint of this run that is j, a joint of another.
func (run *Run) Joint(j *Joint) *Joint {
	if j == nil {
		return nil
	}
	return twin(run.Joints, j.Index, func(q *Joint) bool { return q == j || q.Name == j.Name })
}

// RodEnd returns the rod end of this run that is e, one of another.
func (run *Run) RodEnd(e *RodEnd) *RodEnd {
	if e == nil {
		return nil
	}
	if r := run.Rod(e.Rod); r != nil {
		return r.End(e.Side)
	}
	return nil
}

// Cable returns the cable of this run that is c, a cable of another.
func (run *Run) Cable(c *Cable) *Cable {
	if c == nil {
		return nil
	}
	return twin(run.Cables, c.Index, func(q *Cable) bool { return q == c || q.Name == c.Name })
}

// CableEnd returns the adjuster of this run that is e, one of another.
func (run *Run) CableEnd(e *CableEnd) *CableEnd {
	if e == nil {
		return nil
	}
	if c := run.Cable(e.Cable); c != nil {
		return c.End(e.Side)
	}
	return nil
}

// Pair returns the pair of this run that is p, a pair of another.
func (run *Run) Pair(p *Pair) *Pair {
	if p == nil {
		return nil
	}
	return twin(run.Pairs, p.Index, func(q *Pair) bool { return q == p || q.Name == p.Name })
}

// Control returns the control of this run that is c, a control of another. One that
// Grip made is found by the name of its part.
func (run *Run) Control(c *Control) *Control {
	if c == nil {
		return nil
	}
	for _, s := range run.SameParts {
		if s.Follows == c || s.Follows.Name == c.Name {
			return s.Follows
		}
	}
	return twin(run.Controls, c.Index, func(q *Control) bool { return q == c || q.Name == c.Name })
}

// Output returns the output of this run that is o, an output of another.
func (run *Run) Output(o *Output) *Output {
	if o == nil {
		return nil
	}
	return twin(run.Outputs, o.Index, func(q *Output) bool { return q == o || q.Name == o.Name })
}

// Stop returns the stop of this run that is s, a stop of another.
func (run *Run) Stop(s *Stop) *Stop {
	if s == nil {
		return nil
	}
	return twin(run.Stops, s.Index, func(q *Stop) bool { return q == s || q.Name == s.Name })
}

// Requirement returns the requirement of this run that is r, one of another: of its
// kind and name, where the file has it. (Its name alone need not be its own.)
func (run *Run) Requirement(r *Requirement) *Requirement {
	if r == nil {
		return nil
	}
	return twin(run.Requirements, r.Index, func(q *Requirement) bool {
		return q == r || q.Kind == r.Kind && q.Name == r.Name && q.Span == r.Span
	})
}

// Point returns a reference to the point of this run that r names in another; false
// where this run hasn't got it.
func (run *Run) Point(r PointRef) (PointRef, bool) {
	part, rod := run.Part(r.Part), run.Rod(r.Rod)
	there := part != nil && r.Point >= 0 && r.Point < len(part.Points) || rod != nil && r.Point >= 0 && r.Point < len(rod.Points)
	r.Part, r.Rod = part, rod
	return r, there
}

// Metal returns a reference to the metal of this run that r names in another; false
// where this run hasn't got it.
func (run *Run) Metal(r FeatureRef) (FeatureRef, bool) {
	part, rod := run.Part(r.Part), run.Rod(r.Rod)
	there := rod != nil || part != nil && r.Feature >= 0 && r.Feature < len(part.Features)
	r.Part, r.Rod = part, rod
	return r, there
}

// Subject returns the subject of this run that s is in another; false where this run
// hasn't got it.
func (run *Run) Subject(s Subject) (Subject, bool) {
	s = Subject{run.Part(s.Part), run.Output(s.Output), run.Control(s.Control)}
	return s, s != (Subject{})
}

// Dimension returns the dimension of this run that d is of another; false where this
// run hasn't got it.
func (run *Run) Dimension(d Dimension) (Dimension, bool) {
	d.Rod, d.Cable, d.Part = run.Rod(d.Rod), run.Cable(d.Cable), run.Part(d.Part)
	points := 0
	switch {
	case d.Axis < 0 || d.Axis >= len(axes):
		return d, false
	case d.Cable != nil:
		return d, true
	case d.Rod != nil:
		points = len(d.Rod.Points)
	case d.Part != nil:
		points = len(d.Part.Points)
	default:
		return d, false
	}
	return d, d.Point < points
}
