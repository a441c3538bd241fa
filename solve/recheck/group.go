package recheck

import (
	"reflect"
	"slices"

	"fullfree/linkage"
)

// atPoint lists the rods, joints and cables that end at a point, and the parts that turn on it:
// what is opened when the hole is made elsewhere.
func (l *lister) atPoint(at linkage.PointRef) []linkage.Element {
	list := slices.Clip(l.joined[hole{at.Part, at.Rod, at.Point}])
	for _, same := range l.same.hole(at) {
		list = append(list, l.joined[same]...)
	}
	return list
}

// hole is a point of a part or rod, wherever it is named.
type hole struct {
	part  *linkage.Part
	rod   *linkage.Rod
	point int
}

// joinedAt finds what is joined at every hole of a run: rods, then joints, cables and parts.
func joinedAt(run *linkage.Run) map[hole][]linkage.Element {
	joined := map[hole][]linkage.Element{}
	add := func(r *linkage.PointRef, e linkage.Element) {
		if r == nil {
			return
		}
		at := hole{r.Part, r.Rod, r.Point}
		if list := joined[at]; len(list) == 0 || list[len(list)-1] != e {
			joined[at] = append(list, e)
		}
	}
	for _, r := range run.Rods {
		add(&r.From, r)
		add(&r.To, r)
	}
	for _, j := range run.Joints {
		add(&j.Of[0], j)
		add(&j.Of[1], j)
	}
	for _, c := range run.Cables {
		add(c.From, c)
		add(c.To, c)
		if c.Conduit != nil {
			add(&c.Conduit[0], c)
			add(&c.Conduit[1], c)
		}
	}
	for _, p := range run.Parts {
		add(p.Carrier, p)
		add(p.NamedPivot, p)
	}
	return joined
}

// onPart lists what ends on a part or is carried by it: what is opened when the part is
// put elsewhere, or another in its place.
func (l *lister) onPart(p *linkage.Part) []linkage.Element {
	var list []linkage.Element
	for _, same := range l.same.of(p) {
		for i := range same.Points {
			list = append(list, l.joined[hole{same, nil, i}]...)
		}
		for _, c := range l.run.Cables {
			if c.Open() && (c.Quadrants[0] == same || c.Quadrants[1] == same) {
				list = append(list, c)
			}
		}
	}
	return list
}

// ofRequirement lists what a requirement is about; nothing where that is the whole run.
func ofRequirement(q *linkage.Requirement) []linkage.Element {
	var list []linkage.Element
	part := func(p *linkage.Part) {
		if p != nil {
			list = append(list, p)
		}
	}
	rod := func(r *linkage.Rod) {
		if r != nil {
			list = append(list, r)
		}
	}
	for _, s := range q.Of {
		part(s.Part)
		if s.Output != nil {
			list = append(list, s.Output)
		}
		if s.Control != nil {
			list = append(list, s.Control)
		}
	}
	for i := range 2 {
		part(q.Between[i].Part)
		rod(q.Between[i].Rod)
		part(q.Points[i].Part)
		rod(q.Points[i].Rod)
	}
	for i := range q.Places {
		part(q.Places[i].Place.Part)
		rod(q.Places[i].Place.Rod)
	}
	if q.Pair != nil {
		list = append(list, q.Pair.Cables[0], q.Pair.Cables[1])
	}
	for _, s := range []*linkage.Stop{q.First, q.Then} {
		if s != nil {
			list = append(list, s)
		}
	}
	if q.Control != nil {
		list = append(list, q.Control)
	}
	return list
}

// moving lists the moving parts that an element is of.
func moving(e linkage.Element) (list []*linkage.Part) {
	if !there(e) {
		return nil
	}
	part := func(p *linkage.Part) {
		if p != nil && p.Motion != linkage.Fixed {
			list = append(list, p)
		}
	}
	var point func(r linkage.PointRef, deep int)
	rod := func(r *linkage.Rod, deep int) {
		if r != nil && deep < mostHung {
			point(r.From, deep+1)
			point(r.To, deep+1)
		}
	}
	point = func(r linkage.PointRef, deep int) {
		part(r.Part)
		rod(r.Rod, deep)
	}
	switch e := e.(type) {
	case *linkage.Part:
		part(e)
	case *linkage.Rod:
		rod(e, 0)
	case *linkage.Joint:
		point(e.Of[0], 0)
		point(e.Of[1], 0)
	case *linkage.Cable:
		for _, leg := range e.Legs() {
			point(leg[0], 0)
			point(leg[1], 0)
		}
		if e.Open() {
			part(e.Quadrants[0])
			part(e.Quadrants[1])
		}
	case *linkage.Control:
		part(e.Of)
	case *linkage.Output:
		part(e.Part)
		if e.Point != nil {
			point(*e.Point, 0)
		}
	case *linkage.Stop:
		part(e.Of)
		for _, metal := range e.Touch {
			part(metal.Part)
			rod(metal.Rod, 0)
		}
	}
	return list
}

// there reports whether an element is one: no nil of any kind.
func there(e linkage.Element) bool { return e != nil && !reflect.ValueOf(e).IsNil() }

// mostHung is how many rods may hang on one another: the reader refuses circles, but a
// run made by hand need not have been through it.
const mostHung = 64

// groups tells which parts move together, from hand to blade: each part's group is the
// name of one of them.
type groups map[string]string

// of finds the group of a part, and brings the part nearer to it for the next time.
func (g groups) of(name string) string {
	for g[name] != "" && g[name] != name {
		if beyond := g[g[name]]; beyond != "" {
			g[name] = beyond
		}
		name = g[name]
	}
	return name
}

func (g groups) join(parts []*linkage.Part) {
	for i, p := range parts {
		if g[p.Name] == "" {
			g[p.Name] = p.Name
		}
		if i > 0 {
			g[g.of(p.Name)] = g.of(parts[0].Name)
		}
	}
}

// groupsOf finds the groups of a run: what rods, joints, cables, carriers and stops join, and in
// an aircraft parts of two runs that are one.
func groupsOf(run *linkage.Run) groups {
	g := groups{}
	for _, p := range run.Parts {
		joined := moving(p)
		if p.Carrier != nil && p.Carrier.Part != nil {
			joined = append(joined, moving(p.Carrier.Part)...)
		}
		g.join(joined)
	}
	for _, r := range run.Rods {
		g.join(moving(r))
	}
	for _, j := range run.Joints {
		g.join(moving(j))
	}
	for _, c := range run.Cables {
		g.join(moving(c))
	}
	for _, s := range run.Stops {
		g.join(moving(s))
	}
	for _, s := range run.SameParts {
		g.join(append(moving(s.Leads), moving(s.Follows)...))
	}
	return g
}
