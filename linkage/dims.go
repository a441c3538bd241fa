package linkage

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"
)

// dimsKind is the kind of a block of named dimensions.
const dimsKind = "dims"

// dims is a block of named dimensions, which enter arithmetic as name.arm.
type dims struct {
	name    string
	entries map[string]*dim
	order   []string // in the file's order
}

// dim is one named dimension.
type dim struct {
	of    *dims
	name  string
	expr  hclsyntax.Expression
	state dimState
	value *big.Float // once it is known
}

// String is its name as it is written in arithmetic and in a Setting.
func (d *dim) String() string { return d.of.name + "." + d.name }

// dimState is how far a named dimension has been worked out.
type dimState int

const (
	untouched dimState = iota
	beingRead          // what it rests on is being worked out
	readWell
	readBadly // what is wrong is told
)

// declareDims finds the named dimensions of a file, before anything is read: a
// number may use one wherever it stands.
func (r *reader) declareDims(blocks []*block) {
	for _, b := range blocks {
		if b.Type != dimsKind || len(b.Labels) == 0 {
			continue
		}
		name := cty.NormalizeString(b.name)
		if r.dims[name] != nil {
			continue // told where the block is declared
		}
		d := &dims{name: name, entries: map[string]*dim{}}
		for _, a := range sortedAttributes(b.Body) {
			entry := cty.NormalizeString(a.Name)
			d.entries[entry] = &dim{of: d, name: entry, expr: a.Expr}
			d.order = append(d.order, entry)
		}
		r.dims[name] = d
		r.dimsOrder = append(r.dimsOrder, d)
	}
}

// readDims works every named dimension out, so that what is wrong with one that
// nothing uses is told too.
func (r *reader) readDims() {
	for _, d := range r.dimsOrder {
		for _, name := range d.order {
			called := d.entries[name].String()
			r.run.Named = append(r.run.Named, called)
			if value, ok := r.workOut(d.entries[name]); ok {
				r.run.noteNamed(called, value)
			}
		}
	}
}

// noteNamed notes what a named dimension comes to.
func (run *Run) noteNamed(name string, value *big.Float) {
	if run.written.dims == nil {
		run.written.dims = map[string]float64{}
	}
	run.written.dims[name], _ = value.Float64()
}

// NamedValue is what a named dimension of the file comes to, in the run's unit or whatever
// it is used for, which nothing tells; false where there is none so called.
func (run *Run) NamedValue(name string) (value float64, ok bool) {
	if run != nil {
		value, ok = run.written.dims[name]
	}
	return value, ok
}

// tiniest is the binary exponent below which a named dimension counts as nothing.
// It is far below any float64, and keeps products of products of named dimensions
// within what arithmetic can hold.
const tiniest = -1100

// maxChain is how many named dimensions may rest on one another. No drawing comes
// near it, and each may be a sum of maxTerms besides: it keeps the stack small.
const maxChain = 100

// workOut returns what a named dimension comes to.
func (r *reader) workOut(d *dim) (*big.Float, bool) {
	switch d.state {
	case readWell:
		return new(big.Float).Copy(d.value), true
	case readBadly:
		r.silent++
		return nil, false
	case beingRead:
		r.tellCircle(d)
		return nil, false
	}
	if len(r.dimPath) >= maxChain {
		r.faults.Add(spanOf(d.expr.Range()), "more than %d named dimensions rest on one another", maxChain)
		d.state = readBadly
		return nil, false
	}
	d.state = beingRead
	r.dimPath = append(r.dimPath, d)
	value, ok := r.evaluate(d.expr, 0)
	r.dimPath = r.dimPath[:len(r.dimPath)-1]
	if ok {
		value, ok = r.fitting(d.expr, value)
	}
	if !ok || d.state != beingRead {
		d.state = readBadly
		return nil, false
	}
	if set := 0.0; r.setNumber(d.String(), &set) {
		value = new(big.Float).SetPrec(numberBits).SetFloat64(set)
	}
	d.state, d.value = readWell, value
	return new(big.Float).Copy(value), true
}

// fitting refuses a value too large for any number of a file, and makes one too
// small to be told from nothing zero.
func (r *reader) fitting(e hclsyntax.Expression, value *big.Float) (*big.Float, bool) {
	if new(big.Float).Abs(value).Cmp(big.NewFloat(MaxSize)) > 0 {
		r.faults.Add(spanOf(e.Range()), "%s is too large: sizes go to %s", besideLimit(value), sizeLimit)
		return nil, false
	}
	if value.Sign() != 0 && value.MantExp(nil) < tiniest {
		return new(big.Float).SetPrec(numberBits), true
	}
	return value, true
}

// tellCircle tells of named dimensions that rest on one another in a circle, which
// is being followed and comes back to d.
func (r *reader) tellCircle(d *dim) {
	circle := r.dimPath[slices.Index(r.dimPath, d):]
	names := make([]string, len(circle))
	for i, on := range circle {
		names[i] = on.String()
		on.state = readBadly
	}
	at := spanOf(d.expr.Range())
	if len(circle) == 1 {
		r.faults.Add(at, "%s rests on itself: give it a number", shortName(d.String()))
		return
	}
	r.faults.Add(at, "%s rest on one another in a circle: give one of them a number", allOf(names))
}

// named returns the number that a name in arithmetic stands for.
func (r *reader) named(e *hclsyntax.ScopeTraversalExpr) (*big.Float, bool) {
	at := spanOf(e.Range())
	root := cty.NormalizeString(e.Traversal.RootName())
	d := r.dims[root]
	if d == nil {
		r.notANumber(e)
		return nil, false
	}
	if len(e.Traversal) == 1 {
		r.faults.Add(at, "a number is wanted here, not all of %s%s", shortName(root), r.meant("", root+".", itHas, d.order))
		return nil, false
	}
	step, ok := e.Traversal[1].(hcl.TraverseAttr)
	if !ok || len(e.Traversal) > 2 {
		r.faults.Add(at, "a named dimension is two names with a dot between, as in %s", r.exampleOf(d))
		return nil, false
	}
	name := cty.NormalizeString(step.Name)
	entry := d.entries[name]
	if entry == nil {
		hint := r.meant(name, root+".", itHas, d.order)
		if a, b, ok := d.parted(name); ok {
			hint = fmt.Sprintf("; dashes belong to names: to subtract write %s.%s - %s, with spaces", root, a, shortened(b))
		} else if hasDash(name) && !strings.Contains(hint, "did you mean") {
			hint = "; dashes belong to names, so what is subtracted stands between spaces" + hint
		}
		r.faults.Add(at, "%s has no dimension %s%s", shortName(root), shortName(name), hint)
		return nil, false
	}
	return r.workOut(entry)
}

// parted splits a name at a dash that was meant as minus: before it stands a
// dimension that there is.
func (d *dims) parted(name string) (before, after string, ok bool) {
	for i, c := range name {
		if c == '-' && i > 0 && i < len(name)-1 && d.entries[name[:i]] != nil {
			return name[:i], name[i+1:], true
		}
	}
	return "", "", false
}

// exampleOf is the first dimension of a block as it is written.
func (r *reader) exampleOf(d *dims) string {
	if len(d.order) == 0 {
		return "name.arm"
	}
	return d.name + "." + d.order[0]
}

// tellName tells of a name that is no named dimension where a number is wanted.
func (r *reader) tellName(e *hclsyntax.ScopeTraversalExpr) {
	at := spanOf(e.Range())
	root := cty.NormalizeString(e.Traversal.RootName())
	before, after, dashed := strings.Cut(root, "-")
	var whole []string
	if len(e.Traversal) == 1 && !r.faults.full() {
		for _, d := range r.dimsOrder {
			if d.entries[root] != nil {
				whole = append(whole, shortName(d.name+"."+root))
			}
		}
	}
	found, isThing := r.names[root]
	switch {
	case r.bare:
		r.faults.Add(at, "a number is wanted here, not a name")
	case r.ghosts[root]:
		r.silent++
	case len(whole) > 0:
		r.faults.Add(at, "a number is wanted here, and %s alone names none; did you mean %s?", shortName(root), joined(whole[:min(len(whole), listedNames)], "or"))
	case isThing && len(e.Traversal) > 1:
		r.faults.Add(at, "a number is wanted here, and %s is %s: by name only a dimension enters arithmetic, from a dims block", shortName(root), aOrAn(kindWord(found.thing)))
	case isThing:
		r.faults.Add(at, "a number is wanted here, and %s is %s", shortName(root), aOrAn(kindWord(found.thing)))
	case dashed && r.dims[before] != nil && r.dims[before].entries[after] != nil:
		r.faults.Add(at, "a number is wanted here, and %s is one name, dashes and all; did you mean %s?", shortName(root), shortName(before+"."+after))
	case dashed && after != "":
		r.faults.Add(at, "a number is wanted here, and %s is one name, dashes and all: to subtract, write %s - %s, with spaces", shortName(root), shortened(before), shortened(after))
	case len(r.dimsOrder) > 0:
		r.faults.Add(at, "a number is wanted here, and there is no dims block called %s%s", shortName(root), r.meantDims(root))
	default:
		r.faults.Add(at, `a number is wanted here, not a name: names enter arithmetic from a block dims "name" { arm = 50 }, as name.arm`)
	}
}

// meantDims hints at the block of dimensions that was meant.
func (r *reader) meantDims(given string) string {
	var names []string
	if !r.faults.full() {
		for _, d := range r.dimsOrder {
			names = append(names, d.name)
		}
	}
	if len(names) == 0 {
		return ""
	}
	return r.meant(given, "", thereIs, names)
}

// dimsOf returns the named dimensions that an expression uses, as they are written,
// each once.
func (r *reader) dimsOf(e hclsyntax.Expression) []string {
	var names []string
	for _, traversal := range e.Variables() {
		if r.dims[cty.NormalizeString(traversal.RootName())] == nil {
			continue
		}
		if name := nameOf(traversal); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}
