package render

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// Effects are what turning the ends of a run does.
type Effects struct {
	Rods   []solve.Effect
	Cables []solve.CableEffect
	// Centerings are how each pair of cables is to be set so that what it holds
	// stands as drawn.
	Centerings []*solve.Centering
}

// EffectReport writes which rod end or nut to turn, and which way: for everything
// that moves, what a turn out of each does to it, what does most first. File is
// the name of the file as the user gave it. Full tells both ends of a rod apart where they
// do the same, and what was covered and assumed. The error is the writer's.
func EffectReport(w io.Writer, file string, r *solve.Result, effects Effects, full bool) error {
	if err := r.Whole(); err != nil {
		return err
	}
	p := pageFor(w)
	p.text("", "  ", figure.Clean(r.Run.Name))
	reportThreadFaults(p, r.Run)
	p.text("", "  ", "WHICH "+strings.ToUpper(turnedWords(r.Run, "or"))+", AND WHICH WAY: what a turn out of each does, every control left where it stands. A turn in does the opposite.")
	p.text("", "  ", LeftOutSays(r))
	p.blank()
	sweeps := r.Sweeps
	if r.Run.Aircraft != nil && !full {
		sweeps = nearestNeutral(r)
	}
	for i, s := range sweeps {
		reportEffects(p, r, s, effects.in(s), i == 0, full)
		reportCableEffects(p, r, s, effects.Cables, i == 0)
	}
	reportCenterings(p, r.Run, effects.Centerings)
	if full {
		reportEffectLimits(p, file, r)
	} else {
		p.text("", "  ", SurveyNote(r.Survey))
		p.text("", "  ", "By derivative, as drawn in "+figure.Clean(file)+": of several turns at once \"fullfree compare\" tells exactly. "+CautionInShort)
	}
	return p.writeTo(w)
}

// nearestNeutral are the sweeps of each control with the others nearest to neutral: at their
// other settings a turn does much the same.
func nearestNeutral(r *solve.Result) (list []*solve.Sweep) {
	for _, c := range r.Run.Controls {
		var best *solve.Sweep
		least := math.Inf(1)
		for _, s := range SweepsOf(r, c) {
			off := 0.0
			for _, h := range s.Held {
				off = math.Max(off, math.Abs(h.At))
			}
			if off < least {
				best, least = s, off
			}
		}
		if best != nil {
			list = append(list, best)
		}
	}
	return list
}

// showsInShort reports whether the k-th thing that moves is told of an aircraft in short: an
// output that the control moves.
func showsInShort(s *solve.Sweep, k int) bool {
	k -= len(s.Parts)
	return k >= 0 && k < len(s.Outputs) && figure.Rounded(s.Outputs[k].Most-s.Outputs[k].Least, s.Outputs[k].Unit) != 0
}

// reportEffectLimits tells what the answer rests on and what it leaves out.
func reportEffectLimits(p *page, file string, r *solve.Result) {
	p.line("WHAT THIS ANSWER IS")
	say := func(words string) { p.text("  ", "    ", words) }
	say("Covered: " + covered(r) + ", as drawn in " + file + "; at neutral and at the ends of the travel as filed, where stops that the turn moves would bite elsewhere.")
	say(SurveyNote(r.Survey))
	say("Assumed: " + Assumed(r) + ", no play. By derivative: of several turns at once \"fullfree compare\" tells exactly, with what becomes of the requirements.")
	for _, words := range BarrelSays(r.Run) {
		say(words)
	}
	say(endStepsAssumed(r.Run))
	for _, words := range cablesAssume(r) {
		say(words)
	}
	if len(RodEnds(r.Run)) > 0 {
		say(WitnessCheck)
	}
	say(Caution)
}

// endEffect is what turning one rod end or nut does in one sweep.
type endEffect struct {
	name    string
	step    float64 // turns that it can be set by; 0: any
	perTurn []solve.PerTurn
}

// of is what it does to the k-th thing that moves; nothing where that isn't told
// of it, as the tension of cables isn't of rod ends.
func (e endEffect) of(k int) solve.PerTurn {
	if k < len(e.perTurn) {
		return e.perTurn[k]
	}
	return solve.PerTurn{}
}

// in is the effects in one sweep, of a barrel once: its ends turn as one.
func (e Effects) in(s *solve.Sweep) []endEffect {
	var found []endEffect
	for _, e := range e.Rods {
		if e.Sweep == s.Index && !(e.End.Rod.Barrel() && e.End != e.End.Rod.Ends[0]) {
			found = append(found, endEffect{e.End.String(), e.End.Step, e.PerTurn})
		}
	}
	for _, e := range e.Cables {
		if e.Sweep == s.Index {
			found = append(found, endEffect{e.End.String(), e.End.Step, e.PerTurn})
		}
	}
	return found
}

// reportEffects tells the effects in one sweep, under what each is on, and what
// answers a complaint.
func reportEffects(p *page, r *solve.Result, s *solve.Sweep, effects []endEffect, answers, full bool) {
	if len(effects) == 0 {
		return
	}
	head := "With " + s.Control.Name + " held where it stands"
	if len(s.Settings()) > 0 {
		head += ", and " + HeldAt(r.Run, s)
	}
	p.text("", "  ", head+":")
	const turned = 2 // the column that tells which end is turned
	t := table{head: []string{"to move", "", "turn out", "neutral", "low end", "high end"}, again: []int{turned}}
	stepped := slices.ContainsFunc(effects, func(e endEffect) bool { return e.step > 0 })
	if stepped {
		t.head = append(t.head, "a step")
	}
	var still, said []string
	for k, of := range effects[len(effects)-1].perTurn {
		if k < len(s.Parts) && s.Parts[k].Part == s.Control.Of {
			continue // the control stands where it is held
		}
		if r.Run.Aircraft != nil && !full && !showsInShort(s, k) {
			continue
		}
		order := slices.Clone(effects)
		slices.SortStableFunc(order, func(a, b endEffect) int {
			return cmp.Compare(size(b.of(k)), size(a.of(k)))
		})
		rows := effectRows(order, k, stepped)
		if !full {
			rows = eitherEnd(rows)
		}
		for i, row := range rows {
			label := ""
			if i == 0 {
				label = figure.Clean(of.Name)
			}
			t.add(append([]string{label, string(of.Unit)}, row...)...)
		}
		if len(rows) == 0 {
			still = append(still, figure.Clean(of.Name))
			continue
		}
		if k < len(s.Parts)+len(s.Outputs) {
			said = append(said, remedy(r, s, order[0], k))
		}
	}
	if len(t.rows) > 0 {
		t.write(p, "  ")
	}
	if len(still) > 0 {
		p.text("  ", "    ", "No "+turnedWords(r.Run, "and no")+" moves "+figure.List(still)+".")
	}
	if stepped {
		p.text("  ", "  ", "(a step: what the least turn that the end can make does at neutral; -: on center, or any turn can be made)")
	} else {
		p.text("  ", "  ", "(any part of a turn can be made; -: on center)")
	}
	for _, words := range aroundSays(r, s, effects) {
		p.text("  ", "    ", words)
	}
	if answers {
		for _, words := range said {
			p.text("  ", "    ", words)
		}
	}
	p.blank()
}

// effectRows are the names of ends that move the k-th thing, in the order given, each with
// what a turn does in cells; stepped adds what a step does.
func effectRows(order []endEffect, k int, stepped bool) (rows [][]string) {
	for _, e := range order {
		per := e.of(k)
		if size(per) < figure.LeastUsable {
			continue
		}
		row := []string{e.name, perTurn(per.Neutral, per.Unit), perTurn(per.AtLow, per.Unit), perTurn(per.AtHigh, per.Unit)}
		if stepped {
			row = append(row, aStep(e, per))
		}
		rows = append(rows, row)
	}
	return rows
}

// eitherEnd makes one row of both ends of a rod that do the same.
func eitherEnd(rows [][]string) (list [][]string) {
	for _, row := range rows {
		rod, _, _ := strings.Cut(row[0], ".")
		same := func(other []string) bool {
			of, _, _ := strings.Cut(other[0], ".")
			return of == rod && slices.Equal(other[1:], row[1:])
		}
		if i := slices.IndexFunc(list, same); i >= 0 {
			list[i] = append([]string{rod + ", either end"}, row[1:]...)
			continue
		}
		list = append(list, row)
	}
	return list
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
func perTurn(v *float64, unit linkage.Unit) string {
	if v == nil {
		return "-"
	}
	return signed(*v, unit)
}

// signed is a number with its sign, a decimal finer than usual.
func signed(v float64, unit linkage.Unit) string {
	text := figure.Decimal(v, figure.UsualDecimals(unit)+1)
	if v > 0 && strings.ContainsAny(text, "123456789") {
		return "+" + text
	}
	return text
}

// aStep is what the least turn that an end can make does at neutral.
func aStep(e endEffect, per solve.PerTurn) string {
	if e.step == 0 || per.Neutral == nil {
		return "-"
	}
	return signed(float64(e.step**per.Neutral), per.Unit)
}

// remedy tells which end answers a complaint about what moves, and what it costs
// elsewhere.
func remedy(r *solve.Result, s *solve.Sweep, best endEffect, k int) string {
	per := best.of(k)
	if per.Neutral == nil || math.Abs(*per.Neutral) < figure.LeastUsable {
		return ""
	}
	up, down := "out", "in"
	if *per.Neutral < 0 {
		up, down = down, up
	}
	turns := 1.0
	if best.step > 0 {
		turns = best.step
	}
	by := figure.WithUnit(figure.Decimal(math.Abs(*per.Neutral*turns), figure.UsualDecimals(per.Unit)+1), per.Unit)
	way := ""
	if k < len(s.Parts) {
		way = turnWay(r.Run, s.Parts[k], math.Abs(*per.Neutral*turns))
	}
	said := fmt.Sprintf("To bring %s plus by %s at neutral%s: turn %s %s by %s; %s brings it minus.", figure.Clean(per.Name), by, way, best.name, up, TurnsWords(turns), down)
	var costs []string
	sign := math.Copysign(turns, *per.Neutral)
	for i, other := range best.perTurn {
		if i == k || i < len(s.Parts) && s.Parts[i].Part == s.Control.Of || other.Neutral == nil || math.Abs(*other.Neutral) < figure.LeastUsable {
			continue
		}
		costs = append(costs, fmt.Sprintf("%s %s", figure.Clean(other.Name), figure.WithUnit(signed(float64(sign**other.Neutral), other.Unit), other.Unit)))
	}
	if len(costs) == 0 {
		return said + " It moves nothing else there."
	}
	return said + " It costs elsewhere: " + figure.List(costs) + "."
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
