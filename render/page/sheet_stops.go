package page

import (
	"fmt"
	"strings"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/solve"
	"fullfree/solve/recheck"
)

// stepStops lists on each side of every control's travel which stop is set to
// bite first, then which would bite next.
func stepStops(r *solve.Result) sheetStep {
	step := sheetStep{
		step:    recheck.StepStops,
		Title:   "Set the stops: primary, then secondary",
		Says:    []string{"Primary is the one that bites first, secondary the next beyond it."},
		Sources: ruled(r.Run.Craft, rotorStops, planeStops),
	}
	t := &step.Table
	t.Head = []string{"control, side", "stop", "bites at", "as rigged", "locked"}
	for _, c := range r.Run.Controls {
		sweeps := byHand(r, c)
		for i := range 2 {
			for _, told := range endsApart(r, sweeps, i) {
				side := figure.Joined(", ", c.Name, sideOf(c, i == 1), told.with)
				allowed := 0.0
				if travel := requiredOf(r.Run, linkage.Travel, told.sweep, ofControl(c)); travel != nil {
					allowed = travel.Within
				}
				add := func(says, at string) {
					t.add(cellSays(side), cellSays(says), cellSays(at), cellBlank(), cellTick())
				}
				bites := func(which string, stop *linkage.Stop, at float64, says string) {
					line := recheck.Line{Says: side + ", " + which + ": none", About: c, Figure: &recheck.Figure{Value: at, Unit: told.sweep.Unit, Allowed: allowed}}
					if stop != nil {
						line.Says, line.About = side+", "+which+": "+figure.Clean(stop.Name), stop
					}
					t.line(line, cellSays(side), cellSays(which+": "+says), cellSays(figure.Exact(at, told.sweep.Unit)), cellBlank(), cellTick())
				}
				first, next := told.sweep.Ends[i], render.NextStop(told.sweep, i)
				primary := noStop(first)
				if first.Cause == solve.ByStop {
					primary = figure.Clean(first.Stop.Name) + adjustSays(r.Run, first.Stop)
				}
				bites("primary", first.Stop, first.At, primary)
				center := render.NextCenter(told.sweep, i)
				switch {
				case center != nil && (next == nil || render.Outward(told.sweep, i, center.At) < render.Outward(told.sweep, i, *next.At)):
					add(fmt.Sprintf("secondary: none before it goes on center at %s (%s)", figure.Quantity(center.At, told.sweep.Unit), render.CenterTerm(center.Kind)), "-")
				case next == nil:
					add("secondary: none met, looking to "+figure.Quantity(told.sweep.Explored[i], told.sweep.Unit), "-")
				default:
					holds := ""
					if past := first.Past; past != nil && past.HoldsControl() && past.Stop == next.Stop {
						holds = ", which holds " + figure.Clean(c.Name) + " itself"
					}
					bites("secondary", next.Stop, *next.At, figure.Clean(next.Stop.Name)+holds+adjustSays(r.Run, next.Stop))
				}
				for _, missed := range render.MissesInShort(told.sweep, i) {
					add("missed: "+missed, "-")
				}
			}
		}
	}
	return step
}

// noStop tells what ends a travel where no stop does.
func noStop(end solve.End) string {
	if end.Cause == solve.ByLimit {
		return "none met, looking no further than this"
	}
	return "none, " + render.EndWords(end)
}

// adjustSays tells between which figures a stop may be set; empty where the
// file doesn't say.
func adjustSays(run *linkage.Run, stop *linkage.Stop) string {
	if stop.Adjust == nil || stop.Of == nil {
		return ""
	}
	unit := figure.PartUnit(run, stop.Of)
	return fmt.Sprintf(" (may be set %s to %s)", figure.ExactGiven(stop.Adjust[0], unit), figure.ExactGiven(stop.Adjust[1], unit))
}

// endApart is how the travel ends on one side, in a sweep that stands for all
// those where it ends alike.
type endApart struct {
	sweep *solve.Sweep
	with  string // where the other controls stand; empty where that changes nothing
}

// endsApart returns the different ways in which a control's travel ends on a
// side, as the other controls stand; at most mostSettings of them.
func endsApart(r *solve.Result, sweeps []*solve.Sweep, i int) []endApart {
	seen := make(map[string]bool)
	var list []endApart
	for _, s := range sweeps {
		key := figure.Quantity(s.Ends[i].At, s.Unit) + " " + render.EndWords(s.Ends[i])
		if next := render.NextStop(s, i); next != nil {
			key += " " + figure.Exact(*next.At, s.Unit) + " " + next.Stop.Name
		}
		key += strings.Join(render.MissesInShort(s, i), " ")
		if !seen[key] && len(list) < render.MostSettings {
			seen[key] = true
			list = append(list, endApart{sweep: s})
		}
	}
	if len(list) > 1 {
		for k := range list {
			list[k].with = "with " + render.HeldAt(r.Run, list[k].sweep)
		}
	}
	return list
}
