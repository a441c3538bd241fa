package render

import (
	"fmt"

	"fullfree/render/figure"
	"fullfree/solve/survey"
)

// unusedNote tells of measurements that adjust nothing, as the run has no
// sketch; empty where there are none.
func unusedNote(s *survey.Survey) string {
	if s == nil || len(s.Measurements) == 0 {
		return ""
	}
	disagree := 0
	for i := range s.Measurements {
		if s.Measurements[i].Off() {
			disagree++
		}
	}
	said := fmt.Sprintf("Drawing: as the file has it, not adjusted by its %s, since the run has no sketch.", figure.Count(len(s.Measurements), "measurement"))
	if disagree == 0 {
		return said + " None disagrees with the drawing by more than it reads to."
	}
	return said + fmt.Sprintf(" Further off the drawing than it reads to: %d of them (fullfree survey tells which).", disagree)
}

// SurveyNote tells in a sentence or two that a drawing was adjusted, and what
// its survey warns of; empty where there was none.
func SurveyNote(s *survey.Survey) string {
	if s == nil {
		return ""
	}
	largest, where := 0.0, ""
	for i := range s.Points {
		if moved := s.Points[i].At.Sub(s.Points[i].Drawn).Norm(); moved > largest {
			largest, where = moved, s.Points[i].Name
		}
	}
	said := fmt.Sprintf("Drawing: adjusted by the survey, %s", figure.Count(len(s.Measurements), "measurement"))
	if where != "" {
		said += fmt.Sprintf(", largest correction %s (%s)", figure.Small(largest, s.Run.Units), where)
	}
	said += "."
	for _, words := range doubtsSay(s) {
		said += " " + words
	}
	if s.NeedsDirection {
		said += " Nothing measured tells how the whole lies: gauge one line, or make a second place exact."
	}
	if open := s.Open(); len(open) > 0 {
		names := figure.FirstOf(len(open), mostPlaces, func(i int) string { return open[i].Name })
		said += fmt.Sprintf(" Nothing measured ties %s (fullfree survey tells how).", figure.List(names))
	}
	return said
}

// WrittenSays tells what was written into a file, and what to mind about it.
func WrittenSays(file string, s *survey.Survey, coordinates int) string {
	said := fmt.Sprintf("wrote %s into %s", figure.Count(coordinates, "adjusted coordinate"), figure.Clean(file))
	switch {
	case coordinates == 0:
		return fmt.Sprintf("nothing to write: %s has no coordinate that may be adjusted", figure.Clean(file))
	case s.Settled():
		said = fmt.Sprintf("nothing to write: %s is adjusted already, each place to within its ±", figure.Clean(file))
	}
	if why := inDoubt(s); why != "" {
		said += ", though the survey is in doubt (" + why + "): measure, and write again"
	}
	return said
}
