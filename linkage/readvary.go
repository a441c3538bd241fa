package linkage

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"
)

// varyKind is the kind of a block of what a search may change.
const varyKind = "vary"

const (
	// maxVaries is how many things of a file may vary: more than any search can go
	// through.
	maxVaries = 64
	// maxAmong is how many values one of them may be chosen from.
	maxAmong = 10_000
)

const (
	wantedNumber = "a dimension, as in crank.in.y, or a point, as in lever.horn,"
	rangeExample = "low = 40 and high = 70"
)

// readVaries reads what may vary: what the file says, then what was asked for besides.
func (r *reader) readVaries() {
	if len(r.dims) > 0 && len(r.faults.List) == 0 {
		r.run.written.with = map[string][]string{}
		for _, n := range r.run.Numbers() {
			if named := r.writtenWith(n); len(named) > 0 {
				r.run.written.with[n.name] = named
			}
		}
	}
	for i, b := range r.varies {
		r.readVary(b, r.run.Varies[i])
		b.tellMissing()
	}
	for _, text := range r.asked {
		r.readAsked(text)
	}
	if n := len(r.run.Varies); n > maxVaries {
		r.faults.Add(r.run.Varies[maxVaries].Span, "%d things are to vary, and no search goes through more than %d", n, maxVaries)
	}
	varied := map[string]*Vary{}
	for _, v := range r.run.Varies {
		for _, n := range v.Numbers {
			if other := varied[n.name]; other != nil {
				before := ""
				if v.Span == (Span{}) {
					before = "--vary " + v.Of + ": "
				}
				r.faults.Add(v.Span, "%s%s varies already, in %s", before, shortName(n.name), shortName(other.Title()))
				break
			}
			varied[n.name] = v
		}
	}
}

// readVary reads a vary block.
func (r *reader) readVary(b *block, v *Vary) {
	e := b.need("of", "of = crank.in.y")
	among, low, high := b.get("among"), b.get("low"), b.get("high")
	switch {
	case among != nil && (low != nil || high != nil || b.get("step") != nil):
		r.faults.Add(b.at("among"), "what varies does so either among some values or from low to high")
		return
	case among == nil && low == nil && high == nil:
		r.faults.Add(b.span(), "%s doesn't tell what it may be: write %s, or among = [[0, 50], [0, 60]]", b, rangeExample)
		return
	case e == nil:
		return
	}
	name, ok := r.dotted(e)
	if !ok || !r.find(v, name, spanOf(e.Range())) {
		return
	}
	if among != nil {
		r.readAmong(v, among)
		return
	}
	var okLow, okHigh bool
	if e := b.need("low", "low = 40"); e != nil {
		v.Low, okLow = r.number(e)
	}
	if e := b.need("high", "high = 70"); e != nil {
		v.High, okHigh = r.number(e)
	}
	if step := b.moreThanNothing("step"); step != nil {
		v.Step = *step
	} else if b.get("step") != nil {
		return // told
	}
	if okLow && okHigh {
		r.checkRange(v, b.at("low"), b.at("step"))
	}
}

// dotted is a name of any number of words, as in twist.tail.2.x.
func (r *reader) dotted(e hclsyntax.Expression) (string, bool) {
	at := spanOf(e.Range())
	traversal, ok := unwrap(e).(*hclsyntax.ScopeTraversalExpr)
	if !ok {
		if _, quoted := e.(*hclsyntax.TemplateExpr); quoted {
			r.faults.Add(at, "%s is wanted here, without quotes", wantedNumber)
		} else {
			r.faults.Add(at, "%s is wanted here, not %s", wantedNumber, kindOf(e))
		}
		return "", false
	}
	words := []string{cty.NormalizeString(traversal.Traversal.RootName())}
	for _, step := range traversal.Traversal[1:] {
		switch step := step.(type) {
		case hcl.TraverseAttr:
			words = append(words, cty.NormalizeString(step.Name))
		case hcl.TraverseIndex:
			if step.Key.Type() != cty.Number {
				r.faults.Add(at, "%s is wanted here", wantedNumber)
				return "", false
			}
			words = append(words, step.Key.AsBigFloat().Text('f', -1))
		}
	}
	return strings.Join(words, "."), true
}

// find finds what is to vary, and tells where it can't.
func (r *reader) find(v *Vary, name string, at Span) bool {
	v.Of = name
	root, _, _ := strings.Cut(name, ".")
	if r.ghosts[root] {
		r.silent++ // told where it is declared wrongly
		return false
	}
	if found, ok := r.names[root]; ok && r.bad[found.thing] {
		r.silent++
		return false
	}
	names := []string{name}
	if owner, point, ok := strings.Cut(name, "."); ok && !strings.Contains(point, ".") && r.hasPoint(owner, point) {
		v.Place = true
		names = []string{name + ".x", name + ".y", name + ".z"}
	}
	for _, name := range names {
		if image, ok := r.images[name]; ok {
			r.faults.Add(at, "%s is mirrored from %s: vary that, and this goes with it", shortName(v.Of), shortName(strings.TrimSuffix(image.of, axisEnding(v, image.of))))
			return false
		}
		n, ok := r.run.Number(name)
		if !ok {
			r.tellNoNumber(name, at)
			return false
		}
		if named := r.writtenWith(n); len(named) > 0 {
			r.faults.Add(at, "%s is written with %s: vary that, and this goes with it", shortName(v.Of), allOf(named))
			return false
		}
		if n.reread && r.run.Sketch > 0 {
			r.faults.Add(at, "%s can't vary in a sketch, whose places follow from what was taped: vary the place itself", shortName(name))
			return false
		}
		v.Numbers = append(v.Numbers, n)
	}
	return true
}

// axisEnding is what the name of a place has not and that of its coordinate has.
func axisEnding(v *Vary, name string) string {
	if v.Place {
		return name[len(name)-2:]
	}
	return ""
}

// hasPoint reports whether a part or rod has a point of a name.
func (r *reader) hasPoint(owner, point string) bool {
	m := r.members[r.names[owner].thing]
	if m == nil {
		return false
	}
	is, ok := m.byName[point]
	return ok && (is.kind == "point" || is.kind == "arm" || is.kind == "round")
}

// tellNoNumber tells of a name that no number has.
func (r *reader) tellNoNumber(name string, at Span) {
	if why := r.set.refused[name]; why != "" {
		r.faults.Add(at, "%s", why)
		return
	}
	if r.faults.full() {
		r.faults.Add(at, "there is no such dimension")
		return
	}
	var known []string
	for _, n := range r.run.Numbers() {
		known = append(known, n.name)
		if place, ok := strings.CutSuffix(n.name, axes[0]); ok && strings.Count(name, ".") == 1 {
			known = append(known, place)
		}
	}
	hint := "; dimensions are rod.length, part.point.x, part.pivot.y, stop.at, part.edge.2.x, part.round.radius and what a dims block names"
	if best := Nearest(name, known); best != "" {
		hint = fmt.Sprintf("; did you mean %q?", best)
	}
	r.faults.Add(at, "the file has no dimension %s%s", shortName(name), hint)
}

// readAmong reads the values to choose from.
func (r *reader) readAmong(v *Vary, e hclsyntax.Expression) {
	example := "[40, 45, 50]"
	if v.Place {
		example = "[[0, 50], [0, 60]]"
	}
	entries, ok := r.list(e, -1, example)
	if !ok {
		return
	}
	if len(entries) == 0 || len(entries) > maxAmong {
		r.faults.Add(spanOf(e.Range()), "among wants one value at least, and %d at most: %s", maxAmong, example)
		return
	}
	var places []Vec
	heights := false
	for _, entry := range entries {
		at := spanOf(entry.Range())
		if !v.Place {
			value, ok := r.number(entry)
			if ok && r.checkValue(v, value, at) {
				v.Among = append(v.Among, []float64{value})
			}
			continue
		}
		place, ok := r.vector(entry, "")
		if !ok {
			continue
		}
		if tuple, ok := unwrap(entry).(*hclsyntax.TupleConsExpr); ok && len(tuple.Exprs) == 2 {
			place.Z = v.Numbers[2].Value()
		} else {
			heights = true
		}
		if r.checkPlace(v, place, at) {
			places = append(places, place)
		}
	}
	for _, place := range places {
		values := []float64{place.X, place.Y, place.Z}
		v.Among = append(v.Among, values)
	}
	if v.Place && !heights {
		v.Numbers = v.Numbers[:2]
		for i := range v.Among {
			v.Among[i] = v.Among[i][:2]
		}
	}
	for i, values := range v.Among {
		if slices.ContainsFunc(v.Among[:i], func(was []float64) bool { return slices.EqualFunc(was, values, sameNumber) }) {
			r.faults.Add(spanOf(e.Range()), "%s stands twice in among", valuesText(values))
			return
		}
	}
}

// valuesText writes values as a file would.
func valuesText(values []float64) string {
	texts := make([]string, len(values))
	for i, value := range values {
		texts[i] = strconv.FormatFloat(value, 'f', -1, 64)
	}
	if len(texts) == 1 {
		return texts[0]
	}
	return "[" + strings.Join(texts, ", ") + "]"
}

// checkPlace tells of a place where a point of a part can't be.
func (r *reader) checkPlace(v *Vary, place Vec, at Span) bool {
	d := v.Numbers[0].dimension
	if d == nil || d.Part == nil || d.Part.Motion != Turns {
		return true
	}
	p, none := d.Part, float64(nothing*r.run.Size())
	was := p.Points[d.Point].At
	switch {
	case math.Abs(place.Sub(was).Dot(p.Axis)) > none:
		r.faults.Add(at, "here %s would lie off its plane: %s turns about %s, and %s is drawn at %s", shortName(v.Of), shortName(p.Name), placeText(p.Axis), shortName(v.Of), placeText(was))
	case place.Sub(p.Pivot).Cross(p.Axis).Norm() <= none:
		r.faults.Add(at, "here %s would lie on the axis that %s turns about, so nothing there can turn it", shortName(v.Of), shortName(p.Name))
	default:
		return true
	}
	return false
}

func placeText(v Vec) string { return valuesText([]float64{v.X, v.Y, v.Z}) }

// checkValue tells of a value that the number can't have.
func (r *reader) checkValue(v *Vary, value float64, at Span) bool {
	n := v.Numbers[0]
	switch {
	case n.IsLength() && value <= 0:
		r.faults.Add(at, "%s is more than 0", shortName(n.name))
	case n.stop != nil && n.stop.Side == "" && value*n.stop.At <= 0:
		r.faults.Add(at, `set past the drawn position, at 0, the stop would limit the other side: side = "low" or side = "high" must be told`)
	default:
		return true
	}
	return false
}

// checkRange tells of a range that is none.
func (r *reader) checkRange(v *Vary, at, atStep Span) {
	switch {
	case v.Place:
		r.faults.Add(v.Span, "%s is a point: give among = [[0, 50], [0, 60]], or vary %s and %s each by itself", shortName(v.Of), shortName(v.Of+".x"), shortName(v.Of+".y"))
	case v.Low > v.High:
		r.faults.Add(at, "the lower figure comes first: from %g to %g", v.High, v.Low)
	case v.Low == v.High:
		r.faults.Add(at, "low and high are the same: nothing is left to vary")
	case v.Step > v.High-v.Low:
		r.faults.Add(atStep, "the step, %g, is larger than the range from %g to %g: nothing lies between", v.Step, v.Low, v.High)
	case r.checkValue(v, v.Low, at):
		r.checkValue(v, v.High, at)
	}
}
