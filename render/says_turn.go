package render

import (
	"fmt"
	"math"

	"fullfree/linkage"
	"fullfree/render/figure"
)

// nearest is the turn of a rod end that brings its rod closest to a length.
type nearest struct {
	end    *linkage.RodEnd
	turns  float64 // out positive, in steps that the end can make
	left   float64 // by how much the rod then is too long, run units
	thread bool    // every end of the rod then keeps between its least and its most
}

// nearestTurn finds which end of a rod to turn, and by how much, so that the rod
// becomes longer by so much: one with the thread for it before one without, then
// the one that leaves least. It is nil where no end changes the length.
func nearestTurn(run *linkage.Run, rod *linkage.Rod, longer float64) *nearest {
	var best *nearest
	for _, e := range rod.Ends {
		per := e.PerTurn()
		if per == 0 {
			continue
		}
		n := &nearest{end: e, turns: longer / per}
		if e.Step > 0 {
			n.turns = float64(math.Round(n.turns/e.Step) * e.Step)
		}
		n.left = float64(n.turns*per) - longer
		n.thread = n.turns == 0 || hasThread(run, e, n.turns)
		if best == nil || n.better(best) {
			best = n
		}
	}
	return best
}

// better reports whether n is to be told instead of m.
func (n *nearest) better(m *nearest) bool {
	if n.thread != m.thread {
		return n.thread
	}
	return math.Abs(n.left) < math.Abs(m.left)-ThreadNoise
}

// hasThread reports whether the ends of a rod have thread enough, and not too
// much, when one is turned. The run is changed meanwhile, and left as it was.
func hasThread(run *linkage.Run, e *linkage.RodEnd, turns float64) bool {
	defer run.Turn(e, turns)()
	alone := &linkage.Run{Units: run.Units, Rods: []*linkage.Rod{e.Rod}}
	return len(ThreadFaults(alone))+len(shankFaults(alone)) == 0
}

// leftSays tells what the turn leaves.
func (n *nearest) leftSays(unit string) string {
	if figure.CalipersNumber(n.left, unit) == figure.CalipersNumber(0, unit) {
		return ""
	}
	way := "long"
	if n.left < 0 {
		way = "short"
	}
	return fmt.Sprintf("then %s %s", figure.Calipers(math.Abs(n.left), unit), way)
}

// stepsOf names the steps of an end in the plural.
func stepsOf(e *linkage.RodEnd) string {
	switch e.Step {
	case 0.5:
		return "half turns"
	case 1:
		return "whole turns"
	}
	return "steps of " + TurnsWords(e.Step)
}
