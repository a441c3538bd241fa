package linkage

import "slices"

// tellUses tells what is wrong with controls, outputs, stops and pins.
func (v *validator) tellUses() {
	moved := map[*Part]bool{}
	for _, c := range v.run.Controls {
		about := what("control", c.Name)
		if !v.moves(c.Of) || c.Of.Motion != Turns && c.Of.Motion != Slides || moved[c.Of] {
			v.tell(c.Span, "%s: it moves a part of the run that turns or slides, and no other control's", about)
		}
		moved[c.Of] = true
		if !sizes(c.From, c.To) || !(c.From <= 0 && c.To >= 0 && c.From < c.To) || max(-c.From, c.To) > maxTurning && c.Of.Angular() {
			v.tell(c.Span, "%s: it is explored from 0 or less to 0 or more, and not at all that far", about)
		}
		if len(c.Held) == 0 || !sizes(c.Held...) {
			v.tell(c.Span, "%s: Held has one setting at least", about)
		}
		if slices.ContainsFunc(c.Detents, func(at float64) bool { return !(at >= c.From && at <= c.To) }) {
			v.tell(c.Span, "%s: a detent of it is beyond what is explored", about)
		}
		if c.Grip != nil && !v.isPoint(*c.Grip) {
			v.tell(c.Span, "%s: its grip is no point of the run", about)
		}
	}
	for _, o := range v.run.Outputs {
		about := what("output", o.Name)
		switch {
		case (o.Part == nil) == (o.Point == nil), o.Part != nil && !v.moves(o.Part), o.Point != nil && !v.isPoint(*o.Point):
			v.tell(o.Span, "%s: it is of a part of the run that moves, or of a point of one", about)
		case o.Point != nil && !isUnit(o.Along):
			v.tell(o.Span, "%s: along is no direction at length 1", about)
		}
		if o.SeenAt != nil && !v.isPoint(*o.SeenAt) {
			v.tell(o.Span, "%s: where it is seen is no point of the run", about)
		}
		switch spatial := o.Part != nil && o.Part.Spatial(); {
		case spatial != (o.Tilts != nil):
			v.tell(o.Span, "%s: a part that tilts any way is read towards a direction, and no other", about)
		case spatial && !isUnit(*o.Tilts):
			v.tell(o.Span, "%s: Tilts is no direction at length 1", about)
		case o.LeadingEdge != nil && (!v.isPoint(*o.LeadingEdge) || o.Part == nil || o.LeadingEdge.Part != o.Part || !o.Part.OnAxis()):
			v.tell(o.Span, "%s: its leading edge is a point of the part that it is of, which turns", about)
		}
		if o.AgainstCarrier && (o.Part == nil || o.Part.Carrier == nil || !o.Part.OnAxis()) {
			v.tell(o.Span, "%s: only a part that turns and is carried is read against its carrier", about)
		}
		if !sizes(o.Reads) {
			v.tell(o.Span, "%s: what it reads is no number", about)
		}
	}
	for _, s := range v.run.Stops {
		about := what("stop", s.Name)
		switch {
		case s.Of != nil && (!v.moves(s.Of) || s.Of.Spatial()), s.Of == nil && !v.metals(s.Touch):
			v.tell(s.Span, "%s: it is of a part of the run that moves, or where two pieces of its metal touch", about)
		case !sizes(s.At, s.Step) || s.Step < 0 || s.Adjust != nil && !(sizes(s.Adjust[:]...) && s.Adjust[0] < s.Adjust[1]):
			v.tell(s.Span, "%s: a number of it is none, or too large", about)
		case s.Adjust != nil && !(s.Step > 0):
			v.tell(s.Span, "%s: a stop that can be set has a step", about)
		case s.Side != "" && s.Side != "low" && s.Side != "high":
			v.tell(s.Span, "%s: its side is \"low\", \"high\" or empty", about)
		}
	}
	for _, p := range v.run.Pins {
		if !v.moves(p.Of) || !sizes(p.At, p.Within) || p.Within < 0 {
			v.tell(p.Span, "%s: it holds a part of the run that moves, at a number", what("pin", p.Name))
		}
	}
}

// metals reports whether two pieces of metal are the run's.
func (v *validator) metals(pair [2]FeatureRef) bool {
	return v.isMetal(pair[0]) && v.isMetal(pair[1]) && (pair[0].Part != pair[1].Part || pair[0].Rod != pair[1].Rod)
}

// tellRequirement tells of a requirement that lacks what its kind is about.
func (v *validator) tellRequirement(q *Requirement) {
	about := "require " + shortName(string(q.Kind))
	if !slices.Contains(requireKinds, q.Kind) {
		v.tell(q.Span, "%s: there is no such kind", about)
		return
	}
	whole := q.Control == nil || v.isControl(q.Control)
	subjects := 0
	switch q.Kind {
	case Opposite, Together, Symmetrical:
		subjects = 2
	case Sense:
		if q.Places == nil {
			subjects = 2
			break
		}
		whole = whole && len(q.Places) == 2
		for _, m := range q.Places {
			whole = whole && v.isPoint(m.Place) && isUnit(m.Along)
		}
	case Steady, Travel, Neutral:
		subjects = 1
	case Reading:
		subjects = 1
		c := q.Control
		if c == nil && len(v.run.Controls) == 1 {
			c = v.run.Controls[0]
		}
		whole = whole && c != nil && q.At >= c.From && q.At <= c.To
	case FreePlay:
		subjects = 1
		whole = whole && q.Most != nil && (len(q.Of) == 0 || q.Of[0].Part == nil)
	case CollectivePitch, CyclicPitch:
		subjects = 1
		whole = whole && len(q.Of) == 1 && q.Of[0].Output != nil && q.Of[0].Angular()
	case CyclicSense:
		subjects = 1
		whole = whole && len(q.Of) == 1 && q.Of[0].Output != nil && q.Of[0].Angular() && (q.Control != nil || q.Through != nil) && q.Over != nil &&
			len(q.Places) == 1 && v.isPoint(q.Places[0].Place) && isUnit(q.Places[0].Along)
	case Clearance:
		whole = whole && v.metals(q.Between)
	case Taut:
		whole = whole && v.isPair(q.Pair)
	case Meets:
		whole = whole && v.isPoint(q.Points[0]) && v.isPoint(q.Points[1])
	case Order:
		whole = whole && v.isStop(q.First) && v.isStop(q.Then) && q.First != q.Then
	case SecondPath:
		whole = whole && q.Most != nil
	}
	whole = whole && len(q.Of) == subjects && !slices.ContainsFunc(q.Of, func(s Subject) bool { return !v.isSubject(s) })
	if whole && (q.Kind == Opposite || q.Kind == Together || q.Kind == Symmetrical) {
		whole = q.Of[0].Angular() == q.Of[1].Angular()
	}
	if !whole {
		v.tell(q.Span, "%s: what it is about is not of the run, or not what this kind is about", about)
	}
	if !sizes(append(maybe(q.Most), q.Within, q.At, q.Wants, q.Low, q.High, q.Least)...) {
		v.tell(q.Span, "%s: a number of it is none, or too large", about)
	}
}

// tellMeasured tells what is wrong with what was measured.
func (v *validator) tellMeasured() {
	for _, m := range v.run.Measurements {
		about := what(string(m.Kind), m.Name)
		if m.Kind != Taped && m.Kind != Gauged {
			v.tell(m.Span, "%s: nothing is measured so", about)
		}
		if !v.isPlace(m.From) || !v.isPlace(m.To) {
			v.tell(m.Span, "%s: it goes from and to points and pivots of the run's parts", about)
		}
		if !sizes(m.Is, m.Within) || !(m.Within > 0) {
			v.tell(m.Span, "%s: a number of it is none, too large, or within not more than 0", about)
		}
	}
	for _, g := range v.run.Riggings {
		about := what("measured", g.Name)
		if !v.isSubject(g.Of) || g.Of.Control != nil || !v.isControl(g.Control) {
			v.tell(g.Span, "%s: it is of an output or part of the run, against a control of it", about)
		}
		ok := sizes(g.Within) && g.Within > 0 && len(g.Readings) > 0
		for _, r := range g.Readings {
			ok = ok && sizes(r[:]...)
		}
		if !ok {
			v.tell(g.Span, "%s: it has one reading at least, and within is more than 0", about)
		}
	}
}

// isPlace reports whether a place is a point of a part of the run, or the pivot of
// one that turns.
func (v *validator) isPlace(r PlaceRef) bool {
	return v.isPart(r.Part) && r.Point >= -1 && r.Point < len(r.Part.Points) && (r.Point >= 0 || r.Part.HasPivot())
}
