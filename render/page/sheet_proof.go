package page

import (
	"fmt"
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/solve"
	"fullfree/solve/recheck"
)

func stepFull(r *solve.Result) sheetStep {
	step := sheetStep{
		step:    recheck.StepFull,
		Title:   "Full and free, from both seats",
		Says:    []string{"Stop to stop, slowly, then briskly; and again with the other controls hard over. A stick that moves two ways goes round its whole edge as well."},
		Sources: ruled(r.Run.Craft, rotorFull, ""),
	}
	t := &step.Table
	t.Head = []string{"control", "full and free"}
	for _, c := range r.Run.Controls {
		if slices.ContainsFunc(render.SweepsOf(r, c), (*solve.Sweep).TurnsRotor) {
			t.line(recheck.Line{Says: c.Name, About: c}, cellSays(c.Name+", all the way round by hand"), cellTick())
			continue
		}
		t.line(recheck.Line{Says: c.Name, About: c}, cellSays(c.Name), cellTick("left seat", "right seat"))
	}
	for _, stick := range twoWays(r.Run) {
		says := stick.name + ", round the whole edge, both ways round"
		t.line(recheck.Line{Says: says, About: stick.of}, cellSays(says), cellTick("left seat", "right seat"))
	}
	return step
}

// named is something that a line of the sheet is of, by its name there.
type named struct {
	name string
	of   linkage.Element
}

// twoWays names the sticks that have two freedoms: a control that rides on the part of
// another and isn't a grip that twists there.
func twoWays(run *linkage.Run) []named {
	var names []named
	for _, c := range run.Controls {
		if c.Twist != nil {
			continue
		}
		for _, other := range run.Controls {
			if other != c && c.Of.Carrier != nil && c.Of.Carrier.Part == other.Of {
				names = append(names, named{other.Name + " with " + c.Name, c})
			}
		}
	}
	return names
}

// stepSense lists which way every output goes for every control.
func stepSense(r *solve.Result) sheetStep {
	step := sheetStep{
		step:    recheck.StepSense,
		Title:   "Sense, last: confirmed at the blade or surface",
		Says:    []string{"One moves the control, a second person stands at what moves and says which way it goes, before reading what is written here."},
		Blanks:  []string{"Second person, name", "Signature"},
		Sources: ruled(r.Run.Craft, rotorSense, planeSense),
	}
	t := &step.Table
	t.Head = []string{"control", "what goes which way", "seen so"}
	for _, c := range r.Run.Controls {
		sweeps := byHand(r, c)
		if len(sweeps) == 0 {
			continue
		}
		held := render.ControlWays(r.Run, sweeps[0])
		for _, o := range sweeps[0].Outputs {
			of := linkage.Subject{Output: o.Output}
			if stays(o.Extent, o.Unit) || requiredOf(r.Run, linkage.Steady, sweeps[0], of) != nil {
				continue
			}
			seen := render.OutputWays(r.Run, sweeps[0], o.Output)
			for i, end := range sweeps[0].Ends {
				if end.At == 0 {
					continue // nothing to see: it is at that end already
				}
				moved := figure.Joined("; ", c.Name+": "+sideOf(c, i == 1), held[i])
				t.line(recheck.Line{Says: fmt.Sprintf("%s, %s, at %s", c.Name, sideOf(c, i == 1), o.Output.Name), About: c}, cellSays(moved), cellSays(figure.Joined("; ", o.Output.Name+": "+senseSays(o, i), seen[i])), cellTick())
			}
		}
	}
	if len(t.Rows) == 0 {
		step.Says = append(step.Says, "The file names no output that moves. What moves at the blade or surface:")
		step.Blanks = append([]string{"Control, and what goes which way"}, step.Blanks...)
	}
	return step
}

// senseSays tells which way an output goes towards the low (0) or the high (1)
// end of the travel.
func senseSays(o solve.OutputTravel, end int) string {
	reached := [...]float64{o.AtLow, o.AtHigh}[end]
	word, sign := o.Output.Plus, "up"
	if reached < o.Neutral {
		word, sign = o.Output.Minus, "down"
	}
	said := fmt.Sprintf("gauge %s, to %s", sign, figure.Quantity(reached, o.Unit))
	if word != "" {
		said = figure.Clean(word) + " (" + said + ")"
	}
	if len(o.Ratio.Reverses) > 0 {
		said += "; it turns back on the way"
	}
	return said
}

// stays reports whether a quantity moves less over the travel than a builder
// could read.
func stays(e solve.Extent, unit linkage.Unit) bool {
	const least = 0.1 // deg or mm
	moves := math.Max(math.Abs(e.AtHigh-e.Neutral), math.Abs(e.AtLow-e.Neutral))
	if unit == linkage.Inches {
		return moves < 1.0/figure.InchParts
	}
	return moves < least
}

// stepClose counts out what was brought in: what stays in the run jams it.
func stepClose() sheetStep {
	step := sheetStep{
		step:  recheck.StepClose,
		Title: "Close up",
		Says:  []string{"None may fly: pins, bolts and nuts fitted for the rigging, clamps, tape, string, flags. What is temporary is replaced by what the drawing has."},
		Apart: true,
	}
	t := &step.Table
	t.Head = []string{"what", "done"}
	for _, what := range []string{
		"Temporary hardware replaced, none still fitted", "Tools counted, none missing", "Control locks out, counted with those found at the beginning",
		"Friction locks and trim set as they fly", "Panels and guards closed, nothing fouls",
	} {
		t.line(recheck.Line{Says: what}, cellSays(what), cellTick())
	}
	return step
}

// stepOnceMore is done when all is closed: panels and what fell behind them foul runs.
func stepOnceMore(r *solve.Result) sheetStep {
	step := sheetStep{step: recheck.StepOnceMore, Title: "Full, free and the right sense, once more", Says: []string{"Closed up as it flies."}}
	t := &step.Table
	t.Head = []string{"control", "full, free, the right sense"}
	for _, c := range r.Run.Controls {
		if slices.ContainsFunc(render.SweepsOf(r, c), (*solve.Sweep).TurnsRotor) {
			t.line(recheck.Line{Says: c.Name, About: c}, cellSays(c.Name+", all the way round by hand"), cellTick())
			continue
		}
		t.line(recheck.Line{Says: c.Name, About: c}, cellSays(c.Name), cellTick("full", "free", "sense"))
	}
	return step
}

// stepIndependent is for the eyes of somebody else, after the last joint is locked.
func stepIndependent() sheetStep {
	return sheetStep{
		step:    recheck.StepIndependent,
		Title:   "Independent inspection",
		Says:    []string{"By somebody who did none of the work, after the last joint is locked. Whatever is undone afterwards is inspected again."},
		Blanks:  []string{"Every joint assembled and locked: name", "Joints: signature, date", "Sense and range, at the surface: name", "Sense and range: signature, date"},
		Sources: []string{sourceTwo},
	}
}
