package picture

import (
	"fmt"
	"strings"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/render/internal/paper"
	"fullfree/solve"
)

// grid is a table on the sheet: columns that begin or end at set places.
type grid struct {
	*diagram
	columns []column
	size    float64
}

// column is one column of a grid, ranged left from its place or right to it.
type column struct {
	at    float64
	right bool
	width float64
}

// row writes a row of cells, each cut to its column, and returns where the
// next row begins.
func (g *grid) row(y float64, bold bool, cells ...string) float64 {
	y += float64(g.size * lineHeight)
	for i, cell := range cells {
		c := g.columns[i]
		t := paper.Text{Says: paper.Shorten(cell, c.width, g.size, bold), At: paper.At(c.at, y), Size: g.size, Bold: bold}
		if c.right {
			t.Anchor = paper.AnchorEnd
		}
		if t.Says != "" {
			g.scene.Text(t)
		}
	}
	return y
}

// rule draws a line across the sheet under a row.
func (d *diagram) rule(y float64, p paper.Pen) float64 {
	const under = 4.5
	y += under
	d.scene.Line(paper.LayerMarks, p, paper.At(sheetMargin, y), paper.At(d.scene.Width-sheetMargin, y))
	return y
}

// paragraph writes words in lines as wide as the sheet, from indent on.
func (d *diagram) paragraph(y, indent, size float64, bold bool, words string) float64 {
	for _, line := range paper.Wrap(words, d.inner()-indent, size, bold) {
		y += float64(size * lineHeight)
		d.scene.Text(paper.Text{Says: line, At: paper.At(sheetMargin+indent, y), Size: size, Bold: bold})
	}
	return y
}

const (
	sectionGap = 14.0 // sheet units before a table
	markWidth  = 30.0 // of the first column: letters, flags, numbers
)

// section writes the head of a table.
func (d *diagram) section(y float64, head string) float64 {
	y = d.rule(y+sectionGap, paper.PenFrame)
	return d.paragraph(y, 0, headSize, true, head)
}

// heading writes what the sheet is about.
func (d *diagram) heading(y float64) float64 {
	y = d.judgedHeading(y, "Sweep diagram: "+d.moving())
	return d.paragraph(y, 0, tableSize, false, strings.Join(render.UnfitSay(d.run, d.result.Unfit), " "))
}

// judgedHeading writes the name of the run, what was changed in it, what the sheet
// shows, and the verdict.
func (d *diagram) judgedHeading(y float64, shows string) float64 {
	y = d.namedHeading(y, shows)
	y = d.paragraph(y, 0, tableSize, true, render.Headline(d.result))
	return d.paragraph(y, 0, tableSize, false, render.Unsure(d.result))
}

// namedHeading is that without the verdict.
func (d *diagram) namedHeading(y float64, shows string) float64 {
	y += titleSize
	d.scene.Text(paper.Text{Says: paper.Shorten(d.run.Name, d.inner(), titleSize, true), At: paper.At(sheetMargin, y), Size: titleSize, Bold: true})
	y = d.paragraph(y, 0, tableSize, true, d.settings())
	return d.paragraph(y, 0, tableSize, false, shows)
}

// moving tells which control is moved and where the others stand.
func (d *diagram) moving() string {
	s := d.sweep
	moved := "stop to stop"
	if s.TurnsRotor() {
		moved = "all the way round"
	}
	says := fmt.Sprintf("%s (%s) moved %s, %s to %s", s.Control.Name, s.Control.Of.Name, moved, figure.Quantity(s.Low, s.Unit), figure.Quantity(s.High, s.Unit))
	if len(s.Settings()) > 0 {
		says += ", " + render.HeldAt(d.run, s)
	}
	return says
}

// positionsTable tells what the letters stand for and how everything stands
// in the positions that they name.
func (d *diagram) positionsTable(y float64) float64 {
	y = d.section(y, "Positions")
	for _, s := range d.shownPoses {
		y = d.lettered(y, s.letter, d.poseSays(s))
	}
	y += 2

	const cellWidth = 76.0
	const room = cellWidth - 6
	g := grid{diagram: d, size: tableSize}
	names := d.inner() - float64(cellWidth*float64(len(d.shownPoses)))
	g.columns = append(g.columns, column{at: sheetMargin, width: names})
	head := []string{"moves from the drawn position"}
	for i, s := range d.shownPoses {
		g.columns = append(g.columns, column{at: sheetMargin + names + float64(cellWidth*float64(i+1)), right: true, width: room})
		head = append(head, s.letter)
	}
	if len(d.shownPoses) > 3 || paper.TextWidth(head[0], tableSize, true) > names {
		head[0] = "moves, as drawn"
	}
	y = d.rule(g.row(y, true, head...), paper.PenRule)
	// Where a figure with its unit is too wide for its cell, the unit stands behind the name.
	cells := func(name string, unit linkage.Unit, shown func(shownPose) float64) {
		whole, bare := []string{name}, []string{name + ", " + string(unit)}
		fits := true
		for _, s := range d.shownPoses {
			says := figure.Quantity(shown(s), unit)
			fits = fits && paper.TextWidth(says, tableSize, false) <= room
			whole, bare = append(whole, says), append(bare, figure.Number(shown(s), unit))
		}
		if !fits {
			whole = bare
		}
		y = g.row(y, false, whole...)
	}
	cells(d.sweep.Control.Name, d.sweep.Unit, func(s shownPose) float64 { return s.at })
	for _, t := range d.sweep.Parts {
		cells(t.Name, t.Unit, func(s shownPose) float64 { return partReading(d.sweep, s, t) })
	}
	if len(d.sweep.Outputs) == 0 {
		return y
	}
	head = append([]string{"output reads"}, make([]string, len(d.shownPoses))...)
	y = d.rule(y, paper.PenRule)
	y = d.rule(g.row(y, true, head...), paper.PenRule)
	for _, t := range d.sweep.Outputs {
		cells(t.Output.Name, t.Unit, func(s shownPose) float64 { return outputReading(s, t) })
	}
	return y
}

// lettered writes a paragraph behind a mark.
func (d *diagram) lettered(y float64, mark, words string) float64 {
	d.scene.Text(paper.Text{Says: mark, At: paper.At(sheetMargin, y+tableSize*lineHeight), Size: tableSize, Bold: true})
	return d.paragraph(y, markWidth, tableSize, false, words)
}

// stanceSays tells what a position is.
func (d *diagram) poseSays(s shownPose) string {
	says := figure.Quantity(s.at, d.sweep.Unit)
	if d.run.Part(d.sweep.Control.Of) == nil { // another run's hand
		says = "at " + says + " of " + d.sweep.Control.Name
	}
	switch {
	case s.at < 0 && d.sweep.Control.Minus != "":
		says += ", " + d.sweep.Control.Minus
	case s.at > 0 && d.sweep.Control.Plus != "":
		says += ", " + d.sweep.Control.Plus
	}
	says += ": " + s.says
	switch {
	case s.neutral:
		return says + " (thick lines)"
	case s.end >= 0:
		return says + " (long dash, two short dashes)"
	}
	return says + " (short dashes)"
}

// onCenterTable tells what the flags stand for.
func (d *diagram) onCenterTable(y float64) float64 {
	y = d.section(y, "On center")
	if len(d.sweep.Critical) == 0 {
		return d.paragraph(y, 0, tableSize, false, fmt.Sprintf("Nowhere from %s to %s, as far as was looked.",
			figure.Quantity(d.sweep.Explored[0], d.sweep.Unit), figure.Quantity(d.sweep.Explored[1], d.sweep.Unit)))
	}
	for _, f := range d.flags {
		y = d.lettered(y, f.mark, d.flagSays(f))
	}
	if more := len(d.sweep.Critical) - len(d.flags); more > 0 {
		y = d.paragraph(y, 0, tableSize, false, fmt.Sprintf("And %d more, further out, not flagged.", more))
	}
	return y
}

// flagSays tells one on-center point.
func (d *diagram) flagSays(f onCenter) string {
	says := onCenterSays(d.sweep, f.Critical)
	if _, still := render.Wavers(d.sweep, f.Critical); !still && (f.Reads() == nil || d.viewFor(f.Reads()) == nil) && d.viewFor(d.sweep.Control.Of) == nil {
		says += "; not seen in this view"
	}
	return says
}

// onCenterSays tells one on-center point of a sweep: where, and what is in hand.
func onCenterSays(s *solve.Sweep, c solve.Critical) string {
	at := fmt.Sprintf("%s at %s", s.Control.Name, figure.Quantity(c.At, s.Unit))
	if _, still := render.Wavers(s, c); still {
		return fmt.Sprintf("%s: %s %s in all and reverses here, %s (%s)", at, c.Name(), flagWords(s, c), render.ByWhat(c), render.CenterTerm(c.Kind))
	}
	return fmt.Sprintf("%s, %s: %s", at, render.CenterSpare(s, c), render.CenterInShort(s, c))
}

// partsList names what the balloons number, in two columns where all of it
// fits.
func (d *diagram) partsList(y float64) float64 {
	y = d.section(y, "Parts")
	type entry struct{ number, says string }
	var list []entry
	for _, p := range d.run.Parts {
		list = append(list, entry{fmt.Sprint(d.partNumber(p)), p.Name + ", " + partWords(p)})
	}
	for _, r := range d.run.Rods {
		list = append(list, entry{fmt.Sprint(d.rodNumber(r)), r.Name + ", " + d.rodWords(r)})
	}
	for _, c := range d.run.Cables {
		list = append(list, entry{fmt.Sprint(d.cableNumber(c)), c.Name + ", " + d.cableWords(c)})
	}
	columns := 2
	for _, e := range list {
		if paper.TextWidth(figure.Clean(e.says), tableSize, false) > d.inner()/2-markWidth {
			columns = 1
		}
	}
	g := grid{diagram: d, size: tableSize}
	width := d.inner() / float64(columns)
	for i := range columns {
		left := sheetMargin + float64(float64(i)*width)
		g.columns = append(g.columns, column{at: left, width: markWidth}, column{at: left + markWidth, width: width - markWidth})
	}
	rows := (len(list) + columns - 1) / columns
	for i := range rows {
		var cells []string
		for k := i; k < len(list); k += rows {
			cells = append(cells, list[k].number, list[k].says)
		}
		y = g.row(y, false, cells...)
	}
	return d.paragraph(y, 0, tableSize, false, d.conduitNote())
}

// partWords tells what a part is.
func partWords(p *linkage.Part) string {
	on := "the airframe"
	if p.Carrier != nil {
		on = p.Carrier.String()
	}
	switch p.Motion {
	case linkage.Turns:
		return "turns on " + on
	case linkage.Slides:
		return "slides on " + on
	case linkage.Floats, linkage.Roams:
		return "held by rods alone"
	case linkage.Tilts:
		return "on a ball on " + on
	case linkage.TurnsAndSlides:
		return "turns and slides on " + on
	}
	return "fixed"
}

// rodWords tells how a rod is set.
func (d *diagram) rodWords(r *linkage.Rod) string {
	words := figure.Exact(r.Length, d.run.Units) + " hole to hole"
	if r.SecondPath {
		words += ", second path"
	}
	return words
}
