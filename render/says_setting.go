package render

import (
	"fmt"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// settingSays tells what is wrong with how an end is set.
func settingSays(run *linkage.Run, j *solve.Judgement) string {
	name, unit := j.Requirement.Name, run.UnitsOf(j.Member())
	rod, in := j.Rod != nil, "the nuts"
	if rod {
		in = "the rod"
	}
	switch j.Why {
	case solve.ComesOut:
		if !rod {
			in = "its nuts"
		}
		return fmt.Sprintf("%s comes out of %s: %s of thread wanted.", name, in, figure.Calipers(j.Limit, unit))
	case solve.ThreadShort:
		return fmt.Sprintf("%s falls short of thread: in %s %s, wanted %s, missed by %s.", name, in, figure.Calipers(*j.Worst, unit), figure.Calipers(j.Limit, unit), figure.Calipers(j.Limit-*j.Worst, unit))
	case solve.BottomsOut:
		if rod {
			return fmt.Sprintf("%s falls short: it bottoms out at %s, and %s is asked for.", name, figure.Calipers(j.Limit, unit), figure.Calipers(*j.Worst, unit))
		}
		return fmt.Sprintf("%s falls short: it has thread for %s in the nuts, and %s is asked for.", name, figure.Calipers(j.Limit, unit), figure.Calipers(*j.Worst, unit))
	case solve.PastShank:
		return fmt.Sprintf("%s falls short: its shank has %s of thread, and %s in the rod is asked for.", name, figure.Calipers(j.Limit, unit), figure.Calipers(*j.Worst, unit))
	}
	return fmt.Sprintf("%s can't be turned %s: it goes by %s at a time.", name, signedTurns(*j.Worst), TurnsWords(j.Limit))
}

// UnfitSay tells all that a run can't be set to, an entry each.
func UnfitSay(run *linkage.Run, unfit []solve.Judgement) []string {
	var said []string
	for i := range unfit {
		said = append(said, settingSays(run, &unfit[i]))
	}
	return said
}

// setting tells what is wrong with how an end is set, and whose figure it is.
func (t telling) setting() string {
	run := t.result.Run
	maker := ""
	if name := t.Requirement.Name; (t.Why == solve.ComesOut || t.Why == solve.ThreadShort) && !leastGiven(t.Judgement) {
		maker = makerSaysOf([]string{name})
	}
	return figure.Joined(" ", settingSays(run, t.Judgement), maker)
}

// leastGiven reports whether the file gives the least thread of the end that is
// judged.
func leastGiven(j *solve.Judgement) bool {
	if j.Rod != nil {
		return j.Rod.End(j.End).LeastGiven
	}
	return j.Cable.End(j.End).LeastGiven
}

// reportThreadFaults tells under a headline what a run can't be set to.
func reportThreadFaults(p *page, run *linkage.Run) {
	for _, words := range UnfitSay(run, solve.UnfitSettings(run)) {
		p.text("", "  ", words)
	}
}

// unfitEnds names the ends that are set as they can't be, each once.
func unfitEnds(settings []*solve.Judgement) []string {
	var names []string
	for i, j := range settings {
		if i == 0 || j.Requirement.Name != names[len(names)-1] {
			names = append(names, j.Requirement.Name)
		}
	}
	return names
}

// engagement tells how much thread there is.
func (t telling) engagement() string {
	run := t.result.Run
	rods := len(RodEnds(run)) > 0
	if !rods && len(CableEnds(run)) == 0 {
		return "No rod and no conduit has an end, so there is no thread to judge: give the rods their ends."
	}
	if t.known() == solve.CannotTell {
		return t.undecided()
	}
	said := "Every end has thread enough. Least to spare has " + t.leastSpare() + "."
	var faults []string
	for i := range t.result.Unfit {
		if j := &t.result.Unfit[i]; j.OfThread() {
			faults = append(faults, settingSays(run, j))
		}
	}
	if len(faults) > 0 {
		said = strings.Join(faults, " ")
	}
	check := ""
	if rods {
		check = WitnessCheck
	}
	return figure.Joined(" ", said, makersSay(run), check)
}

// leastSpare tells which end of a rod or conduit has the least thread to spare.
func (t telling) leastSpare() string {
	in, least, unit := "rod", 0.0, t.Unit
	name := ""
	switch {
	case t.Rod != nil:
		end := t.Rod.End(t.End)
		name, least = end.String(), end.Least
	case t.Cable != nil:
		end := t.Cable.End(t.End)
		in, name, least = "nuts", end.String(), end.Least
	}
	return fmt.Sprintf("%s: in the %s %s, wanted %s, to spare %s", name, in, figure.Calipers(least+*t.Worst, unit), figure.Calipers(least, unit), figure.Calipers(*t.Worst, unit))
}
