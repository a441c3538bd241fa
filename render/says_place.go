package render

import (
	"math"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// place tells where the worst is, after the words before; empty where nothing
// depends on it.
func (t telling) place(before string) string {
	if t.At == nil {
		return ""
	}
	said := before + "with " + t.sweep.Control.Name + " at " + ControlPosition(t.sweep, *t.At)
	if held := t.held(); held != "" {
		said += " and " + held
	}
	return said
}

// ControlPosition tells where the control of a sweep stands, with the file's words
// for that side.
func ControlPosition(s *solve.Sweep, at float64) string {
	if math.Abs(at) < figure.LeastUsable {
		return "neutral"
	}
	return figure.Quantity(at, s.Unit) + figure.Bracketed(SideWord(s, at >= 0))
}

// held tells where the other controls stand, where the worst is in one of
// several sweeps of its control.
func (t telling) held() string {
	if len(SweepsOf(t.result, t.sweep.Control)) < 2 {
		return ""
	}
	return HeldAt(t.result.Run, t.sweep)
}

// HeldAt tells where the other controls stand.
func HeldAt(run *linkage.Run, s *solve.Sweep) string {
	var said []string
	for _, h := range s.Settings() {
		said = append(said, h.Control.Name+" at "+heldPosition(run, h))
	}
	return figure.List(said)
}

// heldPosition tells where one other control stands.
func heldPosition(run *linkage.Run, h solve.Held) string {
	if h.At == 0 {
		return "neutral"
	}
	return figure.Quantity(h.At, ControlUnit(run, h.Control))
}

// heldClause is held with "with" before it.
func (t telling) heldClause() string {
	if held := t.held(); held != "" {
		return " with " + held
	}
	return ""
}

// ControlUnit is the unit of a control's travel.
func ControlUnit(run *linkage.Run, c *linkage.Control) linkage.Unit {
	return figure.PartUnit(run, c.Of)
}

// WorstAt tells where the worst value of a requirement is: the control, where it
// stands, and the others where that tells sweeps apart. Empty where nothing depends
// on it.
func WorstAt(r *solve.Result, j *solve.Judgement) string {
	t := telling{j, r, SweepAt(r, j.Sweep)}
	if t.sweep == nil || j.At == nil {
		return ""
	}
	said := t.sweep.Control.Name + " at " + ControlPosition(t.sweep, *j.At)
	if held := t.held(); held != "" {
		said += ", with " + held
	}
	return said
}
