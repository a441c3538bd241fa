// Layer: questions.

package solve

import "fullfree/linkage"

// Severity is how bad it is that an element goes.
type Severity int

// The severities, worst first. The zero value is that it can't be told.
const (
	NotKnown  Severity = 0
	Dangerous Severity = 1 // a control is reversed, jammed, or able to go over center where it couldn't
	Lost      Severity = 2 // an output, or what a hand or foot moves, follows no more
	Reduced   Severity = 3 // an output reaches less than 99 % of its intact range
	NoEffect  Severity = 4
)

// How an element goes.
type How string

// The ways.
const (
	Parted How = "parted" // taken away
	Seized How = "seized" // locked at neutral; a rod end: its rod fixed to its part
)

// Element is one thing that may go: exactly one of its fields but End is set.
type Element struct {
	Rod   *linkage.Rod
	End   string // "from" or "to": that end of Rod, not the whole
	Cable *linkage.Cable
	Joint *linkage.Joint
	Pivot *linkage.Part // the bolt that it turns on, or its ball
	Stop  *linkage.Stop
	Part  *linkage.Part
}

// Failures is what is left of a run when each of its elements goes by itself.
type Failures struct {
	Run *linkage.Run
	// Cases are worst first, then in the order of elements: rods, cables, joints, pivot
	// bolts and stops parted, parts, rod ends and cables seized, each in the
	// file's order.
	Cases []Failure
	// LeftOut is how many cases were not looked at, since there is more to compute than
	// is for one answer: the last ones in the order of elements.
	LeftOut int
	// AtNeutral says that all was looked at with the other controls at neutral alone: of an
	// aircraft, and where all their held settings would leave cases out.
	AtNeutral bool
	// Hands are by control the parts that hands and feet are on: its own, and
	// what is required to go together with or opposite to one of them.
	Hands [][]*linkage.Part
	// Shared are what both paths go through, by what they lead to; only of what
	// some second path carries when a driving rod is gone.
	Shared []SharedPath
	// OnCenter are on-center points that the travel has as filed, which are not
	// counted again.
	OnCenter []OnCenter
}

// SharedPath is the parts without which something follows no more though there
// is a second path to it.
type SharedPath struct {
	To    string // an output or part
	Parts []*linkage.Part
}

// Failure is what is left when one element goes and everything else is as drawn.
// What it names is of the run as filed.
type Failure struct {
	Element  Element
	How      How
	Severity Severity
	// Trouble is why what is left can't be told; nil where it can be.
	Trouble *Trouble
	// OverCenter says that the travel of a control, stop to stop, now ends on center or
	// runs over a dead center, on a side on which it doesn't as filed; where nothing
	// stops it any more as far as the file explores, beyond that too. nil: it can't be
	// told.
	OverCenter *bool
	// OnCenter are the points where it does, the first on each side.
	OnCenter []OnCenter
	Loose    []LoosePart
	Controls []ControlLeft // every control, in the file's order
	Reaches  []Reach       // what follows a control as filed: by control, then parts, then outputs
	Lost     []string      // controls, parts under a hand, and outputs that follow no more
	Carried  []Carried     // second paths that take over
	OneWay   []OneWay      // what is left of pairs of cables
	// Undoubled are the second paths that double nothing any more: gone, loose, or
	// carrying what they doubled.
	Undoubled []*linkage.Rod
	// Takes are the parts under hands that a seizure locks, where the run has
	// several, and TakesAll says that no other is left; nil where the run has one
	// or none is locked.
	Takes    []*linkage.Part
	TakesAll *bool
	// Shares says what a part is on both paths to.
	Shares []string
}

// OnCenter is an on-center point in the travel of a control.
type OnCenter struct {
	Control *linkage.Control
	Critical
	Held []Held // where the others stand, where that is not at neutral
	// Beyond says that it lies beyond what the file explores, with nothing in
	// the way to it.
	Beyond bool
}

// LoosePart is a part that nothing holds any more, the controls at neutral.
type LoosePart struct {
	Part *linkage.Part
	Unit linkage.Unit
	// Low and High are between what it is free, from the drawn position, by its
	// own turn or slide; nil where nothing ends it on that side: a turn goes
	// right round, a slide farther than the run is large.
	Low, High *float64
	Ends      [2]End
	// Taut is the cable that comes taut at Low or at High, in the place of Ends.
	Taut [2]*linkage.Cable
	Why  LooseWhy // Ranged: it has a range
	// Spring is the side to which a spring draws it, "plus" or "minus"; empty:
	// none is told.
	Spring string
}

// OneWay is a cable of a pair that is left alone: it only pulls.
type OneWay struct {
	Cable   *linkage.Cable
	Part    *linkage.Part // that it holds
	Control *linkage.Control
	// Side is the side of the control to which it still pulls the part: "plus" or
	// "minus". To the other the part has to be brought by something else.
	Side string
	// Filed is how stiffly the pair holds the part at neutral, and Left how stiffly
	// the cable alone does, unloaded, against being moved off the cable; the other
	// way nothing holds it. In Unit.
	Filed, Left float64
	Unit        linkage.Unit // "N mm/deg", "lbf in/deg", "N/mm" or "lbf/in"
}

// LooseWhy is why the range of a loose part can't be told.
type LooseWhy int

// The reasons.
const (
	Ranged   LooseWhy = iota
	Unbolted          // its own bolt is gone, so nothing holds it to its place
	Rides             // it is carried by a part that is loose, or whose bolt is gone
	Afloat            // it has no pivot: it goes any way that its rods let it
	Several           // how far hangs on how others stand that are loose by themselves
	TooMany           // too many parts are loose together
	Unclear           // it stands on center there, or couldn't be followed
)

// ControlLeft is how far a control still goes, the others at neutral.
type ControlLeft struct {
	Control *linkage.Control
	Unit    linkage.Unit
	Gone    bool // its own part hangs loose
	// Locked says that it can't be moved, by itself; nil: it can't be told, for
	// what seized would hardly have to move.
	Locked *bool
	// Would is how far, from neutral, what seized would have had to move: degrees
	// or run units (WouldUnit).
	Would       float64
	WouldUnit   linkage.Unit
	Filed, Left [2]float64 // stop to stop; Left is nothing where it is gone or locked
	Ends        [2]End     // of what is left
}

// Reach is how far a part, one freedom of a floating part, or an output goes as
// one control moves over its travel with the others at neutral.
type Reach struct {
	Control     *linkage.Control
	Name        string // of a floating part "beam.x", "beam.y", "beam.turn"
	Unit        linkage.Unit
	Part        *linkage.Part // or
	Output      *linkage.Output
	Filed, Left [2]float64
	// Follows says that it still goes with the control.
	Follows bool
	// Share is how much of what it reached it still reaches, the least over all
	// held settings of the others.
	Share float64
	// Own says that an output is this control's: it moves it at least a tenth as
	// far as any control does.
	Own      bool
	Reversed bool // it goes the other way, at neutral
}

// Carried is a second path that takes over.
type Carried struct {
	Rod   *linkage.Rod
	Slack []Slack
}

// Slack is how far something can be moved by hand, each way from neutral, by the
// play of a second path that carries it.
type Slack struct {
	Name string
	Unit linkage.Unit
	Most float64
}
