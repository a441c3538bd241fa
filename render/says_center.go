package render

import (
	"fmt"
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// CenterTerm is the field's name of a kind of on-center point.
func CenterTerm(kind solve.CriticalKind) string {
	switch kind {
	case solve.ChangePoint:
		return "change point"
	case solve.DeadCenter:
		return "dead center"
	}
	return string(kind)
}

// meaning tells what an on-center point of a sweep means at the bench.
func meaning(s *solve.Sweep, c solve.Critical) string {
	if c.Output != nil {
		return fmt.Sprintf("What moves %s%s goes on there, as at the top of an arc; past this point, %s.", c.Output.Name, little(s, c), movingOn(s, c))
	}
	if c.Cable != nil {
		return meaningOfCable(s, c)
	}
	if c.Joint != nil {
		return meaningOfJoint(s, c)
	}
	part, rod := c.Part.Name, c.Rod.Name
	switch c.Kind {
	case solve.Toggle:
		return fmt.Sprintf("There %s %s: %s locks up and is driven no further; thrown past that point, %s.", rod, acrossDriven(c), part, thrownPast(s, c))
	case solve.ChangePoint:
		return fmt.Sprintf("There %s is in line with the arms at both its ends: from there %s may go on in either of two ways, one of them backwards.", rod, part)
	}
	return fmt.Sprintf("There %s %s: %s halts and reverses%s; past this point, %s.", rod, acrossDriver(c), part, little(s, c), movingOn(s, c))
}

// meaningOfJoint tells what an on-center point means where a joint drives.
func meaningOfJoint(s *solve.Sweep, c solve.Critical) string {
	part, joint := c.Part.Name, c.Joint.Name
	switch c.Kind {
	case solve.Toggle:
		return fmt.Sprintf("There %s locks up at the joint %s and is driven no further; thrown past that point, %s.", part, joint, thrownPast(s, c))
	case solve.ChangePoint:
		return fmt.Sprintf("There what the joint %s holds lies in line: from there %s may go on in either of two ways, one of them backwards.", joint, part)
	}
	return fmt.Sprintf("There the joint %s doesn't push %s along: it halts and reverses%s; past this point, %s.", joint, part, little(s, c), movingOn(s, c))
}

// movingOn tells what the control does past a dead center as it goes on the way
// that led there, in the file's word for that way.
func movingOn(s *solve.Sweep, c solve.Critical) string {
	word := SideWord(s, c.At >= 0)
	said := "moving on" + figure.Bracketed(word) + " drives it back"
	if pull := pullBack(word); pull != "" {
		said += ": " + pull
	}
	return said
}

// thrownPast tells what the control does once a toggle has been passed as it
// goes back.
func thrownPast(s *solve.Sweep, c solve.Critical) string {
	if pull := pullBack(SideWord(s, c.At >= 0)); pull != "" {
		return pull
	}
	return "a pull back" + figure.Bracketed(SideWord(s, c.At < 0)) + " drives it further on"
}

// pullBack tells of a control that opens or closes what past an on-center point
// a pull the other way does; empty where its word is another. Past a dead
// center as past a toggle, moving back moves what is driven the way it was
// going.
func pullBack(word string) string {
	word = strings.ToLower(word)
	switch {
	case strings.Contains(word, "open"):
		return "a pull the closing way opens it"
	case strings.Contains(word, "close"), strings.Contains(word, "shut"):
		return "a pull the opening way closes it"
	}
	return ""
}

// SideWord is the file's word for a side of a sweep's control; empty where it
// has none.
func SideWord(s *solve.Sweep, high bool) string {
	if high {
		return s.Control.Plus
	}
	return s.Control.Minus
}

// acrossDriven tells how a rod stands that can drive its part no further.
func acrossDriven(c solve.Critical) string {
	if c.Part.Motion == linkage.Slides {
		return "stands crosswise to the guide of " + c.Part.Name
	}
	return "is in line with the arm of " + c.Part.Name + " that it drives"
}

// acrossDriver tells how a rod stands that for a moment isn't moved along.
func acrossDriver(c solve.Critical) string {
	driver := c.Rod.From
	if driver.Part == c.Part {
		driver = c.Rod.To
	}
	if p := driver.Part; p != nil && p.Motion == linkage.Turns && p.Carrier == nil {
		return "is in line with the arm of " + p.Name + " that drives it"
	}
	return "stands crosswise to the push"
}

// LittleTravel is the travel of a part, degrees, below which a reversal is told with how little it moves at
// all: a part that is meant to stand still always reverses somewhere.
const LittleTravel = 1.0

// little tells how far a part that reverses moves at all in this sweep, where
// that is next to nothing.
func little(s *solve.Sweep, c solve.Critical) string {
	moves, ok := Wavers(s, c)
	if !ok {
		return ""
	}
	return fmt.Sprintf(" (it moves only %s in all as %s goes stop to stop)", figure.Against(moves, 0, "deg"), s.Control.Name)
}

// CenterInShort tells an on-center point in a line of a list.
func CenterInShort(s *solve.Sweep, c solve.Critical) string {
	if c.Output != nil {
		return c.Output.Name + " turns back by itself here" + little(s, c) + " (" + CenterTerm(c.Kind) + ")"
	}
	what := ""
	switch c.Kind {
	case solve.Toggle:
		what = c.Part.Name + " locks up"
	case solve.ChangePoint:
		what = c.Part.Name + " may go either way"
	default:
		what = c.Part.Name + " reverses here" + little(s, c)
	}
	return what + ", " + ByWhat(c) + " (" + CenterTerm(c.Kind) + ")"
}

// CenterSpare tells the margin of an on-center point.
func CenterSpare(s *solve.Sweep, c solve.Critical) string {
	switch {
	case c.Margin > 0:
		return inReserve(c.Margin, s.Unit)
	case c.Margin < 0:
		return figure.Against(-c.Margin, 0, s.Unit) + " inside the travel"
	}
	return "nothing in hand"
}

// overCenter tells the nearest on-center point, or how far none was found.
func (t telling) overCenter() string {
	if t.Worst == nil {
		return t.undecided()
	}
	if t.Why == solve.NotExplored && t.NoneFound {
		return fmt.Sprintf("No on-center point was found, but only %s past an end of the travel could be looked at and %s is wanted: %s.", t.worst(), t.limit(), t.wider())
	}
	if t.NoneFound {
		return fmt.Sprintf("No on-center point was found, looking at least %s past each end of the travel%s; %s wanted.", t.worst(), t.ofControl(), t.limit())
	}
	if t.Verdict == solve.CannotTell && t.Why != solve.NotExplored {
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
	where := "at " + ControlPosition(t.sweep, c.At) + t.heldClause()
	it, wayOut := "It goes on center", ""
	if c.Output != nil {
		it = c.Output.Name + " turns back by itself"
		if t.Verdict == solve.FallsShort {
			wayOut = fmt.Sprintf(" If %s should leave it alone, say so in a steady requirement: then it doesn't count here.", t.sweep.Control.Name)
		}
	}
	var said string
	switch {
	case c.Margin < 0:
		said = fmt.Sprintf("%s (%s) inside the travel, %s, %s before the %s end.", it, CenterTerm(c.Kind), where, figure.Against(-c.Margin, 0, t.Unit), SideName(end))
	case c.Margin == 0:
		said = fmt.Sprintf("%s (%s) at the %s end of the travel itself, %s.", it, CenterTerm(c.Kind), SideName(end), where)
		if t.sweep.Ends[end].Cause != solve.ByStop {
			said += " No stop comes first."
		}
	case t.Why == solve.NotExplored:
		return fmt.Sprintf("The nearest on-center point found lies %s past the %s end, %s: %s. But less than the %s wanted could be looked at past another end: %s.", t.worst(), SideName(end), where, CenterInShort(t.sweep, c), t.limit(), t.wider())
	case t.Verdict == solve.Holds:
		return fmt.Sprintf("The nearest on-center point lies %s past the %s end, %s: %s. %s.", t.worst(), SideName(end), where, CenterInShort(t.sweep, c), t.wanted())
	default:
		said = fmt.Sprintf("%s (%s) only %s past the %s end, %s.", it, CenterTerm(c.Kind), t.worst(), SideName(end), where)
	}
	said += " " + meaning(t.sweep, c) + " " + t.wanted() + "." + wayOut
	if t.Verdict == solve.FallsShort && t.Requirement.Control == nil && len(t.result.Run.Controls) > 1 {
		said += " It is asked of every control: with control = NAME it is asked of that one alone."
	}
	return said
}

// ofControl names the control that a requirement is limited to.
func (t telling) ofControl() string {
	if t.Requirement.Control == nil {
		return ""
	}
	return " of " + t.Requirement.Control.Name
}

// wider tells what to change so that enough can be explored, where too little
// was beyond an end of some sweep.
func (t telling) wider() string {
	var asks []string
	for _, c := range t.result.Run.Controls {
		var sides []string
		for i, name := range []string{"from", "to"} {
			if slices.ContainsFunc(t.concerned(c), func(s *solve.Sweep) bool { return t.tooNear(s, i) }) {
				sides = append(sides, figure.Quoted(name))
			}
		}
		if len(sides) > 0 {
			asks = append(asks, fmt.Sprintf("the control %s a wider %s", c.Name, figure.List(sides)))
		}
	}
	return "give " + figure.List(asks)
}

// concerned is the sweeps of a control that the requirement is judged in.
func (t telling) concerned(c *linkage.Control) []*solve.Sweep {
	if t.Requirement.Control != nil && t.Requirement.Control != c {
		return nil
	}
	return SweepsOf(t.result, c)
}

// tooNear says whether looking ended too near to the end of a sweep on one side
// for the requirement to be judged there.
func (t telling) tooNear(s *solve.Sweep, i int) bool {
	if t.Requirement.Kind == linkage.Order {
		return s == t.sweep && t.End == SideName(i)
	}
	found := slices.ContainsFunc(s.Critical, func(c solve.Critical) bool { return (c.At >= 0) == (i == 1) })
	return !found && Outward(s, i, s.Explored[i]) < t.Limit
}

// Wavers returns how little a part or output that halts and reverses moves at all, where
// that is next to nothing: a part that is meant to stand still always reverses
// somewhere.
func Wavers(s *solve.Sweep, c solve.Critical) (float64, bool) {
	if c.Kind != solve.DeadCenter {
		return 0, false
	}
	for _, p := range s.Parts {
		if c.Part != nil && p.Part == c.Part && p.Unit == linkage.Degrees {
			return p.Most - p.Least, p.Most-p.Least < LittleTravel
		}
	}
	for _, o := range s.Outputs {
		if o.Output == c.Output && o.Unit == linkage.Degrees {
			return o.Most - o.Least, o.Most-o.Least < LittleTravel
		}
	}
	return 0, false
}
