package render

import (
	"fmt"
	"math"
	"slices"

	"fullfree/linkage"
)

// The page of a print in full size, in millimeters.
const (
	pageMargin = 10.0 // what printers leave blank at most
	sideStrip  = 10.0 // at the left, with the upright rule
	footStrip  = 45.0 // at the foot, with the rule across and what the sheet is
	// About the drawing, for names; and the least of it, to save a page.
	aroundInk, leastAround = 9.0, 2.0
	// What one sheet shows at least: room for what every sheet carries.
	noneWide, noneHigh = 180.0, 105.0
)

// paperSizes are the papers, upright, in millimeters.
var paperSizes = map[string]place{
	PaperA4:     {210, 297},
	PaperLetter: {8.5 * 25.4, 11 * 25.4},
	PaperA3:     {297, 420},
}

// tiling is how pages cover a drawing. Lengths are millimeters, the origin is
// that of the drawing.
type tiling struct {
	paper   place // of a page
	window  place // what of it shows the drawing
	pitch   place // from one page to the next: less than the window by the overlap
	overlap float64
	origin  place // the corner of the first window
	columns int
	rows    int
}

// tile is a page that is printed.
type tile struct{ column, row int }

// roundStep is what the corners of pages are multiples of, and how far pages
// overlap, mm: so that crosses lie at round figures of the run's unit.
func roundStep(u linkage.Units) (step, overlap float64) {
	if u == linkage.Inches {
		return 25.4 / 4, 25.4 / 2
	}
	return 1, 10
}

// gridOver covers a rectangle with pages of a paper.
func gridOver(paper place, u linkage.Units, low, high place) tiling {
	step, overlap := roundStep(u)
	g := tiling{paper: paper, overlap: overlap}
	span := func(paper, strips, low, high float64) (window, pitch, origin float64, count int) {
		pitch = float64(math.Floor((paper-strips-overlap)/step) * step)
		window = pitch + overlap
		// Two steps to spare, of which rounding the origin takes one.
		count = int(math.Max(1, math.Ceil((high-low+2*step-overlap)/pitch)))
		origin = float64(math.Floor(((low+high)/2-(float64(float64(count)*pitch)+overlap)/2)/step) * step)
		return window, pitch, origin, count
	}
	g.window.x, g.pitch.x, g.origin.x, g.columns = span(paper.x, 2*pageMargin+sideStrip, low.x, high.x)
	g.window.y, g.pitch.y, g.origin.y, g.rows = span(paper.y, 2*pageMargin+footStrip, low.y, high.y)
	return g
}

// sheetOver covers a rectangle with one sheet that is as large as it takes.
func sheetOver(u linkage.Units, low, high place) tiling {
	step, _ := roundStep(u)
	span := func(least, low, high float64) (window, origin float64) {
		window = float64(math.Ceil(math.Max(high-low, least)/step+2) * step)
		return window, float64(math.Floor(((low+high)/2-window/2)/step) * step)
	}
	g := tiling{columns: 1, rows: 1}
	g.window.x, g.origin.x = span(noneWide, low.x, high.x)
	g.window.y, g.origin.y = span(noneHigh, low.y, high.y)
	g.paper = g.window.add(place{2*pageMargin + sideStrip, 2*pageMargin + footStrip})
	return g
}

// windowOf returns what of the drawing a page shows, in sheet units.
func (g tiling) windowOf(t tile) window {
	low := g.origin.add(place{float64(float64(t.column) * g.pitch.x), float64(float64(t.row) * g.pitch.y)})
	return window{low.scale(perMillimeter), low.add(g.window).scale(perMillimeter)}
}

// cornerOf returns where the corner of a page's paper lies on the drawing, mm.
func (g tiling) cornerOf(t tile) place {
	return g.windowOf(t).low.scale(1 / perMillimeter).sub(place{pageMargin + sideStrip, pageMargin})
}

// mostCells is how many places of a grid are looked at for whether anything is
// drawn there.
const mostCells = 40 * mostPages

// tile lays the pages over the drawing: the paper the way round that takes the
// fewest, with room for names about the drawing where that takes no more.
func (f *fullSize) tile() error {
	low, high := f.ink.extent()
	low, high = low.scale(1/perMillimeter), high.scale(1/perMillimeter)
	room := func(k float64) (place, place) { return low.sub(place{k, k}), high.add(place{k, k}) }
	if f.paper == PaperNone {
		low, high := room(aroundInk)
		f.tiling = sheetOver(f.run.Units, low, high)
		f.tiles = f.printed(f.tiling)
		return nil
	}
	upright := paperSizes[f.paper]
	least := 0
	for _, around := range []float64{aroundInk, leastAround} {
		low, high := room(around)
		for _, paper := range []place{upright, {upright.y, upright.x}} {
			g := gridOver(paper, f.run.Units, low, high)
			if g.columns*g.rows > mostCells {
				continue
			}
			if tiles := f.printed(g); least == 0 || len(tiles) < least {
				f.tiling, f.tiles, least = g, tiles, len(tiles)
			}
		}
	}
	if least == 0 || least > mostPages {
		pages := "more than " + fmt.Sprint(mostPages)
		if least > 0 {
			pages = fmt.Sprint(least)
		}
		return f.tooMany(high.sub(low), pages)
	}
	return nil
}

// printed returns the pages that are printed, those on which something is drawn, row by row.
func (f *fullSize) printed(g tiling) []tile {
	var tiles []tile
	for row := range g.rows {
		for column := range g.columns {
			if t := (tile{column, row}); f.shows(g.windowOf(t)) {
				tiles = append(tiles, t)
			}
		}
	}
	return tiles
}

// shows reports whether anything lies in a window that isn't left to another
// page.
func (f *fullSize) shows(w window) bool {
	for _, shapes := range f.ink.shapes {
		for _, sh := range shapes {
			if sh.crosses(w) {
				return true
			}
		}
	}
	return slices.ContainsFunc(f.ink.texts, func(t text) bool { return textBox(t).within(w) && !f.whole(t) })
}

// windows are what the pages show of the drawing.
func (f *fullSize) windows() []window {
	var list []window
	for _, t := range f.tiles {
		list = append(list, f.tiling.windowOf(t))
	}
	return list
}

// whole reports whether a text lies whole on some page.
func (f *fullSize) whole(t text) bool { return slices.ContainsFunc(f.windows(), textBox(t).inside) }

// left reports whether a page leaves a text, which it would cut, to another.
func (f *fullSize) left(t text, w window) bool { return !textBox(t).inside(w) && f.whole(t) }

// crosses reports whether a line of a shape lies in a window.
func (sh shape) crosses(w window) bool {
	half := sh.pen.width / 2
	w = w.grown(half)
	if sh.radius > 0 {
		at := sh.through[0]
		nearest := place{math.Max(w.low.x, math.Min(at.x, w.high.x)), math.Max(w.low.y, math.Min(at.y, w.high.y))}
		farthest := place{math.Max(math.Abs(w.low.x-at.x), math.Abs(w.high.x-at.x)), math.Max(math.Abs(w.low.y-at.y), math.Abs(w.high.y-at.y))}
		return nearest.distance(at) <= sh.radius && farthest.norm() >= sh.radius
	}
	through := sh.line()
	for i := 1; i < len(through); i++ {
		if _, _, ok := w.cut(through[i-1], through[i]); ok {
			return true
		}
	}
	return false
}

// within reports whether some of a box may lie in a window.
func (b box) within(w window) bool {
	low, high := b.bounds()
	return w.meets(window{low, high})
}

// inside reports whether all of a box lies in a window.
func (b box) inside(w window) bool {
	low, high := b.bounds()
	return w.holds(low) && w.holds(high)
}
