package picture

import (
	"fmt"
	"io"
	"math"
	"strings"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/render/internal/paper"
	"fullfree/solve/survey"
)

// BlankOptions is what a page for taping is told besides the run.
type BlankOptions struct {
	File    string // that the figures are to be written into; may be empty
	Version string // of the program
}

// The page for taping, in sheet units. On A4 or Letter a unit is a third of a
// millimeter.
const (
	pageLeast     = sheetWidth * 1.414 // a page is at least so high: A4's shape
	blankTallest  = 300.0              // of a single view
	blanksTallest = 520.0              // of several
	fillLine      = 20.0               // of a line to write on: 6 mm, for a pencil
	mostInOne     = 24                 // distances in one column with their names; more are told in two, by letters
	mostInTwo     = 40                 // distances in two columns; more are told in three
)

// blankCaution is printed on every page for taping.
const blankCaution = "This page approves nothing, and nor does what is reckoned from it: the designer's instructions, the local rules and a licensed inspector do. The last check is made on the aircraft, at the blade or surface, pins out, by a second person."

// blankHow tells how to tape, a paragraph each.
var blankHow = []string{
	"All at neutral, with the rig pins in: one position for the whole page.",
	"Tape straight through the air from hole center to hole center. Tape it there and back and write the mean; where the two differ by more than 1 mm (1/32 in; " + render.NoSource + "), tape it again.",
	"Level: lay the inclinometer along the line of the two holes, and write degrees anticlockwise from level, as the sketch shows them. Where it reads far from what is expected here, it was told from plumb, or clockwise, or from the other hole: set that right before it is written.",
	"A check tells nothing new: by it a slip of the tape in the others shows. Tape it too.",
	"What can't be reached: strike it out here, and take its block out of the file.",
}

// BlankPage writes a page to take to the aircraft as an SVG picture: a sketch
// of the run with its holes lettered, and what to measure with blanks to fill
// in. It is written in one piece, or not at all with an error.
func BlankPage(w io.Writer, run *linkage.Run, plan []survey.Planned, opts BlankOptions) error {
	p, err := newBlankPage(run, plan, opts)
	if err != nil {
		return err
	}
	return p.scene.WriteSVG(w, "blank-"+p.views[0].name, "To be taped: "+run.Name, p.story())
}

// blankPage is a page for taping being drawn.
type blankPage struct {
	*diagram
	opts    BlankOptions
	plan    []survey.Planned
	letters map[string]string
}

func newBlankPage(run *linkage.Run, plan []survey.Planned, opts BlankOptions) (*blankPage, error) {
	views, err := viewsOf(run, "")
	if err != nil {
		return nil, err
	}
	p := &blankPage{diagram: &diagram{run: run, views: views}, opts: opts, plan: plan, letters: Letters(run)}
	p.scene.Width = sheetWidth
	y := p.blankHeading(sheetMargin)
	for _, row := range arrange(views, p.drawnReach(), sheetInner, blankTallest, blanksTallest) {
		y = p.drawRow(y+viewGap, row, p.drawSketch)
	}
	y = p.holes(y)
	y = p.distances(y)
	y = p.howTo(y)
	y = p.signing(y)
	p.scene.Height = math.Max(y+sheetMargin, pageLeast)
	return p, nil
}

// story is what a screen reader speaks.
func (p *blankPage) story() string {
	said := []string{fmt.Sprintf("A page for taping %s.", figure.Clean(p.run.Name))}
	for _, place := range survey.Places(p.run) {
		said = append(said, fmt.Sprintf("%s is %s.", p.letters[place.String()], place))
	}
	for _, m := range p.plan {
		said = append(said, plannedName(m, p.letters)+".")
	}
	return strings.Join(said, " ")
}

func (p *blankPage) blankHeading(y float64) float64 {
	y += titleSize
	p.scene.Text(paper.Text{Says: paper.Shorten("To be taped: "+p.run.Name, sheetInner, titleSize, true), At: paper.At(sheetMargin, y), Size: titleSize, Bold: true})
	says := "A sketch, not to scale for the aircraft: no figure may be taken from it."
	if p.opts.File != "" {
		says += " The figures go into " + p.opts.File + ", in place of the word blank."
	}
	return p.paragraph(y, 0, tableSize, false, figure.Joined(" ", says, p.conduitNote()))
}

// drawnReach returns everything that is drawn, as drawn.
func (p *blankPage) drawnReach() []sphere {
	p.shownPoses = []shownPose{{neutral: true, end: -1}}
	return p.reach()
}

// drawSketch draws one view: the run as drawn, with its holes lettered.
func (p *blankPage) drawSketch(v *view) *paper.Scene {
	dr := p.newDrawing(v)
	dr.airframe()
	dr.cables()
	for _, part := range p.run.Parts {
		dr.part(part)
	}
	for _, rod := range p.run.Rods {
		dr.rod(rod)
	}
	for _, part := range p.run.Parts {
		dr.pivot(part)
	}
	p.letterHoles(dr)
	return dr.scene
}

// holes tells which hole each letter is, in two columns.
func (p *blankPage) holes(y float64) float64 {
	y = p.section(y, "Holes and pivots")
	places := survey.Places(p.run)
	g := grid{diagram: p.diagram, size: tableSize}
	const columns = 2
	for i := range columns {
		left := sheetMargin + float64(i)*sheetInner/columns
		g.columns = append(g.columns, column{at: left, width: markWidth}, column{at: left + markWidth, width: sheetInner/columns - markWidth - viewGap})
	}
	rows := (len(places) + columns - 1) / columns
	for i := range rows {
		lines := make([][]string, columns) // of each cell
		deepest := 1
		var letters []string
		for k := i; k < len(places); k += rows {
			letters = append(letters, p.letters[places[k].String()])
			lines[len(letters)-1] = paper.Wrap(p.holeSays(places[k]), g.columns[1].width, tableSize, false)
			deepest = max(deepest, len(lines[len(letters)-1]))
		}
		for n := range deepest {
			var cells []string
			for k, letter := range letters {
				if n > 0 {
					letter = ""
				}
				line := ""
				if n < len(lines[k]) {
					line = lines[k][n]
				}
				cells = append(cells, letter, line)
			}
			y = g.row(y, false, cells...)
		}
	}
	return y
}

// holeSays tells which hole a letter stands for.
func (p *blankPage) holeSays(ref linkage.PlaceRef) string {
	says := ref.String()
	if ref.Part.Exact {
		says += ", told from here"
	}
	if z := ref.At().Z; p.run.Plane && z != 0 {
		says += ", height " + figure.Given(z, p.run.Units)
	}
	return says
}

// distances lists what to measure, with lines to write on: directions across
// the page, with what they are expected to read, then distances in columns.
func (p *blankPage) distances(y float64) float64 {
	y = p.section(y, "To be measured")
	var tapes []survey.Planned
	for _, m := range p.plan {
		if m.Kind != linkage.Gauged {
			tapes = append(tapes, m)
			continue
		}
		y += fillLine
		after := p.blankLine(sheetMargin, y, m, 1)
		p.scene.Text(paper.Text{Says: paper.Shorten("degrees from level: "+Expected(m), sheetMargin+sheetInner-after, tableSize, false), At: paper.At(after, y), Size: tableSize})
	}
	columns := 1
	switch {
	case len(tapes) > mostInTwo:
		columns = 3
	case len(tapes) > mostInOne:
		columns = 2
	}
	rows := (len(tapes) + columns - 1) / columns
	lowest := y
	for i, m := range tapes {
		left := sheetMargin + float64(i/rows)*sheetInner/float64(columns)
		at := y + float64(fillLine*float64(i%rows+1))
		p.distance(left, at, m, columns)
		lowest = math.Max(lowest, at)
	}
	return lowest
}

// Expected tells about what a direction will read: the sketch tells no more.
func Expected(m survey.Planned) string {
	d := m.To.At().Sub(m.From.At())
	about := float64(math.Round(elementary.Atan2(d.Y, d.X)*180/math.Pi/roughAngle) * roughAngle)
	const (
		right = 90.0 // degrees
		near  = 10.0 // degrees
	)
	how := "sloping"
	switch {
	case math.Abs(math.Abs(about)-right) <= near:
		how = "upright"
	case math.Abs(about) <= near || math.Abs(about) >= 2*right-near:
		how = "level"
	}
	return fmt.Sprintf("%s, reads about %s", how, figure.Decimal(about, 0))
}

// blankLine writes the letters of a measurement and a line to write on, and
// returns where it ends.
func (p *blankPage) blankLine(left, y float64, m survey.Planned, columns int) float64 {
	from, long := 70.0, 92.0
	if columns > 2 {
		from, long = 54, 54
	}
	const gap = 5.0
	p.scene.Text(paper.Text{Says: p.letters[m.From.String()] + " to " + p.letters[m.To.String()], At: paper.At(left, y), Size: tableSize, Bold: true})
	p.scene.Line(paper.LayerMarks, paper.PenThin, paper.At(left+from, y+2), paper.At(left+from+long, y+2))
	if read := p.read(m); read != "" {
		p.scene.Text(paper.Text{Says: read, At: paper.At(left+from+gap, y), Size: tableSize})
	}
	return left + from + long + gap
}

// read is what was measured already; empty where it wasn't.
func (p *blankPage) read(m survey.Planned) string {
	for _, done := range p.run.Measurements {
		if p.run.Source != nil && !done.Blank && done.Kind == m.Kind && done.From.String() == m.From.String() && done.To.String() == m.To.String() {
			return figure.Clean(string(p.run.Source.Text[done.IsSpan.Start:done.IsSpan.End])) // as it was read
		}
	}
	return ""
}

// distance writes a line to fill in.
func (p *blankPage) distance(left, y float64, m survey.Planned, columns int) {
	after := p.blankLine(left, y, m, columns)
	write := func(x float64, says string) {
		p.scene.Text(paper.Text{Says: says, At: paper.At(x, y), Size: tableSize})
	}
	says := p.run.Units
	if m.Check {
		says += ", check"
	}
	write(after, string(says))
	if columns == 1 {
		const names = 76.0
		room := sheetMargin + sheetInner - after - names
		write(after+names, paper.Shorten(fmt.Sprintf("%s to %s", m.From, m.To), room, tableSize, false))
	}
}

// deep reports whether a plane run has holes at different heights.
func (p *blankPage) deep() bool {
	for _, place := range survey.Places(p.run) {
		if p.run.Plane && place.At().Z != 0 {
			return true
		}
	}
	return false
}

func (p *blankPage) howTo(y float64) float64 {
	y = p.section(y, "How")
	if p.deep() {
		y = p.paragraph(y, 0, smallSize, false, "Heights are out of the sketch, towards you, and are not taped: a hole is at height 0 where none is told, a pivot is meant on its axis there.")
	}
	for _, words := range blankHow {
		y = p.paragraph(y, 0, smallSize, false, words)
	}
	return y
}

// signing frames blanks for who taped and when, and the caution.
func (p *blankPage) signing(y float64) float64 {
	const inset, tall, fields = 8.0, 42.0, 3.0
	top := y + sectionGap
	y = top
	for i, name := range []string{"Aircraft", "Taped by", "Date"} {
		x := sheetMargin + float64(float64(sheetInner/fields)*float64(i))
		p.scene.Text(paper.Text{Says: name, At: paper.At(x+inset, y+4+smallSize), Size: smallSize})
		if i > 0 {
			p.scene.Line(paper.LayerMarks, paper.PenRule, paper.At(x, y), paper.At(x, y+tall))
		}
	}
	y += tall
	p.scene.Line(paper.LayerMarks, paper.PenRule, paper.At(sheetMargin, y), paper.At(sheetWidth-sheetMargin, y))
	caution := blankCaution
	if p.opts.Version != "" {
		caution += " (fullfree " + figure.Clean(p.opts.Version) + ")"
	}
	for _, line := range paper.Wrap(caution, sheetInner-2*inset, smallSize, false) {
		y += smallSize * lineHeight
		p.scene.Text(paper.Text{Says: line, At: paper.At(sheetMargin+inset, y), Size: smallSize})
	}
	y += inset
	p.scene.Polygon(paper.LayerMarks, paper.PenFrame, paper.Window{Low: paper.At(sheetMargin, top), High: paper.At(sheetWidth-sheetMargin, y)}.Corners()...)
	return y
}
