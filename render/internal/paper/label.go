package paper

// Label is one way of putting a label on the sheet.
type Label struct {
	Box    Box
	Texts  []Text
	Shapes []Shape // its balloon
	Leader []Place // two places, or none
	Bias   float64 // how much worse than others it is by itself
}

// TextLabel returns a label of one line of text.
func TextLabel(t Text, bias float64) Label {
	return Label{Box: TextBox(t), Texts: []Text{t}, Bias: bias}
}

// Moved returns the label elsewhere.
func (l Label) Moved(by Place) Label {
	var other Scene
	at := Scene{Texts: l.Texts}
	at.Add(LayerMarks, l.Shapes...)
	other.Take(&at, by)
	l.Box.Middle = l.Box.Middle.Add(by)
	l.Texts, l.Shapes = other.Texts, other.Shapes[LayerMarks]
	return l
}

// LedTo returns a label with a line to what it is about where that is far.
func (l Label) LedTo(at Place) Label {
	if edge := EdgeOf(l.Box, at); edge.Distance(at) > leaderFrom {
		l.Leader = []Place{at, edge}
	}
	return l
}

// EdgeOf returns where the line from a place to the middle of a box meets it.
func EdgeOf(b Box, from Place) Place {
	total := from.Distance(b.Middle)
	inside := b.Grown(1).Crossing(from, b.Middle)
	return from.Along(from.To(b.Middle), total-inside)
}

// leaderFrom is how far, in sheet units, a text may be from what it is about:
// farther, a line joins them.
const leaderFrom = 7.0
