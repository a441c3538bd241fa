// Layer: gradient.

package solve

import "fullfree/linkage"

// Pushing adds what pulls at a place or turns a body, as a force or a moment does,
// to the derivatives by all that puts it where it is.

func (l *linear) pushFree(f int, by float64) {
	if by != 0 {
		l.free = append(l.free, entry{f, by})
	}
}

func (l *linear) pushSlot(slot int, by float64) {
	if by != 0 {
		l.drawn = append(l.drawn, entry{slot, by})
	}
}

// pushDrawn adds to the three coordinates from a slot on; -1: nothing has them.
func (l *linear) pushDrawn(slot int, by vec) {
	if slot < 0 {
		return
	}
	l.pushSlot(slot, by.X)
	l.pushSlot(slot+1, by.Y)
	l.pushSlot(slot+2, by.Z)
}

// push pulls with f at a place whose drawn coordinates stand from slot on.
func (l *linear) push(e end, slot int, f vec) {
	frames := l.st.frames
	l.pushDrawn(slot, frames[e.body].turn.unapply(f))
	if e.body == airframe {
		return
	}
	p := frames[e.body].apply(e.at)
	for b := e.body; b != airframe; b = l.m.bodies[b].carrier {
		body := &l.m.bodies[b]
		switch body.kind {
		case tilting:
			l.pushOnBall(b, p, f)
		case shifting: // on the airframe
			l.pushFree(body.first, f.X)
			l.pushFree(body.first+1, f.Y)
			l.pushFree(body.first+2, f.Z)
		case turning:
			carrier := &frames[body.carrier].turn
			arm := p.Sub(frames[b].apply(body.pivot))
			l.pushDrawn(l.slots.joints.pivot(body.part), carrier.unapply(f))
			if body.carrier == airframe {
				l.pushFree(body.first, body.axis.Dot(arm.Cross(f)))
				l.pushDrawn(l.slots.pivots[body.part.Index], f.Sub(frames[b].turn.unapply(f)))
				continue
			}
			l.pushFree(body.first, carrier.apply(body.axis).Dot(arm.Cross(f)))
			l.pushDrawn(l.slots.pivots[body.part.Index], carrier.unapply(f).Sub(frames[b].turn.unapply(f)))
		case sliding:
			if body.part.Motion == linkage.Slides { // a sleeve has one joint, that in which it turns
				l.pushDrawn(l.slots.joints.pivot(body.part), frames[body.carrier].turn.unapply(f))
			}
			l.pushFree(body.first, frames[body.carrier].turn.apply(body.slide).Dot(f))
		case floating:
			l.pushFree(body.first, f.X)
			l.pushFree(body.first+1, f.Y)
			l.pushFree(body.first+2, p.Sub(frames[b].apply(body.pivot)).Cross(f).Z)
			l.pushMean(body.part, f.Sub(frames[b].turn.unapply(f)))
		case followsRod:
			l.pushOnRod(b, p, f)
			return
		}
	}
}

// pushMean pulls at where a part turns that rods and joints alone hold: the mean of its points.
func (l *linear) pushMean(p *linkage.Part, f vec) {
	share := f.Scale(1 / float64(max(1, len(p.Points))))
	for i := range p.Points {
		l.pushDrawn(l.slots.points[p.Index]+3*i, share)
	}
}

// pushOnBall pulls with f at a place now at p that a body on a ball carries, itself or by
// others.
func (l *linear) pushOnBall(b int, p, f vec) {
	body := &l.m.bodies[b]
	frames := l.st.frames
	carrier := &frames[body.carrier].turn
	l.pushSpin(b, p.Sub(frames[b].apply(body.pivot)).Cross(f))
	own := carrier.unapply(f).Sub(frames[b].turn.unapply(f))
	if isLoose(body.part) {
		l.pushMean(body.part, own)
		return
	}
	l.pushDrawn(l.slots.joints.pivot(body.part), carrier.unapply(f))
	l.pushDrawn(l.slots.pivots[body.part.Index], own)
}

// pushSpin turns a body on a ball with a moment.
func (l *linear) pushSpin(b int, moment vec) {
	body := &l.m.bodies[b]
	at := orientation(l.st.q[body.first:])
	moment = l.st.frames[body.carrier].turn.unapply(moment)
	for i := range orientParts {
		l.pushFree(body.first+i, at.spin(orientParts[i]).Dot(moment))
	}
}

// pushOnRod pulls at a place now at p on a rod: it goes with the rod's from end and
// turns with the rod.
func (l *linear) pushOnRod(b int, p, f vec) {
	constraint := &l.m.constraints[l.m.bodies[b].constraint]
	from := l.slots.of(constraint.rod.From)
	l.pushRodEnd(constraint, 0, f)
	l.pushDrawn(from, l.st.frames[b].turn.unapply(f).Scale(-1))
	l.twist(constraint, p.Sub(l.st.place(constraint.from)).Cross(f).Z)
}

// twist turns a rod in the plane of the drawing with a moment.
func (l *linear) twist(constraint *constraint, moment float64) {
	from, to := l.slots.of(constraint.rod.From), l.slots.of(constraint.rod.To)
	now := turning90(l.st.place(constraint.to).Sub(l.st.place(constraint.from))).Scale(moment)
	drawn := turning90(constraint.to.at.Sub(constraint.from.at)).Scale(moment)
	l.pushRodEnd(constraint, 1, now)
	l.pushRodEnd(constraint, 0, now.Scale(-1))
	l.pushDrawn(to, drawn.Scale(-1))
	l.pushDrawn(from, drawn)
}

// turning90 is the derivative of a vector's direction in the plane of the drawing by
// the vector.
func turning90(w vec) vec {
	n2 := float64(w.X*w.X) + float64(w.Y*w.Y)
	if n2 == 0 {
		return vec{}
	}
	return vec{X: -w.Y / n2, Y: w.X / n2}
}

// pushMoment turns a body with a moment.
func (l *linear) pushMoment(b int, moment vec) {
	for ; b != airframe; b = l.m.bodies[b].carrier {
		body := &l.m.bodies[b]
		switch body.kind {
		case turning:
			l.pushFree(body.first, l.st.frames[body.carrier].turn.apply(body.axis).Dot(moment))
		case tilting:
			l.pushSpin(b, moment)
		case floating:
			l.pushFree(body.first+2, moment.Z)
		case followsRod:
			l.twist(&l.m.constraints[body.constraint], moment.Z)
			return
		}
	}
}

// pushConstraint adds the derivatives of a constraint's equation, or of a slack pair of
// how far its part stands from the middle of where it floats.
func (l *linear) pushConstraint(k int) {
	constraint := &l.m.constraints[k]
	switch {
	case constraint.pair == nil:
		l.pushOff(k, 1)
	case l.st.hung[constraint.pull].slack:
		l.pushMiddle(constraint)
	default:
		l.pushBalance(constraint, 1/l.m.pulls[constraint.pull].scale)
	}
}

// pushOff adds the derivatives of by how much a rod, or a cable that acts alone, is
// longer than set.
func (l *linear) pushOff(k int, c float64) {
	constraint := &l.m.constraints[k]
	if constraint.cablePaths != nil {
		l.pushStretch(&constraint.cablePaths[0], c)
		return
	}
	if constraint.rod == nil {
		l.pushLength(k, c)
		return
	}
	rod := constraint.rod
	l.pushLength(k, c)
	l.pushSlot(l.slots.lengths[rod.Index], -c)
	if !rod.LengthGiven {
		l.pushApart(constraint.from, constraint.to, l.slots.of(rod.From), l.slots.of(rod.To), -c)
	}
}

// pushLength adds the derivatives of the length of a rod, or of a cable that acts
// alone.
func (l *linear) pushLength(k int, c float64) {
	constraint := &l.m.constraints[k]
	if constraint.cablePaths != nil {
		l.pushPath(&constraint.cablePaths[0], c)
		return
	}
	switch {
	case constraint.keep != nil:
		l.pushKeep(constraint.keep, c)
		return
	case constraint.pin != nil: // its points are at one place, so that its direction turns nothing
		l.pushPin(constraint, l.st.pinWay(constraint.pin).Scale(c))
		return
	}
	u := l.st.place(constraint.from).Sub(l.st.place(constraint.to)).Unit().Scale(c)
	l.pushRodEnd(constraint, 0, u)
	l.pushRodEnd(constraint, 1, u.Scale(-1))
}

// pushPin parts the points of a joint with f.
func (l *linear) pushPin(constraint *constraint, f vec) {
	of := &constraint.pin.joint.Of
	l.push(constraint.from, l.slots.of(of[0]), f)
	l.push(constraint.to, l.slots.of(of[1]), f.Scale(-1))
	l.pushDrawn(l.slots.joints.pin(constraint.pin.joint), f)
}

// pushKeep adds the derivatives of what a part keeps by itself.
func (l *linear) pushKeep(k *keep, c float64) {
	for _, f := range l.m.dependsOfKeep(k) {
		l.pushFree(f, float64(c*l.m.keepSlope(&l.st, k, f)))
	}
}

// pushRodEnd pulls with f at a rod's from end (0) or its to end (1), through the joint
// there.
func (l *linear) pushRodEnd(constraint *constraint, which int, f vec) {
	e, ref := constraint.from, constraint.rod.From
	if which == 1 {
		e, ref = constraint.to, constraint.rod.To
	}
	l.push(e, l.slots.of(ref), f)
	l.pushDrawn(l.slots.joints.rodEnd(constraint.rod, which), f)
}

// pushApart adds the derivatives of the distance of two places as drawn.
func (l *linear) pushApart(a, b end, slotA, slotB int, c float64) {
	w := a.at.Sub(b.at)
	n := w.Norm()
	if n == 0 {
		return
	}
	l.pushDrawn(slotA, w.Scale(c/n))
	l.pushDrawn(slotB, w.Scale(-c/n))
}

// legSlots are the slots of the places of a conduit cable's leg.
func (l *linear) legSlots(c *linkage.Cable, leg int) (core, mouth int) {
	refs := c.Legs()[leg]
	return l.slots.of(refs[0]), l.slots.of(refs[1])
}

// pushPath adds the derivatives of a cable path's length.
func (l *linear) pushPath(k *cablePath, c float64) {
	for i := range k.legs {
		g := &k.legs[i]
		w := l.st.place(g.core).Sub(l.st.place(g.mouth))
		n := w.Norm()
		if n == 0 {
			continue
		}
		core, mouth := l.legSlots(k.cable, i)
		l.push(g.core, core, w.Scale(c/n))
		l.pushDrawn(l.slots.joints.cableEnd(k.cable, i), w.Scale(c/n))
		l.push(g.mouth, mouth, w.Scale(-c/n))
	}
	for i, d := range k.drums {
		l.pushFree(d.freedom, float64(c*d.takes))
		if k.cable == nil {
			continue // a joint is no number of the drawing
		}
		l.pushSlot(l.slots.radii+2*k.cable.Index+i, float64(c*k.cable.Winds[i]*l.st.q[d.freedom]))
	}
}

// pushStretch adds the derivatives of how much longer a cable path is than unloaded.
func (l *linear) pushStretch(k *cablePath, c float64) {
	l.pushPath(k, c)
	cable := k.cable
	if cable == nil {
		return
	}
	l.pushSlot(l.slots.taken+cable.Index, c)
	if core := l.slots.cores[cable.Index]; core >= 0 {
		l.pushSlot(core, -c)
	}
	if cable.Pair == nil && cable.CoreGiven {
		return
	}
	for i := range k.legs {
		g := &k.legs[i]
		core, mouth := l.legSlots(cable, i)
		l.pushApart(g.core, g.mouth, core, mouth, -c)
	}
	if p := cable.Pair; p != nil {
		l.pushSlot(l.slots.tensions+p.Index, c/k.stiffness)
		l.pushSlot(l.slots.stiffness+cable.Index, -c*p.Pretension/(k.stiffness*k.stiffness))
	}
}

// pushTension adds the derivatives of a cable path's tension.
func (l *linear) pushTension(k *cablePath, c float64) {
	l.pushStretch(k, float64(c*k.stiffness))
	l.pushSlot(l.slots.stiffness+k.cable.Index, float64(c*(l.st.pathOf(k)-k.free)))
}

// pushBalance adds the derivatives of F (see pull.go).
func (l *linear) pushBalance(constraint *constraint, c float64) {
	f := l.m.pulls[constraint.pull].freedom
	for i, now := range l.m.swings(&l.st, constraint) {
		k := &constraint.cablePaths[i]
		l.pushTension(k, float64(c*now.p1))
		l.pushSwing(k, f, float64(c*now.tension))
	}
}

// pushSwing adds the derivatives of p', the rate of a cable path's length by a freedom
// whose part is on the airframe.
func (l *linear) pushSwing(k *cablePath, f int, c float64) {
	m := l.m
	owner := m.freedoms[f].body
	for i := range k.legs {
		g := &k.legs[i]
		w := l.st.place(g.core).Sub(l.st.place(g.mouth))
		n := w.Norm()
		if n == 0 {
			continue
		}
		a := m.partial(&l.st, g.core, f).Sub(m.partial(&l.st, g.mouth, f))
		u := w.Scale(1 / n)
		across := perpendicular(a, u).Scale(c / n)
		core, mouth := l.legSlots(k.cable, i)
		l.push(g.core, core, across)
		l.push(g.mouth, mouth, across.Scale(-1))
		if m.freedoms[f].kind != turn {
			continue
		}
		// The rate of a place that turns with the part is k x (place - pivot).
		turned := u.Cross(m.bodies[owner].axis).Scale(c)
		add := func(e end, slot int, f vec) {
			if m.carriedBy(e.body, owner) {
				l.push(e, slot, f)
				l.pushDrawn(l.slots.pivots[m.bodies[owner].part.Index], f.Scale(-1))
			}
		}
		add(g.core, core, turned)
		add(g.mouth, mouth, turned.Scale(-1))
	}
	for i, d := range k.drums {
		if d.freedom == f {
			l.pushSlot(l.slots.radii+2*k.cable.Index+i, float64(c*k.cable.Winds[i]))
		}
	}
}

// pushMiddle adds the derivatives of how far the part of a slack pair stands from
// the middle between where its cables come taut.
func (l *linear) pushMiddle(constraint *constraint) {
	for i := range constraint.cablePaths {
		l.pushTaut(constraint, i, -0.5)
	}
	l.pushFree(l.m.pulls[constraint.pull].freedom, 1)
}

// pushTaut adds the derivatives of where the part of a slack pair stands as one of
// its cables comes taut.
func (l *linear) pushTaut(constraint *constraint, i int, c float64) {
	m := l.m
	pull := &m.pulls[constraint.pull]
	s, f, k := &m.steps[pull.step], pull.freedom, &constraint.cablePaths[i]
	stands := l.st.q[f]
	m.balanceRates(&l.st, s, l.st.hung[constraint.pull].taut[i])
	slope, _ := m.pathPartial(&l.st, k, f)
	from := len(l.free)
	l.pushStretch(k, -c/slope)
	kept := l.free[:from]
	for _, e := range l.free[from:] {
		if e.at != f { // its own freedom is what comes taut there
			kept = append(kept, e)
		}
	}
	l.free = kept
	m.balanceRates(&l.st, s, stands)
}
