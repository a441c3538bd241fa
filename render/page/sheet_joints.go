package page

import (
	"fmt"

	"fullfree/linkage"
	"fullfree/solve"
)

// stepJoints lists every joint: what a bolt is in, and how it is kept there.
func stepJoints(r *solve.Result) sheetStep {
	step := sheetStep{
		Title: "Every joint",
		Says: []string{
			"No self-locking nut on a bolt that turns, unless a locking that doesn't rely on friction (a cotter pin, wire) is added. " +
				"Thread in: where the internally threaded piece has a witness hole, a wire of 0.020 in (0.5 mm) must be blocked; where it has none, the thread that shows is measured. Paint stripe: across nut and bolt, last of all.",
		},
		Sources: ruled(r.Run.Craft, rotorNut, "", sourceNut, sourceLocked),
	}
	t := &step.Table
	t.Head = []string{"joint", "bolt, which way up", "bolt", "torque", "nut and locking", "check nut", "thread in", "paint stripe"}
	for _, part := range r.Run.Parts {
		if words := pivotWords(part); words != "" {
			t.add(cellSays(words), cellBlank(), turnsOrNot(), cellBlank(), lockedBy(), cellSays(""), cellSays(""), cellTick())
		}
	}
	for _, rod := range r.Run.Rods {
		for _, end := range []linkage.PointRef{rod.From, rod.To} {
			t.add(cellSays(fmt.Sprintf("%s at %s", rod.Name, end)), cellBlank(), turnsOrNot(), cellBlank(), lockedBy(), cellTick(), cellTick("wire", "shows"), cellTick())
		}
	}
	for _, c := range r.Run.Cables {
		if c.Open() {
			continue // its ends lie in the quadrants
		}
		for _, end := range []*linkage.PointRef{c.From, c.To} {
			t.add(cellSays(fmt.Sprintf("%s at %s", c.Name, end)), cellBlank(), turnsOrNot(), cellBlank(), lockedBy(), cellTick(), cellSays(""), cellTick())
		}
	}
	return step
}

// lockedBy is how a nut is kept: a cotter pin is never used twice.
func lockedBy() sheetCell { return cellTick("new cotter pin", "safety wire") }

func turnsOrNot() sheetCell { return cellTick("turns", "doesn't turn") }

// pivotWords names the joint that a part turns or slides in; empty where it
// has none.
func pivotWords(part *linkage.Part) string {
	words := ""
	switch part.Motion {
	case linkage.Turns:
		words = part.Name + ", pivot"
	case linkage.Slides:
		words = part.Name + ", guide"
	default:
		return ""
	}
	switch {
	case part.Carrier != nil:
		words += " on " + part.Carrier.String()
	case part.NamedPivot != nil:
		words += " at " + part.NamedPivot.String()
	}
	return words
}
