package render

import (
	"math"
	"slices"
	"strconv"

	"fullfree/linkage"
	"fullfree/solve"
)

// bookRequired is a requirement in a row of a book.
type bookRequired struct {
	Title string
	bookVerdict
	Worst, Limit, InHand, Sure string
	Place                      string // of the worst value; empty where nothing depends on it
	// The section and the control position to go to, the end of the travel where
	// the place lies beyond it; empty where the sweep isn't shown.
	Travel, At string
	Says       string
}

// nothing stands in a cell that there is nothing to say in.
const nothing = "-"

func bookRequiredOf(id string, r *solve.Result, j *solve.Judgement, shown []*solve.Sweep) bookRequired {
	t := telling{j, r, sweepAt(r, j.Sweep)}
	b := bookRequired{
		Title: titleAmong(r, j.Requirement), bookVerdict: bookVerdictOf(j.Verdict),
		Worst: worstWords(j), Limit: limitWords(j), InHand: inHandWords(j), Sure: sureWords(r, j),
		Says: someSays(" ", Says(r, j), BandSays(r, j)),
	}
	if t.sweep == nil || j.At == nil {
		return b
	}
	b.Place = t.sweep.Control.Name + " at " + position(t.sweep, *j.At)
	if held := t.held(); held != "" {
		b.Place += ", with " + held
	}
	goTo := math.Min(t.sweep.High, math.Max(t.sweep.Low, *j.At))
	if goTo != *j.At {
		b.Place += ", past the end"
	}
	if slices.Contains(shown, t.sweep) {
		b.Travel, b.At = travelID(id, t.sweep), exactly(goTo)
	}
	return b
}

// exactly writes a number so that reading it gives the same.
func exactly(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

// inHandWords tells what is left before a requirement falls short, or by how
// much it does. It never speaks against the verdict, which allows for rounding.
func inHandWords(j *solve.Judgement) string {
	if j.Worst == nil {
		return nothing
	}
	spare, size := *j.Worst-j.Limit, func(v float64) string { return against(v, 0, j.Unit) }
	switch j.Requirement.Kind {
	case linkage.Sense, linkage.Stops:
		return nothing // it holds or it doesn't
	case linkage.AsSet:
		if j.Why == solve.OffStep {
			return nothing
		}
		return "missed by " + thread(math.Abs(spare), j.Unit)
	case linkage.Engagement:
		if j.Why == solve.BottomsOut {
			return nothing
		}
		size = func(v float64) string { return thread(v, j.Unit) }
	case linkage.Opposite, linkage.Together, linkage.Steady, linkage.Travel, linkage.Misalignment, linkage.SecondPath, linkage.Meets:
		spare = -spare
	}
	switch {
	case spare == 0, spare < 0 && j.Verdict == solve.Holds, spare > 0 && j.Verdict == solve.FallsShort:
		return "nothing"
	case spare < 0:
		return "missed by " + size(-spare)
	case j.NoneFound || j.NotMet:
		return "over " + size(spare)
	}
	return size(spare)
}

// sureWords tells in a cell whether an answer is so for the uncertainty of the
// drawing too, and by how much that moves it.
func sureWords(r *solve.Result, j *solve.Judgement) string {
	if j.Band == nil || j.Sure == nil || exactlyKnown(r) {
		return nothing
	}
	word := "no"
	if *j.Sure {
		word = "yes"
	}
	if *j.Band < leastUsable {
		return word
	}
	return word + ", ± " + small(*j.Band, j.Unit)
}
