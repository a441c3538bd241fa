package page

import (
	"fmt"
	"slices"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/solve"
	"fullfree/solve/recheck"
)

// The sources that are cited whatever the craft, in small type. What they are cited for
// was read there.
const (
	sourceLocked  = "The check nut locks a threaded rod end: FAA AC 43.13-1B, 7-70. Witness hole, and the wire that must not pass: US Army TM 1-1500-204-23-1."
	sourceNut     = "A bolt that turns, and its nut: FAA AC 43.13-1B, 7-64."
	sourcePlay    = "Of other aircraft, as a yardstick alone: a rod end 0.005 in (0.13 mm) across and 0.020 in (0.5 mm) along its bolt (TM 1-1520-238-23, 7.44.5); a whole run, pulled 10 lbf (44 N) each way, 0.375 in (9.5 mm), one stage of it 0.063 in (1.6 mm) (TM 55-1520-240-23-9). Your designer's figures rule."
	sourceOpening = "The maker's and the designer's instructions rule where they say otherwise."
	sourceTwo     = "Asked for in Canada (CAR Standard 571, item (d): two persons, after disconnection, replacement, assembly or adjustment), in New Zealand (Part 43, duplicate safety inspection) and in Australian gliding (MOSP 3, 6.3: attached, locked, right sense, full and free). Whether it binds you, ask your authority."
)

// stepProcedure comes before anything is touched.
func stepProcedure() sheetStep {
	return sheetStep{
		step:    recheck.StepProcedure,
		Title:   "The maker's procedure at hand",
		Says:    []string{"Read to its end before anything is touched; open at the aircraft."},
		Blanks:  []string{"Procedure, issue", "Drawing with the travels, issue"},
		Sources: []string{sourceOpening},
	}
}

// stepLocks finds what holds the controls: with one in, nothing that is read holds.
func stepLocks() sheetStep {
	return sheetStep{
		step:   recheck.StepLocks,
		Title:  "Control locks found, and taken off",
		Says:   []string{"Pins, clamps and straps, in the cockpit and at the surfaces; each is laid where it is counted again at the end."},
		Blanks: []string{"Locks found", "Counted"},
	}
}

func stepLevel() sheetStep {
	return sheetStep{
		step:   recheck.StepLevel,
		Title:  "Level the aircraft",
		Says:   []string{"Angles that an inclinometer reads count from here."},
		Blanks: []string{"Leveled how, at which place", "Reads fore and aft", "Reads athwart"},
	}
}

// stepBackOff lists the stops to be backed off, so that none bites while the
// rods are fitted.
func stepBackOff(r *solve.Result) sheetStep {
	step := sheetStep{step: recheck.StepBackOff, Title: "Back off the stops"}
	t := &step.Table
	t.Head = []string{"stop", "where it is", "backed off"}
	for _, stop := range r.Run.Stops {
		t.line(recheck.Line{Says: figure.Clean(stop.Name), About: stop}, cellSays(figure.Clean(stop.Name)), cellSays(stopPlace(stop)), cellTick())
	}
	if len(t.Rows) == 0 {
		step.Says = []string{"The file has no stop. Those on the aircraft:"}
		step.Blanks = []string{"Backed off"}
	}
	return step
}

// stopPlace tells where a stop is.
func stopPlace(stop *linkage.Stop) string {
	if stop.Of != nil {
		return "limits " + stop.Of.Name
	}
	return stop.Touch[0].String() + " on " + stop.Touch[1].String()
}

func stepPinsIn(r *solve.Result) sheetStep {
	step := sheetStep{step: recheck.StepPinsIn, Title: "Rig pins in"}
	t := &step.Table
	t.Head = []string{"pin", "holds", "at", "in"}
	for _, pin := range r.Run.Pins {
		t.line(recheck.Line{Says: figure.Clean(pin.Name), About: pin.Of}, cellSays(figure.Clean(pin.Name)), cellSays(pin.Of.Name), cellSays(figure.ExactGiven(pin.At, figure.PartUnit(r.Run, pin.Of))), cellTick())
	}
	if len(t.Rows) == 0 {
		step.Says = []string{"The file has no rig pin. What holds the parts at neutral while the rods are fitted:"}
		step.Blanks = []string{"Held by", "Held by"}
	}
	return step
}

// stepPinsOut lists the pins again: one left in is the worst that can be
// forgotten.
func stepPinsOut(r *solve.Result) sheetStep {
	step := sheetStep{step: recheck.StepPinsOut, Title: "ALL PINS OUT", Apart: true}
	t := &step.Table
	t.Head = []string{"pin", "was in", "out, in the hand"}
	for _, pin := range r.Run.Pins {
		t.line(recheck.Line{Says: figure.Clean(pin.Name), About: pin.Of}, cellSays(figure.Clean(pin.Name)), cellSays(pin.Of.Name), cellTick())
	}
	if len(t.Rows) == 0 {
		step.Says = []string{"And whatever else held the parts."}
	}
	step.Blanks = []string{"Counted in", "Counted out"}
	return step
}

// stepRods lists the rods in the order they are fitted: those that drive as in
// the file, second paths last.
func stepRods(r *solve.Result, pinned []solve.PinnedRod) sheetStep {
	step := sheetStep{
		step:    recheck.StepRods,
		Title:   "Fit the rods",
		Says:    []string{"Each is made up to its length, hole to hole. Its bolt slides in by finger; where it doesn't, set the rod, never force the bolt. Then lock it: the check nut against the rod, with thread enough in it: past the witness hole where there is one, else by what shows."},
		Sources: []string{sourceLocked},
	}
	if pins := render.PinsAssumed(r.Run); pins != "" {
		step.Says = append(step.Says, pins)
	}
	unit := r.Run.Units
	t := &step.Table
	t.Head = []string{"rod", "hole to hole", "thread in the rod", "as fitted", "bolt slides in", "locked"}
	for _, second := range []bool{false, true} {
		for i, rod := range r.Run.Rods {
			if rod.SecondPath != second {
				continue
			}
			long := figure.Calipers(rod.Length, unit)
			made := recheck.Figure{Value: rod.Length, Unit: unit, Allowed: rod.Play} // play is of a second path alone
			if i < len(pinned) && pinned[i].Length != nil && len(pinned[i].Pins) > 0 {
				long += fmt.Sprintf("; pins in %s, to within %s", figure.Calipers(*pinned[i].Length, unit), figure.Given(pinned[i].Within(), unit))
				made.Allowed = pinned[i].Within()
			}
			t.line(recheck.Line{Says: figure.Clean(rod.Name), About: rod, Figure: &made}, cellSays(figure.Joined(": ", figure.Clean(rod.Name), secondSays(r, rod))), cellSays(long), cellSays(threadsIn(rod, unit)), cellBlank(), cellTick(), cellTick())
		}
	}
	if len(t.Rows) == 0 {
		step.Says = []string{"The file has no rod."}
	}
	return step
}

// secondSays tells of a second path that it comes last, and what it has to fit;
// empty for a rod that drives.
func secondSays(r *solve.Result, rod *linkage.Rod) string {
	if !rod.SecondPath {
		return ""
	}
	unit := r.Run.Units
	said := fmt.Sprintf("second path, fitted last; play each way %s", figure.Calipers(rod.Play, unit))
	for _, n := range r.SecondPaths {
		if n.Rod == rod {
			said += fmt.Sprintf(", needs %s to %s as the run moves", figure.CalipersNumber(n.NeedsLeast, unit), figure.Calipers(n.NeedsMost, unit))
		}
	}

	return said
}

// threadsIn tells how far a rod's ends are screwed in; turns are counted from
// there.
func threadsIn(rod *linkage.Rod, unit linkage.Unit) string {
	var said []string
	for _, e := range rod.Ends {
		said = append(said, fmt.Sprintf("%s, %s: %s, %s turns; %s", e.Side, render.ThreadName(e),
			figure.Calipers(e.Engaged, unit), figure.UpTo(e.Engaged/e.Thread.Pitch, 1), leastThread(e.Least, e.LeastGiven, unit)))
	}
	return figure.Joined("; ", said...)
}

// leastThread tells how much thread an end needs at the least, and whether that
// is the maker's figure.
func leastThread(least float64, makers bool, unit linkage.Unit) string {
	says := "least " + figure.Calipers(least, unit)
	if !makers {
		says += " (1.5 diameters, " + render.NoSource + ": the maker's figure rules)"
	}
	return says
}

// stepTrim takes off what would be felt, or would hold, in what is measured next.
func stepTrim() sheetStep {
	return sheetStep{
		step:   recheck.StepTrim,
		Title:  "Friction locks and trim off",
		Says:   []string{"Friction nuts and locks loose, trim springs unhooked or neutral: else they are what the scale reads."},
		Blanks: []string{"Off, or where set"},
	}
}

// stepForces leaves room for what a spring scale reads at each control.
func stepForces(r *solve.Result) sheetStep {
	step := sheetStep{
		step:    recheck.StepForces,
		Title:   "Breakout and friction, on a spring scale at the grip",
		Says:    []string{"Breakout: what starts it from rest. Friction: what keeps it moving, slowly."},
		Blanks:  []string{"Scale hooked on at"},
		Sources: ruled(r.Run.Craft, rotorForces, ""),
	}
	t := &step.Table
	t.Head = []string{"control", "moved", "breakout", "friction"}
	for _, c := range r.Run.Controls {
		for _, high := range []bool{false, true} {
			t.line(recheck.Line{Says: c.Name + ", " + sideOf(c, high), About: c}, cellSays(c.Name), cellSays(sideOf(c, high)), cellBlank(), cellBlank())
		}
	}
	return step
}

// sideOf names a side of a control: the file's word, or its sign.
func sideOf(c *linkage.Control, high bool) string {
	word, sign := c.Minus, "minus"
	if high {
		word, sign = c.Plus, "plus"
	}
	if word == "" {
		return sign
	}
	return figure.Clean(word)
}

func stepPlay(r *solve.Result) sheetStep {
	step := sheetStep{
		step:    recheck.StepPlay,
		Title:   "Free play",
		Says:    []string{"The control held fast; what it moves, rocked by hand."},
		Sources: []string{sourcePlay},
	}
	t := &step.Table
	if predicted := render.PlayPredictions(r); len(predicted) > 0 {
		step.Says = []string{"What is named as held, held fast; what it moves, rocked by hand, gently: what is predicted is bare play, and pulling adds flex to it."}
		t.Head = []string{"rocked", "moves in all", "predicted, joints as the file has them", "allowed by the designer"}
		for _, k := range predicted {
			t.line(recheck.Line{Says: k.Rocked, About: rocked(k.Of)}, cellSays(k.Rocked), cellBlank(), cellSays(k.Most), cellBlank())
		}
		for _, row := range append(playedAt(r.Run), freeWithSlack(r)...) {
			if slices.ContainsFunc(predicted, func(k render.PlayPredicted) bool { return rocked(k.Of) == row.of }) {
				continue
			}
			t.line(recheck.Line{Says: row.name, About: row.of}, cellSays(row.says), cellBlank(), cellSays(nothing), cellBlank())
		}
		return step
	}
	t.Head = []string{"rocked", "moves in all", "allowed by the designer"}
	for _, row := range append(playedAt(r.Run), freeWithSlack(r)...) {
		t.line(recheck.Line{Says: row.name, About: row.of}, cellSays(row.says), cellBlank(), cellBlank())
	}
	return step
}

// rocked is the element that is rocked: a control or an output.
func rocked(of linkage.Subject) linkage.Element {
	if of.Control != nil {
		return of.Control
	}
	return of.Output
}

// played is something that play is felt at, with what is to be known of it.
type played struct {
	named
	says string
}

// playedAt lists what play is felt at: the outputs, and the second paths.
func playedAt(run *linkage.Run) []played {
	var list []played
	for _, o := range run.Outputs {
		list = append(list, played{named{o.Name, o}, o.Name})
	}
	for _, rod := range run.Rods {
		if rod.SecondPath {
			list = append(list, played{named{rod.Name + ", second path", rod}, fmt.Sprintf("%s (second path; the file says %s each way)", rod.Name, figure.Calipers(rod.Play, run.Units))})
		}
	}
	if len(run.Outputs) == 0 {
		last := "last part of the run"
		list = append(list, played{named{name: last}, last})
	}
	return list
}
