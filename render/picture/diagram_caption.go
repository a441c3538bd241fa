package picture

import (
	"math"

	"fullfree/linkage"
	"fullfree/render/internal/paper"
)

// captions fills in the words over each view.
func captions(run *linkage.Run, views []*view) {
	for _, v := range views {
		from := standpoint(run, v.toward)
		switch {
		case v.name == "xy" && run.View != "":
			v.words = "Seen " + run.View
			continue
		case v.name == "xy" && from != "":
			v.words = "As drawn, from " + from
		case v.name == "xy":
			v.words = "As drawn"
		case from != "":
			v.words = "From " + from
		case v.name == "xz":
			v.words = "From above the drawing"
		default:
			v.words = "From the left of the drawing"
		}
		v.words += map[string]string{"xy": ": x to the right, y up", "xz": ": x to the right, z down", "yz": ": z to the right, y up"}[v.name]
	}
}

// standpoint tells from which side of the aircraft a view is seen, where the
// file tells which way the aircraft lies in the drawing; empty where not.
func standpoint(run *linkage.Run, toward linkage.Vec) string {
	const square = 0.9 // less than half a right angle's sine off square
	along := func(way *linkage.Vec, ahead, behind string) string {
		switch {
		case way == nil:
		case toward.Dot(*way) > square:
			return ahead
		case toward.Dot(*way) < -square:
			return behind
		}
		return ""
	}
	if side := along(run.Forward, "the front", "behind"); side != "" {
		return side
	}
	if side := along(run.Up, "above", "below"); side != "" {
		return side
	}
	if run.Forward == nil || run.Up == nil {
		return ""
	}
	right := run.Forward.Cross(*run.Up)
	return along(&right, "the right", "the left")
}

// The FWD, UP and RIGHT arrows, in sheet units.
const (
	arrowLong = 20.0 // without the head
	arrowSeen = 0.3  // least share of a direction that must lie in the view
)

// directions returns the arrows of the aircraft's directions in a view, where the file tells
// them, about the sheet's zero.
func (d *diagram) directions(v *view) (paper.Label, bool) {
	var l paper.Label
	low, high := paper.Place{}, paper.Place{}
	reach := func(p paper.Place) {
		low, high = paper.At(math.Min(low.X, p.X), math.Min(low.Y, p.Y)), paper.At(math.Max(high.X, p.X), math.Max(high.Y, p.Y))
	}
	seen := func(way *linkage.Vec) bool { return way != nil && v.way(*way).Norm() >= arrowSeen } // else it points at the viewer, or away
	across := d.run.Right
	if seen(d.run.Forward) && seen(d.run.Up) {
		across = nil // two arrows are enough
	}
	for _, a := range []struct {
		says string
		way  *linkage.Vec
	}{{"FWD", d.run.Forward}, {"UP", d.run.Up}, {"RIGHT", across}} {
		if !seen(a.way) {
			continue
		}
		way := v.way(*a.way).Unit()
		neck, tip := paper.Place{}.Along(way, arrowLong), paper.Place{}.Along(way, arrowLong+headLong)
		t := paper.Text{Says: a.says, Size: smallSize, Bold: true}
		t = paper.Centered(t, paper.Beside(t, tip, way, 2))
		l.Shapes = append(l.Shapes, paper.Shape{Pen: paper.PenThick, Through: []paper.Place{{}, neck}},
			paper.Shape{Pen: paper.PenSolid, Through: headAt(tip, way, headLong), Closed: true})
		l.Texts = append(l.Texts, t)
		left, right := paper.TextBox(t).Bounds()
		reach(left)
		reach(right)
	}
	middle, half := low.Add(high).Scale(0.5), high.Sub(low).Scale(0.5)
	l.Box = paper.Box{Middle: middle, Way: paper.At(1, 0), Long: half.X, High: half.Y}
	return l, len(l.Texts) > 0
}

// caption writes the words over a view from y down, with the arrows at their
// right in a place of their own, and returns where it ends.
func (d *diagram) caption(y float64, v *view) float64 {
	room, at, bottom := v.high.X-v.low.X-viewGap, y, y
	if arrows, ok := d.directions(v); ok && v.of == nil {
		corner := paper.At(math.Min(v.high.X-2*viewGap, d.scene.Width-sheetMargin)-arrows.Box.Long, y+arrows.Box.High)
		d.scene.Put(arrows.Moved(corner.Sub(arrows.Box.Middle)))
		room -= 2*arrows.Box.Long + 3*viewGap
		bottom += 2 * arrows.Box.High
	}
	for _, line := range paper.Wrap(v.words, room, smallSize, v.of != nil) {
		at += smallSize * lineHeight
		d.scene.Text(paper.Text{Says: line, At: paper.At(v.low.X, at), Size: smallSize, Bold: v.of != nil})
	}
	return math.Max(bottom, at)
}

// edgeOn says over a view that somebody picked that nothing is seen to turn in
// it, so that arcs and flags aren't missed.
func (d *diagram) edgeOn() {
	if d.opts.View == "" {
		return
	}
	v := d.views[0]
	for _, part := range d.run.Parts {
		if part.Motion != linkage.Fixed && d.viewFor(part) == v {
			return
		}
	}
	v.words += ". Everything turns edge-on to this view: no arcs of travel and no flags show in it"
}
