// Layer: questions.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
)

// alone lists the cables that are left of pairs: nothing keeps them taut.
func alone(run *linkage.Run) (list []*linkage.Cable) {
	for _, k := range run.Cables {
		if k.Pair == nil && !k.Pushes && k.Spring == "" {
			list = append(list, k)
		}
	}
	return list
}

// oneWay fills in what a cable that is left of a pair still does: it pulls the
// part that the pair held to one side, as far as the cable, unloaded, draws it;
// to the other side the part stays where it is, with nothing to bring it. So the
// one side of the travel is that of a run in which the cable is as good as a rod,
// and the other that of one without it. It returns the remnant by which the rest
// is told.
func (f *failing) oneWay(c *Failure, pulled *remnant, lone []*linkage.Cable, gone linkage.Element, now []*travels) *remnant {
	without := []linkage.Element{gone}
	for _, k := range lone {
		without = append(without, k)
	}
	slack, err := f.without(without...)
	if err != nil {
		c.Trouble = &Trouble{Kind: NotClosed, Err: err}
		return slack
	}
	c.Loose = f.looseParts(slack)
	cablePath := pulled.cablePathOf(lone[0])
	switch {
	case len(lone) > 1:
		c.Trouble = &Trouble{Kind: SeveralAlone}
		return slack
	case cablePath == nil: // what it joins hangs loose anyway
		f.sweepAll(c, slack, now)
		return slack
	}
	k := f.m.run.Cable(lone[0])
	pair := &f.m.constraints[slices.IndexFunc(f.m.constraints, func(l constraint) bool { return l.pair == k.Pair })]
	held := f.m.bodies[f.m.freedoms[f.m.pulls[pair.pull].freedom].body].part
	left := OneWay{Cable: k, Part: held}
	part := pulled.held.Part(held)
	if part == nil {
		c.Trouble = &Trouble{Kind: HangsLoose, Cable: k}
		return slack
	}
	freedom := pulled.m.bodies[pulled.m.partBody[part.Index]].first
	slope, _ := pulled.m.pathPartial(&pulled.m.neutral, cablePath, freedom)
	f.stiffnesses(&left, pair, float64(cablePath.stiffness*slope*slope))
	way := -math.Copysign(1, slope) // the cable pulls to where it is shorter
	for i, control := range f.m.run.Controls {
		t, side, ok := f.bothSides(c, pulled, slack, control, held, way)
		now[i] = t
		if ok {
			left.Control, left.Side = control, side
			c.OneWay = append(c.OneWay, left)
		}
	}
	f.looseOnCable(c, slack, k, held, part, pulled.m, way)
	return pulled
}

// cordOf returns a cable of what is held as a length; nil where it is loose.
func (r *remnant) cablePathOf(k *linkage.Cable) *cablePath {
	if r.m == nil {
		return nil
	}
	for i := range r.m.constraints {
		if l := &r.m.constraints[i]; l.pair == nil && l.cable() != nil && l.cable().Name == k.Name {
			return &l.cablePaths[0]
		}
	}
	return nil
}

// stiffnesses tells how stiffly a part is held at neutral by a pair, and by what
// is left of it, given for a radian or a length.
func (f *failing) stiffnesses(left *OneWay, pair *constraint, alone float64) {
	_, filed := f.m.balance(&f.m.neutral, pair)
	if f.m.neutral.hung[pair.pull].slack {
		filed = 0
	}
	left.Filed, left.Left = math.Max(0, filed), alone
	length := f.m.lengthUnit(pair.pair.In)
	left.Unit = length.ForceUnit() + "/" + length
	if left.Part.Angular() {
		left.Filed, left.Left = float64(left.Filed*degree), float64(left.Left*degree)
		left.Unit = length.ForceUnit() + " " + length + "/" + degrees
	}
}

// bothSides sweeps a control on the side on which it pulls what a cable alone
// holds, and without that cable on the other. ok is false where the control
// doesn't move it, or which side that is can't be told.
func (f *failing) bothSides(c *Failure, pulled, slack *remnant, control *linkage.Control, held *linkage.Part, way float64) (t *travels, side string, ok bool) {
	k := pulled.held.Control(control)
	if k == nil {
		return nil, "", false
	}
	whole := f.travelsOf(c, pulled, k)
	if whole == nil {
		return nil, "", false
	}
	e, _ := whole.sweeps[0].extentOf(held.Name)
	least := f.least(held.Angular(), follows)
	if e.Most-e.Least <= least {
		return whole, "", false
	}
	low, high := float64((e.AtLow-e.Neutral)*way), float64((e.AtHigh-e.Neutral)*way)
	straight := e.Least >= math.Min(e.AtLow, e.AtHigh)-least && e.Most <= math.Max(e.AtLow, e.AtHigh)+least
	if !straight || !(low < -least && high > least || low > least && high < -least) {
		c.Trouble = &Trouble{Kind: Reverses, Part: held, Control: control}
		return whole, "", false
	}
	side = "plus"
	if low > 0 {
		side = "minus"
	}
	t = f.oneSide(c, pulled, control, side == "plus")
	other := f.oneSide(c, slack, control, side != "plus")
	if t == nil || other == nil {
		if c.Trouble == nil {
			c.Trouble = &Trouble{Kind: HangsOnCable, Control: control}
		}
		return whole, "", false
	}
	return merged(t, other), side, true
}

// oneSide sweeps a control of what is left on one side of neutral alone; nil
// where it can't be.
func (f *failing) oneSide(c *Failure, r *remnant, control *linkage.Control, plus bool) *travels {
	k := r.held.Control(control)
	if k == nil || r.m == nil {
		return nil
	}
	from, to := k.From, 0.0
	if plus {
		from, to = 0, k.To
	}
	run, err := r.held.With(linkage.Explore(k, from, to))
	if err != nil {
		c.Trouble = &Trouble{Kind: NotClosed, Err: err}
		return nil
	}
	m, err := f.compile(run)
	if err != nil {
		c.Trouble = &Trouble{Kind: NotClosed, Err: err}
		return nil
	}
	return f.travelsOf(c, &remnant{run: r.run, held: run, m: m}, run.Control(k))
}

// merged is two sides of a travel as one.
func merged(a, b *travels) *travels {
	t := &travels{sweeps: a.sweeps, places: a.places, also: make([]*Sweep, len(a.sweeps)), missed: a.missed}
	if t.missed == nil {
		t.missed = b.missed
	}
	for i, place := range a.places {
		if there := b.at(place); there >= 0 {
			t.also[i] = b.sweeps[there]
		}
	}
	t.farther = func() (*travels, error) {
		first, err := a.farther()
		if err != nil {
			return nil, err
		}
		second, err := b.farther()
		if err != nil {
			return nil, err
		}
		return merged(first, second), nil
	}
	return t
}

// looseOnCable puts in the place of the ranges of what would be loose without a
// cable those that it leaves: from where it is taut on.
func (f *failing) looseOnCable(c *Failure, slack *remnant, k *linkage.Cable, held, part *linkage.Part, m *Mechanism, way float64) {
	stands := m.neutral.q[m.bodies[m.partBody[part.Index]].first]
	if part.Angular() {
		stands /= degree
	}
	side := 0
	if way < 0 {
		side = 1
	}
	group := slices.IndexFunc(slack.loose, func(g looseGroup) bool {
		return slices.ContainsFunc(g.parts, func(p *linkage.Part) bool { return p.Name == held.Name })
	})
	if group < 0 {
		return
	}
	w := f.handOn(slack, group, held)
	for i := range c.Loose {
		l := &c.Loose[i]
		if l.Why != Ranged || !slices.ContainsFunc(slack.loose[group].parts, func(p *linkage.Part) bool { return p.Name == l.Part.Name }) {
			continue
		}
		at := stands
		sameSide := true
		if l.Part != held {
			// As it stands where the cable is taut, and which way it goes from there.
			if w == nil {
				l.Why = Unclear
				continue
			}
			taut, ok := w.At(stands)
			beyond, there := w.At(stands + float64(way*f.least(held.Angular(), looked)))
			if !ok || !there {
				l.Why = Unclear
				continue
			}
			at = taut.Travel(l.Part)
			sameSide = (beyond.Travel(l.Part)-at)*way > 0
		}
		own := side
		if !sameSide {
			own = 1 - side
		}
		l.Taut[own] = k
		l.Ends[own] = End{}
		if own == 0 {
			l.Low = &at
		} else {
			l.High = &at
		}
	}
}

// looked is how far past where a cable is taut it is looked which way a part goes,
// radians or shares of the run's size.
const looked = 1e-3
