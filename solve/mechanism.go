// Layer: mechanism.

package solve

import (
	"fullfree/linkage"
)

// Mechanism is a run compiled: flat lists of bodies, freedoms and constraints, and
// the steps that close a pose one after another. It isn't changed by solving, so that
// any number of goroutines may use it at once.
type Mechanism struct {
	run  *linkage.Run
	size float64 // extent of the drawing, run units; of an aircraft the largest of its runs
	// sizes are those of the members of an aircraft, each in its own unit; nil of a run by itself.
	sizes []float64
	// center is the place of the drawing from which everything is measured: where
	// the drawing lies far from its own origin, its middle, so that rounding
	// stays that of the run's size.
	center      vec
	detail      float64 // the smallest metal that may touch something, run units
	bodies      []body  // bodies[0] is the airframe; then the moving parts, then the rods with points
	freedoms    []freedom
	constraints []constraint // one a rod, one a cable that acts alone, one a pair, some a joint, each in the file's order; then what parts keep
	pulls       []pull       // by linkage.Pair.Index
	steps       []step
	fourbars    []fourbar // in the order of their steps
	flats       []flat    // by fourbar
	inputs      []int     // the freedom that each control moves
	drives      *reaches  // of an aircraft; nil of a run by itself
	partBody    []int     // by linkage.Part.Index
	rodBody     []int     // by linkage.Rod.Index; -1 where a rod has no points of its own
	placing     []int     // every body but the airframe, carriers before carried
	remains     []int     // bodies that no step places for good
	hasBlocks   bool      // some step isn't closed by algebra
	stride      float64   // how many times longer than usual the steps along a control are
	// atNeutral says that travels of what is left are swept with the others at neutral alone.
	atNeutral bool
	tally     *float64 // where its work is counted besides; nil: nowhere

	// Progress, which may be nil, is told by Check how many sweeps are done, and by
	// AddBands how many dimensions, and of how many.
	Progress func(what string, done, of int)

	// lean says that only what is judged is followed, and coarse that a sweep is looked at
	// only where something is expected: of builds of a run of which all is known.
	lean, coarse bool
	leanLabels   bool // labels are judged too
	// room is kept from one build to the next; nil of what isn't one.
	room *roomOfBuild

	neutral  state     // the neutral pose
	stopSide []float64 // by stop: +1 where its number is a limit above, -1 below, 0 for metal that touches

	off *offsets // by how much it is built off the drawing; nil: as drawn

	stop func() bool // whether solving is to be given up (StopWhen); nil: never
}

const airframe = 0 // index of the body that never moves

// motionKind is what moves a body.
type motionKind int

const (
	turning motionKind = iota
	sliding
	floating
	followsRod // the body is a rod: placed by its two ends
	tilting    // on a ball: any way about its pivot
	shifting   // any way without turning: what carries the ball of a part loose in space
)

// isOne reports whether one number says where such a body stands on what carries it, so that
// one pin holds it.
func (k motionKind) isOne() bool { return k == turning || k == sliding }

// body is one rigid piece. Places and directions are as drawn.
type body struct {
	kind       motionKind
	part       *linkage.Part // nil for a rod
	carrier    int
	pivot      vec // where it turns; the mean of its points for a part held by rods and joints alone
	axis       vec
	slide      vec
	first      int // its first freedom, of which a floating part has three: x, y, turn
	constraint int // of a rod
	line       vec // about which a part turns idly, as drawn; none of one that doesn't
	// inPlane says that it turns on the airframe about an axis square to the drawing, as
	// most do.
	inPlane bool
}

// freedom is one number that places a body: radians or a length.
type freedom struct {
	body  int
	kind  freedomKind
	input int // the control that sets it, or -1
	// algebra closes a turn so that its cosine and sine come from there, not from its angle.
	algebra bool
}

type freedomKind int

const (
	turn freedomKind = iota
	slide
	shiftX
	shiftY
	shiftZ
	orientW // the four numbers of a quaternion (see orient.go), less that as drawn
	orientX
	orientY
	orientZ
)

// orients reports whether it is a number of a quaternion, and which.
func (k freedomKind) orients() (i int, ok bool) { return int(k - orientW), k >= orientW }

// isLength reports whether it is a length in run units.
func (k freedomKind) isLength() bool { return k != turn && k < orientW }

// end is a place on a body, as drawn.
type end struct {
	body int
	at   vec
}

// constraint is an equation. Of a rod: its ends keep their distance. Of a cable that
// acts alone: its length stays. Of a pair: what it holds stands in balance. Of two parts
// that are one, in two runs of an aircraft: the second goes as the first does. Of a joint: its
// points are at one place along a direction. And there are some of a part's own (see keep).
type constraint struct {
	rod        *linkage.Rod // nil where it isn't one
	from, to   end          // of the rod or joint
	length     float64      // of a rod or cable, on the way from drawn to set
	drawn      float64
	set        float64
	cablePaths []cablePath       // the cable, or both of the pair; nil for a rod
	pair       *linkage.Pair     // nil where it isn't one
	joint      *linkage.SamePart // nil where it isn't one: then its only cable path is of no cable, but says how its parts turn
	pin        *pin              // nil where it isn't one of a joint
	keep       *keep             // nil where it isn't a part's own
	pull       int               // of a pair, in Mechanism.pulls; else -1
}

// step solves some unknowns from as many constraints.
type step struct {
	kind        stepKind
	unknowns    []int    // freedoms, ascending
	constraints []int    // ascending
	given       []int    // freedoms that its constraints depend on and that are known before
	before      []int    // bodies to place first
	within      []int    // bodies that its unknowns move and its constraints need
	wound       []int    // turns closed by algebra that its constraints need as angles
	movers      []movers // by constraint: which unknowns move its ends
	balls       []bool   // by unknown: it is the first of the four of a ball, which all are unknowns
	fourbar     int      // in Mechanism.fourbars
	inRow       int      // how many steps from this one on are fourbars
	crank       *crank
	guide       *guide
}

type stepKind int

const (
	closeFourbar stepKind = iota // a hinge and a rod in parallel planes, from a hinge on the airframe
	closeCrank                   // a hinge and a rod, anyhow
	closeGuide                   // a slide and a rod
	closePull                    // what a pair of cables holds
	closeBlock                   // Newton's method
	closeJoint                   // a part that goes as another one does
)

// The largest system of equations that is solved at once.
const mostUnknowns = 64

// farOff is how far from its origin, in sizes of the run, a drawing may lie
// before it is measured from its own middle.
const farOff = 4

func centerOf(run *linkage.Run) vec {
	if middle := run.Middle(); middle.Norm() > farOff*run.Size() {
		return middle
	}
	return vec{}
}

// Run is the run that it was compiled from; nil of one that Compile didn't make.
func (m *Mechanism) Run() *linkage.Run {
	if !m.compiled() {
		return nil
	}
	return m.run
}
