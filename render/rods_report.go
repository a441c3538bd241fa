package render

import (
	"fmt"
	"io"
	"math"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
	"fullfree/solve/survey"
)

// RodsReport writes the rod list for the bench: every rod hole to hole, the
// thread in its ends, and, with every pin in, the length at which its bolt
// slides in by finger, so that rods are made up off the aircraft. File is the
// name of the file as the user gave it; survey is what the drawing was adjusted
// by, or nil. The error is the writer's.
func RodsReport(w io.Writer, file string, run *linkage.Run, survey *survey.Survey, pinned []solve.PinnedRod) error {
	p := &page{}
	p.text("", "  ", figure.Clean(run.Name))
	const between = ", hole to hole (ball center to ball center)"
	switch rods, cables := figure.Count(len(run.Rods), "rod")+between, figure.Count(len(run.Cables), "cable"); {
	case len(run.Cables) == 0:
		p.text("", "  ", "ROD LIST: "+rods+".")
	case len(run.Rods) == 0:
		p.text("", "  ", "CABLE LIST: "+cables+".")
	default:
		p.text("", "  ", "ROD AND CABLE LIST: "+rods+", and "+cables+".")
	}
	reportThreadFaults(p, run)
	p.blank()
	reportRodLengths(p, run, pinned)
	reportExposed(p, run)
	reportRodEnds(p, run)
	reportCables(p, run)
	if len(run.Rods) > 0 {
		p.line("ON THE BENCH")
		p.text("  ", "    ", WitnessCheck)
		p.blank()
	}
	p.line("WHAT THIS ANSWER IS")
	say := func(words string) { p.text("  ", "    ", words) }
	what := "the rods and pins"
	switch {
	case len(run.Cables) > 0 && len(run.Rods) == 0:
		what = "the cables"
	case len(run.Cables) > 0:
		what = "the rods, cables and pins"
	}
	say("Covered: " + what + " in " + file + unitsTold(run) + ".")
	say(SurveyNote(survey))
	measured := "a rod is"
	switch {
	case len(run.Cables) > 0 && len(run.Rods) == 0:
		measured = "a core is"
	case len(run.Cables) > 0:
		measured = "rods and cores are"
	}
	say("Assumed: holes and pivots exactly where the drawing has them; " + measured + " measured with no load.")
	say("Not checked: whether it moves as it should, which \"fullfree check\" tells.")
	say(Caution)
	_, err := io.WriteString(w, p.String())
	return err
}

// unitsTold tells in which unit the figures of a run are; of an aircraft nothing, for each
// stands beside its figures.
func unitsTold(run *linkage.Run) string {
	if words := unitWords[run.Units]; words != "" {
		return ", in " + words
	}
	return ""
}

// reportRodLengths tells every rod as set, and what it measures with every pin in.
func reportRodLengths(p *page, run *linkage.Run, pinned []solve.PinnedRod) {
	if len(run.Rods) == 0 {
		return
	}
	t := table{head: []string{"rod", "", "as set"}}
	if len(run.Pins) > 0 {
		t.head = append(t.head, "pins in", "off", "within")
	}
	var said []string
	for i, rod := range run.Rods {
		unit := run.UnitsOf(rod.In)
		cells := []string{figure.Clean(rod.Name), string(unit), figure.CalipersLength(rod.Length, unit)}
		if len(run.Pins) > 0 {
			fit := pinned[i]
			if fit.Length == nil {
				cells = append(cells, "-", "-", "-")
			} else {
				cells = append(cells, figure.CalipersLength(*fit.Length, unit), signed(fit.Off, unit), "-")
				if len(fit.Pins) > 0 {
					cells[5] = figure.Given(fit.Within(), "")
					said = append(said, pinnedSays(unit, &fit))
				}
			}
		}
		t.add(cells...)
	}
	t.write(p, "  ")
	if len(run.Pins) > 0 {
		p.text("  ", "  ", "(pins in: hole to hole with every pin in; there its bolt slides in by finger; off: as set less that; -: something that the rod joins is held by no pin)")
		for _, words := range said {
			p.text("  ", "    ", words)
		}
		p.text("  ", "    ", PinsAssumed(run))
		for _, pin := range run.Pins {
			p.text("  ", "    ", fmt.Sprintf("Pin %s holds %s at %s.", figure.Quoted(pin.Name), pin.Of.Name, figure.Exact(pin.At, figure.PartUnit(run, pin.Of))))
		}
	}
	p.blank()
}

// pinnedSays tells whether a rod's bolt slides in with every pin in.
func pinnedSays(unit linkage.Unit, fit *solve.PinnedRod) string {
	rod, off := fit.Rod, math.Abs(fit.Off)
	if fit.SlidesIn() {
		return fmt.Sprintf("%s: its bolt slides in, %s off.", rod.Name, figure.Calipers(off, unit))
	}
	way := "long"
	if fit.Off < 0 {
		way = "short"
	}
	said := fmt.Sprintf("%s: %s too %s, its bolt does not slide in", rod.Name, figure.Calipers(off, unit), way)
	if len(rod.Ends) == 0 {
		return said + "."
	}
	n := fit.Turn
	switch {
	case n == nil:
		return said + ", and a turn changes nothing."
	case n.Turns == 0:
		return said + fmt.Sprintf("; as near as %s come: as it is.", stepsOf(n.End))
	}
	turn := "out"
	if n.Turns < 0 {
		turn = "in"
	}
	said += fmt.Sprintf(": turn %s %s by %s", n.End, turn, TurnsWords(n.Turns))
	left := leftSays(n, unit)
	if left != "" {
		said += ": " + left
	}
	if !fit.SlidesInThen() {
		said += ", and it still does not slide in"
	}
	if !n.HasThread {
		said += "; but no end has the thread for it"
	}
	return said + "."
}

// reportExposed tells the thread outside the rods, where the shank of an end is
// given: what a rule reads without taking the rod off.
func reportExposed(p *page, run *linkage.Run) {
	t := table{head: []string{"thread outside the rod", "", "shank", "in rod", "exposed"}}
	for _, e := range RodEnds(run) {
		unit := run.UnitsOf(e.Rod.In)
		if exposed := e.Exposed(); exposed != nil {
			t.add(e.String(), string(unit), figure.CalipersNumber(*e.Shank, unit), figure.CalipersNumber(e.Engaged, unit), figure.CalipersNumber(*exposed, unit))
		}
	}
	if len(t.rows) > 0 {
		t.write(p, "  ")
		p.blank()
	}
}
