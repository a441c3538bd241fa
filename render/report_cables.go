package render

import (
	"fmt"
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// reportTensions tells of one control's sweeps how tight the cables of pairs are,
// with the others at the first of their settings, and wherever they hang slack.
func reportTensions(p *page, r *solve.Result, sweeps []*solve.Sweep) {
	first := sweeps[0]
	t := table{head: []string{"cable, tension", "", "neutral", "least", "at", "most"}}
	for _, c := range first.Cables {
		if c.Neutral == nil {
			continue
		}
		at := "-"
		if c.At != nil {
			at = figure.Quantity(*c.At, first.Unit)
		}
		t.add(c.Cable.Name, string(c.Unit), figure.Number(*c.Neutral, c.Unit), figure.Number(*c.Least, c.Unit), at, figure.Number(*c.Most, c.Unit))
	}
	if len(t.rows) == 0 {
		return
	}
	p.blank()
	t.write(p, "  ")
	for _, s := range sweeps {
		for _, words := range slackSays(r.Run, s) {
			if len(sweeps) > 1 {
				words = "With " + HeldAt(r.Run, s) + ": " + words
			}
			p.text("  ", "    ", words)
		}
	}
}

// slackSays tells where the cables of each pair hang slack in a sweep.
func slackSays(run *linkage.Run, s *solve.Sweep) []string {
	var said []string
	for _, pair := range run.Pairs {
		if slack := SlackOf(s, pair); len(slack) > 0 {
			said = append(said, fmt.Sprintf("%s and %s hang slack with %s %s.%s",
				pair.Cables[0].Name, pair.Cables[1].Name, s.Control.Name, Stretches(s, slack), floatsThen(s, pair)))
		}
	}
	return said
}

// reportAllTensions tells the least and most tension over all sweeps.
func reportAllTensions(p *page, r *solve.Result) {
	t := table{head: []string{"cable, tension", "", "least", "most"}}
	for i, c := range r.Sweeps[0].Cables {
		if c.Neutral == nil {
			continue
		}
		least, most := *c.Least, *c.Most
		for _, s := range r.Sweeps[1:] {
			least, most = math.Min(least, *s.Cables[i].Least), math.Max(most, *s.Cables[i].Most)
		}
		t.add(c.Cable.Name, string(c.Unit), figure.Number(least, c.Unit), figure.Number(most, c.Unit))
	}
	if len(t.rows) > 0 {
		p.blank()
		t.write(p, "  ")
	}
}

// reportCables tells how the cables of a run are set.
func reportCables(p *page, run *linkage.Run) {
	t := table{head: []string{"cable, core", "", "as set", "drawn"}}
	unloaded := false
	for _, c := range run.Cables {
		unit := run.UnitsOf(c.In)
		if core := CoreOf(c); core != nil {
			t.add(c.Name, string(unit), figure.CalipersLength(*core, unit), figure.CalipersLength(c.Drawn, unit))
			unloaded = unloaded || c.Pair != nil
		}
	}
	if len(t.rows) > 0 {
		t.write(p, "  ")
		words := "core outside the conduit, at both ends together, hole to hole"
		if unloaded {
			words += "; as set: with no load on it"
		}
		p.text("  ", "  ", "("+words+")")
		p.blank()
	}
	reportNuts(p, run)
}

// CoreOf is how much core of a cable in a conduit is outside it, as set and with no
// load on it; nil for one on quadrants.
func CoreOf(c *linkage.Cable) *float64 {
	if c.Open() {
		return nil
	}
	core := c.Core - c.Taken
	if c.Pair != nil {
		core = c.Drawn - c.Pair.Pretension/c.Stiffness - c.Taken
	}
	return &core
}

// CableEnds lists the adjusters of a run, in the file's order.
func CableEnds(run *linkage.Run) []*linkage.CableEnd {
	var ends []*linkage.CableEnd
	for _, c := range run.Cables {
		ends = append(ends, c.Ends...)
	}
	return ends
}

// threadsOf names the ends of a run that have a thread.
func threadsOf(run *linkage.Run) string {
	switch {
	case len(CableEnds(run)) == 0:
		return "the rod ends"
	case len(RodEnds(run)) == 0:
		return "the nuts of conduits"
	}
	return "the rod ends and the nuts of conduits"
}

// reportNuts tells how the adjusters of cables are set.
func reportNuts(p *page, run *linkage.Run) {
	ends := CableEnds(run)
	if len(ends) == 0 {
		return
	}
	t := table{head: []string{"conduit end", "thread", "", "in nuts", "least", "spare"}}
	said := "in nuts: thread engaged; spare: beyond the least"
	limited := slices.ContainsFunc(ends, func(e *linkage.CableEnd) bool { return e.Most != nil })
	stepped := slices.ContainsFunc(ends, func(e *linkage.CableEnd) bool { return e.Step > 0 })
	if limited {
		t.head = append(t.head, "most")
		said += "; most: there is no more"
	}
	if stepped {
		t.head = append(t.head, "step")
		said += "; step: turns it can be set by"
	}
	asked := false
	for _, e := range ends {
		unit := run.UnitsOf(e.Cable.In)
		least := figure.CalipersNumber(e.Least, unit)
		if !e.LeastGiven {
			least += "?"
			asked = true
		}
		cells := []string{e.String(), NutThread(e), string(unit), figure.CalipersNumber(e.Engaged, unit), least, figure.CalipersNumber(e.Spare(), unit)}
		if limited {
			most := "-"
			if e.Most != nil {
				most = figure.CalipersNumber(*e.Most, unit)
			}
			cells = append(cells, most)
		}
		if stepped {
			step := "any"
			if e.Step > 0 {
				step = figure.Given(e.Step, "")
			}
			cells = append(cells, step)
		}
		t.add(cells...)
	}
	t.write(p, "  ")
	p.text("  ", "  ", "("+said+"; a turn out takes up slack, a pitch of core)")
	if asked {
		p.text("  ", "    ", "?: The maker's figure is missing: 1.5 diameters of thread stand in for it ("+NoSource+"); the maker's figure rules.")
	}
	p.blank()
}

// reportCablesRead tells every cable and pair as it was read.
func reportCablesRead(p *page, run *linkage.Run) {
	for _, c := range run.Cables {
		p.text("  ", "    ", c.Name+" "+cableRead(run, c))
	}
	for _, pair := range run.Pairs {
		p.text("  ", "    ", fmt.Sprintf("%s is a pair, %s and %s, drawn up to %s in each with what it holds as drawn",
			pair.Name, pair.Cables[0].Name, pair.Cables[1].Name, figure.Given(pair.Pretension, run.UnitsOf(pair.In).ForceUnit())))
	}
}

// cableRead tells what a cable joins, and how it is held.
func cableRead(run *linkage.Run, c *linkage.Cable) string {
	if c.Open() {
		said := "is an open cable"
		for i, quadrant := range *c.Quadrants {
			way := "is paid out"
			if c.Winds[i] > 0 {
				way = "is taken up"
			}
			said += fmt.Sprintf("; on %s, at a radius of %s, it %s as that turns plus", quadrant.Name, figure.Exact(c.Radius[i], run.UnitsOf(c.In)), way)
		}
		if c.Wire != nil {
			said += fmt.Sprintf("; %s of %s", figure.Exact(c.Length, run.UnitsOf(c.In)), c.Wire)
		}
		return said + cableActs(c)
	}
	said := fmt.Sprintf("is a cable in a conduit; core from %s to %s, conduit held at %s and %s, with %s of core outside it as drawn",
		c.From, c.To, c.Conduit[0], c.Conduit[1], figure.Exact(c.Drawn, run.UnitsOf(c.In)))
	for _, e := range c.Ends {
		said += fmt.Sprintf("; %s has nuts on %s", e.Side, e.Thread.Name)
	}
	return said + cableActs(c)
}

// cableActs tells how a lone cable acts; empty for one in a pair.
func cableActs(c *linkage.Cable) string {
	switch {
	case c.Pushes:
		return "; it pushes and pulls"
	case c.Spring != "":
		return "; it pulls, against a spring to the " + c.Spring + " side"
	}
	return ""
}

// NutThread names the thread of a conduit end, and its hand where it is left.
func NutThread(e *linkage.CableEnd) string { return handed(e.Thread, e.Left) }

// AnyOpenCable says whether a run has a cable on quadrants, without a conduit.
func AnyOpenCable(run *linkage.Run) bool {
	return slices.ContainsFunc(run.Cables, (*linkage.Cable).Open)
}
