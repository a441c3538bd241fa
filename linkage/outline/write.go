package outline

import (
	"fmt"
	"strings"

	"fullfree/linkage"
)

// Head begins every text that Write makes, and Foot ends what of it the form writes anew.
const (
	Head = "# A run without a drawing, written by the form \"No drawing\"."
	Foot = "# ---- What stands below this line is yours: the form leaves it as it is. ----"
)

// after says, below Head, what may be done with the text.
const after = `# Fill in "blank" as it is measured, here or in the form. What is to be added by hand
# (requirements, metal that may touch, cables, threads) goes below the line at the end;
# what is changed above it the form can't take up again.
`

// What stands in the file for airframe places: the one that everything is told from is a
// block of its own, since that is exact.
const (
	datumBlock    = "datum"
	airframeBlock = "airframe"
)

// What is required of every run with a control, until the designer's figures stand there
// (common practice, no source).
const (
	overCenterLeast = "15"
	rodAngleLeast   = "40"
	travelWithin    = "1"
)

// Written is a text made of an outline.
type Written struct {
	Text   string // empty where faults stand in the way
	Faults []Fault
	Parts  []string // that stand in it, by name
	// Left tells what is left out of the text, since it isn't placed or told yet.
	Left []string
}

// Write makes the text of a file: the outline and the entries, and below the foot the tail.
// What isn't placed yet is left out, with all that hangs on it.
func Write(o *Outline, entries []Entry, tail string) Written {
	w := &writer{o: o, names: map[string]string{}, placed: map[string]bool{}, parts: map[string]*Part{}, written: map[string]bool{}}
	w.check()
	w.place()
	w.run()
	w.airframe()
	for i := range o.Parts {
		w.part(i)
	}
	for i := range o.Rods {
		w.rod(i)
	}
	w.control()
	w.output()
	w.required()
	for i := range entries {
		w.entry(i, entries[i])
	}
	out := Written{Faults: w.faults, Left: w.left}
	for i := range o.Parts {
		if name := o.Parts[i].Name; w.written[name] {
			out.Parts = append(out.Parts, name)
		}
	}
	if len(w.faults) == 0 {
		out.Text = Head + "\n" + after + "\n" + w.b.String() + "\n" + Foot + "\n" + tail
	}
	return out
}

// writer writes an outline.
type writer struct {
	o       *Outline
	b       strings.Builder
	names   map[string]string // where each name is given first
	placed  map[string]bool   // "part.hole", as the form names it
	parts   map[string]*Part
	written map[string]bool // parts that stand in the text
	faults  []Fault
	left    []string
	datum   int // in Airframe; -1: none
	from    [2]float64
}

func (w *writer) fault(at, format string, args ...any) {
	w.faults = append(w.faults, Fault{at, fmt.Sprintf(format, args...)})
}

func (w *writer) leave(format string, args ...any) {
	w.left = append(w.left, fmt.Sprintf(format, args...))
}

func (w *writer) line(format string, args ...any) { fmt.Fprintf(&w.b, format+"\n", args...) }

// number returns a figure as the file writes it; where it is none that is told, and it is 0.
func (w *writer) number(at, typed string, unit linkage.Unit) string {
	written, _, says := linkage.Entry(typed, unit)
	if says != "" {
		w.fault(at, "%s", says)
		return "0"
	}
	return written
}

// run writes the block of the run.
func (w *writer) run() {
	o := w.o
	if strings.TrimSpace(o.Title) == "" {
		w.fault("title", "give the run a name")
	}
	if o.Units != linkage.Millimeters && o.Units != linkage.Inches {
		w.fault("units", "choose mm or in")
		return
	}
	w.line("run %s {", quoted(o.Title))
	w.line("  units   = %q", o.Units)
	sketch := o.Sketch
	if sketch == "" {
		sketch = Roughly(o.Units)
	}
	w.line("  sketch  = %s # how far places may be out before they are taped, one standard deviation", w.number("sketch", sketch, o.Units))
	if o.Uncertain != "" {
		w.line("  uncertain = %s # the same of what was picked on a photograph, two of them", w.number("uncertain", o.Uncertain, o.Units))
	}
	for _, s := range sights {
		if s.view == o.View {
			w.line("  view    = %q", s.words)
			for _, a := range []axis{s.first, s.other} {
				w.line("  %-7s = [%d, %d]", a.name, a.x, a.y)
			}
			w.line("}")
			return
		}
	}
	w.fault("view", "choose the side from which it is seen")
}

// airframe writes what is fixed.
func (w *writer) airframe() {
	if w.datum < 0 {
		w.fault("airframe", "add the place on the airframe that everything is told from, such as the pivot of the first lever")
		return
	}
	d := &w.o.Airframe[w.datum]
	w.line("\n# Everything is told from here, so this is exact by choice; all else is as measured.")
	w.line("fixed %q {", datumBlock)
	w.line("  exact  = true")
	w.line("  points = { %s = [0, 0%s] }", d.Name, w.height(fmt.Sprintf("airframe.%d", w.datum), d))
	w.line("}")
	var rows []string
	for i := range w.o.Airframe {
		if i == w.datum {
			continue
		}
		rows = append(rows, w.row(fmt.Sprintf("airframe.%d", i), airframeBlock, &w.o.Airframe[i])...)
	}
	if len(rows) > 0 {
		w.line("\nfixed %q {", airframeBlock)
		w.table(rows)
		w.line("}")
	}
}

// table writes places.
func (w *writer) table(rows []string) {
	w.line("  points = {")
	for _, row := range rows {
		w.line("    %s", row)
	}
	w.line("  }")
}

// row returns the row of a place, or none where it isn't placed.
func (w *writer) row(at, owner string, p *Place) []string {
	if !p.Placed() {
		w.leave("%s.%s is not placed yet", owner, p.Name)
		return nil
	}
	x := w.coordinate(at+".x", p.X, w.from[0])
	y := w.coordinate(at+".y", p.Y, w.from[1])
	return []string{fmt.Sprintf("%s = [%s, %s%s]", p.Name, x, y, w.height(at, p))}
}

// height returns a third coordinate, with the comma before it; nothing where it is none.
func (w *writer) height(at string, p *Place) string {
	if p.Z == "" {
		return ""
	}
	return ", " + w.number(at+".z", p.Z, w.o.Units)
}

// coordinate returns a coordinate from the datum: as typed, where the datum is at 0.
func (w *writer) coordinate(at, typed string, from float64) string {
	written, value, says := linkage.Entry(typed, w.o.Units)
	switch {
	case says != "":
		w.fault(at, "%s", says)
		return "0"
	case from == 0:
		return written
	}
	return rounded(value-from, w.o.Units)
}

// part writes a part.
func (w *writer) part(i int) {
	p, at := &w.o.Parts[i], fmt.Sprintf("parts.%d", i)
	var rows []string
	for k := range p.Holes {
		h := &p.Holes[k]
		rows = append(rows, w.row(fmt.Sprintf("%s.holes.%d", at, k), p.Name, h)...)
	}
	if p.carried() && w.known(at+".on", p.On) {
		if w.carries(p, p) {
			w.fault(at+".on", "%s would be carried by itself: choose another place", p.Name)
		} else if !w.placed[p.On] {
			w.leave("%s waits for %s, which is not placed yet", p.Name, p.On)
			return
		}
	}
	if p.Kind != Turns && len(rows) == 0 {
		w.leave("%s has no hole that is placed", p.Name)
		return
	}
	w.line("\npart %q {", p.Name)
	w.written[p.Name] = true
	switch p.Kind {
	case Turns:
		if p.On == "" {
			w.fault(at+".on", "tell what %s turns on", p.Name)
		} else {
			w.line("  pivot  = %s", w.filed(p.On))
		}
	case Slides:
		w.line("  slide  = polar(1, %s)", w.number(at+".angle", nonEmpty(p.Angle, "0"), linkage.Degrees))
		if p.On != "" {
			w.line("  pivot  = %s", w.filed(p.On))
		}
	case Held:
	default:
		w.fault(at+".kind", "tell how %s is held: it turns, slides, or rods alone hold it", p.Name)
	}
	if len(rows) > 0 {
		w.table(rows)
	}
	w.line("}")
}

// rod writes a rod. It has no length: it is as long as it sat when it was taped.
func (w *writer) rod(i int) {
	r, at := &w.o.Rods[i], fmt.Sprintf("rods.%d", i)
	if r.From == "" || r.To == "" {
		w.leave("the rod %s has an end that is not told yet", r.Name)
		return
	}
	knowsFrom, knowsTo := w.known(at+".from", r.From), w.known(at+".to", r.To)
	switch {
	case !knowsFrom || !knowsTo:
		return
	case r.From == r.To:
		w.fault(at+".to", "both ends of %s are at %s: a rod goes from one hole to another", r.Name, r.From)
		return
	case !w.placed[r.From] || !w.placed[r.To]:
		w.leave("the rod %s waits for a hole that is not placed yet", r.Name)
		return
	}
	w.line("\nrod %q { # no length: as it sat when it was taped", r.Name)
	w.line("  from = %s", w.filed(r.From))
	w.line("  to   = %s", w.filed(r.To))
	w.line("}")
}

// known tells of a place that there isn't.
func (w *writer) known(at, place string) bool {
	if _, known := w.placed[place]; known {
		return true
	}
	w.fault(at, "there is no hole or place %s", linkage.Printable(place))
	return false
}

// filed returns a place as the file names it.
func (w *writer) filed(place string) string {
	if w.datum >= 0 && place == airframeBlock+"."+w.o.Airframe[w.datum].Name {
		return datumBlock + "." + w.o.Airframe[w.datum].Name
	}
	return place
}

// entry writes what was taped or gauged.
func (w *writer) entry(i int, e Entry) {
	at := fmt.Sprintf("taped.%d", i)
	if !w.placed[e.From] || !w.placed[e.To] {
		if e.Is != "" {
			w.leave("the measurement %s to %s waits for a place that is left out", e.From, e.To)
		}
		return
	}
	unit := e.Kind.Unit(w.o.Units)
	is := "blank"
	if e.Is != "" {
		is = w.number(at+".is", e.Is, unit)
	}
	w.line("\n%s %q {", e.Kind, e.name())
	w.line("  from   = %s", w.filed(e.From))
	w.line("  to     = %s", w.filed(e.To))
	w.line("  is     = %s", is)
	w.line("  within = %s", w.number(at+".within", nonEmpty(e.Within, UsualWithin(e.Kind, w.o.Units)), unit))
	w.line("}")
}

// name is what an entry is called in the file.
func (e Entry) name() string {
	says := e.From + " to " + e.To
	if e.Kind == linkage.Gauged {
		says += ", level"
	}
	return says
}

func nonEmpty(typed, usual string) string {
	if strings.TrimSpace(typed) == "" {
		return usual
	}
	return typed
}
