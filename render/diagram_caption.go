package render

import (
	"math"

	"fullfree/linkage"
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

// The FWD and UP arrows, in sheet units.
const (
	arrowLong = 20.0 // without the head
	arrowSeen = 0.3  // least share of a direction that must lie in the view
)

// directions returns the FWD and UP arrows of a view, where the file tells
// them, about the sheet's zero.
func (d *diagram) directions(v *view) (label, bool) {
	var l label
	low, high := place{}, place{}
	reach := func(p place) {
		low, high = place{math.Min(low.x, p.x), math.Min(low.y, p.y)}, place{math.Max(high.x, p.x), math.Max(high.y, p.y)}
	}
	for _, a := range []struct {
		says string
		way  *linkage.Vec
	}{{"FWD", d.run.Forward}, {"UP", d.run.Up}} {
		if a.way == nil || v.way(*a.way).norm() < arrowSeen {
			continue // it points at the viewer, or away
		}
		way := v.way(*a.way).unit()
		neck, tip := place{}.along(way, arrowLong), place{}.along(way, arrowLong+headLong)
		t := text{says: a.says, size: smallSize, bold: true}
		t = centered(t, beside(t, tip, way, 2))
		l.shapes = append(l.shapes, shape{pen: penThick, through: []place{{}, neck}},
			shape{pen: penSolid, through: headAt(tip, way, headLong), closed: true})
		l.texts = append(l.texts, t)
		left, right := textBox(t).bounds()
		reach(left)
		reach(right)
	}
	middle, half := low.add(high).scale(0.5), high.sub(low).scale(0.5)
	l.box = box{middle: middle, way: place{1, 0}, long: half.x, high: half.y}
	return l, len(l.texts) > 0
}

// caption writes the words over a view from y down, with the arrows at their
// right in a place of their own, and returns where it ends.
func (d *diagram) caption(y float64, v *view) float64 {
	room, at, bottom := v.high.x-v.low.x-viewGap, y, y
	if arrows, ok := d.directions(v); ok && v.of == nil {
		corner := place{math.Min(v.high.x-2*viewGap, d.scene.width-sheetMargin) - arrows.box.long, y + arrows.box.high}
		d.scene.put(arrows.moved(corner.sub(arrows.box.middle)))
		room -= 2*arrows.box.long + 3*viewGap
		bottom += 2 * arrows.box.high
	}
	for _, line := range wrap(v.words, room, smallSize, v.of != nil) {
		at += smallSize * lineHeight
		d.scene.write(text{says: line, at: place{v.low.x, at}, size: smallSize, bold: v.of != nil})
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
