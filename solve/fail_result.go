package solve

import "fullfree/linkage"

// Severity is how bad it is that an element goes.
type Severity int

// The severities, worst first.
const (
	Dangerous Severity = 1 // a control is reversed, jammed, or able to go over center
	Lost      Severity = 2 // a control moves nothing any more of what it moved
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
	End   string // "from" or "to": that end of Rod or Cable, not the whole
	Cable *linkage.Cable
	Pivot *linkage.Part // the bolt that it turns on
	Stop  *linkage.Stop
	Part  *linkage.Part
}
