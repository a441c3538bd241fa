package linkage

// RodEnd is a threaded end of a rod.
type RodEnd struct {
	Rod    *Rod
	Side   string // "from" or "to"
	Span   Span
	Thread Thread
	Left   bool // a left-hand thread
	// Engaged is the length of thread in the rod as filed, in the run's unit.
	Engaged float64
	// Least is the thread that must be in the rod: 1.5 diameters where the file
	// doesn't say (LeastGiven false), which is common practice; the maker's
	// figure rules.
	Least      float64
	LeastGiven bool
	Most       *float64 // where it bottoms out; nil: not given
	// Step is the turns by which it can be set; 0: any (a barrel turned in place).
	// StepGiven says that the file gives it.
	Step      float64
	StepGiven bool
	Shank     *float64 // length of the end's own thread; nil: not given
	JointPlay *float64 // diametral play of its joint, run units; nil: the rod's
	// Turned is by how many turns out it was turned since the file: what Turn
	// has done.
	Turned float64
}

// String returns the end's name: "rod.from" or "rod.to".
func (e *RodEnd) String() string {
	if e.Rod == nil {
		return e.Side
	}
	return e.Rod.Name + "." + e.Side
}

// Spare is the thread in the rod beyond the least.
func (e *RodEnd) Spare() float64 { return e.Engaged - e.Least }

// Exposed is the thread outside the rod; nil where the shank isn't given.
func (e *RodEnd) Exposed() *float64 {
	if e.Shank == nil {
		return nil
	}
	v := *e.Shank - e.Engaged
	return &v
}

// Thread is a screw thread.
type Thread struct {
	Name     string  // as in the file: "1/4-28", "10-32", "M6x1"
	Pitch    float64 // run units
	Diameter float64 // major, run units
}

// End returns the rod's end on a side; nil where it has none.
func (r *Rod) End(side string) *RodEnd {
	for _, e := range r.Ends {
		if e.Side == side {
			return e
		}
	}
	return nil
}

// Barrel reports whether both ends can be set to any part of a turn, so that
// the rod is a barrel and a turn of it turns both.
func (r *Rod) Barrel() bool {
	return len(r.Ends) == 2 && r.Ends[0].Step == 0 && r.Ends[1].Step == 0
}

// PerTurn is by how much a turn out of the end lengthens the rod, run units: its
// pitch; of a barrel the sum of both pitches where the hands are opposite, the
// difference where they are alike.
func (e *RodEnd) PerTurn() float64 {
	per := e.Thread.Pitch
	if e.Rod == nil {
		return per
	}
	for _, other := range e.Rod.Ends {
		switch {
		case other == e || !e.Rod.Barrel():
		case other.Left != e.Left:
			per += other.Thread.Pitch
		default:
			per -= other.Thread.Pitch
		}
	}
	return per
}

// Pin holds a part at a position while the rods are fitted.
type Pin struct {
	Name  string
	Span  Span
	Index int     // in Run.Pins
	In    *Member // as of a Part
	Of    *Part
	At    float64 // degrees or a length, from the drawn position
	// Within is how far a bolt hole may be out and the bolt still slides in, run
	// units; WithinGiven says that the file gives it.
	Within      float64
	WithinGiven bool
}
