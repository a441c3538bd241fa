package linkage

import (
	"bytes"
	"math"
	"strconv"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"
)

// blockWriter makes a block as the parser would have made it from a file, so that
// the reader reads and checks it like one. In the place of lines stand the numbers
// of what was built (Source.built).
type blockWriter struct {
	b     *Builder
	block *hclsyntax.Block
	what  string // the block, for faults: `rod "left-link"`
}

// newBlock begins a block.
func (b *Builder) newBlock(kind string, labels ...string) *blockWriter {
	w := &blockWriter{b: b, what: kind}
	for _, label := range labels {
		w.what += " " + shortName(label)
	}
	w.begin(kind, labels)
	return w
}

// begin makes the block itself.
func (w *blockWriter) begin(kind string, labels []string) {
	at := w.b.place(w.what)
	w.block = &hclsyntax.Block{Type: kind, TypeRange: at, Body: &hclsyntax.Body{Attributes: hclsyntax.Attributes{}, SrcRange: at}}
	for _, label := range labels {
		w.block.Labels = append(w.block.Labels, w.sound(label, at))
		w.block.LabelRanges = append(w.block.LabelRanges, at)
	}
}

// place notes what is built next, and returns the place that stands for it.
func (b *Builder) place(what string) hcl.Range {
	b.built = append(b.built, what)
	at := hcl.Pos{Byte: len(b.built)}
	return hcl.Range{Start: at, End: at}
}

// sound returns a text that a file could hold too; in place of one that is no
// text, or far too long, nothing, which is told.
func (w *blockWriter) sound(text string, at hcl.Range) string {
	tell := func(says string) string {
		w.b.faults = append(w.b.faults, Fault{spanOf(at), says})
		return ""
	}
	switch _, utf := firstBadByte([]byte(text)); {
	case !utf || bytes.IndexByte([]byte(text), 0) >= 0:
		return tell("what stands here is no text: it is not UTF-8, or has a U+0000 in it")
	case len(text) > maxText:
		return tell("a text here is too long")
	}
	return text
}

// set gives the block an attribute, whose value is made for its place.
func (w *blockWriter) set(name string, value func(at hcl.Range) hclsyntax.Expression) {
	at := w.b.place(w.what + ", " + name)
	w.block.Body.Attributes[name] = &hclsyntax.Attribute{Name: name, Expr: value(at), SrcRange: at, NameRange: at, EqualsRange: at}
}

// tell tells of an attribute what the reader can't.
func (w *blockWriter) tell(name, says string) {
	at := spanOf(w.block.Body.Attributes[name].SrcRange)
	w.b.faults = append(w.b.faults, Fault{at, says})
}

// fault tells of the block what the reader can't.
func (w *blockWriter) fault(says string) {
	w.b.faults = append(w.b.faults, Fault{spanOf(w.block.TypeRange), says})
}

// inner adds a block inside this one.
func (w *blockWriter) inner(spec interface{ write(w *blockWriter) }, kind, label string) {
	in := &blockWriter{b: w.b, what: w.what + ", " + kind + " " + shortName(label)}
	in.begin(kind, []string{label})
	spec.write(in)
	w.block.Body.Blocks = append(w.block.Body.Blocks, in.block)
}

// needed sets a number; number leaves a 0 out, and optional what is nil.
func (w *blockWriter) needed(name string, value float64) {
	w.set(name, func(at hcl.Range) hclsyntax.Expression { return numberValue(value, at) })
}

func (w *blockWriter) number(name string, value float64) {
	if value != 0 {
		w.needed(name, value)
	}
}

func (w *blockWriter) optional(name string, value *float64) {
	if value != nil {
		w.needed(name, *value)
	}
}

// text sets a text, and leaves an empty one out.
func (w *blockWriter) text(name, value string) {
	if value != "" {
		w.set(name, func(at hcl.Range) hclsyntax.Expression { return textValue(w.sound(value, at), at) })
	}
}

// over sets a place around the turn, a word or degrees, and leaves out an empty one.
func (w *blockWriter) over(name, value string) {
	if azimuth, err := strconv.ParseFloat(value, 64); err == nil {
		w.needed(name, azimuth)
		return
	}
	w.text(name, value)
}

// truth sets what is true, and leaves it out where it is not.
func (w *blockWriter) truth(name string, value bool) {
	if value {
		w.set(name, func(at hcl.Range) hclsyntax.Expression {
			return &hclsyntax.LiteralValueExpr{Val: cty.True, SrcRange: at}
		})
	}
}

// name sets what has a name, and leaves an empty one out.
func (w *blockWriter) name(name, value string) {
	if value != "" {
		w.set(name, func(at hcl.Range) hclsyntax.Expression { return nameValue(w.sound(value, at), at) })
	}
}

// vector sets a place or direction, and leaves nil out.
func (w *blockWriter) vector(name string, value *Vec) {
	if value != nil {
		w.set(name, func(at hcl.Range) hclsyntax.Expression { return vectorValue(*value, at) })
	}
}

// motion sets a point and the direction in which it goes, and leaves an empty one out.
func (w *blockWriter) motion(name string, value [2]string) {
	if value != [2]string{} {
		w.list(name, len(value), func(i int, at hcl.Range) hclsyntax.Expression {
			if i == 0 {
				return nameValue(w.sound(value[0], at), at)
			}
			return textValue(w.sound(value[1], at), at)
		})
	}
}

// interval sets [low, high], and leaves nil out.
func (w *blockWriter) interval(name string, value *[2]float64) {
	if value != nil {
		w.numbers(name, value[:])
	}
}

// list sets a list of n values.
func (w *blockWriter) list(name string, n int, value func(i int, at hcl.Range) hclsyntax.Expression) {
	w.set(name, func(at hcl.Range) hclsyntax.Expression {
		list := &hclsyntax.TupleConsExpr{SrcRange: at, OpenRange: at}
		for i := range n {
			list.Exprs = append(list.Exprs, value(i, at))
		}
		return list
	})
}

func (w *blockWriter) numbers(name string, values []float64) {
	w.list(name, len(values), func(i int, at hcl.Range) hclsyntax.Expression { return numberValue(values[i], at) })
}

func (w *blockWriter) vectors(name string, values []Vec) {
	w.list(name, len(values), func(i int, at hcl.Range) hclsyntax.Expression { return vectorValue(values[i], at) })
}

func (w *blockWriter) pairs(name string, values [][2]float64) {
	w.list(name, len(values), func(i int, at hcl.Range) hclsyntax.Expression {
		v := values[i]
		return &hclsyntax.TupleConsExpr{SrcRange: at, OpenRange: at, Exprs: []hclsyntax.Expression{numberValue(v[0], at), numberValue(v[1], at)}}
	})
}

// names sets a list of what has names, and texts one of texts; all empty, they are
// left out.
func (w *blockWriter) names(name string, values []string) {
	if strings.Join(values, "") != "" {
		w.list(name, len(values), func(i int, at hcl.Range) hclsyntax.Expression { return nameValue(w.sound(values[i], at), at) })
	}
}

func (w *blockWriter) texts(name string, values []string) {
	if strings.Join(values, "") != "" {
		w.list(name, len(values), func(i int, at hcl.Range) hclsyntax.Expression { return textValue(w.sound(values[i], at), at) })
	}
}

// row is a row of a table of places or directions.
type row struct {
	name string
	at   Vec
}

// table sets a table, and leaves an empty one out.
func (w *blockWriter) table(name string, rows []row) {
	if len(rows) == 0 {
		return
	}
	w.set(name, func(at hcl.Range) hclsyntax.Expression {
		table := &hclsyntax.ObjectConsExpr{SrcRange: at, OpenRange: at}
		for _, row := range rows {
			here := w.b.place(w.what + ", " + strings.TrimSuffix(name, "s") + " " + shortName(row.name))
			table.Items = append(table.Items, hclsyntax.ObjectConsItem{
				KeyExpr:   &hclsyntax.ObjectConsKeyExpr{Wrapped: textValue(w.sound(row.name, here), here)},
				ValueExpr: vectorValue(row.at, here),
			})
		}
		return table
	})
}

// numberValue is a number. What is none has no literal; the reader then says that
// a number is wanted.
func numberValue(value float64, at hcl.Range) hclsyntax.Expression {
	literal := &hclsyntax.LiteralValueExpr{Val: cty.NullVal(cty.Number), SrcRange: at}
	if !math.IsNaN(value) {
		literal.Val = cty.NumberFloatVal(value)
	}
	return literal
}

func textValue(value string, at hcl.Range) hclsyntax.Expression {
	part := &hclsyntax.LiteralValueExpr{Val: cty.StringVal(value), SrcRange: at}
	return &hclsyntax.TemplateExpr{Parts: []hclsyntax.Expression{part}, SrcRange: at}
}

// nameValue is a reference to what has a name: "part" or "part.point".
func nameValue(value string, at hcl.Range) hclsyntax.Expression {
	words := strings.Split(value, ".")
	name := hcl.Traversal{hcl.TraverseRoot{Name: words[0], SrcRange: at}}
	for _, word := range words[1:] {
		name = append(name, hcl.TraverseAttr{Name: word, SrcRange: at})
	}
	return &hclsyntax.ScopeTraversalExpr{Traversal: name, SrcRange: at}
}

func vectorValue(value Vec, at hcl.Range) hclsyntax.Expression {
	return &hclsyntax.TupleConsExpr{SrcRange: at, OpenRange: at, Exprs: []hclsyntax.Expression{
		numberValue(value.X, at), numberValue(value.Y, at), numberValue(value.Z, at),
	}}
}
