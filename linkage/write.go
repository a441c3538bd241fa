package linkage

import (
	"bytes"
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"

	"fullfree/linkage/elementary"
)

// writtenDecimals is how many decimals a number is written with at most: a
// thousandth of what can be measured, so that rounding adds nothing to it.
const writtenDecimals = 6

// writtenHalf is what rounding to writtenDecimals changes at most, run units or
// degrees. A number nearer than that to the one in the file is left as it is.
const writtenHalf = 0.5e-6

// polarShare is what rounding an angle to writtenDecimals moves a point by at
// most, of the largest coordinate: half a millionth of a degree is 8.7e-9, and
// an arm is no longer than twice the largest coordinate.
const polarShare = 2e-8

// Change gives a dimension of a file, named as in a Setting, another number:
// of an arm too the absolute coordinate. "rod.from.engaged" is the thread in a
// rod's end, whichever way the file gives it; "cable.conduit-from.engaged" that in
// an adjuster.
type Change struct {
	Dimension string
	Value     float64 // run units, or degrees
}

// Rewrite returns the text of a file with some of its numbers changed to what
// Settings would make of them, to writtenDecimals; everything else stays byte
// for byte as it was. Where a number was an expression the whole of it is
// replaced; arms that are not changed move with their pivot, and those that
// are get what is left from it.
//
// The error is *Faults where the file is faulty or lacks a dimension. It is an
// error too if what was written would not read, or not as these numbers.
func Rewrite(src *Source, changes []Change) ([]byte, error) {
	r, err := readerOf(src, nil)
	if err != nil {
		return nil, err
	}
	w := &rewriter{r: r, changes: map[string]float64{}, unused: map[string]bool{}}
	w.tokens, _ = hclsyntax.LexConfig(r.lines, "", hcl.InitialPos)
	w.readChanges(changes)
	w.rewrite()
	w.tellUnused()
	if err := r.faults.Err(); err != nil {
		return nil, err
	}
	text := w.splice()
	if err := w.check(text); err != nil {
		return nil, err
	}
	return text, nil
}

// rewriter changes numbers in the text of a file that was read, and in the run
// that was read from it, which becomes what the changed text says.
type rewriter struct {
	r       *reader
	tokens  hclsyntax.Tokens
	changes map[string]float64
	unused  map[string]bool // changes of dimensions not met yet
	known   []string        // dimensions met
	edits   []edit
	// rodsWere are the rods that are mirror images, as they were read.
	rodsWere map[*rodBlock]asSet
}

// edit replaces the text from start to end.
type edit struct {
	start, end int
	text       string
}

// readChanges checks what is to be changed.
func (w *rewriter) readChanges(changes []Change) {
	for _, c := range changes {
		dimension := cty.NormalizeString(c.Dimension)
		_, twice := w.changes[dimension]
		switch {
		case twice:
			w.r.faults.Add(Span{}, "%s is changed twice", shortName(dimension))
		case math.IsNaN(c.Value):
			w.r.faults.Add(Span{}, "%s can't be changed to what is no number", shortName(dimension))
		case math.Abs(c.Value) > MaxSize:
			w.r.faults.Add(Span{}, "%s can't be changed to %.4g: sizes go to %s", shortName(dimension), c.Value, sizeLimit)
		}
		w.changes[dimension], w.unused[dimension] = c.Value, true
	}
}

// tellUnused tells of changes of dimensions that the file lacks.
func (w *rewriter) tellUnused() {
	for _, dimension := range slices.Sorted(maps.Keys(w.unused)) {
		w.r.faults.Add(Span{}, "the file has no number for %s%s", shortName(dimension), w.r.meant(dimension, "", itHas, w.known))
	}
}

// wanted returns what a dimension is to be changed to.
func (w *rewriter) wanted(dimension string) (float64, bool) {
	w.known = append(w.known, dimension)
	delete(w.unused, dimension)
	value, ok := w.changes[dimension]
	return value, ok
}

// rewrite changes numbers wherever they are wanted otherwise: places first,
// carriers before what they carry, then what is measured between places.
func (w *rewriter) rewrite() {
	w.keepRods()
	done := make([]bool, len(w.r.parts))
	for i := range w.r.parts {
		w.rewritePart(i, done)
	}
	for _, b := range w.r.rods {
		if b.isImage("points") {
			continue
		}
		for i, row := range b.rows {
			point := &b.rod.Points[i]
			point.At = w.vector(row.value, b.rod.Name+"."+point.Name, Vec{})
		}
	}
	w.followRodPoints()
	for _, b := range w.r.rods {
		b.rod.measure()
		if b.mirroring != nil && !b.mirroring.own["length"] {
			continue
		}
		w.length(b.block, "length", b.rod.Name+".length", &b.rod.Length, &b.rod.LengthGiven, "from", "to")
	}
	for _, b := range w.r.rods {
		if b.mirroring != nil {
			continue
		}
		for _, end := range b.ends {
			w.rewriteEngaged(end)
		}
	}
	w.besideRods()
	w.rewriteCables()
	for i, b := range w.r.stops {
		if s := w.r.run.Stops[i]; !b.isImage("at") {
			w.figure(b, "at", s.Name+".at", &s.At)
		}
	}
	w.followStops()
	w.rewriteThickness()
	w.followMetal()
}

// rewritePart changes the numbers of part i, its carriers' first.
func (w *rewriter) rewritePart(i int, done []bool) {
	if done[i] {
		return
	}
	done[i] = true
	p := w.r.parts[i]
	part := p.part
	switch pivot := pivotOf(p.block); {
	case part.NamedPivot != nil:
		w.rewritePart(part.NamedPivot.Part.Index, done)
		part.Pivot = part.NamedPivot.Get().At
	case pivot != nil && (p.isImage("pivot") || p.isImage("ball")):
		w.followPivot(p, done)
	case pivot != nil:
		part.Pivot = w.vector(pivot, part.Name+".pivot", Vec{})
	}
	for j, row := range p.rows {
		point := &part.Points[j]
		dimension := part.Name + "." + point.Name
		table := "points"
		if point.Arm {
			table = "arms"
		}
		if p.isImage(table) {
			point.At = w.followPoint(p, point, done)
		} else if point.Arm {
			point.At = part.Pivot.Add(w.vector(row.value, dimension, part.Pivot))
		} else {
			point.At = w.vector(row.value, dimension, Vec{})
		}
	}
	w.rewriteMetal(p)
}

// figure changes the number of an attribute, which value becomes.
func (w *rewriter) figure(b *block, name, dimension string, value *float64) {
	e := b.get(name)
	if e == nil {
		return
	}
	if want, ok := w.wanted(dimension); ok {
		*value = w.number(e, want)
	}
}

// length changes the length of a rod or cable, which value becomes; or gives it
// one, after what holds its ends.
func (w *rewriter) length(b *block, name, dimension string, value *float64, given *bool, holds ...string) {
	want, ok := w.wanted(dimension)
	if !ok {
		return
	}
	if e := b.get(name); e != nil {
		*value = w.number(e, want)
	} else if !same(want, *value) {
		*value, *given = w.addLength(b, name, want, holds...), true
	}
}

// rewriteEngaged changes how much thread is in a rod, in the way that the file
// gives it.
func (w *rewriter) rewriteEngaged(b endBlock) {
	end := b.end
	engaged, ok := w.wanted(end.String() + ".engaged")
	if !ok {
		return
	}
	switch in, home := b.get("engaged"), b.get("home"); {
	case in != nil:
		end.Engaged = w.number(in, engaged)
	case home != nil:
		turns := w.number(home, (*end.Most-engaged)/end.Thread.Pitch)
		end.Engaged = *end.Most - float64(turns*end.Thread.Pitch)
	default:
		end.Engaged = *end.Shank - w.number(b.get("exposed"), *end.Shank-engaged)
	}
}

// same reports whether a number is another to what is written of it.
func same(a, b float64) bool { return math.Abs(a-b) <= writtenHalf }

// number changes a number of the file, and returns what then stands there.
func (w *rewriter) number(e hclsyntax.Expression, want float64) float64 {
	now, _ := w.r.number(e)
	if same(want, now) || w.refuseDims(e) {
		return now
	}
	text, value := decimal(want)
	w.replace(e, text)
	return value
}

// refuseDims refuses to write over what is written with named dimensions, and reports
// whether it is: with the number in their place they would be lost.
func (w *rewriter) refuseDims(e hclsyntax.Expression) bool {
	names := w.r.dimsOf(e)
	if len(names) == 0 {
		return false
	}
	w.r.faults.Add(spanOf(e.Range()), "nothing was written: another number is wanted here, and this is written with %s, which is never overwritten: change that in its dims block, or put a number here", allOf(names))
	return true
}

// decimal returns a number as it is written, and what that reads as.
func decimal(value float64) (string, float64) {
	text := strconv.FormatFloat(value, 'f', writtenDecimals, 64)
	text = strings.TrimRight(strings.TrimRight(text, "0"), ".")
	if text == "-0" {
		text = "0"
	}
	value, _ = strconv.ParseFloat(text, 64) // it can be: it was just written
	return text, value
}

// vector changes what is wanted otherwise of a place, which is measured from
// origin, and returns what then stands there.
func (w *rewriter) vector(e hclsyntax.Expression, dimension string, origin Vec) Vec {
	now, _ := w.r.vector(e, "")
	want := now
	for i, axis := range axes {
		if value, ok := w.wanted(dimension + axis); ok {
			if value -= *origin.axis(i); !same(value, *now.axis(i)) {
				*want.axis(i) = value
			}
		}
	}
	if want == now {
		return now
	}
	if call, ok := unwrap(e).(*hclsyntax.FunctionCallExpr); ok {
		return w.polar(call, want)
	}
	return w.coordinates(unwrap(e).(*hclsyntax.TupleConsExpr), want)
}

// coordinates changes the entries of a point that is a list.
func (w *rewriter) coordinates(e *hclsyntax.TupleConsExpr, want Vec) Vec {
	var written Vec
	for i := range axes {
		value := *want.axis(i)
		switch {
		case i < len(e.Exprs):
			*written.axis(i) = w.number(e.Exprs[i], value)
		case !same(value, 0):
			text, z := decimal(value)
			end := e.Exprs[i-1].Range().End.Byte
			w.edits = append(w.edits, edit{end, end, ", " + text})
			*written.axis(i) = z
		}
	}
	return written
}

// polar changes a point given by length and angle. One that leaves their plane can
// only be written as a list.
func (w *rewriter) polar(e *hclsyntax.FunctionCallExpr, want Vec) Vec {
	given, _ := w.r.polar(e)
	first, second, third := axesOf(given.plane)
	if !same(*want.axis(third), 0) {
		if w.refuseDims(e) {
			return want
		}
		var texts [3]string
		var written Vec
		for i := range axes {
			texts[i], *written.axis(i) = decimal(*want.axis(i))
		}
		w.replace(e, "["+strings.Join(texts[:], ", ")+"]")
		return written
	}
	x, y := *want.axis(first), *want.axis(second)
	length, degrees := elementary.Hypot(x, y), given.degrees
	if length > 0 {
		degrees = float64(elementary.Atan2(y, x) * (180 / math.Pi))
	}
	degrees += float64(360 * math.Round((given.degrees-degrees)/360)) // as many turns as before
	return polarPlace{w.number(e.Args[0], length), w.number(e.Args[1], degrees), given.plane}.vec()
}

// replace replaces an expression. Comments inside it are kept after what it is
// replaced by; in brackets where one runs to the end of its line.
func (w *rewriter) replace(e hclsyntax.Expression, text string) {
	at := e.Range()
	lines := false
	for _, tok := range w.tokensFrom(at.Start.Byte) {
		if tok.Range.End.Byte > at.End.Byte {
			break
		}
		if tok.Type == hclsyntax.TokenComment {
			text += " " + string(w.r.src.Text[tok.Range.Start.Byte:tok.Range.End.Byte]) // with its own line end
			lines = lines || endsLine(tok)
		}
	}
	if lines {
		text = "(" + text + ")"
	}
	w.edits = append(w.edits, edit{at.Start.Byte, at.End.Byte, text})
}

// tokensFrom returns the tokens that begin at a byte or after it.
func (w *rewriter) tokensFrom(start int) hclsyntax.Tokens {
	first, _ := slices.BinarySearchFunc(w.tokens, start, func(tok hclsyntax.Token, start int) int {
		return cmp.Compare(tok.Range.Start.Byte, start)
	})
	return w.tokens[first:]
}

// addLength gives a rod or cable a length of a name, on a line of its own after the
// last of what holds its ends, and returns what then stands there.
func (w *rewriter) addLength(b *block, name string, length float64, holds ...string) float64 {
	ends := b.Body.Attributes[holds[0]]
	for _, hold := range holds[1:] {
		if a := b.Body.Attributes[hold]; a.SrcRange.End.Byte > ends.SrcRange.End.Byte {
			ends = a
		}
	}
	text := w.r.lines
	at := 0
	for _, tok := range w.tokensFrom(ends.SrcRange.End.Byte) {
		if endsLine(tok) {
			at = tok.Range.End.Byte
			break
		}
	}
	line := text[bytes.LastIndexByte(text[:ends.NameRange.Start.Byte], '\n')+1:]
	indent := line[:len(line)-len(bytes.TrimLeft(line, " \t"))]
	newline := lineEndBefore(w.r.src.Text, at)
	figure, value := decimal(length)
	width := ends.EqualsRange.Start.Byte - ends.NameRange.Start.Byte - 1
	w.edits = append(w.edits, edit{at, at, fmt.Sprintf("%s%-*s = %s%s", indent, width, name, figure, newline)})
	return value
}

// splice returns the text with every edit made.
func (w *rewriter) splice() []byte {
	slices.SortStableFunc(w.edits, func(a, b edit) int { return cmp.Compare(a.start, b.start) })
	var out []byte
	done := 0
	for _, e := range w.edits {
		out = append(append(out, w.r.src.Text[done:e.start]...), e.text...)
		done = e.end
	}
	return append(out, w.r.src.Text[done:]...)
}

// check reads the changed text, which must give what was wanted and leave
// everything else as it was.
func (w *rewriter) check(text []byte) error {
	run, err := Read(&Source{Name: w.r.src.Name, Text: text})
	if err != nil {
		return fmt.Errorf("changed so, the file would not read:\n%w", err)
	}
	read := run.figures()
	within := 0.0
	if len(w.r.mirrored) > 0 {
		// The mirror image of an angle is reckoned once more.
		within = writtenHalf
	}
	if !alike(read, w.r.run.figures(), within) {
		return fmt.Errorf("%s: the changed file would not read as it was meant", Printable(w.r.src.Name))
	}
	largest := 0.0
	for _, value := range read {
		largest = max(largest, math.Abs(value))
	}
	for _, dimension := range slices.Sorted(maps.Keys(w.changes)) {
		if want := w.changes[dimension]; math.Abs(read[dimension]-want) > 2*writtenHalf+float64(polarShare*largest) {
			return fmt.Errorf("%s: %s would read as %g, not %g", Printable(w.r.src.Name), dimension, read[dimension], want)
		}
	}
	return nil
}

// figures returns every number of a run that can be changed, by its name.
func (run *Run) figures() map[string]float64 {
	figures := map[string]float64{}
	for _, d := range run.Dimensions() {
		figures[d.String()] = d.Value()
	}
	for _, r := range run.Rods {
		for _, e := range r.Ends {
			figures[e.String()+".engaged"] = e.Engaged
		}
	}
	run.metalFigures(figures)
	for _, c := range run.Cables {
		figures[c.Name+".stiffness"] = c.Stiffness
		for _, e := range c.Ends {
			figures[e.String()+".engaged"] = e.Engaged
		}
	}
	for _, p := range run.Pairs {
		figures[p.Name+".pretension"] = p.Pretension
	}
	for _, s := range run.Stops {
		figures[s.Name+".at"] = s.At
	}
	return figures
}
