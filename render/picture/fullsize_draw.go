package picture

import (
	"fmt"
	"math"
	"strings"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
	"fullfree/render/figure"
	"fullfree/render/internal/paper"
)

// Sizes on a print in full size, in sheet units (quarter millimeters).
const (
	markHole   = 1 * perMillimeter    // radius of the mark of a hole
	markPivot  = 2 * perMillimeter    // radius of the mark of a pivot
	holeCross  = 4 * perMillimeter    // half the lines that cross on a hole
	pivotCross = 8 * perMillimeter    // half those on a pivot
	endMark    = 1.2 * perMillimeter  // half a mark where a hole stands at an end of the travel
	guideLong  = 25 * perMillimeter   // a guide, beyond the travel
	samePlace  = 0.25 * perMillimeter // holes so near share their marks and names
)

// penFine crosses hole centers: as thin as prints well.
var penFine = paper.Pen{Width: paper.FineWidth, Weight: 0.3}

// drawRun draws the run at neutral, true to size, without names: those go where
// the pages leave room, which isn't known yet.
func (f *fullSize) drawRun() *drawing {
	dr := &drawing{diagram: f.diagram, v: f.v, scene: &f.ink, labels: paper.NewPlacer(&f.ink, paper.Place{}, paper.Place{}), neutral: f.pose(-1).pose}
	dr.fullMetal()
	dr.fullLines()
	dr.fullHoles()
	dr.endMarks()
	return dr
}

// penSeam is the edge of a page, which no name should lie across: it would be
// cut in two.
var penSeam = paper.Pen{Weight: 4 * paper.PenThick.Weight}

// label names everything, each name whole on a page at least, and off the seams.
func (f *fullSize) label(dr *drawing) {
	g := f.tiling
	first, last := g.windowOf(tile{}), g.windowOf(tile{g.columns - 1, g.rows - 1})
	dr.labels = paper.NewPlacer(&f.ink, first.Low, last.High)
	dr.labels.Open = f.windows()
	for _, shapes := range f.ink.Shapes {
		for _, sh := range shapes {
			dr.labels.Avoid(sh.Pen, sh.Line()...)
		}
	}
	for column := range g.columns - 1 {
		x := g.windowOf(tile{column, 0}).High.X
		dr.labels.Avoid(penSeam, paper.At(x, first.Low.Y), paper.At(x, last.High.Y))
	}
	for row := range g.rows - 1 {
		y := g.windowOf(tile{0, row}).High.Y
		dr.labels.Avoid(penSeam, paper.At(first.Low.X, y), paper.At(last.High.X, y))
	}
	f.labelRods(dr)
	dr.labelFullCables()
	for _, m := range dr.fullNames() {
		t := f.nameText(strings.Join(m.names, ", "))
		dr.putNear(t, m.at, allRound(t, m.at, paper.At(1, -1).Unit(), 5, 9)...)
	}
	f.labelMetal(dr)
}

// nameText is a text of the drawing, no longer than a page is wide.
func (f *fullSize) nameText(says string) paper.Text {
	const most = 0.9 // of the page
	return paper.Text{Says: paper.Shorten(says, float64(most*perMillimeter*f.tiling.window.X), labelSize, false), Size: labelSize}
}

// putNear puts a text at one of some ways where it lies well enough, and looks
// farther only where none of them is. In a crowded run it doesn't: what finds no
// room near stays without a name.
func (dr *drawing) putNear(t paper.Text, at paper.Place, ways ...paper.Label) {
	const well = 16 // about what lying across one thin line costs
	switch {
	case dr.crowded():
		dr.labels.Put(ways...)
	case !dr.labels.PutBelow(well, ways...):
		dr.put(t, at, ways...)
	}
}

// crowded reports whether a run has so many parts and rods that no search finds
// room for all their names.
func (d *diagram) crowded() bool { return len(d.run.Parts)+len(d.run.Rods) > 2*overMost }

// fullMetal draws the outlines of all that can touch, and of the rods that
// have a diameter.
func (dr *drawing) fullMetal() {
	for _, fixed := range []bool{true, false} {
		for _, part := range dr.run.Parts {
			if (part.Motion == linkage.Fixed) != fixed {
				continue
			}
			for i := range part.Features {
				dr.feature(paper.LayerFixed, paper.PenThin, paper.WhiteFill, dr.neutral, part, &part.Features[i])
			}
		}
	}
	for _, rod := range dr.run.Rods {
		if rod.Diameter == nil {
			continue
		}
		edge, inside := paper.MetalPens(float64(*rod.Diameter*dr.v.scale), paper.PenThin, paper.WhiteFill)
		dr.line(paper.LayerEnds, edge, dr.rodLine(dr.neutral, rod)...)
		dr.inside(paper.LayerEnds, inside, dr.rodLine(dr.neutral, rod)...)
	}
}

// fullLines draws center lines: of the arms of parts thin, of rods and guides
// as chains.
func (dr *drawing) fullLines() {
	for _, part := range dr.run.Parts {
		if part.Motion == linkage.Slides {
			dr.fullGuide(part)
		}
		if part.Motion == linkage.Fixed {
			continue
		}
		for _, line := range skeleton(part) {
			dr.line(paper.LayerNeutral, paper.PenThin, dr.onSheet(dr.neutral, part, line...)...)
		}
	}
	for _, c := range dr.run.Cables {
		for _, line := range dr.fullCable(c) {
			dr.line(paper.LayerNeutral, paper.PenCenter, line...)
		}
		dr.fullRims(c)
	}
	for _, rod := range dr.run.Rods {
		dr.line(paper.LayerNeutral, paper.PenCenter, dr.rodLine(dr.neutral, rod)...)
		ends := dr.rodLine(dr.neutral, rod)
		way := ends[0].To(ends[1])
		for i := range rod.Points {
			at := dr.v.on(dr.neutral.Point(linkage.PointRef{Rod: rod, Point: i}))
			dr.line(paper.LayerNeutral, paper.PenThin, ends[0].Along(way, at.Sub(ends[0]).Dot(way)), at)
		}
	}
}

// fullGuide draws the line that a part slides along, past both ends of its
// travel.
func (dr *drawing) fullGuide(part *linkage.Part) {
	way := dr.v.way(part.Slide).Unit()
	if way == (paper.Place{}) {
		return // towards the viewer
	}
	at, low, high := dr.slideReach(part, way)
	dr.line(paper.LayerCenters, paper.PenCenter, at.Along(way, low-guideLong), at.Along(way, high+guideLong))
}

// fullHole is a hole or pivot at neutral.
type fullHole struct {
	at    paper.Place
	name  string
	pivot bool
}

// holes returns every pivot and every hole.
func (dr *drawing) holes() []fullHole {
	var list []fullHole
	for _, part := range dr.run.Parts {
		if part.HasPivot() {
			list = append(list, fullHole{dr.onSheet(dr.neutral, part, part.Pivot)[0], part.Name + " pivot", true})
		}
	}
	for _, part := range dr.run.Parts {
		for _, p := range part.Points {
			list = append(list, fullHole{dr.onSheet(dr.neutral, part, p.At)[0], part.Name + "." + p.Name, false})
		}
	}
	for _, rod := range dr.run.Rods {
		for i, p := range rod.Points {
			at := dr.neutral.Point(linkage.PointRef{Rod: rod, Point: i})
			list = append(list, fullHole{dr.v.on(at), rod.Name + "." + p.Name, false})
		}
	}
	return list
}

// fullHoles marks every hole and pivot by a small circle and lines that cross
// on it; several seen as one are marked once.
func (dr *drawing) fullHoles() {
	type symbol struct {
		at    paper.Place
		pivot bool
	}
	drawn := map[symbol]bool{}
	for _, h := range dr.holes() {
		if drawn[symbol{h.at, h.pivot}] {
			continue
		}
		drawn[symbol{h.at, h.pivot}] = true
		radius, cross := markHole, holeCross
		if h.pivot {
			radius, cross = markPivot, pivotCross
		}
		dr.circle(paper.LayerHoles, penFine, h.at, radius)
		for _, way := range []paper.Place{paper.At(1, 0), paper.At(0, 1)} {
			dr.line(paper.LayerHoles, penFine, h.at.Along(way, -cross), h.at.Along(way, cross))
		}
	}
}

// mark is a place with the names of all that lies there.
type mark struct {
	at    paper.Place
	names []string
}

// fullNames names the holes: those seen one behind the other together.
func (dr *drawing) fullNames() []mark {
	var marks []mark
	for _, h := range dr.holes() {
		marks = named(marks, h.at, h.name)
	}
	return marks
}

// named gives a place one name more, or adds it.
func named(marks []mark, at paper.Place, name string) []mark {
	for i := range marks {
		if marks[i].at.Distance(at) < samePlace {
			marks[i].names = append(marks[i].names, name)
			return marks
		}
	}
	return append(marks, mark{at, []string{name}})
}

// endMarks marks where the holes of rods stand at the ends of the travel.
func (dr *drawing) endMarks() {
	for _, s := range dr.shownPoses {
		if s.end < 0 {
			continue
		}
		for _, rod := range dr.run.Rods {
			now, was := dr.rodLine(s.pose, rod), dr.rodLine(dr.neutral, rod)
			for i := range now {
				dr.endMark(now[i], was[i])
			}
		}
		for _, c := range dr.run.Cables {
			if c.Open() {
				continue
			}
			for _, leg := range c.Legs() {
				dr.endMark(dr.v.on(s.pose.Point(leg[0])), dr.v.on(dr.neutral.Point(leg[0])))
			}
		}
	}
}

// endMark marks where a hole stands at an end of the travel, if it moves.
func (dr *drawing) endMark(now, was paper.Place) {
	if now.Distance(was) < nearly {
		return
	}
	for _, way := range []paper.Place{paper.At(1, 1).Unit(), paper.At(1, -1).Unit()} {
		dr.line(paper.LayerMarks, penFine, now.Along(way, -endMark), now.Along(way, endMark))
	}
}

// labelRods writes the name and the length of every rod along it.
func (f *fullSize) labelRods(dr *drawing) {
	for _, rod := range dr.run.Rods {
		gap := float64(rodTextGap)
		if rod.Diameter != nil {
			gap += *rod.Diameter * dr.v.scale / 2
		}
		dr.labelAlong(dr.rodLine(dr.neutral, rod), f.nameText(dr.fullRodSays(rod)).Says, gap)
	}
}

// labelAlong writes words along a line, or near it where it is too short.
func (dr *drawing) labelAlong(ends []paper.Place, says string, gap float64) {
	ends = []paper.Place{ends[0], ends[1]}
	if ends[1].X < ends[0].X {
		ends[0], ends[1] = ends[1], ends[0]
	}
	long, way := ends[0].Distance(ends[1]), ends[0].To(ends[1])
	t := paper.Text{Says: says, Size: labelSize, Angle: elementary.Atan2(way.Y, way.X) * 180 / math.Pi}
	var ways []paper.Label
	if long > paper.TextWidth(t.Says, t.Size, false) {
		for _, share := range []float64{0.5, 0.42, 0.58, 0.34, 0.66, 0.27, 0.73} {
			for _, side := range []paper.Place{way.Square().Scale(-1), way.Square()} {
				at := ends[0].Along(way, float64(share*long))
				ways = append(ways, paper.TextLabel(paper.Centered(t, paper.Beside(t, at, side, gap)), math.Abs(share-0.5)*8))
			}
		}
	}
	t.Angle = 0
	dr.putNear(t, ends[0].Add(ends[1]).Scale(0.5), ways...)
}

// fullRodSays tells how long a rod is, hole to hole, and how far apart its
// holes come to lie on the paper where that differs.
func (dr *drawing) fullRodSays(rod *linkage.Rod) string {
	unit := dr.run.Units
	from, to := dr.neutral.Point(rod.From), dr.neutral.Point(rod.To)
	flat := dr.v.way(to.Sub(from)).Norm()
	said := fmt.Sprintf("%s, %s hole to hole", rod.Name, figure.Calipers(rod.Length, unit))
	if rod.SecondPath {
		said = fmt.Sprintf("%s, set to %s (second path)", rod.Name, figure.Calipers(rod.Length, unit))
	}
	switch {
	case figure.CalipersNumber(flat, unit) == figure.CalipersNumber(0, unit):
		return fmt.Sprintf("%s, %s, end on", rod.Name, figure.Calipers(rod.Length, unit))
	case figure.CalipersNumber(flat, unit) != figure.CalipersNumber(rod.Length, unit):
		said += ", " + figure.Calipers(flat, unit) + " on paper"
	}
	return said
}

// labelMetal names the metal.
func (f *fullSize) labelMetal(dr *drawing) {
	var marks []mark
	for _, part := range dr.run.Parts {
		for _, feature := range part.Features {
			on := dr.onSheet(dr.neutral, part, feature.Through...)
			at := on[0]
			if n := len(on); n > 1 {
				at = on[n-1].Add(on[n-2]).Scale(0.5)
			}
			marks = named(marks, at, part.Name+"."+feature.Name)
		}
	}
	for _, m := range marks {
		if !dr.crowded() {
			dr.put(f.nameText(strings.Join(m.names, ", ")), m.at)
		}
	}
}
