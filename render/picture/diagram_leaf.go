package picture

import (
	"fmt"

	"fullfree/render/internal/paper"
	"fullfree/solve"
)

// block draws something on a sheet of its own, so wide, and returns it as high as it
// comes out.
func (d *diagram) block(wide float64, draw func(d *diagram, y float64) float64) *paper.Scene {
	sub := *d
	sub.scene = paper.Scene{Width: wide}
	end := draw(&sub, 0)
	sub.scene.Height = end + paper.PenFrame.Width // the half of it that goes beyond, and as much to spare
	return &sub.scene
}

// pageHead heads the pages after the first.
func (d *diagram) pageHead(page int) *paper.Scene {
	return d.block(leafOf(PaperA4).room.X, func(d *diagram, y float64) float64 {
		y = d.paragraph(y, 0, headSize, true, fmt.Sprintf("%s, page %d", d.run.Name, page))
		return y + sectionGap
	})
}

// diagramOnPaper lays the sheet out for paper, and returns what it was drawn by.
func diagramOnPaper(result *solve.Result, sweep *solve.Sweep, opts DiagramOptions, onePage bool) (*diagram, *laid, error) {
	var drawn *diagram
	lay := func(l leaf) (*laid, error) {
		d, pages, err := diagramOnLeaf(result, sweep, opts, l)
		drawn = d
		return pages, err
	}
	if result == nil || result.Run == nil || sweep == nil {
		_, err := emptyDiagram(result, sweep, opts)
		return nil, nil, err
	}
	l, err := onPapers(opts.Paper, result.Run.Units, onePage, lay)
	return drawn, l, err
}

const (
	// viewsLeast is what views must be left of a page, in sheet units, for the whole sheet
	// to go on it: lower, names find no room. Of several views each.
	viewsLeast, viewLeast = 380.0, 160.0
	// layTries is how often views are drawn again, lower, until they fit.
	layTries = 5
	// closer is how much lower than reckoned they are drawn again, sheet units: labels
	// move, and what they take with them.
	closer = 4.0
)

// diagramOnLeaf lays the sheet out on pages of a paper: the views as large as the
// tables leave room for, on one page if that can be.
func diagramOnLeaf(result *solve.Result, sweep *solve.Sweep, opts DiagramOptions, l leaf) (*diagram, *laid, error) {
	d, err := blankSheet(result, sweep, opts)
	if err != nil {
		return nil, nil, err
	}
	head := d.block(l.room.X, (*diagram).heading)
	wide, galley, marks := d.tables(l)
	foot := d.block(l.room.X, (*diagram).titleBlock)
	rest := l.room.Y - head.Height - foot.Height - 4*pieceGap
	for _, s := range wide {
		rest -= s.Height + pieceGap
	}
	least := viewsLeast
	if len(d.views) > 1 {
		least = float64(viewLeast * float64(len(d.views)))
	}
	whole := l.room.Y - head.Height - 2*pieceGap // of a page with no tables
	// What may be left for the views: with tables cut between blocks, with tables cut as
	// short as can be, and with no tables.
	var rooms []float64
	for _, room := range []float64{rest - l.galleyRoom(galley, marks, true), rest - l.galleyRoom(galley, marks, false)} {
		if room >= least {
			rooms = append(rooms, room)
		}
	}
	rooms = append(rooms, whole)
	rest, rooms = rooms[0], rooms[1:]
	for tallest, try := rest, 1; ; try++ {
		rows, high := d.viewPieces(l, tallest)
		again := high > rest
		tallest -= high - rest + closer
		switch {
		case again && tallest >= least && try < layTries:
		case again && len(rooms) > 0:
			rest, rooms, try = rooms[0], rooms[1:], 0
			tallest = rest
		default:
			again = false
		}
		if again {
			if d, err = blankSheet(result, sweep, opts); err != nil {
				return nil, nil, err
			}
			continue
		}
		f := &flow{leaf: l, head: d.pageHead}
		f.put(head)
		for _, row := range rows {
			f.put(row)
		}
		for _, s := range wide {
			f.put(s)
		}
		foot = d.block(l.room.X, (*diagram).titleBlock) // with the scale that came out
		f.putColumns(galley, marks, foot.Height+pieceGap)
		f.putAtFoot(foot)
		return d, &laid{l, f.pages}, nil
	}
}

// blankSheet is a sheet whose views aren't laid out yet.
func blankSheet(result *solve.Result, sweep *solve.Sweep, opts DiagramOptions) (*diagram, error) {
	d, err := emptyDiagram(result, sweep, opts)
	if err != nil {
		return nil, err
	}
	d.flags = flagsOf(sweep)
	d.edgeOn()
	return d, nil
}

// viewPieces draws the views, a row to a piece, with as much in height for what is
// drawn; high is what they take.
func (d *diagram) viewPieces(l leaf, tallest float64) (rows []*paper.Scene, high float64) {
	d.scene = paper.Scene{Width: l.room.X}
	var all [][]*view
	whole := d.rows(tallest, tallest)
	d.findDetails()
	for _, row := range whole {
		all = append(append(all, row), detailRows(row)...)
	}
	for _, row := range all {
		d.scene = paper.Scene{Width: l.room.X}
		d.scene.Height = d.drawRow(viewGap, row, d.drawView)
		s := d.scene
		rows = append(rows, &s)
		high += s.Height + pieceGap
	}
	return rows, high
}

// tables draws what stands below the views: those too wide for a column, and a galley of
// the others with the places where each begins.
func (d *diagram) tables(l leaf) (wide []*paper.Scene, galley *paper.Scene, marks []float64) {
	_, column := l.columns()
	list := []func(*diagram, float64) float64{(*diagram).positionsTable, (*diagram).requiredTable, (*diagram).onCenterTable, (*diagram).partsList}
	const most = 3 // positions side by side in a column
	if len(d.shownPoses) > most {
		wide, list = append(wide, d.block(l.room.X, list[0])), list[1:]
	}
	galley = d.block(column+2*sheetMargin, func(d *diagram, y float64) float64 {
		for _, draw := range list {
			marks = append(marks, y+sectionGap)
			y = draw(d, y)
		}
		return y
	})
	return wide, galley, marks
}
