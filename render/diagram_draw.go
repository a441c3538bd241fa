package render

import (
	"math"

	"fullfree/linkage"
	"fullfree/solve"
)

// drawing is one view of the run while it is drawn: what is put on the sheet
// is told to the placer of labels.
type drawing struct {
	*diagram
	v       *view
	scene   *scene // the view's own
	labels  *placer
	neutral *solve.Stand
	arcs    []*arc
	pivots  []place // those drawn already: parts on one shaft share theirs
	marks   []stopMark
	clip    *window // beyond which nothing of the run is drawn; nil: no bounds
}

// Sizes of symbols, in sheet units.
const (
	barWidth   = 9.0  // of the arms of parts, where they are long enough
	barShare   = 0.3  // most of the length of an arm that its width takes
	barLeast   = 4.0  // narrower metal is drawn as one line
	holeRadius = 3.2  // holes at rod ends and other points
	pivotRound = 5.0  // bosses on pivots
	crossReach = 15.0 // of the center lines that cross on a pivot
	groundSide = 11.0 // half the width of the hatched ground under a pivot
	groundDrop = 13.0 // from the pivot to the ground
)

// newDrawing begins to draw a view.
func (d *diagram) newDrawing(v *view) *drawing {
	s := &scene{}
	return &drawing{diagram: d, v: v, scene: s, labels: newPlacer(s, v.low, v.high), neutral: d.pose(-1).stand}
}

// drawView draws one view: the lines first, then the labels among them.
func (d *diagram) drawView(v *view) *scene {
	dr := d.newDrawing(v)
	if v.of != nil {
		clip := v.frame(v)
		dr.clip = &clip
	}
	dr.ghostMetal()
	dr.ghosts()
	dr.airframe()
	for _, part := range d.run.Parts {
		dr.part(part)
	}
	for _, rod := range d.run.Rods {
		dr.rod(rod)
	}
	dr.cables()
	for _, part := range d.run.Parts {
		dr.pivot(part)
	}
	dr.clip = nil
	dr.frames()
	dr.drawArcs()
	dr.contacts()
	dr.labelRods()
	dr.labelArcs()
	dr.labelFlags()
	dr.labelStops()
	dr.letters()
	dr.balloons()
	return dr.scene
}

// line draws a line that labels keep off.
func (dr *drawing) line(l layer, p pen, through ...place) {
	for _, piece := range dr.pieces(through) {
		dr.scene.line(l, p, piece...)
		dr.labels.avoid(p, piece...)
	}
}

// pieces returns what of a line is drawn.
func (dr *drawing) pieces(through []place) [][]place {
	if dr.clip == nil {
		return [][]place{through}
	}
	return dr.clip.lines(through)
}

// inside fills the inside of metal along its middle. Where it is cut off, the
// filling goes on over the round end of the outline, so that it looks cut.
func (dr *drawing) inside(l layer, p pen, through ...place) {
	for _, piece := range dr.pieces(through) {
		first, last := 0, len(piece)-1
		beyond := p.width/2 + 2*thickWidth
		if piece[first] != through[0] {
			piece[first] = piece[first].along(piece[first+1].to(piece[first]), beyond)
		}
		if piece[last] != through[len(through)-1] {
			piece[last] = piece[last].along(piece[last-1].to(piece[last]), beyond)
		}
		dr.scene.line(l, p, piece...)
	}
}

func (dr *drawing) polygon(l layer, p pen, through ...place) {
	if dr.clip != nil {
		if through = dr.clip.polygon(through); len(through) == 0 {
			return
		}
	}
	dr.scene.polygon(l, p, through...)
	dr.labels.avoid(p, append(through, through[0])...)
}

func (dr *drawing) circle(l layer, p pen, at place, radius float64) {
	if dr.clip != nil && !dr.clip.holds(at) {
		return
	}
	round := shape{pen: p, through: []place{at}, radius: radius}
	dr.scene.add(l, round)
	dr.labels.avoid(p, round.line()...)
}

// onSheet returns places of a part, given as drawn, in a position.
func (dr *drawing) onSheet(stand *solve.Stand, part *linkage.Part, drawn ...linkage.Vec) []place {
	list := make([]place, len(drawn))
	for i, p := range drawn {
		list[i] = dr.v.on(stand.Place(part, p))
	}
	return list
}

// footOf returns the place on a part's axis that is level with p.
func footOf(part *linkage.Part, p linkage.Vec) linkage.Vec {
	return part.Pivot.Add(part.Axis.Scale(p.Sub(part.Pivot).Dot(part.Axis)))
}

// skeleton returns a part as lines through places, as drawn: from the axis
// that it turns on to each of its points, or round the points of a part that
// floats.
func skeleton(part *linkage.Part) [][]linkage.Vec {
	var lines [][]linkage.Vec
	switch part.Motion {
	case linkage.Turns:
		for _, p := range part.Points {
			lines = append(lines, []linkage.Vec{part.Pivot, footOf(part, p.At), p.At})
		}
	case linkage.Slides, linkage.Floats:
		var round []linkage.Vec
		for _, p := range part.Points {
			round = append(round, p.At)
		}
		if len(round) > 2 && part.Motion == linkage.Floats {
			round = append(round, round[0])
		}
		if len(round) > 1 {
			lines = append(lines, round)
		}
	}
	return lines
}

// barOf returns the width of a part's arms on the sheet: as wide as short
// arms allow.
func (dr *drawing) barOf(part *linkage.Part) float64 {
	width := barWidth
	for _, line := range skeleton(part) {
		for i := 1; i < len(line); i++ {
			if long := dr.v.on(line[i-1]).distance(dr.v.on(line[i])); long > nearly {
				width = math.Min(width, barShare*long)
			}
		}
	}
	return width
}

// ghostPen is the line for a position away from neutral.
func ghostPen(s stance) pen {
	if s.end >= 0 {
		return penEnd
	}
	return penBetween
}

// moves reports whether a part stands visibly elsewhere than at neutral.
func (dr *drawing) moves(s stance, part *linkage.Part) bool {
	if part.Motion == linkage.Fixed || s.neutral {
		return false
	}
	places := []linkage.Vec{part.Pivot}
	for _, p := range part.Points {
		places = append(places, p.At)
	}
	for _, f := range part.Features {
		places = append(places, f.Through...)
	}
	now, was := dr.onSheet(s.stand, part, places...), dr.onSheet(dr.neutral, part, places...)
	for i := range now {
		if now[i].distance(was[i]) > nearly {
			return true
		}
	}
	return false
}

// ghostMetal draws the metal of parts that can touch other metal at the ends
// of the travel.
func (dr *drawing) ghostMetal() {
	for _, s := range dr.stances {
		if s.end < 0 {
			continue
		}
		for _, part := range dr.run.Parts {
			if !dr.moves(s, part) {
				continue
			}
			for i := range part.Features {
				dr.feature(layerEnds, ghostPen(s), whiteFill, s.stand, part, &part.Features[i])
			}
		}
	}
}

// movedFrom reports whether places lie visibly elsewhere than others.
func movedFrom(was, now []place) bool {
	for i := range now {
		if now[i].distance(was[i]) > nearly {
			return true
		}
	}
	return false
}

// ghosts draws parts and rods away from neutral as thin lines.
func (dr *drawing) ghosts() {
	for _, s := range dr.stances {
		if s.neutral {
			continue
		}
		for _, part := range dr.run.Parts {
			if !dr.moves(s, part) {
				continue
			}
			for _, line := range skeleton(part) {
				dr.line(layerEnds, ghostPen(s), dr.onSheet(s.stand, part, line...)...)
			}
			for _, p := range part.Points {
				at := dr.onSheet(s.stand, part, p.At)[0]
				dr.circle(layerEnds, pen{width: thinWidth, fill: whiteFill, weight: penThin.weight}, at, dr.hole(part)-1)
			}
		}
		for _, rod := range dr.run.Rods {
			now := dr.rodLine(s.stand, rod)
			if movedFrom(dr.rodLine(dr.neutral, rod), now) {
				dr.line(layerEnds, ghostPen(s), now...)
				dr.brackets(layerEnds, ghostPen(s), s.stand, rod)
			}
		}
		dr.ghostCables(s)
	}
}

// airframe draws the fixed structure, hatched.
func (dr *drawing) airframe() {
	for _, part := range dr.run.Parts {
		if part.Motion != linkage.Fixed {
			continue
		}
		for i := range part.Features {
			dr.feature(layerFixed, penThick, hatchFill, dr.neutral, part, &part.Features[i])
		}
		for _, p := range part.Points {
			at := dr.v.on(p.At)
			if dr.holdsConduit(part, p.Name) {
				continue // drawn with its cable
			}
			if dr.carriesRod(part, p.Name) || dr.holdsCore(part, p.Name) {
				dr.ground(at)
				dr.circle(layerHoles, penHole, at, dr.hole(part))
				continue
			}
			dr.cross(at, crossReach/2)
		}
	}
}

// carriesRod reports whether a rod hangs on a point of a part.
func (dr *drawing) carriesRod(part *linkage.Part, point string) bool {
	for _, rod := range dr.run.Rods {
		for _, end := range []linkage.PointRef{rod.From, rod.To} {
			if end.Part == part && end.Get().Name == point {
				return true
			}
		}
	}
	return false
}

// part draws a moving part at neutral.
func (dr *drawing) part(part *linkage.Part) {
	if part.Motion == linkage.Fixed {
		return
	}
	for i := range part.Features {
		dr.feature(layerNeutral, penThick, whiteFill, dr.neutral, part, &part.Features[i])
	}
	if part.Motion == linkage.Slides {
		dr.guide(part)
	}
	var lines [][]place
	for _, line := range skeleton(part) {
		lines = append(lines, dr.onSheet(dr.neutral, part, line...))
	}
	dr.bars(penThick, whiteFill, dr.barOf(part), lines)
	for _, p := range part.Points {
		dr.circle(layerHoles, penHole, dr.onSheet(dr.neutral, part, p.At)[0], dr.hole(part))
	}
}

// bars draws lines as flat bars that run into each other.
func (dr *drawing) bars(outline pen, fill string, width float64, lines [][]place) {
	if width < barLeast {
		for _, line := range lines {
			dr.line(layerNeutral, penRod, line...)
		}
		return
	}
	edge, inside := metalPens(width, outline, fill)
	for _, line := range lines {
		dr.line(layerNeutral, edge, line...)
	}
	for _, line := range lines {
		dr.inside(layerNeutral, inside, line...)
	}
}

// rodLine returns a rod's two ends on the sheet.
func (dr *drawing) rodLine(stand *solve.Stand, rod *linkage.Rod) []place {
	return []place{dr.v.on(stand.Point(rod.From)), dr.v.on(stand.Point(rod.To))}
}

// rod draws a rod at neutral.
func (dr *drawing) rod(rod *linkage.Rod) {
	ends := dr.rodLine(dr.neutral, rod)
	if rod.Diameter != nil && *rod.Diameter*dr.v.scale >= barLeast {
		dr.bars(penThick, whiteFill, float64(*rod.Diameter*dr.v.scale), [][]place{ends})
	} else {
		dr.line(layerNeutral, penRod, ends...)
	}
	dr.brackets(layerNeutral, penRod, dr.neutral, rod)
	for i, end := range []linkage.PointRef{rod.From, rod.To} {
		dr.circle(layerHoles, penHole, ends[i], dr.hole(end.Part))
	}
	if dr.clip != nil {
		dr.breaks(ends)
	}
}

// breaks marks where a rod is cut off.
func (dr *drawing) breaks(ends []place) {
	for _, piece := range dr.pieces(ends) {
		way := piece[0].to(piece[1])
		side := way.square()
		for i, at := range piece {
			if at == ends[i] {
				continue
			}
			dr.scene.line(layerHoles, penThin, at.along(side, 9), at.along(side, 2.5), at.along(side, 1.5).along(way, 4),
				at.along(side, -1.5).along(way, -4), at.along(side, -2.5), at.along(side, -9))
		}
	}
}

// hole returns the radius of the holes of a part, nil for a rod: smaller where
// a detail shows it better.
func (dr *drawing) hole(part *linkage.Part) float64 {
	if part != nil && dr.v.inDetail(part) {
		return holeRadius / 2
	}
	return holeRadius
}

// brackets draws a rod's own points, each on a bracket square to the rod.
func (dr *drawing) brackets(l layer, p pen, stand *solve.Stand, rod *linkage.Rod) {
	ends := dr.rodLine(stand, rod)
	way := ends[0].to(ends[1])
	for i := range rod.Points {
		at := dr.v.on(stand.Point(linkage.PointRef{Rod: rod, Point: i}))
		foot := ends[0].along(way, at.sub(ends[0]).dot(way))
		dr.line(l, p, ends[0], foot, at)
		if l == layerNeutral {
			dr.circle(layerHoles, penHole, at, holeRadius)
		}
	}
}
