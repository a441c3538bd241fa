package linkage

// Cable joins two parts by what it can pull: a core in a conduit that is held
// at both ends, or an open cable wound on two quadrants.
//
// A conduit cable keeps |From - Conduit[0]| + |To - Conduit[1]| at Core; an open
// one keeps what its quadrants take up together at nothing.
type Cable struct {
	Name  string
	Span  Span
	Index int     // in Run.Cables
	In    *Member // as of a Part

	// From and To are where the core of a conduit cable is held, and Conduit
	// where the conduit is, at the from end and at the to end; all nil for an
	// open cable.
	From, To *PointRef
	Conduit  *[2]PointRef
	// Quadrants are what an open cable is wound on, Radius their radii in the
	// run's unit, and Winds +1 where a positive turn of that quadrant takes the
	// cable up, -1 where it pays it out. Quadrants are nil for a conduit cable.
	Quadrants *[2]*Part
	Radius    [2]float64
	Winds     [2]float64

	// Core is how much core of a conduit cable is outside the conduit, at both
	// ends together, hole to hole and unloaded: as drawn where the file doesn't
	// say. In a pair it follows from the pretension and CoreGiven is false; what
	// its adjusters are turned by shows in Taken.
	Core      float64
	CoreGiven bool
	CoreSpan  Span    // where Core is written; the cable's own where it is left out
	Drawn     float64 // the same distance as drawn
	// Taken is by how much adjusters shorten the core beyond Core, run units:
	// what TurnCable has done.
	Taken float64
	// Grown is by how much a temperature makes the unloaded cable longer, against
	// the airframe that it is strung in, run units; of an open one only.
	Grown float64

	Pushes bool // a push-pull core: it acts both ways
	// Stiffness is of core and sheath together, N per mm or lbf per in; 0 where
	// the file doesn't tell it, nor by Wire and Length.
	Stiffness float64
	// Spring is the side to which a spring returns the driven part: "plus" or
	// "minus" of its own turn or slide; empty: there is none.
	Spring string
	// Length is an open cable's free length (run), run units; 0: not given.
	Length float64
	Wire   *Wire
	Ends   []*CableEnd // its adjusters: at most one a side
	Pair   *Pair       // that it belongs to; nil where it acts alone
}

// Open reports whether it is wound on quadrants.
func (c *Cable) Open() bool { return c.Quadrants != nil }

// Legs returns what a conduit cable keeps together: at the from end and at the to
// end, where its core and where its conduit is held; points of nothing where it isn't
// one.
func (c *Cable) Legs() [2][2]PointRef {
	if c.From == nil || c.To == nil || c.Conduit == nil {
		return [2][2]PointRef{}
	}
	return [2][2]PointRef{{*c.From, c.Conduit[0]}, {*c.To, c.Conduit[1]}}
}

// Joins returns the parts that a cable lets move each other, at its from end and
// at its to end: its quadrants, or where its core is held; where that is fixed,
// what its conduit is held on.
func (c *Cable) Joins() [2]*Part {
	if c.Open() {
		return *c.Quadrants
	}
	var joins [2]*Part
	for i, leg := range c.Legs() {
		joins[i] = leg[0].Part
		if joins[i] != nil && joins[i].Motion == Fixed {
			joins[i] = leg[1].Part
		}
	}
	return joins
}

// hasCore reports whether the core outside its conduit is a length to be set: not
// that of a pair, which follows from the pretension.
func (c *Cable) hasCore() bool { return !c.Open() && c.Pair == nil }

// measure works out a cable's drawn length, and its core where none is set.
func (c *Cable) measure() {
	if c.Open() {
		return
	}
	c.Drawn = 0
	for _, leg := range c.Legs() {
		c.Drawn += leg[0].Get().At.Sub(leg[1].Get().At).Norm()
	}
	if !c.CoreGiven {
		c.Core = c.Drawn
	}
}

// End returns the cable's adjuster on a side; nil where it has none.
func (c *Cable) End(side string) *CableEnd {
	for _, e := range c.Ends {
		if e.Side == side {
			return e
		}
	}
	return nil
}

// Wire is what an open cable is made of.
type Wire struct {
	Construction string  // "7x19" or "7x7"
	Diameter     float64 // in
	Stainless    bool
}

// CableEnd is an adjuster: nuts on a threaded end of a conduit.
type CableEnd struct {
	Cable   *Cable
	Side    string // "conduit-from" or "conduit-to"
	Span    Span
	Thread  Thread
	Left    bool
	Engaged float64 // thread in the nuts or bracket as filed, run units
	// Least is as of a RodEnd.
	Least      float64
	LeastGiven bool
	Most       *float64
	Step       float64 // turns; 0: any
	Turned     float64 // as of a RodEnd: what TurnCable has done
}

// String returns the adjuster's name: "cable.conduit-from".
func (e *CableEnd) String() string {
	if e.Cable == nil {
		return e.Side
	}
	return e.Cable.Name + "." + e.Side
}

// Spare is the thread in the nuts beyond the least.
func (e *CableEnd) Spare() float64 { return e.Engaged - e.Least }

// Pair is two cables drawn up against each other, which together hold a part
// elastically.
type Pair struct {
	Name   string
	Span   Span
	Index  int     // in Run.Pairs
	In     *Member // as of a Part
	Cables [2]*Cable
	// Pretension is in each cable with the driven part held as drawn, N or lbf.
	Pretension float64
}

// ForceUnit is the unit of force that goes with a unit of length.
func (u Unit) ForceUnit() Unit {
	if u == Inches {
		return PoundsForce
	}
	return Newtons
}
