package linkage

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/hashicorp/hcl/v2"
	"github.com/hashicorp/hcl/v2/hclsyntax"
)

// Setting changes one number of a file before it is read: "rod.length",
// "cable.core", "cable.stiffness", "pair.pretension", "part.point.x",
// "part.pivot.y", "fixed.point.x" or "stop.at"; of metal "part.round.x",
// "part.round.radius", "part.edge.2.x" (its third place, counted from 0) and
// "part.edge.thick"; or "dims.arm", a named dimension, and
// with it every number that is written with it. What is drawn from it follows:
// arms move with their pivot, a rod without a length and a cable without a core
// keep to their points.
type Setting struct{ Dimension, Value string }

// settings are the Settings of one reading.
type settings struct {
	values map[string]float64
	text   map[string]string // as given, for faults
	used   map[string]bool
	// prefix stands before every dimension as it was given: of a member of an aircraft its
	// name and a dot.
	prefix string
	// known are the dimensions that the file has; refused says why one that it
	// seems to have can't be set. Both are kept only where something is set.
	known   []string
	refused map[string]string
}

// readSettings evaluates what is to be set.
func (r *reader) readSettings(set []Setting) {
	r.set = settings{values: map[string]float64{}, text: map[string]string{}, used: map[string]bool{}, prefix: r.set.prefix, refused: map[string]string{}}
	for _, s := range set {
		dimension := strings.TrimSpace(s.Dimension)
		if _, twice := r.set.text[dimension]; twice {
			r.faults.Add(Span{}, "--set gives %s twice", shortName(r.set.prefix+dimension))
			continue
		}
		r.set.text[dimension] = strings.TrimSpace(s.Value)
		if value, says := settingValue(s.Value, ""); says == "" {
			r.set.values[dimension] = value
		} else {
			r.set.used[dimension] = true // told already
			r.faults.Add(Span{}, "--set %s%s=%s: %s", r.set.prefix, dimension, r.set.text[dimension], says)
		}
	}
}

// checkSettings tells of values that are wrong in the units of the file, once
// these are known.
func (r *reader) checkSettings() {
	for _, dimension := range slices.Sorted(maps.Keys(r.set.values)) {
		text := r.set.text[dimension]
		if _, says := settingValue(text, r.run.Units); says != "" {
			r.set.used[dimension] = true // told already
			r.faults.Add(Span{}, "--set %s%s=%s: %s", r.set.prefix, dimension, text, says)
		}
	}
}

// settingValue evaluates a setting's value as if it stood in a file of the
// units, "" where they are not known. It returns what is wrong with it, ""
// where nothing is.
func settingValue(text string, units Unit) (value float64, says string) {
	if strings.TrimSpace(text) == "" {
		return 0, "a number is missing"
	}
	r := newReader(&Source{Text: []byte(text)})
	r.run.Units, r.bare = units, true
	if _, ok := r.guard(r.lines, hclsyntax.LexExpression); ok {
		e, diags := hclsyntax.ParseExpression(r.lines, "", hcl.InitialPos)
		if len(r.faults.List) == 0 && diags.HasErrors() {
			return 0, "a number is wanted, as in 7.25 or 7 + 1/4"
		}
		value, _ = r.number(e)
	}
	if len(r.faults.List) > 0 {
		return 0, r.faults.List[0].Says
	}
	return value, ""
}

// setNumber lets a setting replace a number of the file.
func (r *reader) setNumber(dimension string, value *float64) (set bool) {
	if len(r.set.text) == 0 {
		return false
	}
	if image, ok := r.images[dimension]; ok {
		r.refuseSetting(dimension, "%s is mirrored from %s: set that", dimension, image.of)
		if v, ok := r.set.values[image.of]; ok {
			*value = float64(image.sign * v)
			return true
		}
		return false
	}
	r.set.known = append(r.set.known, dimension)
	if _, given := r.set.text[dimension]; !given {
		return false
	}
	r.set.used[dimension] = true
	if v, ok := r.set.values[dimension]; ok {
		*value = v
		return true
	}
	return false
}

// setVector lets settings replace the coordinates of a point; a dimension of
// "" can't be set.
func (r *reader) setVector(dimension string, v *Vec) {
	if dimension != "" && len(r.set.text) > 0 {
		r.setNumber(dimension+".x", &v.X)
		r.setNumber(dimension+".y", &v.Y)
		r.setNumber(dimension+".z", &v.Z)
	}
}

// refuseSetting says why a dimension can't be set.
func (r *reader) refuseSetting(dimension, format string, args ...any) {
	if len(r.set.text) > 0 {
		r.set.refused[dimension] = fmt.Sprintf(format, args...)
	}
}

// tellAt tells of a number that the file has at a place, or that was set from
// outside.
func (r *reader) tellAt(dimension string, at Span, format string, args ...any) {
	if _, set := r.set.values[dimension]; set {
		r.faults.Add(Span{}, "--set %s%s=%s: %s", r.set.prefix, dimension, r.set.text[dimension], fmt.Sprintf(format, args...))
		return
	}
	r.faults.Add(at, format, args...)
}

// tellUnusedSettings tells of settings of dimensions that the file lacks.
func (r *reader) tellUnusedSettings() {
	var unused []string
	for dimension := range r.set.text {
		if !r.set.used[dimension] {
			unused = append(unused, dimension)
		}
	}
	slices.Sort(unused)
	for _, dimension := range unused {
		what := fmt.Sprintf("--set %s%s=%s: ", r.set.prefix, dimension, r.set.text[dimension])
		switch {
		case r.set.refused[dimension] != "":
			r.faults.Add(Span{}, "%s%s", what, r.set.refused[dimension])
		case r.faults.full():
			r.faults.Add(Span{}, "%sthere is no such dimension", what)
		default:
			hint := "; dimensions are rod.length, part.point.x, part.pivot.y, fixed.point.x, stop.at, part.edge.2.x, part.round.radius, cable.core, cable.stiffness, pair.pretension and what a dims block names"
			if best := Nearest(dimension, r.set.known); best != "" {
				hint = fmt.Sprintf("; did you mean %q?", best)
			}
			r.faults.Add(Span{}, "%sthe file has no dimension %s%s", what, shortName(dimension), hint)
		}
	}
}
