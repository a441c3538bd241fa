package recheck

import (
	"slices"
	"strings"

	"fullfree/linkage"
	"fullfree/solve"
)

// Words in names by which the trade knows what sets a rotor's pitch (common practice, no
// source).
const (
	collectiveWord = "collective"
	pitchLinkWord  = "pitchlink" // without what stands between its words
)

// pitchNoise is how little a part moves that a collective doesn't move, degrees or run
// units.
const pitchNoise = 1e-6

// PitchSetters lists the rods and cables of a rotorcraft by which its rotors' pitch is set:
// pitch links by their name, and what a collective, by the name of the control, moves.
func PitchSetters(r *solve.Result) []linkage.Element {
	if r.Whole() != nil {
		return nil
	}
	moved := map[*linkage.Part]bool{}
	for _, s := range r.Sweeps {
		if !strings.Contains(strings.ToLower(ownName(s.Control.Name, s.Control.In)), collectiveWord) {
			continue
		}
		for _, p := range s.Parts {
			if p.Most-p.Least > pitchNoise {
				moved[p.Part] = true
			}
		}
	}
	var list []linkage.Element
	add := func(e linkage.Element, name string) {
		in := MemberOf(e)
		if craftOf(r.Run, in) != linkage.Rotorcraft {
			return
		}
		plain := strings.NewReplacer("-", "", "_", "", " ", "").Replace(strings.ToLower(ownName(name, in)))
		if strings.Contains(plain, pitchLinkWord) || slices.ContainsFunc(moving(e), func(p *linkage.Part) bool { return moved[p] }) {
			list = append(list, e)
		}
	}
	for _, rod := range r.Run.Rods {
		add(rod, rod.Name)
	}
	for _, cable := range r.Run.Cables {
		add(cable, cable.Name)
	}
	return list
}

// pitchAt tells what was touched of what sets a pitch, of setters, in the control of a
// line's own ones: a rotor's track is not another's.
func (m *marks) pitchAt(line *Line, setters []linkage.Element) causes {
	one := memberNamed(m.run, line.Run) != nil
	own := map[string]bool{}
	groupsOf := func(e linkage.Element) (list []string) {
		for _, p := range moving(e) {
			list = append(list, m.groups.of(p.Name))
		}
		return list
	}
	for _, e := range setters {
		if in := MemberOf(e); !one || in != nil && in.Name == line.Run {
			for _, group := range groupsOf(e) {
				own[group] = true
			}
		}
	}
	var all causes
	for _, e := range setters {
		if c := m.touched[nameOf(e)]; c != nil && slices.ContainsFunc(groupsOf(e), func(group string) bool { return own[group] }) {
			all.add(*c)
		}
	}
	return all
}
