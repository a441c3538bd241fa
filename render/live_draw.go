package render

import (
	"math"

	"fullfree/linkage"
)

// liveDrawing is one view of a live picture while it is drawn. What moves is
// drawn with mounts; what stands still as in the diagram.
type liveDrawing struct {
	*drawing
	live *live
}

// drawLive draws one view.
func (l *live) drawLive(v *view) *scene {
	dr := l.newDrawing(v)
	s := dr.scene
	ld := &liveDrawing{drawing: dr, live: l}
	dr.ghostMetal()
	dr.ghosts()
	dr.airframe()
	ld.cables()
	for _, part := range l.run.Parts {
		ld.part(part)
	}
	for _, rod := range l.run.Rods {
		ld.rod(rod)
	}
	for _, part := range l.run.Parts {
		ld.pivot(part)
	}
	ld.marks()
	tags := ld.names()
	for _, at := range []place{v.least, v.most} {
		s.room = append(s.room, v.zero.add(at.scale(v.scale)))
	}
	l.drawn = append(l.drawn, liveView{v: v, tags: tags})
	return s
}

// marks marks the travel of the control's part and what ends it.
func (ld *liveDrawing) marks() {
	own := ld.sweep.Control.Of
	of := map[*linkage.Part]bool{}
	for _, end := range ld.sweep.Ends {
		if end.Stop != nil && end.Stop.Of != nil && end.Stop.Of != own {
			of[end.Stop.Of] = true
		}
	}
	for _, t := range ld.sweep.Parts {
		if t.Part == own {
			ld.drawTravel(t)
		}
	}
	measured := len(ld.arcs)
	for _, t := range ld.sweep.Parts {
		if of[t.Part] {
			ld.drawTravel(t)
		}
	}
	ld.drawFlags()
	ld.contacts()
	ld.everywhere()
	arcs := ld.arcs
	ld.arcs = arcs[:measured]
	ld.labelArcs()
	ld.arcs = arcs
	for _, f := range ld.flags {
		for _, part := range ld.drawing.flagged(f) {
			if a, travel, ok := ld.flagAt(f, part); ok {
				t := text{says: f.mark, size: labelSize, bold: true, halo: true}
				top := a.at(travel, flagPole)
				ld.put(t, top, allRound(t, top, a.out(travel), 3, 6)...)
				ld.live.flagged[f.mark] = true
			}
		}
	}
	ld.labelStops()
}

// everywhere keeps labels that stand still off what moves, wherever it gets.
func (ld *liveDrawing) everywhere() {
	for _, frames := range ld.live.through {
		for _, s := range ld.scene.shapes[layerNeutral] {
			if len(s.mounts) > 0 {
				was := s.through
				s.through = seen(ld.v, frames, s.mounts...)
				if movedFrom(was, s.through) {
					ld.avoid(ld.labels, s)
				}
			}
		}
	}
}

// move draws a line that follows mounts.
func (ld *liveDrawing) move(l layer, p pen, mounts ...mount) {
	ld.follow(l, shape{pen: p, mounts: mounts})
}

// dot draws a circle that follows a mount.
func (ld *liveDrawing) dot(l layer, p pen, at mount, radius float64) {
	ld.follow(l, shape{pen: p, mounts: []mount{at}, radius: radius})
}

// follow draws a shape that follows mounts.
func (ld *liveDrawing) follow(l layer, s shape) {
	s.through = seen(ld.v, ld.live.neutral, s.mounts...)
	ld.scene.add(l, s)
	ld.avoid(ld.labels, s)
}

// avoid keeps labels off a shape.
func (ld *liveDrawing) avoid(labels *placer, s shape) {
	if s.radius == 0 {
		labels.avoid(s.pen, s.line()...)
		return
	}
	at := s.through[0]
	for _, way := range []place{{1, 0}, {0, 1}} {
		labels.avoid(s.pen, at.along(way, -s.radius), at.along(way, s.radius))
	}
}

// attach makes what was drawn at neutral near a mount move with its body.
func (ld *liveDrawing) attach(s *scene, near mount) {
	from := seen(ld.v, ld.live.neutral, near)[0]
	for l, shapes := range s.shapes {
		for _, sh := range shapes {
			if near.body != fixedBody {
				for _, p := range sh.through {
					sh.mounts = append(sh.mounts, ld.live.hold(ld.v, near, p.sub(from)))
				}
			}
			ld.scene.add(layer(l), sh)
			ld.avoid(ld.labels, sh)
		}
	}
}

// aside draws on a scene of its own.
func (ld *liveDrawing) aside(draw func(*drawing)) *scene {
	s := &scene{}
	dr := *ld.drawing
	dr.scene, dr.labels, dr.pivots = s, newPlacer(s, ld.v.low, ld.v.high), nil
	draw(&dr)
	return s
}

// part draws a moving part.
func (ld *liveDrawing) part(part *linkage.Part) {
	if part.Motion == linkage.Fixed {
		return
	}
	for i := range part.Features {
		ld.metal(part, &part.Features[i])
	}
	if part.Motion == linkage.Slides {
		ld.slide(part)
	}
	var lines [][]mount
	for _, line := range skeleton(part) {
		lines = append(lines, ld.mountsOn(part, line...))
	}
	ld.bars(ld.barOf(part), lines)
	for _, p := range part.Points {
		ld.dot(layerHoles, penHole, ld.live.mountOn(part, p.At), holeRadius)
	}
}

func (ld *liveDrawing) mountsOn(part *linkage.Part, drawn ...linkage.Vec) []mount {
	var list []mount
	for _, p := range drawn {
		list = append(list, ld.live.mountOn(part, p))
	}
	return list
}

// bars draws lines as flat bars that run into each other.
func (ld *liveDrawing) bars(width float64, lines [][]mount) {
	if width < barLeast {
		for _, line := range lines {
			ld.move(layerNeutral, penRod, line...)
		}
		return
	}
	edge, inside := metalPens(width, penThick, whiteFill)
	for _, p := range []pen{edge, inside} {
		for _, line := range lines {
			ld.move(layerNeutral, p, line...)
		}
	}
}

// metal draws metal that can touch other metal.
func (ld *liveDrawing) metal(part *linkage.Part, f *linkage.Feature) {
	if f.Shape == linkage.Round {
		ld.roundMetal(part, f)
		return
	}
	line := ld.mountsOn(part, f.Through...)
	width := ld.widthOf(part, f)
	if width < barLeast {
		p := penThick
		p.width = math.Max(p.width, width)
		ld.move(layerNeutral, p, line...)
		return
	}
	ld.bars(width, [][]mount{line})
}

// roundMetal draws a round: seen along its axis a circle, else its rim.
func (ld *liveDrawing) roundMetal(part *linkage.Part, f *linkage.Feature) {
	p := penThick
	p.fill = whiteFill
	if ld.endOn(part) {
		ld.dot(layerNeutral, p, ld.live.mountOn(part, f.Through[0]), math.Max(f.Radius*ld.v.scale, nearly))
		return
	}
	ld.follow(layerNeutral, shape{pen: p, mounts: ld.mountsOn(part, rim(part, f)...), closed: true})
}

// slide draws what a sliding part slides in, which its carrier moves, and the
// stem that it moves itself.
func (ld *liveDrawing) slide(part *linkage.Part) {
	s := ld.aside(func(dr *drawing) { dr.guide(part) })
	stem := &scene{}
	stem.shapes[layerNeutral], s.shapes[layerNeutral] = s.shapes[layerNeutral], nil
	eye := part.Pivot
	if len(part.Points) > 0 {
		eye = part.Points[0].At
	}
	on := ld.live.mountOn(part, eye)
	ld.attach(stem, on)
	ld.attach(s, ld.carrier(part, on))
}

// carrier mounts on what carries a part the place where a mount is at neutral.
func (ld *liveDrawing) carrier(part *linkage.Part, at mount) mount {
	body := fixedBody
	if part.Carrier != nil {
		body = ld.live.mountAt(*part.Carrier).body
	}
	return ld.live.fasten(body, at.place(ld.live.neutral))
}

// rod draws a rod.
func (ld *liveDrawing) rod(rod *linkage.Rod) {
	ends := []mount{ld.live.mountAt(rod.From), ld.live.mountAt(rod.To)}
	if rod.Diameter != nil && *rod.Diameter*ld.v.scale >= barLeast {
		ld.bars(float64(*rod.Diameter*ld.v.scale), [][]mount{ends})
	} else {
		ld.move(layerNeutral, penRod, ends...)
	}
	for _, end := range ends {
		ld.dot(layerHoles, penHole, end, holeRadius)
	}
	if len(rod.Points) == 0 {
		return
	}
	// Brackets stand square to the rod.
	body := ld.live.bodies.rods[rod]
	from := rod.From.Get().At
	way := rod.To.Get().At.Sub(from).Unit()
	for i, p := range rod.Points {
		foot := from.Add(way.Scale(p.At.Sub(from).Dot(way)))
		at := ld.live.mountAt(linkage.PointRef{Rod: rod, Point: i})
		ld.move(layerNeutral, penRod, ld.live.mount(body, foot), at)
		ld.dot(layerHoles, penHole, at, holeRadius)
	}
}

// pivot draws what a part turns on: it moves where another part carries it.
func (ld *liveDrawing) pivot(part *linkage.Part) {
	if part.Motion != linkage.Turns {
		return
	}
	if part.Carrier == nil {
		ld.drawing.pivot(part)
		return
	}
	ld.attach(ld.aside(func(dr *drawing) { dr.pivot(part) }), ld.live.mountOn(part, part.Pivot))
}
