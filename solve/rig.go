package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
)

// Rig is the search of settings: of what every rod end is to be turned, and
// every adjustable stop set to, so that all requirements hold with the largest
// reserve.
//
// The reserve of a requirement is how much of its limit is left, (limit - worst)
// / limit or (worst - limit) / limit; that of a setting its least one. Within
// sameReserve of the best left, settings count as equal: then the fewest turns
// come first, then the largest least spare thread, then the least moved stops,
// then what turns the ends that stand first in the file.
type Rig struct {
	Found    bool         // the best of Settings meets everything
	Settings []RigSetting // best first, mostSettings at most; none where no setting closes
	Searched Searched
	// InTheWay has an entry for everything that the best of Settings doesn't
	// meet; none where Found.
	InTheWay []InTheWay
	// NoMost are the ends without a most: they were taken to go in by furthestIn
	// turns at most, and no farther than their shank.
	NoMost []*linkage.RodEnd
	// Outside are the ends that no step brings between their least and most.
	Outside []*linkage.RodEnd
	// StopsLeft are adjustable stops that were left where they are, since no
	// travel is required: a shorter travel makes most figures prettier.
	StopsLeft []*linkage.Stop
}

// RigSetting is one setting of all that can be set, and how the run fares so.
type RigSetting struct {
	Turns []RigTurn // what is turned at all, in the file's order
	Stops []RigStop // what is moved at all, in the file's order
	// Reserve is nil where no requirement has one: each can only hold or not.
	Reserve *float64
	// Verdict is that of Check; but FallsShort where an end or a pin isn't kept to.
	Verdict Verdict
	// Check is the run judged as set so. The lengths and the thread of its Run are
	// those of the file except between Apply and undo.
	Check *Result
	// Pinned are the rods that miss the length at which their bolts slide in by
	// more than their pins allow.
	Pinned []PinnedRod
}

// RigTurn is how far a rod end is turned. A barrel is told by the first of its
// ends; the other turns with it.
type RigTurn struct {
	End   *linkage.RodEnd
	Turns float64 // out; in where negative
}

// RigStop is where a stop is set.
type RigStop struct {
	Stop *linkage.Stop
	At   float64
}

// Apply sets a run so. It returns what undoes that exactly.
func (s *RigSetting) Apply(run *linkage.Run) (undo func()) {
	var undone []func()
	for _, t := range s.Turns {
		undone = append(undone, run.Turn(t.End, t.Turns))
	}
	for _, t := range s.Stops {
		undone = append(undone, t.apply())
	}
	return func() { undoAll(undone) }
}

func (t RigStop) apply() (undo func()) {
	was := t.Stop.At
	t.Stop.At = t.At
	return func() { t.Stop.At = was }
}

// undoAll undoes changes of a run, the last first.
func undoAll(undone []func()) {
	for _, undo := range slices.Backward(undone) {
		undo()
	}
}

// InTheWay is something that the best setting doesn't meet: exactly one of
// Requirement, Pinned and End is set.
type InTheWay struct {
	What Must
	// Never says that no setting there is meets it.
	Never bool
	// Best is the best of the settings that meet it, and Fails what falls short
	// there; nil where Never, and where no setting that was searched meets it.
	Best  *RigSetting
	Fails []Must
}

// Must is something that a setting must meet: exactly one field is set.
type Must struct {
	Requirement *linkage.Requirement
	Pinned      *PinnedRod      // the rod keeps to the length that it has with the pins in
	End         *linkage.RodEnd // it has thread enough, and doesn't bottom out
}

const (
	// sameReserve is the difference up to which reserves count as equal, shares of
	// a limit: less than a builder can set.
	sameReserve = 1e-3
	// mostSettings is how many settings are told.
	mostSettings = 5
	// mostSweeps is how many times a control is swept in one search, in all: ten
	// seconds at the most for a run of up to sweptRods rods, of which a sweep
	// takes 2 ms or so. With more rods a sweep takes longer by the square of their
	// number, measured, so there are fewer. Every setting that is checked takes
	// each control's sweeps; fewestChecks are checked in any run.
	mostSweeps   = 4000
	sweptRods    = 7
	fewestChecks = 200
	// rigWork is how many times mostWork the checks of one search may take in all,
	// whatever fewestChecks says: then no more are made.
	rigWork = 3
	// furthestIn is by how many turns an end without a most goes in.
	furthestIn = 10
)

// Reserve is how much of its limit a requirement has left, negative where it
// falls short by that share; nil for one that can only hold or not.
func (j *Judgement) Reserve() *float64 {
	if j.Worst == nil || !(j.Limit > 0) {
		return nil
	}
	v := (j.Limit - *j.Worst) / j.Limit
	switch j.Requirement.Kind {
	case linkage.OverCenter:
		if j.NoneFound {
			return nil
		}
		v = -v
	case linkage.RodAngle, linkage.Clearance, linkage.Order, linkage.Taut:
		v = -v
	case linkage.Engagement, linkage.Sense, linkage.Stops:
		return nil
	}
	if math.IsInf(v, 0) || math.IsNaN(v) {
		return nil // a limit next to nothing
	}
	return &v
}

// Reserve is the least reserve of the requirements; nil where none has one.
func (r *Result) Reserve() (least *float64) {
	for i := range r.Requirements {
		if v := r.Requirements[i].Reserve(); v != nil && (least == nil || *v < *least) {
			least = v
		}
	}
	return least
}

// Rig searches the settings. The run is the mechanism's and is not to be read
// elsewhere meanwhile; it is left as it was. progress, which may be nil, is
// called now and then with how many settings have been checked, of how many at
// most. The error is *linkage.Faults where there is nothing to set or nothing
// to set it for.
func (m *Mechanism) Rig(progress func(checked, most int)) (*Rig, error) {
	sweeps := 0
	for _, c := range m.run.Controls {
		sweeps += m.combinations(c)
	}
	rods := max(sweptRods, len(m.run.Rods))
	return m.rig(max(fewestChecks, mostSweeps*sweptRods*sweptRods/(rods*rods*max(1, sweeps))), progress)
}

func (m *Mechanism) rig(budget int, progress func(checked, most int)) (*Rig, error) {
	faults := &linkage.Faults{Source: m.run.Source}
	if len(m.run.Requirements) == 0 {
		faults.Add(m.run.Span, "nothing is required, so no setting is better than another: say what must hold, as in require \"opposite\" { ... }")
		return nil, faults.Err()
	}
	rig := &Rig{}
	g := m.newRigGrid(rig)
	if len(g.axes) == 0 {
		for _, s := range rig.StopsLeft {
			faults.Add(s.Span, "the stop %q isn't moved while no travel is required, since a shorter travel makes most figures prettier: add require \"travel\" { ... }", s.Name)
		}
		if len(faults.List) == 0 {
			nuts := ""
			if slices.ContainsFunc(m.run.Cables, func(c *linkage.Cable) bool { return len(c.Ends) > 0 }) {
				nuts = "; the nuts of cables are left alone, and \"fullfree effect\" tells what they do"
			}
			faults.Add(m.run.Span, "there is nothing to set: give rods their ends, as in end \"from\" { ... }, or a stop adjust = [low, high]%s", nuts)
		}
		return nil, faults.Err()
	}
	s := newRigSearch(g, budget, progress)
	s.search()
	if err := s.tell(rig); err != nil {
		return nil, err
	}
	return rig, nil
}
