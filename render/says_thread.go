package render

import (
	"fmt"
	"math"

	"fullfree/linkage"
	"fullfree/render/figure"
)

// Turned is a rod end, or the nuts of a conduit end, turned before anything is
// bolted up: one of the two.
type Turned struct {
	End   *linkage.RodEnd
	Nut   *linkage.CableEnd
	Turns float64 // out positive
}

// Name is the name of what is turned.
func (t Turned) Name() string {
	if t.Nut != nil {
		return t.Nut.String()
	}
	return t.End.String()
}

// WitnessCheck is how a mechanic checks that there is thread enough, and what
// follows: US Army TM 1-1500-204-23-1 (the wire), FAA AC 43.13-1B, 7-70 (the
// check nut). A witness hole is drilled through the wall of the piece with the
// internal thread, as deep in as the screwed-in thread must reach: what blocks the
// wire is that thread.
const WitnessCheck = "Where the internally threaded piece has a witness hole, push a wire of 0.020 in (0.5 mm) into that: the thread screwed in must block it. If the wire passes, the thread doesn't reach the hole, and too little is in. Where there is no such hole, measure the thread that shows: the rest of the shank's thread is in. Tighten the check nut against the rod last, when the length is right."

// What turns are counted from, of rod ends and of nuts.
const (
	TurnsCounted = "Turns are counted from the setting in the file: out is plus, and makes the rod longer."
	NutsCounted  = "Turns of nuts on a conduit end are counted from the setting in the file: out is plus, and takes slack up."
)

// RodEnds lists the threaded ends of a run, in the file's order.
func RodEnds(run *linkage.Run) []*linkage.RodEnd {
	var ends []*linkage.RodEnd
	for _, rod := range run.Rods {
		ends = append(ends, rod.Ends...)
	}
	return ends
}

// makerSays tells for which rod ends the maker's figure is missing; empty where
// it is given for all.
func makerSays(run *linkage.Run) string { return makerSaysOf(endsWithoutLeast(run)) }

// endsWithoutLeast names the rod ends for which the file gives no least thread.
func endsWithoutLeast(run *linkage.Run) []string {
	var names []string
	for _, e := range RodEnds(run) {
		if !e.LeastGiven {
			names = append(names, e.String())
		}
	}
	return names
}

// makersSay is makerSays of the ends of conduits too.
func makersSay(run *linkage.Run) string {
	names := endsWithoutLeast(run)
	for _, e := range CableEnds(run) {
		if !e.LeastGiven {
			names = append(names, e.String())
		}
	}
	return makerSaysOf(names)
}

func makerSaysOf(names []string) string {
	if len(names) == 0 {
		return ""
	}
	return fmt.Sprintf("The maker's figure is missing for %s: 1.5 diameters of thread stand in for it (%s); the maker's figure rules.", figure.List(names), NoSource)
}

// stepWords tells by what an end can be turned.
func stepWords(e *linkage.RodEnd) string {
	switch {
	case e.Rod.Barrel():
		return "any (barrel)"
	case e.Step == 0:
		return "any"
	}
	return figure.Given(e.Step, "")
}

// ThreadName names the thread of an end, and its hand where it is left.
func ThreadName(e *linkage.RodEnd) string { return handed(e.Thread, e.Left) }

// handed names a thread, and its hand where it is left.
func handed(t linkage.Thread, left bool) string {
	if left {
		return t.Name + " left"
	}
	return t.Name
}

// TurnsWords tells a number of turns without a sign: "half a turn", "1 turn",
// "2.5 turns".
func TurnsWords(turns float64) string {
	turns = math.Abs(turns)
	const usual, most = 2, 6 // decimals
	text := figure.UpTo(turns, usual)
	for d := usual; text == "0" && d <= most; d++ {
		text = figure.UpTo(turns, d)
	}
	switch text {
	case "0.5":
		return "half a turn"
	case "1":
		return "1 turn"
	default:
		return text + " turns"
	}
}

// signedTurns tells turns and which way: "1.5 turns out".
func signedTurns(turns float64) string {
	way := "out"
	if turns < 0 {
		way = "in"
	}
	return fmt.Sprintf("%s %s", TurnsWords(turns), way)
}

// reportRodEnds tells how the rod ends of a run are set.
func reportRodEnds(p *page, run *linkage.Run) {
	ends := RodEnds(run)
	if len(ends) == 0 {
		return
	}
	t := table{head: []string{"rod end", "thread", "", "in rod", "least", "spare", "most", "step"}}
	for _, e := range ends {
		unit := run.UnitsOf(e.Rod.In)
		most := "-"
		if e.Most != nil {
			most = figure.CalipersNumber(*e.Most, unit)
		}
		least := figure.CalipersNumber(e.Least, unit)
		if !e.LeastGiven {
			least += "?"
		}
		t.add(e.String(), ThreadName(e), string(unit), figure.CalipersNumber(e.Engaged, unit), least, figure.CalipersNumber(e.Spare(), unit), most, stepWords(e))
	}
	t.write(p, "  ")
	p.text("  ", "  ", "(in rod: thread engaged; spare: beyond the least; most: it bottoms out; step: turns it can be set by)")
	if maker := makerSays(run); maker != "" {
		p.text("  ", "    ", "?: "+maker)
	}
	p.text("  ", "    ", endStepsAssumed(run))
	for _, words := range BarrelSays(run) {
		p.text("  ", "    ", words)
	}
	p.blank()
}

// BarrelSays tells which rods are barrels, and what a turn of one does.
func BarrelSays(run *linkage.Run) []string {
	var said []string
	for _, rod := range run.Rods {
		if !rod.Barrel() {
			continue
		}
		a, b := rod.Ends[0], rod.Ends[1]
		if a.Left != b.Left {
			said = append(said, fmt.Sprintf("%s is turned as one barrel: the hands of its ends are opposite, so a turn changes the length by the sum of the pitches, %s.",
				rod.Name, figure.Calipers(a.Thread.Pitch+b.Thread.Pitch, run.UnitsOf(rod.In))))
			continue
		}
		said = append(said, fmt.Sprintf("%s is turned as one barrel: the hands of its ends are alike, so a turn changes the length by the difference of the pitches alone, %s.",
			rod.Name, figure.Calipers(math.Abs(a.Thread.Pitch-b.Thread.Pitch), run.UnitsOf(rod.In))))
	}
	return said
}
