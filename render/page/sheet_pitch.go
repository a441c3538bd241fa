package page

import (
	"slices"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/solve"
	"fullfree/solve/recheck"
)

// stepPitch leaves room for the pitch of each blade over the tail, the right, the nose and the
// left, with the controls at their ends; ok is false where the run has no rotor that turns.
func stepPitch(r *solve.Result) (step sheetStep, ok bool) {
	rotor := r.Rotor
	if rotor == nil {
		return step, false
	}
	step = sheetStep{
		step:  recheck.StepPitch,
		Title: "Pitch of the blades",
		Says: []string{
			"Rotor held square to the mast, protractor at the station that the drawing says; both blades alike before the next setting.",
			"The designer's figures rule: what is predicted here is no limit. " + render.NotModeled,
		},
	}
	if slices.ContainsFunc(rotor.Blades, func(b solve.BladePitch) bool { return b.Pitch == 0 }) {
		step.Says = append(step.Says, "The file doesn't say which edge leads, so figures are as the outputs read.")
	} else {
		step.Says[0] += " Plus is leading edge up."
	}
	t := &step.Table
	t.Head = []string{"blade, controls"}
	for _, place := range render.QuarterNames() {
		t.Head = append(t.Head, "over the "+place, "as rigged")
	}
	for i := range rotor.Blades {
		b := &rotor.Blades[i]
		for k := range b.Cells {
			c := &b.Cells[k]
			says := figure.Clean(b.Output.Name) + ": " + figure.Joined(" ", "collective", render.CellWords(r.Run, rotor, c))
			if rotor.Collective == nil {
				says = figure.Clean(b.Output.Name) + ": " + render.CellWords(r.Run, rotor, c)
			}
			cells := []sheetCell{cellSays(says)}
			for q := range c.At {
				predicted := "can't be set so"
				if c.Told {
					predicted = figure.Quantity(c.At[q], linkage.Degrees)
				}
				cells = append(cells, cellSays(predicted), cellBlank())
			}
			t.line(recheck.Line{Says: says, About: b.Output}, cells...)
		}
	}
	return step, len(t.Rows) > 0
}

// byHand are the sweeps of a control that a hand or foot moves between ends: none of what
// turns a rotor round and round.
func byHand(r *solve.Result, c *linkage.Control) []*solve.Sweep {
	return slices.DeleteFunc(slices.Clone(render.SweepsOf(r, c)), (*solve.Sweep).TurnsRotor)
}

// ofBlade reports whether the sheet tells an output by the pitch of its blade.
func ofBlade(r *solve.Result, o *linkage.Output) bool {
	return o != nil && r.Rotor != nil && slices.ContainsFunc(r.Rotor.Blades, func(b solve.BladePitch) bool { return b.Output.Name == o.Name })
}
