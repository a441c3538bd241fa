package linkage

import "github.com/hashicorp/hcl/v2/hclsyntax"

// cableBlock is a cable being read.
type cableBlock struct {
	*block
	cable *Cable
	// ends are the blocks of cable.Ends.
	ends []cableEndBlock
}

// cableEndBlock is a cable's adjuster being read.
type cableEndBlock struct {
	*block
	end *CableEnd
}

// cableSides are the two ends of a conduit.
var cableSides = []string{"conduit-from", "conduit-to"}

// wireExample shows a wire as it could be.
const wireExample = `wire = "7x19 1/8 galvanized"`

// readCable reads all of a cable but its core as drawn, which follows its points.
// The pairs were read before.
func (r *reader) readCable(b *cableBlock) {
	from, to := b.need("from", "from = part.point"), b.need("to", "to = part.point")
	b.cable.CoreSpan = b.at("core")
	points, parts := hasDot(from) || hasDot(to), isPlainName(from) || isPlainName(to)
	switch {
	case points && parts:
		r.faults.Add(spanOf(to.Range()), "a cable goes from point to point, its core in a conduit, or from quadrant to quadrant, which are whole parts: here %s is %s, and %s is %s",
			b.writes("from"), pointOrPart(from), b.writes("to"), pointOrPart(to))
	case points:
		r.readConduit(b, from, to)
	case parts:
		r.readOpen(b, from, to)
	default:
		for _, e := range []hclsyntax.Expression{from, to} {
			if e != nil {
				r.reference(e, cableEnds)
			}
		}
	}
	if points != parts {
		r.readPull(b, parts)
		r.readStiffness(b, parts)
		r.readCableEnds(b, parts)
	}
	b.tellMissing()
}

// cableEnds says what a cable can go from and to.
const cableEnds = "a point, as in part.point, or the part of a quadrant"

// isPlainName reports whether an expression names something without a dot.
func isPlainName(e hclsyntax.Expression) bool { return isName(e) && !hasDot(e) }

// pointOrPart says what an end of a cable is.
func pointOrPart(e hclsyntax.Expression) string {
	if hasDot(e) {
		return "a point"
	}
	return "a whole part"
}

// refuse tells of attributes that a cable has no use for, and why.
func (b *block) refuse(why string, names ...string) {
	for _, name := range names {
		if b.get(name) != nil {
			b.r.faults.Add(spanOf(b.Body.Attributes[name].NameRange), "%s: leave %s out", why, name)
		}
	}
}

// readConduit reads where the core of a cable and its conduit are held.
func (r *reader) readConduit(b *cableBlock, from, to hclsyntax.Expression) {
	c := b.cable
	b.refuse("quadrants are of open cables, which go from part to part, and this one goes from point to point in a conduit", "radius", "winds")
	b.refuse("a conduit gives as well as what is in it, so stiffness is told of both together", "run", "wire")
	c.From, c.To = r.cableRef(from), r.cableRef(to)
	if e := b.need("conduit", "conduit = [mast.up, frame.aft], where it is held at the from end and at the to end (an open cable goes from part to part, its quadrants)"); e != nil {
		if entries, ok := r.list(e, 2, "[mast.up, frame.aft]"); ok {
			first, second := r.cableRef(entries[0]), r.cableRef(entries[1])
			if first != nil && second != nil {
				c.Conduit = &[2]PointRef{*first, *second}
			}
		}
	}
	r.readCore(b)
}

// cableRef returns the point of a part that an expression refers to; nil where
// there is none.
func (r *reader) cableRef(e hclsyntax.Expression) *PointRef {
	if e == nil {
		return nil // told already
	}
	ref, ok := r.pointRef(e)
	if ok && ref.Rod != nil {
		r.faults.Add(ref.Span, "%s is on a rod, which a cable would turn about its ends: a cable and its conduit are held on parts or on what is fixed", shortName(ref.String()))
		ok = false
	}
	if !ok {
		return nil
	}
	return &ref
}

// readCore reads how much core is outside the conduit.
func (r *reader) readCore(b *cableBlock) {
	c := b.cable
	if c.Pair != nil {
		b.refuse("how much core is outside follows from the pretension of "+c.Pair.label(), "core")
		r.refuseSetting(c.Name+".core", "how much core of %s is outside follows from the pretension of %s: set %s.pretension", shortName(c.Name), c.Pair.label(), c.Pair.Name)
		return
	}
	dimension := c.Name + ".core"
	core, ok := b.number("core", 0)
	set := r.setNumber(dimension, &core)
	c.Core, c.CoreGiven = core, set || b.get("core") != nil
	if ok && c.CoreGiven && core <= 0 {
		r.tellAt(dimension, c.CoreSpan, "the core outside the conduit is more than 0, hole to hole at both ends together")
	}
}

// label says which pair it is, in a fault.
func (p *Pair) label() string {
	if p.Name == "" {
		return "a pair"
	}
	return "the pair " + shortName(p.Name)
}

// readOpen reads what an open cable is wound on.
func (r *reader) readOpen(b *cableBlock, from, to hclsyntax.Expression) {
	c := b.cable
	b.refuse("an open cable, which goes from part to part, has no conduit", "conduit", "core")
	b.refuse("only what is in a conduit can push", "pushes")
	r.refuseSetting(c.Name+".core", "%s is an open cable, which has no core", shortName(c.Name))
	first, second := r.quadrantRef(from), r.quadrantRef(to)
	switch {
	case first == nil || second == nil:
	case first == second:
		r.faults.Add(spanOf(to.Range()), "both ends of the cable are on %s, so it moves nothing", shortName(first.Name))
	default:
		c.Quadrants = &[2]*Part{first, second}
	}
	if e := b.need("radius", "radius = [60, 55] (of the two quadrants)"); e != nil {
		if entries, ok := r.list(e, 2, "[60, 55]"); ok {
			for i, entry := range entries {
				radius, ok := r.number(entry)
				if ok && radius <= 0 {
					r.faults.Add(spanOf(entry.Range()), "a radius is more than 0")
				}
				c.Radius[i] = radius
			}
		}
	}
	if e := b.need("winds", `winds = ["up", "down"] (whether a positive turn of each quadrant takes the cable up)`); e != nil {
		if entries, ok := r.list(e, 2, `["up", "down"]`); ok {
			for i, entry := range entries {
				winds, ok := r.choice(entry, "up", "down")
				switch {
				case ok && winds == "up":
					c.Winds[i] = 1
				case ok:
					c.Winds[i] = -1
				}
			}
		}
	}
}

// quadrantRef returns the part that a cable is wound on, which must turn on the
// airframe; nil where there is none.
func (r *reader) quadrantRef(e hclsyntax.Expression) *Part {
	if e == nil {
		return nil // told already
	}
	part, ok := r.movingRef(e)
	if !ok {
		return nil
	}
	const otherwise = "a quadrant turns on the airframe, or its cable would leave it differently as it goes"
	at := spanOf(e.Range())
	switch {
	case part.Motion == Slides:
		r.faults.Add(at, "%s slides: %s", shortName(part.Name), otherwise)
	case part.Motion != Turns && !r.bad[part]:
		r.faults.Add(at, "%s %s: %s", shortName(part.Name), part.freely(), otherwise)
	case part.Motion != Turns:
		r.silent++ // its pivot may be what is wrong
	case part.Carrier != nil:
		r.faults.Add(at, "%s is carried by %s: %s", shortName(part.Name), shortName(part.Carrier.Part.Name), otherwise)
	default:
		return part
	}
	return nil
}

// readPull reads which way a cable acts, and how much it gives.
func (r *reader) readPull(b *cableBlock, open bool) {
	c := b.cable
	known := true
	if e := b.get("pushes"); e != nil && !open {
		c.Pushes, known = r.truth(e)
	}
	if e := b.get("spring"); e != nil {
		c.Spring, _ = r.choice(e, "plus", "minus")
	}
	switch {
	case c.Pair != nil:
		b.refuse("the cables of a pair keep each other taut", "spring")
		if c.Pushes {
			b.refuse("the cables of a pair pull against each other, and one that pushes needs no other", "pushes")
		}
	case c.Pushes:
		b.refuse("a cable that pushes needs no spring to bring it back", "spring")
	case known && b.get("spring") == nil && !r.pairless && len(r.ghosts) == 0:
		instead := ", a second cable in a pair, or pushes = true"
		if open {
			instead = ", or a second cable in a pair"
		}
		r.faults.Add(c.Span, `%s acts alone, and a single cable pulls one way: give it spring = "plus" or "minus"%s`, b, instead)
	}
}

// readStiffness reads how much a cable gives, or what that follows from.
func (r *reader) readStiffness(b *cableBlock, open bool) {
	c := b.cable
	if length := b.moreThanNothing("run"); length != nil && open {
		c.Length = *length
	}
	if e := b.get("wire"); e != nil && open {
		if name, ok := r.text(e); ok {
			wire, err := ParseWire(name)
			if err != nil {
				r.faults.Add(spanOf(e.Range()), "%v", err)
			}
			c.Wire = wire
		}
		b.need("run", "run = 3150 (its free length, from which its stiffness follows)")
		b.refuse("the stiffness follows from the wire and its run", "stiffness")
		if c.Wire != nil && c.Length > 0 {
			c.Stiffness = c.Wire.Stiffness(c.Length, r.run.Units)
		}
		if c.Stiffness > MaxSize {
			r.faults.Add(b.at("run"), "run is the free length of the cable, and this is too short to be one")
		}
		r.refuseSetting(c.Name+".stiffness", "the stiffness of %s follows from its wire and its run", shortName(c.Name))
		return
	}
	dimension := c.Name + ".stiffness"
	stiffness, ok := b.number("stiffness", 0)
	set := r.setNumber(dimension, &stiffness)
	given := set || b.get("stiffness") != nil
	switch {
	case ok && given && stiffness <= 0:
		r.tellAt(dimension, b.at("stiffness"), "stiffness is more than 0")
	case !given && c.Pair != nil:
		b.need("stiffness", r.stiffnessExample(open)+", since a pair holds its part by what its cables give")
	}
	c.Stiffness = stiffness
}

// stiffnessExample shows how a cable tells what it gives.
func (r *reader) stiffnessExample(open bool) string {
	example := "stiffness = 38 (N per mm"
	if r.run.Units == Inches {
		example = "stiffness = 220 (lbf per in"
	}
	if open {
		return example + "), or " + wireExample + " and run = 3150 (its free length)"
	}
	return example + ", core and sheath together)"
}

// readCableEnds reads a cable's adjusters.
func (r *reader) readCableEnds(b *cableBlock, open bool) {
	given := map[string]*block{}
	for _, inner := range b.Body.Blocks {
		if inner.Type != "end" {
			continue
		}
		eb := r.newBlockOf(inner, blockKinds[cableEndKind])
		if open {
			r.faults.Add(eb.span(), "an open cable has no conduit for an adjuster to be on: what it is drawn up to is told by its pair")
			continue
		}
		r.checkSide(eb, given, cableSides, "a cable's adjusters are told by the end of the conduit", "cable "+shortName(b.cable.Name))
		end := &CableEnd{Cable: b.cable, Side: eb.name, Span: eb.span()}
		b.cable.Ends = append(b.cable.Ends, end)
		b.ends = append(b.ends, cableEndBlock{eb, end})
		r.readCableEnd(eb, end)
		eb.tellMissing()
	}
}

// readCableEnd reads an adjuster. Its nuts can be set to any part of a turn where
// the file doesn't say.
func (r *reader) readCableEnd(b *block, end *CableEnd) {
	end.Thread, _ = r.readThread(b, `thread = "M6x1"`)
	end.Left = r.readHand(b)
	if step := b.atLeast("step", 0); step != nil {
		end.Step = *step
	}
	end.Most = b.moreThanNothing("most")
	end.Least = float64(leastDiameters * end.Thread.Diameter)
	end.LeastGiven = b.get("least") != nil
	if least := b.moreThanNothing("least"); least != nil {
		end.Least = *least
		if end.Most != nil && *least > *end.Most {
			r.faults.Add(b.at("least"), "least is more than most: so much thread can't be in")
		}
	}
	b.need("engaged", "engaged = 14 (the thread in its nuts or bracket)")
	if engaged := b.moreThanNothing("engaged"); engaged != nil {
		end.Engaged = *engaged
	}
}
