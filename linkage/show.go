package linkage

import (
	"bytes"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// WrittenOut returns the text of a file with every block that is the mirror image of
// another written out; everything else stays byte for byte as it was, and so do the
// named dimensions in what is written out. The error is *Faults where the file is
// faulty; it is an error too if what was written would not read as the file does.
func WrittenOut(src *Source) ([]byte, error) {
	r, err := readerOf(src, nil)
	if err != nil {
		return nil, err
	}
	w := &rewriter{r: r}
	w.tokens, _ = hclsyntax.LexConfig(r.lines, "", hcl.InitialPos)
	for _, b := range r.mirrored {
		w.writeOut(b)
	}
	text := w.splice()
	run, err := Read(&Source{Name: r.src.Name, Text: text})
	if err != nil {
		return nil, fmt.Errorf("written out, the file would not read:\n%w", err)
	}
	if !maps.Equal(run.figures(), r.run.figures()) {
		return nil, fmt.Errorf("%s: written out, the file would not read as it does", Printable(src.Name))
	}
	return text, nil
}

// writeOut puts what a mirror image is in the place of its mirror.
func (w *rewriter) writeOut(b *block) {
	w.beside(b, b.mirroring.written, true)
}

// beside writes lines into a block that is a mirror image: instead of its mirror, or
// behind that.
func (w *rewriter) beside(b *block, lines []mirrorLine, instead bool) {
	a := b.mirroring.attribute
	newline := lineEndOf(w.r.src.Text)
	start, end := a.SrcRange.Start.Byte, a.SrcRange.End.Byte
	onOneLine := b.OpenBraceRange.Start.Line == a.SrcRange.Start.Line
	line := w.r.lines[bytes.LastIndexByte(w.r.lines[:start], '\n')+1 : start]
	indent := string(line[:len(line)-len(bytes.TrimLeft(line, " \t"))])
	if onOneLine {
		indent += "  "
	}
	if !instead {
		lines = append([]mirrorLine{{name: mirrorName, value: w.r.textAt(spanOf(a.Expr.Range()))}}, lines...)
	}
	text := strings.TrimPrefix(strings.TrimSuffix(textOf(lines, indent), "\n"), indent)
	text = strings.ReplaceAll(text, "\n", newline)
	if !onOneLine {
		w.edits = append(w.edits, edit{start, end, text})
		return
	}
	open, shut := b.OpenBraceRange.End.Byte, b.CloseBraceRange.Start.Byte
	if len(bytes.TrimSpace(w.r.lines[open:start])) == 0 {
		start = open
	}
	outer := strings.TrimSuffix(indent, "  ")
	if len(bytes.TrimSpace(w.r.lines[end:shut])) == 0 {
		w.edits = append(w.edits, edit{start, shut, newline + indent + text + newline + outer})
		return
	}
	// A comment follows; it stays behind the last line.
	w.edits = append(w.edits, edit{start, end, newline + indent + text}, edit{shut, shut, newline + outer})
}

// alike reports whether two lists of figures are the same, each to within so much, run
// units or degrees.
func alike(a, b map[string]float64, within float64) bool {
	if len(a) != len(b) {
		return false
	}
	for name, value := range a {
		other, ok := b[name]
		if !ok || math.Abs(value-other) > within {
			return false
		}
	}
	return true
}

// line returns an attribute or block of a mirror image as it is written out.
func (how *mirroring) line(name string) (mirrorLine, bool) {
	i := slices.IndexFunc(how.written, func(l mirrorLine) bool { return l.name == name })
	if i < 0 {
		return mirrorLine{}, false
	}
	return how.written[i], true
}
