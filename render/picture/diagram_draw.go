package picture

import (
	"math"

	"fullfree/linkage"
	"fullfree/render/internal/paper"
	"fullfree/solve"
)

// drawing is one view of the run while it is drawn: what is put on the sheet
// is told to the placer of labels.
type drawing struct {
	*diagram
	v       *view
	scene   *paper.Scene // the view's own
	labels  *paper.Placer
	neutral *solve.Pose
	arcs    []*arc
	pivots  []paper.Place // those drawn already: parts on one shaft share theirs
	marks   []stopMark
	live    *live         // the picture that moves which it is a view of; nil: a still
	clip    *paper.Window // beyond which nothing of the run is drawn; nil: no bounds
}

// Sizes of symbols, in sheet units.
const (
	barWidth   = 9.0  // of the arms of parts, where they are long enough
	barShare   = 0.3  // most of the length of an arm that its width takes
	holeRadius = 3.2  // holes at rod ends and other points
	pivotRound = 5.0  // bosses on pivots
	crossReach = 15.0 // of the center lines that cross on a pivot
	groundSide = 11.0 // half the width of the hatched ground under a pivot
	groundDrop = 13.0 // from the pivot to the ground
)

// newDrawing begins to draw a view.
func (d *diagram) newDrawing(v *view) *drawing {
	s := &paper.Scene{}
	return &drawing{diagram: d, v: v, scene: s, labels: paper.NewPlacer(s, v.low, v.high), neutral: d.pose(-1).pose}
}

// drawView draws one view: the lines first, then the labels among them.
func (d *diagram) drawView(v *view) *paper.Scene {
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

// footOf returns the place on a part's axis that is level with p.
func footOf(part *linkage.Part, p linkage.Vec) linkage.Vec {
	return part.Pivot.Add(part.Axis.Scale(p.Sub(part.Pivot).Dot(part.Axis)))
}

// skeleton returns a part as lines through places, as drawn: from the axis
// or ball that it turns on to each of its points, or round the points of a part that
// floats.
func skeleton(part *linkage.Part) [][]linkage.Vec {
	var lines [][]linkage.Vec
	switch part.Motion {
	case linkage.Tilts:
		for _, p := range part.Points {
			if p.At != part.Pivot {
				lines = append(lines, []linkage.Vec{part.Pivot, p.At})
			}
		}
	case linkage.Turns, linkage.TurnsAndSlides:
		for _, p := range part.Points {
			lines = append(lines, []linkage.Vec{part.Pivot, footOf(part, p.At), p.At})
		}
	case linkage.Slides, linkage.Floats, linkage.Roams:
		var round []linkage.Vec
		for _, p := range part.Points {
			round = append(round, p.At)
		}
		if len(round) > 2 && part.Loose() {
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
			if long := dr.v.on(line[i-1]).Distance(dr.v.on(line[i])); long > nearly {
				width = math.Min(width, barShare*long)
			}
		}
	}
	return width
}

// ghostPen is the line for a position away from neutral.
func ghostPen(s shownPose) paper.Pen {
	if s.end >= 0 {
		return paper.PenEnd
	}
	return paper.PenBetween
}

// moves reports whether a part stands visibly elsewhere than at neutral.
func (dr *drawing) moves(s shownPose, part *linkage.Part) bool {
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
	now, was := dr.onSheet(s.pose, part, places...), dr.onSheet(dr.neutral, part, places...)
	for i := range now {
		if now[i].Distance(was[i]) > nearly {
			return true
		}
	}
	return false
}

// ghostMetal draws the metal of parts that can touch other metal at the ends
// of the travel.
func (dr *drawing) ghostMetal() {
	for _, s := range dr.shownPoses {
		if s.end < 0 {
			continue
		}
		for _, part := range dr.run.Parts {
			if !dr.moves(s, part) {
				continue
			}
			for i := range part.Features {
				dr.feature(paper.LayerEnds, ghostPen(s), paper.WhiteFill, s.pose, part, &part.Features[i])
			}
		}
	}
}

// movedFrom reports whether places lie visibly elsewhere than others.
func movedFrom(was, now []paper.Place) bool {
	for i := range now {
		if now[i].Distance(was[i]) > nearly {
			return true
		}
	}
	return false
}

// ghosts draws parts and rods away from neutral as thin lines.
func (dr *drawing) ghosts() {
	for _, s := range dr.shownPoses {
		if s.neutral {
			continue
		}
		for _, part := range dr.run.Parts {
			if !dr.moves(s, part) {
				continue
			}
			for _, line := range skeleton(part) {
				dr.line(paper.LayerEnds, ghostPen(s), dr.onSheet(s.pose, part, line...)...)
			}
			for _, p := range part.Points {
				at := dr.onSheet(s.pose, part, p.At)[0]
				dr.circle(paper.LayerEnds, paper.Pen{Width: paper.ThinWidth, Fill: paper.WhiteFill, Weight: paper.PenThin.Weight}, at, dr.hole(part)-1)
			}
		}
		for _, rod := range dr.run.Rods {
			now := dr.rodLine(s.pose, rod)
			if movedFrom(dr.rodLine(dr.neutral, rod), now) {
				dr.line(paper.LayerEnds, ghostPen(s), now...)
				dr.brackets(paper.LayerEnds, ghostPen(s), s.pose, rod)
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
			dr.feature(paper.LayerFixed, paper.PenThick, paper.HatchFill, dr.neutral, part, &part.Features[i])
		}
		for _, p := range part.Points {
			at := dr.v.on(p.At)
			if dr.holdsConduit(part, p.Name) {
				continue // drawn with its cable
			}
			if dr.carriesRod(part, p.Name) || dr.holdsCore(part, p.Name) {
				dr.ground(at)
				dr.circle(paper.LayerHoles, paper.PenHole, at, dr.hole(part))
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
		dr.feature(paper.LayerNeutral, paper.PenThick, paper.WhiteFill, dr.neutral, part, &part.Features[i])
	}
	switch {
	case part.Motion != linkage.Slides:
	case dr.live != nil:
		liveDrawing{dr}.slide(part)
	default:
		dr.guide(part)
	}
	var lines [][]peg
	for _, line := range skeleton(part) {
		lines = append(lines, dr.pegs(dr.neutral, part, line...))
	}
	dr.bars(dr.barOf(part), lines)
	for _, p := range part.Points {
		dr.ring(paper.LayerHoles, paper.PenHole, dr.pegs(dr.neutral, part, p.At)[0], dr.hole(part))
	}
}

// bars draws lines as flat bars that run into each other.
func (dr *drawing) bars(width float64, lines [][]peg) {
	if width < paper.BarLeast {
		for _, line := range lines {
			dr.stroke(paper.LayerNeutral, paper.PenRod, line...)
		}
		return
	}
	edge, inside := paper.MetalPens(width, paper.PenThick, paper.WhiteFill)
	for _, line := range lines {
		dr.stroke(paper.LayerNeutral, edge, line...)
	}
	for _, line := range lines {
		dr.filling(paper.LayerNeutral, inside, line...)
	}
}

// rodLine returns a rod's two ends on the sheet.
func (dr *drawing) rodLine(pose *solve.Pose, rod *linkage.Rod) []paper.Place {
	return []paper.Place{dr.v.on(pose.Point(rod.From)), dr.v.on(pose.Point(rod.To))}
}

// rod draws a rod at neutral.
func (dr *drawing) rod(rod *linkage.Rod) {
	ends := []peg{dr.point(rod.From), dr.point(rod.To)}
	width := 0.0
	if rod.Diameter != nil {
		width = float64(*rod.Diameter * dr.v.scale)
	}
	dr.bars(width, [][]peg{ends})
	if dr.live == nil {
		dr.brackets(paper.LayerNeutral, paper.PenRod, dr.neutral, rod)
	}
	for i, end := range []linkage.PointRef{rod.From, rod.To} {
		dr.ring(paper.LayerHoles, paper.PenHole, ends[i], dr.hole(end.Part))
	}
	if dr.live != nil {
		liveDrawing{dr}.brackets(rod)
	}
	if dr.clip != nil {
		dr.breaks(pegPlaces(ends))
	}
}

// breaks marks where a rod is cut off.
func (dr *drawing) breaks(ends []paper.Place) {
	for _, piece := range dr.pieces(ends) {
		way := piece[0].To(piece[1])
		side := way.Square()
		for i, at := range piece {
			if at == ends[i] {
				continue
			}
			dr.scene.Line(paper.LayerHoles, paper.PenThin, at.Along(side, 9), at.Along(side, 2.5), at.Along(side, 1.5).Along(way, 4),
				at.Along(side, -1.5).Along(way, -4), at.Along(side, -2.5), at.Along(side, -9))
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
func (dr *drawing) brackets(l paper.Layer, p paper.Pen, pose *solve.Pose, rod *linkage.Rod) {
	ends := dr.rodLine(pose, rod)
	way := ends[0].To(ends[1])
	for i := range rod.Points {
		at := dr.v.on(pose.Point(linkage.PointRef{Rod: rod, Point: i}))
		foot := ends[0].Along(way, at.Sub(ends[0]).Dot(way))
		dr.line(l, p, ends[0], foot, at)
		if l == paper.LayerNeutral {
			dr.circle(paper.LayerHoles, paper.PenHole, at, holeRadius)
		}
	}
}
