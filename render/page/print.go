package page

import (
	"fmt"
	"math"
	"slices"

	"fullfree/render"
	"fullfree/render/internal/paper"
)

// printer lays words, tables and pictures out on pages of paper, from top to bottom.
// All lengths are points. It draws the same scenes as a page of the web shows.
type printer struct {
	size  paper.Place
	pages []*paper.Scene
	feet  []string // at the left foot of each page
	foot  string   // of the pages that are begun
	down  float64
	// left is where what is laid out begins, and wide how wide it may be.
	left, wide float64
	columns    printColumns
	saving     int // what is left out, to save pages
}

// printColumns is what is told of two columns that are being written.
type printColumns struct {
	on, second bool
	top        float64 // of both on this page
	end        float64 // of the first
	limit      float64 // how far down they go
	left       float64 // how much, in one column, is still to be written
}

// What a page of a book is like, in points.
const (
	printAside = 12 * paper.PointsPerMillimeter // margins
	printOver  = 9 * paper.PointsPerMillimeter
	printUnder = 11 * paper.PointsPerMillimeter // with the foot in it
	printTitle = 15.0                           // sizes of type
	printHead  = 11.5
	printPart  = 9.0
	printText  = 8.0
	printTable = 7.5
	printSmall = 7.0
	printLine  = 1.22 // of the size of type
	printGap   = 4.0
	cellPad    = 3.0
	keepBelow  = 46.0 // what a head needs below it on its page
)

var (
	printRule  = paper.Pen{Width: 0.7}
	printThin  = paper.Pen{Width: 0.25}
	printFrame = paper.Pen{Width: 1.2}
)

func newPrinter(size paper.Place) *printer {
	return &printer{size: size, left: printAside, wide: size.X - 2*printAside}
}

// bottom is how far down a page is written on.
func (p *printer) bottom() float64 {
	if p.columns.on {
		return p.columns.limit
	}
	return p.size.Y - printUnder
}

// top is where what is written on a page, or in a column, begins.
func (p *printer) top() float64 {
	if p.columns.on {
		return p.columns.top
	}
	return printOver
}

func (p *printer) page() *paper.Scene { return p.pages[len(p.pages)-1] }

// turn begins a page, or the second column.
func (p *printer) turn() {
	if c := &p.columns; c.on && !c.second {
		c.second, c.end = true, p.down
		c.left -= p.down - c.top
		p.left += p.wide + printAcross
		p.down = c.top
		return
	}
	if c := &p.columns; c.on {
		c.left -= p.down - c.top
		c.second, c.top = false, printOver
		c.limit = math.Min(p.size.Y-printUnder, printOver+c.left/2+columnSpare)
		p.left -= p.wide + printAcross
	}
	p.pages = append(p.pages, &paper.Scene{Width: p.size.X, Height: p.size.Y})
	p.feet = append(p.feet, p.foot)
	p.down = printOver
}

// need turns the page where less than so much is left of it.
func (p *printer) need(high float64) {
	if len(p.pages) == 0 || p.down+high > p.bottom() && p.down > p.top() {
		p.turn()
	}
}

// lines writes lines of text at a place, the first as far below it as type is high.
func (p *printer) lines(at paper.Place, lines []string, size float64, bold bool) {
	for _, line := range lines {
		at.Y += float64(size * printLine)
		p.page().Text(paper.Text{Says: line, At: at, Size: size, Bold: bold})
	}
}

func faceOf(bold bool) paper.Face {
	if bold {
		return paper.SansBold
	}
	return paper.Sans
}

// words writes a paragraph.
func (p *printer) words(says string, size float64, bold bool, indent float64) {
	for _, line := range paper.WrapIn(faceOf(bold), says, p.wide-indent, size) {
		high := float64(size * printLine)
		p.need(high)
		p.lines(paper.At(p.left+indent, p.down), []string{line}, size, bold)
		p.down += high
	}
	p.down += 1.5
}

func (p *printer) say(says string) { p.words(says, printText, false, 0) }

// head writes a head that doesn't stand alone at the foot of a page.
func (p *printer) head(says string, size float64) {
	p.need(float64(size*printLine) + keepBelow)
	if p.down > p.top() {
		p.down += printGap
	}
	p.words(says, size, true, 0)
}

// inColumns writes something in two columns, about as long as each other where they end on
// the page on which they begin.
func (p *printer) inColumns(write func(p *printer)) {
	p.need(keepBelow)
	measured := newPrinter(paper.At(p.size.X, unendingPage))
	measured.wide = p.half()
	measured.turn()
	write(measured)
	whole := measured.down - printOver
	p.columns = printColumns{on: true, top: p.down, left: whole, limit: math.Min(p.bottom(), p.down+whole/2+columnSpare)}
	p.wide = p.half()
	write(p)
	end := p.down
	if p.columns.second {
		end = math.Max(end, p.columns.end)
	}
	p.columns = printColumns{}
	p.left, p.wide, p.down = printAside, p.size.X-2*printAside, end
}

// columnSpare is how much longer columns may be than half of what they hold: what is kept
// together goes over whole.
const columnSpare = 26.0

// unendingPage is higher than anything that is measured on it, points.
const unendingPage = 1e7

// told writes what a report tells.
func (p *printer) told(list []render.Passage) {
	const step = 8.0 // for each step in
	for _, passage := range list {
		if len(passage.Head) > 0 {
			p.table(passage)
			continue
		}
		p.words(passage.Words, printText, false, float64(step*float64(max(0, passage.Deep-1))))
	}
}

// table writes a table, its head again on every page.
func (p *printer) table(t render.Passage) {
	widths := p.widths(append([][]string{t.Head}, t.Rows...))
	row := func(cells []string, bold bool, pen paper.Pen) {
		high, wrapped := p.wrapped(cells, widths, bold)
		x := p.left
		for i, lines := range wrapped {
			at := paper.At(x+cellPad/2, p.down)
			for _, line := range lines {
				at.Y += printTable * printLine
				text := paper.Text{Says: line, At: at, Size: printTable, Bold: bold}
				if t.Numbers(i) && i > 0 {
					text.At.X, text.Anchor = x+widths[i]-cellPad, paper.AnchorEnd
				}
				p.page().Text(text)
			}
			x += widths[i]
		}
		p.down += high
		p.page().Line(paper.LayerMarks, pen, paper.At(p.left, p.down), paper.At(x, p.down))
	}
	headHigh, _ := p.wrapped(t.Head, widths, true)
	p.need(headHigh + 2*printTable*printLine)
	row(t.Head, true, printRule)
	for _, cells := range t.Rows {
		high, _ := p.wrapped(cells, widths, false)
		if p.down+high > p.bottom() {
			p.turn()
			row(t.Head, true, printRule)
		}
		row(cells, false, printThin)
	}
	p.down += printGap
}

// wrapped breaks the cells of a row into lines, and tells how high they come out.
func (p *printer) wrapped(cells []string, widths []float64, bold bool) (high float64, lines [][]string) {
	most := 1
	for i, cell := range cells {
		wrapped := paper.WrapIn(faceOf(bold), cell, widths[i]-cellPad, printTable)
		most = max(most, len(wrapped))
		lines = append(lines, wrapped)
	}
	return float64(float64(most)*printTable*printLine) + 2.5, lines
}

// widths shares the width among columns: each what it takes where all do, else those that
// take less than their share that, and the others the rest.
func (p *printer) widths(rows [][]string) []float64 {
	natural := make([]float64, len(rows[0]))
	for k, row := range rows {
		for i, cell := range row {
			natural[i] = math.Max(natural[i], paper.WidthIn(faceOf(k == 0), cell, printTable)+2.5*cellPad)
		}
	}
	return shared(natural, p.wide)
}

// shared shares a width among columns that would take so much each.
func shared(natural []float64, wide float64) []float64 {
	widths := slices.Clone(natural)
	open := map[int]bool{}
	for i := range natural {
		open[i] = true
	}
	rest := wide
	for again := true; again && len(open) > 0; {
		again = false
		share := rest / float64(len(open))
		for i := range natural {
			if open[i] && natural[i] <= share {
				rest -= natural[i]
				delete(open, i)
				again = true
			}
		}
	}
	for i := range natural {
		if open[i] {
			widths[i] = rest / float64(len(open))
		}
	}
	return widths
}

// printFigure is a picture with the words over it.
type printFigure struct {
	says  string
	scene *paper.Scene
}

// printAcross is what lies between two things side by side.
const printAcross = 14.0

// half is how wide each of two things side by side may be.
func (p *printer) half() float64 { return (p.wide - printAcross) / 2 }

// captionHigh is how high the words over a picture come out.
func (p *printer) captionHigh(f printFigure) float64 {
	return float64(float64(len(paper.WrapIn(paper.Sans, f.says, p.half(), printTable))) * printTable * printLine)
}

// scaleOf is how large a picture is printed, half as wide as the page, no higher than most.
func (p *printer) scaleOf(f printFigure, most float64) float64 {
	return math.Min(p.half()/f.scene.Width, most/f.scene.Height)
}

// figuresHigh is how high pictures side by side come out.
func (p *printer) figuresHigh(list []printFigure, most float64) float64 {
	high, over := 0.0, 0.0
	for _, f := range list {
		over = math.Max(over, p.captionHigh(f))
		high = math.Max(high, float64(f.scene.Height*p.scaleOf(f, most)))
	}
	return over + high + printGap
}

// put puts a picture with its words over it so far from the left, over being the room for
// the words.
func (p *printer) put(f printFigure, aside, over, most float64) {
	at := paper.At(p.left+aside, p.down)
	p.lines(at, paper.WrapIn(paper.Sans, f.says, p.half(), printTable), printTable, false)
	p.page().Take(f.scene.Scaled(p.scaleOf(f, most)), at.Add(paper.At(0, over)))
}

// pictures puts pictures two by two, each with its words over it, no higher than most.
func (p *printer) pictures(list []printFigure, most float64) {
	for k := 0; k < len(list); k += 2 {
		pair := list[k:min(k+2, len(list))]
		high, over := p.figuresHigh(pair, most), 0.0
		p.need(high)
		for _, f := range pair {
			over = math.Max(over, p.captionHigh(f))
		}
		for i, f := range pair {
			p.put(f, float64(float64(i)*(p.half()+printAcross)), over, most)
		}
		p.down += high
	}
}

// besideTallest is how high a picture beside a table may be, points, where the table is as
// high.
const besideTallest = 600.0

// beside puts a picture at the left and a table at its right, under a head.
func (p *printer) beside(head string, f printFigure, t render.Passage) {
	most := math.Max(p.tallest(), math.Min(besideTallest, float64(float64(len(t.Rows))*printTable*printLine)))
	room := p.bottom() - p.down - 3*printPart*printLine - p.captionHigh(f)
	if room >= p.tallest() { // no page is turned for the sake of a larger one
		most = math.Min(most, room)
	}
	high := p.figuresHigh([]printFigure{f}, most)
	p.need(high + 2*printPart*printLine)
	p.head(head, printPart)
	p.put(f, 0, p.captionHigh(f), most)
	top, pages, half := p.down, len(p.pages), p.half()
	p.left, p.wide = p.left+half+printAcross, half
	p.table(t)
	p.left, p.wide = printAside, p.size.X-2*printAside
	if len(p.pages) == pages {
		p.down = math.Max(p.down, top+high)
	}
}

// listing writes the lines of a listing in columns that go on from page to page.
func (p *printer) listing(lines []string) {
	const size, gap, across = 6.2, 12.0, 2
	const high = 7.0
	wide := (p.wide - gap) / across
	var all []string
	for _, line := range lines {
		all = append(all, cutAt(line, wide, size)...)
	}
	for len(all) > 0 {
		p.need(3 * high)
		room := int((p.bottom() - p.down) / high)
		count := min(room, (len(all)+across-1)/across)
		for column := range across {
			for i := range count {
				if len(all) == 0 {
					break
				}
				at := paper.At(p.left+float64(float64(column)*(wide+gap)), p.down+float64(float64(i+1)*high))
				p.page().Text(paper.Text{Says: all[0], At: at, Size: size, Face: paper.Mono})
				all = all[1:]
			}
		}
		p.down += float64(float64(count) * high)
		if len(all) > 0 {
			p.turn()
		}
	}
}

// cutAt cuts a line of a listing where a column ends.
func cutAt(line string, wide, size float64) []string {
	most := max(1, int(wide/paper.WidthIn(paper.Mono, "0", size)))
	var pieces []string
	for text := []rune(line); ; text = text[most:] {
		if len(text) <= most {
			return append(pieces, string(text))
		}
		pieces = append(pieces, string(text[:most]))
	}
}

// pdf is all pages, with their feet, as a file.
func (p *printer) pdf(title string) *paper.PDF {
	f := paper.NewPDF(title)
	for i, page := range p.pages {
		y := p.size.Y - printUnder/2
		if p.feet[i] != "" {
			page.Text(paper.Text{Says: p.feet[i], At: paper.At(printAside, y), Size: printSmall})
		}
		page.Text(paper.Text{Says: fmt.Sprintf("%d of %d", i+1, len(p.pages)), At: paper.At(p.size.X-printAside, y), Size: printSmall, Anchor: paper.AnchorEnd})
		f.Page(p.size)
		f.Draw(page, paper.Place{}, 1)
	}
	return f
}
