package outline

import (
	"fmt"
	"strings"

	"fullfree/linkage"
)

// check looks at names, on which all else hangs, and finds the datum.
func (w *writer) check() {
	o := w.o
	w.datum = -1
	w.names[airframeBlock], w.names[datumBlock] = "airframe", "airframe" // the file's own
	own := map[string]string{}
	for i := range o.Airframe {
		w.named(own, fmt.Sprintf("airframe.%d.name", i), o.Airframe[i].Name)
		if o.Airframe[i].Name == o.Datum {
			w.datum = i
		}
	}
	if w.datum < 0 && len(o.Airframe) > 0 {
		w.datum = 0
	}
	if w.datum >= 0 {
		w.from = w.origin(&o.Airframe[w.datum])
	}
	for i := range o.Parts {
		p := &o.Parts[i]
		w.named(w.names, fmt.Sprintf("parts.%d.name", i), p.Name)
		if w.parts[p.Name] == nil {
			w.parts[p.Name] = p
		}
		holes := map[string]string{}
		for k := range p.Holes {
			w.named(holes, fmt.Sprintf("parts.%d.holes.%d.name", i, k), p.Holes[k].Name)
		}
	}
	for i := range o.Rods {
		w.named(w.names, fmt.Sprintf("rods.%d.name", i), o.Rods[i].Name)
	}
	if o.Control.Of != "" {
		w.named(w.names, "control.name", w.controlName())
		for _, s := range o.Control.stops() {
			if name := w.controlName() + "-" + s.side; s.at != "" && w.names[name] != "" {
				w.fault("control.name", "the name %s is given already, and is that of a stop: give this another name", name)
			}
		}
	}
	if o.Output.Of != "" {
		w.named(w.names, "output.name", w.outputName())
	}
}

// named tells of a name that can't be one, or is given already.
func (w *writer) named(all map[string]string, at, name string) {
	if strings.TrimSpace(name) == "" {
		w.fault(at, "a name is wanted")
		return
	}
	if says := linkage.NameSays(name); says != "" {
		w.fault(at, "%s", says)
		return
	}
	if _, twice := all[name]; twice {
		w.fault(at, "the name %s is given already: each needs its own", name)
		return
	}
	all[name] = at
}

// origin is where the datum is drawn, in the coordinates that the form has.
func (w *writer) origin(d *Place) [2]float64 {
	var at [2]float64
	for i, typed := range []string{d.X, d.Y} {
		if _, v, says := linkage.Entry(typed, w.o.Units); says == "" {
			at[i] = v
		}
	}
	return at
}

// place finds which places stand in the text: those of a part that waits for one that
// isn't placed yet don't, whichever of the two stands first.
func (w *writer) place() {
	for i := range w.o.Airframe {
		p := &w.o.Airframe[i]
		w.placed[airframeBlock+"."+p.Name] = i == w.datum || p.Placed()
	}
	for _, p := range w.o.Parts {
		for k := range p.Holes {
			w.placed[p.Name+"."+p.Holes[k].Name] = p.Holes[k].Placed()
		}
	}
	for waits := true; waits; { // each round more of them do, or it is the last
		waits = false
		for i := range w.o.Parts {
			p := &w.o.Parts[i]
			if placed, known := w.placed[p.On]; !p.carried() || !known || placed {
				continue
			}
			for k := range p.Holes {
				name := p.Name + "." + p.Holes[k].Name
				waits = waits || w.placed[name]
				w.placed[name] = false
			}
		}
	}
}

// carried says that something is told that it turns on, or that carries its guide.
func (p *Part) carried() bool { return p.On != "" && (p.Kind == Turns || p.Kind == Slides) }

// carries says whether what carries a part is another one, or is carried by that.
func (w *writer) carries(other, p *Part) bool {
	for range w.o.Parts {
		name, _, _ := strings.Cut(p.On, ".")
		on := w.partNamed(name)
		switch {
		case !p.carried() || on == nil:
			return false
		case on.Name == other.Name:
			return true
		}
		p = on
	}
	return false // which is in a circle of others, and told there
}

// quoted writes a text as the file does, on one line.
func quoted(text string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`, "${", "$${", "%{", "%%{").Replace(strings.Join(strings.Fields(text), " ")) + `"`
}

// Formed returns a place of a file that Write made as the form names it.
func Formed(place string) string {
	if name, ok := strings.CutPrefix(place, datumBlock+"."); ok {
		return airframeBlock + "." + name
	}
	return place
}
