package linkage

import (
	"fmt"
	"math"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"
)

// partsOf returns the one or two words of a name.
func partsOf(e hclsyntax.Expression) (root, rest string) {
	name, ok := e.(*hclsyntax.ScopeTraversalExpr)
	if !ok {
		return "", ""
	}
	root = cty.NormalizeString(name.Traversal.RootName())
	if len(name.Traversal) > 1 {
		if step, ok := name.Traversal[1].(hcl.TraverseAttr); ok {
			rest = cty.NormalizeString(step.Name)
		}
	}
	return root, rest
}

// near is how near the mirrored place a point must lie.
func (m *mirrorer) near() float64 {
	if m.r.run.Units == Inches {
		return mirrorInches
	}
	return mirrorMillimeters
}

// pointName returns the name of the mirror image of a point: of that name on the image
// of its part, or on a part that has none at the mirrored place.
func (m *mirrorer) pointName(e hclsyntax.Expression) string {
	root, rest := partsOf(e)
	if other := m.images[root]; other != "" {
		return other + "." + rest
	}
	b := m.blocks[root]
	if b == nil {
		return m.src(e)
	}
	at, ok := m.place(b, rest)
	if !ok {
		return m.src(e)
	}
	want := m.r.reflect(at)
	best, least := "", m.near()
	there := m.placesOf(b)
	for _, name := range there.names {
		if away := there.at[name].Sub(want).Norm(); away < least || away == least && best == "" {
			best, least = name, away
		}
	}
	if best == "" {
		m.r.faults.Add(m.at, "%s has no mirror image: %s isn't mirrored, so it needs a point at %s, where %s.%s lies mirrored", shortName(root+"."+rest), b, placeSays(want), root, rest)
		return m.src(e)
	}
	return root + "." + best
}

// placeSays writes a place to six decimals.
func placeSays(v Vec) string {
	var texts [3]string
	for i := range axes {
		texts[i], _ = decimal(*v.axis(i))
	}
	return fmt.Sprintf("[%s, %s, %s]", texts[0], texts[1], texts[2])
}

// drawnPoints are where the points of a part or rod are drawn.
type drawnPoints struct {
	names []string
	at    map[string]Vec
}

// place returns where a point of a part or rod is drawn.
func (m *mirrorer) place(b *block, point string) (Vec, bool) {
	at, ok := m.placesOf(b).at[point]
	return at, ok
}

// placesOf works out where the points of a part or rod are drawn; those that are
// faulty are left out.
func (m *mirrorer) placesOf(b *block) *drawnPoints {
	if m.places[b] != nil {
		return m.places[b]
	}
	found := &drawnPoints{at: map[string]Vec{}}
	m.places[b] = found
	for _, table := range []string{"points", "arms"} {
		e, reflected := b.get(table), false
		if how := m.mirrors[b]; e == nil && how != nil {
			e, reflected = how.of.get(table), true
		}
		origin, ok := Vec{}, true
		if table == "arms" {
			origin, ok = m.pivot(b)
		}
		object, isTable := unwrap(e).(*hclsyntax.ObjectConsExpr)
		if !isTable || !ok {
			continue
		}
		for _, item := range object.Items {
			name, okName := tableKey(item.KeyExpr)
			at, okAt := m.plain.vector(item.ValueExpr, "")
			if !okName || !okAt {
				continue
			}
			if reflected {
				at = m.r.reflect(at)
			}
			if _, twice := found.at[name]; !twice {
				found.names = append(found.names, name)
				found.at[name] = origin.Add(at)
			}
		}
	}
	return found
}

// pivot works out where a part's pivot is drawn.
func (m *mirrorer) pivot(b *block) (Vec, bool) {
	e := pivotOf(b)
	how := m.mirrors[b]
	switch {
	case e == nil && how != nil:
		at, ok := m.pivot(how.of)
		return m.r.reflect(at), ok
	case e == nil:
		return Vec{}, false
	case !isName(e):
		return m.plain.vector(e, "")
	}
	root, rest := partsOf(e)
	on := m.blocks[root]
	if on == nil || m.placing[on] || len(m.placing) > maxChain {
		return Vec{}, false
	}
	m.placing[on] = true
	defer delete(m.placing, on)
	return m.place(on, rest)
}

// partName returns the name of the mirror image of a part; of one without another, its
// own, where it is on the plane, and whether its plus changes its side then.
func (m *mirrorer) partName(e hclsyntax.Expression) (name string, reversed bool) {
	root, _ := partsOf(e)
	b := m.blocks[root]
	if b == nil || b.Type != "part" {
		return m.src(e), false
	}
	floats := motionOf(b) == Floats && (m.mirrors[b] == nil || motionOf(m.mirrors[b].of) == Floats)
	if other := m.images[root]; other != "" {
		// What floats turns square to the drawing, whatever its axis.
		return other, floats && m.axis < 2
	}
	if floats {
		return root, m.axis < 2
	}
	if motion := motionOf(b); motion == Tilts || motion == Roams {
		m.checkTilter(b)
		return root, false
	}
	about := Vec{0, 0, 1}
	given, ok := b.get("axis"), true
	slides := b.get("slide") != nil
	if slides {
		given = b.get("slide")
	}
	if given != nil {
		about, ok = m.plain.direction(given)
	}
	if !ok {
		return m.src(e), false
	}
	image := m.r.reflect(about)
	if !slides {
		image = image.Scale(-1)
		at, ok := m.pivot(b)
		if !ok {
			return m.src(e), false
		}
		if away := m.r.reflect(at).Sub(at); away.Cross(about).Norm() > m.near() {
			m.r.faults.Add(m.at, "%s isn't mirrored, and it doesn't turn on the plane either: its pivot lies at %s = %.6g; mirror it too", b, axes[m.axis][1:], *at.axis(m.axis))
			return m.src(e), false
		}
	}
	switch along := image.Dot(about); {
	case math.Abs(along) < 1-nothing:
		m.r.faults.Add(m.at, "%s isn't mirrored, and mirrored it would move another way: mirror it too", b)
	case along < 0:
		return root, true
	}
	return root, false
}

// checkTilter tells of a part that tilts any way and isn't mirrored, unless it is its own
// mirror image.
func (m *mirrorer) checkTilter(b *block) {
	square, ok := Vec{0, 1, 0}, true
	if e := b.get("square-to"); e != nil {
		square, ok = m.plain.direction(e)
	}
	if ok && m.r.reflect(square).Sub(square).Norm() > nothing {
		m.r.faults.Add(m.at, "%s isn't mirrored, and it is drawn square to no direction of the plane: mirror it too", b)
		return
	}
	if at, ok := m.pivot(b); ok && m.r.reflect(at).Sub(at).Norm() > m.near() {
		m.r.faults.Add(m.at, "%s isn't mirrored, and its ball isn't on the plane either: it lies at %s = %.6g; mirror it too", b, axes[m.axis][1:], *at.axis(m.axis))
	}
}

// features returns the mirror image of a list of metal.
func (m *mirrorer) features(e hclsyntax.Expression) string {
	return m.list(e, func(entry hclsyntax.Expression) string {
		root, rest := partsOf(entry)
		other, b := m.images[root], m.blocks[root]
		switch {
		case other != "" && rest != "":
			return other + "." + rest
		case other != "":
			return other
		case b == nil:
			return m.src(entry)
		case b.Type == "rod":
			m.r.faults.Add(m.at, "%s has no mirror image: mirror it too", b)
			return m.src(entry)
		}
		want, ok := m.metalOf(b).at[rest]
		if !ok {
			return m.src(entry)
		}
		image := make([]Vec, len(want))
		for i := range want {
			image[i] = m.r.reflect(want[i])
		}
		there := m.metalOf(b)
		for _, name := range there.names {
			if m.alike(there.at[name], image) {
				return root + "." + name
			}
		}
		m.r.faults.Add(m.at, "%s has no mirror image: %s isn't mirrored, so it needs such metal at %s", shortName(root+"."+rest), b, placeSays(image[0]))
		return m.src(entry)
	})
}

// drawnMetal is where the rounds and edges of a part are drawn: the points that each goes
// through.
type drawnMetal struct {
	names []string
	at    map[string][]Vec
}

// metalOf works out where the metal of a part is drawn; what is faulty is left out.
func (m *mirrorer) metalOf(b *block) *drawnMetal {
	if m.metals[b] != nil {
		return m.metals[b]
	}
	found := &drawnMetal{at: map[string][]Vec{}}
	m.metals[b] = found
	for _, inner := range b.Body.Blocks {
		var points []hclsyntax.Expression
		if a := inner.Body.Attributes["at"]; a != nil && inner.Type == "round" {
			points = []hclsyntax.Expression{a.Expr}
		}
		if a := inner.Body.Attributes["through"]; a != nil && inner.Type == "edge" {
			points, _ = m.plain.list(a.Expr, -1, "")
		}
		var through []Vec
		for _, point := range points {
			if at, ok := m.plain.vector(point, ""); ok {
				through = append(through, at)
			}
		}
		if len(inner.Labels) != 1 || len(through) == 0 || len(through) < len(points) {
			continue
		}
		name := cty.NormalizeString(inner.Labels[0])
		if found.at[name] == nil {
			found.names = append(found.names, name)
			found.at[name] = through
		}
	}
	return found
}

// alike reports whether two pieces of metal go through the same points, in the same
// order or the other.
func (m *mirrorer) alike(a, b []Vec) bool {
	if len(a) != len(b) {
		return false
	}
	there, back := true, true
	for i := range b {
		there = there && a[i].Sub(b[i]).Norm() <= m.near()
		back = back && a[len(b)-1-i].Sub(b[i]).Norm() <= m.near()
	}
	return there || back
}
