package linkage

// rewriteCables changes the numbers of cables and of pairs, once places are
// changed.
func (w *rewriter) rewriteCables() {
	for _, b := range w.r.cables {
		w.rewriteCable(b)
	}
	for i, b := range w.r.pairs {
		p := w.r.run.Pairs[i]
		if pretension, ok := w.wanted(p.Name + ".pretension"); ok {
			p.Pretension = w.number(b.get("pretension"), pretension)
		}
	}
}

// rewriteCable changes the core of a cable, what the cable gives, and the thread
// in its adjusters.
func (w *rewriter) rewriteCable(b *cableBlock) {
	c := b.cable
	c.measure()
	w.rewriteCore(b)
	if e := b.get("stiffness"); e != nil {
		if stiffness, ok := w.wanted(c.Name + ".stiffness"); ok {
			c.Stiffness = w.number(e, stiffness)
		}
	}
	for _, eb := range b.ends {
		if engaged, ok := w.wanted(eb.end.String() + ".engaged"); ok {
			eb.end.Engaged = w.number(eb.get("engaged"), engaged)
		}
	}
}

// rewriteCore changes how much core is outside a conduit, or says it.
func (w *rewriter) rewriteCore(b *cableBlock) {
	c := b.cable
	if !c.hasCore() {
		return
	}
	core, ok := w.wanted(c.Name + ".core")
	if !ok {
		return
	}
	if e := b.get("core"); e != nil {
		c.Core = w.number(e, core)
	} else if !same(core, c.Core) {
		c.Core, c.CoreGiven = w.addLength(b.block, "core", core, "from", "to", "conduit"), true
	}
}
