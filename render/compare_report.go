package render

import (
	"errors"
	"fmt"
	"io"
	"slices"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// AsFiled is the name of the variant that the others are compared with.
const AsFiled = "as filed"

// Variant is a run with some of its rod ends turned, and judged so.
type Variant struct {
	Name   string           // as the user gave it, or AsFiled
	Turned []Turned         // of the rods of Result.Run
	Set    []linkage.Number // that are set otherwise, as they are set
	Other  bool             // another file, of whatever parts
	Result *solve.Result
}

// WholeVariants says what is missing where settings can't be compared: any setting,
// or what one comes to.
func WholeVariants(variants []Variant) error {
	if len(variants) == 0 {
		return errors.New("there is nothing to compare")
	}
	for _, v := range variants {
		if err := v.Result.Whole(); err != nil {
			return err
		}
	}
	return nil
}

// CompareReport writes settings side by side for the person at the bench, the
// run as filed first: what each comes to, what it needs of every rod and end,
// and what it does stop to stop, with what changed marked. File is the name of
// the file as the user gave it. The error is the writer's.
func CompareReport(w io.Writer, file string, variants []Variant) error {
	if err := WholeVariants(variants); err != nil {
		return err
	}
	p := pageFor(w)
	filed := variants[0].Result
	p.text("", "  ", figure.Clean(filed.Run.Name))
	p.text("", "  ", fmt.Sprintf("COMPARED: as filed, and %s. What changed bears an asterisk (*).", figure.Count(len(variants)-1, "other setting")))
	p.blank()
	for i, v := range variants {
		p.text("  "+figure.Letter(i)+"  ", "     ", figure.Clean(v.Name))
		p.text("     ", "       ", Headline(v.Result))
		p.text("     ", "       ", LeftOutSays(v.Result))
		for _, words := range slices.Concat(UnfitSay(v.Result.Run, v.Result.Unfit), SecondPathFaults(v.Result)) {
			p.text("     ", "       ", words)
		}
	}
	p.blank()
	c := comparison{p, variants}
	c.rods()
	c.cables()
	c.required()
	for _, words := range notCompared(variants) {
		p.text("  ", "    ", words)
	}
	sweeps := filed.Sweeps
	if len(sweeps) > mostCompared {
		sweeps = nearestNeutral(filed)
	}
	for _, s := range sweeps {
		if c.inAll(s) { // else some setting had no room for it, which is told above
			c.sweep(s)
		}
	}
	if left := len(filed.Sweeps) - len(sweeps); left > 0 {
		p.text("", "  ", fmt.Sprintf("Left out: %s with the other controls further from neutral, which --json has; what is required is judged in all.", figure.Count(left, "travel")))
		p.blank()
	}
	reportSettingLimits(p, figure.Clean(file), filed)
	return p.writeTo(w)
}

// mostCompared is of how many travels all are told: of more, those of each control with the
// others nearest to neutral, at whose other settings a turn does much the same.
const mostCompared = 12

// comparison is variants being put side by side.
type comparison struct {
	p        *page
	variants []Variant
}

// table begins a table with a column for each variant.
func (c comparison) table(head string) *table {
	t := &table{head: []string{head, ""}}
	for i := range c.variants {
		t.head = append(t.head, figure.Letter(i))
	}
	return t
}

// row adds a figure of every variant. What reads otherwise than as filed is
// marked.
func (c comparison) row(t *table, label string, unit linkage.Unit, shown func(Variant) string) {
	cells := []string{label, string(unit)}
	for i, v := range c.variants {
		text := shown(v)
		if i > 0 && text != cells[2] {
			text = "*" + text
		}
		cells = append(cells, text)
	}
	t.add(cells...)
}

// rods tells how every rod and rod end is set.
func (c comparison) rods() {
	run := c.variants[0].Result.Run
	if len(run.Rods) == 0 {
		return
	}
	t := c.table("rod, hole to hole")
	for _, rod := range run.Rods {
		unit := run.UnitsOf(rod.In)
		c.row(t, figure.Clean(rod.Name), unit, func(v Variant) string {
			return v.rodOf(rod.Name, func(r *linkage.Rod) string { return figure.CalipersLength(r.Length, unit) })
		})
	}
	t.write(c.p, "  ")
	ends := RodEnds(run)
	if len(ends) > 0 {
		c.p.blank()
		t = c.table("thread in the rod")
		for _, e := range ends {
			unit := run.UnitsOf(e.Rod.In)
			end := func(of func(e *linkage.RodEnd) float64) func(v Variant) string {
				return func(v Variant) string {
					return v.rodEndOf(e.String(), func(e *linkage.RodEnd) string { return figure.CalipersNumber(of(e), unit) })
				}
			}
			c.row(t, e.String(), unit, end(func(e *linkage.RodEnd) float64 { return e.Engaged }))
			c.row(t, "  to spare", unit, end((*linkage.RodEnd).Spare))
		}
		t.write(c.p, "  ")
	}
	c.p.blank()
}

// cables tells how every cable in a conduit and every nut is set.
func (c comparison) cables() {
	run := c.variants[0].Result.Run
	t := c.table("cable, core outside")
	for _, cable := range run.Cables {
		unit := run.UnitsOf(cable.In)
		if !cable.Open() {
			c.row(t, figure.Clean(cable.Name), unit, func(v Variant) string {
				return v.cableOf(cable.Name, func(k *linkage.Cable) string { return figure.CalipersLength(*CoreOf(k), unit) })
			})
		}
	}
	if len(t.rows) > 0 {
		t.write(c.p, "  ")
		c.p.blank()
	}
	if ends := CableEnds(run); len(ends) > 0 {
		t = c.table("thread in the nuts")
		for _, e := range ends {
			unit := run.UnitsOf(e.Cable.In)
			end := func(of func(e *linkage.CableEnd) float64) func(v Variant) string {
				return func(v Variant) string {
					return v.cableEndOf(e.String(), func(e *linkage.CableEnd) string { return figure.CalipersNumber(of(e), unit) })
				}
			}
			c.row(t, e.String(), unit, end(func(e *linkage.CableEnd) float64 { return e.Engaged }))
			c.row(t, "  to spare", unit, end((*linkage.CableEnd).Spare))
		}
		t.write(c.p, "  ")
		c.p.blank()
	}
}

// required tells every requirement's worst value and verdict.
func (c comparison) required() {
	filed := c.variants[0].Result
	if len(filed.Requirements) == 0 {
		return
	}
	t := c.table("required, worst")
	for i := range filed.Requirements {
		c.row(t, RequirementTitle(filed, filed.Requirements[i].Requirement), "", func(v Variant) string {
			return v.judgementOf(filed, i, func(j *solve.Judgement) string { return VerdictMark(j.Verdict) + " " + WorstWords(j) })
		})
	}
	t.write(c.p, "  ")
	c.p.blank()
}

// inAll reports whether every variant has a sweep.
func (c comparison) inAll(s *solve.Sweep) bool {
	return !slices.ContainsFunc(c.variants, func(v Variant) bool { return v.sweepLike(s) == nil })
}

// sweepLike is the sweep of the same control with the others held alike; nil where it
// was left out.
func (v Variant) sweepLike(s *solve.Sweep) *solve.Sweep {
	alike := func(a, b solve.Held) bool { return a.Control.Name == b.Control.Name && a.At == b.At }
	for _, own := range v.Result.Sweeps {
		if own.Control.Name == s.Control.Name && slices.EqualFunc(own.Held, s.Held, alike) {
			return own
		}
	}
	return nil
}

// sweep tells the ends of one sweep's travel, what makes them, and what every
// part and output does.
func (c comparison) sweep(s *solve.Sweep) {
	filed := c.variants[0].Result
	head := s.Control.Name
	if len(s.Settings()) > 0 {
		head += ", with " + HeldAt(filed.Run, s)
	}
	t := c.table(head)
	for side := range s.Ends {
		c.row(t, SideName(side)+" end", s.Unit, func(v Variant) string { return figure.Number(v.sweepLike(s).Ends[side].At, s.Unit) })
		c.row(t, "  made by", "", func(v Variant) string { return MadeBy(v.sweepLike(s).Ends[side]) })
	}
	extent := func(name string, unit linkage.Unit, of func(w *solve.Sweep, show func(solve.Extent) string) string) {
		row := func(label string, at func(solve.Extent) float64) {
			c.row(t, label, unit, func(v Variant) string {
				return of(v.sweepLike(s), func(e solve.Extent) string { return figure.FineNumber(at(e), unit) })
			})
		}
		row(figure.Clean(name), func(e solve.Extent) float64 { return e.Neutral })
		row("  at low end", func(e solve.Extent) float64 { return e.AtLow })
		row("  at high end", func(e solve.Extent) float64 { return e.AtHigh })
	}
	for _, part := range s.Parts {
		if part.Part != s.Control.Of {
			extent(part.Name+", at neutral", part.Unit, func(w *solve.Sweep, show func(solve.Extent) string) string {
				return named(w.Parts, func(p solve.PartTravel) bool { return p.Name == part.Name }, func(p solve.PartTravel) string { return show(p.Extent) })
			})
		}
	}
	for _, o := range s.Outputs {
		extent(o.Output.Name+" reads, at neutral", o.Unit, func(w *solve.Sweep, show func(solve.Extent) string) string {
			return named(w.Outputs, func(p solve.OutputTravel) bool { return p.Output.Name == o.Output.Name }, func(p solve.OutputTravel) string { return show(p.Extent) })
		})
	}
	for _, cable := range s.Cables {
		if cable.Neutral == nil {
			continue
		}
		pull := func(of func(solve.CableTravel) *float64) func(v Variant) string {
			return func(v Variant) string {
				return named(v.sweepLike(s).Cables, func(k solve.CableTravel) bool { return k.Cable.Name == cable.Cable.Name && k.Neutral != nil },
					func(k solve.CableTravel) string { return figure.Number(*of(k), cable.Unit) })
			}
		}
		c.row(t, figure.Clean(cable.Cable.Name)+" pulls, at neutral", cable.Unit, pull(func(k solve.CableTravel) *float64 { return k.Neutral }))
		c.row(t, "  at the least", cable.Unit, pull(func(k solve.CableTravel) *float64 { return k.Least }))
	}
	t.write(c.p, "  ")
	c.p.blank()
}

// MadeBy tells in a word or two what ends the travel.
func MadeBy(e solve.End) string {
	switch e.Cause {
	case solve.ByStop:
		return figure.Clean(e.Stop.Name)
	case solve.ByLimit:
		return "nothing met"
	}
	return "on center"
}

// reportSettingLimits tells what an answer about settings rests on.
func reportSettingLimits(p *page, file string, r *solve.Result) {
	say := func(words string) { p.text("  ", "    ", words) }
	p.line("BEFORE IT IS BOLTED UP")
	if len(RodEnds(r.Run)) > 0 || len(CableEnds(r.Run)) == 0 {
		say(TurnsCounted)
	}
	if len(CableEnds(r.Run)) > 0 {
		say(NutsCounted)
	}
	for _, words := range BarrelSays(r.Run) {
		say(words)
	}
	say(makersSay(r.Run))
	say(endStepsAssumed(r.Run))
	if len(RodEnds(r.Run)) > 0 || len(CableEnds(r.Run)) == 0 {
		say(WitnessCheck)
	}
	p.blank()
	reportLimits(p, file, r, ReportOptions{})
}
