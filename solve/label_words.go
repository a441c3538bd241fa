// Layer: verdict.

package solve

import (
	"math"

	"fullfree/linkage"
)

// labeled is a control or an output with what its labels say, on which no number of the
// drawing bears.
type labeled struct {
	requirement *linkage.Requirement // as which it is judged
	words       []labelWords
}

// labelWords is a label that can be judged.
type labelWords struct {
	which string  // "plus" or "minus"
	side  float64 // 1 for plus, -1 for minus
	along vec     // which way it says
	// place is what it names; nil where what it says it of goes one way all along, as goes
	// says.
	place *linkage.PointRef
	goes  vec
}

// labeled lists every control, then every output, in the file's order.
func (m *Mechanism) labeled() (list []labeled) {
	if m.room != nil && m.room.labeled != nil {
		return m.room.labeled
	}
	add := func(of linkage.Subject, span linkage.Span, words []labelWords) {
		list = append(list, labeled{&linkage.Requirement{Kind: linkage.LabelKind, Name: of.Name(), Span: span, Of: []linkage.Subject{of}}, words})
	}
	for _, c := range m.run.Controls {
		add(linkage.Subject{Control: c}, c.Span, m.controlWords(c))
	}
	for _, o := range m.run.Outputs {
		add(linkage.Subject{Output: o}, o.Span, m.outputWords(o))
	}
	if m.room != nil {
		m.room.labeled = list
	}
	return list
}

func (m *Mechanism) controlWords(c *linkage.Control) (list []labelWords) {
	for _, k := range sides(c.Plus, c.Minus) {
		label, ok := linkage.ReadLabel(k.words, false)
		along, known := m.run.Home(c.In).Direction(label.Direction)
		w := labelWords{which: k.which, side: k.side, along: along}
		switch {
		case !ok || !known:
			continue
		case c.Grip != nil && label.Names(*c.Grip):
			w.place = c.Grip
		case c.Grip == nil && c.Of.Motion == linkage.Slides && c.Of.Carrier == nil && label.Names(linkage.PointRef{Part: c.Of}):
			w.goes = c.Of.Slide.Scale(k.side)
		default:
			continue
		}
		list = append(list, w)
	}
	return list
}

func (m *Mechanism) outputWords(o *linkage.Output) (list []labelWords) {
	for _, k := range sides(o.Plus, o.Minus) {
		label, ok := linkage.ReadLabel(k.words, true)
		along, known := m.run.Home(o.In).Direction(label.Direction)
		w := labelWords{which: k.which, side: k.side, along: along}
		switch {
		case !ok || !known:
			continue
		case o.Tilts != nil:
			// A word along what the tilt is told by says how an edge goes, "front down".
			if math.Abs(along.Dot(o.Part.SquareTo)) > math.Abs(along.Dot(*o.Tilts)) || !label.Names(linkage.PointRef{Part: o.Part}) {
				continue
			}
			w.goes = o.Tilts.Scale(k.side)
		case o.SeenAt != nil && (o.Point == nil || *o.SeenAt != *o.Point):
			if !label.Names(*o.SeenAt) {
				continue
			}
			w.place = o.SeenAt
		case o.Point != nil && label.Names(*o.Point):
			w.goes = o.Along.Scale(k.side)
		case o.Part != nil && o.Part.Motion == linkage.Slides && o.Part.Carrier == nil && label.Names(linkage.PointRef{Part: o.Part}):
			w.goes = o.Part.Slide.Scale(k.side)
		default:
			continue
		}
		list = append(list, w)
	}
	return list
}

// sides are a plus and a minus, with the sign of the way that they are about.
func sides(plus, minus string) [2]struct {
	words, which string
	side         float64
} {
	return [2]struct {
		words, which string
		side         float64
	}{{plus, "plus", 1}, {minus, "minus", -1}}
}
