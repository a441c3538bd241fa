// Layer: questions.

package solve

import (
	"math"

	"fullfree/linkage"
)

// onCenterAt is how a side of a control's travel runs over center: it ends on
// center, a dead center lies inside it, or both.
type onCenterAt struct{ ends, inside bool }

// seekOnCenter finds where the travel of control i, stop to stop, now ends on center
// or runs over a dead center, on a side on which it doesn't as filed. Where nothing
// ends a side any more as far as the file explores, what comes next is found beyond:
// nothing is in the way to it. It reports whether that could be told.
func (f *failing) seekOnCenter(c *Failure, i int, now *travels) (told bool) {
	filed := f.filedOnCenter(i)
	var farther *travels
	told = true
	for side := range 2 {
		first := f.newOnCenter(i, side, now, filed[side], nil)
		if opened := f.opened(i, side, now); first == nil && len(opened) > 0 {
			if farther == nil {
				var err error
				if farther, err = now.farther(); err != nil {
					farther = &travels{}
					told = false
				}
			}
			if first = f.newOnCenter(i, side, farther, filed[side], opened); first != nil {
				first.Beyond = true
			} else if farther.lost() {
				told = false
			}
		}
		if first != nil {
			c.OnCenter = append(c.OnCenter, *first)
		}
	}
	return told
}

// filedOnCenter tells by side how the travel of control i runs over center as
// filed, wherever the others are held. What lies at an end or at neutral to
// rounding counts as inside, and on both sides: nothing that stays where it is may
// be taken for new.
func (f *failing) filedOnCenter(i int) (filed [2]onCenterAt) {
	for _, w := range f.filed[i].sweeps {
		least := float64(tieOfStops * math.Max(1, w.High-w.Low))
		for side := range 2 {
			filed[side].ends = filed[side].ends || w.endsOnCenter(side)
			for _, k := range w.Critical {
				onSide := (k.At >= 0) == (side == 1) || math.Abs(k.At) <= least
				filed[side].inside = filed[side].inside || k.Kind == DeadCenter && (k.Margin <= least || w.runsOver(side, k)) && onSide
			}
		}
	}
	return filed
}

// newOnCenter returns the on-center point that is met first on a side of a
// control's travel; nil where there is none that isn't so as filed. It looks where
// the others stand at one of places, beyond what the file explores, or where that is nil
// anywhere in it.
func (f *failing) newOnCenter(i, side int, now *travels, filed onCenterAt, places map[string]bool) (first *OnCenter) {
	for at, place := range now.places {
		if places != nil && !places[place] {
			continue
		}
		w := now.sweepOn(at, side)
		for _, k := range w.Critical {
			ends := k.Kind != DeadCenter
			if places != nil && k.At >= f.m.run.Controls[i].From && k.At <= f.m.run.Controls[i].To {
				continue // looked at before
			}
			if (k.At >= 0) != (side == 1) || ends && (filed.ends || !w.endsOnCenter(side)) || !ends && (filed.inside || k.Margin >= 0 && !w.runsOver(side, k)) {
				continue
			}
			if first == nil || math.Abs(k.At) < math.Abs(first.At) {
				first = &OnCenter{Control: f.m.run.Controls[i], Critical: criticalIn(f.m.run, k), Held: heldIn(f.m.run, w.Held)}
			}
		}
	}
	return first
}

// endsOnCenter reports whether a side of a travel ends on center, or past a stop that
// doesn't hold the control that control does.
func (w *Sweep) endsOnCenter(side int) bool {
	cause := w.Ends[side].innermost().Cause
	return cause == ByToggle || cause == ByChangePoint
}

// runsOver reports whether the control itself goes over a dead center past a stop
// that doesn't hold it: beyond, its cable comes taut again and pulls backwards.
func (w *Sweep) runsOver(side int, k Critical) bool {
	last := w.Ends[side].innermost()
	return last.Cause == ByCable && k.Kind == DeadCenter && (k.At >= 0) == (side == 1) &&
		math.Abs(k.At) > math.Abs(w.Ends[side].At) && math.Abs(k.At) < math.Abs(last.At)
}

// opened tells where the others stand when a side of a control's travel that
// something ended as filed is open as far as the file explores.
func (f *failing) opened(i, side int, now *travels) map[string]bool {
	places := map[string]bool{}
	for at, place := range f.filed[i].places {
		there := now.at(place)
		if there >= 0 && isOpen(now.end(there, side)) && !isOpen(f.filed[i].sweeps[at].Ends[side]) {
			places[place] = true
		}
	}
	return places
}

// isOpen reports whether nothing ends a side for the control itself.
func isOpen(e End) bool { return e.innermost().Cause == ByLimit }

// lookFarther sweeps a control of what is left beyond what the file explores: a
// turn all the way round each way, a slide as far as the run is large. A side that
// isn't to be looked at stays so.
func (f *failing) lookFarther(r *remnant, control *linkage.Control) (*travels, error) {
	k := r.held.Control(control)
	if k == nil {
		return &travels{}, nil
	}
	most := float64(wholeTurn)
	if k.Of.Motion == linkage.Slides {
		most = f.m.size
	}
	from, to := control.From, control.To
	if from < 0 {
		from = math.Min(from, -most)
	}
	if to > 0 {
		to = math.Max(to, most)
	}
	run, err := r.held.With(linkage.Explore(k, from, to))
	if err != nil {
		return nil, err
	}
	m, err := f.compile(run)
	if err != nil {
		return nil, err
	}
	return m.allTravels(run.Control(k))
}
