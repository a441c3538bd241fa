package render

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// AircraftReport writes of an aircraft, first what its hands do: how each control ends, in
// which run, and how far each output goes for it; then what each run comes to over the
// travel that the aircraft leaves it, and what is required across runs. In short it tells
// what there is to act on, in full the whole report of every run. File is the name of the
// aircraft file as the user gave it. The error is the writer's.
func AircraftReport(w io.Writer, file string, r *solve.Result, full bool, opts ReportOptions) error {
	if err := r.Whole(); err != nil {
		return err
	}
	p := &page{}
	p.text("", "  ", figure.Clean(r.Run.Name))
	p.text("", "  ", Headline(r))
	p.text("", "  ", figure.Joined(" ", LeftOutSays(r), UnsureInShort(r)))
	runs := r.Runs()
	for i, only := range runs {
		for _, words := range append(besideSays(only, ReportOptions{}), SurveyNote(only.Survey)) {
			if words != "" {
				p.text("", "  ", r.Run.Aircraft.Members[i].Name+": "+words)
			}
		}
	}
	reportBeside(p, &solve.Result{Run: &linkage.Run{}}, ReportOptions{Redrawn: opts.Redrawn})
	handTables(p, r)
	if !full {
		shortAmiss(p, r, runs)
	}
	for i, only := range runs {
		m := r.Run.Aircraft.Members[i]
		p.blank()
		p.text("", "  ", fmt.Sprintf("RUN %s: %s (%s)", strings.ToUpper(m.Name), figure.Clean(m.Run.Name), figure.Clean(m.File)))
		p.text("", "  ", verdictSays(only))
		if full {
			p.blank()
			reportRun(p, only)
			continue
		}
		shortHeld(p, only)
	}
	reportAcross(p, r, full)
	p.blank()
	if full {
		reportLimits(p, figure.Clean(file), r, opts)
	} else {
		for _, words := range notSwept(r) {
			p.text("", "  ", "Not checked: "+words+".")
		}
		p.text("", "  ", "As drawn in "+figure.Clean(file)+" and the files that it names. "+CautionInShort)
	}
	reportOrigin(p, opts)
	_, err := io.WriteString(w, p.String())
	return err
}

// JointsSay tells which parts that two drawings show are not known to be shown in one
// position, and what joins the runs is told by the file alone.
func JointsSay(run *linkage.Run) (said []string) {
	var open []string
	for _, s := range run.SameParts {
		if !s.Aligned {
			open = append(open, fmt.Sprintf("%s and %s", s.Leads.Name, s.Follows.Of.Name))
		}
	}
	if len(open) > 0 {
		said = append(said, "Not checked that both sheets show it in one position, since too few holes have one name on both: "+strings.Join(open, "; ")+".")
	}
	return said
}

// skippedSays tells at how many settings of the others the controls of an aircraft were
// not swept; empty where there is none.
func skippedSays(r *solve.Result) string {
	if r.SweepsSkipped == 0 {
		return ""
	}
	return fmt.Sprintf("Not looked at: %s of the other controls, which are more than 27 for one control or can't be reached together.", figure.Count(r.SweepsSkipped, "further setting"))
}

// handTables tells what ends each control, and how far each output goes for it.
func handTables(p *page, r *solve.Result) {
	for _, c := range r.Run.Controls {
		sweeps := SweepsOf(r, c)
		if len(sweeps) == 0 {
			continue
		}
		p.blank()
		p.text("", "  ", HandTitle(c, sweeps))
		handTable(p, r, sweeps, mostShortSettings)
	}
}

// HandTitle heads what is told of a control of an aircraft.
func HandTitle(c *linkage.Control, sweeps []*solve.Sweep) string {
	said := fmt.Sprintf("HAND %s: %s to %s", strings.ToUpper(c.Name), figure.Quantity(sweeps[0].Low, sweeps[0].Unit), figure.Quantity(sweeps[0].High, sweeps[0].Unit))
	if sweeps[0].Ends[0].Cause == solve.ByStop && sweeps[0].Ends[1].Cause == solve.ByStop {
		said += ", stop to stop"
	}
	return said + amongSettings(sweeps)
}

// handTable tells it of one control, in all its sweeps, of at most so many that end
// differently.
func handTable(p *page, r *solve.Result, sweeps []*solve.Sweep, most int) {
	groups := alike(sweeps, func(s *solve.Sweep) string { return handEnds(r, s) })
	for i, same := range groups {
		if i == most {
			p.text("  ", "    ", fmt.Sprintf("And %d more that end differently: check --full tells them.", len(groups)-i))
			break
		}
		if len(groups) > 1 {
			p.text("  ", "    ", firstSetting(r, same)+":")
		}
		writeHandEnds(p, r, same[0])
	}
	handCenters(p, r, sweeps)
	t := table{head: []string{"output", "least", "most", "ratio at neutral"}}
	for i, o := range r.Run.Outputs {
		e := overSweeps(sweeps, func(s *solve.Sweep) solve.Extent { return s.Outputs[i].Extent })
		travel := sweeps[0].Outputs[i]
		if !movesOutput(sweeps, i) {
			continue // this hand leaves it alone
		}
		ratio := "none there"
		if v := travel.Ratio.Neutral; v != nil {
			ratio = figure.Ratio(*v, travel.Ratio.Unit)
		}
		t.add(o.Name, figure.Quantity(e.Least, travel.Unit)+readingSide(travel, e.Least), figure.Quantity(e.Most, travel.Unit)+readingSide(travel, e.Most), ratio)
	}
	if len(t.rows) > 0 {
		t.write(p, "  ")
	}
}

// movesOutput reports whether a control moves an output by anything that can be read.
func movesOutput(sweeps []*solve.Sweep, i int) bool {
	return slices.ContainsFunc(sweeps, func(s *solve.Sweep) bool {
		o := s.Outputs[i]
		return figure.Rounded(o.Most-o.Least, o.Unit) != 0
	})
}

// amongSettings says at how many settings of the others a control was swept, if several.
func amongSettings(sweeps []*solve.Sweep) string {
	if len(sweeps) < 2 {
		return ""
	}
	return fmt.Sprintf(", at %d settings of the others", len(sweeps))
}

// firstSetting tells at which settings of the other controls something is so: the first of
// them, and how many more.
func firstSetting(r *solve.Result, same []*solve.Sweep) string {
	words := "With " + HeldAt(r.Run, same[0])
	if n := len(same) - 1; n > 0 {
		words += fmt.Sprintf(", and at %d more", n)
	}
	return words
}

// handEnds tells how a sweep of the aircraft ends, in the hand's unit and in that of the
// run that ends it.
func handEnds(r *solve.Result, s *solve.Sweep) string {
	p := &page{}
	writeHandEnds(p, r, s)
	return p.String()
}

func writeHandEnds(p *page, r *solve.Result, s *solve.Sweep) {
	for i, end := range s.Ends {
		at := figure.Exact(end.At, s.Unit) + figure.Bracketed(SideWord(s, i == 1))
		p.text("  ", "    ", fmt.Sprintf("%-4s end %s: %s", SideName(i), at, figure.Joined("; ", EndWords(end)+ownPosition(r, s, i), nextInShort(s, i))))
		p.text("    ", "    ", figure.Joined(" ", missesSays(s, i), slackPast(s, end)))
	}
}

// handCenters tells each on-center point once, where it comes nearest.
func handCenters(p *page, r *solve.Result, sweeps []*solve.Sweep) {
	type found struct {
		s *solve.Sweep
		c solve.Critical
	}
	var order []string
	nearest := map[string]found{}
	for _, s := range sweeps {
		for _, c := range s.Critical {
			key := fmt.Sprintf("%s %s %t", c.Kind, c.Name(), c.At >= 0)
			old, known := nearest[key]
			if !known {
				order = append(order, key)
			}
			if !known || c.Margin < old.c.Margin {
				nearest[key] = found{s, c}
			}
		}
	}
	for _, key := range order {
		k := nearest[key]
		where := ""
		if held := HeldAt(r.Run, k.s); len(sweeps) > 1 && held != "" {
			where = " (nearest with " + held + ")"
		}
		p.text("  ", "    ", fmt.Sprintf("on center at %s, %s: %s%s", figure.Quantity(k.c.At, k.s.Unit), CenterSpare(k.s, k.c), CenterInShort(k.s, k.c), where))
	}
}

// ownPosition tells where the run that makes an end stands there, by the part at which it
// is driven: "(24.0 degrees of tail.crank)"; empty where the hand's own run makes it.
func ownPosition(r *solve.Result, s *solve.Sweep, side int) string {
	var in *linkage.Member
	switch end := s.Ends[side]; {
	case end.Stop != nil:
		in = end.Stop.In
	case end.Part != nil:
		in = end.Part.In
	}
	if in == nil || in == s.Control.In {
		return ""
	}
	best, most := "", 0.0
	for _, joint := range r.Run.SameParts {
		if joint.Follows.In != in {
			continue
		}
		for _, p := range s.Parts {
			at := p.AtLow
			if side == 1 {
				at = p.AtHigh
			}
			if p.Part == joint.Follows.Of && math.Abs(at) > most {
				best, most = fmt.Sprintf(" (%s of %s)", figure.Quantity(at, p.Unit), p.Name), math.Abs(at)
			}
		}
	}
	return best
}

// shortAmiss tells what falls short or can't be judged, run by run, then what does so
// across runs.
func shortAmiss(p *page, r *solve.Result, runs []*solve.Result) {
	begun := false
	begin := func() {
		if !begun {
			p.blank()
			p.line("TO ACT ON")
		}
		begun = true
	}
	for i, only := range runs {
		if amiss := amissOf(only.Judged()); len(amiss) > 0 {
			begin()
			p.text("  ", "    ", "In "+r.Run.Aircraft.Members[i].Name+":")
			shortUnstopped(p, only, amiss)
			for _, j := range amiss {
				amissLines(p, only, j)
			}
		}
	}
	if amiss := amissOf(r.Across()); len(amiss) > 0 {
		begin()
		p.text("  ", "    ", "Across runs:")
		for _, j := range amiss {
			amissLines(p, r, j)
		}
	}
}

// reportAcross tells what is required across runs: in short what of it holds, in full all.
func reportAcross(p *page, r *solve.Result, full bool) {
	across := r.Across()
	if len(across) == 0 {
		return
	}
	p.blank()
	p.line("ACROSS THE RUNS")
	for _, j := range across {
		if full {
			p.text(fmt.Sprintf("  %-5s  ", VerdictMark(j.Verdict)), "         ", RequirementTitle(r, j.Requirement))
			p.text("         ", "         ", figure.Joined(" ", Says(r, j), BandSays(r, j)))
			continue
		}
		if j.Verdict == solve.Holds {
			p.text("  ", "    ", RequirementTitle(r, j.Requirement)+": "+heldInShort(r, j))
		}
	}
}
