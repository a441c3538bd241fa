package recheck

import (
	"slices"

	"fullfree/linkage"
)

// mostKept is how many causes of a kind are kept of what has many: nobody reads more, and
// a large run of which all changed would have as many for every line.
const mostKept = 3

// causes are what something follows from: the first mostKept of either kind.
type causes struct {
	changes []*Change
	opened  []Joint
	more    bool // there are others
}

func (c causes) any() bool { return len(c.changes)+len(c.opened) > 0 }

func (c *causes) add(other causes) {
	c.more = c.more || other.more
	for _, change := range other.changes {
		switch {
		case slices.Contains(c.changes, change):
		case len(c.changes) == mostKept:
			c.more = true
		default:
			c.changes = append(c.changes, change)
		}
	}
	for _, joint := range other.opened {
		switch {
		case slices.ContainsFunc(c.opened, func(j Joint) bool { return j.Run == joint.Run && j.Name == joint.Name }):
		case len(c.opened) == mostKept:
			c.more = true
		default:
			c.opened = append(c.opened, joint)
		}
	}
}

// name tells an element from all others of its run, in either version.
type name struct{ kind, name string }

func nameOf(e linkage.Element) name {
	if !there(e) {
		return name{}
	}
	switch e := e.(type) {
	case *linkage.Part:
		return name{"part", e.Name}
	case *linkage.Rod:
		return name{"rod", e.Name}
	case *linkage.Joint:
		return name{"joint", e.Name}
	case *linkage.Cable:
		return name{"cable", e.Name}
	case *linkage.Stop:
		return name{"stop", e.Name}
	case *linkage.Control:
		return name{"control", e.Name}
	case *linkage.Output:
		return name{"output", e.Name}
	}
	return name{}
}

// marks are what changes and opened joints touch and reach in the new run.
type marks struct {
	run    *linkage.Run
	groups groups
	// touched are the elements whose joints are opened, holes the holes that are, by name,
	// and reached the groups of parts that any of it is in; whole is what is of everything.
	touched map[name]*causes
	holes   map[string]*causes
	reached map[string]*causes
	whole   causes
	// following are changes that reach nothing by themselves, by the run of the aircraft
	// that they are in.
	following map[string]*causes
}

func newMarks(run *linkage.Run) *marks {
	return &marks{run: run, groups: groupsOf(run), touched: map[name]*causes{}, holes: map[string]*causes{}, reached: map[string]*causes{}, following: map[string]*causes{}}
}

// add adds what something follows from to what is kept under a key.
func add[K comparable](kept map[K]*causes, key K, c causes) {
	if kept[key] == nil {
		kept[key] = &causes{}
	}
	kept[key].add(c)
}

// changed marks what a change touches and reaches, as the versions have the dimension.
func (m *marks) changed(change *Change, as []*dimension) {
	c := causes{changes: []*Change{change}}
	found := false
	for _, d := range as {
		found = found || d.builds
		if d.follows {
			add(m.following, d.in, c)
			found = true
		}
		if d.whole {
			m.whole.add(c)
			found = true
		}
		for _, e := range d.touches {
			add(m.touched, nameOf(e), c)
			found = m.reach(e, c) || found
		}
		for _, e := range d.reaches {
			found = m.reach(e, c) || found
		}
	}
	if !found {
		m.reachAll(as[0].in, c)
	}
}

// reachAll marks everything in a run of the aircraft where nothing tells which control
// something belongs to: then to each. Of an aircraft that hasn't got the run any more,
// nothing is left to mark.
func (m *marks) reachAll(in string, c causes) {
	if in == "" {
		m.whole.add(c)
		return
	}
	for _, p := range m.run.Parts {
		if inRun(p, in) {
			m.reach(p, c)
		}
	}
}

// open marks what an opened joint touches and reaches.
func (m *marks) open(j *Joint) {
	c := causes{opened: []Joint{*j}}
	if !there(j.of) {
		m.whole.add(c)
		return
	}
	add(m.touched, nameOf(j.of), c)
	if !m.reach(j.of, c) {
		m.reachAll(j.inAircraft(), c)
	}
}

// reach marks the groups of an element of either version; false where the new run has
// none of them.
func (m *marks) reach(e linkage.Element, c causes) bool {
	found := false
	for _, p := range moving(e) {
		if group := m.groups.of(p.Name); m.groups[p.Name] != "" {
			add(m.reached, group, c)
			found = true
		}
	}
	return found
}

// spread marks what follows once all is marked: what another drawing shows of a part, the
// holes of what was touched, which others may share, and everything of a run in which
// nothing else was reached.
func (m *marks) spread() {
	metal := metalOf(m.run)
	m.spreadMetal(metal)
	opened := func(at linkage.PointRef, c causes) {
		add(m.holes, at.String(), c)
		for _, same := range metal.hole(at) {
			add(m.holes, linkage.PointRef{Part: same.part, Point: same.point}.String(), c)
		}
	}
	for _, r := range m.run.Rods {
		if c := m.touched[nameOf(r)]; c != nil {
			opened(r.From, *c)
			opened(r.To, *c)
		}
	}
	for _, j := range m.run.Joints {
		if c := m.touched[nameOf(j)]; c != nil {
			opened(j.Of[0], *c)
			opened(j.Of[1], *c)
		}
	}
	for _, k := range m.run.Cables {
		if c := m.touched[nameOf(k)]; c != nil && !k.Open() {
			for _, leg := range k.Legs() {
				opened(leg[0], *c)
			}
		}
	}
	m.spreadFollowing()
}

// spreadMetal marks every drawing of a part alike: it has one pivot.
func (m *marks) spreadMetal(metal metal) {
	for _, p := range m.run.Parts {
		all := metal.of(p)
		if all[0] != p || len(all) == 1 {
			continue
		}
		var c causes
		for _, same := range all {
			if own := m.touched[nameOf(same)]; own != nil {
				c.add(*own)
			}
		}
		for _, same := range all {
			if c.any() {
				add(m.touched, nameOf(same), c)
			}
		}
	}
}

// spreadFollowing marks all of a run that a change is in which shows nowhere in it.
func (m *marks) spreadFollowing() {
	if m.whole.any() {
		return
	}
	if c := m.following[""]; c != nil && len(m.reached) == 0 {
		m.whole.add(*c)
	}
	if m.run.Aircraft == nil {
		return
	}
	for _, in := range m.run.Aircraft.Members {
		if in == nil {
			continue
		}
		c := m.following[in.Name]
		shows := slices.ContainsFunc(m.run.Parts, func(p *linkage.Part) bool {
			return inRun(p, in.Name) && m.reached[m.groups.of(p.Name)] != nil
		})
		if c != nil && !shows {
			m.reachAll(in.Name, *c)
		}
	}
}

// touchedAt tells what a line's own joint, rod, cable or stop was touched by.
func (m *marks) touchedAt(line *Line) causes {
	var all causes
	switch line.Step {
	case StepJoints, StepJoined, StepRods, StepFitCables, StepDrawUp, StepStops:
	default:
		return all
	}
	if there(line.About) {
		if c := m.touched[nameOf(line.About)]; c != nil {
			all.add(*c)
		}
	}
	if c := m.holes[line.At]; c != nil && line.At != "" {
		all.add(*c)
	}
	return all
}

// reachedAt tells what reaches a line from anywhere in its control.
func (m *marks) reachedAt(line *Line) causes {
	all := causes{}
	all.add(m.whole)
	of := []*linkage.Part(nil)
	if line.About != nil {
		of = moving(line.About)
	}
	if len(of) == 0 { // it is of everything, in an aircraft of all in its run
		one := memberNamed(m.run, line.Run) != nil
		for _, p := range m.run.Parts {
			if !one || inRun(p, line.Run) {
				of = append(of, moving(p)...)
			}
		}
	}
	for _, p := range of {
		if c := m.reached[m.groups.of(p.Name)]; c != nil {
			all.add(*c)
		}
	}
	return all
}

// runsReached names the runs of an aircraft that anything reaches.
func (m *marks) runsReached() (list []string) {
	if m.run.Aircraft == nil {
		return nil
	}
	for _, in := range m.run.Aircraft.Members {
		if in != nil && m.reachedAt(&Line{Run: in.Name}).any() {
			list = append(list, in.Name)
		}
	}
	return list
}

// Joints lists what can be opened and closed again in a run: both ends of every rod and
// cable, what a conduit is held by, the pivot, ball or guide of every part, and what makes
// points of two parts one. Of an aircraft
// each is of the run that it is in, by its name; another run is called as told.
func Joints(run *linkage.Run, called string) []Joint {
	var list []Joint
	if run == nil {
		return nil
	}
	add := func(of linkage.Element, name, end string) {
		j := Joint{Run: called, Name: name + "." + end, of: of}
		if in := j.inAircraft(); in != "" {
			j.Run = in
		}
		list = append(list, j)
	}
	for _, p := range run.Parts {
		if p.HasPivot() || p.Motion == linkage.Slides {
			add(p, p.Name, "pivot")
		}
		if p.Motion == linkage.Slides {
			add(p, p.Name, "guide")
		}
	}
	for _, r := range run.Rods {
		add(r, r.Name, "from")
		add(r, r.Name, "to")
	}
	for _, j := range run.Joints {
		add(j, j.Name, "joint")
	}
	for _, c := range run.Cables {
		add(c, c.Name, "from")
		add(c, c.Name, "to")
		if !c.Open() {
			add(c, c.Name, "conduit-from")
			add(c, c.Name, "conduit-to")
		}
	}
	return list
}
