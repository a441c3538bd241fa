package recheck

import (
	"errors"
	"strings"

	"fullfree/linkage"
)

// An aircraft is compared as one run: its elements are named after the runs that they are
// of, and parts that two drawings show are one piece of metal, so that whatever touches it
// on one touches it on both.

// ErrTwoKinds says that of two versions one is an aircraft and the other a run.
var ErrTwoKinds = errors.New("one is an aircraft and the other a single run: compare an aircraft with an aircraft, or a run with a run")

// metal tells which parts of an aircraft are one piece of metal: for each that stands on
// several drawings all of them, in the order of their joints.
type metal map[*linkage.Part][]*linkage.Part

func metalOf(run *linkage.Run) metal { return run.OnePiece() }

// of lists the drawings of the metal of a part, itself among them.
func (m metal) of(p *linkage.Part) []*linkage.Part {
	if all := m[p]; all != nil {
		return all
	}
	return []*linkage.Part{p}
}

// hole lists how other drawings show a hole of a part: by its name.
func (m metal) hole(at linkage.PointRef) (list []hole) {
	point := at.Get()
	if point == nil || at.Part == nil {
		return nil
	}
	for _, same := range m.of(at.Part) {
		for i := range same.Points {
			if same != at.Part && same.Points[i].Name == point.Name {
				list = append(list, hole{same, nil, i})
			}
		}
	}
	return list
}

// aircraft lists what the aircraft block says but for its title, what the block of every
// run does, and which parts are one. A joint is named by the part that another drives: no
// two joints drive one part. Which way it turns is told as it comes out, by what is stated
// or by the directions of both runs.
func (l *lister) aircraft() {
	l.enter(nil)
	l.of(nil)
	l.words("aircraft.craft", string(l.run.Craft))
	for i := range l.list {
		l.ofAll(&l.list[i])
	}
	for _, m := range l.run.Aircraft.Members {
		if m != nil && m.Run != nil {
			l.enter(m)
			l.ofRun(m.Run, m.Name+".")
		}
	}
	for _, s := range l.run.SameParts {
		driven := s.Follows.Of
		l.enter(driven.In)
		touches := []linkage.Element{s.Leads, driven}
		l.of(append(touches, l.onPart(driven)...), s.Leads, driven)
		l.words(driven.Name+".same-part", s.Leads.Name)
		turns := "same"
		if s.Times < 0 {
			turns = "opposite"
		}
		l.words(driven.Name+".turns", turns)
	}
}

// ofAll says that a dimension is of everything: of the run, in an aircraft, that it is in.
func (l *lister) ofAll(d *dimension) {
	if l.in == nil {
		d.whole = true
		return
	}
	for _, p := range l.run.Parts {
		if p.In == l.in {
			d.reaches = append(d.reaches, p)
		}
	}
}

// inRun reports whether an element is of a run of an aircraft, by the run's name.
func inRun(p *linkage.Part, run string) bool { return p.In != nil && p.In.Name == run }

// MemberOf is the run of an aircraft that an element is of; nil where it is of none.
func MemberOf(e linkage.Element) *linkage.Member {
	if !there(e) {
		return nil
	}
	switch e := e.(type) {
	case *linkage.Part:
		return e.In
	case *linkage.Rod:
		return e.In
	case *linkage.Joint:
		return e.In
	case *linkage.Cable:
		return e.In
	case *linkage.Stop:
		return e.In
	case *linkage.Control:
		return e.In
	case *linkage.Output:
		return e.In
	}
	return nil
}

// inAircraft is the name of the run of an aircraft that a joint is of; empty elsewhere.
func (j *Joint) inAircraft() string {
	if in := MemberOf(j.of); in != nil {
		return in.Name
	}
	return ""
}

// memberNamed finds a run of an aircraft by its name; nil where there is none.
func memberNamed(run *linkage.Run, name string) *linkage.Member {
	if run.Aircraft == nil {
		return nil
	}
	for _, m := range run.Aircraft.Members {
		if m != nil && m.Name == name {
			return m
		}
	}
	return nil
}

// ownName is the name of an element in its own file.
func ownName(name string, in *linkage.Member) string {
	if in == nil {
		return name
	}
	return strings.TrimPrefix(name, in.Name+".")
}

// craftOf is what craft something is part of: as the aircraft says or, where that doesn't,
// its own run.
func craftOf(run *linkage.Run, in *linkage.Member) linkage.Craft {
	if home := run.Home(in); run.Craft == "" && home != nil {
		return home.Craft
	}
	return run.Craft
}
