package page

import (
	"fmt"

	"fullfree/linkage"
	"fullfree/solve"
	"fullfree/solve/recheck"
)

// stepJoints lists every joint: what a bolt is in, and how it is kept there.
func stepJoints(r *solve.Result) sheetStep {
	step := sheetStep{
		step:  recheck.StepJoints,
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
			t.line(recheck.Line{Says: words, About: part, At: pivotPlace(part)}, cellSays(words), cellBlank(), turnsOrNot(), cellBlank(), lockedBy(), cellSays(""), cellSays(""), cellTick())
		}
	}
	for _, rod := range r.Run.Rods {
		for _, end := range []linkage.PointRef{rod.From, rod.To} {
			says := fmt.Sprintf("%s at %s", rod.Name, end)
			t.line(recheck.Line{Says: says, About: rod, At: end.String()}, cellSays(says), cellBlank(), turnsOrNot(), cellBlank(), lockedBy(), cellTick(), cellTick("wire", "shows"), cellTick())
		}
	}
	for _, c := range r.Run.Cables {
		if c.Open() {
			continue // its ends lie in the quadrants
		}
		for _, end := range []*linkage.PointRef{c.From, c.To} {
			says := fmt.Sprintf("%s at %s", c.Name, end)
			t.line(recheck.Line{Says: says, About: c, At: end.String()}, cellSays(says), cellBlank(), turnsOrNot(), cellBlank(), lockedBy(), cellTick(), cellSays(""), cellTick())
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
	case linkage.Turns, linkage.TurnsAndSlides:
		words = part.Name + ", pivot"
	case linkage.Tilts:
		words = part.Name + ", ball"
	case linkage.Slides:
		words = part.Name + ", guide"
	default:
		return ""
	}
	switch {
	case part.Carrier != nil:
		words += " on "
	case part.NamedPivot != nil:
		words += " at "
	}
	return words + pivotPlace(part)
}

// pivotPlace names the hole that a part turns or slides on; empty where the file names none.
func pivotPlace(part *linkage.Part) string {
	switch {
	case part.Carrier != nil:
		return part.Carrier.String()
	case part.NamedPivot != nil:
		return part.NamedPivot.String()
	}
	return ""
}
