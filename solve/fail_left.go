// Layer: questions.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/solve/internal/num"
)

// remnant is what is left of a run without some of it.
type remnant struct {
	run   *linkage.Run // all that is left, loose or not
	held  *linkage.Run // without what is loose
	m     *Mechanism   // of held; nil where no control is left in it
	loose []looseGroup
}

// structure is which rod holds which part, as Compile finds it.
type structure struct {
	m     *Mechanism
	e     equations
	pairs num.Matching
}

func structureOf(run *linkage.Run) *structure {
	s := &structure{m: &Mechanism{run: run, size: run.Size(), center: centerOf(run)}}
	s.m.addSizes()
	s.m.addBodies()
	s.m.addConstraints()
	s.m.addJoints()
	s.m.addPins()
	s.m.addKeeps()
	s.e = s.m.incidence(-1)
	s.pairs = num.Match(s.e.of, len(s.e.unknowns))
	return s
}

// free is how many freedoms nothing holds.
func (s *structure) free() (n int) {
	for _, i := range s.pairs.EquationOf {
		if i < 0 {
			n++
		}
	}
	return n
}

// without finds what is left when something is gone. The error tells why it
// can't be told.
func (f *failing) without(gone ...linkage.Element) (r *remnant, err error) {
	r = &remnant{}
	if r.run, err = f.moving.With(linkage.Remove(gone...)); err != nil {
		return r, err
	}
	s, err := r.promote()
	if err != nil {
		return r, err
	}
	r.loose = s.looseGroups()
	var hanging []linkage.Element
	for _, g := range r.loose {
		for _, p := range g.parts {
			hanging = append(hanging, p)
		}
	}
	if r.held, err = r.run.With(linkage.Remove(hanging...)); err != nil || len(r.held.Controls) == 0 {
		return r, err
	}
	r.m, err = f.compile(r.held)
	return r, err
}

// promote lets second paths drive where they hold what is loose without them, and
// returns what is held so.
func (r *remnant) promote() (*structure, error) {
	s := structureOf(r.run)
	for i := range r.run.Rods {
		rod := r.run.Rods[i]
		if !rod.SecondPath || s.free() == 0 {
			continue
		}
		driven, err := r.run.With(linkage.Drive(rod))
		if err != nil {
			return nil, err
		}
		if with := structureOf(driven); with.free() < s.free() {
			r.run, s = driven, with
		}
	}
	return s, nil
}

// part fills in what is left when something is taken away.
func (f *failing) part(c *Failure) {
	var gone linkage.Element
	switch e := &c.Element; {
	case e.Rod != nil:
		gone = e.Rod
	case e.Cable != nil:
		gone = e.Cable
	case e.Joint != nil:
		gone = e.Joint
	case e.Pivot != nil:
		gone = e.Pivot
	default:
		gone = e.Stop
	}
	r, err := f.without(gone)
	now := make([]*travels, len(f.filed))
	if err != nil {
		c.Trouble = &Trouble{Kind: NotClosed, Err: err}
	} else if lone := alone(r.run); len(lone) > 0 {
		r = f.oneWay(c, r, lone, gone, now)
	} else {
		c.Loose = f.looseParts(r)
		f.sweepAll(c, r, now)
	}
	over, unknown := false, false
	c.OverCenter = &over
	for i := range f.filed {
		f.compare(c, i, now[i])
		if now[i] != nil && !f.seekOnCenter(c, i, now[i]) {
			unknown = true
		}
	}
	over = len(c.OnCenter) > 0
	if (unknown || c.Trouble != nil) && !over {
		c.OverCenter = nil
	}
	if c.Trouble != nil { // then what doesn't follow isn't known either
		c.Controls, c.Reaches = nil, nil
		return
	}
	f.tellLost(c)
	f.tellSecondPaths(c, r)
}

// sweepAll sweeps every control of what is left.
func (f *failing) sweepAll(c *Failure, r *remnant, now []*travels) {
	if r.m == nil {
		return
	}
	for _, k := range r.held.Controls {
		i := f.m.run.Control(k).Index
		if !f.reaches(c.Element, i) {
			now[i] = f.filed[i]
			continue
		}
		if now[i] = f.asFiledWithout(r, k); now[i] == nil {
			now[i] = f.travelsOf(c, r, k)
		}
	}
}

// reaches reports whether a control may notice that something is gone. In an aircraft it
// doesn't where it moves nothing in the run of that, nor in any that this drives.
func (f *failing) reaches(gone Element, control int) bool {
	if f.m.run.Aircraft == nil {
		return true
	}
	members := f.m.drives.members[control]
	seen := map[int]bool{}
	var look func(in int) bool
	look = func(in int) bool {
		if seen[in] {
			return false
		}
		seen[in] = true
		return members[in] || slices.ContainsFunc(f.m.run.SameParts, func(s *linkage.SamePart) bool {
			return s.Leads.In.Index == in && look(s.Follows.In.Index)
		})
	}
	return look(gone.in().Index)
}

// in is the member of an aircraft that an element is of.
func (e *Element) in() *linkage.Member {
	switch {
	case e.Rod != nil:
		return e.Rod.In
	case e.Cable != nil:
		return e.Cable.In
	case e.Joint != nil:
		return e.Joint.In
	case e.Pivot != nil:
		return e.Pivot.In
	case e.Part != nil:
		return e.Part.In
	}
	return e.Stop.In
}

// travelsOf sweeps a control of what is left; nil where it can't be.
func (f *failing) travelsOf(c *Failure, r *remnant, k *linkage.Control) *travels {
	t, err := r.m.allTravels(k)
	if err != nil {
		c.Trouble = &Trouble{Kind: NotClosed, Err: err}
		return nil
	}
	t.farther = func() (*travels, error) { return f.lookFarther(r, k) }
	return t
}

// tellSecondPaths tells which second paths take over, and which double nothing
// any more.
func (f *failing) tellSecondPaths(c *Failure, r *remnant) {
	for _, rod := range f.m.run.Rods {
		if !rod.SecondPath {
			continue
		}
		left := r.held.Rod(rod)
		if left == nil || !left.SecondPath {
			c.Undoubled = append(c.Undoubled, rod)
		}
		if left != nil && !left.SecondPath {
			c.Carried = append(c.Carried, Carried{rod, r.slack(rod)})
		}
	}
}

// compare fills in how far a control and what follows it still go; now is nil
// where the control is gone.
func (f *failing) compare(c *Failure, i int, now *travels) {
	control := f.m.run.Controls[i]
	filed := f.filed[i].sweeps[0]
	free := false
	k := ControlLeft{Control: control, Unit: filed.Unit, Locked: &free, Filed: [2]float64{filed.Low, filed.High}}
	if now == nil {
		k.Gone = c.Trouble == nil
	} else {
		k.Ends = [2]End{endIn(f.m.run, now.end(0, 0)), endIn(f.m.run, now.end(0, 1))}
		k.Left = [2]float64{k.Ends[0].At, k.Ends[1].At}
		if least := f.least(filed.Unit == degrees, follows); k.Left[1]-k.Left[0] <= least && filed.High-filed.Low > least {
			stuck := true
			k.Locked = &stuck
		}
		if now.lost() {
			c.Trouble = &Trouble{Kind: NotFollowed, Control: control}
		} else if now.missed != nil {
			c.Trouble = &Trouble{Kind: NotClosed, Err: now.missed}
		}
	}
	c.Controls = append(c.Controls, k)
	for _, t := range filed.Parts {
		f.addReach(c, Reach{Control: control, Name: t.Name, Unit: t.Unit, Part: f.m.run.Part(t.Part)}, i, now)
	}
	for _, t := range filed.Outputs {
		f.addReach(c, Reach{Control: control, Name: t.Output.Name, Unit: t.Unit, Output: f.m.run.Output(t.Output)}, i, now)
	}
}

// addReach adds how far something goes, if it follows the control as filed.
func (f *failing) addReach(c *Failure, r Reach, i int, now *travels) {
	filed, _ := f.filed[i].sweeps[0].extentOf(r.Name)
	least := f.least(r.Unit == degrees, follows)
	if filed.Most-filed.Least <= least && !f.rides(f.filed[i], r.Part) {
		return
	}
	r.Filed = [2]float64{filed.Least, filed.Most}
	r.Left = [2]float64{filed.Neutral, filed.Neutral}
	r.Own = r.Output != nil && f.own[r.Name][i]
	if now != nil {
		if left, ok := now.extentOf(0, r.Name); ok {
			r.Left = [2]float64{left.Least, left.Most}
			r.Follows = left.Most-left.Least > least || f.rides(now, r.Part)
			r.Share = 1
			for at, place := range f.filed[i].places {
				if there := now.at(place); there >= 0 {
					was, _ := f.filed[i].extentOf(at, r.Name)
					is, _ := now.extentOf(there, r.Name)
					r.Share = math.Min(r.Share, overlap(was, is, least))
				}
			}
			r.Reversed = r.Output != nil && reversed(f.filed[i].sweeps[0], now.sweeps[0], r.Name)
		}
	}
	c.Reaches = append(c.Reaches, r)
}

// rides reports whether a part is carried by one that moves.
func (f *failing) rides(t *travels, p *linkage.Part) bool {
	for ; p != nil && p.Carrier != nil; p = p.Carrier.Part {
		carrier := p.Carrier.Part
		e, _ := t.extentOf(0, carrier.Name)
		if e.Most-e.Least > f.least(carrier.Angular(), follows) {
			return true
		}
	}
	return false
}

// overlap is how much of what was reached still is; all of it where that was
// no more than least.
func overlap(was, is Extent, least float64) float64 {
	if was.Most-was.Least <= least {
		return 1
	}
	common := math.Min(was.Most, is.Most) - math.Max(was.Least, is.Least)
	return math.Max(0, math.Min(1, common/(was.Most-was.Least)))
}

// reversed reports whether an output goes the other way at neutral.
func reversed(filed, left *Sweep, name string) bool {
	ratio := func(w *Sweep) float64 {
		if _, there := w.extentOf(name); !there {
			return 0
		}
		all := w.of.sweep.Outputs // as they were swept: of w some may be gone
		for i := range all {
			if o := &all[i]; o.Output.Name == name && o.Ratio.Neutral != nil && math.Abs(*o.Ratio.Neutral) > w.of.p.probes[w.of.ratios[i]].noise {
				return *o.Ratio.Neutral
			}
		}
		return 0
	}
	return ratio(filed)*ratio(left) < 0
}

// tellLost lists what follows no more: a control that moves none of its outputs
// any more, or where it has none no part; a part under a hand; an output.
func (f *failing) tellLost(c *Failure) {
	gone := func(name string) bool {
		return slices.ContainsFunc(c.Loose, func(l LoosePart) bool { return l.Part.Name == name }) ||
			c.Element.Pivot != nil && c.Element.Pivot.Name == name
	}
	for i := range c.Controls {
		k := &c.Controls[i]
		had, has := false, false
		for _, output := range []bool{true, false} {
			if had {
				break
			}
			for j := range c.Reaches {
				r := &c.Reaches[j]
				if r.Control != k.Control || (r.Output != nil) != output || output && !r.Own || r.Part == k.Control.Of {
					continue
				}
				had = true
				has = has || r.Follows
			}
		}
		if k.Gone || k.Locked != nil && *k.Locked || had && !has {
			c.Lost = append(c.Lost, k.Control.Name)
		}
	}
	for i, hands := range f.hands {
		for _, p := range hands[1:] {
			if (gone(p.Name) || f.stopped(c, i, p.Name)) && !slices.Contains(c.Lost, p.Name) {
				c.Lost = append(c.Lost, p.Name)
			}
		}
	}
	for _, o := range f.m.run.Outputs {
		had, has := false, false
		for i := range c.Controls {
			if f.own[o.Name][i] {
				had = true
				has = has || !f.stopped(c, i, o.Name)
			}
		}
		if had && !has {
			c.Lost = append(c.Lost, o.Name)
		}
	}
}

// stopped reports whether something that followed a control doesn't any more.
func (f *failing) stopped(c *Failure, i int, name string) bool {
	for j := range c.Reaches {
		if r := &c.Reaches[j]; r.Control == f.m.run.Controls[i] && r.Name == name {
			return !r.Follows
		}
	}
	return false
}

// slack is what the play of a second path that took over leaves free: of every
// part but the controls', and of every output, by derivative at neutral.
func (r *remnant) slack(rod *linkage.Rod) (list []Slack) {
	if rod.Play == 0 || r.m == nil {
		return nil
	}
	swept := r.held.Controls[0]
	w, err := r.m.Sweep(swept, r.m.othersAtNeutral(swept))
	if err != nil || !w.of.solveAt(0) { // nobody else has this sweep
		return nil
	}
	left := r.held.Rod(rod)
	if left == nil {
		return nil
	}
	p := *w.of.p
	p.rates, p.unit = r.m.newRates(), 1 // the rates are by the rod's length
	r.m.grow(&p.st, p.rates, grown{rod: left}, -1)
	add := func(name string, unit linkage.Unit, probe int) {
		_, rate := p.probes[probe].value(&p)
		most := float64(math.Abs(rate) * rod.Play)
		if most > r.m.noiseOf(unit, follows) && most < math.MaxFloat64 {
			list = append(list, Slack{name, unit, most})
		}
	}
	for i, t := range w.Parts {
		add(t.Name, t.Unit, w.of.parts[i])
	}
	for i, t := range w.Outputs {
		add(t.Output.Name, t.Unit, w.of.outputs[i])
	}
	return list
}
