package render

import (
	"fmt"

	"fullfree/render/figure"
	"fullfree/solve"
)

// neutral tells where a part or output stands with every control at neutral, against the
// drawing.
func (t telling) neutral() string {
	of := t.Requirement.Of[0]
	if t.known() == solve.CannotTell {
		return t.undecided()
	}
	if *t.Worst == 0 {
		return fmt.Sprintf("At neutral %s stands as drawn; %s allowed.", of.Name(), t.limit())
	}
	off := t.worst()
	if o := of.Output; o != nil && o.Reads != 0 {
		return fmt.Sprintf("At neutral %s reads %s where %s is drawn: %s off. %s.", of.Name(),
			figure.Quantity(o.Reads+t.Reaches, t.Unit), figure.Given(o.Reads, t.Unit), off, t.allowed())
	}
	word := "plus"
	if t.Reaches < 0 {
		word = "minus"
	}
	if o := of.Output; o != nil {
		own := o.Plus
		if t.Reaches < 0 {
			own = o.Minus
		}
		if own != "" {
			word = figure.Clean(own)
		}
	}
	if t.Verdict == solve.Holds {
		return fmt.Sprintf("At neutral %s stands as drawn to within %s (%s). %s.", of.Name(), off, word, t.allowed())
	}
	return fmt.Sprintf("At neutral %s stands %s from where it is drawn (%s). %s.", of.Name(), off, word, t.allowed())
}

// symmetrical tells how the one at plus of the control compares with the other at minus.
func (t telling) symmetrical() string {
	a, b, control := t.Requirement.Of[0].Name(), t.Requirement.Of[1].Name(), t.sweep.Control.Name
	if t.Why == solve.OneSided {
		return fmt.Sprintf("It can't be judged: %s goes to one side of neutral only, so nothing mirrors it.", control)
	}
	goes := "moves as"
	if t.Requirement.Opposed {
		goes = "moves opposite to"
	}
	upTo := fmt.Sprintf("as far as %s goes to both sides, ±%s", control, figure.Quantity(t.Reaches, t.sweep.Unit))
	switch t.known() {
	case solve.Holds:
		return fmt.Sprintf("With %s one way, %s %s %s does with it the other way, to within %s%s, %s. %s.", control, a, goes, b, t.worst(), t.place(", worst "), upTo, t.allowed())
	case solve.FallsShort:
		return fmt.Sprintf("%s and %s are not symmetrical: %s out at worst%s, where %s is held against %s with the control as far the other way. Looked at %s. %s.",
			a, b, t.worst(), t.place(", "), a, b, upTo, t.allowed())
	}
	return t.undecided()
}

// readsAt tells what is read with a control at one place.
func (t telling) readsAt() string {
	name, at := t.Requirement.Of[0].Name(), t.sweep.Control.Name+" at "+figure.Given(t.Requirement.At, t.sweep.Unit)
	if t.Why == solve.NotReached {
		said := fmt.Sprintf("%s is never reached: the travel ends at %s%s.", at, ControlPosition(t.sweep, *t.At), t.heldClause())
		return figure.Joined(" ", said, EndSays(t.result, t.sweep, t.end()))
	}
	if t.known() == solve.CannotTell {
		return t.undecided()
	}
	return fmt.Sprintf("With %s, %s reads %s: %s off%s. %s.", at, name,
		t.against("", t.reached, t.Reaches, t.Requirement.Wants), t.worst(), t.heldClause(), t.allowed())
}
