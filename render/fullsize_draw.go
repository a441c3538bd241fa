package render

import (
	"fmt"
	"math"
	"strings"

	"fullfree/linkage"
	"fullfree/render/figure"
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
var penFine = pen{width: fineWidth, weight: 0.3}

// drawRun draws the run at neutral, true to size, without names: those go where
// the pages leave room, which isn't known yet.
func (f *fullSize) drawRun() *drawing {
	dr := &drawing{diagram: f.diagram, v: f.v, scene: &f.ink, labels: newPlacer(&f.ink, place{}, place{}), neutral: f.pose(-1).stand}
	dr.fullMetal()
	dr.fullLines()
	dr.fullHoles()
	dr.endMarks()
	return dr
}

// penSeam is the edge of a page, which no name should lie across: it would be
// cut in two.
var penSeam = pen{weight: 4 * penThick.weight}

// label names everything, each name whole on a page at least, and off the seams.
func (f *fullSize) label(dr *drawing) {
	g := f.tiling
	first, last := g.windowOf(tile{}), g.windowOf(tile{g.columns - 1, g.rows - 1})
	dr.labels = newPlacer(&f.ink, first.low, last.high)
	dr.labels.open = f.windows()
	for _, shapes := range f.ink.shapes {
		for _, sh := range shapes {
			dr.labels.avoid(sh.pen, sh.line()...)
		}
	}
	for column := range g.columns - 1 {
		x := g.windowOf(tile{column, 0}).high.x
		dr.labels.avoid(penSeam, place{x, first.low.y}, place{x, last.high.y})
	}
	for row := range g.rows - 1 {
		y := g.windowOf(tile{0, row}).high.y
		dr.labels.avoid(penSeam, place{first.low.x, y}, place{last.high.x, y})
	}
	f.labelRods(dr)
	dr.labelFullCables()
	for _, m := range dr.fullNames() {
		t := f.nameText(strings.Join(m.names, ", "))
		dr.putNear(t, m.at, allRound(t, m.at, place{1, -1}.unit(), 5, 9)...)
	}
	f.labelMetal(dr)
}

// nameText is a text of the drawing, no longer than a page is wide.
func (f *fullSize) nameText(says string) text {
	const most = 0.9 // of the page
	return text{says: shorten(says, most*perMillimeter*f.tiling.window.x, labelSize, false), size: labelSize}
}

// putNear puts a text at one of some ways where it lies well enough, and looks
// farther only where none of them is. In a crowded run it doesn't: what finds no
// room near stays without a name.
func (dr *drawing) putNear(t text, at place, ways ...label) {
	const well = 16 // about what lying across one thin line costs
	switch {
	case dr.crowded():
		dr.labels.put(ways...)
	case !dr.labels.putBelow(well, ways...):
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
				dr.feature(layerFixed, penThin, whiteFill, dr.neutral, part, &part.Features[i])
			}
		}
	}
	for _, rod := range dr.run.Rods {
		if rod.Diameter == nil {
			continue
		}
		edge, inside := metalPens(*rod.Diameter*dr.v.scale, penThin, whiteFill)
		dr.line(layerEnds, edge, dr.rodLine(dr.neutral, rod)...)
		dr.inside(layerEnds, inside, dr.rodLine(dr.neutral, rod)...)
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
			dr.line(layerNeutral, penThin, dr.onSheet(dr.neutral, part, line...)...)
		}
	}
	for _, c := range dr.run.Cables {
		for _, line := range dr.fullCable(c) {
			dr.line(layerNeutral, penCenter, line...)
		}
		dr.fullRims(c)
	}
	for _, rod := range dr.run.Rods {
		dr.line(layerNeutral, penCenter, dr.rodLine(dr.neutral, rod)...)
		ends := dr.rodLine(dr.neutral, rod)
		way := ends[0].to(ends[1])
		for i := range rod.Points {
			at := dr.v.on(dr.neutral.Point(linkage.PointRef{Rod: rod, Point: i}))
			dr.line(layerNeutral, penThin, ends[0].along(way, at.sub(ends[0]).dot(way)), at)
		}
	}
}

// fullGuide draws the line that a part slides along, past both ends of its
// travel.
func (dr *drawing) fullGuide(part *linkage.Part) {
	way := dr.v.way(part.Slide).unit()
	if way == (place{}) {
		return // towards the viewer
	}
	eye := part.Pivot
	if len(part.Points) > 0 {
		eye = part.Points[0].At
	}
	at := dr.onSheet(dr.neutral, part, eye)[0]
	low, high := 0.0, 0.0
	for _, s := range dr.stances {
		reach := dr.onSheet(s.stand, part, eye)[0].sub(at).dot(way)
		low, high = math.Min(low, reach), math.Max(high, reach)
	}
	dr.line(layerCenters, penCenter, at.along(way, low-guideLong), at.along(way, high+guideLong))
}

// fullHole is a hole or pivot at neutral.
type fullHole struct {
	at    place
	name  string
	pivot bool
}

// holes returns every pivot and every hole.
func (dr *drawing) holes() []fullHole {
	var list []fullHole
	for _, part := range dr.run.Parts {
		if part.Motion == linkage.Turns {
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
		at    place
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
		dr.circle(layerHoles, penFine, h.at, radius)
		for _, way := range []place{{1, 0}, {0, 1}} {
			dr.line(layerHoles, penFine, h.at.along(way, -cross), h.at.along(way, cross))
		}
	}
}

// mark is a place with the names of all that lies there.
type mark struct {
	at    place
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
func named(marks []mark, at place, name string) []mark {
	for i := range marks {
		if marks[i].at.distance(at) < samePlace {
			marks[i].names = append(marks[i].names, name)
			return marks
		}
	}
	return append(marks, mark{at, []string{name}})
}

// endMarks marks where the holes of rods stand at the ends of the travel.
func (dr *drawing) endMarks() {
	for _, s := range dr.stances {
		if s.end < 0 {
			continue
		}
		for _, rod := range dr.run.Rods {
			now, was := dr.rodLine(s.stand, rod), dr.rodLine(dr.neutral, rod)
			for i := range now {
				dr.endMark(now[i], was[i])
			}
		}
		for _, c := range dr.run.Cables {
			if c.Open() {
				continue
			}
			for _, leg := range c.Legs() {
				dr.endMark(dr.v.on(s.stand.Point(leg[0])), dr.v.on(dr.neutral.Point(leg[0])))
			}
		}
	}
}

// endMark marks where a hole stands at an end of the travel, if it moves.
func (dr *drawing) endMark(now, was place) {
	if now.distance(was) < nearly {
		return
	}
	for _, way := range []place{place{1, 1}.unit(), place{1, -1}.unit()} {
		dr.line(layerMarks, penFine, now.along(way, -endMark), now.along(way, endMark))
	}
}

// labelRods writes the name and the length of every rod along it.
func (f *fullSize) labelRods(dr *drawing) {
	for _, rod := range dr.run.Rods {
		gap := float64(rodTextGap)
		if rod.Diameter != nil {
			gap += *rod.Diameter * dr.v.scale / 2
		}
		dr.labelAlong(dr.rodLine(dr.neutral, rod), f.nameText(dr.fullRodSays(rod)).says, gap)
	}
}

// labelAlong writes words along a line, or near it where it is too short.
func (dr *drawing) labelAlong(ends []place, says string, gap float64) {
	ends = []place{ends[0], ends[1]}
	if ends[1].x < ends[0].x {
		ends[0], ends[1] = ends[1], ends[0]
	}
	long, way := ends[0].distance(ends[1]), ends[0].to(ends[1])
	t := text{says: says, size: labelSize, angle: math.Atan2(way.y, way.x) * 180 / math.Pi}
	var ways []label
	if long > textWidth(t.says, t.size, false) {
		for _, share := range []float64{0.5, 0.42, 0.58, 0.34, 0.66, 0.27, 0.73} {
			for _, side := range []place{way.square().scale(-1), way.square()} {
				at := ends[0].along(way, share*long)
				ways = append(ways, textLabel(centered(t, beside(t, at, side, gap)), math.Abs(share-0.5)*8))
			}
		}
	}
	t.angle = 0
	dr.putNear(t, ends[0].add(ends[1]).scale(0.5), ways...)
}

// fullRodSays tells how long a rod is, hole to hole, and how far apart its
// holes come to lie on the paper where that differs.
func (dr *drawing) fullRodSays(rod *linkage.Rod) string {
	unit := string(dr.run.Units)
	from, to := dr.neutral.Point(rod.From), dr.neutral.Point(rod.To)
	flat := dr.v.way(to.Sub(from)).norm()
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
				at = on[n-1].add(on[n-2]).scale(0.5)
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
