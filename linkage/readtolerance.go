package linkage

import "math"

// toleranceKind is the kind of the block that says how far what is made may be out.
const toleranceKind = "tolerance"

// readTolerance reads the tolerance block, of which there may be one.
func (r *reader) readTolerance(b *block) {
	if first := r.run.Tolerance; first != nil {
		r.faults.Add(b.span(), "a file has one tolerance block, and one stands on line %d", first.Span.Line)
		return
	}
	t := &Tolerance{Span: b.span()}
	r.run.Tolerance, r.tolerance = t, b
	t.Points, t.Pivots, t.Rods = orZero(b.atLeast("points", 0)), orZero(b.atLeast("pivots", 0)), orZero(b.atLeast("rods", 0))
	t.Stops, t.JointPlay = orZero(b.atLeast("stops", 0)), orZero(b.atLeast("joint-play", 0))
	if t.Stops >= halfTurn {
		r.faults.Add(b.at("stops"), "stops is how many degrees a stop may be out either way, and that is less than %d", halfTurn)
	}
	if len(b.Body.Attributes) == 0 {
		r.faults.Add(b.span(), "this block says nothing: write how far holes may be out either way, as in points = 0.3, or how much each joint gives, as in joint-play = 0.1")
	}
}

// readPlay reads how much the joints of a part, a rod or a rod end give.
func (b *block) readPlay() *float64 { return b.atLeast("joint-play", 0) }

// checkTolerance tells of half-widths and plays that are as large as the arm or the rod
// that they are of, once it is known where everything is. What the block says is told
// there, once for each.
func (r *reader) checkTolerance() {
	told := map[string]bool{}
	// tell tells it of an attribute of a thing's own block or, where that has none, of the
	// run's.
	tell := func(own *block, has bool, name, ofBlock string, value float64, format string, args ...any) {
		switch {
		case has:
			r.faults.Add(own.at(name), "%s = %g "+format, append([]any{name, value}, args...)...)
		case r.tolerance != nil && !told[ofBlock]:
			told[ofBlock] = true
			r.faults.Add(r.tolerance.at(ofBlock), "%s = %g "+format, append([]any{ofBlock, value}, args...)...)
		}
	}
	arms := map[*Part]float64{} // by part that turns: the shortest arm on which a rod pulls
	for _, b := range r.rods {
		rod := b.rod
		if r.bad[rod] || rod.From.Get() == nil || rod.To.Get() == nil {
			continue
		}
		if out := r.run.OutBy(Dimension{Rod: rod, Point: -1}); rod.Length > 0 && out >= rod.Length {
			tell(b.block, rod.Tolerance != nil, toleranceKind, "rods", out, "is as much as the rod %s is long", shortName(rod.Name))
		}
		for _, end := range b.ends {
			if play := end.end.JointPlay; play != nil && *play >= rod.Length && rod.Length > 0 {
				tell(end.block, true, "joint-play", "joint-play", *play, "is as much as the rod %s is long", shortName(rod.Name))
			}
		}
		if play := r.run.EndPlay(rod, ""); play >= rod.Length && rod.Length > 0 {
			tell(b.block, rod.JointPlay != nil, "joint-play", "joint-play", play, "is as much as the rod %s is long", shortName(rod.Name))
		}
		for _, e := range []PointRef{rod.From, rod.To} {
			p := e.Part
			if p == nil || !p.HasPivot() || r.bad[p] {
				continue
			}
			away := e.Get().At.Sub(p.Pivot)
			if p.OnAxis() {
				away = away.Sub(p.Axis.Scale(away.Dot(p.Axis)))
			}
			arm := away.Norm()
			if least, known := arms[p]; !known || arm < least {
				arms[p] = arm
			}
			out := 0.0
			for axis := range 3 {
				out = math.Max(out, r.run.OutBy(Dimension{Part: p, Point: e.Point, Axis: axis}))
			}
			if arm > 0 && out >= arm {
				tell(r.blockOf(p), p.Tolerance != nil, toleranceKind, "points", out, "is as much as the arm to %s is long: the hole could lie on the pivot", e)
			}
		}
	}
	for _, b := range r.parts {
		arm, pulled := arms[b.part]
		if play := r.run.PivotPlay(b.part); pulled && arm > 0 && play >= arm {
			tell(b.block, b.part.JointPlay != nil, "joint-play", "joint-play", play, "is as much as the shortest arm of %s is long", shortName(b.part.Name))
		}
		if out := r.run.OutBy(Dimension{Part: b.part, Point: -1}); pulled && arm > 0 && b.part.HasPivot() && b.part.NamedPivot == nil && out >= arm && b.part.Tolerance == nil {
			tell(b.block, false, toleranceKind, "pivots", out, "is as much as the shortest arm of %s is long", shortName(b.part.Name))
		}
	}
}

// blockOf is the block of a part.
func (r *reader) blockOf(p *Part) *block { return r.parts[p.Index].block }

// readStopTolerance reads how far a stop by number may bite from where it is set.
func (r *reader) readStopTolerance(b *block, s *Stop) {
	s.Tolerance = b.atLeast(toleranceKind, 0)
	if s.Tolerance != nil && s.Of != nil && s.Of.Angular() && *s.Tolerance >= halfTurn {
		r.faults.Add(b.at(toleranceKind), "tolerance is how many degrees a stop may be out either way, and that is less than %d", halfTurn)
	}
}

// readFreePlay reads of which output or control the free play is required, and the most
// that it may be.
func (r *reader) readFreePlay(b *block, q *Requirement) {
	if e := b.need("of", "of = output"); e != nil {
		thing, ok := r.thing(e, "output or control", func(thing any) bool { return is[*Output](thing) || is[*Control](thing) })
		switch thing := thing.(type) {
		case *Output:
			q.Of = []Subject{{Output: thing}}
		case *Control:
			q.Of = []Subject{{Control: thing}}
			if ok && q.Control != nil && q.Control != thing {
				r.faults.Add(b.at("control"), "how far %s can be rocked is judged in its own sweeps: leave control out", shortName(thing.Name))
			}
		}
	}
	q.Most = r.needLeast(b, "most", "most = 0.5", 0)
	if !r.run.HasPlay() {
		r.faults.Add(q.Span, "%s has nothing to be about, since no joint says what it gives: write joint-play = 0.1 in a tolerance block, a part, a rod or a rod end (of what another run of an aircraft says, require it in the aircraft file)", b)
	}
}

// tellTolerance tells what is wrong with half-widths and plays of a run put together by
// hand.
func (v *validator) tellTolerance() {
	wrong := func(values ...*float64) bool {
		for _, x := range maybe(values...) {
			if !sizes(x) || x < 0 {
				return true
			}
		}
		return false
	}
	const says = "%s: a half-width or a play of it is none, below 0 or too large"
	if t := v.run.Tolerance; t != nil && wrong(&t.Points, &t.Pivots, &t.Rods, &t.Stops, &t.JointPlay) {
		v.tell(t.Span, says, toleranceKind)
	}
	for _, p := range v.run.Parts {
		if wrong(p.Tolerance, p.JointPlay) {
			v.tell(p.Span, says, what("part", p.Name))
		}
	}
	for _, r := range v.run.Rods {
		bad := wrong(r.Tolerance, r.JointPlay)
		for _, e := range r.Ends {
			bad = bad || wrong(e.JointPlay)
		}
		if bad {
			v.tell(r.Span, says, what("rod", r.Name))
		}
	}
	for _, s := range v.run.Stops {
		if wrong(s.Tolerance) {
			v.tell(s.Span, says, what("stop", s.Name))
		}
	}
}
