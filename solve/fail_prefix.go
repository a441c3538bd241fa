// Layer: questions.

package solve

import (
	"slices"

	"fullfree/linkage"
)

// What is left when the far end of a run goes often knows nothing of it: all that
// places it is as filed, and so it goes as filed, from stop to stop.

// asFiledWithout returns the travels of a control of what is left, as they are filed,
// without what is gone; nil where it has to be looked at again.
func (f *failing) asFiledWithout(r *remnant, k *linkage.Control) *travels {
	filed := f.filed[f.m.run.Control(k).Index]
	if filed.missed != nil || filed.lost() || len(r.held.Cables) > 0 || len(r.held.Controls) != len(f.m.run.Controls) {
		return nil
	}
	if !placedAlike(r.m, filed.sweeps[0].of.m) {
		return nil
	}
	t := &travels{places: filed.places, also: filed.also}
	for i, w := range filed.sweeps {
		// What was on center may have been what is gone, and what it held back beyond.
		if filed.also[i] != nil || len(w.Critical) > 0 {
			return nil
		}
		for side, e := range w.Ends {
			if e.Cause != ByStop || e.Past != nil || r.held.Stop(e.Stop) == nil || w.of.sides[side].w.singularity != nil {
				return nil
			}
		}
		left := *w
		left.Parts = slices.DeleteFunc(slices.Clone(w.Parts), func(t PartTravel) bool { return r.held.Part(t.Part) == nil })
		left.Outputs = slices.DeleteFunc(slices.Clone(w.Outputs), func(t OutputTravel) bool { return r.held.Output(t.Output) == nil })
		t.sweeps = append(t.sweeps, &left)
	}
	return t
}

// placedAlike reports whether everything of one mechanism is placed as in another, of
// a run that has more.
func placedAlike(less, more *Mechanism) bool {
	steps := make(map[*linkage.Rod]*step) // of the other, by its first rod
	for i := range more.steps {
		s := &more.steps[i]
		if rod := more.constraints[s.constraints[0]].rod; rod != nil {
			steps[rod] = s
		}
	}
	for i := range less.steps {
		s := &less.steps[i]
		rod := less.constraints[s.constraints[0]].rod
		if rod == nil {
			return false
		}
		o := steps[more.run.Rod(rod)]
		if o == nil || len(o.constraints) != len(s.constraints) {
			return false
		}
		for j := range s.constraints {
			if l, k := &less.constraints[s.constraints[j]], &more.constraints[o.constraints[j]]; l.kind() != k.kind() || l.name() != k.name() {
				return false
			}
			if more.run.Rod(less.constraints[s.constraints[j]].rod) != more.constraints[o.constraints[j]].rod || less.nameOf(s.unknowns[j]) != more.nameOf(o.unknowns[j]) {
				return false
			}
		}
	}
	return true
}

// freedomName is a freedom by what moves and how.
type freedomName struct {
	part string
	kind freedomKind
}

func (m *Mechanism) nameOf(f int) freedomName {
	return freedomName{m.bodies[m.freedoms[f].body].part.Name, m.freedoms[f].kind}
}
