package page

import (
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
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
	sweep := render.SweepAt(r, j.Sweep)
	b := bookRequired{
		Title: render.RequirementTitle(r, j.Requirement), bookVerdict: bookVerdictOf(j.Verdict),
		Worst: render.WorstWords(j), Limit: render.LimitWords(j), InHand: inHandWords(j), Sure: sureWords(r, j),
		Says: figure.Joined(" ", render.Says(r, j), render.BandSays(r, j)),
	}
	if sweep == nil || j.At == nil {
		return b
	}
	b.Place = render.WorstAt(r, j)
	goTo := math.Min(sweep.High, math.Max(sweep.Low, *j.At))
	if goTo != *j.At {
		b.Place += ", past the end"
	}
	if slices.Contains(shown, sweep) {
		b.Travel, b.At = travelID(id, sweep), figure.Exactly(goTo)
	}
	return b
}

// inHandWords tells what is left before a requirement falls short, or by how
// much it does. It never speaks against the verdict, which allows for rounding.
func inHandWords(j *solve.Judgement) string {
	if j.Worst == nil {
		return nothing
	}
	spare, size := *j.Worst-j.Limit, func(v float64) string { return figure.Against(v, 0, j.Unit) }
	switch j.Requirement.Kind {
	case linkage.Sense, linkage.Stops:
		return nothing // it holds or it doesn't
	case linkage.AsSet:
		if j.Why == solve.OffStep {
			return nothing
		}
		return "missed by " + figure.Calipers(math.Abs(spare), j.Unit)
	case linkage.Engagement:
		if j.Why == solve.BottomsOut {
			return nothing
		}
		size = func(v float64) string { return figure.Calipers(v, j.Unit) }
	case linkage.Opposite, linkage.Together, linkage.Steady, linkage.Travel, linkage.Misalignment, linkage.SecondPath, linkage.Meets, linkage.Neutral, linkage.Symmetrical, linkage.Reading, linkage.FreePlay, linkage.CollectivePitch, linkage.CyclicPitch, linkage.CyclicSense:
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
	if j.Band == nil || j.Sure == nil || render.ExactlyKnown(r) {
		return nothing
	}
	word := "no"
	if *j.Sure {
		word = "yes"
	}
	if *j.Band < figure.LeastUsable || render.Unmeasured(j) {
		return word
	}
	return word + ", ± " + figure.Small(*j.Band, j.Unit)
}
