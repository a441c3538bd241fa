package linkage

import (
	"strings"
	"time"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"
)

// blankWord stands in place of what is still to be measured.
const blankWord = "blank"

// How far every coordinate may be out on its own where the file doesn't say,
// two standard deviations: what can be taped to a hole's center in an airframe
// with care. Common practice, no source.
const (
	uncertainMillimeters = 1
	uncertainInches      = 0.04
)

// fullTurn is the most that a gauge reads either way, degrees.
const fullTurn = 360

// dateLayout is how a date is written.
const dateLayout = "2006-01-02"

// readExactness reads how well the coordinates of the run are known.
func (r *reader) readExactness(b *block) {
	if e := b.get("sketch"); e != nil {
		sketch, ok := r.number(e)
		if ok && sketch <= 0 {
			r.faults.Add(spanOf(e.Range()), "sketch is more than 0; left out, the coordinates are exact")
		}
		r.run.Sketch = sketch
	}
	r.run.Uncertain = uncertainMillimeters
	if r.run.Units == Inches {
		r.run.Uncertain = uncertainInches
	}
	if uncertain := b.atLeast("uncertain", 0); uncertain != nil {
		r.run.Uncertain, r.run.UncertainGiven = *uncertain, true
	}
}

// label returns the free text that a block is known by, which no other block
// of the same labels may have.
func (r *reader) label(b *block, labels map[string]*block) string {
	if len(b.Labels) == 0 {
		return "" // told already
	}
	name, at := cty.NormalizeString(b.name), spanOf(b.LabelRanges[0])
	if strings.TrimSpace(name) == "" {
		r.faults.Add(at, "a name is wanted here, by which this is told")
		return name
	}
	if first := labels[name]; first != nil {
		r.faults.Add(at, "the name %s is given already %s: each needs its own", shortName(name), r.src.seen(first.span()))
		return name
	}
	labels[name] = b
	return name
}

// readMeasurements reads what was taped and gauged.
func (r *reader) readMeasurements() {
	labels := map[string]*block{}
	for i, b := range r.measurements {
		m := r.run.Measurements[i]
		r.sound(m, func() {
			m.Name = r.label(b, labels)
			r.readMeasurement(b, m)
			b.tellMissing()
		})
	}
}

// readMeasurement reads one thing taped or gauged.
func (r *reader) readMeasurement(b *block, m *Measurement) {
	okFrom, okTo := false, false
	if e := b.need("from", "from = part.point"); e != nil {
		m.From, okFrom = r.placeRef(e)
	}
	if e := b.need("to", "to = part.point"); e != nil {
		m.To, okTo = r.placeRef(e)
	}
	if okFrom && okTo && m.From.Same(m.To) {
		if m.From.Point < 0 || b.writes("from") == b.writes("to") {
			r.faults.Add(m.To.Span, "from and to are the same place: two different ones are measured")
		} else {
			r.faults.Add(m.To.Span, "%s and %s are the same place: two different ones are measured", b.writes("from"), b.writes("to"))
		}
	}
	m.IsSpan = b.at("is")
	example := "is = 187.5"
	if m.Kind == Gauged {
		example = "is = 88.5"
	}
	if e := b.need("is", example); e != nil {
		r.readIs(e, m)
	}
	m.Within = r.needWithin(b)
}

// writes returns the text of an attribute's value, a name.
func (b *block) writes(name string) string {
	text := b.r.textAt(b.at(name))
	if e, ok := b.get(name).(*hclsyntax.ScopeTraversalExpr); ok && text == "" {
		text = nameOf(e.Traversal) // built, without a text
	}
	return shortName(text)
}

// nameOf returns a name of one word or more, with dots between.
func nameOf(traversal hcl.Traversal) string {
	name := traversal.RootName()
	for _, step := range traversal[1:] {
		if step, ok := step.(hcl.TraverseAttr); ok {
			name += "." + step.Name
		}
	}
	return name
}

// readIs reads what was measured.
func (r *reader) readIs(e hclsyntax.Expression, m *Measurement) {
	word := hcl.ExprAsKeyword(e)
	if word == blankWord {
		m.Blank = true
		return
	}
	at := spanOf(e.Range())
	switch {
	case isName(e) && !hasDot(e) && !hasDash(word):
		r.faults.Add(at, "a number is wanted here, or %s until it is %s", blankWord, m.Kind)
		return
	case r.textAt(at) == `"`+blankWord+`"`:
		r.faults.Add(at, "%s stands without quotes", blankWord)
		return
	}
	is, ok := r.number(e)
	switch {
	case !ok:
	case m.Kind == Taped && is <= 0:
		r.faults.Add(at, "a distance is more than 0, hole to hole")
	case m.Kind == Gauged && (is < -fullTurn || is > fullTurn):
		r.faults.Add(at, "a direction is between -%d and %d degrees, anticlockwise from level", fullTurn, fullTurn)
	}
	m.Is = is
}

// needWithin reads how far something reads to either way.
func (r *reader) needWithin(b *block) float64 {
	e := b.need("within", "within = 1")
	if e == nil {
		return 0
	}
	within, ok := r.number(e)
	if ok && within <= 0 {
		r.faults.Add(spanOf(e.Range()), "within is more than 0: nothing is read exactly")
	}
	return within
}

// placeRef returns the point or pivot of a part that an expression refers to.
func (r *reader) placeRef(e hclsyntax.Expression) (PlaceRef, bool) {
	if name, ok := e.(*hclsyntax.ScopeTraversalExpr); ok && len(name.Traversal) == 2 {
		if step, ok := name.Traversal[1].(hcl.TraverseAttr); ok && step.Name == "pivot" {
			return r.pivotRef(e)
		}
	}
	ref, ok := r.pointRef(e)
	if ok && ref.Rod != nil {
		r.faults.Add(ref.Span, "%s is on a rod, and what is measured goes from and to points and pivots of parts", shortName(ref.String()))
		ok = false
	}
	return PlaceRef{ref.Part, ref.Point, ref.Span}, ok
}

// pivotRef returns the place that part.pivot refers to.
func (r *reader) pivotRef(e hclsyntax.Expression) (PlaceRef, bool) {
	ref, ok := r.reference(e, "a point or pivot of a part")
	if !ok {
		return PlaceRef{}, false
	}
	found, ok := r.names[ref.root]
	if !ok {
		r.unknown(ref, "part", is[*Part])
		return PlaceRef{}, false
	}
	part, ok := found.thing.(*Part)
	if !ok {
		r.wrongKind(ref.atRoot, "a part", found.thing, ref.root)
		return PlaceRef{}, false
	}
	if part.HasPivot() {
		if named := part.NamedPivot; named != nil {
			return PlaceRef{named.Part, named.Point, ref.at}, true
		}
		return PlaceRef{part, -1, ref.at}, true
	}
	if r.bad[part] {
		r.silent++ // its pivot may be what is wrong
		return PlaceRef{}, false
	}
	why := map[Motion]string{Fixed: "is fixed", Slides: "slides", Floats: "is held by rods alone", Roams: "is held by rods and joints alone"}[part.Motion]
	hint := "name one of its points" + r.meant("", part.Name+".", itHas, r.memberList(r.members[part], "point", "arm"))
	if part.NamedPivot != nil {
		hint = "name the point that carries it, " + part.NamedPivot.String()
	}
	r.faults.Add(ref.atOf, "%s %s, so it has no pivot: %s", shortName(part.Name), why, hint)
	return PlaceRef{}, false
}

// checkMeasurements tells of measurements between places drawn on one another,
// of which neither distance nor direction can be worked out.
func (r *reader) checkMeasurements() {
	none := float64(nothing * r.run.Size())
	for _, m := range r.run.Measurements {
		if r.bad[m] || r.bad[m.From.Part] || r.bad[m.To.Part] {
			continue
		}
		d := m.To.At().Sub(m.From.At())
		what := "at the same place, so there is no distance to adjust"
		if m.Kind == Gauged {
			d.Z, what = 0, "on one another, so there is no direction to adjust"
		}
		if d.Norm() <= none {
			r.faults.Add(m.Span, "%s and %s are drawn %s: sketch them apart", shortName(m.From.String()), shortName(m.To.String()), what)
		}
	}
}

// readRiggings reads what was read after rigging.
func (r *reader) readRiggings() {
	labels := map[string]*block{}
	for i, b := range r.riggings {
		r.readRigging(b, r.run.Riggings[i], labels)
	}
}

// readRigging reads one set of readings.
func (r *reader) readRigging(b *block, g *Rigging, labels map[string]*block) {
	g.Name = r.label(b, labels)
	if e := b.need("of", "of = output"); e != nil {
		g.Of, _ = r.subject(e, false)
	}
	r.readRiggingControl(b, g)
	if e := b.need("readings", "readings = [[-20, 19.1], [0, 0.6]]"); e != nil {
		r.readReadings(e, g)
	}
	g.Within = r.needWithin(b)
	if e := b.get("date"); e != nil {
		g.Date, _ = r.date(e)
	}
	b.tellMissing()
}

// readRiggingControl reads which control the readings were taken against.
func (r *reader) readRiggingControl(b *block, g *Rigging) {
	e := b.get("control")
	switch controls := r.run.Controls; {
	case e != nil:
		thing, _ := r.thing(e, "control", is[*Control])
		g.Control, _ = thing.(*Control)
	case len(controls) == 1:
		g.Control = controls[0]
	case len(controls) > 1:
		r.faults.Add(g.Span, "%s needs a control, the one that was moved, since the run has several: write control = %s", b, controls[0].Name)
	}
}

// readReadings reads pairs of the control's position and what was read.
func (r *reader) readReadings(e hclsyntax.Expression, g *Rigging) {
	entries, ok := r.list(e, -1, "[[-20, 19.1], [0, 0.6]]")
	if ok && len(entries) == 0 {
		r.faults.Add(spanOf(e.Range()), "one reading at least is wanted here, [[control, reading]]")
	}
	for _, entry := range entries {
		pair, ok := r.list(entry, 2, "[-20, 19.1], control and reading")
		if !ok {
			continue
		}
		at, okAt := r.number(pair[0])
		reading, okReading := r.number(pair[1])
		if c := g.Control; okAt && c != nil && !r.bad[c] && (at < c.From || at > c.To) {
			r.faults.Add(spanOf(pair[0].Range()), "the control %s at %g is beyond what is explored, %g to %g", shortName(c.Name), at, c.From, c.To)
		}
		if okAt && okReading {
			g.Readings = append(g.Readings, [2]float64{at, reading})
		}
	}
}

// date returns a date, checked against the calendar.
func (r *reader) date(e hclsyntax.Expression) (string, bool) {
	text, ok := r.text(e)
	if !ok {
		return "", false
	}
	if _, err := time.Parse(dateLayout, text); err != nil {
		r.faults.Add(spanOf(e.Range()), `a date is written year, month, day, as in "2026-05-31", and must be in the calendar`)
		return "", false
	}
	return text, true
}
