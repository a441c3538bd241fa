package picture

import (
	"math"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
	"fullfree/render"
	"fullfree/render/figure"
	"fullfree/render/internal/paper"
	"fullfree/solve"
)

// Sizes of what cables are drawn with, in sheet units.
const (
	conduitWidth = 5.0  // between the two lines of a conduit
	ferruleLong  = 9.0  // of the end of a conduit
	ferruleWide  = 6.0  //
	plateReach   = 10.0 // of the plate that holds it, to each side
	nutLong      = 4.0
	nutWide      = 11.0
	rimTurn      = 100.0 // degrees of a quadrant's rim that are drawn from where the cable leaves it back
	rimSpare     = 25.0  // and on, as much as it may turn
	rimStep      = 5.0   // degrees from one corner of a drawn rim to the next
	// conduitBend is how far a conduit, whose path isn't known, is drawn going on
	// the way it leaves its ends, as a share of the distance between them.
	conduitBend  = 0.35
	conduitParts = 24
)

// penCore is the line of a core, and of an open cable.
var penCore = paper.Pen{Width: 1.4, Round: true, Weight: 2}

// cableNumber is the number in a cable's balloon and in the parts list.
func (d *diagram) cableNumber(c *linkage.Cable) int {
	return len(d.run.Parts) + len(d.run.Rods) + c.Index + 1
}

// cableWords tells what a cable is.
func (d *diagram) cableWords(c *linkage.Cable) string {
	switch {
	case !c.Open():
		return "cable in conduit, " + figure.Length(*render.CoreOf(c), d.run.Units) + " of core"
	case c.Wire != nil:
		return "open cable, " + c.Wire.String()
	}
	return "open cable"
}

// conduitNote tells what of cables isn't drawn as it is; empty where no cable is.
func (d *diagram) conduitNote() string {
	for _, c := range d.run.Cables {
		if !c.Open() {
			return "Conduit, double line: path not drawn true."
		}
	}
	return ""
}

// conduitPath is the way on which a conduit is drawn, as it stands: a smooth curve
// that goes on from the core at each end.
func conduitPath(pose *solve.Pose, c *linkage.Cable) []linkage.Vec {
	var end, way [2]linkage.Vec
	for i, leg := range c.Legs() {
		end[i] = pose.Point(leg[1])
		way[i] = end[i].Sub(pose.Point(leg[0])).Unit()
	}
	bend := float64(conduitBend * end[1].Sub(end[0]).Norm())
	from, to := end[0].Add(way[0].Scale(bend)), end[1].Add(way[1].Scale(bend))
	var path []linkage.Vec
	for i := range conduitParts + 1 {
		t := float64(i) / conduitParts
		u := 1 - t
		path = append(path, end[0].Scale(float64(u*u*u)).Add(from.Scale(float64(3*u*u*t))).Add(to.Scale(float64(3*u*t*t))).Add(end[1].Scale(float64(t*t*t))))
	}
	return path
}

// tangent is where an open cable leaves its quadrants, and which way it goes from
// the first to the second.
type tangent struct {
	at  [2]linkage.Vec
	way linkage.Vec
}

// tangentOf finds it: on each quadrant the side from which the cable winds as it
// is told to. ok is false of quadrants whose axes aren't parallel, or that lie
// within each other: how the cable runs between those isn't known, and it is drawn
// from pivot to pivot.
func tangentOf(c *linkage.Cable) (t tangent, ok bool) {
	a, b := c.Quadrants[0], c.Quadrants[1]
	axis := a.Axis
	apart := b.Pivot.Sub(a.Pivot)
	apart = apart.Sub(axis.Scale(apart.Dot(axis)))
	along, across := apart.Unit(), axis.Cross(apart.Unit())
	turn := axis.Dot(b.Axis) // 1, or -1 where they turn about opposite ways
	// What each winds up by turning about the first axis: the cable leaves the
	// quadrant at axis x way, or opposite.
	first, second := c.Winds[0], float64(c.Winds[1]*math.Copysign(1, turn))
	sine := (float64(first*c.Radius[0]) + float64(second*c.Radius[1])) / apart.Norm()
	if math.Abs(turn) < 1-render.SquareToDrawing || !(math.Abs(sine) < 1) {
		return tangent{at: [2]linkage.Vec{a.Pivot, b.Pivot}, way: b.Pivot.Sub(a.Pivot).Unit()}, false
	}
	cos := math.Sqrt(1 - float64(sine*sine))
	t.way = along.Scale(cos).Sub(across.Scale(sine))
	side := axis.Cross(t.way)
	t.at[0] = a.Pivot.Add(side.Scale(float64(first * c.Radius[0])))
	t.at[1] = b.Pivot.Sub(side.Scale(float64(second * c.Radius[1])))
	return t, true
}

// rim is the part of a quadrant's rim that a cable lies on, as lines through
// places: from where it leaves it backwards, and on by as much as it may turn.
func (t tangent) rim(c *linkage.Cable, i int) []linkage.Vec { return t.rimPast(c, i, rimSpare) }

// rimPast is rim on by so many degrees.
func (t tangent) rimPast(c *linkage.Cable, i int, spare float64) []linkage.Vec {
	part := c.Quadrants[i]
	out := t.at[i].Sub(part.Pivot)
	out = out.Sub(part.Axis.Scale(out.Dot(part.Axis)))
	leaves := t.way
	if i == 1 {
		leaves = leaves.Scale(-1)
	}
	radius := out.Norm()
	out = out.Unit()
	var list []linkage.Vec
	for turned := -spare; turned <= rimTurn; turned += rimStep {
		sin, cos := elementary.Sincos(turned * math.Pi / 180)
		list = append(list, part.Pivot.Add(out.Scale(float64(radius*cos))).Sub(leaves.Scale(float64(radius*sin))))
	}
	return list
}

// rimOf is the largest radius at which a cable lies on a part; 0: none does.
func (d *diagram) rimOf(part *linkage.Part) float64 {
	most := 0.0
	for _, c := range d.run.Cables {
		if !c.Open() {
			continue
		}
		for i, quadrant := range c.Quadrants {
			if quadrant == part {
				most = math.Max(most, c.Radius[i])
			}
		}
	}
	return most
}

// reachOfConduits returns what conduits take where they are drawn.
func (d *diagram) reachOfConduits() []sphere {
	var all []sphere
	for _, c := range d.run.Cables {
		if c.Open() {
			continue
		}
		for _, s := range d.shownPoses {
			if s.neutral {
				for _, p := range conduitPath(s.pose, c) {
					all = append(all, sphere{p, 0})
				}
			}
		}
	}
	return all
}

// holdsConduit reports whether a conduit is held at a point of a part.
func (d *diagram) holdsConduit(part *linkage.Part, point string) bool {
	return d.cableAt(part, point, 1)
}

// holdsCore reports whether a core is held at a point of a part.
func (d *diagram) holdsCore(part *linkage.Part, point string) bool {
	return d.cableAt(part, point, 0)
}

func (d *diagram) cableAt(part *linkage.Part, point string, end int) bool {
	for _, c := range d.run.Cables {
		if c.Open() {
			continue
		}
		for _, leg := range c.Legs() {
			if leg[end].Part == part && leg[end].Get().Name == point {
				return true
			}
		}
	}
	return false
}

// cables draws every cable at neutral.
func (dr *drawing) cables() {
	dr.conduits()
	for _, c := range dr.run.Cables {
		if !c.Open() {
			dr.cores(paper.LayerNeutral, penCore, dr.neutral, c)
		}
	}
}

// conduits draws what of cables stays where it is: open ones, conduits, and how
// these are held.
func (dr *drawing) conduits() {
	for _, c := range dr.run.Cables {
		if c.Open() {
			dr.openCable(c)
			continue
		}
		dr.conduit(c)
		for i, leg := range c.Legs() {
			dr.conduitEnd(c, i, leg)
		}
	}
}

// conduit draws a conduit as two lines along its path.
func (dr *drawing) conduit(c *linkage.Cable) {
	var path []paper.Place
	for _, p := range conduitPath(dr.neutral, c) {
		path = append(path, dr.v.on(p))
	}
	edge, inside := paper.MetalPens(conduitWidth, paper.PenThin, paper.WhiteFill)
	edge.Weight = paper.PenThin.Weight
	dr.line(paper.LayerCenters, edge, path...)
	dr.inside(paper.LayerCenters, inside, path...)
}

// cores draws the core of a cable outside its conduit in a position.
func (dr *drawing) cores(l paper.Layer, p paper.Pen, pose *solve.Pose, c *linkage.Cable) {
	for _, line := range dr.coreLines(pose, c) {
		dr.line(l, p, line...)
	}
}

// coreLines are where that comes on the sheet.
func (dr *drawing) coreLines(pose *solve.Pose, c *linkage.Cable) (lines [][]paper.Place) {
	for _, leg := range c.Legs() {
		lines = append(lines, []paper.Place{dr.v.on(pose.Point(leg[0])), dr.v.on(pose.Point(leg[1]))})
	}
	return lines
}

// ghostCables draws the cores of cables away from neutral.
func (dr *drawing) ghostCables(s shownPose) {
	for _, c := range dr.run.Cables {
		if c.Open() {
			continue // it leaves its quadrants where it does at neutral
		}
		was := dr.coreLines(dr.neutral, c)
		for i, now := range dr.coreLines(s.pose, c) {
			if movedFrom(was[i], now) {
				dr.line(paper.LayerEnds, ghostPen(s), now...)
			}
		}
	}
}

// conduitEnd draws how a conduit is held: its ferrule, the plate through which it
// goes, hatched where that is the airframe, and the nuts of an adjuster.
func (dr *drawing) conduitEnd(c *linkage.Cable, side int, leg [2]linkage.PointRef) {
	at := dr.v.on(dr.neutral.Point(leg[1]))
	way := dr.v.on(dr.neutral.Point(leg[0])).To(at) // along the core, into the conduit
	if way == (paper.Place{}) || dr.clip != nil && !dr.clip.Holds(at) {
		return
	}
	square := way.Square()
	box := func(p paper.Pen, from, to, half float64) {
		dr.polygon(paper.LayerHoles, p,
			at.Along(way, from).Along(square, half), at.Along(way, to).Along(square, half),
			at.Along(way, to).Along(square, -half), at.Along(way, from).Along(square, -half))
	}
	ferrule := paper.PenThin
	ferrule.Fill, ferrule.Width = paper.WhiteFill, 1.2
	box(ferrule, -ferruleLong/2, ferruleLong, ferruleWide/2)
	if c.End([...]string{"conduit-from", "conduit-to"}[side]) != nil {
		box(ferrule, -1-nutLong, -1, nutWide/2)
		box(ferrule, 1, 1+nutLong, nutWide/2)
	}
	for _, hand := range []float64{1, -1} {
		near, far := at.Along(square, hand*ferruleWide/2), at.Along(square, float64(hand*plateReach))
		dr.line(paper.LayerHoles, paper.PenThick, near, far)
		if leg[1].Part != nil && leg[1].Part.Motion == linkage.Fixed {
			dr.hatchEdge(paper.LayerHoles, at.Along(square, hand*nutWide/2), far.Along(square, hand*4), way)
		}
	}
}

// openCable draws an open cable, which leaves its quadrants in the same place
// wherever these stand, and their rims.
func (dr *drawing) openCable(c *linkage.Cable) {
	t, ok := tangentOf(c)
	straight := []paper.Place{dr.v.on(t.at[0]), dr.v.on(t.at[1])}
	if dr.live != nil {
		sh := paper.Shape{Pen: penCore, Through: straight, Attrs: dr.live.tension(c)}
		dr.scene.Add(paper.LayerNeutral, sh)
		dr.avoid(dr.labels, sh)
	} else {
		dr.line(paper.LayerNeutral, penCore, straight...)
	}
	for i, part := range c.Quadrants {
		if !ok {
			break
		}
		on := dr.rim(t, c, i)
		dr.stroke(paper.LayerNeutral, paper.PenThick, on...)
		// What the rim ends at shows how it turns.
		pivot := dr.pegs(dr.neutral, part, part.Pivot)[0]
		dr.stroke(paper.LayerCenters, paper.PenThin, pivot, on[0])
		if c.Pair == nil {
			dr.stroke(paper.LayerCenters, paper.PenThin, pivot, on[len(on)-1])
		}
	}
	if dr.clip != nil {
		dr.breaks(straight)
	}
}

// rim is a quadrant's rim: as it stands at neutral, but in a picture that moves
// as much more of it as comes to be seen.
func (dr *drawing) rim(t tangent, c *linkage.Cable, i int) []peg {
	if dr.live != nil {
		part := c.Quadrants[i]
		return dr.pegs(dr.neutral, part, t.rimPast(c, i, dr.live.rimSpare(part))...)
	}
	var on []peg
	for _, p := range t.rim(c, i) {
		on = append(on, peg{at: dr.v.on(p)})
	}
	return on
}

// cableSpots are the places of a cable that its balloon may point at: on its
// conduit, or along it where it is open.
func (dr *drawing) cableSpots(c *linkage.Cable) []paper.Place {
	var path []paper.Place
	if c.Open() {
		t, _ := tangentOf(c)
		for _, share := range []float64{0.4, 0.6, 0.25, 0.75, 0.5, 0.1, 0.9} {
			path = append(path, dr.v.on(t.at[0].Add(t.at[1].Sub(t.at[0]).Scale(share))))
		}
		return path
	}
	curve := conduitPath(dr.neutral, c)
	for _, share := range []float64{0.5, 0.3, 0.7, 0.15, 0.85} {
		path = append(path, dr.v.on(curve[int(share*conduitParts)]))
	}
	return path
}

// cableBalloons numbers every cable, in the view where it comes out longest.
func (dr *drawing) cableBalloons() {
	for _, c := range dr.run.Cables {
		if dr.v.of != nil || dr.viewOfCable(c) != dr.v {
			continue
		}
		dr.balloon(dr.cableNumber(c), dr.v.unframed(dr.cableSpots(c)), false)
	}
}

// viewOfCable returns the view in which a cable comes out longest, the first of
// those alike.
func (d *diagram) viewOfCable(c *linkage.Cable) *view {
	var ends [2]linkage.Vec
	if c.Open() {
		t, _ := tangentOf(c)
		ends = t.at
	} else {
		ends = [2]linkage.Vec{c.Conduit[0].Get().At, c.Conduit[1].Get().At}
	}
	best, most := d.views[0], -1.0
	for _, v := range d.views {
		if long := v.way(ends[1].Sub(ends[0])).Norm(); long > most+paper.ClearlyBetter {
			best, most = v, long
		}
	}
	return best
}
