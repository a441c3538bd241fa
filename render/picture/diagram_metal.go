package picture

import (
	"math"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
	"fullfree/render/internal/paper"
	"fullfree/solve"
)

// faceOn is from where on a direction counts as pointing at the viewer: an
// arc of travel or a round seen so is still round enough to read.
const faceOn = 0.5

// feature draws metal that can touch other metal.
func (dr *drawing) feature(l paper.Layer, outline paper.Pen, fill string, pose *solve.Pose, part *linkage.Part, f *linkage.Feature) {
	if f.Shape == linkage.Round {
		dr.round(l, outline, fill, pose, part, f)
		return
	}
	line := dr.pegs(pose, part, f.Through...)
	width := dr.widthOf(part, f)
	if width < paper.BarLeast {
		outline.Width = math.Max(outline.Width, width)
		dr.stroke(l, outline, line...)
		return
	}
	if outline.Dash == "" {
		edge, inside := paper.MetalPens(width, outline, fill)
		dr.stroke(l, edge, line...)
		dr.filling(l, inside, line...)
		return
	}
	// Dashes need a real outline: one around each stretch, then the inside
	// wiped where they overlap.
	for i := 1; i < len(line); i++ {
		dr.polygon(l, outline, stadium(line[i-1].at, line[i].at, width/2)...)
	}
	_, inside := paper.MetalPens(width, outline, fill)
	dr.filling(l, inside, line...)
}

// widthOf returns the width of an edge on the sheet.
func (dr *drawing) widthOf(part *linkage.Part, f *linkage.Feature) float64 {
	if !f.Bar && dr.v.faces(part.Axis) < faceOn {
		return 0 // a plate seen from its edge: how deep it is isn't drawn
	}
	return float64(2 * f.Radius * dr.v.scale)
}

// stadium returns the outline of a round-ended bar.
func stadium(from, to paper.Place, radius float64) []paper.Place {
	const step = 22.5 // degrees from one corner of its ends to the next
	way := from.To(to)
	if way == (paper.Place{}) {
		way = paper.At(1, 0)
	}
	var list []paper.Place
	for _, end := range []struct {
		at    paper.Place
		start paper.Place
	}{{to, way.Square().Scale(-1)}, {from, way.Square()}} {
		side := end.start.Square()
		for turned := 0.0; turned <= 180; turned += step {
			sin, cos := elementary.Sincos(turned * math.Pi / 180)
			list = append(list, end.at.Add(end.start.Scale(float64(radius*cos))).Add(side.Scale(float64(radius*sin))))
		}
	}
	return list
}

// round draws a round, which is seen end on along its part's axis.
func (dr *drawing) round(l paper.Layer, outline paper.Pen, fill string, pose *solve.Pose, part *linkage.Part, f *linkage.Feature) {
	outline.Fill = fill
	if dr.endOn(part) {
		dr.ring(l, outline, dr.pegs(pose, part, f.Through[0])[0], math.Max(f.Radius*dr.v.scale, nearly))
		return
	}
	dr.outline(l, outline, dr.pegs(pose, part, rim(part, f)...)...)
}

// endOn reports whether the rounds of a part are seen as circles.
func (dr *drawing) endOn(part *linkage.Part) bool {
	const square = 0.9999
	return dr.v.faces(part.Axis) > square
}

// rim returns places all round a round, as drawn.
func rim(part *linkage.Part, f *linkage.Feature) []linkage.Vec {
	const sides = 36
	a, b := across(part.Axis)
	var list []linkage.Vec
	for i := range sides {
		sin, cos := elementary.Sincos(float64(i) * 2 * math.Pi / sides)
		list = append(list, f.Through[0].Add(a.Scale(float64(f.Radius*cos))).Add(b.Scale(float64(f.Radius*sin))))
	}
	return list
}

// across returns two directions square to a direction and to each other.
func across(axis linkage.Vec) (a, b linkage.Vec) {
	least := linkage.Vec{X: 1}
	if math.Abs(axis.X) > math.Abs(axis.Y) {
		least = linkage.Vec{Y: 1}
	}
	a = axis.Cross(least).Unit()
	return a, axis.Cross(a)
}

// pivot draws what a part turns on: center lines that cross, a boss, and the
// hatched ground under it where that is the airframe; seen from the side, a
// bearing on its center line. A ball is two circles from wherever it is seen.
func (dr *drawing) pivot(part *linkage.Part) {
	if !part.HasPivot() {
		return
	}
	at := dr.onSheet(dr.neutral, part, part.Pivot)[0]
	if part.OnAxis() && dr.v.faces(part.Axis) < faceOn {
		dr.bearing(part, at)
		return
	}
	for _, other := range dr.pivots {
		if other.Distance(at) < nearly {
			return
		}
	}
	dr.pivots = append(dr.pivots, at)
	if dr.v.inDetail(part) {
		dr.circle(paper.LayerHoles, paper.PenPivot, at, pivotRound/2)
		return
	}
	if part.Carrier == nil {
		dr.ground(at)
	}
	dr.circle(paper.LayerHoles, paper.PenPivot, at, pivotRound)
	if part.Motion == linkage.Tilts {
		dr.circle(paper.LayerHoles, paper.PenPivot, at, ballRound)
	}
	dr.cross(at, crossReach)
}

// ballRound is the radius of the inner of the two circles, sheet units, by which a ball is
// told from a pivot.
const ballRound = pivotRound / 2

// cross draws center lines that cross at a place.
func (dr *drawing) cross(at paper.Place, reach float64) {
	for _, way := range []paper.Place{paper.At(1, 0), paper.At(0, 1)} {
		dr.line(paper.LayerMarks, paper.PenCenter, at.Along(way, -reach), at.Along(way, reach))
	}
}

// bearing draws a pivot that is seen from the side.
func (dr *drawing) bearing(part *linkage.Part, at paper.Place) {
	half, wide, beyond := 8.0, 6.0, crossReach
	if dr.v.inDetail(part) {
		half, wide, beyond = half/2, wide/2, crossReach/2
	}
	way := dr.v.way(dr.neutral.Place(part, part.Pivot.Add(part.Axis)).Sub(dr.neutral.Place(part, part.Pivot))).Unit()
	low, high := -beyond, beyond
	for _, p := range part.Points {
		reach := dr.onSheet(dr.neutral, part, footOf(part, p.At))[0].Sub(at).Dot(way)
		low, high = math.Min(low, reach-beyond), math.Max(high, reach+beyond)
	}
	dr.line(paper.LayerMarks, paper.PenCenter, at.Along(way, low), at.Along(way, high))
	box := paper.PenThick
	box.Fill = paper.WhiteFill
	if part.Carrier == nil {
		box.Fill = paper.HatchFill
	}
	side := way.Square()
	dr.polygon(paper.LayerHoles, box,
		at.Along(way, half).Along(side, wide), at.Along(way, half).Along(side, -wide),
		at.Along(way, -half).Along(side, -wide), at.Along(way, -half).Along(side, wide))
}

// ground draws the mark of the airframe at a place, on the side where it
// hides least.
func (dr *drawing) ground(at paper.Place) {
	way, least := paper.At(0, 1), math.Inf(1)
	for _, side := range []paper.Place{paper.At(0, 1), paper.At(1, 0), paper.At(-1, 0), paper.At(0, -1)} {
		room := paper.SquareBox(at.Along(side, groundDrop), groundSide/2)
		if hides := dr.labels.Covers(room, paper.PenThick.Weight); hides < least-paper.ClearlyBetter {
			way, least = side, hides
		}
	}
	foot, across := at.Along(way, groundDrop), way.Square()
	left, right := foot.Along(across, groundSide), foot.Along(across, -groundSide)
	legs := paper.PenThin
	legs.Fill = paper.WhiteFill
	dr.polygon(paper.LayerHoles, legs, at, left.Along(across, -groundSide/3), right.Along(across, groundSide/3))
	dr.line(paper.LayerHoles, paper.PenThick, left, right)
	dr.hatchEdge(paper.LayerHoles, left, right, way)
}

// hatchEdge draws the strokes that tell solid material behind a line.
func (dr *drawing) hatchEdge(l paper.Layer, from, to, behind paper.Place) {
	const pitch, deep = 4.5, 5.0
	way, long := from.To(to), from.Distance(to)
	for at := pitch; at < long+1; at += pitch {
		top := from.Along(way, at)
		dr.line(l, paper.PenThin, top, top.Along(behind, deep).Along(way, -deep*0.8))
	}
}

// eyeOf is the place by which a sliding part is drawn in its guide, as drawn.
func eyeOf(part *linkage.Part) linkage.Vec {
	if len(part.Points) > 0 {
		return part.Points[0].At
	}
	return part.Pivot
}

// slideReach returns where a sliding part's eye is, and how far it gets along its
// way, less than 0 and more, in the positions that are drawn.
func (dr *drawing) slideReach(part *linkage.Part, way paper.Place) (at paper.Place, low, high float64) {
	at = dr.onSheet(dr.neutral, part, eyeOf(part))[0]
	for _, s := range dr.shownPoses {
		reach := dr.onSheet(s.pose, part, eyeOf(part))[0].Sub(at).Dot(way)
		low, high = math.Min(low, reach), math.Max(high, reach)
	}
	return at, low, high
}

// guide draws what a sliding part slides in: a chain line along its way, and
// rails beside the stem on its far side from the rods.
func (dr *drawing) guide(part *linkage.Part) {
	if dr.v.faces(part.Slide) > 1-faceOn/2 {
		return // it slides towards the viewer
	}
	way := dr.v.way(part.Slide).Unit()
	at, low, high := dr.slideReach(part, way)
	pull := 0.0
	for _, rod := range dr.run.Rods {
		ends := dr.rodLine(dr.neutral, rod)
		if rod.From.Part == part {
			pull += ends[1].Sub(ends[0]).Dot(way)
		}
		if rod.To.Part == part {
			pull += ends[0].Sub(ends[1]).Dot(way)
		}
	}
	away, travel := way, high
	if pull > 0 {
		away, travel = way.Scale(-1), -low
	}
	const stem, rails, railsFrom, apart = 40.0, 20.0, 12.0, 7.0
	tail := at.Along(away, travel+stem)
	dr.line(paper.LayerCenters, paper.PenCenter, at.Along(away, -crossReach-high+low), tail.Along(away, holeRadius*2))
	edge, inside := paper.MetalPens(barWidth-2, paper.PenThick, paper.WhiteFill)
	dr.line(paper.LayerNeutral, edge, at, tail)
	dr.inside(paper.LayerNeutral, inside, at, tail)
	side := away.Square()
	for _, hand := range []float64{1, -1} {
		from := at.Along(away, travel+railsFrom).Along(side, float64(hand*apart))
		to := from.Along(away, rails)
		dr.line(paper.LayerMarks, paper.PenThick, from, to)
		if part.Carrier == nil {
			dr.hatchEdge(paper.LayerMarks, from, to, side.Scale(hand))
		}
	}
}
