package linkage

import (
	"strings"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// writtenWith returns the named dimensions that a number is written with in the file,
// itself aside.
func (r *reader) writtenWith(n Number) []string {
	if len(r.dims) == 0 {
		return nil
	}
	if e := r.expressionOf(n); e != nil {
		return r.dimsOf(e)
	}
	return nil
}

// expressionOf returns what the file has for a number; nil where it leaves it out. A
// point given as a whole, by polar, is that whole.
func (r *reader) expressionOf(n Number) hclsyntax.Expression {
	coordinate := func(e hclsyntax.Expression, axis int) hclsyntax.Expression {
		tuple, ok := unwrap(e).(*hclsyntax.TupleConsExpr)
		if !ok {
			return e
		}
		if axis < len(tuple.Exprs) {
			return tuple.Exprs[axis]
		}
		return nil
	}
	switch d := n.dimension; {
	case d != nil && d.Cable != nil:
		return r.cables[d.Cable.Index].get("core")
	case d != nil && d.IsLength():
		return r.rods[d.Rod.Index].get("length")
	case d != nil && d.Rod != nil:
		return coordinate(r.rods[d.Rod.Index].rows[d.Point].value, d.Axis)
	case d != nil && d.Point < 0:
		return coordinate(r.parts[d.Part.Index].get("pivot"), d.Axis)
	case d != nil:
		return coordinate(r.parts[d.Part.Index].rows[d.Point].value, d.Axis)
	case n.stop != nil:
		return r.stops[n.stop.Index].get("at")
	case n.rod != nil:
		return r.rods[n.rod.Index].get("diameter")
	case n.metal != nil:
		return r.expressionOfMetal(n.metal, coordinate)
	}
	owner, rest, _ := strings.Cut(n.name, ".")
	for i, c := range r.run.Cables {
		if c.Name == owner {
			return r.cables[i].get(rest)
		}
	}
	for i, p := range r.run.Pairs {
		if p.Name == owner {
			return r.pairs[i].get(rest)
		}
	}
	return nil
}

func (r *reader) expressionOfMetal(m *metalNumber, coordinate func(hclsyntax.Expression, int) hclsyntax.Expression) hclsyntax.Expression {
	b, f := r.parts[m.part.Index].features[m.feature], &m.part.Features[m.feature]
	switch {
	case m.place < 0 && f.Shape == Round:
		return b.get("radius")
	case m.place < 0:
		return b.get(f.thickness())
	case f.Shape == Round:
		return coordinate(b.get("at"), m.axis)
	}
	tuple, ok := unwrap(b.get("through")).(*hclsyntax.TupleConsExpr)
	if !ok || m.place >= len(tuple.Exprs) {
		return nil
	}
	return coordinate(tuple.Exprs[m.place], m.axis)
}
