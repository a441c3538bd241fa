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

const sourceTurnbuckle = "Turnbuckles: at most 3 threads outside: FAA AC 43.13-1B, 7-179; both ends engaged equally: 7-166. A fairlead turns a cable by at most 3 degrees: 7-149."

// stepsCables are what is done to cables with the pins in, in that order; none
// where the run has no cable.
func stepsCables(r *solve.Result) []sheetStep {
	if len(r.Run.Cables) == 0 {
		return nil
	}
	return []sheetStep{stepFitCables(r), stepDrawUp(r)}
}

// stepFitCables lists the cables as they are put in, still slack.
func stepFitCables(r *solve.Result) sheetStep {
	step := sheetStep{
		step:  recheck.StepFitCables,
		Title: "Fit the cables, slack",
		Says:  []string{"Each runs as the drawing has it, and its ends are held before anything is drawn up."},
	}
	if render.AnyOpenCable(r.Run) {
		step.Says = append(step.Says, "An open cable lies in the grooves of its quadrants, guards fitted; fairleads turn it by at most 3°.")
		step.Sources = []string{sourceTurnbuckle}
	}
	sprung := slices.ContainsFunc(r.Run.Cables, func(c *linkage.Cable) bool { return c.Spring != "" })
	t := &step.Table
	t.Head = []string{"cable", "from, to", "long", "fitted slack", "ends held"}
	if sprung {
		t.Head = append(t.Head, "its spring")
	}
	for i, c := range r.Run.Cables {
		cells := []sheetCell{cellSays(figure.Clean(c.Name)), cellSays(cableWay(r.Run, c)), cellSays(cableLong(r.Run, c)), cellTick(), cellTick()}
		switch {
		case c.Spring != "":
			cells = append(cells, cellTick("connected; returns "+heldBy(r, i)+" to its "+c.Spring+" side"))
		case sprung:
			cells = append(cells, cellSays("-"))
		}
		t.line(recheck.Line{Says: figure.Clean(c.Name), About: c}, cells...)
	}
	return step
}

// heldBy names what a cable moves.
func heldBy(r *solve.Result, i int) string {
	if len(r.Sweeps) > 0 && r.Sweeps[0].Cables[i].Part != nil {
		return r.Sweeps[0].Cables[i].Part.Name
	}
	return "what it moves"
}

// cableWay tells between what a cable runs.
func cableWay(run *linkage.Run, c *linkage.Cable) string {
	if c.Open() {
		said := ""
		for i, quadrant := range *c.Quadrants {
			said = figure.Joined(", ", said, fmt.Sprintf("%s at a radius of %s", quadrant.Name, figure.Length(c.Radius[i], run.Units)))
		}
		return said
	}
	return fmt.Sprintf("core %s, %s; conduit %s, %s", c.From, c.To, c.Conduit[0], c.Conduit[1])
}

// cableLong tells how long a cable is, as far as the file does.
func cableLong(run *linkage.Run, c *linkage.Cable) string {
	unit := run.Units
	switch {
	case !c.Open():
		return figure.Calipers(*render.CoreOf(c), unit) + " of core outside the conduit, unloaded"
	case c.Length > 0 && c.Wire != nil:
		return figure.Calipers(c.Length, unit) + " free, of " + c.Wire.String()
	case c.Length > 0:
		return figure.Calipers(c.Length, unit) + " free"
	}
	return "-"
}

// stepDrawUp lists what cables are drawn up by, and locked with.
func stepDrawUp(r *solve.Result) sheetStep {
	run := r.Run
	step := sheetStep{step: recheck.StepDrawUp, Title: "Draw the cables up, and lock them"}
	for _, pair := range run.Pairs {
		step.Says = append(step.Says, fmt.Sprintf("%s and %s, the pair %s: together, by turns, until a gauge reads %s in each with %s held as drawn.",
			pair.Cables[0].Name, pair.Cables[1].Name, pair.Name, figure.Given(pair.Pretension, run.Units.ForceUnit()), heldBy(r, pair.Cables[0].Index)))
	}
	unit := run.Units
	t := &step.Table
	t.Head = []string{"drawn up by", "thread", "as set", "as fitted", "check nuts tight", "safetied"}
	for _, c := range run.Cables {
		for _, e := range c.Ends {
			t.line(recheck.Line{Says: e.String(), About: c, Figure: &recheck.Figure{Value: e.Engaged, Unit: unit}}, cellSays(e.String()), cellSays(render.NutThread(e)), cellSays(figure.Calipers(e.Engaged, unit)+" in the nuts; "+leastThread(e.Least, e.LeastGiven, unit)), cellBlank(), cellTick(), cellTick())
		}
		if c.Open() {
			says := c.Name + ", turnbuckle"
			t.line(recheck.Line{Says: says, About: c}, cellSays(says), cellSays("at most 3 threads outside, both ends engaged equally"), cellSays("-"), cellBlank(), cellSays("-"), cellTick())
		}
	}
	if len(t.Rows) == 0 {
		step.Says = append(step.Says, "The file has no nuts on a conduit. What the cables are drawn up by:")
		step.Blanks = []string{"Drawn up by, and locked"}
	}
	if render.AnyOpenCable(run) {
		step.Sources = []string{sourceTurnbuckle}
	}
	return step
}

// stepTension leaves room for what a gauge reads in each cable, let go, and for
// how it runs; ok is false where the run has no cable.
func stepTension(r *solve.Result) (step sheetStep, ok bool) {
	run := r.Run
	step = sheetStep{
		step:   recheck.StepTension,
		Title:  "Cables, all pins out",
		Says:   []string{"Tension by gauge with the controls at neutral, and nothing holding or loading what they move."},
		Blanks: []string{"Temperature, °C", "Gauge, serial number"},
	}
	if run.RiggedAt != nil {
		step.Says = append(step.Says, fmt.Sprintf("Predicted for %s, at which the file has them drawn up; \"fullfree check --temperature\" tells another.", figure.Celsius(*run.RiggedAt)))
	}
	t := &step.Table
	t.Head = []string{"cable", "predicted", "as measured", "runs free of fouling, stop to stop"}
	for i, c := range run.Cables {
		predicted := "alone: not known"
		if len(r.Sweeps) > 0 && r.Sweeps[0].Cables[i].Neutral != nil {
			told := &r.Sweeps[0].Cables[i]
			predicted = figure.Quantity(*told.Neutral, told.Unit)
			if *told.Neutral <= 0 {
				predicted = "slack"
			}
		}
		t.line(recheck.Line{Says: figure.Clean(c.Name), About: c}, cellSays(figure.Clean(c.Name)), cellSays(predicted), cellBlank(), cellTick())
	}
	return step, len(run.Cables) > 0
}

// freeWithSlack tells how far what pairs hold floats where they hang slack, in
// the sweep where that is most.
func freeWithSlack(r *solve.Result) []played {
	most := map[*linkage.Part]*solve.Sweep{}
	var parts []*linkage.Part
	for _, s := range r.Sweeps {
		l := s.LostMotion
		if l == nil {
			continue
		}
		if most[l.Part] == nil {
			parts = append(parts, l.Part)
		}
		if most[l.Part] == nil || l.Most > most[l.Part].LostMotion.Most {
			most[l.Part] = s
		}
	}
	var list []played
	for _, part := range parts {
		s := most[part]
		words := fmt.Sprintf("%s, its cables slack (predicted %s at most, with %s at %s", part.Name, figure.Against(s.LostMotion.Most, 0, s.LostMotion.Unit), s.Control.Name, render.ControlPosition(s, s.LostMotion.At))
		if len(s.Settings()) > 0 {
			words += " and " + render.HeldAt(r.Run, s)
		}
		list = append(list, played{named{part.Name + ", its cables slack", part}, words + ")"})
	}
	return list
}
