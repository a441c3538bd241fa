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
	only.Stops, only.Parts, only.Outputs, only.Rods, only.Cables, only.Critical = nil, nil, nil, nil, nil, nil
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
	for _, c := range w.Critical {
		in := (*linkage.Member)(nil)
		if c.Output != nil {
			in = c.Output.In
		} else {
			in = c.Part.In
		}
		if in != o.member && c.Kind == DeadCenter {
			continue
		}
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

// critical is an on-center point with what is of the member's run.
func (o *onlyOne) critical(c Critical) Critical {
	if p := o.run.Part(c.Part); p != nil {
		c.Part = p
	}
	if p := o.run.Output(c.Output); p != nil {
		c.Output = p
	}
	if p := o.run.Rod(c.Rod); p != nil {
		c.Rod = p
	}
	if p := o.run.Cable(c.Cable); p != nil {
		c.Cable = p
	}
	if p := o.run.Cable(c.InLine); p != nil {
		c.InLine = p
	}
	return c
}

// end is an end with what is of the member's run.
func (o *onlyOne) end(e End) End {
	if s := o.run.Stop(e.Stop); s != nil {
		e.Stop = s
	}
	if p := o.run.Part(e.Part); p != nil {
		e.Part = p
	}
	if c := o.run.Cable(e.Slack); c != nil {
		e.Slack = c
	}
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
