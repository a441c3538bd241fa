package linkage

import (
	"strconv"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// noteWrittenWith notes which numbers of the file are written with named dimensions: they
// go with these, and nothing else may write over them.
func (r *reader) noteWrittenWith() {
	if len(r.dims) == 0 {
		return
	}
	with := map[string][]string{}
	r.run.written.with = with
	note := func(name string, e hclsyntax.Expression) {
		if e == nil {
			return
		}
		if named := r.dimsOf(e); len(named) > 0 {
			with[name] = named
		}
	}
	// A place given as a whole, by polar, is that whole.
	place := func(name string, e hclsyntax.Expression) {
		tuple, ok := unwrap(e).(*hclsyntax.TupleConsExpr)
		for i, axis := range axes {
			switch {
			case !ok:
				note(name+axis, e)
			case i < len(tuple.Exprs):
				note(name+axis, tuple.Exprs[i])
			}
		}
	}
	for _, p := range r.parts {
		name := p.part.Name + "."
		if pivot := p.get("pivot"); pivot != nil && p.part.NamedPivot == nil {
			place(name+"pivot", pivot)
		}
		for i, row := range p.rows {
			place(name+p.part.Points[i].Name, row.value)
		}
		for i, b := range p.features {
			r.noteMetalWrittenWith(b, name+p.part.Features[i].Name, note, place)
		}
	}
	for _, b := range r.rods {
		name := b.rod.Name + "."
		note(name+"length", b.get("length"))
		note(name+"diameter", b.get("diameter"))
		for i, row := range b.rows {
			place(name+b.rod.Points[i].Name, row.value)
		}
	}
	for i, b := range r.stops {
		note(r.run.Stops[i].Name+".at", b.get("at"))
	}
	for i, b := range r.cables {
		note(r.run.Cables[i].Name+".core", b.get("core"))
		note(r.run.Cables[i].Name+".stiffness", b.get("stiffness"))
	}
	for i, b := range r.pairs {
		note(r.run.Pairs[i].Name+".pretension", b.get("pretension"))
	}
}

func (r *reader) noteMetalWrittenWith(b *block, name string, note, place func(name string, e hclsyntax.Expression)) {
	for _, thick := range []string{"radius", "thick", "diameter"} {
		note(name+"."+thick, b.get(thick))
	}
	if at := b.get("at"); at != nil {
		place(name, at)
	}
	if tuple, ok := unwrap(b.get("through")).(*hclsyntax.TupleConsExpr); ok {
		for i, e := range tuple.Exprs {
			place(name+"."+strconv.Itoa(i), e)
		}
	}
}
