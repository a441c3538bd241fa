package linkage

// readPairs reads which cables are drawn up against each other, and to what. The
// cables were declared before and are read afterwards.
func (r *reader) readPairs() {
	for i, b := range r.pairs {
		p := r.run.Pairs[i]
		r.sound(p, func() {
			r.readCablesOf(b, p)
			r.readPretension(b, p)
			b.tellMissing()
		})
	}
}

// readCablesOf reads the two cables of a pair.
func (r *reader) readCablesOf(b *block, p *Pair) {
	const example = "[lift-up, lift-down]"
	e := b.need("cables", "cables = "+example)
	if e == nil {
		r.pairless = true
		return
	}
	entries, ok := r.list(e, 2, example)
	if !ok {
		r.pairless = true
		return
	}
	for i, entry := range entries {
		thing, _ := r.thing(entry, "cable", is[*Cable])
		c, ok := thing.(*Cable)
		switch {
		case !ok:
			r.pairless = true
		case i == 1 && c == p.Cables[0]:
			r.faults.Add(spanOf(entry.Range()), "both are %s: a pair is of two different cables", shortName(c.Name))
		case c.Pair != nil:
			r.faults.Add(spanOf(entry.Range()), "%s is in %s already, %s: a cable is in one pair", shortName(c.Name), c.Pair.label(), r.src.seen(c.Pair.Span))
		default:
			c.Pair, p.Cables[i] = p, c
		}
	}
}

// readPretension reads what the cables of a pair are drawn up to.
func (r *reader) readPretension(b *block, p *Pair) {
	example := "pretension = 120"
	if r.run.Units == Inches {
		example = "pretension = 30"
	}
	pretension, ok := 0.0, false
	if e := b.need("pretension", example+" ("+string(r.run.Units.ForceUnit())+" in each cable, with the part that they hold as drawn)"); e != nil {
		pretension, ok = r.number(e)
	}
	dimension := p.Name + ".pretension"
	ok = r.setNumber(dimension, &pretension) || ok
	p.Pretension = pretension
	if ok && pretension <= 0 {
		r.tellAt(dimension, b.at("pretension"), "pretension is more than 0: cables that are not drawn up against each other hold nothing")
	}
}
