package linkage

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"github.com/hashicorp/hcl/v2/hclsyntax"
	"github.com/zclconf/go-cty/cty"
)

// takenNames mean something of their own in a file or in --set.
var takenNames = []string{"pivot", "length", "turn", "x", "y", "z", "from", "to", "zero", "tilt-x", "tilt-y", "tilt-z"}

// wordNames are words of the file's syntax: a thing of such a name could not
// be referred to everywhere.
var wordNames = []string{"true", "false", "null", "for", polarName}

// checkName tells of a name that can't be one.
func (r *reader) checkName(name string, at Span) bool {
	says := NameSays(name)
	if says != "" {
		r.faults.Add(at, "%s", says)
	}
	return says == ""
}

// NameSays tells what is wrong with a name of a thing of a file; "" where nothing is.
func NameSays(name string) string {
	switch {
	case slices.Contains(takenNames, name):
		return fmt.Sprintf("%q is taken: it has a meaning of its own here, choose another name", name)
	case slices.Contains(wordNames, name):
		return fmt.Sprintf("%q is a word of these files, choose another name", name)
	case !hclsyntax.ValidIdentifier(name):
		hint := ""
		if like := likeName(name); like != "" {
			hint = ": " + shortName(like) + " would do"
		}
		return "a name is of letters, digits, dashes and underscores and begins with a letter" + hint
	}
	return ""
}

// likeName suggests a name near one that isn't one; "" for none.
func likeName(name string) string {
	like := strings.Trim(strings.Map(func(c rune) rune {
		if unicode.IsLetter(c) || unicode.IsDigit(c) || c == '_' {
			return c
		}
		return '-'
	}, strings.TrimSpace(name)), "-")
	if !hclsyntax.ValidIdentifier(like) || slices.Contains(takenNames, like) || slices.Contains(wordNames, like) {
		return ""
	}
	return like
}

// member is a point or a piece of metal of a part or rod.
type member struct {
	kind  string // "point", "arm", "round" or "edge"
	index int    // in Points or Features
	span  Span
}

// members are what is in one part or rod, by name.
type members struct {
	byName map[string]member
	names  []string // in the file's order
}

// add names a member; where the name is taken that is told.
func (r *reader) add(m *members, owner, name string, new member) {
	r.checkName(name, new.span)
	if old, twice := m.byName[name]; twice {
		r.faults.Add(new.span, "%s has a %s %s already, %s: points, arms and metal of a part need names of their own", owner, old.kind, shortName(name), r.src.seen(old.span))
		return
	}
	if m.byName == nil {
		m.byName = map[string]member{}
	}
	m.byName[name] = new
	m.names = append(m.names, name)
}

// memberList returns the names of members of the given kinds, unless the fault
// that they are for won't be shown.
func (r *reader) memberList(m *members, kinds ...string) []string {
	var names []string
	if r.faults.full() {
		return nil
	}
	for _, n := range m.names {
		if slices.Contains(kinds, m.byName[n].kind) {
			names = append(names, n)
		}
	}
	return names
}

// named is one name of the file.
type named struct {
	thing any // *Part, *Rod, *Joint, *Cable, *Pair, *Control, *Output, *Stop, *Pin or *dims
	span  Span
}

// declare names a thing of the file; where the name is taken that is told.
func (r *reader) declare(b *block, thing any) string {
	if len(b.Labels) == 0 {
		return ""
	}
	name, at := cty.NormalizeString(b.name), spanOf(b.LabelRanges[0])
	if !r.checkName(name, at) {
		r.ghosts[name], r.ghosts[likeName(name)] = true, true
		return name
	}
	if old, twice := r.names[name]; twice {
		r.faults.Add(at, "the name %s is given already to the %s %s: every part, rod, joint, cable, pair, control, output, stop, pin and dims needs its own", shortName(name), kindWord(old.thing), r.src.seen(old.span))
		return name
	}
	r.names[name] = named{thing, at}
	r.order = append(r.order, name)
	return name
}

// kindWord is what a thing is called.
func kindWord(thing any) string {
	switch thing := thing.(type) {
	case *Part:
		if thing.Motion == Fixed {
			return "fixed"
		}
		return "part"
	case *Rod:
		return "rod"
	case *Joint:
		return "joint"
	case *Cable:
		return "cable"
	case *Pair:
		return "pair"
	case *Control:
		return "control"
	case *Output:
		return "output"
	case *Stop:
		return "stop"
	case *dims:
		return "block of dims"
	default:
		return "pin"
	}
}

// all returns the names of the things that match, in the file's order.
func (r *reader) all(match func(thing any) bool) []string {
	var names []string
	for _, n := range r.order {
		if match(r.names[n].thing) {
			names = append(names, n)
		}
	}
	return names
}
