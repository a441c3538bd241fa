package render

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/solve"
)

// EffectReport writes which rod end to turn, and which way: for everything that
// moves, what a turn out of each end does to it, what does most first. File is
// the name of the file as the user gave it. The error is the writer's.
func EffectReport(w io.Writer, file string, r *solve.Result, effects []solve.Effect) error {
	p := &page{}
	p.text("", "  ", clean(r.Run.Name))
	reportThreadFaults(p, r.Run)
	p.text("", "  ", "WHICH ROD END, AND WHICH WAY: what a turn out of each does, every control left where it stands. A turn in does the opposite.")
	p.blank()
	for i, s := range r.Sweeps {
		reportEffects(p, r, s, effectsOf(effects, s), i == 0)
	}
	p.line("WHAT THIS ANSWER IS")
	say := func(words string) { p.text("  ", "    ", words) }
	say("Covered: " + covered(r) + ", as drawn in " + file + "; at neutral and at the ends of the travel as filed, where stops that the turn moves would bite elsewhere.")
	if note := SurveyNote(r.Survey); note != "" {
		say(note)
	}
	say("Assumed: " + assumed(r) + ", no play. By derivative: of several turns at once \"fullfree compare\" tells exactly, with what becomes of the requirements.")
	for _, words := range barrelSays(r.Run) {
		say(words)
	}
	say(witnessCheck)
	say(caution)
	_, err := io.WriteString(w, p.String())
	return err
}

// effectsOf is the effects in one sweep, of a barrel once: its ends turn as one.
func effectsOf(effects []solve.Effect, s *solve.Sweep) []solve.Effect {
	var found []solve.Effect
	for _, e := range effects {
		if e.Sweep == s.Index && !(e.End.Rod.Barrel() && e.End != e.End.Rod.Ends[0]) {
			found = append(found, e)
		}
	}
	return found
}

// reportEffects tells the effects in one sweep, under what each is on, and what
// answers a complaint.
func reportEffects(p *page, r *solve.Result, s *solve.Sweep, effects []solve.Effect, answers bool) {
	if len(effects) == 0 {
		return
	}
	head := "With " + s.Control.Name + " held where it stands"
	if len(s.Held) > 0 {
		head += ", and " + heldAt(r.Run, s)
	}
	p.text("", "  ", head+":")
	t := table{head: []string{"to move", "", "turn out", "neutral", "low end", "high end", "a step"}}
	var still, said []string
	for k, of := range effects[0].PerTurn {
		if k < len(s.Parts) && s.Parts[k].Part == s.Control.Of {
			continue // the control stands where it is held
		}
		order := slices.Clone(effects)
		slices.SortStableFunc(order, func(a, b solve.Effect) int {
			return cmp.Compare(size(b.PerTurn[k]), size(a.PerTurn[k]))
		})
		label := clean(of.Name)
		moved := false
		for _, e := range order {
			per := e.PerTurn[k]
			if size(per) < leastUsable {
				continue
			}
			t.add(label, of.Unit, e.End.String(), perTurn(per.Neutral, per.Unit), perTurn(per.AtLow, per.Unit), perTurn(per.AtHigh, per.Unit), aStep(e, per))
			label, moved = "", true
		}
		if !moved {
			still = append(still, clean(of.Name))
			continue
		}
		said = append(said, remedy(r, s, order[0], k))
	}
	if len(t.rows) > 0 {
		t.write(p, "  ")
	}
	if len(still) > 0 {
		p.text("  ", "    ", "No rod end moves "+list(still)+".")
	}
	p.text("  ", "  ", "(a step: what the least turn that the end can make does at neutral; -: on center, or any turn can be made)")
	if answers {
		for _, words := range said {
			p.text("  ", "    ", words)
		}
	}
	p.blank()
}

// size is how much a turn does, wherever it does most.
func size(t solve.PerTurn) float64 {
	most := 0.0
	for _, v := range []*float64{t.Neutral, t.AtLow, t.AtHigh} {
		if v != nil {
			most = math.Max(most, math.Abs(*v))
		}
	}
	return most
}

// perTurn is an effect in a table.
func perTurn(v *float64, unit string) string {
	if v == nil {
		return "-"
	}
	return signed(*v, unit)
}

// signed is a number with its sign, a decimal finer than usual.
func signed(v float64, unit string) string {
	text := decimal(v, usualDecimals(unit)+1)
	if v > 0 && rounds(text) {
		return "+" + text
	}
	return text
}

// rounds reports whether a number in decimals is more than nothing.
func rounds(text string) bool {
	for _, c := range text {
		if c >= '1' && c <= '9' {
			return true
		}
	}
	return false
}

// aStep is what the least turn that an end can make does at neutral.
func aStep(e solve.Effect, per solve.PerTurn) string {
	if e.End.Step == 0 || per.Neutral == nil {
		return "-"
	}
	return signed(e.End.Step**per.Neutral, per.Unit)
}

// remedy tells which end answers a complaint about what moves, and what it costs
// elsewhere.
func remedy(r *solve.Result, s *solve.Sweep, best solve.Effect, k int) string {
	per := best.PerTurn[k]
	if per.Neutral == nil || math.Abs(*per.Neutral) < leastUsable {
		return ""
	}
	up, down := "out", "in"
	if *per.Neutral < 0 {
		up, down = down, up
	}
	turns := 1.0
	if best.End.Step > 0 {
		turns = best.End.Step
	}
	by := withUnit(decimal(math.Abs(*per.Neutral*turns), usualDecimals(per.Unit)+1), per.Unit)
	way := ""
	if k < len(s.Parts) {
		way = turnWay(r.Run, s.Parts[k], math.Abs(*per.Neutral*turns))
	}
	said := fmt.Sprintf("To bring %s plus by %s at neutral%s: turn %s %s by %s; %s brings it minus.", clean(per.Name), by, way, best.End, up, turnsWords(turns), down)
	var costs []string
	sign := math.Copysign(turns, *per.Neutral)
	for i, other := range best.PerTurn {
		if i == k || i < len(s.Parts) && s.Parts[i].Part == s.Control.Of || other.Neutral == nil || math.Abs(*other.Neutral) < leastUsable {
			continue
		}
		costs = append(costs, fmt.Sprintf("%s %s", clean(other.Name), withUnit(signed(sign**other.Neutral, other.Unit), other.Unit)))
	}
	if len(costs) == 0 {
		return said + " It moves nothing else there."
	}
	return said + " It costs elsewhere: " + list(costs) + "."
}

// turnWay tells which way the outermost point of a part on the airframe goes as
// it turns plus by some degrees, where the file tells which way the aircraft
// lies; empty where not.
func turnWay(run *linkage.Run, t solve.PartTravel, degrees float64) string {
	part := t.Part
	if part.Motion != linkage.Turns || part.Carrier != nil {
		return ""
	}
	name, moved := "", linkage.Vec{}
	for i := range part.Points {
		goes := part.Axis.Cross(part.Points[i].At.Sub(part.Pivot)).Scale(degrees * math.Pi / 180)
		if name == "" || goes.Norm() > moved.Norm()+float64(noticed*run.Size()) {
			name, moved = part.Name+"."+part.Points[i].Name, goes
		}
	}
	way := wayOf(run, moved)
	if name == "" || way == "" {
		return ""
	}
	return fmt.Sprintf(" (as drawn, %s %s)", name, way)
}
