// Layer: compile.

package solve

import (
	"fmt"
	"slices"

	"fullfree/linkage"
)

// Where rods hold what others hold already, two that end in one and the same hole are looked
// at first: one of them was mostly meant for another hole, and what the others of the loop do
// is right.

// doubledRods are two rods of a loop that end in one hole of a part that moves.
type doubledRods struct {
	a, b *linkage.Rod
	at   linkage.PointRef
	// also is the other hole where both share that as well; nil where they don't.
	also *linkage.PointRef
}

// doubledIn finds those of a loop, first such as share both holes; nil where none do.
func doubledIn(constraints []*constraint) (found *doubledRods) {
	for i, l := range constraints {
		for _, k := range constraints[:i] {
			if l.rod == nil || k.rod == nil {
				continue
			}
			d := sharedHoles(k.rod, l.rod)
			if d != nil && (found == nil || found.also == nil && d.also != nil) {
				found = d
			}
		}
	}
	return found
}

// sharedHoles is what two rods share; nil where that is nothing, or a hole on the airframe
// alone, from which rods may well go two ways.
func sharedHoles(a, b *linkage.Rod) *doubledRods {
	var shared []linkage.PointRef
	moves := false
	for _, p := range []linkage.PointRef{a.From, a.To} {
		if sameHole(p, b.From) || sameHole(p, b.To) {
			shared = append(shared, p)
			moves = moves || p.Part == nil || p.Part.Motion != linkage.Fixed
		}
	}
	if !moves {
		return nil
	}
	d := &doubledRods{a: a, b: b, at: shared[0]}
	if len(shared) > 1 {
		d.also = &shared[1]
	}
	return d
}

// sameHole reports whether two references are to one hole.
func sameHole(a, b linkage.PointRef) bool {
	return a.Part == b.Part && a.Rod == b.Rod && a.Point == b.Point
}

// says tells it, with what would be right: unreached are the parts that no rod reaches, and
// others the rest of the loop.
func (d *doubledRods) says(unreached []*linkage.Part, others []*constraint) string {
	names, where := list([]string{d.a.Name, d.b.Name}), "both end in "+d.at.String()
	if d.also != nil {
		where = fmt.Sprintf("both go between %s and %s", d.at.String(), d.also.String())
	}
	const along = "say second-path = true in one that only goes along"
	switch {
	case len(unreached) > 0:
		return fmt.Sprintf("the rods %s %s: one of them belongs elsewhere, perhaps on %s, which no rod reaches; if both belong there, %s", names, where, list(partNames(unreached)), along)
	case d.also == nil && len(others) > 0:
		return fmt.Sprintf("the rods %s %s: look first whether one of them belongs in another hole; if not, they close the same loop with %s: take one of all these away, or %s", names, where, ofConstraints(others), along)
	}
	return fmt.Sprintf("the rods %s %s and close the same loop: one of them belongs in another hole, or is one too many: take it away, or %s", names, where, along)
}

// certain reports whether nothing else is as likely to be at fault: both share both holes, or
// a part is left that no rod reaches.
func (d *doubledRods) certain(unreached []*linkage.Part) bool {
	return d != nil && (d.also != nil || len(unreached) > 0)
}

// othersThan lists the constraints of a loop that are not the two rods.
func (d *doubledRods) othersThan(constraints []*constraint) []*constraint {
	return slices.DeleteFunc(slices.Clone(constraints), func(l *constraint) bool { return l.rod != nil && (l.rod == d.a || l.rod == d.b) })
}

// unreachedOf lists, of parts that are left loose, those that no rod, cable or joint reaches.
func (m *Mechanism) unreachedOf(e equations, loose []int) (parts []*linkage.Part) {
	for _, u := range loose {
		held := slices.ContainsFunc(e.of, func(us []int) bool { return slices.Contains(us, u) })
		if p := m.bodies[m.freedoms[e.unknowns[u]].body].part; !held && p != nil && !slices.Contains(parts, p) {
			parts = append(parts, p)
		}
	}
	return parts
}
