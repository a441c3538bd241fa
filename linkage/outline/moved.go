package outline

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fullfree/linkage"
)

// partNamed returns a part, or nil.
func (w *writer) partNamed(name string) *Part { return w.parts[name] }

// writes says whether a part stands in the text.
func (w *writer) writes(name string) bool { return w.written[name] }

// travels is the unit of how far a part goes.
func (w *writer) travels(p *Part) linkage.Unit {
	if p.Kind == Slides {
		return w.o.Units
	}
	return linkage.Degrees
}

// control writes what a hand or foot moves, and its stops.
func (w *writer) control() {
	c := &w.o.Control
	switch {
	case c.Of == "":
		w.leave("nothing is told yet of what a hand or foot moves")
		return
	case w.partNamed(c.Of) == nil:
		w.fault("control.of", "there is no part %s", linkage.Printable(c.Of))
		return
	case !w.writes(c.Of):
		return // which is told of
	}
	part := w.partNamed(c.Of)
	unit := w.travels(part)
	w.line("\ncontrol %q {", w.controlName())
	w.line("  of    = %s", c.Of)
	if low, high, ok := w.stopsAt(unit); ok {
		w.explored(low, high)
	} else if part.Kind == Slides {
		w.fault("control.high", "a control that slides needs its stops: how far it goes each way from neutral")
	}
	w.words(c.Plus, c.Minus)
	if w.onPart(w.o.Sense.Place, c.Of) {
		w.line("  grip  = %s", w.o.Sense.Place)
	}
	w.line("}")
	for _, s := range c.stops() {
		if s.at == "" {
			continue
		}
		w.line("\nstop %q {", w.controlName()+"-"+s.side)
		w.line("  of   = %s", c.Of)
		w.line("  at   = %s", w.number("control."+s.side, s.at, unit))
		w.line("  side = %q", s.side)
		w.line("}")
	}
}

// side is where a stop is, as typed.
type side struct{ side, at string }

// stops are both stops; one that isn't told is empty.
func (c *Control) stops() []side { return []side{{"low", c.Low}, {"high", c.High}} }

// controlName and outputName are what they are called in the file.
func (w *writer) controlName() string { return nonEmpty(w.o.Control.Name, w.o.Control.Of+"-control") }
func (w *writer) outputName() string  { return nonEmpty(w.o.Output.Name, w.o.Output.Of+"-output") }

// stopsAt returns where both stops are.
func (w *writer) stopsAt(unit linkage.Unit) (low, high float64, ok bool) {
	c := &w.o.Control
	_, low, lowSays := linkage.Entry(nonEmpty(c.Low, "0"), unit)
	_, high, highSays := linkage.Entry(nonEmpty(c.High, "0"), unit)
	both := c.Low != "" && c.High != ""
	if lowSays != "" || highSays != "" {
		return 0, 0, both // which is told of at the stops
	}
	if low > 0 || high < 0 || both && low >= high {
		w.fault("control.high", "the stops stand on both sides of neutral: the low one at 0 or below, the high one at 0 or above")
	}
	return low, high, both
}

// explored writes how far to look: as far again as the travel beyond each stop, so that what
// would end it next is seen, and no further than a turn can go.
func (w *writer) explored(low, high float64) {
	const most = 180 // degrees; of a slide, nothing is lost by it
	beyond := math.Min(high-low, most)
	w.line("  from  = %s", rounded(low-beyond, linkage.Degrees))
	w.line("  to    = %s", rounded(high+beyond, linkage.Degrees))
}

// words writes words for the two sides.
func (w *writer) words(plus, minus string) {
	if strings.TrimSpace(plus) != "" {
		w.line("  plus  = %s", quoted(plus))
	}
	if strings.TrimSpace(minus) != "" {
		w.line("  minus = %s", quoted(minus))
	}
}

// onPart says whether a placed hole is on a part.
func (w *writer) onPart(place, part string) bool {
	return w.placed[place] && strings.HasPrefix(place, part+".")
}

// output writes what is moved.
func (w *writer) output() {
	o := &w.o.Output
	switch {
	case o.Of == "":
		w.leave("nothing is told yet of what the run is there to move")
		return
	case w.partNamed(o.Of) == nil:
		w.fault("output.of", "there is no part %s", linkage.Printable(o.Of))
		return
	case !w.writes(o.Of):
		return
	}
	w.line("\noutput %q {", w.outputName())
	w.line("  of    = %s", o.Of)
	w.words(o.Plus, o.Minus)
	if w.onPart(w.o.Sense.Then, o.Of) {
		w.line("  seen-at = %s", w.o.Sense.Then)
	}
	w.line("}")
}

// required writes what must hold.
func (w *writer) required() {
	w.sense()
	w.travel()
	if !w.writes(w.o.Control.Of) { // nor is there a control then
		return
	}
	w.line("\n# Common practice, no source: the designer's figures go before these.")
	w.line("require \"over-center\" { least = %s }", overCenterLeast)
	w.line("require \"rod-angle\" { least = %s }", rodAngleLeast)
	w.line("require \"stops\" {}")
}

// sense writes which way it is to go, once all of it is told.
func (w *writer) sense() {
	s := &w.o.Sense
	told := 0
	for _, f := range []struct{ at, place string }{{"sense.place", s.Place}, {"sense.then", s.Then}} {
		switch {
		case f.place == "" || !w.known(f.at, f.place):
		case strings.HasPrefix(f.place, airframeBlock+"."):
			w.fault(f.at, "%s is on the airframe: choose a hole that moves", f.place)
		default:
			told++
		}
	}
	for _, f := range []struct {
		at string
		is linkage.Direction
	}{{"sense.goes", s.Goes}, {"sense.is", s.Is}} {
		switch {
		case f.is == "":
		case !slices.Contains(linkage.Directions, f.is):
			w.fault(f.at, "there is no direction %s", linkage.Printable(string(f.is)))
		default:
			told++
		}
	}
	const all = 4
	if told < all || !w.placed[s.Place] || !w.placed[s.Then] {
		w.leave("which way it is to go is not told yet, so it can't be judged")
		return
	}
	w.line("\nrequire \"sense\" {")
	w.line("  when = [%s, %q]", w.filed(s.Place), s.Goes)
	w.line("  then = [%s, %q]", w.filed(s.Then), s.Is)
	w.line("}")
}

// travel writes how far the output is to go.
func (w *writer) travel() {
	o := &w.o.Output
	if (o.Low == "") != (o.High == "") && o.Of != "" {
		w.leave("how far %s is to go is told to one side only, so it can't be judged", o.Of)
	}
	if o.Low == "" || o.High == "" || w.partNamed(o.Of) == nil || !w.writes(o.Of) {
		return
	}
	unit := w.travels(w.partNamed(o.Of))
	_, low, lowSays := linkage.Entry(o.Low, unit)
	if _, high, highSays := linkage.Entry(o.High, unit); lowSays == "" && highSays == "" && low > high {
		w.fault("output.high", "this is less than the other: exchange the two")
	}
	w.line("\nrequire \"travel\" {")
	w.line("  of     = %s", w.outputName())
	w.line("  low    = %s", w.number("output.low", o.Low, unit))
	w.line("  high   = %s", w.number("output.high", o.High, unit))
	w.line("  within = %s", w.number("output.within", nonEmpty(o.Within, travelWithin), unit))
	w.line("}")
}

// rounded is a number as a sketch is good for, or an angle.
func rounded(v float64, unit linkage.Unit) string {
	decimals := 1
	if unit == linkage.Inches {
		decimals = 2
	}
	text := fmt.Sprintf("%.*f", decimals, v)
	text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	if text == "-0" {
		return "0"
	}
	return text
}
