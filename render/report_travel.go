package render

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// MostSettings is how many different ways that one control's travel ends are
// told in full; a run with more is better read from the results for machines.
const MostSettings = 8

// reportControl tells what one control does: how its travel ends, at each
// setting of the other controls where that differs, and what it moves with the
// others at the first of their settings.
func reportControl(p *page, r *solve.Result, sweeps []*solve.Sweep) {
	if len(sweeps) == 0 {
		return
	}
	first := sweeps[0]
	p.text("", "  ", controlTitle(r.Run, sweeps))
	others := ""
	if len(sweeps) > 1 {
		others = " with " + HeldAt(r.Run, first)
	}
	st := posesOf(r.Run, first)
	reportControlWays(p, r.Run, first, others)
	reportEnds(p, r, sweeps)
	p.blank()
	if len(sweeps) > 1 {
		p.text("  ", "  ", "With "+HeldAt(r.Run, first)+":")
	}
	reportMoved(p, r.Run, first, st)
	reportTensions(p, r, sweeps)
	p.blank()
}

// reportMoved tells what one sweep moves, and how far.
func reportMoved(p *page, run *linkage.Run, s *solve.Sweep, st *poses) {
	parts := extentTable("part moves", false)
	for _, part := range s.Parts {
		parts.extent(part.Name, part.Unit, part.Extent)
	}
	parts.write(p, "  ")
	if len(s.Outputs) == 0 {
		reportDetents(p, s)
		return
	}
	outputs := extentTable("output reads", false)
	for _, o := range s.Outputs {
		outputs.extent(o.Output.Name, o.Unit, o.Extent)
	}
	p.blank()
	outputs.write(p, "  ")
	for _, o := range s.Outputs {
		p.text("  ", "    ", outputSays(s, o))
		reportOutputWays(p, run, st, o)
	}
	reportDetents(p, s)
}

// reportAll tells what holds for all sweeps together: the least and most of
// everything, where there is more than one sweep to it, and the rods.
func reportAll(p *page, r *solve.Result) {
	if len(r.Sweeps) == 0 {
		return
	}
	if len(r.Sweeps) > 1 {
		p.text("", "  ", fmt.Sprintf("ALL TOGETHER: %s", figure.Count(len(r.Sweeps), "sweep")))
		reportMovedInAll(p, r)
		reportAllTensions(p, r)
		p.blank()
	}
	reportRods(p, r)
	reportCables(p, r.Run)
	reportFreePlay(p, r)
}

// reportMovedInAll tells the least and most of everything over all sweeps.
func reportMovedInAll(p *page, r *solve.Result) {
	parts := extentTable("part moves", true)
	for i, part := range r.Sweeps[0].Parts {
		parts.extent(part.Name, part.Unit, overAll(r, func(s *solve.Sweep) solve.Extent { return s.Parts[i].Extent }))
	}
	parts.write(p, "  ")
	if len(r.Run.Outputs) == 0 {
		return
	}
	outputs := extentTable("output reads", true)
	for i, o := range r.Sweeps[0].Outputs {
		outputs.extent(o.Output.Name, o.Unit, overAll(r, func(s *solve.Sweep) solve.Extent { return s.Outputs[i].Extent }))
	}
	p.blank()
	outputs.write(p, "  ")
}

// overAll is the least and most of something over all sweeps.
func overAll(r *solve.Result, of func(*solve.Sweep) solve.Extent) solve.Extent {
	return overSweeps(r.Sweeps, of)
}

// overSweeps is that over some sweeps.
func overSweeps(sweeps []*solve.Sweep, of func(*solve.Sweep) solve.Extent) solve.Extent {
	e := of(sweeps[0])
	for _, s := range sweeps[1:] {
		e.Least, e.Most = math.Min(e.Least, of(s).Least), math.Max(e.Most, of(s).Most)
	}
	return e
}

// controlTitle heads what is told of a control.
func controlTitle(run *linkage.Run, sweeps []*solve.Sweep) string {
	s := sweeps[0]
	low, high := s.Low, s.High
	for _, other := range sweeps[1:] {
		low, high = math.Min(low, other.Low), math.Max(high, other.High)
	}
	said := fmt.Sprintf("%s: moves %s from %s to %s", strings.ToUpper(s.Control.Name),
		s.Control.Of.Name, figure.Exact(low, s.Unit), figure.Exact(high, s.Unit))
	if s.Ends[0].Cause == solve.ByStop && s.Ends[1].Cause == solve.ByStop {
		said += ", stop to stop"
	}
	if len(sweeps) > 1 {
		return said + fmt.Sprintf(", at %d settings of %s", len(sweeps), figure.List(heldNames(s)))
	}
	if len(s.Settings()) > 0 {
		return said + ", with " + HeldAt(run, s)
	}
	return said
}

// SweepTitle heads a table of positions of one sweep.
func SweepTitle(run *linkage.Run, s *solve.Sweep) string {
	return controlTitle(run, []*solve.Sweep{s})
}

func heldNames(s *solve.Sweep) []string {
	var names []string
	for _, h := range s.Settings() {
		names = append(names, h.Control.Name)
	}
	return names
}

// reportEnds tells the ends of the travel and the on-center points, once for
// all the settings of the other controls that have the same.
func reportEnds(p *page, r *solve.Result, sweeps []*solve.Sweep) {
	groups := alike(sweeps, func(s *solve.Sweep) string { return endsText(r, s) })
	for i, same := range groups {
		if i == MostSettings {
			p.text("  ", "    ", fmt.Sprintf("And %d more that end differently: see the results for machines (--json).", len(groups)-i))
			break
		}
		if len(groups) > 1 {
			p.text("  ", "    ", settingsTitle(r.Run, same)+":")
		}
		p.WriteString(endsText(r, same[0]))
	}
}

// settingsTitle tells at which settings of the other controls.
func settingsTitle(run *linkage.Run, sweeps []*solve.Sweep) string {
	first := sweeps[0]
	if len(first.Settings()) == 1 {
		var at []string
		for _, s := range sweeps {
			at = append(at, heldPosition(run, s.Settings()[0]))
		}
		return "With " + first.Settings()[0].Control.Name + " at " + figure.List(at)
	}
	at := figure.FirstOf(len(sweeps), MostSettings, func(i int) string { return HeldAt(run, sweeps[i]) })
	return "With " + strings.Join(at, "; ")
}

// endsText is the lines that tell the ends and the on-center points of one sweep.
func endsText(r *solve.Result, s *solve.Sweep) string {
	p := &page{}
	reportTravelEnds(p, r, s)
	reportCenters(p, s)
	return p.String()
}

// GoesRound tells of a control that turns a rotor.
const GoesRound = "goes all the way round: nothing is to stop it"

// reportTravelEnds tells what ends the travel of one sweep, and what would next.
func reportTravelEnds(p *page, r *solve.Result, s *solve.Sweep) {
	if s.TurnsRotor() {
		p.text("  ", "    ", GoesRound)
		return
	}
	for i := range s.Ends {
		at := figure.Exact(s.Ends[i].At, s.Unit)
		p.text("  ", "    ", fmt.Sprintf("%-4s end, %s", SideName(i), figure.Joined(", ", at, figure.Clean(SideWord(s, i == 1)))))
		p.text("    ", "    ", figure.Joined(" ", EndSays(r, s, i), nextSays(s, i), nextMeans(s, i), missesSays(s, i), slackPast(s, s.Ends[i])))
	}
}

// reportCenters tells the on-center points of one sweep.
func reportCenters(p *page, s *solve.Sweep) {
	if s.TurnsRotor() {
		return
	}
	var centers []string
	for _, c := range s.Critical {
		centers = append(centers, fmt.Sprintf("at %s, %s: %s", figure.Quantity(c.At, s.Unit), CenterSpare(s, c), CenterInShort(s, c)))
	}
	if len(centers) == 0 {
		p.text("  ", "    ", fmt.Sprintf("on center: nowhere from %s to %s", figure.Quantity(s.Explored[0], s.Unit), figure.Quantity(s.Explored[1], s.Unit)))
		return
	}
	p.line("  on center")
	for _, c := range centers {
		p.text("    ", "      ", c)
	}
}

// HardlyMoves tells a ratio of which no figure is left when it is rounded.
const HardlyMoves = "hardly moves"

// outputSays tells the words for the sides of an output, and by how much it
// moves for its control.
func outputSays(s *solve.Sweep, o solve.OutputTravel) string {
	said := o.Output.Name + ": "
	if words := PlusMinus(o.Output); words != "" {
		said += words + "; "
	}
	if o.Ratio.Least == nil || o.Ratio.Most == nil {
		return said + "moves without measure on center (ratio)"
	}
	least, most := figure.RatioNumber(*o.Ratio.Least), figure.RatioNumber(*o.Ratio.Most)
	if most == figure.RatioNumber(0) {
		return said + "is not moved"
	}
	unit := linkage.Unit("") // told once
	switch {
	case o.Ratio.Neutral == nil:
		said += "moves "
		unit = o.Ratio.Unit
	case figure.RatioNumber(*o.Ratio.Neutral) == figure.RatioNumber(0):
		said += HardlyMoves + " at neutral, "
		unit = o.Ratio.Unit
	default:
		said += "moves " + figure.Ratio(*o.Ratio.Neutral, o.Ratio.Unit) + " at neutral, "
	}
	low, high := figure.RatioNumber(o.Ratio.Low), figure.RatioNumber(o.Ratio.High)
	if o.Ratio.Low >= 0 || o.Ratio.High <= 0 || low == figure.RatioNumber(0) || high == figure.RatioNumber(0) {
		return said + least + " to " + figure.WithUnit(most, unit) + " over the travel (ratio)"
	}
	said += low + " to " + figure.WithUnit(high, unit) + " over the travel (ratio); it halts and reverses"
	var at []string
	for _, x := range o.Ratio.Reverses {
		at = append(at, ControlPosition(s, x))
	}
	if len(at) == 0 {
		return said + " on the way"
	}
	return said + " at " + figure.List(at)
}

// PlusMinus tells the file's words for the two sides of an output.
func PlusMinus(o *linkage.Output) string {
	var said []string
	if o.Plus != "" {
		said = append(said, "plus is "+figure.Clean(o.Plus))
	}
	if o.Minus != "" {
		said = append(said, "minus is "+figure.Clean(o.Minus))
	}
	return strings.Join(said, ", ")
}

// extents is a table of extents.
type extents struct {
	table
	merged bool // over several sweeps: least and most alone
}

func extentTable(heading string, merged bool) *extents {
	if merged {
		return &extents{table{head: []string{heading, "", "least", "most"}}, true}
	}
	return &extents{table{head: []string{heading, "", "neutral", "low end", "high end", "least", "most"}}, false}
}

// extent adds the row of one part or output.
func (t *extents) extent(name string, unit linkage.Unit, e solve.Extent) {
	if t.merged {
		t.add(name, string(unit), figure.Number(e.Least, unit), figure.Number(e.Most, unit))
		return
	}
	t.add(name, string(unit), figure.Number(e.Neutral, unit), figure.Number(e.AtLow, unit), figure.Number(e.AtHigh, unit), figure.Number(e.Least, unit), figure.Number(e.Most, unit))
}

// reportRods tells how the rods are set, and over all sweeps how flat they get
// to what they drive and how far their ends tilt.
func reportRods(p *page, r *solve.Result) {
	if len(r.Run.Rods) == 0 {
		return
	}
	unit := r.Run.UnitsOf(r.Run.Rods[0].In)
	t := table{head: []string{"rod, hole to hole", string(unit), "drawn", "flattest", "to", "tilt"}}
	for i, rod := range r.Sweeps[0].Rods {
		angle, tilt, flattest := rod.Angle, 0.0, "-"
		for _, s := range r.Sweeps {
			other := s.Rods[i]
			if other.Angle.Least < angle.Least {
				angle = other.Angle
			}
			tilt = max(tilt, other.TiltFrom, other.TiltTo)
		}
		if rod.SecondPath == nil {
			flattest = figure.Degrees(angle.Least)
		} else {
			angle.Part = "second path"
		}
		t.add(rod.Rod.Name, figure.ExactNumber(rod.Length, unit), figure.Thousandths(rod.Rod.Drawn, unit), flattest, angle.Part, figure.Degrees(tilt))
	}
	t.write(p, "  ")
	p.text("  ", "  ", "(flattest: the least angle between a rod and the arm that it drives, its transmission angle; tilt: the most that a rod end stands out of square to its bolt, its misalignment)")
	p.blank()
	reportSecondPaths(p, r)
	reportRodEnds(p, r.Run)
	if len(RodEnds(r.Run)) > 0 && !slices.ContainsFunc(r.Run.Requirements, func(req *linkage.Requirement) bool { return req.Kind == linkage.Engagement }) {
		p.text("  ", "    ", WitnessCheck) // else its sentence tells it
		p.blank()
	}
}
