package render

import (
	"fmt"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// reportRotor tells what the controls do to the pitch of the blades, in the words that a
// rigger uses; full tells it with the collective at its ends too.
func reportRotor(p *page, r *solve.Result, full bool) {
	rotor := r.Rotor
	if rotor == nil {
		return
	}
	p.blank()
	p.text("", "  ", RotorTitle(rotor))
	for i := range rotor.Blades {
		b := &rotor.Blades[i]
		if i > 0 && !full && alikeBlades(&rotor.Blades[0], b) {
			p.text("  ", "    ", figure.Clean(b.Output.Name)+": the same, to a tenth of a degree.")
			continue
		}
		if i > 0 {
			p.blank()
		}
		bladeTable(r.Run, rotor, b, full).write(p, "  ")
		if b.Pitch == 0 {
			p.text("  ", "    ", "As "+figure.Clean(b.Output.Name)+" reads: the file doesn't say which edge leads (leading-edge).")
		}
	}
	p.text("  ", "  ", "(degrees; low, middle, high: where the collective stands. Collective is the mean around the turn, cyclic how far it goes to either side of that; fore-aft is half of what it is more over the nose than over the tail, left-right half of what it is more over the left than over the right)")
	for _, words := range RotorSays(r) {
		p.text("  ", "    ", words)
	}
}

// RotorTitle heads that.
func RotorTitle(rotor *solve.Rotor) string {
	way := "anticlockwise"
	if rotor.Rotor.Clockwise {
		way = "clockwise"
	}
	for _, b := range rotor.Blades {
		if b.Pitch == 0 {
			return fmt.Sprintf("ROTOR, %s seen from above", way)
		}
	}
	return fmt.Sprintf("ROTOR, %s seen from above: pitch plus is leading edge up", way)
}

// RotorSays are the sentences about a rotor: where the sticks take pitch off, what collective
// and cyclic do to each other, how far the blades are apart, and what isn't modeled.
func RotorSays(r *solve.Result) (list []string) {
	rotor := r.Rotor
	if rotor == nil {
		return nil
	}
	b := &rotor.Blades[0]
	for i := range b.Cells {
		if c := &b.Cells[i]; c.Stick >= 0 && c.Collective == rotor.Middle() {
			if words := phaseSays(r.Run, rotor, b, c.Stick, c.End); words != "" {
				list = append(list, strings.ToUpper(words[:1])+words[1:]+".")
			}
		}
	}
	return append(append(list, couplingSays(rotor)...), NotModeled)
}

// alikeBlades reports whether two blades are told the same figures.
func alikeBlades(a, b *solve.BladePitch) bool {
	for i := range a.Cells {
		x, y := &a.Cells[i], &b.Cells[i]
		same := func(v, w float64) bool {
			return figure.Number(v, linkage.Degrees) == figure.Number(w, linkage.Degrees)
		}
		if x.Told != y.Told || !same(x.Mean, y.Mean) || !same(x.Amplitude, y.Amplitude) || !same(x.At[2]-x.At[0], y.At[2]-y.At[0]) || !same(x.At[3]-x.At[1], y.At[3]-y.At[1]) {
			return false
		}
	}
	return true
}

// bladeTable tells the pitch of a blade at every setting; at the ends of the collective with
// the sticks at neutral alone where it isn't told in full.
func bladeTable(run *linkage.Run, rotor *solve.Rotor, b *solve.BladePitch, full bool) *table {
	t := &table{head: []string{figure.Clean(b.Output.Name), "collective", "cyclic", "fore-aft", "left-right"}}
	for i := range b.Cells {
		c := &b.Cells[i]
		if !full && c.Collective != rotor.Middle() && c.Stick >= 0 {
			continue
		}
		label := CellWords(run, rotor, c)
		if !c.Told {
			t.add(label, "-", "-", "-", "-")
			continue
		}
		number := func(v float64) string { return figure.Number(v, linkage.Degrees) }
		t.add(label, number(c.Mean), number(c.Amplitude), number((c.At[2]-c.At[0])/2), number((c.At[3]-c.At[1])/2))
	}
	return t
}

// CellWords tells where the controls stand, the collective first: "low, stick forward".
func CellWords(run *linkage.Run, rotor *solve.Rotor, c *solve.PitchCell) string {
	stick := "stick neutral"
	if len(rotor.Sticks) == 0 {
		stick = ""
	}
	if c.Stick >= 0 {
		stick = StickWords(run, rotor.Sticks[c.Stick], c.End)
	}
	if rotor.Collective == nil {
		return stick
	}
	return figure.Joined(", ", CollectiveWords(c.Collective), stick)
}
