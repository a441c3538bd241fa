package render

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strings"

	"fullfree/solve"
)

// AsFiled is the name of the variant that the others are compared with.
const AsFiled = "as filed"

// Variant is a run with some of its rod ends turned, and judged so.
type Variant struct {
	Name   string   // as the user gave it, or AsFiled
	Turned []Turned // of the rods of Result.Run
	Result *solve.Result
}

// letterOf counts in letters: A to Z, then AA and so on. A variant as filed is A.
func letterOf(i int) string {
	const letters = 'Z' - 'A' + 1
	if i < letters {
		return string(rune('A' + i))
	}
	return letterOf(i/letters-1) + letterOf(i%letters)
}

// wholeVariants says that there is nothing to compare.
func wholeVariants(variants []Variant) error {
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
	if err := wholeVariants(variants); err != nil {
		return err
	}
	p := &page{}
	filed := variants[0].Result
	p.text("", "  ", clean(filed.Run.Name))
	p.text("", "  ", fmt.Sprintf("COMPARED: as filed, and %s. What changed bears an asterisk (*).", count(len(variants)-1, "other setting")))
	p.blank()
	for i, v := range variants {
		p.text("  "+letterOf(i)+"  ", "     ", clean(v.Name))
		p.text("     ", "       ", variantHeadline(v))
		for _, words := range secondPathFaults(v.Result) {
			p.text("     ", "       ", words)
		}
	}
	p.blank()
	c := comparison{p, variants}
	c.rods()
	c.cables()
	c.required()
	for i := range filed.Sweeps {
		c.sweep(i)
	}
	reportSettingLimits(p, clean(file), filed)
	_, err := io.WriteString(w, p.String())
	return err
}

// settingFaults tells what is wrong with a setting whatever is required: too
// little thread, or too much, or more than the shank has, or a turn that can't be
// made.
func settingFaults(v Variant) []string {
	return slices.Concat(threadFaults(v.Result.Run), shankFaults(v.Result.Run), nutFaults(v.Result.Run), stepFaults(v.Turned))
}

// Judge makes a variant fall short where its setting does, whatever is required.
func (v Variant) Judge() {
	if len(settingFaults(v)) > 0 {
		v.Result.Verdict = solve.FallsShort
	}
}

// variantHeadline is the verdict on a variant in a line.
func variantHeadline(v Variant) string {
	faults := settingFaults(v)
	if len(faults) == 0 {
		return Headline(v.Result)
	}
	said := afterDoubt(v.Result, "FALLS SHORT: "+strings.Join(faults, " "))
	missed := func(j solve.Judgement) bool { return j.Verdict != solve.Holds }
	if len(v.Result.Requirements) > 0 && !slices.ContainsFunc(v.Result.Requirements, missed) {
		return said + " Else nothing required falls short."
	}
	return said + " " + verdictSays(v.Result)
}

// comparison is variants being put side by side.
type comparison struct {
	p        *page
	variants []Variant
}

// table begins a table with a column for each variant.
func (c comparison) table(head string) *table {
	t := &table{head: []string{head, ""}}
	for i := range c.variants {
		t.head = append(t.head, letterOf(i))
	}
	return t
}

// row adds a figure of every variant. What reads otherwise than as filed is
// marked.
func (c comparison) row(t *table, label, unit string, figure func(Variant) string) {
	cells := []string{label, unit}
	for i, v := range c.variants {
		text := figure(v)
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
	unit := string(run.Units)
	t := c.table("rod, hole to hole")
	for i, rod := range run.Rods {
		c.row(t, clean(rod.Name), unit, func(v Variant) string { return calipers(v.Result.Run.Rods[i].Length, unit) })
	}
	t.write(c.p, "  ")
	ends := rodEnds(run)
	if len(ends) > 0 {
		c.p.blank()
		t = c.table("thread in the rod")
		for i, e := range ends {
			c.row(t, e.String(), unit, func(v Variant) string { return calipers(rodEnds(v.Result.Run)[i].Engaged, unit) })
			c.row(t, "  to spare", unit, func(v Variant) string { return calipers(rodEnds(v.Result.Run)[i].Spare(), unit) })
		}
		t.write(c.p, "  ")
	}
	c.p.blank()
}

// cables tells how every cable in a conduit and every nut is set.
func (c comparison) cables() {
	run := c.variants[0].Result.Run
	unit := string(run.Units)
	t := c.table("cable, core outside")
	for i, cable := range run.Cables {
		if !cable.Open() {
			c.row(t, clean(cable.Name), unit, func(v Variant) string { return calipers(*coreOf(v.Result.Run.Cables[i]), unit) })
		}
	}
	if len(t.rows) > 0 {
		t.write(c.p, "  ")
		c.p.blank()
	}
	if ends := cableEnds(run); len(ends) > 0 {
		t = c.table("thread in the nuts")
		for i, e := range ends {
			c.row(t, e.String(), unit, func(v Variant) string { return calipers(cableEnds(v.Result.Run)[i].Engaged, unit) })
			c.row(t, "  to spare", unit, func(v Variant) string { return calipers(cableEnds(v.Result.Run)[i].Spare(), unit) })
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
		c.row(t, titleAmong(filed, filed.Requirements[i].Requirement), "", func(v Variant) string {
			j := &v.Result.Requirements[i]
			return verdictMark(j.Verdict) + " " + worstWords(j)
		})
	}
	t.write(c.p, "  ")
	c.p.blank()
}

// sweep tells the ends of one sweep's travel, what makes them, and what every
// part and output does.
func (c comparison) sweep(i int) {
	filed := c.variants[0].Result
	s := filed.Sweeps[i]
	head := s.Control.Name
	if len(s.Held) > 0 {
		head += ", with " + heldAt(filed.Run, s)
	}
	t := c.table(head)
	for side := range s.Ends {
		c.row(t, sideName(side)+" end", s.Unit, func(v Variant) string { return number(v.Result.Sweeps[i].Ends[side].At, s.Unit) })
		c.row(t, "  made by", "", func(v Variant) string { return madeBy(v.Result.Sweeps[i].Ends[side]) })
	}
	extent := func(name, unit string, of func(*solve.Sweep) solve.Extent) {
		c.row(t, clean(name), unit, func(v Variant) string { return fine(of(v.Result.Sweeps[i]).Neutral, unit) })
		c.row(t, "  at low end", unit, func(v Variant) string { return fine(of(v.Result.Sweeps[i]).AtLow, unit) })
		c.row(t, "  at high end", unit, func(v Variant) string { return fine(of(v.Result.Sweeps[i]).AtHigh, unit) })
	}
	for k, part := range s.Parts {
		if part.Part != s.Control.Of {
			extent(part.Name+", at neutral", part.Unit, func(s *solve.Sweep) solve.Extent { return s.Parts[k].Extent })
		}
	}
	for k, o := range s.Outputs {
		extent(o.Output.Name+" reads, at neutral", o.Unit, func(s *solve.Sweep) solve.Extent { return s.Outputs[k].Extent })
	}
	for k, cable := range s.Cables {
		if cable.Neutral != nil {
			c.row(t, clean(cable.Cable.Name)+" pulls, at neutral", cable.Unit, func(v Variant) string { return number(*v.Result.Sweeps[i].Cables[k].Neutral, cable.Unit) })
			c.row(t, "  at the least", cable.Unit, func(v Variant) string { return number(*v.Result.Sweeps[i].Cables[k].Least, cable.Unit) })
		}
	}
	t.write(c.p, "  ")
	c.p.blank()
}

// madeBy tells in a word or two what ends the travel.
func madeBy(e solve.End) string {
	switch e.Cause {
	case solve.ByStop:
		return clean(e.Stop.Name)
	case solve.ByLimit:
		return "nothing met"
	}
	return "on center"
}

// reportSettingLimits tells what an answer about settings rests on.
func reportSettingLimits(p *page, file string, r *solve.Result) {
	say := func(words string) { p.text("  ", "    ", words) }
	p.line("BEFORE IT IS BOLTED UP")
	if len(rodEnds(r.Run)) > 0 || len(cableEnds(r.Run)) == 0 {
		say(turnsCounted)
	}
	if len(cableEnds(r.Run)) > 0 {
		say(nutsCounted)
	}
	for _, words := range barrelSays(r.Run) {
		say(words)
	}
	say(makersSay(r.Run))
	say(endStepsAssumed(r.Run))
	if len(rodEnds(r.Run)) > 0 || len(cableEnds(r.Run)) == 0 {
		say(witnessCheck)
	}
	p.blank()
	reportLimits(p, file, r, ReportOptions{})
}
