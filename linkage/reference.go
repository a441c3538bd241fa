package linkage

import (
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"
)

// reference is a name of the file as written: "part" or "part.point".
type reference struct {
	root, rest       string // rest is "" without a dot
	at, atRoot, atOf Span   // the whole, the first name, the second
}

// reference returns what an expression refers to. wanted says what should
// stand there, with an example.
func (r *reader) reference(e hclsyntax.Expression, wanted string) (reference, bool) {
	at := spanOf(e.Range())
	traversal, ok := e.(*hclsyntax.ScopeTraversalExpr)
	if !ok {
		if _, quoted := e.(*hclsyntax.TemplateExpr); quoted {
			r.faults.Add(at, "%s is wanted here, without quotes", wanted)
		} else {
			r.faults.Add(at, "%s is wanted here, not %s", wanted, kindOf(e))
		}
		return reference{}, false
	}
	ref := reference{
		root: cty.NormalizeString(traversal.Traversal.RootName()),
		at:   at, atRoot: spanOf(traversal.Traversal[0].SourceRange()), atOf: at,
	}
	steps := traversal.Traversal[1:]
	levels := "one name, or two with a dot between"
	if r.run.Aircraft != nil { // a thing is named after its run
		levels = "the name of a run and of a thing of it with a dot between, and for a point its name behind another dot"
		if len(steps) > 0 {
			if step, ok := steps[0].(hcl.TraverseAttr); ok {
				ref.root += "." + cty.NormalizeString(step.Name)
				steps = steps[1:]
			}
		}
	}
	if len(steps) == 0 {
		return ref, true
	}
	step, ok := steps[0].(hcl.TraverseAttr)
	if !ok || len(steps) > 1 {
		r.faults.Add(at, "%s is wanted here: %s", wanted, levels)
		return reference{}, false
	}
	ref.rest = cty.NormalizeString(step.Name)
	end := step.SrcRange.End
	if end.Line == 0 {
		return ref, true // built, without a text
	}
	// The step's own range begins with the dot.
	ref.atOf = Span{end.Line, end.Column - utf8.RuneCountInString(step.Name), end.Byte - len(step.Name), end.Byte, ref.at.File}
	return ref, true
}

// unknown tells of a name that nothing has. match picks what could be meant;
// kinds are those of members that it could have been meant for, left without
// their part.
func (r *reader) unknown(ref reference, what string, match func(thing any) bool, kinds ...string) {
	if r.ghosts[ref.root] {
		r.silent++ // told where it is declared wrongly
		return
	}
	var candidates []string
	if !r.faults.full() {
		candidates = r.all(match)
	}
	hint := r.meant(ref.root, "", thereIs, candidates)
	if !strings.Contains(hint, "did you mean") && hasDash(ref.root) {
		hint = "; dashes belong to names" + hint
	}
	if whole := r.membersCalled(ref, kinds); len(whole) > 0 {
		hint = "; did you mean " + strings.Join(whole, " or ") + "?"
	}
	r.faults.Add(ref.atRoot, "there is no %s called %s%s", what, shortName(ref.root), hint)
}

// membersCalled returns the first members of the given kinds that a name without
// a dot can mean, each as it is written, in quotes.
func (r *reader) membersCalled(ref reference, kinds []string) []string {
	const most = 3
	var whole []string
	if ref.rest != "" || len(kinds) == 0 || r.faults.full() {
		return nil
	}
	for _, owner := range r.order {
		m := r.members[r.names[owner].thing]
		if m == nil {
			continue
		}
		if member, ok := m.byName[ref.root]; ok && slices.Contains(kinds, member.kind) {
			if whole = append(whole, shortName(owner+"."+ref.root)); len(whole) == most {
				break
			}
		}
	}
	return whole
}

// wrongKind tells of a name that something of another kind has.
func (r *reader) wrongKind(at Span, what string, thing any, name string) {
	hint := ""
	switch thing := thing.(type) {
	case *Control:
		if thing.Of != nil {
			hint = fmt.Sprintf("; it moves the part %s", shortName(thing.Of.Name))
		}
	case *Output:
		if thing.Part != nil {
			hint = fmt.Sprintf("; it shows the part %s", shortName(thing.Part.Name))
		}
	}
	r.faults.Add(at, "%s is wanted here, and %s is %s%s", what, shortName(name), aOrAn(kindWord(thing)), hint)
}

// pointRef returns the point that an expression refers to.
func (r *reader) pointRef(e hclsyntax.Expression) (PointRef, bool) {
	const wanted = "a point, as in part.point,"
	ref, ok := r.reference(e, wanted)
	if !ok {
		return PointRef{}, false
	}
	hasPoints := func(thing any) bool {
		switch thing.(type) {
		case *Part, *Rod:
			return true
		}
		return false
	}
	found, ok := r.names[ref.root]
	if !ok {
		r.unknown(ref, "part or rod", hasPoints, "point", "arm")
		return PointRef{}, false
	}
	if !hasPoints(found.thing) {
		r.wrongKind(ref.atRoot, "a point of a part or rod", found.thing, ref.root)
		return PointRef{}, false
	}
	m := r.members[found.thing]
	if ref.rest == "" {
		r.faults.Add(ref.at, "%s is wanted here, not all of %s%s", wanted, shortName(ref.root), r.meant("", ref.root+".", itHas, r.memberList(m, "point", "arm")))
		return PointRef{}, false
	}
	p, ok := m.byName[ref.rest]
	switch {
	case !ok && ref.rest == "pivot":
		r.faults.Add(ref.atOf, "the pivot of %s is no named point: give one at its place", shortName(ref.root))
	case !ok:
		r.faults.Add(ref.atOf, "%s has no point %s%s", shortName(ref.root), shortName(ref.rest), r.meant(ref.rest, ref.root+".", itHas, r.memberList(m, "point", "arm")))
	case p.kind != "point" && p.kind != "arm":
		ok = false
		r.faults.Add(ref.atOf, "%s is %s, metal, and a point is wanted here%s", shortName(ref.root+"."+ref.rest), aOrAn(p.kind), r.meant("", ref.root+".", thereIs, r.memberList(m, "point", "arm")))
	}
	if !ok {
		return PointRef{}, false
	}
	part, _ := found.thing.(*Part)
	rod, _ := found.thing.(*Rod)
	return PointRef{part, rod, p.index, ref.at}, true
}

// isName reports whether an expression names something.
func isName(e hclsyntax.Expression) bool {
	_, ok := e.(*hclsyntax.ScopeTraversalExpr)
	return ok
}

// hasDot reports whether an expression names something with a dot in it.
func hasDot(e hclsyntax.Expression) bool {
	name, ok := e.(*hclsyntax.ScopeTraversalExpr)
	return ok && len(name.Traversal) > 1
}

// thing returns what a one-word reference names. what says which kind is
// wanted, match which kinds may stand there.
func (r *reader) thing(e hclsyntax.Expression, what string, match func(thing any) bool) (any, bool) {
	ref, ok := r.reference(e, aOrAn(what))
	if !ok {
		return nil, false
	}
	found, ok := r.names[ref.root]
	switch {
	case !ok:
		r.unknown(ref, what, match)
		return nil, false
	case !match(found.thing):
		r.wrongKind(ref.atRoot, aOrAn(what), found.thing, ref.root)
		return nil, false
	case ref.rest != "":
		r.faults.Add(ref.at, "%s is wanted here, by its one name: %s", aOrAn(what), shortName(ref.root))
		return nil, false
	}
	return found.thing, true
}

// is reports whether a thing is of type T, for thing.
func is[T any](thing any) bool {
	_, ok := thing.(T)
	return ok
}

// partRef returns the part that an expression refers to.
func (r *reader) partRef(e hclsyntax.Expression) (*Part, bool) {
	thing, ok := r.thing(e, "part", is[*Part])
	part, _ := thing.(*Part)
	return part, ok
}

// movingRef returns the part that an expression refers to, which must move.
func (r *reader) movingRef(e hclsyntax.Expression) (*Part, bool) {
	part, ok := r.partRef(e)
	if ok && part.Motion == Fixed {
		r.faults.Add(spanOf(e.Range()), "%s is fixed, and something that moves is wanted here", shortName(part.Name))
		return nil, false
	}
	return part, ok
}

// featureRef returns the metal that an expression refers to.
func (r *reader) featureRef(e hclsyntax.Expression) (FeatureRef, bool) {
	const wanted = "metal, as in part.feature or a rod,"
	ref, ok := r.reference(e, wanted)
	if !ok {
		return FeatureRef{}, false
	}
	found, ok := r.names[ref.root]
	if !ok {
		r.unknown(ref, "part or rod", func(thing any) bool { return is[*Part](thing) || is[*Rod](thing) }, "round", "edge")
		return FeatureRef{}, false
	}
	switch thing := found.thing.(type) {
	case *Rod:
		if ref.rest != "" {
			r.faults.Add(ref.at, "a rod is named alone: write %s", ref.root)
			return FeatureRef{}, false
		}
		if thing.Diameter == nil && !r.bad[thing] {
			r.faults.Add(ref.at, "the rod %s is no metal until it has a diameter: give it one, %s", shortName(thing.Name), r.src.seen(thing.Span))
			return FeatureRef{}, false
		}
		return FeatureRef{Rod: thing, Span: ref.at}, true
	case *Part:
		m := r.members[thing]
		if ref.rest == "" {
			r.faults.Add(ref.at, "%s is wanted here, not all of %s%s", wanted, shortName(ref.root), r.meant("", ref.root+".", itHas, r.memberList(m, "round", "edge")))
			return FeatureRef{}, false
		}
		f, ok := m.byName[ref.rest]
		switch {
		case !ok:
			r.faults.Add(ref.atOf, "%s has no round or edge %s%s", shortName(ref.root), shortName(ref.rest), r.meant(ref.rest, ref.root+".", itHas, r.memberList(m, "round", "edge")))
		case f.kind != "round" && f.kind != "edge":
			ok = false
			r.faults.Add(ref.atOf, "%s is a point, and metal is wanted here: a round or an edge%s", shortName(ref.root+"."+ref.rest), r.meant("", ref.root+".", thereIs, r.memberList(m, "round", "edge")))
		}
		return FeatureRef{Part: thing, Feature: f.index, Span: ref.at}, ok
	}
	r.wrongKind(ref.atRoot, "metal of a part, or a rod,", found.thing, ref.root)
	return FeatureRef{}, false
}

// twoFeatures returns the two pieces of metal of a list, which must be able to
// move against each other.
func (r *reader) twoFeatures(e hclsyntax.Expression) ([2]FeatureRef, bool) {
	entries, ok := r.list(e, 2, "[left-pedal.heel, airframe.tube]")
	if !ok {
		return [2]FeatureRef{}, false
	}
	var pair [2]FeatureRef
	for i, entry := range entries {
		f, good := r.featureRef(entry)
		pair[i], ok = f, ok && good
	}
	if !ok {
		return pair, false
	}
	a, b := pair[0], pair[1]
	switch {
	case a.Rod != nil && a.Rod == b.Rod, a.Part != nil && a.Part == b.Part:
		r.faults.Add(spanOf(e.Range()), "both are of the same piece, %s: they never come nearer", shortName(a.owner()))
		return pair, false
	case a.Part != nil && b.Part != nil && a.Part.Motion == Fixed && b.Part.Motion == Fixed:
		r.faults.Add(spanOf(e.Range()), "both are fixed: they never come nearer")
		return pair, false
	}
	return pair, true
}

// owner is the name of the part or rod that metal belongs to.
func (f FeatureRef) owner() string {
	if f.Rod != nil {
		return f.Rod.Name
	}
	return f.Part.Name
}
