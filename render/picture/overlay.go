package picture

import (
	"errors"
	"fmt"
	"hash/crc32"
	"io"
	"math"
	"strings"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/render/internal/paper"
	"fullfree/solve"
)

// overlayPens are the lines of the variants, as filed first; a picture of more
// can't be read.
var overlayPens = []paper.Pen{
	{Width: paper.ThickWidth, Round: true, Weight: 1.2},
	{Width: 1.3, Dash: paper.BetweenDash, Weight: 1.2},
	{Width: 1.3, Dash: paper.EndDash, Weight: 1.2},
	{Width: 1.3, Dash: paper.CenterDash, Weight: 1.2},
	{Width: 1.3, Dash: paper.BeyondDash, Round: true, Weight: 1.2},
}

// overlayTallest is how high one position may come out, in sheet units: three
// stand one below the other.
const overlayTallest = 380.0

// Overlay writes the neutral positions of settings over one another as an SVG
// picture, and so the ends of the travel: lines and letters alone tell the
// settings apart. The first sweep is drawn. The picture is written in one piece,
// or not at all with an error.
func Overlay(w io.Writer, variants []render.Variant, opts DiagramOptions) error {
	if err := render.WholeVariants(variants); err != nil {
		return err
	}
	o, err := newOverlay(variants, opts)
	if err != nil {
		return err
	}
	return o.scene.WriteSVG(w, o.id(), "Settings compared: "+o.run.Name, o.story())
}

// overlay is a sheet of settings over one another. Its diagram is that of the
// run as filed.
type overlay struct {
	*diagram
	variants []render.Variant
	each     []*diagram // of every variant
}

func newOverlay(variants []render.Variant, opts DiagramOptions) (*overlay, error) {
	if len(variants) > len(overlayPens) {
		return nil, fmt.Errorf("%d settings over one another can't be read: draw at most %d at once", len(variants)-1, len(overlayPens)-1)
	}
	o := &overlay{variants: variants}
	for _, v := range variants {
		if len(v.Result.Sweeps) == 0 {
			return nil, errors.New("there is no sweep to draw")
		}
		d, err := emptyDiagram(v.Result, v.Result.Sweeps[0], opts)
		if err != nil {
			return nil, err
		}
		o.each = append(o.each, d)
	}
	o.diagram = o.each[0]
	o.verdict = "As filed: " + o.verdict
	o.layOut()
	return o, nil
}

// pose is the pose of a variant that a picture shows: -1 neutral, 0 the low
// end, 1 the high one.
func (d *diagram) pose(which int) shownPose {
	for _, s := range d.shownPoses {
		if which < 0 && s.neutral || which >= 0 && s.end == which {
			return s
		}
	}
	return d.shownPoses[0]
}

// poseWords heads a picture.
func (o *overlay) poseWords(which int) string {
	if which < 0 {
		return "Neutral"
	}
	words := o.sweep.Control.Minus
	if which == 1 {
		words = o.sweep.Control.Plus
	}
	head := "The " + render.SideName(which) + " end of the travel"
	if words != "" {
		head += ", " + figure.Clean(words)
	}
	return head
}

// layOut draws the whole sheet, from top to bottom.
func (o *overlay) layOut() {
	o.scene.Width = sheetWidth
	y := o.namedHeading(sheetMargin, "Settings of "+render.TurnedAll(o.run)+" laid over one another. "+o.moving()+", as filed.")
	y = o.key(y)
	var reach []sphere
	for _, d := range o.each {
		reach = append(reach, d.reach()...)
	}
	rows := arrange(o.views, reach, sheetInner, overlayTallest, viewsTallest)
	for which := -1; which <= 1; which++ {
		y = o.section(y, o.poseWords(which))
		for _, row := range rows {
			y = o.drawRow(y+viewGap, row, func(v *view) *paper.Scene { return o.drawPose(v, which) })
		}
		y = o.figures(y, which)
	}
	y = o.titleBlock(y)
	o.scene.Height = y + sheetMargin
}

// key tells what the letters and lines stand for.
func (o *overlay) key(y float64) float64 {
	const sample, gap = 56.0, 8.0
	y = o.section(y, "Settings")
	for i, v := range o.variants {
		line := y + tableSize*lineHeight - tableSize*0.3
		o.scene.Line(paper.LayerMarks, overlayPens[i], paper.At(sheetMargin+markWidth, line), paper.At(sheetMargin+markWidth+sample, line))
		o.scene.Text(paper.Text{Says: figure.Letter(i), At: paper.At(sheetMargin, y+tableSize*lineHeight), Size: tableSize, Bold: true})
		y = o.paragraph(y, markWidth+sample+gap, tableSize, false, v.Name+": "+figure.Joined(" ", append([]string{render.Headline(v.Result)}, render.UnfitSay(v.Result.Run, v.Result.Unfit)...)...))
	}
	return y
}

// drawPose draws one view of every variant in a position.
func (o *overlay) drawPose(v *view, which int) *paper.Scene {
	s := &paper.Scene{}
	labels := paper.NewPlacer(s, v.low, v.high)
	var drawn []*drawing
	for i, d := range o.each {
		dr := &drawing{diagram: d, v: v, scene: s, labels: labels, neutral: d.pose(which).pose}
		if i == 0 {
			dr.airframe()
			for _, part := range d.run.Parts {
				dr.pivot(part)
			}
			dr.conduits()
		}
		dr.skeletons(overlayPens[i])
		drawn = append(drawn, dr)
	}
	for i, dr := range drawn {
		dr.variantLetters(figure.Letter(i), drawn)
	}
	return s
}

// skeletons draws every part and rod as lines.
func (dr *drawing) skeletons(p paper.Pen) {
	for _, part := range dr.run.Parts {
		if part.Motion == linkage.Fixed {
			continue
		}
		for _, line := range skeleton(part) {
			dr.line(paper.LayerNeutral, p, dr.onSheet(dr.neutral, part, line...)...)
		}
		for _, point := range part.Points {
			dr.circle(paper.LayerHoles, paper.Pen{Width: paper.ThinWidth, Fill: paper.WhiteFill, Weight: paper.PenThin.Weight}, dr.onSheet(dr.neutral, part, point.At)[0], holeRadius/2)
		}
	}
	for _, rod := range dr.run.Rods {
		dr.line(paper.LayerNeutral, p, dr.rodLine(dr.neutral, rod)...)
		dr.brackets(paper.LayerEnds, p, dr.neutral, rod)
	}
	for _, c := range dr.run.Cables {
		if !c.Open() {
			dr.cores(paper.LayerNeutral, p, dr.neutral, c)
		}
	}
}

// variantLetters puts the letter of a variant on the outermost point of every
// part that stands elsewhere than in another variant.
func (dr *drawing) variantLetters(letter string, all []*drawing) {
	for k, part := range dr.run.Parts {
		at, from, ok := dr.outermost(part)
		if !ok {
			continue
		}
		for _, other := range all {
			if theirs, _, _ := other.outermost(other.run.Parts[k]); theirs.Distance(at) > nearly {
				t := paper.Text{Says: letter, Size: letterSize, Bold: true, Halo: true}
				ways := allRound(t, at, from.To(at), 4, 7, 11)
				for i := range ways {
					ways[i] = ways[i].LedTo(at)
				}
				dr.put(t, at, ways...)
				break
			}
		}
	}
}

// outermost is the point of a moving part that lies furthest from what it turns
// on, on the sheet, and what it turns on.
func (dr *drawing) outermost(part *linkage.Part) (at, from paper.Place, ok bool) {
	if part.Motion == linkage.Fixed || len(part.Points) == 0 {
		return paper.Place{}, paper.Place{}, false
	}
	from = dr.onSheet(dr.neutral, part, part.Pivot)[0]
	if !part.HasPivot() {
		from = dr.onSheet(nil, part, part.Points[0].At)[0]
	}
	far := math.Inf(-1)
	for _, point := range part.Points {
		if p := dr.onSheet(dr.neutral, part, point.At)[0]; p.Distance(from) > far {
			at, far = p, p.Distance(from)
		}
	}
	return at, from, true
}

// figures tells how everything stands in a position.
func (o *overlay) figures(y float64, which int) float64 {
	const cellWidth = 76.0
	names := sheetInner - float64(cellWidth*float64(len(o.each)))
	g := grid{diagram: o.diagram, size: tableSize, columns: []column{{at: sheetMargin, width: names}}}
	head := []string{"moves, as drawn"}
	for i := range o.each {
		g.columns = append(g.columns, column{at: sheetMargin + names + float64(cellWidth*float64(i+1)), right: true, width: cellWidth - 6})
		head = append(head, figure.Letter(i))
	}
	y = o.rule(g.row(y, true, head...), paper.PenRule)
	cells := func(name string, shown func(*diagram) string) {
		row := []string{name}
		for _, d := range o.each {
			row = append(row, shown(d))
		}
		y = g.row(y, false, row...)
	}
	cells(o.sweep.Control.Name, func(d *diagram) string { return figure.Quantity(d.pose(which).at, d.sweep.Unit) })
	if which >= 0 {
		cells("made by", func(d *diagram) string { return render.MadeBy(d.sweep.Ends[which]) })
	}
	for i, t := range o.sweep.Parts {
		if t.Part != o.sweep.Control.Of {
			cells(t.Name, func(d *diagram) string { return figure.Fine(poseOf(d.sweep.Parts[i].Extent, which), t.Unit) })
		}
	}
	for i, t := range o.sweep.Outputs {
		cells(t.Output.Name+" reads", func(d *diagram) string { return figure.Fine(poseOf(d.sweep.Outputs[i].Extent, which), t.Unit) })
	}
	return y
}

// poseOf is an extent in a position.
func poseOf(e solve.Extent, which int) float64 {
	return [...]float64{e.Neutral, e.AtLow, e.AtHigh}[which+1]
}

// id tells this picture's ids apart from those of other pictures on a page.
func (o *overlay) id() string {
	var b strings.Builder
	for _, v := range o.variants {
		b.WriteString(v.Name + "\n")
	}
	return "compare-" + o.diagram.id() + fmt.Sprintf("-%08x", crc32.ChecksumIEEE([]byte(b.String())))
}

// story tells the whole picture in words, for those who don't see it.
func (o *overlay) story() string {
	var b strings.Builder
	for i, v := range o.variants {
		d := o.each[i]
		fmt.Fprintf(&b, "Setting %s, %s: %s ", figure.Letter(i), v.Name, render.Headline(v.Result))
		for which := -1; which <= 1; which++ {
			fmt.Fprintf(&b, "%s, %s %s", o.poseWords(which), d.sweep.Control.Name, figure.Quantity(d.pose(which).at, d.sweep.Unit))
			for _, t := range d.sweep.Parts {
				fmt.Fprintf(&b, ", %s %s", t.Name, figure.Fine(poseOf(t.Extent, which), t.Unit))
			}
			for _, t := range d.sweep.Outputs {
				fmt.Fprintf(&b, ", %s reads %s", t.Output.Name, figure.Fine(poseOf(t.Extent, which), t.Unit))
			}
			b.WriteString(". ")
		}
	}
	b.WriteString(o.rests())
	return b.String()
}
