package linkage

import (
	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// VarySpec is something that a search may change: among some values, or within a range.
type VarySpec struct {
	// Of is a number as it is named in a Setting, or a place: "part.point".
	Of string
	// Among are the values to choose from, of a place two or three coordinates each, else
	// one; nil: a range.
	Among           [][]float64
	Low, High, Step float64 // Step 0: any value
}

func (s VarySpec) write(w *blockWriter) {
	w.name("of", s.Of)
	if s.Among == nil {
		w.needed("low", s.Low)
		w.needed("high", s.High)
		w.number("step", s.Step)
		return
	}
	w.list("among", len(s.Among), func(i int, at hcl.Range) hclsyntax.Expression {
		if len(s.Among[i]) == 1 {
			return numberValue(s.Among[i][0], at)
		}
		place := &hclsyntax.TupleConsExpr{SrcRange: at, OpenRange: at}
		for _, x := range s.Among[i] {
			place.Exprs = append(place.Exprs, numberValue(x, at))
		}
		return place
	})
}

// Vary adds something that a search may change. Its name is free text.
func (b *Builder) Vary(name string, spec VarySpec) { b.add(spec, varyKind, name) }
