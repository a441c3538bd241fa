// Layer: questions.

package solve

import (
	"fmt"
	"math"
	"slices"

	"fullfree/linkage"
)

// travels are the sweeps of one control of a run or of what is left of it: the
// first with the others at neutral, then at every combination of their held
// settings that is another and can be reached.
type travels struct {
	sweeps []*Sweep
	places []string // by sweep: where the others stand
	// also is by sweep the other side of the travel where what is left on that
	// side is another run, or nil.
	also []*Sweep
	// missed says that some held setting can't be reached.
	missed error
	// farther sweeps beyond what the file explores; nil where nothing was changed.
	farther func() (*travels, error)
}

// allTravels sweeps a control with the others at neutral and at all their held
// settings; with the others at neutral alone where that is said, and of a rotor's hub, which is
// swept all the way round. The error is of the sweep with the others at neutral.
func (m *Mechanism) allTravels(c *linkage.Control) (*travels, error) {
	t := &travels{}
	_, combinations := m.combinations(c)
	if m.atNeutral || m.turnsHub(c) {
		combinations = 0
	}
	for i := range 1 + combinations {
		held := m.othersAtNeutral(c)
		if i > 0 {
			held = m.combination(c, i-1)
		}
		place := ""
		for _, h := range held {
			place += fmt.Sprintf("%s=%v ", h.Control.Name, h.At)
		}
		if slices.Contains(t.places, place) {
			continue
		}
		w, err := m.Sweep(c, held)
		if err != nil && i == 0 {
			return nil, err
		}
		if err != nil {
			t.missed = err
			continue
		}
		t.sweeps, t.places, t.also = append(t.sweeps, w), append(t.places, place), append(t.also, nil)
	}
	return t, nil
}

// at returns which sweep is with the others at a place, or -1.
func (t *travels) at(place string) int { return slices.Index(t.places, place) }

// both lists the sweep at i, in two where each side is of a run of its own.
func (t *travels) both(i int) []*Sweep {
	if t.also[i] == nil {
		return t.sweeps[i : i+1]
	}
	return []*Sweep{t.sweeps[i], t.also[i]}
}

// lost reports whether some sweep couldn't be followed.
func (t *travels) lost() bool {
	for i := range t.sweeps {
		if slices.ContainsFunc(t.both(i), func(w *Sweep) bool { return w.Lost || w.CutShort }) {
			return true
		}
	}
	return false
}

// extentOf returns how something goes in the sweep at i.
func (t *travels) extentOf(i int, name string) (all Extent, ok bool) {
	for _, w := range t.both(i) {
		switch e, there := w.extentOf(name); {
		case !there:
		case !ok:
			all, ok = e, true
		default:
			all.Least, all.Most = math.Min(all.Least, e.Least), math.Max(all.Most, e.Most)
		}
	}
	return all, ok
}

// end returns the end of the travel on a side in the sweep at i.
func (t *travels) end(i, side int) End { return t.sweepOn(i, side).Ends[side] }

// sweepOn returns, of the one or two sweeps at i, that of a side.
func (t *travels) sweepOn(i, side int) *Sweep {
	for _, w := range t.both(i) {
		if w.Control.From < 0 && side == 0 || w.Control.To > 0 && side == 1 {
			return w
		}
	}
	return t.sweeps[i]
}

// extentOf returns how a part, freedom of a floating part or output goes in a
// sweep.
func (w *Sweep) extentOf(name string) (Extent, bool) {
	for i := range w.Parts {
		if w.Parts[i].Name == name {
			return w.Parts[i].Extent, true
		}
	}
	for i := range w.Outputs {
		if w.Outputs[i].Output.Name == name {
			return w.Outputs[i].Extent, true
		}
	}
	return Extent{}, false
}

// onCenter lists the on-center points in the travel, its ends included.
func (w *Sweep) onCenter() (list []Critical) {
	for _, c := range w.Critical {
		if c.Margin <= 0 {
			list = append(list, c)
		}
	}
	return list
}

// asFiled sweeps the run as it is, by which everything else is measured.
func (f *failing) asFiled() error {
	bare, err := f.m.run.With(linkage.Bare())
	if err != nil {
		return err
	}
	left, err := f.compile(bare)
	if err != nil {
		return err
	}
	var sides []linkage.Edit
	for _, s := range bare.Stops { // a part may stand a little elsewhere at neutral
		if s.Of != nil && f.m.stopSide[s.Index] < 0 {
			sides = append(sides, linkage.LimitTo(s, "low"))
		} else if s.Of != nil {
			sides = append(sides, linkage.LimitTo(s, "high"))
		}
	}
	if f.moving, err = bare.With(sides...); err != nil {
		return err
	}
	f.own = map[string][]bool{}
	most := map[string]float64{}
	for i, c := range left.run.Controls {
		if f.spent > float64(filedShare*f.m.mostWork()) {
			faults := &linkage.Faults{Source: f.m.run.Source}
			faults.Add(f.m.run.Span, "all controls at all their held settings are more than can be looked at again for every case: hold fewer, or part the run")
			return faults.Err()
		}
		t, err := left.allTravels(c)
		if err == nil {
			err = t.missed
		}
		if err != nil {
			return err
		}
		f.filed = append(f.filed, t)
		f.turns = append(f.turns, seizings(t.sweeps[0]))
		for _, w := range t.sweeps {
			for _, k := range w.onCenter() {
				f.addOnCenter(OnCenter{Control: f.m.run.Controls[i], Critical: criticalIn(f.m.run, k)})
			}
		}
		for _, o := range t.sweeps[0].Outputs {
			most[o.Output.Name] = math.Max(most[o.Output.Name], o.Most-o.Least)
		}
	}
	for _, o := range f.m.run.Outputs {
		for i := range f.filed {
			e, _ := f.filed[i].sweeps[0].extentOf(o.Name)
			moves := e.Most-e.Least > f.least(o.Angular(), follows)
			f.own[o.Name] = append(f.own[o.Name], moves && e.Most-e.Least >= ownShare*most[o.Name])
		}
	}
	f.findHands()
	return nil
}

// least is a movement, radians or shares of the run's size, in degrees or run
// units.
func (f *failing) least(angular bool, share float64) float64 {
	if angular {
		return share / degree
	}
	return float64(share * f.m.size)
}

// addOnCenter notes an on-center point of the run as filed, once for each part
// and control.
func (f *failing) addOnCenter(at OnCenter) {
	if !slices.ContainsFunc(f.onCenter, func(o OnCenter) bool {
		return o.Control == at.Control && o.Kind == at.Kind && o.Part == at.Part
	}) {
		f.onCenter = append(f.onCenter, at)
	}
}

// findHands finds by control the parts that hands and feet are on.
func (f *failing) findHands() {
	run := f.m.run
	partOf := func(s linkage.Subject) *linkage.Part {
		if s.Control != nil {
			return s.Control.Of
		}
		return s.Part
	}
	for _, c := range run.Controls {
		hands := []*linkage.Part{c.Of}
		for more := true; more; {
			more = false
			for _, r := range run.Requirements {
				if r.Kind != linkage.Opposite && r.Kind != linkage.Together || !f.m.concerns(c, r) {
					continue
				}
				a, b := partOf(r.Of[0]), partOf(r.Of[1])
				if slices.Contains(hands, b) {
					a, b = b, a
				}
				if b != nil && slices.Contains(hands, a) && !slices.Contains(hands, b) {
					hands, more = append(hands, b), true
				}
			}
		}
		slices.SortFunc(hands[1:], func(a, b *linkage.Part) int { return a.Index - b.Index })
		f.hands = append(f.hands, hands)
	}
}
