package render

import (
	"fmt"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// PlayCaution stands beside every figure of free play.
const PlayCaution = "Bare play: nothing bends, and nothing is pressed to one side. A reading taken by pulling has flex in it. Surfaces and tabs have the designer's own limits (flutter); none is offered here."

// playDecimals is to how many decimals play is told: a hundredth of a degree or of a
// millimeter, a thousandth of an inch, which is a tenth of what a new rod end gives.
func playDecimals(unit linkage.Unit) int {
	if unit == linkage.Inches {
		return 3
	}
	return 2
}

// playNumber tells an amount of play.
func playNumber(v float64, unit linkage.Unit) string {
	return figure.WithUnit(figure.Decimal(v, playDecimals(unit)), unit)
}

// playFigure is that so that it doesn't contradict a verdict against a limit.
func playFigure(v, limit float64, unit linkage.Unit) string {
	for d := playDecimals(unit); d < 9; d++ {
		text := figure.Decimal(v, d)
		var shown float64
		if _, err := fmt.Sscan(text, &shown); err == nil && (shown > limit) == (v > limit) {
			return figure.WithUnit(text, unit)
		}
	}
	return playNumber(v, unit)
}

// playHeld tells what is held while something is rocked.
func playHeld(s *solve.Sweep, f *solve.FreePlay) string {
	if f.Of.Control == nil {
		return s.Control.Name + " held"
	}
	if f.HeldBy != nil && len(s.Outputs) == 1 {
		return f.HeldBy.Name + " held"
	}
	return "the outputs held"
}

// PlaySays tells how far a control or an output can be rocked, in one sweep.
func PlaySays(r *solve.Result, s *solve.Sweep, f *solve.FreePlay) string {
	said := fmt.Sprintf("%s, %s: ", figure.Clean(f.Of.Name()), playHeld(s, f))
	if f.AtNeutral == nil && f.Most == nil {
		return said + "can't be told, since the run is on center, or an output halts"
	}
	if f.AtNeutral != nil {
		said += playNumber(*f.AtNeutral, f.Unit) + " at neutral"
	}
	if f.Most == nil {
		return said + "; where most can't be told, since in the travel the run is on center, or an output halts"
	}
	if f.At != nil {
		said += fmt.Sprintf("; most %s, with %s at %s", playNumber(*f.Most, f.Unit), s.Control.Name, ControlPosition(s, *f.At))
	} else {
		said += " and everywhere"
	}
	if len(SweepsOf(r, s.Control)) > 1 {
		said += " and " + HeldAt(r.Run, s)
	}
	if f.AtPoint != nil {
		said += fmt.Sprintf(", %s at %s", playNumber(*f.AtPoint, r.Run.Units), f.Point)
	}
	if f.Least != nil {
		said += fmt.Sprintf("; at the least %s there, since two drawings of one joint don't say how they lie to each other", playNumber(*f.Least, f.Unit))
	}
	if f.RSS != nil && len(f.Joints) > 1 {
		said += fmt.Sprintf("; %s in root sum of squares", playNumber(*f.RSS, f.Unit))
	}
	return said
}

// mostPlayJoints is how many joints are named as those that give most.
const mostPlayJoints = 4

// PlayJoints tells which joints give most of it, the first the most.
func PlayJoints(f *solve.FreePlay) string {
	if len(f.Joints) == 0 {
		return ""
	}
	most := figure.FirstOf(len(f.Joints), mostPlayJoints, func(i int) string {
		return f.Joints[i].String() + " " + playNumber(f.Joints[i].By, f.Unit)
	})
	return "most of it: " + figure.List(most)
}

// freePlayOver is the free play of each control and output where it is most over all
// sweeps, with the sweep; one that can't be told somewhere is told so.
func freePlayOver(r *solve.Result) (list []*solve.FreePlay, in []*solve.Sweep) {
	at := map[linkage.Subject]int{}
	for _, s := range r.Sweeps {
		for i := range s.FreePlay {
			f := &s.FreePlay[i]
			if f.Most != nil && *f.Most == 0 {
				continue // no joint that is said to give has a share in it
			}
			k, known := at[f.Of]
			switch {
			case !known:
				at[f.Of] = len(list)
				list, in = append(list, f), append(in, s)
			case list[k].Most != nil && (f.Most == nil || *f.Most > *list[k].Most):
				list[k], in[k] = f, s
			}
		}
	}
	return list, in
}

// reportFreePlay tells how far everything can be rocked; nothing where no joint gives.
func reportFreePlay(p *page, r *solve.Result) {
	if list, _ := freePlayOver(r); len(list) == 0 {
		return
	}
	p.blank()
	p.line("FREE PLAY, from one end of the rock to the other, all joints together")
	playSection(p, r)
}

// playSection is that without its head.
func playSection(p *page, r *solve.Result) {
	list, in := freePlayOver(r)
	for i, f := range list {
		p.text("  ", "    ", PlaySays(r, in[i], f))
		p.text("    ", "    ", PlayJoints(f))
	}
	if len(list) > 0 {
		p.text("  ", "    ", PlayCaution)
	}
}

// PlayPredicted is what is to be expected as something is rocked, where it is most.
type PlayPredicted struct {
	Of     linkage.Subject
	Rocked string // "tail, pedals held"
	Most   string // "up to 0.24 mm"
}

// PlayPredictions are those of everything that can be rocked; none where no joint gives.
func PlayPredictions(r *solve.Result) (lines []PlayPredicted) {
	list, in := freePlayOver(r)
	for i, f := range list {
		most := "can't be told"
		if f.Most != nil {
			most = "up to " + playNumber(*f.Most, f.Unit)
			if f.AtPoint != nil {
				most += fmt.Sprintf(", %s at %s", playNumber(*f.AtPoint, r.Run.Units), f.Point)
			}
		}
		lines = append(lines, PlayPredicted{f.Of, figure.Clean(f.Of.Name()) + ", " + playHeld(in[i], f), most})
	}
	return lines
}

// freePlay tells a requirement of how far something can be rocked.
func (t telling) freePlay() string {
	of := t.Requirement.Of[0]
	held := "what it moves held"
	if of.Output != nil {
		held = t.sweep.Control.Name + " held"
	}
	if t.Why == solve.PlayUntold {
		if t.Worst == nil {
			return fmt.Sprintf("How far %s can be rocked can't be told: it moves no output, or in the travel the run is on center, where a figure by slopes means nothing.", of.Name())
		}
		return fmt.Sprintf("How far %s can be rocked can't be told everywhere: in a travel the run is on center, where a figure by slopes means nothing.", of.Name())
	}
	if t.Why == solve.PlayOfTwoDrawings {
		return fmt.Sprintf("%s rocks by up to %s, and how much less can't be told, %s; %s allowed. Two drawings show one pivot or slide, and how its play adds up depends on how they lie to each other: write forward, up and right in both.", of.Name(), playFigure(*t.Worst, t.Limit, t.Unit), held, figure.Given(t.Limit, t.Unit))
	}
	switch t.known() {
	case solve.Holds, solve.FallsShort:
		spare := t.Limit - *t.Worst
		said := fmt.Sprintf("%s rocks by up to %s, %s%s. %s allowed", of.Name(), playFigure(*t.Worst, t.Limit, t.Unit), held, t.place(", most "), figure.Given(t.Limit, t.Unit))
		switch {
		case spare > 0:
			said += ", in hand " + playFigure(spare, 0, t.Unit)
		case spare < 0:
			said += ", missed by " + playFigure(-spare, 0, t.Unit)
		}
		for i := range t.sweep.FreePlay {
			if f := &t.sweep.FreePlay[i]; f.Of == of && len(f.Joints) > 0 {
				return said + "; " + PlayJoints(f) + "."
			}
		}
		return said + "."
	}
	return t.undecided()
}
