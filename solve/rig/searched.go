package rig

import (
	"fmt"

	"fullfree/linkage"
)

// Searched is what was searched, in numbers.
type Searched struct {
	// Poses is how many different poses the settings make: of all that can be
	// set within the thread that there is, in steps that can be made. Settings that
	// leave every rod and stop alike are one.
	Poses float64
	// Checked is how many of them were checked, and Whole says that these were
	// all: then there is no better setting.
	Checked int
	Whole   bool
	// Pins says that only lengths were searched at which the bolts slide in with
	// the rig pins in, and that a setting was found among them; Whole is then of
	// these: no other meets everything.
	Pins bool
	// Few is of how many rods and stops at once all settings were checked, the
	// others being as filed; 0 where not even all of one could be, where something
	// can't stay as filed, and where Whole.
	Few int
	// Around is for how many steps to either side of the pose that misses least or
	// has the most in reserve all were checked, every rod and stop on its own. Where
	// it is 0, the search went from the continuous optimum and from the settings as
	// filed on to what is better, one or two rods or stops at a time, as long as it
	// could. It is 0 where Whole.
	Around int
	// Any are the ends that can be turned to any part of a turn, or in steps too
	// fine to try all: they were tried by their Step, and around the best of these
	// more finely.
	Any []RigAny
}

// RigAny is an end or stop that was not tried in all of its steps.
type RigAny struct {
	End  *linkage.RodEnd // exactly one of End and Stop is set
	Stop *linkage.Stop
	Step float64 // by which it was tried: turns, or the stop's unit
}

// All reports whether there is no setting but those that were checked.
func (s Searched) All() bool { return s.Whole && !s.Pins && len(s.Any) == 0 }

// String says what was searched, and what not.
func (s Searched) String() string {
	poses := fmt.Sprintf("%.0f", s.Poses)
	if s.Poses > countable {
		poses = fmt.Sprintf("more than %.0f", countable)
	}
	text := fmt.Sprintf("%d of %s poses that the settings within the thread make", s.Checked, poses)
	if s.Pins {
		text += ", with the rods at the lengths that the rig pins ask for"
	}
	switch {
	case s.Whole && len(s.Any) == 0:
		text += ": all of these, so there is no better setting"
	case s.Whole:
		text += ": all of these"
	default:
		text += ": " + s.part()
	}
	for _, a := range s.Any {
		if a.End != nil {
			text += fmt.Sprintf("; %s was tried every %.4g turn, and more finely about the best only", a.End, a.Step)
			continue
		}
		text += fmt.Sprintf("; the stop %q was tried every %.4g, and more finely about the best only", a.Stop.Name, a.Step)
	}
	return text
}

// part says what was searched of settings that are too many.
func (s Searched) part() string {
	text := "from the settings as filed and from the continuous optimum on to what is better, one or two rods or stops at a time"
	if s.Few > 0 {
		text += fmt.Sprintf("; all that move %s of them", upTo(s.Few))
	}
	if s.Around > 0 {
		return text + fmt.Sprintf("; all within %s of what has the most in reserve or misses least; not those farther off", steps(s.Around))
	}
	return text + "; not the others"
}

func upTo(n int) string {
	if n == 1 {
		return "only one"
	}
	return fmt.Sprintf("at most %d", n)
}

// countable is the largest number of poses that is told in full.
const countable = 1e9

func steps(n int) string {
	if n == 1 {
		return "one step"
	}
	return fmt.Sprintf("%d steps", n)
}
