// Layer: sweep.

package solve

import (
	"slices"

	"fullfree/linkage"
)

// onlyOne picks out what is of one member.
type onlyOne struct {
	run    *linkage.Run
	member *linkage.Member
	// controls are the aircraft's controls that move something of the member, as they stand
	// in the member's run.
	controls map[*linkage.Control]*linkage.Control
	shown    []*Sweep // of the aircraft, by the member's sweeps
}

// controlOf is a control of the aircraft in the member's run; nil where it moves nothing
// of that.
func (o *onlyOne) controlOf(c *linkage.Control) *linkage.Control { return o.controls[c] }

// held is where the controls stand that move something of the member.
func (o *onlyOne) held(w *Sweep) (list []Held) {
	for _, h := range w.Held {
		if c := o.controls[h.Control]; c != nil {
			list = append(list, Held{c, h.At})
		}
	}
	return list
}

// shownBy is the number of the member's sweep that tells of the member what this one does:
// the same control, with the same settings of those that move something of it, to the same
// ends; that of a new one where there is none.
func (o *onlyOne) shownBy(w *Sweep) int {
	for i, other := range o.shown {
		ends := func(a, b End) bool { return a.At == b.At && a.Cause == b.Cause && a.Stop == b.Stop && a.Part == b.Part }
		if other.Control == w.Control && slices.Equal(o.held(other), o.held(w)) && other.Explored == w.Explored && ends(other.Ends[0], w.Ends[0]) && ends(other.Ends[1], w.Ends[1]) {
			return i
		}
	}
	return len(o.shown)
}

// tellApart adds to sweeps of the member that move it alike, but end differently, where the
// other controls of the aircraft stand that make the difference.
func (o *onlyOne) tellApart(sweeps []*Sweep) {
	for i, w := range o.shown {
		alike := func(other *Sweep) bool {
			return other != w && other.Control == w.Control && slices.Equal(o.held(other), o.held(w))
		}
		if !slices.ContainsFunc(o.shown, alike) {
			continue
		}
		sweeps[i].Held = nil
		for _, h := range w.Settings() {
			if c := o.controls[h.Control]; c != nil {
				h.Control = c
			}
			sweeps[i].Held = append(sweeps[i].Held, h)
		}
	}
}

// sweep is what a sweep tells of the member.
func (o *onlyOne) sweep(w *Sweep, index int) *Sweep {
	only := *w
	only.Index, only.Control, only.only, only.whole = index, o.controls[w.Control], o, w
	only.Held = o.held(w)
	only.Stops, only.Parts, only.Outputs, only.Rods, only.Cables, only.Critical, only.FreePlay = nil, nil, nil, nil, nil, nil, nil
	for _, s := range w.Stops {
		if s.Stop.In == o.member {
			s.Stop = o.run.Stop(s.Stop)
			only.Stops = append(only.Stops, s)
		}
	}
	for _, p := range w.Parts {
		if p.Part.In == o.member {
			p.Part = o.run.Part(p.Part)
			only.Parts = append(only.Parts, p)
		}
	}
	for _, t := range w.Outputs {
		if t.Output.In == o.member {
			t.Output = o.run.Output(t.Output)
			only.Outputs = append(only.Outputs, t)
		}
	}
	for _, t := range w.Rods {
		if t.Rod.In == o.member {
			t.Rod = o.run.Rod(t.Rod)
			only.Rods = append(only.Rods, t)
		}
	}
	for _, t := range w.Cables {
		if t.Cable.In == o.member {
			t.Cable = o.run.Cable(t.Cable)
			only.Cables = append(only.Cables, t)
		}
	}
	for _, f := range w.FreePlay {
		if f.Of.In() == o.member {
			only.FreePlay = append(only.FreePlay, o.freePlay(f))
		}
	}
	for _, c := range w.Critical {
		only.Critical = append(only.Critical, o.critical(c))
	}
	if l := w.LostMotion; l != nil && l.Part.In != o.member {
		only.LostMotion = nil
	}
	for i := range only.Ends {
		only.Ends[i] = o.end(w.Ends[i])
	}
	return &only
}

// freePlay is how far something can be rocked, with what is of the member's run; the joints
// of other runs that have a share in it stay theirs.
func (o *onlyOne) freePlay(f FreePlay) FreePlay {
	if own, ok := o.run.Subject(f.Of); ok {
		f.Of = own
	}
	f.HeldBy = ownElse(o.run.Output(f.HeldBy), f.HeldBy)
	f.Joints = slices.Clone(f.Joints)
	for i := range f.Joints {
		j := &f.Joints[i]
		j.Part = ownElse(o.run.Part(j.Part), j.Part)
		j.Rod = ownElse(o.run.Rod(j.Rod), j.Rod)
		j.Cable = ownElse(o.run.Cable(j.Cable), j.Cable)
	}
	return f
}

// critical is an on-center point with what is of the member's run.
func (o *onlyOne) critical(c Critical) Critical {
	c.Part = ownElse(o.run.Part(c.Part), c.Part)
	c.Output = ownElse(o.run.Output(c.Output), c.Output)
	c.Rod = ownElse(o.run.Rod(c.Rod), c.Rod)
	c.Cable = ownElse(o.run.Cable(c.Cable), c.Cable)
	c.Joint = ownElse(o.run.Joint(c.Joint), c.Joint)
	c.InLine = ownElse(o.run.Cable(c.InLine), c.InLine)
	return c
}

// end is an end with what is of the member's run.
func (o *onlyOne) end(e End) End {
	e.Stop = ownElse(o.run.Stop(e.Stop), e.Stop)
	e.Part = ownElse(o.run.Part(e.Part), e.Part)
	e.Slack = ownElse(o.run.Cable(e.Slack), e.Slack)
	if e.Past != nil {
		past := o.end(*e.Past)
		e.Past = &past
	}
	return e
}

// bodies are those of the member.
func (o *onlyOne) bodies(list []Body) (own []Body) {
	for _, b := range list {
		if (linkage.PointRef{Part: b.Part, Rod: b.Rod}).In() == o.member {
			own = append(own, Body{Part: o.run.Part(b.Part), Rod: o.run.Rod(b.Rod)})
		}
	}
	return own
}

// series are those of the member.
func (o *onlyOne) series(list []Series) (own []Series) {
	for _, k := range list {
		k.Part, k.Output, k.Rod, k.Cable, k.Pair, k.Stop = o.run.Part(k.Part), o.run.Output(k.Output), o.run.Rod(k.Rod), o.run.Cable(k.Cable), o.run.Pair(k.Pair), o.run.Stop(k.Stop)
		if q := k.Requirement; q != nil && q.In != o.member {
			continue
		}
		k.Requirement = o.run.Requirement(k.Requirement)
		if k.Part == nil && k.Output == nil && k.Rod == nil && k.Cable == nil && k.Pair == nil && k.Stop == nil && k.Requirement == nil {
			continue
		}
		own = append(own, k)
	}
	return own
}

// Settings are where those of the other controls stand that can matter to the swept one: in
// an aircraft those that move something of a run that it moves too, elsewhere all.
func (w *Sweep) Settings() (list []Held) {
	switch {
	case w == nil:
		return nil
	case !w.solved() || w.of.m.run.Aircraft == nil:
		return w.Held
	}
	for _, h := range w.Held {
		if m := w.of.m; m.related(m.run.Control(w.Control), m.run.Control(h.Control)) {
			list = append(list, h)
		}
	}
	return list
}

// EveryStop lists where every stop bites or would bite, of a sweep that tells of one run of
// an aircraft those of the other runs too: what would end the hand's travel next may be
// one of these.
func (w *Sweep) EveryStop() []StopBite {
	switch {
	case w == nil:
		return nil
	case w.whole != nil:
		return w.whole.Stops
	}
	return w.Stops
}

// ownElse is what stands for something in the member's run, else itself: what is of another
// run stays that run's.
func ownElse[T any](own, was *T) *T {
	if own != nil {
		return own
	}
	return was
}
