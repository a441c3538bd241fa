package render

import (
	"fmt"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// WorstWords is the worst figure of a requirement, in a cell.
func WorstWords(j *solve.Judgement) string {
	switch {
	case j.Why == solve.NotReached:
		return "not reached"
	case j.Worst == nil:
		return "none"
	case j.Requirement.Kind == linkage.LabelKind:
		return "reversed"
	case j.Requirement.Kind == linkage.Stops:
		return fmt.Sprintf("%.0f missing", *j.Worst)
	case j.Requirement.Kind == linkage.Sense:
		return figure.RatioNumber(*j.Worst)
	case j.Requirement.Kind == linkage.Engagement && j.Why == solve.BottomsOut:
		return "too deep"
	case j.Requirement.Kind == linkage.Engagement:
		return figure.Calipers(*j.Worst, j.Unit)
	case j.Why == solve.OffStep:
		return signedTurns(*j.Worst)
	case j.Requirement.Kind == linkage.AsSet:
		return figure.Calipers(*j.Worst, j.Unit)
	case j.Requirement.Kind == linkage.Misalignment:
		most := tiltLimit(j)
		return figure.Against(*j.Worst+float64(most-j.Limit), most, j.Unit)
	case j.Requirement.Kind == linkage.FreePlay:
		return playFigure(*j.Worst, j.Limit, j.Unit)
	case j.NoneFound || j.NotMet && *j.Worst >= 0:
		return "over " + figure.Readable(*j.Worst, j.Limit, j.Unit)
	}
	return figure.Readable(*j.Worst, j.Limit, j.Unit)
}

// LimitWords is what a requirement asks for, in a cell.
func LimitWords(j *solve.Judgement) string {
	switch j.Requirement.Kind {
	case linkage.CollectivePitch, linkage.CyclicPitch:
		if j.Requirement.Most != nil {
			return "at most " + figure.Given(j.Limit, j.Unit)
		}
		return "within " + figure.Given(j.Limit, j.Unit)
	case linkage.Opposite, linkage.Together, linkage.Steady, linkage.Travel, linkage.Meets, linkage.Neutral, linkage.Symmetrical, linkage.Reading, linkage.CyclicSense:
		return "within " + figure.Given(j.Limit, j.Unit)
	case linkage.LabelKind:
		return "as its words say"
	case linkage.Sense:
		return "over 0"
	case linkage.Stops:
		return "none missing"
	case linkage.Misalignment:
		return "at most " + figure.Given(tiltLimit(j), j.Unit)
	case linkage.Engagement:
		return "none short"
	case linkage.AsSet:
		switch j.Why {
		case solve.OffStep:
			return "by " + TurnsWords(j.Limit)
		case solve.BottomsOut, solve.PastShank:
			return "at most " + figure.Calipers(j.Limit, j.Unit)
		}
		return "at least " + figure.Calipers(j.Limit, j.Unit)
	case linkage.SecondPath, linkage.FreePlay:
		return "at most " + figure.Given(j.Limit, j.Unit)
	}
	return "at least " + figure.Given(j.Limit, j.Unit)
}

// tiltLimit is the most that the worst rod end may tilt: what the requirement
// says or, as its figures are then told over that, what the rod itself does.
func tiltLimit(j *solve.Judgement) float64 {
	if j.Requirement.Most == nil && j.Rod != nil && j.Rod.Misalignment != nil {
		return *j.Rod.Misalignment
	}
	return j.Limit
}

// VerdictMark is a verdict in a cell.
func VerdictMark(v solve.Verdict) string {
	switch v {
	case solve.Holds:
		return "holds"
	case solve.FallsShort:
		return "SHORT"
	}
	return "?"
}
