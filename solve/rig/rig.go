package rig

import (
	"errors"
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/solve"
	"fullfree/solve/find"
)

// Answer is what the search found of settings: of what every rod end is to be turned, and
// every adjustable stop set to, so that all requirements hold.
//
// The reserve of a requirement is how much of its limit is left, (limit - worst)
// / limit or (worst - limit) / limit, and where it fails by that share it is
// missed; a setting's reserve is the least of those that hold. The best setting
//
//  1. fails in the fewest requirements, and then keeps to the most pins and ends;
//  2. misses least: by the largest share, then by all shares together;
//  3. has the most reserve, but turns no second end, and no third, for less than
//     twice the reserve: of what keeps at least enoughReserve of the most that is to
//     be had, that counts which turns the fewest ends, one at least;
//  4. turns the fewest ends;
//  5. moves least at neutral of what stands right there as filed;
//  6. takes the fewest turns, leaves the largest least spare thread, moves stops
//     least, and turns what stands first in the file.
//
// Reserves and shares within sameReserve count as equal. The run as filed is always
// among what is ranked.
type Answer struct {
	Found    bool      // the best of Settings meets everything
	Settings []Setting // best first, mostSettings at most, those alone that meet everything where Found; none where no setting closes
	// Most is what has the most in reserve, and Fewest what turns the fewest ends,
	// of all that meets everything; nil where that is the best too, and where not
	// Found.
	Most, Fewest *Setting
	// Advised is what a check advises for second paths, where that meets everything and is
	// another than the best.
	Advised *Setting
	// Others are the dimensions each of which would by itself make everything hold, nearest
	// to as filed first; looked for where not Found.
	Others   []find.Single
	Searched Searched
	// InTheWay has an entry for everything that the best of Settings doesn't
	// meet; none where Found.
	InTheWay []InTheWay
	// NoMost are the ends without a most: they were taken to go in by furthestIn
	// turns at most, and no farther than their shank.
	NoMost []*linkage.RodEnd
	// Outside are the ends that no step brings between their least and most.
	Outside []*linkage.RodEnd
	// Cut says that some settings are not told, since it would have taken too long to
	// check them again.
	Cut bool
	// StopsLeft are adjustable stops that were left where they are, since no
	// travel is required: a shorter travel makes most figures prettier.
	StopsLeft []*linkage.Stop
}

// Setting is one setting of all that can be set, and how the run fares so.
type Setting struct {
	Turns []Turn // what is turned at all, in the file's order
	Stops []Stop // what is moved at all, in the file's order
	// Reserve is nil where no requirement has one: each can only hold or not.
	Reserve *float64
	// Verdict is that of Check; but FallsShort where an end or a pin isn't kept to.
	Verdict solve.Verdict
	// Check is the run judged as set so; its Run is that which is set so.
	Check *solve.Result
	// Ends are the ends that are turned, both of a barrel, as they are set then.
	Ends []SetEnd
	// Unfit is all that ends can't be set to (UnfitSettings).
	Unfit []solve.Judgement
	// Pinned are the rods that miss the length at which their bolts slide in by
	// more than their pins allow.
	Pinned []solve.PinnedRod
	// Displaced is what stands right at neutral as filed, and not when set so.
	Displaced []solve.Displaced
	// Moved is what stood elsewhere than right at neutral as filed already, and is moved
	// there when set so.
	Moved []solve.Displaced
}

// SetEnd is a rod end as it is set, in run units.
type SetEnd struct {
	End     *linkage.RodEnd
	Length  float64 // of its rod
	Engaged float64 // thread in the rod
	Spare   float64 // beyond the least
}

// Turn is how far a rod end is turned. A barrel is told by the first of its
// ends; the other turns with it.
type Turn struct {
	End   *linkage.RodEnd
	Turns float64 // out; in where negative
}

// Stop is where a stop is set.
type Stop struct {
	Stop *linkage.Stop
	At   float64
}

// AsFiled reports whether nothing is turned and nothing moved.
func (s *Setting) AsFiled() bool { return len(s.Turns) == 0 && len(s.Stops) == 0 }

// Edits are what makes a run so set of the one that was searched.
func (s *Setting) Edits() (edits []linkage.Edit) {
	for _, t := range s.Turns {
		edits = append(edits, linkage.Turn(t.End, t.Turns))
	}
	for _, t := range s.Stops {
		edits = append(edits, linkage.SetStop(t.Stop, t.At))
	}
	return edits
}

// InTheWay is something that the best setting doesn't meet.
type InTheWay struct {
	What Must
	// Never says that no setting there is meets it.
	Never bool
	// Best is the best of the settings that meet it, and Fails what falls short
	// there; nil where Never, and where no setting that was searched meets it.
	Best  *Setting
	Fails []Must
}

// Must is something that a setting must meet: exactly one field is set.
type Must struct {
	Requirement *linkage.Requirement
	Pinned      *solve.PinnedRod // the rod keeps to the length that it has with the pins in
	End         *linkage.RodEnd  // it has thread enough, and doesn't bottom out
	// Nut is an end of a conduit that is to have thread enough in its nuts, and not too
	// much, where no "engagement" asks for that.
	Nut *linkage.CableEnd
}

const (
	// sameReserve is the difference up to which reserves count as equal, shares of
	// a limit: less than a builder can set.
	sameReserve = 1e-3
	// enoughReserve is the share of the largest reserve beyond which more is worth no
	// more ends than one:
	// the first of what is in hand saves a builder from what the drawing, the parts
	// and the setting are out by, and what comes on top does less, whereas every end
	// that is turned has to be measured, locked and inspected again. What is to be
	// had besides is told.
	enoughReserve = 0.5
	// sameNeutral is the difference up to which what is moved at neutral counts as
	// equal, radians.
	sameNeutral = solve.NeutralTurned * (math.Pi / 180)
	// mostSettings is how many settings are told.
	mostSettings = 5
	// mostChecks is how many times the run is checked at most in the search, and
	// rigWork how many times the work of one answer that may take. A part, toldWork, is
	// kept for checking again what is told.
	mostChecks = 4000
	rigWork    = 2
	toldWork   = 0.2
	// furthestIn is by how many turns an end without a most goes in.
	furthestIn = 10
)

// errNoMechanism is what is told of a mechanism that solve.Compile didn't make.
var errNoMechanism = errors.New("there is no mechanism here: solve.Compile makes one of a run")

// Search searches the settings of a run, which solve.Compile made the mechanism of.
// progress, which may be nil, is called now and then with how many settings have been
// checked, of how many at most. The error is *linkage.Faults where there is nothing to set
// or nothing to set it for, that of Mechanism.Check, or of a mechanism that is none.
func Search(m *solve.Mechanism, progress func(checked, most int)) (*Answer, error) {
	rig, _, err := searched(m, 0, progress)
	return rig, err
}

// searched is Search with a budget of checks, 0 for what solve.MostWork allows; and
// returns what searched.
func searched(m *solve.Mechanism, budget int, progress func(checked, most int)) (*Answer, *rigSearch, error) {
	if m.Run() == nil {
		return nil, nil, errNoMechanism
	}
	faults := &linkage.Faults{Source: m.Run().Source}
	if len(m.Run().Requirements) == 0 {
		faults.Add(m.Run().Span, "nothing is required, so no setting is better than another: say what must hold, as in require \"opposite\" { ... }")
		return nil, nil, faults.Err()
	}
	rig := &Answer{}
	g := newRigGrid(m, rig)
	if len(g.axes) == 0 {
		for _, s := range rig.StopsLeft {
			faults.Add(s.Span, "the stop %q isn't moved while no travel is required, since a shorter travel makes most figures prettier: add require \"travel\" { ... }", s.Name)
		}
		if len(faults.List) == 0 {
			nuts := ""
			if slices.ContainsFunc(m.Run().Cables, func(c *linkage.Cable) bool { return len(c.Ends) > 0 }) {
				nuts = "; the nuts of cables are left alone, and \"fullfree effect\" tells what they do"
			}
			faults.Add(m.Run().Span, "there is nothing to set: give rods their ends, as in end \"from\" { ... }, or a stop adjust = [low, high]%s", nuts)
		}
		return nil, nil, faults.Err()
	}
	s := newRigSearch(g, budget, progress)
	if !s.filed.closes { // a fault of the file, as a setting held beyond a stop, is no matter of settings
		if _, err := m.Check(); err != nil {
			return nil, nil, err
		}
	}
	s.search()
	if err := s.tell(rig); err != nil {
		return nil, nil, err
	}
	return rig, s, nil
}
