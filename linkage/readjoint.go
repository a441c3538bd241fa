package linkage

// readJoint reads which two points a joint makes one.
func (r *reader) readJoint(b *block, j *Joint) {
	const example = "[upper.tip, lower.tip]"
	j.OfSpan = b.at("of")
	j.JointPlay = b.readPlay()
	e := b.need("of", "of = "+example)
	b.tellMissing()
	if e == nil {
		return
	}
	entries, ok := r.list(e, 2, example)
	if !ok {
		return
	}
	for i, entry := range entries {
		ref, ok := r.pointRef(entry)
		switch {
		case !ok:
		case ref.Rod != nil:
			r.faults.Add(ref.Span, "%s is on a rod, and a joint is between points of parts: make the rod a part, or end a rod there", shortName(ref.String()))
		default:
			j.Of[i] = ref
		}
	}
	first, second := j.Of[0].Part, j.Of[1].Part
	switch {
	case first == nil || second == nil:
	case j.Of[0].Get() == j.Of[1].Get():
		r.faults.Add(j.OfSpan, "both are %s: a joint is between points of two parts", shortName(j.Of[0].String()))
	case first == second:
		r.faults.Add(j.OfSpan, "both points are on %s, so there is nothing to join: a joint is between two parts", shortName(first.Name))
	case first.Motion == Fixed && second.Motion == Fixed:
		r.faults.Add(j.OfSpan, "both points are fixed, so the joint %s holds nothing", shortName(j.Name))
	case r.jointTwice(j) != nil:
		twin := r.jointTwice(j)
		r.faults.Add(j.OfSpan, "the joint %s makes these points one already, %s", shortName(twin.Name), r.src.seen(twin.Span))
	}
}

// jointTwice returns a joint before this one that is of the same two points; nil where
// there is none.
func (r *reader) jointTwice(j *Joint) *Joint {
	a, b := j.Of[0].Get(), j.Of[1].Get()
	for _, other := range r.run.Joints[:j.Index] {
		if other.Name == "" {
			continue // told
		}
		if first, second := other.Of[0].Get(), other.Of[1].Get(); first == a && second == b || first == b && second == a {
			return other
		}
	}
	return nil
}

// checkJoints tells of joints that hold what they can't: a part in the plane of the
// drawing to one that leaves it, or a place that a part turns about.
func (r *reader) checkJoints() {
	none := float64(nothing * r.run.Size())
	for _, j := range r.run.Joints {
		if r.bad[j] {
			continue
		}
		for i, end := range j.Of {
			p, other := end.Part, j.Of[1-i].Part
			if mover := leaves(other); p.Motion == Floats && mover != nil {
				r.faults.Add(end.Span, "%s floats in the plane of the drawing, and %s moves out of it: write floats = %q in %s, or joint it to what stays in the plane", shortName(p.Name), shortName(mover.Name), inSpace, shortName(p.Name))
				break
			}
			if p.Motion == Turns && end.Get().At.Sub(p.Pivot).Cross(p.Axis).Norm() <= none || p.Motion == Tilts && end.Get().At.Sub(p.Pivot).Norm() <= none {
				if on := other.Motion; on == Fixed || p.carriedBy() == other {
					r.faults.Add(end.Span, "%s is where %s turns already, so the joint %s holds nothing more", shortName(end.String()), shortName(p.Name), shortName(j.Name))
					break
				}
			}
		}
	}
}
