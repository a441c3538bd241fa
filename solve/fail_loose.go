// Layer: questions.

package solve

import (
	"slices"

	"fullfree/linkage"
)

// looseGroup is parts that hang loose together: whatever one of them does, the
// others may have to.
type looseGroup struct {
	parts []*linkage.Part // in the file's order
	// own are those whose own turn or slide is loose; the others ride on them.
	own  map[*linkage.Part]bool
	free int // how many freedoms they have together
}

// looseGroups finds what nothing holds with the controls held.
func (s *structure) looseGroups() (groups []looseGroup) {
	loose := s.pairs.Loose(s.e.of)
	if len(loose) == 0 {
		return nil
	}
	group := make(map[int]int) // by unknown: another of its group, or itself
	for _, u := range loose {
		group[u] = u
	}
	var root func(u int) int
	root = func(u int) int {
		if group[u] != u {
			group[u] = root(group[u])
		}
		return group[u]
	}
	join := func(us []int) (first int) {
		first = -1
		for _, u := range us {
			switch _, ok := group[u]; {
			case !ok:
			case first < 0:
				first = u
			default:
				group[root(u)] = root(first)
			}
		}
		return first
	}
	// The freedoms of one floating part go together, as do those of a rod.
	byBody := map[int][]int{}
	for _, u := range loose {
		b := s.m.freedoms[s.e.unknowns[u]].body
		byBody[b] = append(byBody[b], u)
	}
	for _, us := range byBody {
		join(us)
	}
	var held []int // by equation that holds something loose: one of its unknowns
	for _, us := range s.e.of {
		if u := join(us); u >= 0 {
			held = append(held, u)
		}
	}
	place := map[int]int{}
	for _, u := range loose {
		if _, ok := place[root(u)]; !ok {
			place[root(u)] = len(groups)
			groups = append(groups, looseGroup{own: map[*linkage.Part]bool{}})
		}
		g := &groups[place[root(u)]]
		g.free++
		g.own[s.m.bodies[s.m.freedoms[s.e.unknowns[u]].body].part] = true
	}
	for _, u := range held {
		groups[place[root(u)]].free--
	}
	for _, p := range s.m.run.Parts {
		if p.Motion == linkage.Fixed {
			continue
		}
		for i := range groups {
			if g := &groups[i]; g.own[p] || slices.ContainsFunc(s.m.under(s.m.partBody[p.Index]), func(b int) bool { return g.own[s.m.bodies[b].part] }) {
				g.parts = append(g.parts, p)
				break
			}
		}
	}
	return groups
}

// springOn returns the side to which the spring of a cable returns a part; empty
// where none does.
func (f *failing) springOn(p *linkage.Part) string {
	for i := range f.m.steps {
		s := &f.m.steps[i]
		if l := &f.m.constraints[s.constraints[0]]; l.sprung() && f.m.bodies[f.m.freedoms[s.unknowns[0]].body].part == p {
			return l.cablePaths[0].cable.Spring
		}
	}
	return ""
}

const (
	// mostSwept is how many parts that are loose together are each moved through
	// their range. No control run has as many behind one rod; the work grows with
	// its square.
	mostSwept = 16
	// mostMoved bounds the same times the parts that are moved or held with them,
	// which the work grows with too: a run of thirty parts and fewer has all of its
	// ranges told, one of a hundred those of four that are loose together.
	mostMoved = 480
)

// looseParts tells what is loose and through what range, in the file's order:
// first of all what is loose since the run lost its bolt, and what it carries.
func (f *failing) looseParts(r *remnant) (list []LoosePart) {
	for _, p := range f.m.run.Parts {
		if p.Motion == linkage.Fixed || r.run.Part(p) != nil {
			continue
		}
		why := Unbolted
		if p.Carrier != nil && r.run.Part(p.Carrier.Part) == nil {
			why = Rides
		}
		list = append(list, LoosePart{Part: p, Why: why})
	}
	for i := range r.loose {
		g := &r.loose[i]
		for _, p := range g.parts {
			list = append(list, f.rangeOf(r, i, p))
		}
	}
	slices.SortStableFunc(list, func(a, b LoosePart) int { return a.Part.Index - b.Part.Index })
	for i := range list {
		l := &list[i]
		l.Unit = f.m.lengthUnit(l.Part.In)
		if l.Part.Angular() {
			l.Unit = degrees
		}
		l.Spring = f.springOn(l.Part)
	}
	return list
}

// rangeOf moves a loose part through its range, the controls at neutral, what is
// loose by itself taken away, and what is loose with it following as it must.
func (f *failing) rangeOf(r *remnant, group int, p *linkage.Part) LoosePart {
	g := &r.loose[group]
	loose := LoosePart{Part: f.m.run.Part(p)}
	switch {
	case !g.own[p]:
		loose.Why = Rides
	case p.Motion == linkage.Floats:
		loose.Why = Afloat
	case g.free > 1:
		loose.Why = Several
	case len(g.own) > mostSwept || len(g.own) > 1 && len(g.own)*len(r.run.Parts) > mostMoved:
		loose.Why = TooMany
	case p.Carrier != nil && slices.ContainsFunc(r.loose, func(g looseGroup) bool { return slices.Contains(g.parts, p.Carrier.Part) }):
		loose.Why = Rides // and by itself besides
	case p.Carrier != nil && slices.ContainsFunc(r.run.Stops, func(s *linkage.Stop) bool { return s.Of == p }):
		return LoosePart{Part: loose.Part, Why: Unclear} // its number would be another: against the carrier
	default:
		loose.Why = Unclear
	}
	if loose.Why != Unclear {
		return loose
	}
	w := f.handOn(r, group, p)
	if w == nil {
		return loose
	}
	loose.Why = Ranged
	loose.Ends = [2]End{endIn(f.m.run, w.Ends[0]), endIn(f.m.run, w.Ends[1])}
	if w.Ends[0].Cause != ByLimit {
		loose.Low = &w.Low
	}
	if w.Ends[1].Cause != ByLimit {
		loose.High = &w.High
	}
	return loose
}

// handOn moves a loose part as if it were a control; nil where that can't be.
func (f *failing) handOn(r *remnant, group int, part *linkage.Part) *Sweep {
	var others []linkage.Element
	for i := range r.loose {
		if i != group {
			for _, q := range r.loose[i].parts {
				others = append(others, q)
			}
		}
	}
	run, err := r.run.With(linkage.Remove(others...), grip(part, f.m.size))
	if err != nil {
		return nil
	}
	m, err := f.compile(run)
	if err != nil {
		return nil
	}
	hand := run.Controls[len(run.Controls)-1]
	w, err := m.Sweep(hand, m.othersAtNeutral(hand))
	if err != nil || w.Lost || w.CutShort {
		return nil
	}
	return w
}
