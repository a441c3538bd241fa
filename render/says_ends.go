package render

import (
	"fmt"
	"math"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// SideName is "low" or "high" for end 0 or 1 of a travel.
func SideName(end int) string { return [...]string{"low", "high"}[end] }

// EndSays tells what ends the travel on one side.
func EndSays(r *solve.Result, s *solve.Sweep, i int) string {
	end := s.Ends[i]
	at := figure.Exact(end.At, s.Unit)
	switch end.Cause {
	case solve.ByStop:
		said := fmt.Sprintf("The stop %s ends it at %s", figure.Quoted(end.Stop.Name), at)
		if end.Wear != nil {
			said += "; " + wearSays(*end.Wear, s.Unit, r.Run.UnitsOf(end.Stop.In))
		}
		return said + "."
	case solve.ByToggle, solve.ByChangePoint:
		kind := solve.CriticalKind(end.Cause)
		said := fmt.Sprintf("No stop comes first: it goes on center at %s (%s).", at, CenterTerm(kind))
		for _, c := range s.Critical {
			if c.Kind == kind && c.At == end.At && c.Part == end.Part {
				return said + " " + meaning(s, c)
			}
		}
		return said
	}
	return fmt.Sprintf("No stop and no on-center point was met, looking to %s.", at)
}

// slackPast tells that a stop holds only what a pull-only cable moves, not the
// control, and what holds that; empty where it holds that too.
func slackPast(s *solve.Sweep, end solve.End) string {
	if end.Slack == nil {
		return ""
	}
	control := figure.Clean(s.Control.Name)
	said := fmt.Sprintf("The stop %s doesn't hold %s itself: past it the cable %s, which only pulls, goes slack.", figure.Quoted(end.Stop.Name), control, figure.Clean(end.Slack.Name))
	if end.Past == nil {
		return said
	}
	past := *end.Past
	at := figure.Quantity(past.At, s.Unit)
	if past.At != end.At {
		at = figure.Against(past.At, end.At, s.Unit)
	}
	switch past.Cause {
	case solve.ByStop:
		if past.Slack != nil {
			return said + fmt.Sprintf(" %s goes on to the stop %s, at %s. ", control, figure.Quoted(past.Stop.Name), at) + slackPast(s, past)
		}
		return said + fmt.Sprintf(" %s goes on alone, and the stop %s holds it at %s.", control, figure.Quoted(past.Stop.Name), at)
	case solve.ByToggle, solve.ByChangePoint:
		return said + fmt.Sprintf(" %s goes on alone, on center at %s (%s).", control, at, CenterTerm(solve.CriticalKind(past.Cause)))
	case solve.ByCable:
		return said + fmt.Sprintf(" %s goes on alone, and nothing in the file stops it before %s; there the cable comes taut again and pulls %s back off the stop.", control, at, figure.Clean(past.Part.Name))
	}
	return said + fmt.Sprintf(" %s goes on alone; no other stop was met, looking to %s.", control, at)
}

// wearSays tells how far the control goes on for metal worn off a stop: for a
// millimeter, or for 1/64 in, the least that an inch rule shows.
func wearSays(wear float64, unit linkage.Unit, units linkage.Unit) string {
	worn := "1 mm"
	if units == linkage.Inches {
		worn, wear = "1/64 in", wear/figure.InchParts
	}
	return fmt.Sprintf("%s worn off it lets it go %s further", worn, figure.Against(wear, 0, unit))
}

// nextSays tells what would bite if the stop that ends the travel were taken
// away: the next stop, and the nearest on-center point. Empty where no stop
// ends it.
func nextSays(s *solve.Sweep, i int) string {
	if s.Ends[i].Cause != solve.ByStop {
		return ""
	}
	said := ""
	stop, center := NextStop(s, i), NextCenter(s, i)
	if stop != nil {
		later := Outward(s, i, *stop.At)
		if center != nil && Outward(s, i, center.At) < later {
			stop = nil // it lies past the on-center point and comes too late
		} else if later == 0 {
			said = fmt.Sprintf("The stop %s bites at the same place.", figure.Quoted(stop.Stop.Name))
		} else {
			said = fmt.Sprintf("Without it the stop %s would bite %s later, at %s.", figure.Quoted(stop.Stop.Name),
				figure.Against(later, 0, s.Unit), figure.Against(*stop.At, s.Ends[i].At, s.Unit))
		}
	}
	switch {
	case center != nil && stop == nil:
		return fmt.Sprintf("Without it, on center %s later, at %s (%s).",
			figure.Against(Outward(s, i, center.At), 0, s.Unit), figure.Against(center.At, s.Ends[i].At, s.Unit), CenterTerm(center.Kind))
	case center != nil:
		return said + fmt.Sprintf(" On center comes %s after the end, at %s (%s).",
			figure.Against(Outward(s, i, center.At), 0, s.Unit), figure.Against(center.At, s.Ends[i].At, s.Unit), CenterTerm(center.Kind))
	case stop == nil:
		return fmt.Sprintf("Without it nothing else was met, looking to %s.", figure.Quantity(s.Explored[i], s.Unit))
	}
	return said
}

// nextMeans tells what the on-center point of nextSays means.
func nextMeans(s *solve.Sweep, i int) string {
	if center := NextCenter(s, i); center != nil && s.Ends[i].Cause == solve.ByStop {
		return meaning(s, *center)
	}
	return ""
}

// NextStop is the stop that would bite next beyond an end of the travel; nil
// where none was met. Of two at one place the first of the file.
func NextStop(s *solve.Sweep, i int) *solve.StopBite {
	var nearest *solve.StopBite
	stops := s.EveryStop()
	for k := range stops {
		bite := &stops[k]
		if bite.Bites || bite.At == nil || Outward(s, i, *bite.At) < 0 {
			continue
		}
		if nearest == nil || Outward(s, i, *bite.At) < Outward(s, i, *nearest.At) {
			nearest = bite
		}
	}
	return nearest
}

// NextCenter is the nearest on-center point beyond an end of the travel; nil
// where none was found.
func NextCenter(s *solve.Sweep, i int) *solve.Critical {
	var nearest *solve.Critical
	for k := range s.Critical {
		c := &s.Critical[k]
		if Outward(s, i, c.At) <= 0 {
			continue
		}
		if nearest == nil || Outward(s, i, c.At) < Outward(s, i, nearest.At) {
			nearest = c
		}
	}
	return nearest
}

// togetherShare is up to what share of the travel two places of the control are one: events
// are found to 1e-9 of it.
const togetherShare = 1e-9

// Outward is how far a control position lies beyond an end of the travel; nothing where it
// is that end but for rounding.
func Outward(s *solve.Sweep, i int, at float64) float64 {
	out := at - s.Ends[1].At
	if i == 0 {
		out = s.Ends[0].At - at
	}
	if math.Abs(out) <= togetherShare*(s.High-s.Low) {
		return 0
	}
	return out
}

// EndWords tells in few words what ends the travel.
func EndWords(end solve.End) string {
	switch end.Cause {
	case solve.ByStop:
		return StopWords(end.Stop)
	case solve.ByToggle, solve.ByChangePoint:
		return end.Part.Name + " on center, no stop before it"
	}
	return "no stop as far as was looked"
}

// EndOf is that of an end of a sweep; of a rotor that goes all the way round there is none.
func EndOf(s *solve.Sweep, i int) string {
	if s.TurnsRotor() {
		return "all the way round"
	}
	return EndWords(s.Ends[i])
}

// StopWords names a stop in the picture.
func StopWords(s *linkage.Stop) string {
	if strings.Contains(strings.ToLower(s.Name), "stop") {
		return s.Name
	}
	return "stop " + s.Name
}
