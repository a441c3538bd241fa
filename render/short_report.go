package render

import (
	"fmt"
	"io"
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// CautionInShort is Caution in a line, with where the rest is.
const CautionInShort = "It is arithmetic on a drawing and approves nothing. The last check is made on the aircraft, pins out, by a second person. --full tells the rest: every figure, what was covered, assumed and never checked."

// ShortReport writes of a result what there is to act on: the verdict, what falls short
// with its cause, a line for each requirement that holds, the ends of every travel with
// what would bite next, and the on-center points. Report tells all. File is the name of
// the file as the user gave it. The error is the writer's.
func ShortReport(w io.Writer, file string, r *solve.Result, opts ReportOptions) error {
	if err := r.Whole(); err != nil {
		return err
	}
	p := &page{}
	p.text("", "  ", figure.Clean(r.Run.Name))
	p.text("", "  ", Headline(r))
	reportUnderHeadline(p, r, opts)
	shortRequirements(p, r)
	for _, c := range r.Run.Controls {
		shortControl(p, r, SweepsOf(r, c))
	}
	shortOutputs(p, r)
	reportRotor(p, r, false)
	reportFreePlay(p, r)
	p.blank()
	if unchecked := notChecked(r); unchecked != "" {
		p.text("", "  ", "Not checked, because the file doesn't require it: "+unchecked+".")
	}
	for _, words := range notSwept(r) {
		p.text("", "  ", "Not checked: "+words+".")
	}
	for _, note := range []string{SurveyNote(r.Survey), unusedNote(opts.Unused)} {
		p.text("", "  ", note)
	}
	p.text("", "  ", "As drawn in "+figure.Clean(file)+". "+CautionInShort)
	reportOrigin(p, opts)
	_, err := io.WriteString(w, p.String())
	return err
}

// shortRequirements tells first what falls short or can't be judged, in full and with its
// cause, then a line of each requirement that holds.
func shortRequirements(p *page, r *solve.Result) {
	if amiss := amissOf(r.Judged()); len(amiss) > 0 {
		p.blank()
		p.line("TO ACT ON")
		shortUnstopped(p, r, amiss)
		for _, j := range amiss {
			amissLines(p, r, j)
		}
	}
	if slices.ContainsFunc(r.Judged(), func(j *solve.Judgement) bool { return j.Verdict == solve.Holds }) {
		p.blank()
		p.line("WHAT HOLDS")
		shortHeld(p, r)
	}
}

// amissOf lists what falls short or can't be judged, what others follow from first.
func amissOf(judged []*solve.Judgement) []*solve.Judgement {
	amiss := slices.DeleteFunc(slices.Clone(judged), func(j *solve.Judgement) bool { return j.Verdict == solve.Holds })
	slices.SortStableFunc(amiss, func(a, b *solve.Judgement) int { return rootRank(a) - rootRank(b) })
	return amiss
}

// amissLines tells one of these in full.
func amissLines(p *page, r *solve.Result, j *solve.Judgement) {
	p.text(fmt.Sprintf("  %-5s  ", VerdictMark(j.Verdict)), "         ", RequirementTitle(r, j.Requirement))
	p.text("         ", "         ", figure.Joined(" ", Says(r, j), BandSays(r, j)))
}

// shortHeld tells a line of each requirement that holds.
func shortHeld(p *page, r *solve.Result) {
	for _, j := range r.Judged() {
		if j.Verdict == solve.Holds {
			p.text("  ", "    ", RequirementTitle(r, j.Requirement)+": "+heldInShort(r, j))
		}
	}
}

// rootRank orders what is amiss so that what others follow from comes first: words that
// the drawing contradicts, a stop that is missing, how an end is set and how a second path
// fits, the sense; then what falls short; what can't be judged last.
func rootRank(j *solve.Judgement) int {
	ranks := []linkage.Kind{linkage.LabelKind, linkage.Stops, linkage.AsSet, linkage.Engagement, linkage.SecondPath, linkage.Sense, linkage.CyclicSense, linkage.OverCenter}
	rank := slices.Index(ranks, j.Requirement.Kind)
	if rank < 0 {
		rank = len(ranks)
	}
	if j.Verdict != solve.FallsShort {
		rank += len(ranks) + 1
	}
	return rank
}

// shortUnstopped tells of ends of a travel without a stop, since what falls short follows
// from them; nothing where the requirement of stops tells it already.
func shortUnstopped(p *page, r *solve.Result, amiss []*solve.Judgement) {
	if slices.ContainsFunc(amiss, func(j *solve.Judgement) bool { return j.Requirement.Kind == linkage.Stops }) {
		return
	}
	var told []string
	for _, s := range r.Sweeps {
		if s.TurnsRotor() {
			continue
		}
		for i, end := range s.Ends {
			words := fmt.Sprintf("No stop ends the %s side of %s.", SideName(i), figure.Clean(s.Control.Name))
			if end.HoldsControl() || end.Slack != nil || slices.Contains(told, words) {
				continue
			}
			told = append(told, words)
			p.text("         ", "         ", words+" What falls short may follow from that.")
		}
	}
}

// heldInShort tells in a few words by what a requirement holds.
func heldInShort(r *solve.Result, j *solve.Judgement) string {
	said := ""
	switch {
	case j.Requirement.Kind == linkage.Stops:
		said = "one ends the travel on each side"
	case j.Worst == nil:
		said = Says(r, j)
	case j.Requirement.Kind == linkage.Sense:
		said = "right all through"
		if least := figure.Ratio(math.Abs(*j.Worst), j.Unit); least != figure.BeyondMeasure {
			said += ", at least " + least
		}
	case j.Requirement.Kind == linkage.Engagement:
		said = "at least " + WorstWords(j) + " of thread to spare"
	case isPitch(j.Requirement.Kind):
		said = pitchInShort(j)
	case j.NoneFound:
		said = "nothing within " + figure.Readable(*j.Worst, j.Limit, j.Unit) + " of the ends; " + LimitWords(j) + " wanted"
	default:
		said = fmt.Sprintf(heldForm(j.Requirement.Kind), WorstWords(j)) + "; " + LimitWords(j) + " wanted"
	}
	if open := j.Untied != nil && *j.Untied; r.Doubt() == nil && (open || j.Sure != nil && !*j.Sure) {
		said += " (not surely)"
	}
	return said
}

// heldForm is what the worst figure of a kind of requirement that holds is of.
func heldForm(kind linkage.Kind) string {
	switch kind {
	case linkage.Opposite, linkage.Together, linkage.Travel, linkage.Meets, linkage.Neutral, linkage.Symmetrical, linkage.Reading, linkage.CyclicSense:
		return "%s out"
	case linkage.Steady:
		return "moves %s"
	case linkage.OverCenter:
		return "%s past the end"
	case linkage.RodAngle:
		return "flattest %s"
	case linkage.Misalignment:
		return "tilts %s"
	case linkage.Clearance:
		return "%s apart"
	case linkage.FreePlay:
		return "rocks %s"
	}
	return "%s"
}

// mostShortSettings is how many different ways that a control's travel ends are told.
const mostShortSettings = 3

// shortControl tells how the travel of a control ends, what would bite next, and where it
// is on center; once for all the settings of the others that have the same.
func shortControl(p *page, r *solve.Result, sweeps []*solve.Sweep) {
	if len(sweeps) == 0 {
		return
	}
	p.blank()
	p.text("", "  ", controlTitle(r.Run, sweeps))
	groups := alike(sweeps, func(s *solve.Sweep) string { return shortEnds(r, s) })
	for i, same := range groups {
		if i == mostShortSettings {
			p.text("  ", "    ", fmt.Sprintf("And %d more that end differently: --full tells them.", len(groups)-i))
			break
		}
		if len(groups) > 1 {
			p.text("  ", "    ", settingsTitle(r.Run, same)+":")
		}
		p.WriteString(shortEnds(r, same[0]))
	}
}

// alike groups things of which the same is told, in the order in which they come.
func alike[T any](list []T, tell func(T) string) (groups [][]T) {
	at := map[string]int{}
	for _, thing := range list {
		text := tell(thing)
		i, known := at[text]
		if !known {
			i, at[text] = len(groups), len(groups)
			groups = append(groups, nil)
		}
		groups[i] = append(groups[i], thing)
	}
	return groups
}

// shortEnds is the lines of the ends and the on-center points of one sweep.
func shortEnds(r *solve.Result, s *solve.Sweep) string {
	p := &page{}
	if s.TurnsRotor() {
		p.text("  ", "    ", GoesRound)
		return p.String()
	}
	for i, end := range s.Ends {
		at := figure.Exact(end.At, s.Unit) + figure.Bracketed(SideWord(s, i == 1))
		words := figure.Joined("; ", EndWords(end), nextInShort(s, i))
		p.text("  ", "    ", fmt.Sprintf("%-4s end %s: %s", SideName(i), at, words))
		p.text("    ", "    ", figure.Joined(" ", missesSays(s, i), slackPast(s, end)))
	}
	for _, c := range s.Critical {
		p.text("  ", "    ", fmt.Sprintf("on center at %s, %s: %s", figure.Quantity(c.At, s.Unit), CenterSpare(s, c), CenterInShort(s, c)))
	}
	if len(s.Critical) == 0 {
		p.text("  ", "    ", fmt.Sprintf("on center: nowhere from %s to %s", figure.Quantity(s.Explored[0], s.Unit), figure.Quantity(s.Explored[1], s.Unit)))
	}
	return p.String()
}

// nextInShort tells in a few words what would bite without the stop that ends the travel;
// empty where none ends it.
func nextInShort(s *solve.Sweep, i int) string {
	if s.Ends[i].Cause != solve.ByStop {
		return ""
	}
	stop, center := NextStop(s, i), NextCenter(s, i)
	if stop != nil && center != nil && Outward(s, i, center.At) < Outward(s, i, *stop.At) {
		stop = nil // it lies past the on-center point and comes too late
	}
	switch {
	case stop != nil && Outward(s, i, *stop.At) == 0:
		return "with it " + StopWords(stop.Stop)
	case stop != nil:
		return fmt.Sprintf("next %s, %s later", StopWords(stop.Stop), figure.Against(Outward(s, i, *stop.At), 0, s.Unit))
	case center != nil:
		return fmt.Sprintf("next on center, %s later", figure.Against(Outward(s, i, center.At), 0, s.Unit))
	}
	return "next nothing to " + figure.Quantity(s.Explored[i], s.Unit)
}

// shortOutputs tells in a line how far every output goes over all sweeps.
func shortOutputs(p *page, r *solve.Result) {
	if len(r.Sweeps) == 0 || len(r.Run.Outputs) == 0 {
		return
	}
	p.blank()
	for i, o := range r.Sweeps[0].Outputs {
		e := overAll(r, func(s *solve.Sweep) solve.Extent { return s.Outputs[i].Extent })
		p.text("", "  ", fmt.Sprintf("%s reads %s%s to %s%s", figure.Clean(o.Output.Name),
			figure.Quantity(e.Least, o.Unit), readingSide(o, e.Least), figure.Quantity(e.Most, o.Unit), readingSide(o, e.Most)))
	}
}

// readingSide is the word in brackets for the side that a reading is on; empty where the
// output has none, doesn't read 0 as drawn, or reads as good as 0.
func readingSide(o solve.OutputTravel, reading float64) string {
	switch {
	case o.Output.Reads != 0 || figure.Rounded(reading, o.Unit) == 0:
		return ""
	case reading < 0:
		return figure.Bracketed(o.Output.Minus)
	}
	return figure.Bracketed(o.Output.Plus)
}
