package render

import (
	"fmt"
	"io"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
	"fullfree/solve/find"
)

// FindOptions are what else a report of dimensions tells.
type FindOptions struct {
	Written bool // the best was written into the file
	// Full tells every setting in full, and what was covered and assumed.
	Full bool
}

// DrillNothing is what stands under every dimension that is found.
const DrillNothing = "Hand force and rod load change with it; strength, edge distance and the designer's consent are not checked. Drill nothing on this alone."

// FindReport writes the dimensions that were found for the person at the bench, best
// first, or what stands against what. File is the name of the file as the user gave it.
// The error is the writer's.
func FindReport(w io.Writer, file string, run *linkage.Run, found *find.Answer, opts FindOptions) error {
	p := pageFor(w)
	p.text("", "  ", figure.Clean(run.Name))
	p.text("", "  ", findHeadline(run, found, opts.Written))
	p.blank()
	reportAgainst(p, run, found)
	for i := range found.Settings {
		reportFound(p, run, found, i, opts.Full)
	}
	if len(found.Settings) > 1 && !opts.Full {
		p.blank()
	}
	p.text("", "  ", DrillNothing)
	p.text("", "  ", "Searched: "+found.Searched.String()+".")
	if opts.Full {
		p.text("", "  ", "Best is what fails in the fewest requirements, then misses least, then leaves most of every limit in reserve (of what is allowed, the share that is left), then changes the fewest dimensions, then changes them least.")
	}
	if len(found.Settings) > 0 {
		r := found.Settings[0].Check
		p.text("", "  ", SurveyNote(r.Survey))
		if opts.Full {
			p.text("", "  ", "Covered: "+covered(r)+", as drawn in "+figure.Clean(file)+"; nothing beyond.")
			p.text("", "  ", "Assumed: "+Assumed(r)+", no play.")
			if unchecked := notChecked(r); unchecked != "" {
				p.text("", "  ", "Not checked, because the file doesn't require it: "+unchecked+".")
			}
		}
	}
	caution := "As drawn in " + figure.Clean(file) + ". " + CautionInShort
	if opts.Full {
		caution = Caution
	}
	p.text("", "  ", caution)
	return p.writeTo(w)
}

// findHeadline is the answer in a line.
func findHeadline(run *linkage.Run, found *find.Answer, written bool) string {
	if !found.Found {
		return "NO SETTING MEETS ALL: below is the closest, and what stands against what."
	}
	best := &found.Settings[0]
	switch {
	case best.Changed == 0 && found.Searched.Complete:
		return "FOUND: as filed. No other setting has more in reserve."
	case best.Changed == 0:
		return "FOUND: as filed. No setting that was searched has more in reserve."
	case written:
		return "FOUND: " + changesSay(run, best) + ". It is written into the file."
	}
	return "FOUND: " + changesSay(run, best) + "."
}

// changesSay tells what a setting changes.
func changesSay(run *linkage.Run, s *find.Setting) string {
	var said []string
	for i := range s.Values {
		if v := &s.Values[i]; v.Changes() {
			said = append(said, figure.Clean(v.Name())+" "+valueSays(run, v, v.Is))
		}
	}
	if len(said) == 0 {
		return "everything as filed"
	}
	return figure.List(said)
}

// valueSays tells a value in its unit, finer than can be measured.
func valueSays(run *linkage.Run, v *find.Value, is []float64) string {
	if v.End != nil {
		return signedTurns(is[0])
	}
	if len(is) == 1 {
		unit := v.Vary.Numbers[0].Unit()
		if unit == run.Units {
			return figure.Calipers(is[0], unit)
		}
		return figure.WithUnit(figure.Given(is[0], ""), unit)
	}
	place := ""
	for i, x := range is {
		if i > 0 {
			place += ", "
		}
		place += figure.CalipersNumber(x, run.Units)
	}
	return "[" + place + "]"
}

// reportAgainst tells without which requirement all others can be met.
func reportAgainst(p *page, run *linkage.Run, found *find.Answer) {
	if found.Found || len(found.Settings) == 0 {
		return
	}
	p.line("AGAINST EACH OTHER")
	r := found.Settings[0].Check
	for _, a := range found.Against {
		title := RequirementTitle(r, a.Requirement)
		p.text("  ", "    ", fmt.Sprintf("Without %s all others would be met by %s.%s", title, changesSay(run, a.Then), reserveSays(a.Then.ReserveWithout(a.Requirement))))
	}
	for _, way := range found.InTheWay {
		said := RequirementTitle(r, way.Requirement) + ": no setting that was searched meets it."
		if way.Best != nil {
			said = fmt.Sprintf("%s would be met by %s", RequirementTitle(r, way.Requirement), changesSay(run, way.Best))
			var fails []string
			for _, q := range way.Fails {
				fails = append(fails, RequirementTitle(r, q))
			}
			if len(fails) > 0 {
				said += ", but against it stands " + figure.List(fails)
			}
			said += "."
		}
		p.text("  ", "    ", said)
	}
	p.blank()
}

// reportFound tells one setting.
func reportFound(p *page, run *linkage.Run, found *find.Answer, i int, full bool) {
	s := &found.Settings[i]
	p.text(fmt.Sprintf("%d. ", i+1), "   ", changesSay(run, s))
	limits := ""
	if s.Limits != nil {
		limits = " " + RequirementTitle(s.Check, s.Limits.Requirement) + " limits it."
		if s.Verdict != solve.Holds {
			limits = " " + RequirementTitle(s.Check, s.Limits.Requirement) + " misses most."
		}
	}
	for k := range s.Pinned {
		p.text("   ", "     ", "SHORT: "+pinnedSays(run.Units, &s.Pinned[k]))
	}
	p.text("   ", "   ", Headline(s.Check)+reserveSays(s.Reserve)+limits)
	if i > 0 && !full {
		return
	}
	values := table{head: []string{"dimension", "", "so set", "as filed"}}
	for k := range s.Values {
		v := &s.Values[k]
		name := figure.Clean(v.Name())
		if v.Vary != nil && v.Vary.Name != "" {
			name += " (" + figure.Clean(v.Vary.Name) + ")"
		}
		mark := ""
		if v.Changes() {
			mark = "*"
		}
		values.add(name, mark, valueSays(run, v, v.Is), valueSays(run, v, v.Filed))
	}
	values.write(p, "   ")
	p.blank()
	required := table{head: []string{"required", "", "worst", "allowed", "reserve", "sure"}}
	for _, j := range s.Check.Judged() {
		reserve, sure := "-", "-"
		if v := j.Reserve(); v != nil {
			reserve = percent(*v)
		}
		if j.Sure != nil {
			sure = "no"
			if *j.Sure {
				sure = "yes"
			}
		}
		required.add(RequirementTitle(s.Check, j.Requirement), VerdictMark(j.Verdict), WorstWords(j), LimitWords(j), reserve, sure)
	}
	required.write(p, "   ")
	p.blank()
	reportLeverage(p, s, found.Filed)
}

// reportLeverage tells how the leverage changes: old beside new.
func reportLeverage(p *page, s *find.Setting, filed *solve.Result) {
	t := table{head: []string{"leverage", "", "neutral", "as filed", "least", "as filed"}}
	cell := func(v *float64) string {
		if v == nil {
			return "-"
		}
		return figure.RatioNumber(*v)
	}
	for _, l := range s.Leverage(filed) {
		name := figure.Clean(l.Output.Name)
		if len(s.Check.Sweeps) > 1 {
			name += ", by " + figure.Clean(s.Check.Sweeps[l.Sweep].Control.Name)
		}
		t.add(name, figure.RatioUnit(l.Unit), cell(l.Neutral), cell(l.NeutralFiled), cell(l.Least), cell(l.LeastFiled))
	}
	if len(t.rows) > 0 {
		t.write(p, "   ")
		p.blank()
	}
}
