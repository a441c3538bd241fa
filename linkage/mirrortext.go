package linkage

import (
	"fmt"
	"math/big"
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// mirrorLine is an attribute of a mirror image, or a block inside it, as it is
// written out.
type mirrorLine struct {
	name, value string
	inner       []mirrorLine // of a block, whose header is name
	// reversed says that the figure counts the other way round in the image.
	reversed bool
}

// textOf writes lines out, the equals signs under one another.
func textOf(lines []mirrorLine, indent string) string {
	var b strings.Builder
	width := 0
	for _, l := range lines {
		if l.inner == nil {
			width = max(width, len(l.name))
		}
	}
	for _, l := range lines {
		if l.inner != nil {
			fmt.Fprintf(&b, "%s%s {\n%s%s}\n", indent, l.name, textOf(l.inner, indent+"  "), indent)
			continue
		}
		fmt.Fprintf(&b, "%s%-*s = %s\n", indent, width, l.name, strings.ReplaceAll(l.value, "\n", "\n"+indent))
	}
	return b.String()
}

// src returns an expression as it is written.
func (m *mirrorer) src(e hclsyntax.Expression) string {
	return strings.ReplaceAll(m.r.textAt(spanOf(e.Range())), "\r\n", "\n")
}

// lines returns what a block has from the one that it mirrors.
func (m *mirrorer) lines(b *block, how *mirroring) []mirrorLine {
	of := how.of
	var lines []mirrorLine
	reversed := m.reversed(b, how)
	for _, a := range sortedAttributes(of.Body) {
		if how.own[a.Name] || !slices.Contains(blockKinds[b.Type].attributes, a.Name) {
			continue
		}
		if l, ok := m.attribute(b.Type, a, reversed); ok {
			lines = append(lines, l...)
		}
	}
	turning := b.Type == "part" && (of.get("pivot") != nil || b.get("pivot") != nil) && of.get("slide") == nil && b.get("slide") == nil
	if turning && m.axis < 2 && of.get("axis") == nil && b.get("axis") == nil {
		// Square to the drawing, as the original's: its plus is the other way round.
		lines = append(lines, mirrorLine{name: "axis", value: "[0, 0, -1]"})
	}
	if tilts := of.get("ball") != nil || of.get("floats") != nil; tilts && m.axis == 1 && of.get("square-to") == nil && b.get("square-to") == nil {
		lines = append(lines, mirrorLine{name: "square-to", value: "[0, -1, 0]"})
	}
	for _, inner := range of.Body.Blocks {
		if how.own[ownBlock(inner)] || !slices.Contains(blockKinds[b.Type].blocks, inner.Type) {
			continue
		}
		header := inner.Type
		for _, label := range inner.Labels {
			header += " " + quoted(label)
		}
		l := mirrorLine{name: header, inner: []mirrorLine{}}
		for _, a := range sortedAttributes(inner.Body) {
			if more, ok := m.attribute(inner.Type, a, false); ok {
				l.inner = append(l.inner, more...)
			}
		}
		lines = append(lines, l)
	}
	if b.Type == "control" && reversed {
		exchange(lines, "from", "to")
		exchange(lines, "plus", "minus")
	}
	return lines
}

// exchange gives the lines of two names each the other's name.
func exchange(lines []mirrorLine, one, other string) {
	for i := range lines {
		switch lines[i].name {
		case one:
			lines[i].name = other
		case other:
			lines[i].name = one
		}
	}
}

// reversed reports whether the part that a block is of turns or slides the other way
// round as its own mirror image.
func (m *mirrorer) reversed(b *block, how *mirroring) bool {
	e := how.of.get("of")
	if e == nil || how.own["of"] || !isName(e) || hasDot(e) {
		return false
	}
	_, reversed := m.partName(e)
	if reversed && b.Type == "output" {
		m.r.faults.Add(m.at, "mirrored, %s would read the other way round, since %s is on both sides: write this one out", how.of, shortName(m.src(e)))
	}
	return reversed
}

// attribute returns the mirror image of an attribute of a block of a kind.
func (m *mirrorer) attribute(kind string, a *hclsyntax.Attribute, reversed bool) ([]mirrorLine, bool) {
	e := a.Expr
	value := m.src(e)
	turned := false
	switch a.Name {
	case mirrorName:
		return nil, false
	case "pivot", "ball":
		if isName(e) {
			value = m.pointName(e)
		} else {
			value = m.vector(e, false)
		}
	case "slide", "along", "square-to":
		value = m.vector(e, false)
	case "axis":
		value = m.vector(e, true)
	case "points", "arms", "bolts":
		value = m.table(e)
	case "tilts":
		if text, ok := m.plain.text(e); ok {
			value = quoted(changed(text, m.words))
		} else {
			value = m.vector(e, false)
		}
	case "grip", "seen-at", "leading-edge":
		value = m.pointName(e)
	case "from", "to", "held", "adjust", "detents":
		switch {
		case kind == "rod":
			value = m.pointName(e)
		case reversed:
			value = m.negated(e)
		}
	case "of":
		if kind == "joint" {
			value = m.list(e, m.pointName)
		} else if hasDot(e) {
			value = m.pointName(e)
		} else if isName(e) {
			value, _ = m.partName(e)
		}
	case "touch":
		value = m.features(e)
	case "plus", "minus":
		if text, ok := m.plain.text(e); ok {
			if other := changed(text, m.words); other != text {
				value = quoted(other)
			}
		}
	case "seen-from":
		if text, ok := m.plain.text(e); ok {
			value = quoted(changed(text, m.words))
		}
	case "turns":
		// A turn that is clockwise is counterclockwise in a mirror.
		if text, ok := m.plain.text(e); ok && !reversed {
			value = quoted(otherTurn(text))
		}
	case "at":
		switch {
		case kind == "round":
			value = m.vector(e, false)
		case reversed:
			value, turned = m.negated(e), true
		}
	case "side":
		if side, ok := m.plain.text(e); ok && reversed {
			switch side {
			case "low":
				value = `"high"`
			case "high":
				value = `"low"`
			}
		}
	case "through":
		value = m.list(e, func(e hclsyntax.Expression) string { return m.vector(e, false) })
	case "z":
		if m.axis == 2 {
			value = m.negated(e)
		}
	}
	return []mirrorLine{{name: a.Name, value: value, reversed: turned}}, true
}

// otherTurn is the other way to turn.
func otherTurn(turns string) string {
	switch turns {
	case "clockwise":
		return "counterclockwise"
	case "counterclockwise", "anticlockwise":
		return "clockwise"
	}
	return turns
}

// list returns the mirror image of a list by that of its entries.
func (m *mirrorer) list(e hclsyntax.Expression, image func(hclsyntax.Expression) string) string {
	tuple, ok := unwrap(e).(*hclsyntax.TupleConsExpr)
	if !ok {
		return m.src(e)
	}
	entries := make([]string, len(tuple.Exprs))
	for i, entry := range tuple.Exprs {
		entries[i] = image(entry)
	}
	return "[" + strings.Join(entries, ", ") + "]"
}

// table returns the mirror image of a table of places or directions, on as many lines
// as it is written on.
func (m *mirrorer) table(e hclsyntax.Expression) string {
	object, ok := unwrap(e).(*hclsyntax.ObjectConsExpr)
	if !ok || len(object.Items) == 0 {
		return m.src(e)
	}
	var rows []mirrorLine
	for _, item := range object.Items {
		rows = append(rows, mirrorLine{name: m.src(item.KeyExpr), value: m.vector(item.ValueExpr, false)})
	}
	if strings.Contains(m.src(e), "\n") {
		return "{\n" + textOf(rows, "  ") + "}"
	}
	var entries []string
	for _, row := range rows {
		entries = append(entries, row.name+" = "+row.value)
	}
	return "{ " + strings.Join(entries, ", ") + " }"
}

// vector returns the mirror image of a place or direction; about says that it is what
// something turns about, whose image points so that plus stays the image of plus.
func (m *mirrorer) vector(e hclsyntax.Expression, about bool) string {
	switch v := unwrap(e).(type) {
	case *hclsyntax.TupleConsExpr:
		i := -1
		return m.list(v, func(entry hclsyntax.Expression) string {
			if i++; i == m.axis != about {
				return m.negated(entry)
			}
			return m.src(entry)
		})
	case *hclsyntax.FunctionCallExpr:
		return m.polar(v, about)
	}
	return m.src(e)
}

// polar returns the mirror image of a place by distance and angle.
func (m *mirrorer) polar(e *hclsyntax.FunctionCallExpr, about bool) string {
	given, ok := m.plain.polar(e)
	if !ok {
		return m.src(e)
	}
	first, second, _ := axesOf(given.plane)
	angle := e.Args[1]
	args := []string{m.src(e.Args[0]), m.src(angle)}
	switch {
	case m.axis == first && !about, m.axis == second && about:
		args[1] = m.fromHalf(angle, "180 - ", -1)
	case m.axis == second, m.axis == first:
		args[1] = m.negated(angle)
	case about:
		args[1] = m.fromHalf(angle, "180 + ", 1)
	}
	if len(e.Args) > 2 {
		args = append(args, m.src(e.Args[2]))
	}
	return polarName + "(" + strings.Join(args, ", ") + ")"
}

// fromHalf writes half a turn less or more an angle; a plain angle is reckoned out.
func (m *mirrorer) fromHalf(angle hclsyntax.Expression, before string, sign int) string {
	text := strings.ReplaceAll(m.src(angle), " ", "")
	if plain, ok := new(big.Rat).SetString(text); ok && strings.Trim(text, "-0123456789.") == "" {
		_, decimals, _ := strings.Cut(text, ".")
		plain.Mul(plain, big.NewRat(int64(sign), 1)).Add(plain, big.NewRat(180, 1))
		return plain.FloatString(len(decimals))
	}
	if isName(angle) {
		return before + m.src(angle)
	}
	return before + "(" + m.src(angle) + ")"
}

// negated writes a number with the other sign; of a list [low, high] the list so that
// the lower figure comes first, of any other list every entry.
func (m *mirrorer) negated(e hclsyntax.Expression) string {
	switch n := e.(type) {
	case *hclsyntax.TupleConsExpr:
		entries := slices.Clone(n.Exprs)
		slices.Reverse(entries)
		return m.list(&hclsyntax.TupleConsExpr{Exprs: entries}, m.negated)
	case *hclsyntax.LiteralValueExpr:
		if isNumber(n) && n.Val.AsBigFloat().Sign() == 0 {
			return m.src(e)
		}
		return "-" + m.src(e)
	case *hclsyntax.ParenthesesExpr, *hclsyntax.ScopeTraversalExpr:
		return "-" + m.src(e)
	case *hclsyntax.UnaryOpExpr:
		if in, ok := n.Val.(*hclsyntax.ParenthesesExpr); ok && !strings.Contains(m.src(in), "\n") {
			return m.src(in.Expression)
		}
		switch n.Val.(type) {
		case *hclsyntax.LiteralValueExpr, *hclsyntax.ScopeTraversalExpr, *hclsyntax.ParenthesesExpr, *hclsyntax.UnaryOpExpr:
			return m.src(n.Val)
		}
	}
	return "-(" + m.src(e) + ")"
}
