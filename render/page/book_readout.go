package page

import (
	"strings"

	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/render/picture"
	"fullfree/solve"
)

// readoutGroup is what a page shows of one position, of one sort.
type readoutGroup struct {
	Title string
	Rows  []readoutRow
}

// readoutRow is one series, with what it is at neutral until the page moves.
type readoutRow struct {
	Series   int // among those of the course
	Label    string
	Shown    string
	Decimals int
	Parts    int    // of an inch; 0: decimals
	Suffix   string // the unit, as it is put behind a number
	Nothing  string // the words for what rounds to nothing; empty: the number
}

// readoutTitles are the sorts of series, in the order in which they are told.
var readoutTitles = []struct {
	title string
	kinds []solve.SeriesKind
}{
	{"Outputs", []solve.SeriesKind{solve.SeriesOutput, solve.SeriesRatio}},
	{"Parts, from as drawn", []solve.SeriesKind{solve.SeriesPart}},
	{"Required", []solve.SeriesKind{solve.SeriesRequirement}},
	{"Stops", []solve.SeriesKind{solve.SeriesStop}},
	{"Cables", []solve.SeriesKind{solve.SeriesTension, solve.SeriesFree}},
	{"Rods", []solve.SeriesKind{solve.SeriesRodAngle, solve.SeriesTilt, solve.SeriesNeeded}},
}

// readoutOf is the readout of a sweep as it stands at neutral.
func readoutOf(series []picture.Series, course *solve.Course) []readoutGroup {
	var groups []readoutGroup
	neutral := neutralOf(course)
	for _, sort := range readoutTitles {
		group := readoutGroup{Title: sort.title}
		for i, s := range series {
			for _, kind := range sort.kinds {
				if s.Kind == string(kind) {
					group.Rows = append(group.Rows, readoutRow{i, s.Label, seriesShown(s, neutral[i]), s.Decimals, s.Parts, figure.WithUnit("", s.Unit), seriesNothing(s)})
				}
			}
		}
		if len(group.Rows) > 0 {
			groups = append(groups, group)
		}
	}
	return groups
}

// neutralOf is the values of a course at neutral.
func neutralOf(course *solve.Course) []*float64 {
	for _, p := range course.Samples {
		if p.At == 0 {
			return p.Values
		}
	}
	return make([]*float64, len(course.Series))
}

// seriesShown is a value of a series as the page's script shows it (shown in book.js).
func seriesShown(s picture.Series, v *float64) string {
	if v == nil {
		return nothing
	}
	text := seriesFigure(s, v)
	if words := seriesNothing(s); words != "" && strings.Trim(text, "0.") == "" {
		return words
	}
	return figure.WithUnit(text, s.Unit)
}

// seriesNothing returns the words for a value that rounds to nothing; empty: it is told
// as a number.
func seriesNothing(s picture.Series) string {
	if s.Kind == string(solve.SeriesRatio) {
		return render.HardlyMoves
	}
	return ""
}

// seriesFigure is shown without the unit.
func seriesFigure(s picture.Series, v *float64) string {
	switch {
	case v == nil:
		return nothing
	case s.Parts > 0:
		return figure.InchNumber(*v)
	}
	return figure.Decimal(*v, s.Decimals)
}
