package render

import (
	"fmt"
	"math"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// turnedWords names what of a run can be turned: "rod end", "nut", or both.
func turnedWords(run *linkage.Run, and string) string {
	switch {
	case len(CableEnds(run)) == 0:
		return "rod end"
	case len(RodEnds(run)) == 0:
		return "nut"
	}
	return "rod end " + and + " nut"
}

// TurnedAll names all that of a run can be turned.
func TurnedAll(run *linkage.Run) string {
	switch {
	case len(CableEnds(run)) == 0:
		return "rod ends"
	case len(RodEnds(run)) == 0:
		return "nuts"
	}
	return "rod ends and nuts"
}

// reportCableEffects tells what a turn out of each nut does to the ends of the
// travel, and, where told, to what is required.
func reportCableEffects(p *page, r *solve.Result, s *solve.Sweep, effects []solve.CableEffect, required bool) {
	t := table{head: []string{"to move", "", "turn out", "by"}}
	row := func(label string, unit linkage.Unit, shown func(solve.CableEffect) *float64) {
		for _, e := range effects {
			if v := shown(e); e.Sweep == s.Index && v != nil {
				t.add(label, string(unit), e.End.String(), perTurn(v, unit))
				label = ""
			}
		}
	}
	for side := range s.Ends {
		row("the "+SideName(side)+" end", s.Unit, func(e solve.CableEffect) *float64 { return [...]*float64{e.Low, e.High}[side] })
	}
	for i := range r.Requirements {
		if j := &r.Requirements[i]; required {
			row(RequirementTitle(r, j.Requirement), j.Unit, func(e solve.CableEffect) *float64 { return e.Worst[i] })
		}
	}
	if len(t.rows) == 0 {
		return
	}
	t.write(p, "  ")
	p.text("  ", "  ", "(what a turn out does to the ends of the travel, and to the worst value of what is required; what isn't told can't be)")
	p.blank()
}

// reportCenterings tells how to turn the nuts of each pair so that what it holds
// stands as drawn.
func reportCenterings(p *page, run *linkage.Run, centerings []*solve.Centering) {
	if len(centerings) == 0 {
		return
	}
	p.line("TO CENTER")
	for i, c := range centerings {
		p.text("  ", "    ", centeringSays(run, run.Pairs[i], c))
	}
	p.blank()
}

func centeringSays(run *linkage.Run, pair *linkage.Pair, c *solve.Centering) string {
	if c == nil {
		return fmt.Sprintf("%s: not both of its cables have a nut, so it can't be centered by turning.", pair.Name)
	}
	unit := run.UnitsOf(pair.In).ForceUnit()
	tension := fmt.Sprintf("%s in each", figure.Quantity(c.Tension[0], unit))
	if figure.Quantity(c.Tension[0], unit) != figure.Quantity(c.Tension[1], unit) {
		tension = fmt.Sprintf("%s in %s and %s in %s, their mean the pretension",
			figure.Quantity(c.Tension[0], unit), pair.Cables[0].Name, figure.Quantity(c.Tension[1], unit), pair.Cables[1].Name)
	}
	head := fmt.Sprintf("%s: for %s to stand exactly as drawn at neutral, with %s", pair.Name, c.Part.Name, tension)
	const least = 0.005 // turns: less is told as none
	var turns []string
	for k, e := range c.Ends {
		if math.Abs(c.Turns[k]) >= least {
			words := fmt.Sprintf("%s %s", e, signedTurns(c.Turns[k]))
			if e.Step > 0 {
				words += fmt.Sprintf(" (it goes by %s at a time)", TurnsWords(e.Step))
			}
			turns = append(turns, words)
		}
	}
	if len(turns) == 0 {
		return head + ", turn nothing: so it is set."
	}
	return head + ", turn " + figure.List(turns) + "."
}
