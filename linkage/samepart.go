package linkage

import (
	"fmt"
	"math"
	"slices"

	"fullfree/linkage/elementary"
)

const (
	// parallelDirections is the most by which two axes that are one may point apart in the
	// aircraft, degrees: what directions drawn by hand are good for.
	parallelDirections = 1.0
	// sameRadius and sameAngle are the most by which two drawings of one hole may differ,
	// in millimeters and degrees: more is another hole.
	sameRadius = 1.0
	sameAngle  = 1.0
	// millimetersPerInch is exact by definition.
	millimetersPerInch = 25.4
)

// Millimeters returns a length of a unit in millimeters.
func (u Unit) Millimeters(length float64) float64 {
	if u == Inches {
		return float64(length * millimetersPerInch)
	}
	return length
}

// readSameParts reads which parts of two runs are one, and takes the controls away that
// are none then.
func (r *reader) readSameParts(blocks []*block) {
	for _, b := range blocks {
		if b.Type != samePartKind {
			continue
		}
		s := &SamePart{Span: b.span(), Index: len(r.run.SameParts)}
		if len(b.Labels) > 0 {
			s.Name = b.Labels[0]
		}
		if r.readSame(b, s) {
			r.run.SameParts = append(r.run.SameParts, s)
		}
		b.tellMissing()
	}
	r.refuseRunCircles()
	if len(r.faults.List) > 0 {
		return
	}
	for _, b := range blocks {
		if b.Type == samePartKind {
			r.turnSame(b, r.run.SameParts[slices.IndexFunc(r.run.SameParts, func(s *SamePart) bool { return s.Span == b.span() })])
		}
	}
	kept := r.run.Controls[:0]
	for _, c := range r.run.Controls {
		if r.run.FollowerOf(c) == nil {
			c.Index = len(kept)
			kept = append(kept, c)
		}
	}
	r.run.Controls = kept
	for _, q := range r.run.Requirements {
		if s := r.run.FollowerOf(q.Control); s != nil {
			q.Through, q.Control = s, nil
		}
	}
	// Readings against what is no control here are for the run by itself.
	r.run.Riggings = slices.DeleteFunc(r.run.Riggings, func(g *Rigging) bool { return r.run.FollowerOf(g.Control) != nil })
}

// readSame reads the two parts that are one, and reports whether they can be.
func (r *reader) readSame(b *block, s *SamePart) bool {
	const example = "[pedals.rocker, tail.crank]"
	e := b.need("of", "of = "+example)
	if e == nil {
		return false
	}
	entries, ok := r.list(e, 2, example)
	if !ok {
		return false
	}
	leads, okLeads := r.movingRef(entries[0])
	follows, okFollows := r.movingRef(entries[1])
	if !okLeads || !okFollows {
		return false
	}
	at := spanOf(e.Range())
	control := r.controlOf(follows)
	switch {
	case leads.In == follows.In:
		r.faults.Add(at, "both are of the run %s: one piece of metal stands on two drawings, of two runs", shortName(leads.In.Name))
	case control == nil && r.controlOf(leads) != nil:
		r.faults.Add(at, "what drives stands first, then the part of a control: %s is driven in its own run, and %s is what a control moves, so write of = [%s, %s]", shortName(follows.Name), shortName(leads.Name), follows.Name, leads.Name)
	case control == nil:
		r.faults.Add(at, "%s is no control's part: its own run drives it already, and %s would drive it too; make it a control in %s", shortName(follows.Name), shortName(leads.Name), shortName(follows.In.File))
	case r.run.FollowerOf(control) != nil:
		r.faults.Add(at, "%s would be driven twice: by %s, %s, and by %s", shortName(follows.Name), shortName(r.run.FollowerOf(control).Leads.Name), r.src.seen(r.run.FollowerOf(control).Span), shortName(leads.Name))
	case leads.Motion == Floats:
		r.faults.Add(at, "%s has no pivot and no slide, so it moves otherwise than %s: join a part that turns on one", shortName(leads.Name), shortName(follows.Name))
	case leads.Motion != Turns && leads.Motion != Slides:
		r.faults.Add(at, "%s %s, and a control's part does one thing: join a part that turns on a pivot or slides", shortName(leads.Name), leads.freely())
	case leads.Motion != follows.Motion:
		turns, slides := leads, follows
		if turns.Motion != Turns {
			turns, slides = slides, turns
		}
		r.faults.Add(at, "%s turns and %s slides: one piece of metal does one or the other", shortName(turns.Name), shortName(slides.Name))
	default:
		s.Leads, s.Follows = leads, control
		return true
	}
	return false
}

// controlOf returns the control that moves a part; nil where none does.
func (r *reader) controlOf(p *Part) *Control {
	for _, c := range r.run.Controls {
		if c.Of == p {
			return c
		}
	}
	return nil
}

// refuseRunCircles tells of runs that drive each other in a circle.
func (r *reader) refuseRunCircles() {
	members := r.run.Aircraft.Members
	circles(len(members), func(i int) (from []int) {
		for _, s := range r.run.SameParts {
			if s.Follows.In.Index == i {
				from = append(from, s.Leads.In.Index)
			}
		}
		return from
	}, func(circle []int) {
		for _, s := range r.run.SameParts {
			if s.Follows.In.Index == circle[0] && slices.Contains(circle, s.Leads.In.Index) {
				r.faults.Add(s.Span, "the runs %s and %s drive each other in a circle: one of them comes first, at the hand", shortName(s.Leads.In.Name), shortName(s.Follows.In.Name))
				return
			}
		}
	})
}

// turnSame finds out which way the second part of a pair that is one goes as the first
// does, and whether both drawings show it in one position.
func (r *reader) turnSame(b *block, s *SamePart) {
	leads, follows := s.Leads, s.Follows.Of
	at := b.at("of")
	r.carrySame(at, s)
	stated := ""
	if e := b.get("turns"); e != nil {
		stated, _ = r.choice(e, "same", "opposite")
	}
	sign := 1.0
	first, okFirst := leads.In.Run.inAircraft(leads.direction())
	second, okSecond := follows.In.Run.inAircraft(follows.direction())
	known := okFirst && okSecond
	word := map[bool]string{true: "same", false: "opposite"}
	switch {
	case known:
		apart := angleBetween(first, second)
		same := apart < 90
		if off := math.Min(apart, 180-apart); off > parallelDirections {
			r.faults.Add(at, "%s and %s can't be one piece of metal: in the aircraft what they %s stands %s degrees apart; look at forward, up and right of both runs", shortName(leads.Name), shortName(follows.Name), leads.goes(), plain(math.Round(off*10)/10))
			return
		}
		if stated != "" && stated != word[same] {
			r.faults.Add(b.at("turns"), "turns = %q is stated, and by forward and up of both runs it is %q: look which of them is wrong", stated, word[same])
			return
		}
		if !same {
			sign = -1
		}
	case stated == "":
		lacks := leads.In
		if okFirst {
			lacks = follows.In
		}
		r.faults.Add(at, "which way %s goes as %s does can't be told: give the run of %s its forward and up, or write turns = \"same\" or \"opposite\" here", shortName(follows.Name), shortName(leads.Name), shortName(lacks.File))
		return
	case stated == "opposite":
		sign = -1
	}
	s.Times = sign
	if leads.Motion == Slides {
		s.Times = float64(sign * leads.In.Run.Units.Millimeters(1) / follows.In.Run.Units.Millimeters(1))
	}
	r.alignSame(at, s, known)
}

// carrySame finds out whether two parts that are one are told against what carries them.
func (r *reader) carrySame(at Span, s *SamePart) {
	leads, follows := s.Leads, s.Follows.Of
	carried := func(p *Part) bool { return p.Carrier != nil }
	oneMetal := carried(leads) && carried(follows) && slices.ContainsFunc(r.run.SameParts, func(o *SamePart) bool {
		return o.Leads == leads.Carrier.Part && o.Follows.Of == follows.Carrier.Part
	})
	switch {
	case oneMetal:
		s.OnCarriers = true
	case carried(follows):
		r.faults.Add(at, "%s rides on %s, and what %s rides on is not the same metal: join those two first", shortName(follows.Name), shortName(follows.Carrier.Part.Name), shortName(leads.Name))
	case carried(leads) && !steadyAxis(leads):
		r.faults.Add(at, "%s rides on %s, which tilts it, and %s is on the airframe: they don't move alike", shortName(leads.Name), shortName(leads.Carrier.Part.Name), shortName(follows.Name))
	}
}

// steadyAxis reports whether the axis or slide of a carried part keeps its direction, as
// all that carries it turns about parallel axes, or slides.
func steadyAxis(p *Part) bool {
	for c := p.Carrier; c != nil; c = c.Part.Carrier {
		if c.Part.Spatial() {
			return false
		}
		if c.Part.Motion != Slides && (p.Motion == Slides || c.Part.Axis.Cross(p.Axis).Norm() > directionNoise) {
			return false
		}
	}
	return true
}

// direction is what a part turns about, or slides along.
func (p *Part) direction() Vec {
	if p.Motion == Slides {
		return p.Slide
	}
	return p.Axis
}

// goes says what a part does with its direction.
func (p *Part) goes() string {
	if p.Motion == Slides {
		return "slide along"
	}
	return "turn about"
}

// inAircraft returns a direction of the drawing in those of the aircraft: forward, up and
// right. It is false where the run doesn't say enough.
func (run *Run) inAircraft(v Vec) (Vec, bool) {
	if run.Forward == nil || run.Up == nil || run.Right == nil {
		return Vec{}, false
	}
	return Vec{v.Dot(*run.Forward), v.Dot(*run.Up), v.Dot(*run.Right)}, true
}

// angleBetween is the angle of two vectors, degrees.
func angleBetween(a, b Vec) float64 {
	return elementary.Atan2(a.Cross(b).Norm(), a.Dot(b)) / (math.Pi / 180)
}

// alignSame compares the holes that both drawings have by one name.
func (r *reader) alignSame(at Span, s *SamePart, known bool) {
	leads, follows := s.Leads, s.Follows.Of
	var origins *[2]Vec // of a slide, the first hole that both have
	for i := range leads.Points {
		j := slices.IndexFunc(follows.Points, func(p Point) bool { return p.Name == leads.Points[i].Name })
		if j < 0 {
			continue
		}
		if leads.Motion == Slides && origins == nil {
			origins = &[2]Vec{leads.Points[i].At, follows.Points[j].At}
			continue
		}
		first, second := leads.arm(i, origins, 0), follows.arm(j, origins, 1)
		long := [2]float64{leads.In.Run.Units.Millimeters(first.Norm()), follows.In.Run.Units.Millimeters(second.Norm())}
		hole := fmt.Sprintf("the hole %s of %s and that of %s", shortName(leads.Points[i].Name), shortName(leads.Name), shortName(follows.Name))
		if off := math.Abs(long[0] - long[1]); off > sameRadius {
			r.faults.Add(at, "%s are not one: %s mm from the %s on the first drawing, %s mm on the second, %s mm apart", hole, hundredths(long[0]), leads.from(), hundredths(long[1]), hundredths(off))
			continue
		}
		if !known || long[0] <= sameRadius || long[1] <= sameRadius {
			continue
		}
		a, _ := leads.In.Run.inAircraft(first)
		b, _ := follows.In.Run.inAircraft(second)
		if off := angleBetween(a, b); off > sameAngle {
			r.faults.Add(at, "%s are not one as drawn: in the aircraft they stand %s degrees apart; both drawings show the part in one position, at neutral", hole, hundredths(off))
			continue
		}
		s.Aligned = true
	}
}

// arm is how a hole of a part lies from its pivot, square to its axis; of a part that
// slides, from the origin that is given for it.
func (p *Part) arm(point int, origins *[2]Vec, which int) Vec {
	if p.Motion == Slides {
		return p.Points[point].At.Sub(origins[which])
	}
	arm := p.Points[point].At.Sub(p.Pivot)
	return arm.Sub(p.Axis.Scale(arm.Dot(p.Axis)))
}

// from is what holes of a part are measured from.
func (p *Part) from() string {
	if p.Motion == Slides {
		return "first hole that both have"
	}
	return "pivot"
}

// hundredths writes a figure to a hundredth.
func hundredths(v float64) string { return plain(math.Round(v*100) / 100) }
