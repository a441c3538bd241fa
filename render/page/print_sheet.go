package page

import (
	"fmt"
	"math"

	"fullfree/render/internal/paper"
)

// Sizes on a rigging sheet, in points: to be filled in by hand.
const (
	writeHigh = 7 * paper.PointsPerMillimeter  // a line to write on
	blankWide = 20 * paper.PointsPerMillimeter // a cell to write in, at least
	boxSide   = 4 * paper.PointsPerMillimeter  // a box to tick
	boxApart  = 6 * paper.PointsPerMillimeter  // in the step that is not to be overlooked
)

// sheet writes a rigging sheet, which begins on a page of its own.
func (p *printer) sheet(s *sheet, foot string) {
	p.foot = foot
	p.turn()
	p.head("Rigging sheet: "+s.Run, printHead)
	if s.View != "" {
		p.say(s.View)
	}
	for _, note := range s.Notes {
		p.words(note, printTable, false, 0)
	}
	p.fields(s.Head)
	for i := range s.Steps {
		p.step(&s.Steps[i])
	}
	rows := math.Ceil(float64(len(s.Foot)) / 2)
	p.need(float64(rows*writeHigh) + 3*printSmall*printLine)
	p.fields(s.Foot)
	p.words(s.Caution, printSmall, false, 0)
	p.foot = ""
}

// fields writes lines with a name each, two side by side.
func (p *printer) fields(list []sheetField) {
	const gap = 14.0
	wide := (p.wide - gap) / 2
	for k := 0; k < len(list); k += 2 {
		p.need(writeHigh)
		base := p.down + writeHigh - 2
		for i, f := range list[k:min(k+2, len(list))] {
			x := p.left + float64(float64(i)*(wide+gap))
			p.page().Text(paper.Text{Says: f.Name, At: paper.At(x, base), Size: printText})
			from := x + paper.WidthIn(paper.Sans, f.Name, printText) + 5
			if f.Says != "" {
				p.page().Text(paper.Text{Says: f.Says, At: paper.At(from, base), Size: printText})
				continue
			}
			p.page().Line(paper.LayerMarks, printRule, paper.At(from, base), paper.At(x+wide, base))
		}
		p.down += writeHigh
	}
	p.down += 2
}

// step writes one step of the work.
func (p *printer) step(s *sheetStep) {
	size := printPart
	if s.Apart {
		size = printHead
	}
	words := 0.0
	for _, says := range s.Says {
		words += float64(float64(len(paper.WrapIn(paper.Sans, says, p.wide, printTable))) * printTable * printLine)
	}
	p.need(float64(size*printLine) + words + keepBelow)
	p.down += printGap
	number := fmt.Sprint(s.Number)
	high := float64(size*printLine) + 1
	side := paper.WidthIn(paper.SansBold, number, size) + 6
	p.page().Polygon(paper.LayerMarks, printRule, paper.Window{Low: paper.At(p.left, p.down+1.5), High: paper.At(p.left+side, p.down+high+2)}.Corners()...)
	p.page().Text(paper.Text{Says: number, At: paper.At(p.left+3, p.down+high-1), Size: size, Bold: true})
	p.page().Text(paper.Text{Says: s.Title, At: paper.At(p.left+side+5, p.down+high-1), Size: size, Bold: true})
	p.down += high + 3
	for _, says := range s.Says {
		p.words(says, printTable, false, 0)
	}
	p.sheetTable(&s.Table, s.Apart)
	p.blanks(s.Blanks)
	for i := range s.Groups {
		g := &s.Groups[i]
		p.head(g.Head, printText)
		for _, says := range g.Says {
			p.words(says, printTable, false, 0)
		}
		p.sheetTable(&g.Table, s.Apart)
		p.blanks(g.Blanks)
	}
	for _, source := range s.Sources {
		p.words(source, printSmall, false, 0)
	}
	if s.Apart {
		p.page().Line(paper.LayerMarks, printFrame, paper.At(p.left, p.down), paper.At(p.left+p.wide, p.down))
		p.down += 2
	}
}

// blanks writes lines to fill in, after their words.
func (p *printer) blanks(list []string) {
	var fields []sheetField
	for _, blank := range list {
		fields = append(fields, sheetField{Name: blank})
	}
	p.fields(fields)
}

// boxesOf are the boxes of a cell with the words after each, and how wide they are.
func boxesOf(cell sheetCell, side float64) (wide float64) {
	for _, says := range cell.Boxes {
		wide += side + 3
		if says != "" {
			wide += paper.WidthIn(paper.Sans, says, printTable) + 6
		}
	}
	return wide
}

// sheetTable writes a table to fill in.
func (p *printer) sheetTable(t *sheetTable, apart bool) {
	if len(t.Rows) == 0 {
		return
	}
	side := float64(boxSide)
	if apart {
		side = boxApart
	}
	natural := make([]float64, len(t.Head))
	for i, head := range t.Head {
		natural[i] = paper.WidthIn(paper.SansBold, head, printTable) + 3*cellPad
	}
	for _, row := range t.Rows {
		for i, cell := range row {
			take := paper.WidthIn(paper.Sans, cell.Says, printTable) + boxesOf(cell, side) + 3*cellPad
			if cell.Blank {
				take = math.Max(take, blankWide)
			}
			natural[i] = math.Max(natural[i], take)
		}
	}
	widths := shared(natural, p.wide)
	sum := 0.0
	for _, w := range widths {
		sum += w
	}
	for i := range widths { // what is left goes to all alike: room to write
		widths[i] += (p.wide - sum) / float64(len(widths))
	}
	head := func() {
		cells := make([]sheetCell, len(t.Head))
		for i := range cells {
			cells[i].Says = t.Head[i]
		}
		p.sheetRow(cells, widths, side, true)
	}
	p.need(2*writeHigh + printTable*printLine)
	head()
	for _, row := range t.Rows {
		if p.down+p.rowHigh(row, widths, side, false) > p.bottom() {
			p.turn()
			head()
		}
		p.sheetRow(row, widths, side, false)
	}
	p.down += printGap
}

func (p *printer) rowHigh(row []sheetCell, widths []float64, side float64, bold bool) float64 {
	high := float64(writeHigh)
	if bold {
		high = printTable * printLine
	}
	for i, cell := range row {
		lines := len(paper.WrapIn(faceOf(bold), cell.Says, widths[i]-2*cellPad, printTable))
		take := float64(float64(lines) * printTable * printLine)
		if len(cell.Boxes) > 0 {
			take += float64(float64(p.boxRows(cell, widths[i], side)) * (side + 4))
		}
		high = math.Max(high, take+3)
	}
	return high
}

// boxRows is in how many rows the boxes of a cell stand.
func (p *printer) boxRows(cell sheetCell, wide, side float64) int {
	if boxesOf(cell, side) <= wide-2*cellPad {
		return 1
	}
	return len(cell.Boxes)
}

// sheetRow writes a row, each cell in a frame.
func (p *printer) sheetRow(row []sheetCell, widths []float64, side float64, bold bool) {
	high := p.rowHigh(row, widths, side, bold)
	x := p.left
	for i, cell := range row {
		p.page().Polygon(paper.LayerMarks, printThin, paper.Window{Low: paper.At(x, p.down), High: paper.At(x+widths[i], p.down+high)}.Corners()...)
		lines := paper.WrapIn(faceOf(bold), cell.Says, widths[i]-2*cellPad, printTable)
		p.lines(paper.At(x+cellPad, p.down), lines, printTable, bold)
		at := paper.At(x+cellPad, p.down+2+float64(float64(len(lines))*printTable*printLine))
		alone := p.boxRows(cell, widths[i], side) > 1
		for _, says := range cell.Boxes {
			p.page().Polygon(paper.LayerMarks, printRule, paper.Window{Low: at, High: at.Add(paper.At(side, side))}.Corners()...)
			step := side + 3
			if says != "" {
				p.page().Text(paper.Text{Says: says, At: at.Add(paper.At(step, side*0.5+printTable*0.35)), Size: printTable})
				step += paper.WidthIn(paper.Sans, says, printTable) + 6
			}
			if alone {
				at.Y += side + 4
			} else {
				at.X += step
			}
		}
		x += widths[i]
	}
	p.down += high
}
