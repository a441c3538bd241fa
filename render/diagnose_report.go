package render

import (
	"fmt"
	"io"
	"math"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
	"fullfree/solve/survey"
)

const (
	// mostCandidates is how many explanations are told in the report; the results
	// for machines have all.
	mostCandidates = 15
	// mostNamed is how many of them are named in a sentence.
	mostNamed = 6
)

// DiagnoseReport writes a diagnosis for the person who rigged: what explains
// the readings, what they can't tell apart, which reading would, and how far
// off every reading is. File is the name of the file as the user gave it; survey
// is what the drawing was adjusted by, or nil. The error is the writer's.
func DiagnoseReport(w io.Writer, file string, run *linkage.Run, survey *survey.Survey, d *solve.Diagnosis) error {
	p := &page{}
	p.text("", "  ", figure.Clean(run.Name))
	p.text("", "  ", diagnoseHeadline(d))
	reportThreadFaults(p, run)
	p.blank()
	reportExplanations(p, run, d)
	reportReadings(p, run, d)
	reportJoint(p, run, d)
	reportTrend(p, run, d)
	reportDiagnosisLimits(p, figure.Clean(file), run, survey, d)
	_, err := io.WriteString(w, p.String())
	return err
}

// bestGroup is the candidates that the readings don't rule out against the best.
func bestGroup(d *solve.Diagnosis) []solve.Candidate {
	var best []solve.Candidate
	for _, c := range d.Candidates {
		if c.Group == 1 {
			best = append(best, c)
		}
	}
	return best
}

// diagnoseHeadline is the answer in a line.
func diagnoseHeadline(d *solve.Diagnosis) string {
	best := bestGroup(d)
	switch {
	case d.Fits:
		return "AS DRAWN: the readings fit the run as drawn and set. Nothing asks for an explanation."
	case len(best) == 0:
		return "NOTHING EXPLAINS IT: no dimension of the file moves these readings."
	case d.NoneToo:
		return fmt.Sprintf("HARDLY OFF: it may be chance, or %s.", anyOf(len(best)))
	case len(best) == 1 && d.Explains(&best[0]):
		return "ONE THING EXPLAINS IT: " + candidateName(best[0]) + "."
	case len(best) == 1:
		return "NOTHING HERE EXPLAINS ALL OF THEM: the nearest is " + candidateName(best[0]) + "."
	case !d.Explains(&best[0]):
		return fmt.Sprintf("NOTHING HERE EXPLAINS ALL OF THEM: the nearest are %d things that can't be told apart.", len(best))
	}
	said := "CAN'T BE TOLD APART: it may be " + anyOf(len(best))
	switch c := d.Likeliest(); {
	case c != nil:
		return said + fmt.Sprintf("; %s is the likeliest.", candidateName(*c))
	case len(best) == 2:
		return said + ", neither clearly likelier."
	}
	return said + ", none clearly the likeliest."
}

// anyOf counts things of which one may be it.
func anyOf(n int) string {
	switch n {
	case 1:
		return "one thing"
	case 2:
		return "either of 2 things"
	}
	return fmt.Sprintf("any of %d things", n)
}

// beyond counts the readings that lie further off than they read to.
func beyond(d *solve.Diagnosis, residuals [][]float64) int {
	n := 0
	for i, list := range residuals {
		for _, off := range list {
			if math.Abs(off) > d.Riggings[i].Within {
				n++
			}
		}
	}
	return n
}

// readings counts all that are diagnosed.
func readings(d *solve.Diagnosis) int {
	n := 0
	for _, r := range d.Riggings {
		n += len(r.Readings)
	}
	return n
}

// leaves tells how far off readings are.
func leaves(d *solve.Diagnosis, residuals [][]float64) string {
	all, n := readings(d), beyond(d, residuals)
	switch {
	case n > 0:
		return fmt.Sprintf("leaves %d of %s further off than they read to", n, figure.Count(all, "reading"))
	case all == 1:
		return "leaves the one reading within what it reads to"
	}
	return fmt.Sprintf("leaves all %d readings within what they read to", all)
}

func reportExplanations(p *page, run *linkage.Run, d *solve.Diagnosis) {
	say := func(words string) { p.text("  ", "    ", words) }
	p.line("WHAT EXPLAINS THEM")
	say("As drawn and set, the run " + leaves(d, d.Residuals0) + ".")
	best := bestGroup(d)
	switch {
	case d.Fits:
		say("So leave it as it is: what is told below could as well be chance.")
	case len(best) > 0 && !d.Explains(&best[0]):
		reportNearest(p, run, d, best)
	case d.NoneToo:
		say("Chance may well make such readings where nothing is off, and such where any one of these is, off by what is told below: " + figure.List(candidateNames(best)) + ". Read again, every reading twice, before a cause is looked for.")
	case len(best) == 1:
		say(candidateSays(run, d, best[0]))
		say(remedySays(best[0]))
	case len(best) > 1:
		said := fmt.Sprintf("These readings can't tell apart: %s. Any one of them, off by what is told below, may be what is off.", figure.List(candidateNames(best)))
		if c := d.Likeliest(); c != nil {
			said += fmt.Sprintf(" The likeliest is %s, but not surely.", candidateName(*c))
		}
		say(said)
		say("So turn no rod yet: what is right may be set wrong by it.")
		reportTellsApart(say, run, d, len(best))
	}
	p.blank()
	if len(d.Candidates) == 0 {
		return
	}
	t := table{head: []string{"explanation", "", "drawn", "would be", "±", "leaves", "group"}}
	told := d.Candidates[:min(len(d.Candidates), max(mostCandidates, len(best)))]
	for _, c := range told {
		t.add(figure.Clean(c.Dimension), string(c.Unit), figure.FineNumber(c.Nominal, c.Unit), figure.FineNumber(c.Estimate, c.Unit), spread(c.SE, c.Unit), figure.Decimal(c.RMS, 2), fmt.Sprint(c.Group))
	}
	t.write(p, "  ")
	if more := len(d.Candidates) - len(told); more > 0 {
		p.text("  ", "  ", fmt.Sprintf("And %d more that explain less: see the results for machines (--json).", more))
	}
	p.text("  ", "  ", "(each taken alone; drawn: or set; ±: two standard deviations; leaves: how far off the readings are then, root mean square; group: those of one number can't be told apart, 1 is nearest; zero: what a gauge shows too much)")
	p.blank()
}

// readsAssumed tells, behind to how much a further reading reads, where that is from
// if no rigging says it.
func readsAssumed(x *solve.Extra) string {
	if !x.Assumed {
		return ""
	}
	return " (" + NoSource + ")"
}

// reportTellsApart tells which further reading tells candidates apart.
func reportTellsApart(say func(string), run *linkage.Run, d *solve.Diagnosis, among int) {
	x := d.TellsApart
	if x == nil {
		say("No further reading would: all through the travel they do the same, or differ by too little for such a reading to tell. Measure the parts themselves.")
		return
	}
	would := "A reading that would"
	if among > 2 {
		would = "The reading that tells most of them apart"
	}
	say(fmt.Sprintf("%s: %s with %s at %s, to %s or better%s. There they differ by up to %s.", would,
		x.Of.Name(), x.Control.Name, figure.Quantity(x.At, ControlUnit(run, x.Control)), figure.Given(x.Within, x.Unit), readsAssumed(x), figure.Small(x.Differs, x.Unit)))
}

// reportNearest tells what comes nearest to an explanation where nothing is
// one. It asks for nothing to be turned: that would be for nothing.
func reportNearest(p *page, run *linkage.Run, d *solve.Diagnosis, best []solve.Candidate) {
	say := func(words string) { p.text("  ", "    ", words) }
	if len(best) == 1 {
		say("Nothing here, taken alone, explains all of them. The nearest: " + candidateSays(run, d, best[0]))
	} else {
		say(fmt.Sprintf("Nothing here, taken alone, explains all of them. The nearest, which these readings can't tell apart: %s. The first of them %s.",
			figure.List(candidateNames(best)), leaves(d, best[0].Residuals)))
	}
	say("So turn nothing for it. Read again, every reading twice; if they stay, more than one thing is off, or something that isn't in the file.")
}

// candidateNames names explanations in a sentence, the first of many.
func candidateNames(of []solve.Candidate) []string {
	return figure.FirstOf(len(of), mostNamed, func(i int) string { return candidateName(of[i]) })
}

// candidateName names an explanation in a sentence.
func candidateName(c solve.Candidate) string {
	if c.Zero != nil {
		return "the zero of the gauge (" + figure.Quoted(c.Dimension) + ")"
	}
	return c.Dimension
}

// isRodLength reports whether an explanation is that a rod has another length.
func isRodLength(c solve.Candidate) bool {
	return c.Dim != nil && c.Dim.Rod != nil && c.Dim.IsLength()
}

// isCore reports whether an explanation is that a cable has another core.
func isCore(c solve.Candidate) bool { return c.Dim != nil && c.Dim.Cable != nil }

// candidateSays tells one explanation.
func candidateSays(run *linkage.Run, d *solve.Diagnosis, c solve.Candidate) string {
	off := c.Estimate - c.Nominal
	shown := fmt.Sprintf("%s, give or take %s", figure.Fine(c.Estimate, c.Unit), figure.WithUnit(spread(c.SE, c.Unit), c.Unit))
	switch {
	case c.Zero != nil:
		return fmt.Sprintf("The gauge of %s shows %s too much; that %s.", figure.Quoted(c.Zero.Name), shown, leaves(d, c.Residuals))
	case isRodLength(c):
		way := "longer"
		if off < 0 {
			way = "shorter"
		}
		return fmt.Sprintf("The rod %s would be %s, hole to hole, %s %s than the %s it is given; that %s.",
			c.Dim.Rod.Name, shown, figure.Fine(math.Abs(off), c.Unit), way, figure.Fine(c.Nominal, c.Unit), leaves(d, c.Residuals))
	case isCore(c):
		return fmt.Sprintf("The core of %s outside its conduit would be %s, at both ends together, where the file has %s; that %s.",
			c.Dim.Cable.Name, shown, figure.Fine(c.Nominal, c.Unit), leaves(d, c.Residuals))
	}
	return fmt.Sprintf("%s would be %s, where the file has %s; that %s.", c.Dimension, shown, figure.Fine(c.Nominal, c.Unit), leaves(d, c.Residuals))
}

// remedySays tells what to do about the one explanation there is.
func remedySays(c solve.Candidate) string {
	switch {
	case c.Zero != nil:
		return "Set the gauge to zero anew and read again, before anything is turned."
	case isCore(c):
		said := "Measure the core outside the conduit at both ends, with no load on it; if it is so, set it to what it should be"
		if ends := c.Dim.Cable.Ends; len(ends) > 0 {
			said += fmt.Sprintf(": %s %s", ends[0], signedTurns((c.Estimate-c.Nominal)/ends[0].Thread.Pitch))
		}
		return said + "."
	case isRodLength(c):
		said := "Measure the rod hole to hole; if it is so, set it to the length that it should have"
		if end, turns, ok := PutsRight(c); ok {
			said += fmt.Sprintf(": %s %s", end, signedTurns(turns))
		}
		return said + "."
	}
	return "Measure it; if it is so, write it into the file, or put the part right."
}

// PutsRight tells how far the first end of a rod is to be turned to take off by
// what the rod is out; false where it is no rod with an end.
func PutsRight(c solve.Candidate) (end *linkage.RodEnd, turns float64, ok bool) {
	if !isRodLength(c) || len(c.Dim.Rod.Ends) == 0 {
		return nil, 0, false
	}
	end = c.Dim.Rod.Ends[0]
	per := end.PerTurn()
	if per == 0 {
		return nil, 0, false // a barrel whose ends cancel
	}
	return end, (c.Nominal - c.Estimate) / per, true
}

// reportReadings tells every reading, and how far off it is as drawn and with
// the best explanation.
func reportReadings(p *page, run *linkage.Run, d *solve.Diagnosis) {
	for i, r := range d.Riggings {
		head := figure.Quoted(r.Name)
		if r.Date != "" {
			head += ", " + figure.Clean(r.Date)
		}
		unit := subjectUnit(run, r.Of)
		p.text("", "  ", fmt.Sprintf("READ: %s of %s, to %s", head, r.Of.Name(), figure.Given(r.Within, unit))+othersSay(run, ", "))
		t := table{head: []string{r.Control.Name, "read", "off as drawn"}}
		explained := len(d.Candidates) > 0 && !d.Fits
		if explained {
			t.head = append(t.head, "with "+figure.Clean(d.Candidates[0].Dimension))
		}
		for k, pair := range r.Readings {
			cells := []string{figure.Fine(pair[0], ControlUnit(run, r.Control)), figure.FineNumber(pair[1], unit), figure.FineNumber(d.Residuals0[i][k], unit)}
			if explained {
				cells = append(cells, figure.FineNumber(d.Candidates[0].Residuals[i][k], unit))
			}
			t.add(cells...)
		}
		t.rangeRight()
		t.write(p, "  ")
		p.blank()
	}
	for _, r := range d.LeftOut {
		p.text("  ", "    ", fmt.Sprintf("%s has no date, and others have: it is left out.", figure.Quoted(r.Name)))
	}
	if len(d.LeftOut) > 0 {
		p.blank()
	}
}

// reportJoint tells the estimate of all dimensions at once, where the readings
// determine more than one.
func reportJoint(p *page, run *linkage.Run, d *solve.Diagnosis) {
	if len(d.Joint.Estimates) == 0 || d.Fits {
		return
	}
	t := table{head: []string{"dimension", "", "drawn", "would be", "±"}}
	left := 0
	for _, e := range d.Joint.Estimates {
		if math.Abs(e.Estimate-e.Nominal) < e.SE {
			left++
			continue
		}
		t.add(figure.Clean(e.Dimension), string(e.Unit), figure.FineNumber(e.Nominal, e.Unit), figure.FineNumber(e.Estimate, e.Unit), spread(e.SE, e.Unit))
	}
	if len(t.rows) == 0 {
		return
	}
	p.text("", "  ", fmt.Sprintf("ALL AT ONCE: the readings tell %s", figure.Count(d.Joint.Directions, "thing")))
	p.text("  ", "  ", "If several dimensions are off together, each by no more than is usual ("+holesUsually(run)+", two standard deviations"+uncertainAssumed(run)+"), this is how the readings share it out. It leaves "+figure.Decimal(d.Joint.RMS, 2)+", root mean square.")
	t.write(p, "  ")
	if left > 0 {
		p.text("  ", "  ", fmt.Sprintf("(%s not worth telling: off by less than what is sure of them)", figure.Count(left, "other")))
	}
	p.blank()
}

// reportTrend tells what has changed from date to date.
func reportTrend(p *page, run *linkage.Run, d *solve.Diagnosis) {
	if len(d.Trend) == 0 {
		return
	}
	units := map[string]linkage.Unit{}
	for _, c := range d.Candidates {
		units[c.Dimension] = c.Unit
	}
	p.line("SINCE THEN")
	t := table{head: []string{"dimension", "", "date", "would be", "±"}}
	for _, point := range d.Trend {
		unit := units[point.Dimension]
		t.add(figure.Clean(point.Dimension), string(unit), point.Date, figure.FineNumber(point.Estimate, unit), spread(point.SE, unit))
	}
	t.write(p, "  ")
	p.blank()
}

// othersSay tells, of a run with several controls, where those that aren't moved
// stand.
func othersSay(run *linkage.Run, before string) string {
	if len(run.Controls) < 2 {
		return ""
	}
	return before + "the other controls at neutral"
}

// rodsFit tells what goes with a hole that is off where rods have no length.
func rodsFit(run *linkage.Run) string {
	for _, r := range run.Rods {
		if !r.LengthGiven {
			return "; a rod without a length made to fit the holes where they are"
		}
	}
	return ""
}

func reportDiagnosisLimits(p *page, file string, run *linkage.Run, survey *survey.Survey, d *solve.Diagnosis) {
	p.line("WHAT THIS ANSWER IS")
	say := func(words string) { p.text("  ", "    ", words) }
	say(fmt.Sprintf("Covered: %s, against the lengths, points and pivots named in %s and the zero of each gauge, one at a time.", figure.Count(readings(d), "reading"), file))
	say(SurveyNote(survey))
	say("Assumed: rigid parts; readings as good as their \"within\" says, taken exactly where they say the control stood; metal and stops exactly as drawn" + rodsFit(run) + cablesDrawnUp(run) + othersSay(run, "; ") + ".")
	if !d.Fits && len(d.Candidates) > 0 {
		say("Group 1 has what is off, if that is one of these by itself, in 999 of 1000 such sets of readings.")
	}
	if len(run.Pairs) > 0 || AnyOpenCable(run) {
		say("Not tried: that a pair of cables is drawn up otherwise, its nuts or turnbuckles turned, or a quadrant has another radius. Measure the tension before a part is blamed.")
	}
	say("Not checked: two dimensions off at once, beyond what is told above; play, flex, and a gauge that is out by more in one place than in another.")
	say(Caution)
}

// subjectUnit is the unit in which a part or output is read.
func subjectUnit(run *linkage.Run, of linkage.Subject) linkage.Unit {
	if of.Angular() {
		return linkage.Degrees
	}
	return run.UnitsOf(of.In())
}

// spread returns the uncertainty of a standard deviation without its unit, a
// decimal finer than what it is of: it is small beside that.
func spread(sigma float64, unit linkage.Unit) string {
	return figure.Decimal(deviations*sigma, figure.UsualDecimals(unit)+1)
}
