package main

import (
	"fmt"
	"slices"
	"strings"

	"fullfree/cmd/internal/calls"
	"fullfree/linkage"
	"fullfree/render"
)

// with is what one --with asks for: ends to turn, and dimensions to set.
type with struct {
	turns string
	set   []linkage.Setting
}

// parseWith reads what --with says: "left-link.from=+1.5,lever.horn=[0,60],crank.in.y=52.5".
// What is named as an end of a rod or conduit is turned, all else is set.
func parseWith(run *linkage.Run, text string) (w with, err error) {
	var turns []string
	for _, one := range outsideBrackets(text) {
		name, value, ok := strings.Cut(one, "=")
		name, value = strings.TrimSpace(name), strings.TrimSpace(value)
		_, noEnd := calls.EndNamed(run, name)
		switch meant := nearestDimension(run, name); {
		case ok && noEnd != nil && isDimension(run, name):
		case ok && noEnd != nil && meant != "" && !strings.Contains(noEnd.Error(), "did you mean"):
			return w, fmt.Errorf("--with %s: there is no dimension %q; did you mean %q?", linkage.Printable(text), linkage.Printable(name), meant)
		default:
			turns = append(turns, one)
			continue
		}
		if !strings.HasPrefix(value, "[") {
			w.set = append(w.set, linkage.Setting{Dimension: name, Value: value})
			continue
		}
		coordinates := strings.Split(strings.Trim(value, "[] "), ",")
		if len(coordinates) < 2 || len(coordinates) > 3 || !strings.HasSuffix(value, "]") {
			return w, fmt.Errorf("--with %s: a place has two or three coordinates, as in lever.horn=[0,60]", linkage.Printable(text))
		}
		for i, coordinate := range coordinates {
			w.set = append(w.set, linkage.Setting{Dimension: name + [...]string{".x", ".y", ".z"}[i], Value: strings.TrimSpace(coordinate)})
		}
	}
	w.turns = strings.Join(turns, ",")
	return w, nil
}

// isDimension reports whether a name is one of a dimension or of a place.
func isDimension(run *linkage.Run, name string) bool {
	for _, ending := range []string{"", ".x"} {
		if _, ok := run.Number(name + ending); ok {
			return true
		}
	}
	return false
}

// nearestDimension is the dimension or place that a name was probably meant to be.
func nearestDimension(run *linkage.Run, name string) string {
	var names []string
	for _, n := range run.Numbers() {
		names = append(names, n.String())
		if place, x := strings.CutSuffix(n.String(), ".x"); x {
			names = append(names, place)
		}
	}
	return linkage.Nearest(name, names)
}

// outsideBrackets parts a text at its commas but for those in brackets.
func outsideBrackets(text string) (list []string) {
	depth, from := 0, 0
	for i, c := range text {
		switch c {
		case '[', '(':
			depth++
		case ']', ')':
			depth--
		case ',':
			if depth == 0 {
				list, from = append(list, text[from:i]), i+1
			}
		}
	}
	return append(list, text[from:])
}

// variant judges the run with rod ends turned and dimensions set as --with says.
func (in *input) variant(text string) (render.Variant, error) {
	w, err := parseWith(in.Run, text)
	if err != nil {
		return render.Variant{}, err
	}
	other := *in
	if len(w.set) > 0 {
		other.Settings = slices.Concat(in.Settings, w.set)
		if err := other.Read(in.Source.Text); err != nil {
			return render.Variant{}, err
		}
		if err := other.Adjust(); err != nil {
			return render.Variant{}, err
		}
	}
	var turned []render.Turned
	if w.turns != "" {
		if turned, err = parseTurns(other.Run, w.turns); err != nil {
			return render.Variant{}, err
		}
		if other.Run, turned, err = calls.TurnEnds(other.Run, turned); err != nil {
			return render.Variant{}, fmt.Errorf("--with %s: %w", linkage.Printable(text), err)
		}
	}
	if err := other.Compile(); err != nil {
		return render.Variant{}, err
	}
	result, err := other.Judged()
	v := render.Variant{Name: text, Turned: turned, Result: result}
	for _, s := range w.set {
		if n, ok := other.Run.Number(s.Dimension); ok {
			v.Set = append(v.Set, n)
		}
	}
	return v, err
}

// otherFile judges another file, to be put beside the first.
func otherFile(std streams, name string) (render.Variant, error) {
	in, err := open(std, name, nil)
	if err != nil {
		return render.Variant{}, err
	}
	if err := in.Ready(); err != nil {
		return render.Variant{}, err
	}
	result, err := in.Judged()
	return render.Variant{Name: name, Other: true, Result: result}, err
}
