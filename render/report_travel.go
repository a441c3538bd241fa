package render

import (
	"fmt"
	"math"
	"strings"

	"fullfree/linkage"
	"fullfree/solve"
)

// mostSettings is how many different ways that one control's travel ends are
// told in full; a run with more is better read from the results for machines.
const mostSettings = 8

// reportControl tells what one control does. Its sweeps, one for each setting
// of the other controls, are told together: their ends where they differ, and
// the least and most of everything over all of them.
func reportControl(p *page, r *solve.Result, sweeps []*solve.Sweep) {
	if len(sweeps) == 0 {
		return
	}
	p.text("", "  ", controlTitle(r.Run, sweeps))
	reportEnds(p, r, sweeps)
	reportParts(p, sweeps)
	reportOutputs(p, sweeps)
	reportRods(p, r.Run.Units, sweeps)
	p.blank()
}

// controlTitle heads what is told of a control.
func controlTitle(run *linkage.Run, sweeps []*solve.Sweep) string {
	s := sweeps[0]
	low, high := s.Low, s.High
	for _, other := range sweeps[1:] {
		low, high = math.Min(low, other.Low), math.Max(high, other.High)
	}
	said := fmt.Sprintf("%s: moves %s from %s to %s, stop to stop", strings.ToUpper(s.Control.Name),
		s.Control.Of.Name, Quantity(low, s.Unit), Quantity(high, s.Unit))
	if len(sweeps) > 1 {
		return said + fmt.Sprintf(", taken over %d settings of %s", len(sweeps), list(heldNames(s)))
	}
	if len(s.Held) > 0 {
		return said + ", with " + heldAt(run, s)
	}
	return said
}

// sweepTitle heads a table of positions of one sweep.
func sweepTitle(run *linkage.Run, s *solve.Sweep) string {
	return controlTitle(run, []*solve.Sweep{s})
}

func heldNames(s *solve.Sweep) []string {
	var names []string
	for _, h := range s.Held {
		names = append(names, h.Control.Name)
	}
	return names
}

// reportEnds tells the ends of the travel and the on-center points, once for
// all the settings of the other controls that have the same.
func reportEnds(p *page, r *solve.Result, sweeps []*solve.Sweep) {
	var told []string
	settings := map[string][]*solve.Sweep{}
	for _, s := range sweeps {
		text := endsText(r, s)
		if settings[text] == nil {
			told = append(told, text)
		}
		settings[text] = append(settings[text], s)
	}
	for i, text := range told {
		if i == mostSettings {
			p.text("  ", "    ", fmt.Sprintf("And %d more that end differently: see the results for machines (--json).", len(told)-i))
			break
		}
		if len(told) > 1 {
			p.text("  ", "    ", settingsTitle(r.Run, settings[text])+":")
		}
		p.WriteString(text)
	}
}

// settingsTitle tells at which settings of the other controls.
func settingsTitle(run *linkage.Run, sweeps []*solve.Sweep) string {
	first := sweeps[0]
	if len(first.Held) == 1 {
		var at []string
		for _, s := range sweeps {
			at = append(at, Quantity(s.Held[0].At, controlUnit(run, s.Held[0].Control)))
		}
		return "With " + first.Held[0].Control.Name + " at " + list(at)
	}
	var at []string
	for i, s := range sweeps {
		if i == mostSettings {
			at = append(at, fmt.Sprintf("%d more", len(sweeps)-i))
			break
		}
		at = append(at, heldAt(run, s))
	}
	return "With " + strings.Join(at, "; ")
}

// endsText is the lines that tell the ends and the on-center points of one sweep.
func endsText(r *solve.Result, s *solve.Sweep) string {
	p := &page{}
	for i := range s.Ends {
		words := s.Control.Minus
		if i == 1 {
			words = s.Control.Plus
		}
		head := fmt.Sprintf("%-4s end, %s", sideName(i), Quantity(s.Ends[i].At, s.Unit))
		if words != "" {
			head += ", " + clean(words)
		}
		p.text("  ", "    ", head)
		p.text("    ", "    ", endSays(r, s, i)+" "+nextSays(s, i))
	}
	var centers []string
	for _, c := range s.Critical {
		centers = append(centers, fmt.Sprintf("at %s, %s: %s", Quantity(c.At, s.Unit), spare(s, c), inShort(c)))
	}
	if len(centers) == 0 {
		p.text("  ", "    ", fmt.Sprintf("on center: nowhere from %s to %s", Quantity(s.Explored[0], s.Unit), Quantity(s.Explored[1], s.Unit)))
		return p.String()
	}
	p.line("  on center")
	for _, c := range centers {
		p.text("    ", "      ", c)
	}
	return p.String()
}

// reportParts tells how far every part moves.
func reportParts(p *page, sweeps []*solve.Sweep) {
	t := extentTable("part moves", len(sweeps) > 1)
	for i, part := range sweeps[0].Parts {
		t.extent(part.Name, part.Unit, sweeps, func(s *solve.Sweep) solve.Extent { return s.Parts[i].Extent })
	}
	p.blank()
	t.write(p, "  ")
}

// reportOutputs tells what every output reads, and how much it moves for the
// control.
func reportOutputs(p *page, sweeps []*solve.Sweep) {
	first := sweeps[0]
	if len(first.Outputs) == 0 {
		return
	}
	t := extentTable("output reads", len(sweeps) > 1)
	for i, o := range first.Outputs {
		t.extent(o.Output.Name, o.Unit, sweeps, func(s *solve.Sweep) solve.Extent { return s.Outputs[i].Extent })
	}
	p.blank()
	t.write(p, "  ")
	for i, o := range first.Outputs {
		said := o.Output.Name + ": "
		if words := plusMinus(o.Output); words != "" {
			said += words + "; "
		}
		p.text("  ", "    ", said+ratioSays(sweeps, i))
	}
}

// plusMinus tells the file's words for the two sides of an output.
func plusMinus(o *linkage.Output) string {
	var said []string
	if o.Plus != "" {
		said = append(said, "plus is "+clean(o.Plus))
	}
	if o.Minus != "" {
		said = append(said, "minus is "+clean(o.Minus))
	}
	return strings.Join(said, ", ")
}

// ratioSays tells by how much an output moves for its control.
func ratioSays(sweeps []*solve.Sweep, i int) string {
	var least, most *float64
	for _, s := range sweeps {
		ratio := s.Outputs[i].Ratio
		if ratio.Least == nil || ratio.Most == nil {
			least, most = nil, nil
			break
		}
		if least == nil || math.Abs(*ratio.Least) < math.Abs(*least) {
			least = ratio.Least
		}
		if most == nil || math.Abs(*ratio.Most) > math.Abs(*most) {
			most = ratio.Most
		}
	}
	unit := sweeps[0].Outputs[i].Ratio.Unit
	said := "moves "
	if neutral := sweeps[0].Outputs[i].Ratio.Neutral; neutral != nil && len(sweeps) == 1 {
		said += Quantity(*neutral, unit) + " at neutral, "
	}
	if least == nil {
		return said + "without measure on center (ratio)"
	}
	return said + decimal(*least, ratioDecimals) + " to " + Quantity(*most, unit) + " over the travel (ratio)"
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
func (t *extents) extent(name, unit string, sweeps []*solve.Sweep, of func(*solve.Sweep) solve.Extent) {
	e := of(sweeps[0])
	for _, s := range sweeps[1:] {
		e.Least, e.Most = math.Min(e.Least, of(s).Least), math.Max(e.Most, of(s).Most)
	}
	if t.merged {
		t.add(name, unit, number(e.Least, unit), number(e.Most, unit))
		return
	}
	t.add(name, unit, number(e.Neutral, unit), number(e.AtLow, unit), number(e.AtHigh, unit), number(e.Least, unit), number(e.Most, unit))
}

// reportRods tells how the rods are set, how flat they get to what they drive
// and how far their ends tilt.
func reportRods(p *page, units linkage.Units, sweeps []*solve.Sweep) {
	if len(sweeps[0].Rods) == 0 {
		return
	}
	unit := string(units)
	t := table{head: []string{"rod, hole to hole", unit, "drawn", "flattest", "to", "tilt"}}
	for i, rod := range sweeps[0].Rods {
		angle := rod.Angle
		tilt := math.Max(rod.TiltFrom, rod.TiltTo)
		for _, s := range sweeps[1:] {
			other := s.Rods[i]
			if other.Angle.Least < angle.Least {
				angle = other.Angle
			}
			tilt = math.Max(tilt, math.Max(other.TiltFrom, other.TiltTo))
		}
		t.add(rod.Rod.Name, number(rod.Rod.Length, unit), number(rod.Rod.Drawn, unit), Degrees(angle.Least), angle.Part, Degrees(tilt))
	}
	p.blank()
	t.write(p, "  ")
	p.text("  ", "  ", "(flattest: the least angle between a rod and the arm that it drives, its transmission angle; tilt: the most that a rod end stands out of square to its bolt, its misalignment)")
}
