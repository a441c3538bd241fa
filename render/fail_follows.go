package render

import (
	"fmt"
	"strings"

	"fullfree/render/figure"
	"fullfree/solve"
)

func (t failTelling) lost() string {
	if len(t.c.Lost) == 0 {
		return ""
	}
	return "Lost: " + figure.List(cleanAll(t.c.Lost)) + "."
}

// follows tells what still follows which control, and how far.
func (t failTelling) follows() string {
	var said []string
	for i := range t.c.Controls {
		k := &t.c.Controls[i]
		if k.Gone || k.Locked == nil || *k.Locked || t.c.Trouble != nil {
			continue
		}
		var whole, changed, back []string
		missing := false
		for j := range t.c.Reaches {
			r := &t.c.Reaches[j]
			if r.Control != k.Control || r.Part == k.Control.Of {
				continue
			}
			missing = missing || !r.Follows
			switch {
			case !r.Follows:
			case r.Filed == r.Left, printedAlike(r) && !(r.Own && r.Share < 1):
				whole = append(whole, figure.Clean(r.Name))
			default:
				words := fmt.Sprintf("%s from %s to %s (as filed %s to %s", figure.Clean(r.Name), figure.Quantity(r.Left[0], r.Unit), figure.Quantity(r.Left[1], r.Unit), figure.Quantity(r.Filed[0], r.Unit), figure.Quantity(r.Filed[1], r.Unit))
				if r.Output != nil && r.Share < 1 {
					words += ": " + shareReached(r.Share) + " of it"
				}
				changed = append(changed, words+")")
			}
			if r.Reversed {
				back = append(back, figure.Clean(r.Name))
			}
		}
		name := figure.Clean(k.Control.Name)
		switch {
		case len(whole)+len(changed) == 0:
			said = append(said, "Nothing follows "+name+".")
		case len(changed) == 0 && !missing:
			said = append(said, "Everything follows "+name+" as filed.")
		default:
			var parts []string
			if len(whole) > 0 {
				parts = append(parts, figure.List(whole)+" as filed")
			}
			parts = append(parts, changed...)
			said = append(said, fmt.Sprintf("Still follow %s: %s.", name, strings.Join(parts, "; ")))
		}
		if len(back) > 0 {
			said = append(said, fmt.Sprintf("Reversed: %s.", figure.List(back)))
		}
	}
	return strings.Join(said, " ")
}

// printedAlike reports whether what is told of a reach is as filed.
func printedAlike(r *solve.Reach) bool {
	return figure.Quantity(r.Left[0], r.Unit) == figure.Quantity(r.Filed[0], r.Unit) && figure.Quantity(r.Left[1], r.Unit) == figure.Quantity(r.Filed[1], r.Unit)
}

// travels tells of controls whose travel is another.
func (t failTelling) travels() string {
	var said []string
	for i := range t.c.Controls {
		k := &t.c.Controls[i]
		if k.Gone || k.Locked == nil || *k.Locked || t.c.Trouble != nil {
			continue
		}
		for side, word := range []string{"minus", "plus"} {
			if e := k.Ends[side]; e.Slack != nil && t.c.Element.Stop != nil {
				words := fmt.Sprintf("On its %s side the stop %s doesn't hold %s itself: past it the cable %s, which only pulls, goes slack",
					word, figure.Quoted(e.Stop.Name), figure.Clean(k.Control.Name), figure.Clean(e.Slack.Name))
				if e.HoldsControl() {
					words += "; a later stop holds it"
				}
				said = append(said, words+".")
			}
			now, was := figure.Quantity(k.Left[side], k.Unit), figure.Quantity(k.Filed[side], k.Unit)
			if now == was {
				continue
			}
			by := "as far as the file explores, with nothing to stop it"
			switch e := k.Ends[side]; {
			case e.Stop != nil:
				by = "to the stop " + figure.Quoted(e.Stop.Name)
			case e.Part != nil:
				by = "where " + figure.Clean(e.Part.Name) + " is on center"
			}
			said = append(said, fmt.Sprintf("%s goes %s to %s (as filed %s), %s.", figure.Clean(k.Control.Name), word, now, was, by))
		}
	}
	return strings.Join(said, " ")
}

// carried tells which second path takes over, with what play, and what doubles
// nothing any more.
func (t failTelling) carried() string {
	var said []string
	for _, k := range t.c.Carried {
		words := fmt.Sprintf("The second path %s carries it", figure.Clean(k.Rod.Name))
		var slack []string
		for _, s := range k.Slack {
			slack = append(slack, fmt.Sprintf("%s by %s", figure.Clean(s.Name), figure.Quantity(s.Most, s.Unit)))
		}
		switch {
		case k.Rod.Play == 0:
			words += "; the file gives it no play"
		case len(slack) > 0:
			words += fmt.Sprintf(", and its play of %s lets be moved by hand, each way: %s", figure.Calipers(k.Rod.Play, t.f.Run.UnitsOf(k.Rod.In)), figure.List(slack))
		}
		said = append(said, words+".")
	}
	if len(t.c.Undoubled) > 0 {
		var names []string
		for _, r := range t.c.Undoubled {
			names = append(names, figure.Clean(r.Name))
		}
		said = append(said, fmt.Sprintf("The doubling is gone (%s): what goes next has no second path.", figure.List(names)))
	}
	return strings.Join(said, " ")
}

// shares tells what both paths go through.
func (t failTelling) shares() string {
	if len(t.c.Shares) == 0 {
		return ""
	}
	return "Both paths to " + figure.List(cleanAll(t.c.Shares)) + " go through it."
}

func sharedSays(path solve.SharedPath) string {
	if len(path.Parts) == 0 {
		return "To " + figure.Clean(path.To) + ": no part."
	}
	names := partNamesOf(path.Parts)
	loss := "Its loss"
	if len(names) > 1 {
		loss = "The loss of any of them"
	}
	return fmt.Sprintf("To %s: %s. %s takes both paths.", figure.Clean(path.To), figure.List(names), loss)
}
