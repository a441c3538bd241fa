package linkage

import (
	"fmt"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// readTilts reads which way the tilt of an output's part is counted.
func (r *reader) readTilts(b *block, o *Output) {
	e := b.get("tilts")
	switch {
	case o.Part == nil:
		return
	case e == nil && o.Part.Spatial():
		r.faults.Add(b.span(), "%s is of %s, which %s: say which way its tilt is read, as in tilts = %q or tilts = [1, 0, 0]", b, shortName(o.Part.Name), o.Part.freely(), string(Forward))
		return
	case e == nil:
		return
	case !o.Part.Spatial():
		r.faults.Add(b.at("tilts"), "%s tilts no way but about its axis, and its turn is read: leave tilts out", shortName(o.Part.Name))
		return
	}
	towards, ok := r.towards(e)
	if !ok || r.bad[o.Part] {
		return
	}
	// Along square-to itself the reading would have no sign, nor would it change at first.
	if towards.Cross(o.Part.SquareTo).Norm() < squareDirections {
		r.tellTiltsSquare(b, o.Part, e)
		return
	}
	o.Tilts = &towards
}

// tellTiltsSquare tells of a tilt that is to be read along what the part is square to.
func (r *reader) tellTiltsSquare(b *block, p *Part, e hclsyntax.Expression) {
	way := "this direction"
	if _, quoted := unwrap(e).(*hclsyntax.TemplateExpr); quoted {
		way, _ = r.text(e)
	}
	var lies []string
	for _, d := range Directions {
		if along, known := r.run.Direction(d); known && along.Cross(p.SquareTo).Norm() >= squareDirections {
			lies = append(lies, fmt.Sprintf("%q", string(d)))
		}
	}
	at, name, edges := b.at("tilts"), shortName(p.Name), joined(lies, "or")
	up, known := r.run.Direction(Up)
	switch {
	case known && len(lies) > 0 && p.SquareTo.Dot(up) > 1-squareDirections:
		r.faults.Add(at, "%s lies level as drawn, so as a whole it tilts neither up nor down: say which edge goes down as it reads plus, tilts = %s", name, edges)
	case len(lies) > 0:
		r.faults.Add(at, "as drawn %s lies square to %s, so it tilts neither towards that nor away from it: say which way it leans, tilts = %s", name, way, edges)
	default:
		r.faults.Add(at, "as drawn %s lies square to %s, so it tilts neither towards that nor away from it: name a direction that lies in it", name, way)
	}
}

// towards returns the direction that an expression names by a word or by numbers.
func (r *reader) towards(e hclsyntax.Expression) (Vec, bool) {
	if _, quoted := unwrap(e).(*hclsyntax.TemplateExpr); !quoted {
		return r.direction(e)
	}
	words := make([]string, len(Directions))
	for i, d := range Directions {
		words[i] = string(d)
	}
	word, ok := r.choice(e, words...)
	if !ok {
		return Vec{}, false
	}
	along, known := r.run.Direction(Direction(word))
	if !known {
		r.faults.Add(spanOf(e.Range()), "which way is %s in the drawing? the run doesn't say: give it two of forward, up and right, square to each other", word)
	}
	return along, known
}

// readLeadingEdge reads by which point a blade's leading edge is known.
func (r *reader) readLeadingEdge(b *block, o *Output) {
	e := b.get("leading-edge")
	if e == nil || b.get("of") != nil && hasDot(b.get("of")) {
		return // of a point, which is told
	}
	ref, ok := r.pointRef(e)
	if !ok {
		return
	}
	if _, known := r.run.Direction(Up); !known {
		r.faults.Add(b.at("leading-edge"), "with the leading edge up pitch is plus, and the run doesn't say which way is up: write up = [0, 1] in its run block")
		return
	}
	o.LeadingEdge = &ref
}

// checkLeadingEdges tells of leading edges that don't lie on their blade, or not to one
// side of what it turns about.
func (r *reader) checkLeadingEdges() {
	none := float64(nothing * r.run.Size())
	for _, o := range r.run.Outputs {
		if o.LeadingEdge == nil || o.Part == nil || r.bad[o.Part] || r.bad[o.LeadingEdge.Rod] {
			continue
		}
		at := o.LeadingEdge.Span
		switch p := o.Part; {
		case !p.OnAxis():
			r.faults.Add(at, "%s turns on no pivot, and pitch is the turn of a blade on its hinge: leave leading-edge out", shortName(p.Name))
		case o.LeadingEdge.Part != p:
			r.faults.Add(at, "%s isn't on %s, whose pitch this output reads: name a point of it", shortName(o.LeadingEdge.String()), shortName(p.Name))
		default:
			lift := p.Axis.Cross(o.LeadingEdge.Get().At.Sub(p.Pivot)).Dot(*r.run.Up)
			if lift >= -none && lift <= none {
				r.faults.Add(at, "%s neither rises nor falls as %s turns, so it doesn't tell which way pitch is plus: name a point ahead of what it turns about", shortName(o.LeadingEdge.String()), shortName(p.Name))
			}
		}
	}
}
