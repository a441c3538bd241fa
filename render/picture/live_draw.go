package picture

import (
	"math"

	"fullfree/linkage"
	"fullfree/render/internal/paper"
)

// liveDrawing is one view of a live picture while it is drawn. What moves is
// drawn with mounts; what stands still as in the diagram.
type liveDrawing struct {
	*drawing
	live *live
}

// drawLive draws one view.
func (l *live) drawLive(v *view) *paper.Scene {
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
	for _, at := range []paper.Place{v.least, v.most} {
		s.Room = append(s.Room, v.zero.Add(at.Scale(v.scale)))
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
				t := paper.Text{Says: f.mark, Size: labelSize, Bold: true, Halo: true}
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
		for _, s := range ld.scene.Shapes[paper.LayerNeutral] {
			if len(s.Mounts) > 0 {
				was := s.Through
				s.Through = seen(ld.v, frames, s.Mounts...)
				if movedFrom(was, s.Through) {
					ld.avoid(ld.labels, s)
				}
			}
		}
	}
}

// move draws a line that follows mounts.
func (ld *liveDrawing) move(l paper.Layer, p paper.Pen, mounts ...paper.Mount) {
	ld.follow(l, paper.Shape{Pen: p, Mounts: mounts})
}

// dot draws a circle that follows a mount.
func (ld *liveDrawing) dot(l paper.Layer, p paper.Pen, at paper.Mount, radius float64) {
	ld.follow(l, paper.Shape{Pen: p, Mounts: []paper.Mount{at}, Radius: radius})
}

// follow draws a shape that follows mounts.
func (ld *liveDrawing) follow(l paper.Layer, s paper.Shape) {
	s.Through = seen(ld.v, ld.live.neutral, s.Mounts...)
	ld.scene.Add(l, s)
	ld.avoid(ld.labels, s)
}

// avoid keeps labels off a shape.
func (ld *liveDrawing) avoid(labels *paper.Placer, s paper.Shape) {
	if s.Radius == 0 {
		labels.Avoid(s.Pen, s.Line()...)
		return
	}
	at := s.Through[0]
	for _, way := range []paper.Place{paper.At(1, 0), paper.At(0, 1)} {
		labels.Avoid(s.Pen, at.Along(way, -s.Radius), at.Along(way, s.Radius))
	}
}

// attach makes what was drawn at neutral near a mount move with its body.
func (ld *liveDrawing) attach(s *paper.Scene, near paper.Mount) {
	from := seen(ld.v, ld.live.neutral, near)[0]
	for l, shapes := range s.Shapes {
		for _, sh := range shapes {
			if near.Body != fixedBody {
				for _, p := range sh.Through {
					sh.Mounts = append(sh.Mounts, ld.live.hold(ld.v, near, p.Sub(from)))
				}
			}
			ld.scene.Add(paper.Layer(l), sh)
			ld.avoid(ld.labels, sh)
		}
	}
}

// aside draws on a scene of its own.
func (ld *liveDrawing) aside(draw func(*drawing)) *paper.Scene {
	s := &paper.Scene{}
	dr := *ld.drawing
	dr.scene, dr.labels, dr.pivots = s, paper.NewPlacer(s, ld.v.low, ld.v.high), nil
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
	var lines [][]paper.Mount
	for _, line := range skeleton(part) {
		lines = append(lines, ld.mountsOn(part, line...))
	}
	ld.bars(ld.barOf(part), lines)
	for _, p := range part.Points {
		ld.dot(paper.LayerHoles, paper.PenHole, ld.live.mountOn(part, p.At), holeRadius)
	}
}

func (ld *liveDrawing) mountsOn(part *linkage.Part, drawn ...linkage.Vec) []paper.Mount {
	var list []paper.Mount
	for _, p := range drawn {
		list = append(list, ld.live.mountOn(part, p))
	}
	return list
}

// bars draws lines as flat bars that run into each other.
func (ld *liveDrawing) bars(width float64, lines [][]paper.Mount) {
	if width < paper.BarLeast {
		for _, line := range lines {
			ld.move(paper.LayerNeutral, paper.PenRod, line...)
		}
		return
	}
	edge, inside := paper.MetalPens(width, paper.PenThick, paper.WhiteFill)
	for _, p := range []paper.Pen{edge, inside} {
		for _, line := range lines {
			ld.move(paper.LayerNeutral, p, line...)
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
	if width < paper.BarLeast {
		p := paper.PenThick
		p.Width = math.Max(p.Width, width)
		ld.move(paper.LayerNeutral, p, line...)
		return
	}
	ld.bars(width, [][]paper.Mount{line})
}

// roundMetal draws a round: seen along its axis a circle, else its rim.
func (ld *liveDrawing) roundMetal(part *linkage.Part, f *linkage.Feature) {
	p := paper.PenThick
	p.Fill = paper.WhiteFill
	if ld.endOn(part) {
		ld.dot(paper.LayerNeutral, p, ld.live.mountOn(part, f.Through[0]), math.Max(f.Radius*ld.v.scale, nearly))
		return
	}
	ld.follow(paper.LayerNeutral, paper.Shape{Pen: p, Mounts: ld.mountsOn(part, rim(part, f)...), Closed: true})
}

// slide draws what a sliding part slides in, which its carrier moves, and the
// stem that it moves itself.
func (ld *liveDrawing) slide(part *linkage.Part) {
	s := ld.aside(func(dr *drawing) { dr.guide(part) })
	stem := &paper.Scene{}
	stem.Shapes[paper.LayerNeutral], s.Shapes[paper.LayerNeutral] = s.Shapes[paper.LayerNeutral], nil
	eye := part.Pivot
	if len(part.Points) > 0 {
		eye = part.Points[0].At
	}
	on := ld.live.mountOn(part, eye)
	ld.attach(stem, on)
	ld.attach(s, ld.carrier(part, on))
}

// carrier mounts on what carries a part the place where a mount is at neutral.
func (ld *liveDrawing) carrier(part *linkage.Part, at paper.Mount) paper.Mount {
	body := fixedBody
	if part.Carrier != nil {
		body = ld.live.mountAt(*part.Carrier).Body
	}
	return ld.live.fasten(body, placeOf(at, ld.live.neutral))
}

// rod draws a rod.
func (ld *liveDrawing) rod(rod *linkage.Rod) {
	ends := []paper.Mount{ld.live.mountAt(rod.From), ld.live.mountAt(rod.To)}
	if rod.Diameter != nil && *rod.Diameter*ld.v.scale >= paper.BarLeast {
		ld.bars(float64(*rod.Diameter*ld.v.scale), [][]paper.Mount{ends})
	} else {
		ld.move(paper.LayerNeutral, paper.PenRod, ends...)
	}
	for _, end := range ends {
		ld.dot(paper.LayerHoles, paper.PenHole, end, holeRadius)
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
		ld.move(paper.LayerNeutral, paper.PenRod, ld.live.mount(body, foot), at)
		ld.dot(paper.LayerHoles, paper.PenHole, at, holeRadius)
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
