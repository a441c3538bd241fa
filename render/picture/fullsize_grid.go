package picture

import (
	"fmt"
	"math"
	"slices"

	"fullfree/linkage"
	"fullfree/render/internal/paper"
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
var paperSizes = map[string]paper.Place{
	PaperA4:      paper.At(210, 297),
	PaperLetter:  paper.At(8.5*25.4, 11*25.4),
	PaperA3:      paper.At(297, 420),
	PaperTabloid: paper.At(11*25.4, 17*25.4),
}

// tiling is how pages cover a drawing. Lengths are millimeters, the origin is
// that of the drawing.
type tiling struct {
	paper   paper.Place // of a page
	window  paper.Place // what of it shows the drawing
	pitch   paper.Place // from one page to the next: less than the window by the overlap
	overlap float64
	origin  paper.Place // the corner of the first window
	columns int
	rows    int
}

// tile is a page that is printed.
type tile struct{ column, row int }

// roundStep is what the corners of pages are multiples of, and how far pages
// overlap, mm: so that crosses lie at round figures of the run's unit.
func roundStep(u linkage.Unit) (step, overlap float64) {
	if u == linkage.Inches {
		return 25.4 / 4, 25.4 / 2
	}
	return 1, 10
}

// gridOver covers a rectangle with pages of a paper.
func gridOver(sheet paper.Place, u linkage.Unit, low, high paper.Place) tiling {
	step, overlap := roundStep(u)
	g := tiling{paper: sheet, overlap: overlap}
	span := func(sheet, strips, low, high float64) (window, pitch, origin float64, count int) {
		pitch = float64(math.Floor((sheet-strips-overlap)/step) * step)
		window = pitch + overlap
		// Two steps to spare, of which rounding the origin takes one.
		count = int(math.Max(1, math.Ceil((high-low+2*step-overlap)/pitch)))
		origin = float64(math.Floor(((low+high)/2-(float64(float64(count)*pitch)+overlap)/2)/step) * step)
		return window, pitch, origin, count
	}
	g.window.X, g.pitch.X, g.origin.X, g.columns = span(sheet.X, 2*pageMargin+sideStrip, low.X, high.X)
	g.window.Y, g.pitch.Y, g.origin.Y, g.rows = span(sheet.Y, 2*pageMargin+footStrip, low.Y, high.Y)
	return g
}

// sheetOver covers a rectangle with one sheet that is as large as it takes.
func sheetOver(u linkage.Unit, low, high paper.Place) tiling {
	step, _ := roundStep(u)
	span := func(least, low, high float64) (window, origin float64) {
		window = float64(math.Ceil(math.Max(high-low, least)/step+2) * step)
		return window, float64(math.Floor(((low+high)/2-window/2)/step) * step)
	}
	g := tiling{columns: 1, rows: 1}
	g.window.X, g.origin.X = span(noneWide, low.X, high.X)
	g.window.Y, g.origin.Y = span(noneHigh, low.Y, high.Y)
	g.paper = g.window.Add(paper.At(2*pageMargin+sideStrip, 2*pageMargin+footStrip))
	return g
}

// windowOf returns what of the drawing a page shows, in sheet units.
func (g tiling) windowOf(t tile) paper.Window {
	low := g.origin.Add(paper.At(float64(float64(t.column)*g.pitch.X), float64(float64(t.row)*g.pitch.Y)))
	return paper.Window{Low: low.Scale(perMillimeter), High: low.Add(g.window).Scale(perMillimeter)}
}

// cornerOf returns where the corner of a page's paper lies on the drawing, mm.
func (g tiling) cornerOf(t tile) paper.Place {
	return g.windowOf(t).Low.Scale(1 / perMillimeter).Sub(paper.At(pageMargin+sideStrip, pageMargin))
}

// mostCells is how many places of a grid are looked at for whether anything is
// drawn there.
const mostCells = 40 * mostPages

// tile lays the pages over the drawing: the paper the way round that takes the
// fewest, with room for names about the drawing where that takes no more.
func (f *fullSize) tile() error {
	low, high := f.ink.Extent()
	low, high = low.Scale(1/perMillimeter), high.Scale(1/perMillimeter)
	room := func(k float64) (paper.Place, paper.Place) { return low.Sub(paper.At(k, k)), high.Add(paper.At(k, k)) }
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
		for _, sheet := range []paper.Place{upright, paper.At(upright.Y, upright.X)} {
			g := gridOver(sheet, f.run.Units, low, high)
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
		return f.tooMany(high.Sub(low), pages)
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
func (f *fullSize) shows(w paper.Window) bool {
	for _, shapes := range f.ink.Shapes {
		for _, sh := range shapes {
			if sh.Crosses(w) {
				return true
			}
		}
	}
	return slices.ContainsFunc(f.ink.Texts, func(t paper.Text) bool { return paper.TextBox(t).Within(w) && !f.whole(t) })
}

// windows are what the pages show of the drawing.
func (f *fullSize) windows() []paper.Window {
	var list []paper.Window
	for _, t := range f.tiles {
		list = append(list, f.tiling.windowOf(t))
	}
	return list
}

// whole reports whether a text lies whole on some page.
func (f *fullSize) whole(t paper.Text) bool {
	return slices.ContainsFunc(f.windows(), paper.TextBox(t).Inside)
}

// left reports whether a page leaves a text, which it would cut, to another.
func (f *fullSize) left(t paper.Text, w paper.Window) bool {
	return !paper.TextBox(t).Inside(w) && f.whole(t)
}
