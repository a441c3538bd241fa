package picture

import (
	"math"

	"fullfree/linkage"
	"fullfree/linkage/elementary"
	"fullfree/render"
	"fullfree/render/internal/paper"
	"fullfree/solve"
)

// arc is the travel of one part as it is drawn: an arc about its pivot, or a
// line beside its guide, both from the drawn position.
type arc struct {
	part        *linkage.Part
	unit        linkage.Unit
	least, most float64 // travel
	slides      bool
	middle      paper.Place // of an arc
	start       paper.Place // way from the middle to the drawn position, length 1; of a slide its way
	side        paper.Place // way of a small positive turn; of a slide the side it is drawn on
	radius      float64     // sheet units; of a slide how far beside its guide
	reach       float64     // from the middle to the point that it is drawn for
}

const (
	arcGap      = 15.0 // sheet units from the outermost point to its arc
	arcLeast    = 26.0 // least radius
	arcTurn     = 350.0
	arcApart    = 21.0 // between arcs about the same middle
	arcFinest   = 4.0  // degrees from corner to corner of a drawn arc
	slideBeside = 16.0
	headLong    = 8.0 // arrowheads
	headWide    = 2.6
	flagPole    = 20.0
	// arcVisible is how much travel, in degrees or in sheet units, is worth an
	// arc.
	arcVisible = 0.05
)

// at returns the place on the arc at a travel, out sheet units outside it.
func (a *arc) at(travel, out float64) paper.Place {
	if a.slides {
		return a.middle.Along(a.start, float64(travel*a.reach)).Along(a.side, a.radius+out)
	}
	return a.middle.Along(a.out(travel), a.radius+out)
}

// out returns the way off the arc, away from its middle.
func (a *arc) out(travel float64) paper.Place {
	if a.slides {
		return a.side
	}
	// A drawn arc stays below one turn; the figure beside it tells the rest.
	travel = math.Max(-arcTurn, math.Min(arcTurn, travel))
	sin, cos := elementary.Sincos(travel * math.Pi / 180)
	return a.start.Scale(cos).Add(a.side.Scale(sin))
}

// way returns the way along the arc towards more travel.
func (a *arc) way(travel float64) paper.Place {
	if a.slides {
		return a.start
	}
	const little = 0.01 // degrees
	return a.at(travel-little, 0).To(a.at(travel+little, 0))
}

// between returns the arc from one travel to another.
func (a *arc) between(from, to, out float64) []paper.Place {
	corners := 1.0
	if !a.slides {
		from, to = math.Max(-arcTurn, math.Min(arcTurn, from)), math.Max(-arcTurn, math.Min(arcTurn, to))
		corners = math.Max(1, math.Ceil(math.Abs(to-from)/arcFinest))
	}
	var list []paper.Place
	for i := 0.0; i <= corners; i++ {
		list = append(list, a.at(from+float64((to-from)*i/corners), out))
	}
	return list
}

// length returns how long the arc is on the sheet.
func (a *arc) length(from, to float64) float64 {
	if a.slides {
		return float64(math.Abs(to-from) * a.reach)
	}
	return float64(math.Abs(to-from) * math.Pi / 180 * a.radius)
}

// outermost returns the point of a part that shows its movement best, as
// drawn: the farthest from its axis, or the first of one that doesn't turn.
func outermost(part *linkage.Part) (linkage.Vec, bool) {
	best, far := linkage.Vec{}, -1.0
	consider := func(p linkage.Vec) {
		away := 0.0
		switch {
		case part.OnAxis():
			away = p.Sub(footOf(part, p)).Norm()
		case part.HasPivot():
			away = p.Sub(part.Pivot).Norm()
		}
		if away > far {
			best, far = p, away
		}
	}
	for _, p := range part.Points {
		consider(p.At)
	}
	if far > 0 || far == 0 && !part.HasPivot() {
		return best, true
	}
	for _, f := range part.Features {
		for _, p := range f.Through {
			consider(p)
		}
	}
	return best, far > 0 || far == 0 && !part.HasPivot()
}

// viewFor returns the view on the sheet that shows a movement best: about an
// axis, seen along it; along a way, or a tilt, seen from the side. None shows a part of another
// run, as that of a control may be in an aircraft.
func (d *diagram) viewFor(part *linkage.Part) *view {
	if d.run.Part(part) == nil {
		return nil
	}
	var best *view
	most := 0.0
	for _, v := range d.views {
		shows := v.faces(part.Axis)
		switch {
		case part.Motion == linkage.Slides:
			shows = v.way(part.Slide).Norm()
		case part.Spatial(): // its tilt is seen from beside it
			shows = v.way(part.SquareTo).Norm()
		}
		if shows > most+paper.ClearlyBetter {
			best, most = v, shows
		}
	}
	if most < faceOn {
		return nil
	}
	return best
}

// drawArcs draws the travel of every part that is seen best in this view.
func (dr *drawing) drawArcs() {
	for _, t := range dr.sweep.Parts {
		dr.drawTravel(t)
	}
	dr.drawFlags()
}

// drawTravel draws the travel of a part, where it is seen best in this view.
func (dr *drawing) drawTravel(t solve.PartTravel) {
	part := t.Part
	if dr.viewFor(part) != dr.v.whole() || !dr.v.letters(part) || part.Loose() || part.Spatial() || t.Unit != linkage.Degrees && part.OnAxis() {
		return
	}
	far, ok := outermost(part)
	if !ok {
		far = part.Pivot
	}
	a := &arc{part: part, unit: t.Unit, least: math.Min(t.Least, 0), most: math.Max(t.Most, 0)}
	if part.Motion == linkage.Slides {
		dr.alongGuide(a, far)
	} else {
		dr.aboutPivot(a, far)
	}
	dr.arcs = append(dr.arcs, a)
	dr.drawArc(a)
}

func (dr *drawing) alongGuide(a *arc, eye linkage.Vec) {
	a.slides = true
	way := dr.v.way(a.part.Slide)
	a.start, a.reach = way.Unit(), float64(way.Norm()*dr.v.scale)
	a.side = besideGuide(a.start)
	a.middle, a.radius = dr.v.on(eye), slideBeside
}

// besideGuide returns on which side of a guide its travel is drawn: the upper
// one, or the left.
func besideGuide(way paper.Place) paper.Place {
	side := way.Square()
	if side.Y > paper.ClearlyBetter || math.Abs(side.Y) <= paper.ClearlyBetter && side.X > 0 {
		return side.Scale(-1)
	}
	return side
}

func (dr *drawing) aboutPivot(a *arc, far linkage.Vec) {
	out := far.Sub(footOf(a.part, far))
	if out.Norm() == 0 {
		out, _ = across(a.part.Axis)
	}
	a.middle = dr.v.on(a.part.Pivot)
	way, side := dr.v.way(out), dr.v.way(a.part.Axis.Cross(out))
	a.start = way.Unit()
	// Seen a little from the side, an arc is still drawn round: the sense of
	// its turn is what counts.
	a.side = a.start.Square()
	if a.side.Dot(side) < 0 {
		a.side = a.side.Scale(-1)
	}
	a.reach = float64(way.Norm() * dr.v.scale)
	a.radius = math.Max(a.reach+arcGap, arcLeast)
	for again := true; again; {
		again = false
		for _, b := range dr.arcs {
			if !b.slides && b.middle.Distance(a.middle) < arcApart && math.Abs(b.radius-a.radius) < arcApart-paper.ClearlyBetter && arcsMeet(a, b) {
				a.radius, again = b.radius+arcApart, true
			}
		}
	}
}

// arcsMeet reports whether two arcs about the same middle would lie on each
// other, were their radii alike.
func arcsMeet(a, b *arc) bool {
	const margin = 12 // degrees, for arrowheads and figures
	middle := func(c *arc) paper.Place { return c.out((c.least + c.most) / 2) }
	half := func(c *arc) float64 { return math.Min(180, (c.most-c.least)/2) }
	apart := elementary.Acos(math.Max(-1, math.Min(1, middle(a).Dot(middle(b))))) * 180 / math.Pi
	return apart < half(a)+half(b)+margin
}

// visible reports whether a travel is worth an arc.
func (a *arc) visible(travel float64) bool {
	return math.Abs(travel) > arcVisible && a.length(0, travel) > nearly
}

// drawArc draws the arc with its arrowheads, and thin lines from the part out
// to it.
func (dr *drawing) drawArc(a *arc) {
	moves := false
	for _, travel := range []float64{a.least, a.most} {
		if !a.visible(travel) {
			continue
		}
		moves = true
		dr.line(paper.LayerCenters, paper.PenThin, a.between(0, travel, 0)...)
		dr.arrowhead(a.at(travel, 0), a.way(travel).Scale(math.Copysign(1, travel)), a.length(0, travel))
		dr.witness(a, travel)
	}
	if moves {
		dr.witness(a, 0)
	}
}

// witness draws the thin line that leads from a part out to its arc.
func (dr *drawing) witness(a *arc, travel float64) {
	const clear, over = 6.0, 4.0
	inner := a.reach - a.radius + clear
	if a.slides {
		inner = -a.radius + clear
	}
	if inner < over {
		dr.line(paper.LayerCenters, paper.PenLeader, a.at(travel, inner), a.at(travel, over))
	}
}

// arrowhead draws an arrowhead with its tip at a place, smaller where there
// is little room.
func (dr *drawing) arrowhead(tip, way paper.Place, room float64) {
	dr.polygon(paper.LayerCenters, paper.PenSolid, headAt(tip, way, math.Min(headLong, math.Max(room*0.8, headWide)))...)
}

// headAt returns the corners of an arrowhead.
func headAt(tip, way paper.Place, long float64) []paper.Place {
	back, side := tip.Along(way, -long), way.Square()
	return []paper.Place{tip, back.Along(side, headWide), back.Along(side, -headWide)}
}

// arcOf returns the arc of a part in this view, or nil.
func (dr *drawing) arcOf(part *linkage.Part) *arc {
	for _, a := range dr.arcs {
		if a.part == part {
			return a
		}
	}
	return nil
}

// drawFlags marks the on-center points: on the arc of the part that is on
// center, and by a shorter flag on that of the control.
func (dr *drawing) drawFlags() {
	for _, f := range dr.flags {
		for _, part := range dr.flagged(f) {
			a, travel, ok := dr.flagAt(f, part)
			if !ok {
				continue
			}
			from := math.Max(a.least, math.Min(a.most, travel))
			if a.length(from, travel) > nearly {
				dr.line(paper.LayerCenters, paper.PenBeyond, a.between(from, travel, 0)...)
			}
			foot, top := a.at(travel, 0), a.at(travel, flagPole)
			way := a.way(travel)
			dr.line(paper.LayerMarks, paper.PenThin, foot, top)
			dr.polygon(paper.LayerMarks, paper.PenSolid, top, top.Along(a.out(travel), -7).Along(way, 9), top.Along(a.out(travel), -9))
			dr.circle(paper.LayerMarks, paper.PenSolid, foot, 1.8)
		}
	}
}

// flagged returns the parts on whose arcs a flag stands.
func (dr *drawing) flagged(f onCenter) []*linkage.Part {
	part, own := f.Reads(), dr.sweep.Control.Of
	if part == nil {
		return []*linkage.Part{own}
	}
	if _, still := render.Wavers(dr.sweep, f.Critical); still || part == own {
		return []*linkage.Part{part}
	}
	return []*linkage.Part{part, own}
}

// flagAt returns where a flag stands on a part's arc.
func (dr *drawing) flagAt(f onCenter, part *linkage.Part) (a *arc, travel float64, ok bool) {
	a = dr.arcOf(part)
	pose, there := dr.sweep.At(f.At)
	if a == nil || !there {
		return nil, 0, false
	}
	return a, pose.Travel(part), true
}

// stopMark is where a stop is seen to bite.
type stopMark struct {
	stop *linkage.Stop
	at   paper.Place
	out  paper.Place // the way its label goes
}

// contacts draws what ends the travel: the faces that touch, or a bar across
// the arc of the part that a stop limits.
func (dr *drawing) contacts() {
	for _, s := range dr.shownPoses {
		if s.end < 0 || dr.sweep.Ends[s.end].Cause != solve.ByStop {
			continue
		}
		stop := dr.sweep.Ends[s.end].Stop
		if mark, ok := dr.contact(s, stop); ok {
			dr.marks = append(dr.marks, mark)
		}
	}
}

func (dr *drawing) contact(s shownPose, stop *linkage.Stop) (stopMark, bool) {
	const half, deep = 9.0, 8.0
	if dr.run.Stop(stop) == nil {
		return stopMark{}, false // another run's, on its own drawing
	}
	if stop.Of == nil {
		if dr.viewOfContact(stop) != dr.v.whole() {
			return stopMark{}, false
		}
		at, way, ok := dr.touching(s, stop)
		ok = ok && dr.v.lettersPlaces(at)
		side := way.Square()
		if ok {
			dr.line(paper.LayerMarks, paper.PenFace, at.Along(side, half), at.Along(side, -half))
		}
		return stopMark{stop, at, side}, ok
	}
	a := dr.arcOf(stop.Of)
	if a == nil {
		return stopMark{}, false
	}
	out, way := a.out(stop.At), a.way(stop.At)
	if !dr.rises(stop.Of, s.end) {
		way = way.Scale(-1)
	}
	foot := a.at(stop.At, 0)
	from, to := foot.Along(out, -deep), foot.Along(out, deep)
	dr.line(paper.LayerMarks, paper.PenFace, from, to)
	dr.hatchEdge(paper.LayerMarks, from.Along(way, 2), to.Along(way, 2), way)
	return stopMark{stop, foot, out}, true
}

// rises reports whether a part moves up its travel as the control comes to an
// end of its own.
func (dr *drawing) rises(part *linkage.Part, end int) bool {
	for _, t := range dr.sweep.Parts {
		if t.Part == part {
			return (t.AtHigh > t.AtLow) == (end == 1)
		}
	}
	return true
}

// viewOfContact returns the view in which two features are seen to meet.
func (d *diagram) viewOfContact(stop *linkage.Stop) *view {
	for _, f := range stop.Touch {
		if f.Part != nil && f.Part.OnAxis() {
			if v := d.viewFor(f.Part); v != nil {
				return v
			}
		}
	}
	return d.views[0]
}

// touching returns where two features touch at an end of the travel, and the
// way from one into the other: that of the gap just before they meet.
func (dr *drawing) touching(s shownPose, stop *linkage.Stop) (at, way paper.Place, ok bool) {
	const before = 0.01 // of the travel
	_, onA, onB, _ := s.pose.Gap(stop.Touch[0], stop.Touch[1])
	at = dr.v.on(onA.Add(onB).Scale(0.5))
	inside := s.at + float64(before*(dr.sweep.High-dr.sweep.Low))
	if s.end == 1 {
		inside = s.at - float64(before*(dr.sweep.High-dr.sweep.Low))
	}
	pose, there := dr.sweep.At(inside)
	if !there {
		return at, way, false
	}
	_, onA, onB, _ = pose.Gap(stop.Touch[0], stop.Touch[1])
	way = dr.v.way(onB.Sub(onA)).Unit()
	return at, way, way != paper.Place{}
}
