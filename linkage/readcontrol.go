package linkage

import "slices"

// halfTurn is how far a turning control is explored each way where the file
// doesn't say, degrees.
const halfTurn = 180

// maxTurning is how far a control can be explored by turning, degrees: a
// hundred turns. More steps than that would take are no sweep but a mistake.
const maxTurning = 36_000

// readControl reads a control.
func (r *reader) readControl(b *block, c *Control) {
	c.HeldSpan, c.FromSpan, c.ToSpan, c.OfSpan = b.at("held"), b.at("from"), b.at("to"), b.at("of")
	c.Plus, c.Minus = b.text("plus"), b.text("minus")
	if e := b.need("of", "of = part"); e != nil {
		if part, ok := r.movingRef(e); ok {
			if part.Motion == Turns || part.Motion == Slides {
				c.Of = part
			} else {
				r.faults.Add(spanOf(e.Range()), "%s %s, and a hand moves a part that turns on a pivot or slides", shortName(part.Name), part.freely())
			}
		}
	}
	r.readHeld(b, c, r.readExplored(b, c))
	c.Grip = r.readHeldAt(b, "grip", c.Of)
	r.readTwist(b, c)
	r.readDetents(b, c)
}

// readDetents reads a control's notches.
func (r *reader) readDetents(b *block, c *Control) {
	e := b.get("detents")
	if e == nil {
		return
	}
	entries, ok := r.list(e, -1, "[0, 15, 30]")
	if ok && len(entries) == 0 {
		r.faults.Add(b.at("detents"), "one detent at least is wanted here, as in [0, 15, 30], degrees of the control from neutral")
	}
	for _, entry := range entries {
		at, ok := r.number(entry)
		switch {
		case !ok:
			continue
		case c.From < c.To && (at < c.From || at > c.To):
			r.faults.Add(spanOf(entry.Range()), "a detent at %g is beyond what is explored, %g to %g", at, c.From, c.To)
		case slices.Contains(c.Detents, at):
			r.faults.Add(spanOf(entry.Range()), "the detent at %g is listed already", at)
		}
		c.Detents = append(c.Detents, at)
	}
}

// readTwist reads which way a control turns as a person sees it.
func (r *reader) readTwist(b *block, c *Control) {
	from, turns := b.get("seen-from"), b.get("turns")
	switch {
	case from == nil && turns == nil:
		return
	case from == nil:
		r.faults.Add(b.at("turns"), "seen from where? write seen-from = %q beside it, or from which side, as in seen-from = %q", LittleFinger, string(Aft))
		return
	case turns == nil:
		r.faults.Add(b.at("seen-from"), `seen from there, which way does plus turn? write turns = "clockwise" or turns = "counterclockwise"`)
		return
	}
	sides := []string{LittleFinger, Thumb}
	for _, d := range Directions {
		sides = append(sides, string(d))
	}
	seen, okSeen := r.choice(from, sides...)
	way, okWay := r.choice(turns, "clockwise", "counterclockwise", "anticlockwise")
	if c.Of == nil || !okSeen || !okWay {
		return
	}
	if c.Of.Motion != Turns {
		r.faults.Add(b.at("turns"), "%s slides, so it turns neither way", shortName(c.Of.Name))
		return
	}
	if c.Of.Carrier == nil && (seen == LittleFinger || seen == Thumb) {
		r.faults.Add(b.at("seen-from"), "%s is carried by no lever, along which a hand could lie: say from which side it is seen, as in seen-from = %q", shortName(c.Of.Name), string(Aft))
		return
	}
	c.Twist = &Twist{SeenFrom: seen, Clockwise: way == "clockwise", Span: b.at("turns")}
}

// readExplored reads how far a control is explored, and reports whether that
// is known.
func (r *reader) readExplored(b *block, c *Control) bool {
	from, okFrom := b.number("from", -halfTurn)
	to, okTo := b.number("to", halfTurn)
	c.From, c.To = from, to
	if c.Of != nil && c.Of.Motion == Slides {
		for _, name := range []string{"from", "to"} {
			if b.get(name) == nil {
				r.faults.Add(b.span(), "%s slides, so it needs a from and a to, and has no %s", b, name)
				okFrom = false
			}
		}
	}
	if okFrom && from > 0 {
		r.faults.Add(c.FromSpan, "from is measured from the drawn position, so it is 0 or less")
		okFrom = false
	}
	if okTo && to < 0 {
		r.faults.Add(c.ToSpan, "to is measured from the drawn position, so it is 0 or more")
		okTo = false
	}
	if !okFrom || !okTo {
		return false
	}
	if from == to {
		r.faults.Add(c.ToSpan, "from and to are the same: nothing is explored")
	}
	if c.Of != nil && c.Of.Motion == Turns {
		for _, limit := range []struct {
			value float64
			at    Span
		}{{-from, c.FromSpan}, {to, c.ToSpan}} {
			if limit.value > maxTurning {
				r.faults.Add(limit.at, "a control is explored %d turns each way at most, %d degrees", maxTurning/360, maxTurning)
			}
		}
	}
	return true
}

// readHeld reads where a control stands while others are swept; explored says
// that From and To are known.
func (r *reader) readHeld(b *block, c *Control, explored bool) {
	e := b.get("held")
	if e == nil {
		c.Held = []float64{0}
		return
	}
	entries, ok := r.list(e, -1, "[-8, 0, 12]")
	if ok && len(entries) == 0 {
		r.faults.Add(c.HeldSpan, "one setting at least is wanted here; left out, it is [0]")
	}
	for _, entry := range entries {
		value, ok := r.number(entry)
		if !ok {
			continue
		}
		if explored && (value < c.From || value > c.To) {
			r.faults.Add(spanOf(entry.Range()), "held at %g is beyond what is explored, %g to %g", value, c.From, c.To)
		}
		c.Held = append(c.Held, value)
	}
}

// checkControls checks what controls are on, and how many sweeps they ask for.
func (r *reader) checkControls() {
	if len(r.run.Controls) == 0 && len(r.ghosts) == 0 {
		r.faults.Add(r.run.Span, `the run has no control: write control "pedals" { of = part }`)
	}
	moves := map[*Part]*Control{}
	for _, c := range r.run.Controls {
		if c.Of == nil {
			continue
		}
		if first := moves[c.Of]; first != nil {
			r.faults.Add(c.OfSpan, "%s is moved already by the control %s, %s", shortName(c.Of.Name), shortName(first.Name), r.src.seen(first.Span))
			continue
		}
		moves[c.Of] = c
	}
	for _, c := range r.run.Controls {
		if c.Of == nil || c.Of.Carrier == nil || moves[c.Of.Carrier.Part] != nil {
			continue
		}
		r.faults.Add(c.OfSpan, "%s is carried by %s, which is no control's part: a control is on the airframe, or rides on another control", shortName(c.Of.Name), shortName(c.Of.Carrier.Part.Name))
	}
	// Every control is swept at every combination of the others' settings.
	sweeps := 0
	for _, c := range r.run.Controls {
		combinations := 1
		for _, other := range r.run.Controls {
			if other != c {
				combinations = min(combinations*max(1, len(other.Held)), maxHeldSweeps+1)
			}
		}
		if sweeps += combinations; sweeps > maxHeldSweeps {
			r.faults.Add(c.HeldSpan, "the controls' held settings make more than %d combinations to sweep: hold fewer", maxHeldSweeps)
			return
		}
	}
}

// readOutput reads an output.
func (r *reader) readOutput(b *block, o *Output) {
	o.Plus, o.Minus = b.text("plus"), b.text("minus")
	o.Reads, _ = b.number("reads", 0)
	along := b.get("along")
	r.readLeadingEdge(b, o)
	e := b.need("of", "of = part, or of = part.point with along = [x, y]")
	if e == nil {
		return
	}
	if hasDot(e) {
		ref, ok := r.pointRef(e)
		if ok && ref.Part != nil && ref.Part.Motion == Fixed {
			r.faults.Add(ref.Span, "%s is fixed, and an output moves", shortName(ref.String()))
			ok = false
		}
		if ok {
			o.Point = &ref
		}
		if along == nil {
			r.faults.Add(b.span(), "%s is of a point, so it needs the direction to measure along: write along = [1, 0]", b)
			return
		}
		o.Along, _ = r.direction(along)
		for _, name := range []string{"against", "tilts", "leading-edge"} {
			if b.get(name) != nil {
				r.faults.Add(b.at(name), "%s is for the turn of a whole part; %s is of a point", name, b)
			}
		}
		if b.get("seen-at") != nil {
			o.SeenAt = r.readHeldAt(b, "seen-at", nil)
		} else {
			o.SeenAt = o.Point
		}
		return
	}
	o.Part, _ = r.movingRef(e)
	o.SeenAt = r.readHeldAt(b, "seen-at", o.Part)
	r.readAgainst(b, o)
	r.readTilts(b, o)
	if along != nil {
		r.faults.Add(b.at("along"), "along is for the travel of a point; %s is of a whole part", b)
	}
}

// readAgainst reads against what the turn of an output's part is read.
func (r *reader) readAgainst(b *block, o *Output) {
	e := b.get("against")
	if e == nil {
		return
	}
	if _, ok := r.choice(e, "carrier"); !ok || o.Part == nil {
		return
	}
	switch {
	case o.Part.Spatial():
		r.faults.Add(b.at("against"), "%s %s, and only a turn is read against a carrier: leave against out", shortName(o.Part.Name), o.Part.freely())
	case !o.Part.OnAxis():
		r.faults.Add(b.at("against"), "%s turns on no pivot, and only a turn is read against a carrier: leave against out", shortName(o.Part.Name))
	case o.Part.Carrier == nil:
		r.faults.Add(b.at("against"), "%s isn't carried: its pivot is on the airframe, and it is read against the drawing", shortName(o.Part.Name))
	default:
		o.AgainstCarrier = true
	}
}

// readStop reads a stop.
func (r *reader) readStop(b *block, s *Stop) {
	s.AtSpan, s.OfSpan = b.at("at"), b.at("of")
	of, touch := b.get("of"), b.get("touch")
	switch {
	case of == nil && touch == nil:
		r.faults.Add(b.span(), "%s has neither of, with at, nor touch: write of = part and at = 24, or touch = [part.feature, part.feature]", b)
		return
	case of != nil && touch != nil:
		r.faults.Add(b.at("touch"), "a stop is either of a part at a number, or two features that touch")
		return
	case touch != nil:
		for _, name := range []string{"at", "side", "adjust", "step", toleranceKind} {
			if b.get(name) != nil {
				r.faults.Add(b.at(name), "%s stops where metal touches, so it has no %s", b, name)
			}
		}
		r.refuseSetting(s.Name+".at", "%s stops where metal touches, so it has no at", shortName(s.Name))
		s.Touch, _ = r.twoFeatures(touch)
		return
	}
	s.Of, _ = r.movingRef(of)
	if s.Of != nil && s.Of.Spatial() {
		r.faults.Add(s.OfSpan, "%s %s, so no one number tells where it stops: write touch = [part.feature, part.feature], or stop what moves it", shortName(s.Of.Name), s.Of.freely())
		s.Of = nil
	}
	at, ok := 0.0, false
	if e := b.need("at", "at = 24"); e != nil {
		at, ok = r.number(e)
	}
	ok = r.setNumber(s.Name+".at", &at) || ok
	s.At = at
	if e := b.get("side"); e != nil {
		s.Side, _ = r.choice(e, "low", "high")
	} else if ok && at == 0 && r.isControl(s.Of) {
		r.tellAt(s.Name+".at", s.AtSpan, `this is where the control is drawn, so the side must be told: side = "low" or side = "high"`)
	}
	r.readAdjust(b, s, ok)
	r.readStopTolerance(b, s)
}

// stopStep is by what a stop is set where the file doesn't say, degrees or
// run units (common practice, no source).
const stopStep = 0.5

// readAdjust reads between which figures a stop may be set; known says that
// its at is.
func (r *reader) readAdjust(b *block, s *Stop, known bool) {
	step := b.moreThanNothing("step")
	e := b.get("adjust")
	if e == nil {
		if b.get("step") != nil && !slices.Contains(b.misspelled, "adjust") {
			r.faults.Add(b.at("step"), "step is by what a stop is set: it belongs with adjust = [low, high]")
		}
		return
	}
	s.Step = stopStep
	if step != nil {
		s.Step, s.StepGiven = *step, true
	}
	between, ok := r.interval(e, "figure")
	if !ok {
		return
	}
	s.Adjust = between
	low, high := between[0], between[1]
	switch {
	case low == high:
		r.faults.Add(spanOf(e.Range()), "low and high are the same: nothing is left to be set")
	case b.get("side") == nil && low <= 0 && high >= 0:
		r.faults.Add(spanOf(e.Range()), `set past the drawn position, at 0, the stop would limit the other side: side = "low" or side = "high" must be told`)
	case known && (s.At < low || s.At > high):
		r.tellAt(s.Name+".at", s.AtSpan, "at %g is beyond what it can be set to, %g to %g", s.At, low, high)
	}
}

// isControl reports whether a control moves the part itself.
func (r *reader) isControl(part *Part) bool {
	for _, c := range r.run.Controls {
		if part != nil && c.Of == part {
			return true
		}
	}
	return false
}
