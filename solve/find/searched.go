package find

import "fmt"

// countable is the largest number of combinations that is told in full.
const countable = 1e9

// String says what was searched, and what not.
func (s Searched) String() string {
	text := fmt.Sprintf("%d settings", s.Settings)
	if s.Checked < s.Settings {
		text += fmt.Sprintf(", glanced at by steps of three degrees, and %d of them checked as they are told", s.Checked)
	}
	combinations := fmt.Sprintf("%.0f combinations", s.Combinations)
	if s.Combinations > countable {
		combinations = fmt.Sprintf("more than %.0f combinations", countable)
	}
	switch {
	case s.Complete && float64(s.Settings) > s.Combinations:
		return text + "; these are all " + combinations + " and what is filed, so there is no better one"
	case s.Complete:
		return text + "; these are all " + combinations + ", so there is no better one"
	case s.Whole && s.Combinations > 1:
		text += "; all " + combinations + " of what is chosen or goes by steps"
	case s.Combinations > 1:
		text += fmt.Sprintf("; %s are more than are gone through: from %s on to what is better, one or two things at a time; the others were left out", combinations, places(s.Starts))
	}
	if s.Any > 0 {
		text += fmt.Sprintf("; what may be anything was sought from %s by slopes, so a better one may lie elsewhere", places(s.Starts))
	}
	if s.Cut {
		text += "; then the work allowed for one answer was done"
	}
	return text
}

func places(n int) string {
	if n == 1 {
		return "one place"
	}
	return fmt.Sprintf("%d places", n)
}
