package solve

import (
	"fmt"
	"math"

	"fullfree/linkage"
)

// seekOnCenter finds the on-center points that the travel of control i now has
// and doesn't have as filed. Where nothing ends it any more within what the file
// explores, it is looked farther.
func (f *failing) seekOnCenter(c *Failure, i int, now *travels) {
	found := f.newOnCenter(i, now)
	if len(found) == 0 && f.opened(i, now) {
		farther, err := now.farther()
		switch {
		case err != nil:
			c.Undecided = reasonOf(err)
		default:
			found = f.newOnCenter(i, farther)
			for j := range found {
				found[j].Beyond = true
			}
			if len(found) == 0 && (farther.lost() || f.m.run.Controls[i].Of.Motion == linkage.Slides && f.opened(i, farther)) {
				c.Undecided = fmt.Sprintf("nothing ends the travel of %s as far as was looked", f.m.run.Controls[i].Name)
			}
		}
	}
	c.OnCenter = append(c.OnCenter, nearestEachSide(found)...)
}

// nearestEachSide keeps of the on-center points of a control the one that is met
// first on each side.
func nearestEachSide(found []OnCenter) (list []OnCenter) {
	for _, high := range []bool{false, true} {
		first := -1
		for i := range found {
			if (found[i].At >= 0) == high && (first < 0 || math.Abs(found[i].At) < math.Abs(found[first].At)) {
				first = i
			}
		}
		if first >= 0 {
			list = append(list, found[first])
		}
	}
	return list
}

// newOnCenter lists the on-center points of a control's travel of which there
// are more, of their kind and part, than as filed.
func (f *failing) newOnCenter(i int, now *travels) (list []OnCenter) {
	type what struct {
		kind CriticalKind
		part string
	}
	most := map[what]int{}
	for _, w := range f.filed[i].sweeps {
		count := map[what]int{}
		for _, k := range w.onCenter() {
			key := what{k.Kind, k.Part.Name}
			count[key]++
			most[key] = max(most[key], count[key])
		}
	}
	for at := range now.sweeps {
		count := map[what]int{}
		for _, w := range now.both(at) {
			for _, k := range w.onCenter() {
				key := what{k.Kind, k.Part.Name}
				if count[key]++; count[key] > most[key] {
					most[key] = count[key]
					list = append(list, OnCenter{Control: f.m.run.Controls[i], Critical: f.names.critical(k), Held: f.names.held(w.Held)})
				}
			}
		}
	}
	return list
}

// opened reports whether a side of a control's travel that something ended as
// filed is now open as far as was looked, wherever the others stand.
func (f *failing) opened(i int, now *travels) bool {
	for at, place := range f.filed[i].places {
		there := now.at(place)
		for side := range 2 {
			if there >= 0 && now.end(there, side).Cause == ByLimit && f.filed[i].sweeps[at].Ends[side].Cause != ByLimit {
				return true
			}
		}
	}
	return false
}

// lookFarther sweeps a control of what is left beyond what the file explores: a
// turn all the way round each way, a slide as far as the run is large. A side that
// isn't to be looked at stays so.
func (f *failing) lookFarther(r *remnant, control *linkage.Control) (*travels, error) {
	run := r.held.Without()
	for _, k := range run.Controls {
		if k.Name != control.Name {
			continue
		}
		most := float64(fullTurn)
		if k.Of.Motion == linkage.Slides {
			most = f.m.size
		}
		if k.From, k.To = control.From, control.To; k.From < 0 {
			k.From = math.Min(k.From, -most)
		}
		if k.To > 0 {
			k.To = math.Max(k.To, most)
		}
		m, err := Compile(run)
		if err != nil {
			return nil, err
		}
		return m.allTravels(k)
	}
	return &travels{}, nil
}
