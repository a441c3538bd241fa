package outline

import (
	"bytes"
	"errors"
	"strings"

	"fullfree/linkage"
)

// Why a text can't be taken up as an outline.
var (
	errForeign = errors.New("it was not written by the form: change its parts in the text; what is blank in it can be filled in here")
	errChanged = errors.New("it was changed by hand above the line that says so, and the form would lose that: change it in the text; what is blank in it can be filled in here")
)

// Read takes a text that Write made apart again: the outline, what was measured, and what
// stands below the foot. The error says in words why it can't be.
func Read(text []byte) (o *Outline, entries []Entry, tail string, err error) {
	words := string(text)
	head, tail, found := strings.Cut(words, "\n"+Foot+"\n")
	if !found || !strings.HasPrefix(words, Head+"\n") {
		return nil, nil, "", errForeign
	}
	run, err := linkage.Read(&linkage.Source{Name: "outline", Text: []byte(head + "\n")})
	if err != nil {
		return nil, nil, "", errChanged
	}
	r := &taker{text: text, run: run, o: &Outline{Title: run.Name, Units: run.Units}}
	o, entries = r.take()
	// What is taken up is all that there is where it makes the same text.
	if again := Write(o, entries, tail); again.Text != words || twice(entries) {
		return nil, nil, "", errChanged
	}
	return o, entries, tail, nil
}

// twice says that a line is measured twice, which the form has no place for.
func twice(entries []Entry) bool {
	seen := map[Entry]bool{}
	for _, e := range entries {
		there, back := Entry{Kind: e.Kind, From: e.From, To: e.To}, Entry{Kind: e.Kind, From: e.To, To: e.From}
		if seen[there] || e.Kind == linkage.Taped && seen[back] {
			return true
		}
		seen[there] = true
	}
	return false
}

// taker takes a run apart.
type taker struct {
	text []byte
	run  *linkage.Run
	o    *Outline
}

func (r *taker) take() (*Outline, []Entry) {
	o := r.o
	o.Sketch, o.Uncertain = r.after(r.run.Span, "sketch"), r.after(r.run.Span, "uncertain")
	if o.Sketch == Roughly(o.Units) {
		o.Sketch = ""
	}
	for _, s := range sights {
		if s.words == r.run.View {
			o.View = s.view
		}
	}
	for _, p := range r.run.Parts {
		r.part(p)
	}
	for _, rod := range r.run.Rods {
		o.Rods = append(o.Rods, Rod{rod.Name, Formed(rod.From.String()), Formed(rod.To.String())})
	}
	r.moved()
	r.required()
	var entries []Entry
	for _, m := range r.run.Measurements {
		entries = append(entries, r.entry(m))
	}
	return o, entries
}

// part takes a part, or what is fixed.
func (r *taker) part(p *linkage.Part) {
	var places []Place
	for i := range p.Points {
		places = append(places, r.place(&p.Points[i]))
	}
	if p.Motion == linkage.Fixed {
		if p.Name == datumBlock && len(places) > 0 {
			places[0].X, places[0].Y = "0", "0"
			r.o.Datum = places[0].Name
		}
		r.o.Airframe = append(r.o.Airframe, places...)
		return
	}
	part := Part{Name: p.Name, Holes: places}
	switch p.Motion {
	case linkage.Turns:
		part.Kind = Turns
	case linkage.Slides:
		part.Kind = Slides
		part.Angle = strings.TrimSuffix(strings.TrimPrefix(r.after(p.Span, "slide"), "polar(1, "), ")")
	default:
		part.Kind = Held
	}
	switch {
	case p.NamedPivot != nil:
		part.On = Formed(p.NamedPivot.String())
	case p.Carrier != nil:
		part.On = Formed(r.after(p.Span, "pivot"))
	}
	r.o.Parts = append(r.o.Parts, part)
}

// place takes a place as it is written.
func (r *taker) place(p *linkage.Point) Place {
	place := Place{Name: p.Name}
	line := r.line(p.Span.Start)
	_, list, _ := strings.Cut(line, "= [")
	if end := strings.LastIndex(list, "]"); end >= 0 {
		list = list[:end]
	}
	for i, typed := range strings.Split(list, ", ") {
		switch i {
		case 0:
			place.X = typed
		case 1:
			place.Y = typed
		case 2:
			place.Z = typed
		}
	}
	return place
}

// line is the text from a place to the end of its line.
func (r *taker) line(from int) string {
	line, _, _ := bytes.Cut(r.text[from:], []byte("\n"))
	return string(line)
}

// after returns what is written behind an attribute's sign in the block that begins at a
// place, without a comment; empty where the block hasn't got it.
func (r *taker) after(at linkage.Span, name string) string {
	block, _, _ := bytes.Cut(r.text[at.Start:], []byte("\n}"))
	for line := range strings.Lines(string(block)) {
		key, value, ok := strings.Cut(line, "=")
		if ok && strings.TrimSpace(key) == name {
			value, _, _ = strings.Cut(value, " #")
			return strings.TrimSpace(value)
		}
	}
	return ""
}

// moved takes the control, its stops and the output.
func (r *taker) moved() {
	for _, c := range r.run.Controls {
		r.o.Control = Control{Of: c.Of.Name, Plus: c.Plus, Minus: c.Minus}
		if c.Name != c.Of.Name+"-control" {
			r.o.Control.Name = c.Name
		}
		r.o.Sense.Place = r.after(c.Span, "grip")
		for _, s := range r.run.Stops {
			switch at := r.after(s.Span, "at"); s.Name {
			case c.Name + "-low":
				r.o.Control.Low = at
			case c.Name + "-high":
				r.o.Control.High = at
			}
		}
	}
	for _, out := range r.run.Outputs {
		if out.Part == nil {
			continue
		}
		r.o.Output = Output{Of: out.Part.Name, Plus: out.Plus, Minus: out.Minus}
		r.o.Sense.Then = r.after(out.Span, "seen-at")
		if out.Name != out.Part.Name+"-output" {
			r.o.Output.Name = out.Name
		}
	}
}

// required takes which way it is to go, and how far.
func (r *taker) required() {
	for _, q := range r.run.Requirements {
		switch q.Kind {
		case linkage.Sense:
			when, then := r.motion(q.Span, "when"), r.motion(q.Span, "then")
			r.o.Sense = Sense{Formed(when[0]), linkage.Direction(when[1]), Formed(then[0]), linkage.Direction(then[1])}
		case linkage.Travel:
			r.o.Output.Low, r.o.Output.High = r.after(q.Span, "low"), r.after(q.Span, "high")
			if r.o.Output.Within = r.after(q.Span, "within"); r.o.Output.Within == travelWithin {
				r.o.Output.Within = ""
			}
		}
	}
}

// motion takes [place, "direction"].
func (r *taker) motion(at linkage.Span, name string) (is [2]string) {
	place, direction, _ := strings.Cut(strings.Trim(r.after(at, name), "[]"), ", ")
	return [2]string{place, strings.Trim(direction, `"`)}
}

// entry takes what was taped or gauged.
func (r *taker) entry(m *linkage.Measurement) Entry {
	e := Entry{Kind: m.Kind, From: Formed(m.From.String()), To: Formed(m.To.String()), Is: r.after(m.Span, "is"), Within: r.after(m.Span, "within")}
	if m.Blank {
		e.Is = ""
	}
	if e.Within == UsualWithin(m.Kind, r.o.Units) {
		e.Within = ""
	}
	return e
}
