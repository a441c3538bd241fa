package picture

import (
	"fullfree/linkage"
	"fullfree/render/internal/paper"
)

// liveDrawing is one view of a live picture while it is drawn: that of a still, on
// which what moves is told what it follows, and what only this picture has.
type liveDrawing struct{ *drawing }

// drawLive draws one view.
func (l *live) drawLive(v *view) *paper.Scene {
	dr := l.newDrawing(v)
	s := dr.scene
	dr.live = l
	ld := liveDrawing{dr}
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
func (ld liveDrawing) marks() {
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
func (ld liveDrawing) everywhere() {
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

// attach makes what was drawn at neutral near a mount move with its body.
func (ld liveDrawing) attach(s *paper.Scene, near paper.Mount) {
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
func (ld liveDrawing) aside(draw func(*drawing)) *paper.Scene {
	s := &paper.Scene{}
	dr := *ld.drawing
	dr.scene, dr.labels, dr.pivots = s, paper.NewPlacer(s, ld.v.low, ld.v.high), nil
	draw(&dr)
	return s
}

func (ld liveDrawing) mountsOn(part *linkage.Part, drawn ...linkage.Vec) []paper.Mount {
	var list []paper.Mount
	for _, p := range drawn {
		list = append(list, ld.live.mountOn(part, p))
	}
	return list
}

// slide draws what a sliding part slides in, which its carrier moves, and the
// stem that it moves itself.
func (ld liveDrawing) slide(part *linkage.Part) {
	s := ld.aside(func(dr *drawing) { dr.guide(part) })
	stem := &paper.Scene{}
	stem.Shapes[paper.LayerNeutral], s.Shapes[paper.LayerNeutral] = s.Shapes[paper.LayerNeutral], nil
	on := ld.live.mountOn(part, eyeOf(part))
	ld.attach(stem, on)
	ld.attach(s, ld.carrier(part, on))
}

// carrier mounts on what carries a part the place where a mount is at neutral.
func (ld liveDrawing) carrier(part *linkage.Part, at paper.Mount) paper.Mount {
	body := fixedBody
	if part.Carrier != nil {
		body = ld.live.mountAt(*part.Carrier).Body
	}
	return ld.live.fasten(body, placeOf(at, ld.live.neutral))
}

// pivot draws what a part turns on: it moves where another part carries it.
func (ld liveDrawing) pivot(part *linkage.Part) {
	if !part.HasPivot() {
		return
	}
	if part.Carrier == nil {
		ld.drawing.pivot(part)
		return
	}
	ld.attach(ld.aside(func(dr *drawing) { dr.pivot(part) }), ld.live.mountOn(part, part.Pivot))
}

// brackets draws a rod's own points, each on a bracket square to the rod.
func (ld liveDrawing) brackets(rod *linkage.Rod) {
	body := ld.live.bodies.rods[rod]
	from := rod.From.Get().At
	way := rod.To.Get().At.Sub(from).Unit()
	for i, p := range rod.Points {
		foot := from.Add(way.Scale(p.At.Sub(from).Dot(way)))
		at := ld.point(linkage.PointRef{Rod: rod, Point: i})
		ld.stroke(paper.LayerNeutral, paper.PenRod, ld.mounted(ld.live.mount(body, foot)), at)
		ld.ring(paper.LayerHoles, paper.PenHole, at, holeRadius)
	}
}
