package linkage

import "strings"

// Aircraft is what several runs that are joined part to part make together. All of them
// are one Run then: its elements are named "run.name", and each tells by its In which
// member it is of. Each keeps its own drawing: its coordinates, directions and unit. The
// runs share no place.
type Aircraft struct {
	Members []*Member // in the file's order
}

// Member is a run of an aircraft.
type Member struct {
	Name   string // in the aircraft
	Span   Span   // its block in the aircraft file
	Index  int    // in Aircraft.Members
	File   string // as the aircraft file names it
	Source *Source
	// Run is the run by itself, as its file has it: its title, unit, directions and what
	// else stands in its run block hold in the aircraft too.
	Run *Run
}

// Opener reads a file that an aircraft file names, by that name.
type Opener func(name string) (*Source, error)

// SamePart is one piece of metal on two drawings: a part of one run, and the part of
// another run's control. That control is none in the aircraft: its part goes as the other
// one does from the drawn position.
type SamePart struct {
	Name  string // free text
	Span  Span
	Index int // in Run.SameParts
	// Leads is what drives. Follows is the control that it takes the place of: what its part
	// does is read by it, and it is not in Run.Controls.
	Leads   *Part
	Follows *Control
	// Times is by how much the part of Follows goes for each unit that Leads goes: 1 or -1,
	// and for slides in different units the ratio of these.
	Times float64
	// OnCarriers says that both are told against what carries them, which is one piece of
	// metal too.
	OnCarriers bool
	// Aligned says that both drawings show it in one position, by holes of one name.
	Aligned bool
}

// Home returns the run whose unit, directions and view hold for something of this run:
// that of a member of an aircraft by itself, else this run.
func (run *Run) Home(in *Member) *Run {
	if in != nil {
		return in.Run
	}
	return run
}

// UnitsOf is the unit of length of something of this run.
func (run *Run) UnitsOf(in *Member) Unit {
	if home := run.Home(in); home != nil {
		return home.Units
	}
	return NoUnit
}

// In returns the member that a subject is of; nil where it is of none.
func (s Subject) In() *Member {
	switch {
	case s.Part != nil:
		return s.Part.In
	case s.Output != nil:
		return s.Output.In
	case s.Control != nil:
		return s.Control.In
	}
	return nil
}

// In returns the member that a point is of; nil where it is of none.
func (r PointRef) In() *Member {
	switch {
	case r.Rod != nil:
		return r.Rod.In
	case r.Part != nil:
		return r.Part.In
	}
	return nil
}

// In returns the member that metal is of; nil where it is of none.
func (r FeatureRef) In() *Member { return PointRef{Part: r.Part, Rod: r.Rod}.In() }

// FollowerOf returns the joint of which a control is no control any more; nil where it
// is one.
func (run *Run) FollowerOf(c *Control) *SamePart {
	if run == nil || c == nil {
		return nil
	}
	for _, s := range run.SameParts {
		if s.Follows == c {
			return s
		}
	}
	return nil
}

// OnePiece lists for each part that several drawings of an aircraft show all of them, itself
// among them, what drives first.
func (run *Run) OnePiece() map[*Part][]*Part {
	drawings := map[*Part][]*Part{}
	if run == nil {
		return drawings
	}
	for _, s := range run.SameParts {
		if s == nil || s.Leads == nil || s.Follows == nil || s.Follows.Of == nil {
			continue
		}
		var all []*Part
		for _, p := range []*Part{s.Leads, s.Follows.Of} {
			if drawings[p] == nil {
				drawings[p] = []*Part{p}
			}
			all = append(all, drawings[p]...)
		}
		for _, p := range all {
			drawings[p] = all
		}
	}
	return drawings
}

// Only returns the run of one member out of an aircraft: its elements alone, as they are
// now, with the unit, directions and title of its own file. Their names keep the member's
// before them. It has the controls of the aircraft that are its own; a requirement that is
// judged under another run's names that. It is to be told of and drawn, not to be solved.
func (run *Run) Only(member *Member) *Run {
	if run == nil || member == nil || member.Run == nil {
		return run
	}
	gone := map[Element]bool{}
	for _, p := range run.Parts {
		gone[p] = p.In != member
	}
	for _, r := range run.Rods {
		gone[r] = r.In != member
	}
	for _, c := range run.Cables {
		gone[c] = c.In != member
	}
	for _, m := range run.Measurements {
		gone[m] = m.In != member
	}
	// What is required under another run's control is the member's all the same.
	asked := *run
	asked.Requirements = nil
	for _, q := range run.Requirements {
		if q.In == member {
			bare := *q
			bare.Control, bare.Through = nil, nil
			asked.Requirements = append(asked.Requirements, &bare)
		}
	}
	only := asked.copied(gone)
	for _, q := range run.Requirements {
		if own := only.Requirement(q); own != nil && q.In == member {
			own.Control, own.Through = q.Control, q.Through
			if c := only.Control(q.Control); c != nil {
				own.Control = c
			}
		}
	}
	own := member.Run
	only.Source, only.Span, only.Name, only.Units, only.View = member.Source, own.Span, own.Name, own.Units, own.View
	only.Forward, only.Up, only.Right = own.Forward, own.Up, own.Right
	only.Sketch, only.Uncertain, only.UncertainGiven = own.Sketch, own.Uncertain, own.UncertainGiven
	only.RiggedAt, only.Airframe, only.Temperature, only.Plane = own.RiggedAt, own.Airframe, own.Temperature, own.Plane
	only.Tolerance = own.Tolerance
	only.Aircraft, only.SameParts = nil, nil
	if only.Craft == "" {
		only.Craft = own.Craft
	}
	return only
}

// FileChanges are changes of one file.
type FileChanges struct {
	Member  *Member // nil of a run by itself
	Source  *Source // the member's; nil of a run by itself
	Changes []Change
}

// ChangesByFile parts changes of a run by the files that they are for: of an aircraft by
// its members, whose dimensions are named there without the member's name.
func ChangesByFile(run *Run, changes []Change) (list []FileChanges) {
	if run == nil || run.Aircraft == nil {
		return []FileChanges{{Changes: changes}}
	}
	for _, m := range run.Aircraft.Members {
		of := FileChanges{Member: m, Source: m.Source}
		for _, c := range changes {
			if name, own := strings.CutPrefix(c.Dimension, m.Name+"."); own {
				c.Dimension = name
				of.Changes = append(of.Changes, c)
			}
		}
		if len(of.Changes) > 0 {
			list = append(list, of)
		}
	}
	return list
}
