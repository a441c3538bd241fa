package linkage

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"
)

// vector returns a place or a displacement, [x, y], [x, y, z],
// polar(length, degrees) or polar(length, degrees, "xz"). dimension is the name under which --set can change
// its coordinates, "" for none.
func (r *reader) vector(e hclsyntax.Expression, dimension string) (Vec, bool) {
	switch e := unwrap(e).(type) {
	case *hclsyntax.TupleConsExpr:
		if n := len(e.Exprs); n < 2 || n > 3 {
			r.faults.Add(spanOf(e.SrcRange), "a point has two or three coordinates, [x, y] or [x, y, z], and here %s", isAre(n))
			return Vec{}, false
		}
		var c [3]float64
		all := true
		for i, part := range e.Exprs {
			value, ok := r.number(part)
			c[i], all = value, all && ok
		}
		v := Vec{c[0], c[1], c[2]}
		r.setVector(dimension, &v)
		return v, all
	case *hclsyntax.FunctionCallExpr:
		p, ok := r.polar(e)
		v := p.vec()
		r.setVector(dimension, &v)
		return v, ok
	}
	r.faults.Add(spanOf(e.Range()), "a point is wanted here, [x, y] or polar(length, degrees), not %s", kindOf(e))
	return Vec{}, false
}

// direction returns a vector at length 1, given at any length but none.
// Components that only rounding can have left are made exactly zero, so that
// an axis square to the drawing is known as one.
func (r *reader) direction(e hclsyntax.Expression) (Vec, bool) {
	switch unwrap(e).(type) {
	case *hclsyntax.TupleConsExpr, *hclsyntax.FunctionCallExpr:
	default:
		r.faults.Add(spanOf(e.Range()), "a direction is wanted here, [x, y] or [x, y, z], not %s", kindOf(e))
		return Vec{}, false
	}
	v, ok := r.vector(e, "")
	if !ok {
		return Vec{}, false
	}
	largest := max(math.Abs(v.X), math.Abs(v.Y), math.Abs(v.Z))
	if math.Abs(v.Norm()-1) <= unitNoise && least(v) >= directionNoise {
		return v, true
	}
	if largest == 0 {
		r.faults.Add(spanOf(e.Range()), "a direction is wanted here, and this has no length")
		return Vec{}, false
	}
	// Scaled first: the squares of very small numbers would vanish.
	v = Vec{v.X / largest, v.Y / largest, v.Z / largest}
	for _, c := range []*float64{&v.X, &v.Y, &v.Z} {
		if math.Abs(*c) < directionNoise {
			*c = 0
		}
	}
	return v.Unit(), true
}

// directionNoise is what a component of a direction must have, beside its
// largest one, to be meant: decimals written out to full double precision are
// right to about 2e-16, and no drawing is made to 1e-12 of a right angle.
const directionNoise = 1e-12

// unitNoise is by how much the length of a direction that was brought to length 1
// can miss that: a few roundings of a float64. It is then left as it is, so that a
// run that is read or built from another's directions has the very same.
const unitNoise = 1e-15

// least returns the size of the smallest component of a vector that is not zero.
func least(v Vec) float64 {
	size := math.Inf(1)
	for _, c := range []float64{v.X, v.Y, v.Z} {
		if c != 0 {
			size = min(size, math.Abs(c))
		}
	}
	return size
}

// text returns text in quotes.
func (r *reader) text(e hclsyntax.Expression) (string, bool) {
	at := spanOf(e.Range())
	if t, ok := unwrap(e).(*hclsyntax.TemplateExpr); ok {
		value, diags := t.Value(nil)
		if !diags.HasErrors() && value.Type() == cty.String && value.IsKnown() && !value.IsNull() {
			return value.AsString(), true
		}
	}
	if name := hcl.ExprAsKeyword(e); name != "" {
		r.faults.Add(at, "text is wanted here, in quotes: %q", name)
	} else {
		r.faults.Add(at, "text in quotes is wanted here, not %s", kindOf(e))
	}
	return "", false
}

// truth returns true or false.
func (r *reader) truth(e hclsyntax.Expression) (value, ok bool) {
	literal, ok := unwrap(e).(*hclsyntax.LiteralValueExpr)
	if ok && literal.Val.Type() == cty.Bool && literal.Val.IsKnown() && !literal.Val.IsNull() {
		return literal.Val.True(), true
	}
	r.faults.Add(spanOf(e.Range()), "true or false is wanted here, without quotes, not %s", kindOf(e))
	return false, false
}

// choice returns text that must be one of a few words.
func (r *reader) choice(e hclsyntax.Expression, words ...string) (string, bool) {
	value, ok := r.text(e)
	if ok && !slices.Contains(words, value) {
		quoted := make([]string, len(words))
		for i, w := range words {
			quoted[i] = `"` + w + `"`
		}
		r.faults.Add(spanOf(e.Range()), "%s is wanted here, not %s", strings.Join(quoted, " or "), shortName(value))
		return "", false
	}
	return value, ok
}

// list returns the entries of a list. n is how many there must be, of what
// example shows; -1 for any number.
func (r *reader) list(e hclsyntax.Expression, n int, example string) ([]hclsyntax.Expression, bool) {
	tuple, ok := unwrap(e).(*hclsyntax.TupleConsExpr)
	if !ok {
		r.faults.Add(spanOf(e.Range()), "a list is wanted here, as in %s, not %s", example, kindOf(e))
		return nil, false
	}
	if n >= 0 && len(tuple.Exprs) != n {
		r.faults.Add(spanOf(e.Range()), "%d entries are wanted here, as in %s, and there %s", n, example, isAre(len(tuple.Exprs)))
		return nil, false
	}
	return tuple.Exprs, true
}

// interval returns [low, high] of what they are figures of.
func (r *reader) interval(e hclsyntax.Expression, what string) (*[2]float64, bool) {
	entries, ok := r.list(e, 2, "[low, high]")
	if !ok {
		return nil, false
	}
	low, okLow := r.number(entries[0])
	high, okHigh := r.number(entries[1])
	if !okLow || !okHigh {
		return nil, false
	}
	if low > high {
		r.faults.Add(spanOf(e.Range()), "the lower %s comes first: [%g, %g]", what, high, low)
		return nil, false
	}
	return &[2]float64{low, high}, true
}

// entry is a row of a table.
type entry struct {
	name  string
	span  Span // of the name
	value hclsyntax.Expression
}

// table returns the entries of a table, { name = value, ... }, in the file's
// order. Faulty ones are told and left out.
func (r *reader) table(e hclsyntax.Expression) []entry {
	object, ok := unwrap(e).(*hclsyntax.ObjectConsExpr)
	if !ok {
		r.faults.Add(spanOf(e.Range()), "a table is wanted here, { name = [x, y], ... }, not %s", kindOf(e))
		return nil
	}
	var entries []entry
	for _, item := range object.Items {
		at := spanOf(item.KeyExpr.Range())
		name, ok := tableKey(item.KeyExpr)
		if !ok {
			r.faults.Add(at, "a name is wanted here, as in { horn = [x, y] }")
			continue
		}
		entries = append(entries, entry{name, at, item.ValueExpr})
	}
	return entries
}

// tableKey returns the name that a table's key is, in quotes or without.
func tableKey(e hclsyntax.Expression) (string, bool) {
	key, ok := e.(*hclsyntax.ObjectConsKeyExpr)
	if !ok || key.ForceNonLiteral {
		return "", false
	}
	if name := hcl.ExprAsKeyword(key.Wrapped); name != "" {
		return cty.NormalizeString(name), true
	}
	if t, ok := key.Wrapped.(*hclsyntax.TemplateExpr); ok && t.IsStringLiteral() {
		if value, diags := t.Value(nil); !diags.HasErrors() {
			return value.AsString(), true
		}
	}
	return "", false
}

// unwrap takes off parentheses.
func unwrap(e hclsyntax.Expression) hclsyntax.Expression {
	for {
		p, ok := e.(*hclsyntax.ParenthesesExpr)
		if !ok {
			return e
		}
		e = p.Expression
	}
}

// isAre counts things: "is 1", "are 3".
func isAre(n int) string {
	if n == 1 {
		return "is 1"
	}
	return fmt.Sprintf("are %d", n)
}

// hasDash reports whether a name has a dash that may have been meant as minus.
func hasDash(name string) bool { return strings.Contains(name, "-") }
