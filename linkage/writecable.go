package linkage

// rewriteCables changes the numbers of cables and of pairs, once places are
// changed.
func (w *rewriter) rewriteCables() {
	for _, b := range w.r.cables {
		w.rewriteCable(b)
	}
	for i, b := range w.r.pairs {
		p := w.r.run.Pairs[i]
		w.figure(b, "pretension", p.Name+".pretension", &p.Pretension)
	}
}

// rewriteCable changes the core of a cable, what the cable gives, and the thread
// in its adjusters.
func (w *rewriter) rewriteCable(b *cableBlock) {
	c := b.cable
	c.measure()
	if c.hasCore() {
		w.length(b.block, "core", c.Name+".core", &c.Core, &c.CoreGiven, "from", "to", "conduit")
	}
	w.figure(b.block, "stiffness", c.Name+".stiffness", &c.Stiffness)
	for _, eb := range b.ends {
		w.figure(eb.block, "engaged", eb.end.String()+".engaged", &eb.end.Engaged)
	}
}
