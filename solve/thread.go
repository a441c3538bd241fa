// Layer: values.

package solve

import (
	"math"

	"fullfree/linkage"
)

// The rules of threads: how much is in an end, and what it can't have. No other file of
// this package or one that asks it decides about threads.

// threadNoise is by how much a length of thread or of a rod may pass its limit, run
// units, and still be on it: what rounding leaves of turns times pitches.
const threadNoise = judgeNoise

// TurnToLength is a turn of a rod end that brings its rod near a length.
type TurnToLength struct {
	End   *linkage.RodEnd
	Turns float64 // out positive, in steps that the end can make
	Left  float64 // by how much the rod then is too long, run units
	// HasThread says that every end of the rod then keeps to its thread, or that
	// nothing is turned.
	HasThread bool
}

// NearestTurn finds which end of a rod to turn, and by how much, so that the rod
// becomes longer by so much, run units: one with the thread for it before one
// without, then the one that leaves least. It is nil where no end changes the length.
func NearestTurn(rod *linkage.Rod, longer float64) (best *TurnToLength) {
	for _, e := range rod.Ends {
		per := e.PerTurn()
		if per == 0 {
			continue
		}
		n := &TurnToLength{End: e, Turns: longer / per}
		if e.Step > 0 {
			n.Turns = float64(math.Round(n.Turns/e.Step) * e.Step)
		}
		n.Left = float64(n.Turns*per) - longer
		n.HasThread = n.Turns == 0 || hasThread(e, n.Turns)
		if best == nil || n.better(best) {
			best = n
		}
	}
	return best
}

// hasThread reports whether all ends of a rod keep to their thread when one is
// turned out by turns.
func hasThread(e *linkage.RodEnd, turns float64) bool {
	for _, k := range e.Rod.Ends {
		t := rodThread(k)
		switch {
		case k == e || e.Rod.Barrel() && k.Left != e.Left:
			t.engaged -= float64(turns * k.Thread.Pitch)
		case e.Rod.Barrel():
			t.engaged += float64(turns * k.Thread.Pitch)
		}
		if t.engaged <= 0 || t.short() || t.beyond(t.most) || t.beyond(t.shank) {
			return false
		}
	}
	return true
}

// threaded is a threaded end of a rod, or of a conduit: one of rod and cable.
type threaded struct {
	name           string
	span           linkage.Span
	in             *linkage.Member
	rod            *linkage.Rod
	cable          *linkage.Cable
	side           string
	engaged, least float64
	most, shank    *float64
	step, turned   float64
}

// threadedEnds lists the ends of rods, then those of conduits, in the file's order.
func threadedEnds(run *linkage.Run) (list []threaded) {
	for _, rod := range run.Rods {
		for _, e := range rod.Ends {
			list = append(list, rodThread(e))
		}
	}
	for _, c := range run.Cables {
		for _, e := range c.Ends {
			list = append(list, threaded{e.String(), e.Span, c.In, nil, c, e.Side, e.Engaged, e.Least, e.Most, nil, e.Step, e.Turned})
		}
	}
	return list
}

func rodThread(e *linkage.RodEnd) threaded {
	return threaded{e.String(), e.Span, e.Rod.In, e.Rod, nil, e.Side, e.Engaged, e.Least, e.Most, e.Shank, e.Step, e.Turned}
}

// short reports whether there is less thread in than the least.
func (e *threaded) short() bool { return e.engaged < e.least-threadNoise }

// beyond reports whether there is more thread in than a limit, nil: there is none.
func (e *threaded) beyond(limit *float64) bool { return limit != nil && e.engaged > *limit+threadNoise }

// StepNoise is the share of a step of a rod end or nut by which a limit may be missed:
// rounding.
const StepNoise = 1e-9

// offStep reports whether its step can't make the turns that it was turned by.
func (e *threaded) offStep() bool {
	steps := e.turned / e.step
	return e.step > 0 && math.Abs(steps-math.Round(steps)) > StepNoise
}

// better reports whether n is to be told instead of m.
func (n *TurnToLength) better(m *TurnToLength) bool {
	if n.HasThread != m.HasThread {
		return n.HasThread
	}
	return math.Abs(n.Left) < math.Abs(m.Left)-threadNoise
}
