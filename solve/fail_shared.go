// Layer: questions.

package solve

import (
	"slices"

	"fullfree/linkage"
)

// share finds what both paths go through: of all that a second path carries in
// some case, the parts whose bolt takes it all the same.
func (f *failing) share(result *Failures) {
	var doubled []string
	for i := range result.Cases {
		c := &result.Cases[i]
		if len(c.Carried) == 0 || c.Element.Rod == nil {
			continue
		}
		for _, name := range f.behind(c.Element.Rod) {
			if !slices.Contains(c.Lost, name) && !slices.Contains(doubled, name) {
				doubled = append(doubled, name)
			}
		}
	}
	for _, name := range f.ends() {
		if !slices.Contains(doubled, name) {
			continue
		}
		path := SharedPath{To: name}
		for i := range result.Cases {
			c := &result.Cases[i]
			p := c.Element.Pivot
			if p == nil || !slices.Contains(c.Lost, name) && !f.isHand(p, name, c) {
				continue
			}
			path.Parts = append(path.Parts, p)
		}
		result.Shared = append(result.Shared, path)
	}
	for i := range result.Cases {
		c := &result.Cases[i]
		p := c.Element.Pivot
		if p == nil {
			p = c.Element.Part
		}
		for _, path := range result.Shared {
			if p != nil && slices.Contains(path.Parts, p) {
				c.Shares = append(c.Shares, path.To)
			}
		}
	}
}

// isHand reports whether a part is itself the one that hangs loose by a case.
func (f *failing) isHand(p *linkage.Part, name string, c *Failure) bool {
	return p.Name == name && slices.ContainsFunc(c.Loose, func(l LoosePart) bool { return l.Part == p })
}

// ends lists the names of what a second path may lead to: parts under hands
// that are no control's own, then outputs.
func (f *failing) ends() (names []string) {
	for _, hands := range f.hands {
		for _, p := range hands[1:] {
			if !slices.Contains(names, p.Name) {
				names = append(names, p.Name)
			}
		}
	}
	for _, o := range f.m.run.Outputs {
		names = append(names, o.Name)
	}
	return names
}

// behind lists what would follow no more without a rod if no second path took
// over.
func (f *failing) behind(rod *linkage.Rod) (names []string) {
	run, err := f.moving.With(linkage.Remove(rod))
	if err != nil {
		return nil // there is no run without it
	}
	var seconds []linkage.Element
	for _, r := range run.Rods {
		if r.SecondPath {
			seconds = append(seconds, r)
		}
	}
	if run, err = run.With(linkage.Remove(seconds...)); err != nil {
		return nil
	}
	var loose []linkage.Element
	for _, g := range structureOf(run).looseGroups() {
		for _, p := range g.parts {
			loose = append(loose, p)
		}
	}
	left, err := run.With(linkage.Remove(loose...))
	if err != nil {
		return nil
	}
	for _, name := range f.ends() {
		if !slices.ContainsFunc(left.Parts, func(p *linkage.Part) bool { return p.Name == name }) &&
			!slices.ContainsFunc(left.Outputs, func(o *linkage.Output) bool { return o.Name == name }) {
			names = append(names, name)
		}
	}
	return names
}
