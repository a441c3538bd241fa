package render

import (
	"fmt"
	"slices"

	"fullfree/linkage"
	"fullfree/solve"
)

// sideName is "low" or "high" for end 0 or 1 of a travel.
func sideName(end int) string { return [...]string{"low", "high"}[end] }

// endSays tells what ends the travel on one side.
func endSays(r *solve.Result, s *solve.Sweep, i int) string {
	end := s.Ends[i]
	at := Quantity(end.At, s.Unit)
	switch end.Cause {
	case solve.ByStop:
		said := fmt.Sprintf("The stop %s ends it at %s", quoted(end.Stop.Name), at)
		if end.Wear != nil {
			said += "; " + wearSays(*end.Wear, s.Unit, r.Run.Units)
		}
		return said + "."
	case solve.ByToggle, solve.ByChangePoint:
		kind := solve.CriticalKind(end.Cause)
		said := fmt.Sprintf("No stop comes first: it goes on center at %s (%s).", at, term(kind))
		for _, c := range s.Critical {
			if c.Kind == kind && c.At == end.At && c.Part == end.Part {
				return said + " " + meaning(c)
			}
		}
		return said
	}
	return fmt.Sprintf("No stop and no on-center point was met, looking to %s.", at)
}

// wearSays tells how far the control goes on for metal worn off a stop: for a
// millimeter, or for 1/64 in, the least that an inch rule shows.
func wearSays(wear float64, unit string, units linkage.Units) string {
	worn := "1 mm"
	if units == linkage.Inches {
		worn, wear = "1/64 in", wear/inchParts
	}
	return fmt.Sprintf("%s worn off it lets it go %s further", worn, against(wear, 0, unit))
}

// nextSays tells what would bite if the stop that ends the travel were taken
// away: the next stop, and the nearest on-center point. Empty where no stop
// ends it.
func nextSays(s *solve.Sweep, i int) string {
	if s.Ends[i].Cause != solve.ByStop {
		return ""
	}
	said := ""
	stop, center := nextStop(s, i), nextCenter(s, i)
	if stop != nil {
		later := outward(s, i, *stop.At)
		if center != nil && center.Margin < later {
			stop = nil // it lies past the on-center point and comes too late
		} else if later == 0 {
			said = fmt.Sprintf("The stop %s bites at the same place.", quoted(stop.Stop.Name))
		} else {
			said = fmt.Sprintf("Without it the stop %s would bite %s later, at %s.", quoted(stop.Stop.Name),
				against(later, 0, s.Unit), against(*stop.At, s.Ends[i].At, s.Unit))
		}
	}
	switch {
	case center != nil && stop == nil:
		return fmt.Sprintf("Without it, on center %s later, at %s (%s): taking metal off this stop gains no more than that.",
			against(center.Margin, 0, s.Unit), against(center.At, s.Ends[i].At, s.Unit), term(center.Kind))
	case center != nil:
		return said + fmt.Sprintf(" On center comes %s after the end, at %s (%s).",
			against(center.Margin, 0, s.Unit), against(center.At, s.Ends[i].At, s.Unit), term(center.Kind))
	case stop == nil:
		return fmt.Sprintf("Without it nothing else was met, looking to %s.", Quantity(s.Explored[i], s.Unit))
	}
	return said
}

// nextMeans tells what the on-center point of nextSays means.
func nextMeans(s *solve.Sweep, i int) string {
	if center := nextCenter(s, i); center != nil && s.Ends[i].Cause == solve.ByStop {
		return meaning(*center)
	}
	return ""
}

// nextStop is the stop that would bite next beyond an end of the travel; nil
// where none was met. Of two at one place the first of the file.
func nextStop(s *solve.Sweep, i int) *solve.StopBite {
	var nearest *solve.StopBite
	for k := range s.Stops {
		bite := &s.Stops[k]
		if bite.Bites || bite.At == nil || outward(s, i, *bite.At) < 0 {
			continue
		}
		if nearest == nil || outward(s, i, *bite.At) < outward(s, i, *nearest.At) {
			nearest = bite
		}
	}
	return nearest
}

// nextCenter is the nearest on-center point beyond an end of the travel; nil
// where none was found.
func nextCenter(s *solve.Sweep, i int) *solve.Critical {
	var nearest *solve.Critical
	for k := range s.Critical {
		c := &s.Critical[k]
		if c.Margin <= 0 || outward(s, i, c.At) <= 0 {
			continue
		}
		if nearest == nil || c.Margin < nearest.Margin {
			nearest = c
		}
	}
	return nearest
}

// outward is how far a control position lies beyond an end of the travel.
func outward(s *solve.Sweep, i int, at float64) float64 {
	if i == 0 {
		return s.Ends[0].At - at
	}
	return at - s.Ends[1].At
}

// term is the field's name of a kind of on-center point.
func term(kind solve.CriticalKind) string {
	switch kind {
	case solve.ChangePoint:
		return "change point"
	case solve.DeadCenter:
		return "dead center"
	}
	return string(kind)
}

// meaning tells what an on-center point means at the bench.
func meaning(c solve.Critical) string {
	part, rod := c.Part.Name, "the rod"
	if c.Rod != nil {
		rod = c.Rod.Name
	}
	switch c.Kind {
	case solve.Toggle:
		return fmt.Sprintf("There %s is in line with the arm of %s that it drives: it locks up and is driven no further; thrown past that point, a pull the closing way opens it.", rod, part)
	case solve.ChangePoint:
		return fmt.Sprintf("There %s is in line with the arms at both its ends: from there %s may go on in either of two ways, one of them backwards.", rod, part)
	}
	return fmt.Sprintf("There %s is in line with the arm that drives it: %s halts and reverses; past this point a pull the closing way opens it.", rod, part)
}

// inShort tells an on-center point in a line of a list.
func inShort(c solve.Critical) string {
	what := ""
	switch c.Kind {
	case solve.Toggle:
		what = c.Part.Name + " locks up"
	case solve.ChangePoint:
		what = c.Part.Name + " may go either way"
	default:
		what = c.Part.Name + " reverses here"
	}
	if c.Rod != nil {
		what += ", in line: " + c.Rod.Name
	}
	return what + " (" + term(c.Kind) + ")"
}

// spare tells the margin of an on-center point.
func spare(s *solve.Sweep, c solve.Critical) string {
	switch {
	case c.Margin > 0:
		return against(c.Margin, 0, s.Unit) + " in hand"
	case c.Margin < 0:
		return against(-c.Margin, 0, s.Unit) + " inside the travel"
	}
	return "nothing in hand"
}

// overCenter tells the nearest on-center point, or how far none was found.
func (t telling) overCenter() string {
	if t.Worst == nil {
		return t.undecided()
	}
	if t.Why == solve.NotExplored {
		return fmt.Sprintf("No on-center point was found, but only %s past the travel could be looked at and %s is wanted: give the control %s a wider \"from\" or \"to\".", t.worst(), t.limit(), t.sweep.Control.Name)
	}
	if t.NoneFound {
		return fmt.Sprintf("No on-center point was found, looking at least %s past each end of the travel%s; %s wanted.", t.worst(), t.ofControl(), t.limit())
	}
	if t.Verdict == solve.CannotTell {
		return t.undecided()
	}
	k := slices.IndexFunc(t.sweep.Critical, func(c solve.Critical) bool {
		return c.Margin == *t.Worst && (t.At == nil || c.At == *t.At)
	})
	if k < 0 {
		return fmt.Sprintf("The nearest on-center point has %s%s. %s.", t.worst(), t.place(", "), t.wanted())
	}
	c := t.sweep.Critical[k]
	end := 0
	if c.At >= 0 {
		end = 1
	}
	where := "at " + position(t.sweep, c.At) + t.heldClause()
	var said string
	switch {
	case c.Margin < 0:
		said = fmt.Sprintf("It goes on center (%s) inside the travel, %s, %s before the %s end.", term(c.Kind), where, against(-c.Margin, 0, t.Unit), sideName(end))
	case c.Margin == 0:
		said = fmt.Sprintf("It goes on center (%s) at the %s end of the travel itself, %s.", term(c.Kind), sideName(end), where)
		if t.sweep.Ends[end].Cause != solve.ByStop {
			said += " No stop comes first."
		}
	case t.Verdict == solve.Holds:
		return fmt.Sprintf("The nearest on-center point lies %s past the %s end, %s: %s. %s.", t.worst(), sideName(end), where, inShort(c), t.wanted())
	default:
		said = fmt.Sprintf("It goes on center (%s) only %s past the %s end, %s.", term(c.Kind), t.worst(), sideName(end), where)
	}
	return said + " " + meaning(c) + " " + t.wanted() + "."
}

// ofControl names the control that a requirement is limited to.
func (t telling) ofControl() string {
	if t.Requirement.Control == nil {
		return ""
	}
	return " of " + t.Requirement.Control.Name
}
