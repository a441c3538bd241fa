package picture

import (
	"fmt"
	"math"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/render/internal/paper"
)

// view is one projection of the run with its area of the sheet.
type view struct {
	name        string
	right, up   linkage.Vec // of the drawing, as they lie on the sheet
	toward      linkage.Vec // the viewer
	words       string
	scale       float64     // sheet units for a unit of the run
	zero        paper.Place // of the drawing's zero
	least, most paper.Place // what is drawn, from the drawing's zero, at scale 1
	low, high   paper.Place // its area of the sheet

	// What of a whole view is too small to letter is drawn again, larger.
	details []*view
	of      *view // the whole view that this is a detail of; nil: it is whole
	letter  string
	parts   map[*linkage.Part]bool // those that are lettered in this detail
	paired  bool                   // it leaves room for another beside it
	larger  float64                // this detail, times the whole view
}

// viewsOf returns the views to draw. The two others lie as in first-angle
// drawings (from memory): the plan below, looked at from above.
func viewsOf(run *linkage.Run, name string) ([]*view, error) {
	x, y, z := linkage.Vec{X: 1}, linkage.Vec{Y: 1}, linkage.Vec{Z: 1}
	all := []*view{
		{name: "xy", right: x, up: y, toward: z},
		{name: "xz", right: x, up: z.Scale(-1), toward: y},
		{name: "yz", right: z, up: y, toward: x.Scale(-1)},
	}
	captions(run, all)
	if name == "" {
		if run.Plane {
			return all[:1], nil
		}
		return all, nil
	}
	for _, v := range all {
		if v.name == name {
			return []*view{v}, nil
		}
	}
	return nil, fmt.Errorf("there is no view %q: xy, xz or yz", figure.Clean(name))
}

// on returns where a place of the drawing lies on the sheet.
func (v *view) on(p linkage.Vec) paper.Place {
	return paper.At(v.zero.X+float64(p.Dot(v.right)*v.scale), v.zero.Y-float64(p.Dot(v.up)*v.scale))
}

// way returns a direction of the drawing as it lies on the sheet, shortened
// where it leaves the sheet's plane.
func (v *view) way(d linkage.Vec) paper.Place { return paper.At(d.Dot(v.right), -d.Dot(v.up)) }

// faces tells how squarely a direction points at the viewer, 0 to 1.
func (v *view) faces(d linkage.Vec) float64 { return math.Abs(d.Dot(v.toward)) }

// Room for the views, in sheet units.
const (
	viewPad      = 54.0  // left on each side of what is drawn, for labels
	viewsPad     = 42.0  // the same, of several views
	viewFar      = 200.0 // above and below, of which only what labels use is kept
	viewTallest  = 600.0 // of a single view
	viewsTallest = 820.0 // of several
	viewGap      = 6.0
	// Views one below the other make a long sheet: worth it from so much
	// larger a scale on.
	worthLong    = 1.15
	scaleLargest = 1e9 // sheet units for a unit of the run: no run is so small
)

// rows arranges the views on the sheet, a single view as high as tallest, several as
// ofSeveral.
func (d *diagram) rows(tallest, ofSeveral float64) [][]*view {
	rows := arrange(d.views, d.reach(), d.inner(), tallest, ofSeveral)
	if rows[0][0].scale > 0 && len(rows[0]) == 1 {
		enlarge(rows, d.inner())
	}
	return rows
}

// arrange arranges views at the largest scale that fits, all alike: one below
// the other, or with the third beside the first, as in a drawing of three
// views. All may be so wide, a single view as high as tallest, several as
// ofSeveral.
func arrange(views []*view, reach []sphere, wide, tallest, ofSeveral float64) [][]*view {
	for _, v := range views {
		v.scale = 1
		v.least, v.most = v.extent(reach)
	}
	if len(views) == 1 {
		rows := [][]*view{views}
		scaleRows(wide, tallest, viewPad, rows)
		return rows
	}
	above, below, aside := views[0], views[1], views[2]
	long, short := [][]*view{{above}, {below}, {aside}}, [][]*view{{above, aside}, {below}}
	if scaleRows(wide, ofSeveral, viewsPad, long) >= worthLong*scaleRows(wide, ofSeveral, viewsPad, short) {
		scaleRows(wide, ofSeveral, viewsPad, long)
		return long
	}
	return short
}

// scaleRows gives views in rows the largest scale that fits the width and the
// height given, and returns it.
func scaleRows(width, tallest, pad float64, rows [][]*view) float64 {
	scale, height := scaleLargest, 0.0
	for _, row := range rows {
		wide, high, room := 0.0, 0.0, width
		for _, v := range row {
			wide += v.most.X - v.least.X
			high = math.Max(high, v.most.Y-v.least.Y)
			room -= 2 * pad
		}
		height += high
		if wide > 0 {
			scale = math.Min(scale, room/wide)
		}
	}
	if height > 0 {
		scale = math.Min(scale, (tallest-float64(2*pad*float64(len(rows))))/height)
	}
	for _, row := range rows {
		for _, v := range row {
			v.scale = scale
		}
	}
	return scale
}

// drawRow draws the views of a row from y down, and returns where they end.
// They are drawn where there is room enough for every label, and then moved
// up to where the row begins.
func (d *diagram) drawRow(y float64, row []*view, draw func(*view) *paper.Scene) float64 {
	drawn, down, end := d.layRow(y, row, draw)
	for _, s := range drawn {
		d.scene.Take(s, down)
	}
	return end
}

// layRow draws the views of a row, and returns them with how far they must be
// moved and where they end then. The words over them are on the sheet already.
func (d *diagram) layRow(y float64, row []*view, draw func(*view) *paper.Scene) (drawn []*paper.Scene, down paper.Place, end float64) {
	spare := d.inner()
	for _, v := range row {
		spare -= float64((v.most.X - v.least.X) * v.scale)
	}
	least, most := math.Inf(1), math.Inf(-1)
	left := sheetMargin
	for _, v := range row {
		// Views in a row share their height, those in a column their middle.
		width := float64((v.most.X-v.least.X)*v.scale) + spare/float64(len(row))
		v.zero = paper.At(left+width/2-float64((v.least.X+v.most.X)/2*v.scale), 0)
		if v.of != nil { // details in a row share their middle
			v.zero.Y = -float64((v.least.Y + v.most.Y) / 2 * v.scale)
		}
		v.low = paper.At(left, v.zero.Y+float64(v.least.Y*v.scale)-viewFar)
		v.high = paper.At(left+width, v.zero.Y+float64(v.most.Y*v.scale)+viewFar)
		if first := d.views[0]; v.name == "xz" && v != first && v.of == nil && v.scale == first.scale {
			v.zero.X = first.zero.X
		}
		s := draw(v)
		low, high := s.Extent()
		least, most = math.Min(least, low.Y), math.Max(most, high.Y)
		drawn = append(drawn, s)
		left += width
	}
	words := y
	for _, v := range row {
		words = math.Max(words, d.caption(y, v))
	}
	down = paper.At(0, words+viewGap-least)
	return drawn, down, most + down.Y
}

// extent returns the rectangle that spheres of the drawing fill in the view.
func (v *view) extent(reach []sphere) (low, high paper.Place) {
	low, high = paper.At(math.Inf(1), math.Inf(1)), paper.At(math.Inf(-1), math.Inf(-1))
	for _, s := range reach {
		at, r := v.on(s.at), float64(s.radius*v.scale)
		low = paper.At(math.Min(low.X, at.X-r), math.Min(low.Y, at.Y-r))
		high = paper.At(math.Max(high.X, at.X+r), math.Max(high.Y, at.Y+r))
	}
	if len(reach) == 0 {
		return paper.Place{}, paper.Place{}
	}
	return low, high
}

// sphere is room of the drawing that something takes.
type sphere struct {
	at     linkage.Vec
	radius float64
}

// reach returns everything that is drawn, in all its positions.
func (d *diagram) reach() []sphere {
	all := d.reachOfConduits()
	for _, part := range d.run.Parts {
		all = append(all, d.reachOf(part)...)
	}
	for _, s := range d.shownPoses {
		for _, rod := range d.run.Rods {
			for i := range rod.Points {
				all = append(all, sphere{s.pose.Point(linkage.PointRef{Rod: rod, Point: i}), 0})
			}
		}
	}
	return all
}

// reachOf returns a part in all its positions.
func (d *diagram) reachOf(part *linkage.Part) []sphere {
	var all []sphere
	for _, s := range d.shownPoses {
		for _, drawn := range drawnPlaces(part) {
			all = append(all, sphere{s.pose.Place(part, drawn.at), drawn.radius})
		}
		if rim := d.rimOf(part); rim > 0 {
			all = append(all, sphere{s.pose.Place(part, part.Pivot), rim})
		}
	}
	return all
}

// drawnPlaces returns every place of a part that is drawn, as drawn.
func drawnPlaces(part *linkage.Part) []sphere {
	var all []sphere
	if part.HasPivot() {
		all = append(all, sphere{part.Pivot, 0})
	}
	for _, p := range part.Points {
		all = append(all, sphere{p.At, 0})
	}
	for _, f := range part.Features {
		for _, p := range f.Through {
			all = append(all, sphere{p, f.Radius})
		}
	}
	return all
}
