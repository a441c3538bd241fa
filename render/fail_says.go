package render

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// failInShort tells a case in a few words.
func failInShort(f *solve.Failures, c *solve.Failure) string {
	var said []string
	switch c.Severity {
	case solve.NotKnown:
		return "can't be told"
	case solve.Dangerous:
		var jammed, over, beyond, back []string
		for i := range c.Controls {
			if k := &c.Controls[i]; k.Locked != nil && *k.Locked {
				jammed = append(jammed, figure.Clean(k.Control.Name))
			}
		}
		for _, k := range c.OnCenter {
			names := &over
			if k.Beyond {
				names = &beyond
			}
			if name := figure.Clean(k.Control.Name); !slices.Contains(*names, name) {
				*names = append(*names, name)
			}
		}
		for i := range c.Reaches {
			if r := &c.Reaches[i]; r.Own && r.Reversed {
				back = append(back, figure.Clean(r.Name))
			}
		}
		if len(jammed) > 0 {
			said = append(said, "jams "+figure.List(jammed))
		}
		if len(back) > 0 {
			said = append(said, "reverses "+figure.List(back))
		}
		if len(over) > 0 {
			said = append(said, figure.List(over)+" can go over center")
		}
		if len(beyond) > 0 {
			said = append(said, figure.List(beyond)+" can go over center beyond what is explored, nothing in the way")
		}
	case solve.Lost:
		said = append(said, "loses "+figure.List(cleanAll(c.Lost)))
	case solve.Reduced:
		for i := range c.Reaches {
			if r := &c.Reaches[i]; r.Own && r.Share < 1 {
				said = append(said, fmt.Sprintf("%s reaches %s", figure.Clean(r.Name), shareReached(r.Share)))
			}
		}
		for i := range c.OneWay {
			said = append(said, fmt.Sprintf("%s pulls one way", figure.Clean(c.OneWay[i].Cable.Name)))
		}
	default:
		said = append(said, "nothing lost")
		if len(c.Carried) > 0 {
			said = append(said, "the second path carries it")
		} else if len(c.Undoubled) > 0 {
			said = append(said, "no doubling left")
		}
		if parts := looseNames(c); len(parts) > 0 && len(c.OneWay) == 0 {
			said = append(said, figure.List(parts)+" loose")
		}
	}
	return strings.Join(said, "; ")
}

// FailSays puts a case in sentences.
func FailSays(f *solve.Failures, c *solve.Failure) string {
	t := failTelling{f, c}
	return figure.Joined(" ", t.trouble(), t.locks(), t.onCenter(), t.oneWay(), t.loose(), t.lost(), t.follows(), t.travels(), t.carried(), t.shares())
}

// failTelling is a case being told.
type failTelling struct {
	f *solve.Failures
	c *solve.Failure
}

func (t failTelling) trouble() string {
	switch {
	case t.c.Trouble == nil && t.c.OverCenter == nil:
		return "Can't be told: it couldn't be followed beyond what the file explores, where nothing stops it any more."
	case t.c.Trouble == nil:
		return ""
	}
	return "Can't be told: " + figure.Clean(strings.TrimSuffix(troubleSays(t.c.Trouble), ".")) + "."
}

// troubleSays tells in a clause why what is left can't be told.
func troubleSays(t *solve.Trouble) string {
	switch t.Kind {
	case solve.NotFollowed:
		return fmt.Sprintf("%s couldn't be followed as far as it is explored", t.Control.Name)
	case solve.SeveralAlone:
		return "more than one pair is left with a cable alone"
	case solve.HangsLoose:
		return fmt.Sprintf("what the cable %s holds hangs loose otherwise", t.Cable.Name)
	case solve.Reverses:
		return fmt.Sprintf("%s reverses within the travel of %s, so what a cable alone does with it can't be told", t.Part.Name, t.Control.Name)
	case solve.HangsOnCable:
		return fmt.Sprintf("%s itself hangs on the cable", t.Control.Name)
	}
	if t.Err == nil {
		return "as it is left, it doesn't close"
	}
	// The first of the faults, without what would be right: nothing is to be changed in
	// the file.
	reason := t.Err.Error()
	if faults := (*linkage.Faults)(nil); errors.As(t.Err, &faults) && len(faults.List) > 0 {
		reason, _, _ = strings.Cut(faults.List[0].Says, "; ")
		reason, _, _ = strings.Cut(reason, ": ")
	}
	return "as it is left, " + reason
}

// hardly is the turn, degrees, or the way, mm, below which what seized may as
// well be let by through the play and flex of a run: what a worn bush leaves.
const hardly = 0.5

// locks tells which controls can't be moved any more, and whom that takes.
func (t failTelling) locks() string {
	c := t.c
	var said []string
	locking := 0
	for i := range c.Controls {
		if k := &c.Controls[i]; k.Locked == nil || *k.Locked {
			locking++
		}
	}
	for i := range c.Controls {
		k := &c.Controls[i]
		name := figure.Clean(k.Control.Name)
		by := ""
		if locking > 1 {
			by = " (moved alone)"
		}
		switch {
		case k.Locked == nil:
			said = append(said, fmt.Sprintf("Whether %s%s is locked can't be told: it would hardly have to move it.", name, by))
		case !*k.Locked:
		case c.How == solve.Parted:
			said = append(said, fmt.Sprintf("%s can't be moved: it is stopped at once both ways.", name))
		default:
			words := fmt.Sprintf("Locks %s%s: %s.", name, by, t.would(k))
			if k.Would < t.littleOf(k.WouldUnit) {
				words += " That is so little that play and flex, which are not reckoned with, may let it by."
			}
			if hands := t.f.Hands[i]; len(hands) > 1 {
				words += " " + takenSays(hands, c.Takes)
			}
			said = append(said, words)
		}
	}
	if c.How == solve.Seized && locking == 0 {
		said = append(said, "No control has to move it, so nothing changes.")
	}
	if c.How == solve.Seized && locking > 0 && slices.ContainsFunc(t.f.Run.Cables, pullsOnly) && !isControls(t.f.Run, c.Element.Part) {
		said = append(said, "(Where cables lie between, the control, and what goes with it on its side of them, still gives as far as they stretch or hang slack.)")
	}
	if c.TakesAll != nil && *c.TakesAll && len(c.Controls) > 1 {
		said = append(said, "One jam takes every control.")
	}
	return strings.Join(said, " ")
}

// pullsOnly reports whether a cable gives way to a control: one that pushes too is
// as rigid as a rod.
func pullsOnly(c *linkage.Cable) bool { return !c.Pushes }

// takenSays tells whether one jam takes all the parts that hands and feet move
// with one control.
func takenSays(hands, taken []*linkage.Part) string {
	var names []string
	for _, p := range hands {
		if slices.Contains(taken, p) {
			names = append(names, figure.Clean(p.Name))
		}
	}
	switch {
	case len(names) < len(hands):
		return fmt.Sprintf("One jam takes %s, and not the others.", figure.List(names))
	case len(names) == 2:
		return fmt.Sprintf("One jam takes both: %s.", figure.List(names))
	}
	return fmt.Sprintf("One jam takes all: %s.", figure.List(names))
}

// isControls reports whether a part is one that a control moves by hand.
func isControls(run *linkage.Run, p *linkage.Part) bool {
	return slices.ContainsFunc(run.Controls, func(c *linkage.Control) bool { return c.Of == p })
}

// littleOf is hardly in a unit.
func (t failTelling) littleOf(unit linkage.Unit) float64 {
	if unit == linkage.Inches {
		return hardly / 25.4
	}
	return hardly
}

// would tells how far what seized would have had to go.
func (t failTelling) would(k *solve.ControlLeft) string {
	e, far := t.c.Element, figure.Quantity(k.Would, k.WouldUnit)
	if k.Would < t.littleOf(k.WouldUnit) {
		far = figure.WithUnit(figure.Decimal(k.Would, figure.UsualDecimals(k.WouldUnit)+2), k.WouldUnit)
	}
	if e.Rod != nil {
		end := e.Rod.From
		if e.End == "to" {
			end = e.Rod.To
		}
		return fmt.Sprintf("the rod would have to turn by up to %s against %s", far, figure.Clean(end.Owner()))
	}
	if e.Cable != nil {
		return fmt.Sprintf("its core would have to go by up to %s through its conduit", far)
	}
	way := "turn"
	if k.WouldUnit != "deg" {
		way = "move"
	}
	return fmt.Sprintf("it would have to %s by up to %s", way, far)
}

// onCenter tells where the travel now goes over center.
func (t failTelling) onCenter() string {
	var said []string
	for _, k := range t.c.OnCenter {
		does := "locks up there (toggle)"
		switch k.Kind {
		case solve.ChangePoint:
			does = "may go on the wrong way there (change point)"
		case solve.DeadCenter:
			does = "halts and reverses there (dead center)"
			if k.Output != nil {
				does = "turns back by itself there (dead center)"
			}
		}
		with := ""
		for _, h := range k.Held {
			with += fmt.Sprintf(", with %s at %s", figure.Clean(h.Control.Name), heldPosition(t.f.Run, h))
		}
		words := fmt.Sprintf("%s can now run on center at %s%s: %s %s.", figure.Clean(k.Control.Name), controlAt(t.f.Run, k.Control, k.At), with, figure.Clean(k.Name()), does)
		if k.Beyond {
			words += " That is beyond what the file explores; nothing in the file is in the way to it."
		}
		said = append(said, words)
	}
	return strings.Join(said, " ")
}

// loose tells what hangs loose, and through what range.
func (t failTelling) loose() string {
	if len(t.c.Loose) == 0 {
		return ""
	}
	var said []string
	for i := range t.c.Loose {
		said = append(said, t.looseRange(&t.c.Loose[i]))
	}
	return "Left loose, the controls at neutral: " + strings.Join(said, "; ") + "."
}

func (t failTelling) looseRange(l *solve.LoosePart) string {
	name := figure.Clean(l.Part.Name)
	switch l.Why {
	case solve.Unbolted:
		return name + ", which has lost its bolt"
	case solve.Rides:
		return name + ", which is carried along"
	case solve.Afloat:
		return name + ", any way that its rods let it"
	case solve.Several:
		return name + ", how far hangs on how others that are loose stand"
	case solve.TooMany:
		return name + ", how far was not worked out, for so many are loose together"
	case solve.Unclear:
		return name + ", how far can't be told"
	}
	side := func(v *float64, i int) string {
		by := "what joins it lets it no further"
		if stop := l.Ends[i].Stop; stop != nil {
			by = "stop " + figure.Quoted(stop.Name)
		}
		if l.Taut[i] != nil {
			by = "cable " + figure.Clean(l.Taut[i].Name) + " comes taut"
		}
		return fmt.Sprintf("%s (%s)", figure.Quantity(*v, l.Unit), by)
	}
	if l.Spring != "" {
		name = fmt.Sprintf("%s, which its spring draws to its %s side,", name, l.Spring)
	}
	endless := "right round"
	if l.Unit != linkage.Degrees {
		endless = "without end"
	}
	switch {
	case l.Low != nil && l.High != nil:
		return fmt.Sprintf("%s from %s to %s", name, side(l.Low, 0), side(l.High, 1))
	case l.Low != nil:
		return fmt.Sprintf("%s down to %s, the other way %s", name, side(l.Low, 0), endless)
	case l.High != nil:
		return fmt.Sprintf("%s up to %s, the other way %s", name, side(l.High, 1), endless)
	}
	return name + " " + endless + " both ways"
}

// oneWay tells what authority and stiffness a cable alone leaves, each way.
func (t failTelling) oneWay() string {
	var said []string
	for i := range t.c.OneWay {
		k := &t.c.OneWay[i]
		part, control := figure.Clean(k.Part.Name), figure.Clean(k.Control.Name)
		word, other := k.Control.Plus, k.Control.Minus
		if k.Side == "minus" {
			word, other = other, word
		}
		said = append(said, fmt.Sprintf("Cable %s is left alone: it pulls %s as %s goes %s%s; as that goes %s%s the cable hangs slack, and nothing brings %s along. At neutral it holds %s with %s against being moved off it (%s with both), and with nothing the other way.",
			figure.Clean(k.Cable.Name), part, control, k.Side, figure.Bracketed(word), otherSide(k.Side), figure.Bracketed(other), part, part, stiffness(k.Left, k.Unit), stiffness(k.Filed, k.Unit)))
	}
	return strings.Join(said, " ")
}

func otherSide(side string) string {
	if side == "plus" {
		return "minus"
	}
	return "plus"
}

// stiffness tells a stiffness to what a hand scale could tell apart: "2513 N mm a
// degree".
func stiffness(v float64, unit linkage.Unit) string {
	decimals := 1
	if v >= 100 {
		decimals = 0
	}
	return figure.WithUnit(figure.Decimal(v, decimals), unit)
}

func looseNames(c *solve.Failure) (names []string) {
	for i := range c.Loose {
		names = append(names, figure.Clean(c.Loose[i].Part.Name))
	}
	return names
}

func partNamesOf(parts []*linkage.Part) (names []string) {
	for _, p := range parts {
		names = append(names, figure.Clean(p.Name))
	}
	return names
}

func cleanAll(names []string) (cleaned []string) {
	for _, n := range names {
		cleaned = append(cleaned, figure.Clean(n))
	}
	return cleaned
}

// shareReached is a share for people, never rounded up to all of it.
func shareReached(share float64) string {
	v := float64(100 * share)
	if v < 100 && v > 99.9 {
		v = 99.9
	}
	return figure.Decimal(v, 1) + "%"
}

// LooseRangeSays tells how far a part that nothing holds any more can move.
func LooseRangeSays(f *solve.Failures, c *solve.Failure, l *solve.LoosePart) string {
	return failTelling{f, c}.looseRange(l)
}
