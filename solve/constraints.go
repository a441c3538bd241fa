// Layer: mechanism.

package solve

import (
	"fmt"
	"slices"
	"strings"

	"fullfree/linkage"
)

// name returns the name of what a constraint is.
func (l *constraint) name() string {
	switch {
	case l.rod != nil:
		return l.rod.Name
	case l.pair != nil:
		return l.pair.Name
	case l.joint != nil:
		return l.joint.Name
	case l.pin != nil:
		return l.pin.joint.Name
	case l.keep != nil:
		return ""
	}
	return l.cablePaths[0].cable.Name
}

// in is the member of an aircraft that it is of; nil where it is of none.
func (l *constraint) in() *linkage.Member {
	switch {
	case l.rod != nil:
		return l.rod.In
	case l.pair != nil:
		return l.pair.In
	case l.joint != nil:
		return l.joint.Follows.In
	case l.pin != nil:
		return l.pin.joint.In
	case l.keep != nil:
		return nil
	}
	return l.cablePaths[0].cable.In
}

// span is where it is written.
func (l *constraint) span() linkage.Span {
	switch {
	case l.rod != nil:
		return l.rod.Span
	case l.pair != nil:
		return l.pair.Span
	case l.joint != nil:
		return l.joint.Span
	case l.pin != nil:
		return l.pin.joint.Span
	case l.keep != nil:
		return linkage.Span{}
	}
	return l.cablePaths[0].cable.Span
}

// cable returns the cable that a constraint is, of a pair the first; nil for a rod and
// for two parts that are one.
func (l *constraint) cable() *linkage.Cable {
	if l.cablePaths == nil {
		return nil
	}
	return l.cablePaths[0].cable
}

// pinned returns the joint that a constraint is an equation of; nil of any other.
func (l *constraint) pinned() *linkage.Joint {
	if l.pin == nil {
		return nil
	}
	return l.pin.joint
}

// endsInSpace reports whether it is a rod or a joint of a part on a ball or loose in space.
func (l *constraint) endsInSpace() bool {
	var ends []linkage.PointRef
	if l.rod != nil {
		ends = []linkage.PointRef{l.rod.From, l.rod.To}
	} else if l.pin != nil {
		ends = l.pin.joint.Of[:]
	}
	return slices.ContainsFunc(ends, func(r linkage.PointRef) bool { return r.Part != nil && r.Part.Spatial() })
}

// kind is the word for what it is.
func (l *constraint) kind() string {
	switch {
	case l.rod != nil:
		return "rod"
	case l.pair != nil:
		return "pair"
	case l.joint != nil:
		return "same-part"
	case l.pin != nil:
		return "joint"
	case l.keep != nil:
		return ""
	}
	return "cable"
}

// String returns it for a sentence: the rod "left-link".
func (l *constraint) String() string { return fmt.Sprintf("the %s %q", l.kind(), l.name()) }

// ofConstraints names constraints for a sentence, each joint once: the rods "a" and "b" and the cable "c".
func ofConstraints(constraints []*constraint) string {
	var phrases []string
	for _, kind := range []string{"rod", "joint", "cable", "pair", "same-part"} {
		var names []string
		for _, l := range constraints {
			if l.kind() == kind && !slices.Contains(names, l.name()) {
				names = append(names, l.name())
			}
		}
		switch len(names) {
		case 0:
		case 1:
			phrases = append(phrases, "the "+kind+" "+list(names))
		default:
			phrases = append(phrases, "the "+kind+"s "+list(names))
		}
	}
	return strings.Join(phrases, " and ")
}

// dependsOfEnds returns the freedoms that the distance of two places depends on,
// ascending.
func (m *Mechanism) dependsOfEnds(from, to end) []int {
	var leaves []int
	seen := make(map[int]bool)
	var descend func(b int)
	descend = func(b int) {
		if seen[b] {
			return
		}
		seen[b] = true
		if m.bodies[b].kind == followsRod {
			own := &m.constraints[m.bodies[b].constraint]
			descend(own.from.body)
			descend(own.to.body)
			return
		}
		leaves = append(leaves, b)
	}
	descend(from.body)
	descend(to.body)
	above := make(map[int]int) // how many of the leaves a body carries, or is
	for _, b := range leaves {
		for ; b != airframe; b = m.bodies[b].carrier {
			above[b]++
		}
	}
	var list []int
	for b, n := range above {
		if n == len(leaves) {
			continue
		}
		first, count := m.freedomsOf(b)
		for f := first; f < first+count; f++ {
			list = append(list, f)
		}
	}
	slices.Sort(list)
	return list
}
