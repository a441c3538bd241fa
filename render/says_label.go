package render

import (
	"fmt"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// label tells how the words of a control or output go with the drawing.
func (t telling) label() string {
	of := t.Requirement.Of[0]
	where, words := labelPlace(of), labelWords(of, t.End)
	if t.Verdict == solve.Holds {
		return fmt.Sprintf("As drawn, %s goes the way its words say.", where)
	}
	if t.End == "turns" {
		c := of.Control
		way, other := "clockwise", "counterclockwise"
		if !c.Twist.Clockwise {
			way, other = other, way
		}
		return fmt.Sprintf("turns = %q, but as drawn plus turns %s %s, seen from %s: the other word is right, or the axis is drawn reversed.", way, c.Of.Name, other, c.Twist.SeenFrom)
	}
	label, _ := linkage.ReadLabel(words, of.Output != nil)
	return fmt.Sprintf("%s = %q, but as drawn %s takes %s %s: swap the words, or the drawing is reversed.", t.End, figure.Clean(words), t.End, where, label.Direction.Opposite())
}

// labelPlace is where the motion of a control or output is judged.
func labelPlace(of linkage.Subject) string {
	switch {
	case of.Control != nil && of.Control.Grip != nil:
		return of.Control.Grip.String()
	case of.Control != nil:
		return of.Control.Of.Name
	case of.Output.SeenAt != nil:
		return of.Output.SeenAt.String()
	case of.Output.Point != nil:
		return of.Output.Point.String()
	}
	return of.Output.Part.Name
}

// labelWords are the words of a side of a control or output: "plus" or "minus".
func labelWords(of linkage.Subject, side string) string {
	plus, minus := "", ""
	if of.Control != nil {
		plus, minus = of.Control.Plus, of.Control.Minus
	} else {
		plus, minus = of.Output.Plus, of.Output.Minus
	}
	if side == "minus" {
		return minus
	}
	return plus
}

// contradicted names the controls and outputs whose words the drawing contradicts.
func contradicted(r *solve.Result) (names []string) {
	for _, j := range r.Contradicted() {
		names = append(names, j.Requirement.Name)
	}
	return names
}

// NotJudgedSays tells of which controls and outputs nothing tells which way they go;
// empty where there is none.
func NotJudgedSays(r *solve.Result) string {
	if len(r.NotJudged) == 0 {
		return ""
	}
	names := make([]string, len(r.NotJudged))
	for i, s := range r.NotJudged {
		names[i] = s.Name()
	}
	return "Which way was not judged: " + strings.Join(names, ", ") + "."
}

// sensePlaces tells a sense by places.
func (t telling) sensePlaces() string {
	when, then := t.Requirement.Places[0], t.Requirement.Places[1]
	driver, wanted := fmt.Sprintf("%s goes %s", when.Place, when.Direction), fmt.Sprintf("%s goes %s", then.Place, then.Direction)
	switch t.Why {
	case solve.NeverAlong:
		return fmt.Sprintf("%s hardly goes %s or %s, so there is no sense to judge.", when.Place, when.Direction, when.Direction.Opposite())
	case solve.HaltsOrNoise:
		return fmt.Sprintf("%s stands still, or goes neither %s nor %s, while %s goes on%s, so it has no sense there.", then.Place, then.Direction, then.Direction.Opposite(), when.Place, t.place(", "))
	case solve.DrivesReversed:
		return fmt.Sprintf("%s reverses while %s goes on%s, so the sense turns round there.", when.Place, then.Place, t.place(", "))
	}
	said := ""
	switch t.known() {
	case solve.Holds:
		said = fmt.Sprintf("As %s, %s all through, by at least %s%s.", driver, wanted, t.ratio(), t.place(", "))
	case solve.FallsShort:
		said = fmt.Sprintf("As %s, %s goes %s%s, %s: it should go %s.", driver, then.Place, then.Direction.Opposite(), t.place(", worst "), figure.Joined(" ", t.byWord(), t.ratio()), then.Direction)
	default:
		said = t.undecided()
	}
	for _, a := range t.Aside {
		s := SweepAt(t.result, a.Sweep)
		said += fmt.Sprintf(" Left out, since there %s hardly goes %s or %s: %s to %s.", when.Place, when.Direction, when.Direction.Opposite(), ControlPosition(s, a.From), ControlPosition(s, a.To))
	}
	return said
}
