package render

import (
	"fmt"
	"math"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve/survey"
)

// SurveyMark is how a survey stands in a word: "holds" where nothing puts it in doubt, "open"
// where something isn't measured yet, "short" where the measurements don't go together.
func SurveyMark(s *survey.Survey) string {
	d := s.Doubt()
	switch {
	case len(s.Measurements) == 0, d != nil && (d.Kind == survey.LeavesOpen || d.Kind == survey.NoDirection):
		return "open"
	case d != nil:
		return "short"
	}
	return "holds"
}

// PlaceFigure is a coordinate as a survey tells it.
func PlaceFigure(v float64, unit linkage.Unit) string { return fineOrExact(v, unit) }

// PlaceWithin tells how surely a place is known, two standard deviations of the coordinate
// that is known least; "exact" or "open" where that is no figure.
func PlaceWithin(s *survey.Survey, p *survey.Point) string {
	switch {
	case p.Exact:
		return "exact"
	case s.OpenAxes(p) != [3]bool{}:
		return "open"
	}
	return figure.FineNumber(deviations*math.Max(p.Sigma.X, math.Max(p.Sigma.Y, p.Sigma.Z)), s.Run.Units)
}

// HelpSays tells what a measurement would help: how many coordinates it ties, or which share
// of the sum of all variances it takes away.
func HelpSays(settles int, removes float64) string {
	if settles > 0 {
		return fmt.Sprintf("ties %s", figure.Count(settles, "more coordinate"))
	}
	const percent = 100
	share := math.Round(removes * percent)
	if share < 1 {
		return "a check: a slip of the tape shows"
	}
	return fmt.Sprintf("takes %s%% off what is unsure", figure.Decimal(share, 0))
}
