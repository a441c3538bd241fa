package linkage

import (
	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"
)

// inSpace is what a part floats in that leaves the plane of the drawing.
const inSpace = "space"

// pivotOf is where a part turns or tilts, as its block has it; nil where it says nothing
// of that.
func pivotOf(b *block) hclsyntax.Expression {
	if e := b.get("ball"); e != nil {
		return e
	}
	return b.get("pivot")
}

// saysTrue reports whether an expression is anything but the word false, which is as
// much as is known before it is read.
func saysTrue(e hclsyntax.Expression) bool {
	if e == nil {
		return false
	}
	literal, ok := unwrap(e).(*hclsyntax.LiteralValueExpr)
	return !ok || literal.Val.Type() != cty.Bool || literal.Val.True()
}

// readSpatial reads of a part that it tilts on a ball, floats in space or slides on its
// axis, and refuses what doesn't go with that.
func (r *reader) readSpatial(p *partBlock) {
	part := p.part
	if part.Motion == Fixed {
		return // what it may not have is told
	}
	if e := p.get("floats"); e != nil {
		if word, ok := r.text(e); ok && word != inSpace {
			r.faults.Add(spanOf(e.Range()), "floats = %q is what can be said here: without it, a part that rods and joints alone hold floats in the plane of the drawing", inSpace)
		}
	}
	if e := p.get("slides"); e != nil {
		r.readSlides(p, e)
	}
	refuse := func(why string, names ...string) {
		for _, name := range names {
			if p.get(name) != nil {
				r.faults.Add(p.at(name), why, p)
			}
		}
	}
	switch {
	case part.Motion == Tilts:
		refuse("%s is on a ball, so it has no pivot besides: what turns about an axis has a pivot, what tilts any way a ball", "pivot")
		refuse("%s is on a ball, which doesn't slide: put the ball on a part that slides, as in ball = sleeve.center", "slide", "slides")
		refuse("%s is on a ball, so rods and joints don't have to hold it there: leave floats out", "floats")
	case p.get("floats") != nil && part.Motion != Roams:
		refuse("%s floats in space only where rods and joints alone hold it: leave floats out, or pivot and slide", "floats")
	}
	if !part.Spatial() {
		refuse("%s tilts no way but about its axis, along which its bolts lie: square-to belongs to a part on a ball, or one that floats in space", "square-to")
		return
	}
	refuse("%s tilts any way, so it has no axis: the direction of its bolts, by which its tilt is told, is square-to = [0, 1, 0]", "axis")
	part.SquareTo = Vec{0, 1, 0}
	if e := p.get("square-to"); e != nil {
		if d, ok := r.direction(e); ok {
			part.SquareTo = d
		}
	}
	part.Axis = part.SquareTo
}

// readSlides reads whether a part that turns slides along its axis too.
func (r *reader) readSlides(p *partBlock, e hclsyntax.Expression) {
	slides, ok := r.truth(e)
	switch {
	case !ok || !slides || p.get("ball") != nil: // a ball is told of besides
	case p.get("slide") != nil:
		r.faults.Add(p.at("slides"), "%s slides along its slide already: slides = true is for a part that turns on a pivot too", p)
	case p.get("pivot") == nil:
		r.faults.Add(p.at("slides"), "%s turns about and slides along one axis, so it needs a place on it and its direction: pivot = [x, y], axis = [0, 1, 0]", p)
	case p.get("axis") == nil:
		r.faults.Add(p.at("slides"), "along which axis does %s slide? say it, as in axis = [0, 1, 0]", p)
	}
}

// freely says how a part moves that has more than one way to go.
func (p *Part) freely() string {
	switch p.Motion {
	case Tilts:
		return "tilts any way on its ball"
	case Roams:
		return "floats in space"
	case TurnsAndSlides:
		return "both turns and slides"
	}
	return "is held by rods alone"
}
