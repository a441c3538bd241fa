package picture

import (
	"fullfree/linkage"
	"fullfree/render/internal/paper"
	"fullfree/solve"
)

// The run is drawn once, by what is here, for every picture: a still puts its lines
// where things stand; in a picture that moves (live.go) those of what moves are told
// besides what they follow, and a still is that picture at neutral.

// peg is a place of the run as it stands.
type peg struct {
	at paper.Place
	// mount is what it follows, in a picture that moves and of what moves in it.
	mount *paper.Mount
}

// pegs returns places of a part, given as drawn, in a position.
func (dr *drawing) pegs(pose *solve.Pose, part *linkage.Part, drawn ...linkage.Vec) []peg {
	list := make([]peg, len(drawn))
	if dr.live != nil && pose == dr.neutral && part.Motion != linkage.Fixed {
		for i, p := range drawn {
			list[i] = dr.mounted(dr.live.mountOn(part, p))
		}
		return list
	}
	for i, at := range dr.onSheet(pose, part, drawn...) {
		list[i].at = at
	}
	return list
}

// point returns a point of a part or rod at neutral.
func (dr *drawing) point(ref linkage.PointRef) peg {
	if dr.live != nil {
		return dr.mounted(dr.live.mountAt(ref))
	}
	return peg{at: dr.v.on(dr.neutral.Point(ref))}
}

// mounted returns the peg that follows a mount.
func (dr *drawing) mounted(m paper.Mount) peg {
	return peg{seen(dr.v, dr.live.neutral, m)[0], &m}
}

// pegPlaces returns where pegs are.
func pegPlaces(pegs []peg) []paper.Place {
	list := make([]paper.Place, len(pegs))
	for i, s := range pegs {
		list[i] = s.at
	}
	return list
}

// pegMounts returns what pegs follow; none where they stand still.
func pegMounts(pegs []peg) []paper.Mount {
	var list []paper.Mount
	for _, s := range pegs {
		if s.mount != nil {
			list = append(list, *s.mount)
		}
	}
	return list
}

// stroke draws a line through pegs that labels keep off.
func (dr *drawing) stroke(l paper.Layer, p paper.Pen, pegs ...peg) {
	if mounts := pegMounts(pegs); mounts != nil {
		dr.follow(l, paper.Shape{Pen: p, Mounts: mounts})
		return
	}
	dr.line(l, p, pegPlaces(pegs)...)
}

// filling fills the inside of metal along pegs in its middle.
func (dr *drawing) filling(l paper.Layer, p paper.Pen, pegs ...peg) {
	if mounts := pegMounts(pegs); mounts != nil {
		dr.follow(l, paper.Shape{Pen: p, Mounts: mounts})
		return
	}
	dr.inside(l, p, pegPlaces(pegs)...)
}

// outline draws a line round through pegs.
func (dr *drawing) outline(l paper.Layer, p paper.Pen, pegs ...peg) {
	if mounts := pegMounts(pegs); mounts != nil {
		dr.follow(l, paper.Shape{Pen: p, Mounts: mounts, Closed: true})
		return
	}
	dr.polygon(l, p, pegPlaces(pegs)...)
}

// ring draws a circle about a peg.
func (dr *drawing) ring(l paper.Layer, p paper.Pen, at peg, radius float64) {
	if at.mount != nil {
		dr.follow(l, paper.Shape{Pen: p, Mounts: []paper.Mount{*at.mount}, Radius: radius})
		return
	}
	dr.circle(l, p, at.at, radius)
}

// line draws a line that labels keep off.
func (dr *drawing) line(l paper.Layer, p paper.Pen, through ...paper.Place) {
	for _, piece := range dr.pieces(through) {
		dr.scene.Line(l, p, piece...)
		dr.labels.Avoid(p, piece...)
	}
}

// pieces returns what of a line is drawn.
func (dr *drawing) pieces(through []paper.Place) [][]paper.Place {
	if dr.clip == nil {
		return [][]paper.Place{through}
	}
	return dr.clip.Lines(through)
}

// inside fills the inside of metal along its middle. Where it is cut off, the
// filling goes on over the round end of the outline, so that it looks cut.
func (dr *drawing) inside(l paper.Layer, p paper.Pen, through ...paper.Place) {
	for _, piece := range dr.pieces(through) {
		first, last := 0, len(piece)-1
		beyond := p.Width/2 + 2*paper.ThickWidth
		if piece[first] != through[0] {
			piece[first] = piece[first].Along(piece[first+1].To(piece[first]), beyond)
		}
		if piece[last] != through[len(through)-1] {
			piece[last] = piece[last].Along(piece[last-1].To(piece[last]), beyond)
		}
		dr.scene.Line(l, p, piece...)
	}
}

func (dr *drawing) polygon(l paper.Layer, p paper.Pen, through ...paper.Place) {
	if dr.clip != nil {
		if through = dr.clip.Polygon(through); len(through) == 0 {
			return
		}
	}
	dr.scene.Polygon(l, p, through...)
	dr.labels.Avoid(p, append(through, through[0])...)
}

func (dr *drawing) circle(l paper.Layer, p paper.Pen, at paper.Place, radius float64) {
	if dr.clip != nil && !dr.clip.Holds(at) {
		return
	}
	round := paper.Shape{Pen: p, Through: []paper.Place{at}, Radius: radius}
	dr.scene.Add(l, round)
	dr.labels.Avoid(p, round.Line()...)
}

// onSheet returns places of a part, given as drawn, in a position.
func (dr *drawing) onSheet(pose *solve.Pose, part *linkage.Part, drawn ...linkage.Vec) []paper.Place {
	list := make([]paper.Place, len(drawn))
	for i, p := range drawn {
		list[i] = dr.v.on(pose.Place(part, p))
	}
	return list
}

// follow draws a shape that follows mounts.
func (dr *drawing) follow(l paper.Layer, s paper.Shape) {
	s.Through = seen(dr.v, dr.live.neutral, s.Mounts...)
	dr.scene.Add(l, s)
	dr.avoid(dr.labels, s)
}

// avoid keeps labels off a shape.
func (dr *drawing) avoid(labels *paper.Placer, s paper.Shape) {
	if s.Radius == 0 {
		labels.Avoid(s.Pen, s.Line()...)
		return
	}
	at := s.Through[0]
	for _, way := range []paper.Place{paper.At(1, 0), paper.At(0, 1)} {
		labels.Avoid(s.Pen, at.Along(way, -s.Radius), at.Along(way, s.Radius))
	}
}
