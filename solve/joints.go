// Layer: mechanism.

package solve

import (
	"slices"

	"fullfree/linkage"
)

// PlayJoint is one that may give: a part's own, or that at an end of a rod or of a cable in a
// conduit.
type PlayJoint struct {
	Part  *linkage.Part  // exactly one of Part, Rod and Cable is set
	Rod   *linkage.Rod   // its joint at End
	Cable *linkage.Cable // its joint at End
	End   string         // "from" or "to"
}

// String returns its name: "rocker.pivot", "plunger.slide", "left-link.from".
func (j PlayJoint) String() string {
	switch {
	case j.Rod != nil:
		return j.Rod.Name + "." + j.End
	case j.Cable != nil:
		return j.Cable.Name + "." + j.End
	case j.Part == nil:
		return ""
	case j.Part.Motion == linkage.Slides:
		return j.Part.Name + ".slide"
	}
	return j.Part.Name + ".pivot"
}

// jointSlots are the slots of by how much the pieces of a joint lie off each other, three
// coordinates each: of a part's own joint as what carries it sees them, of an end as
// everything is drawn. -1: the joint doesn't give.
type jointSlots struct {
	parts        []int    // by Part.Index
	rods, cables [][2]int // by Rod.Index and Cable.Index: at the from end, at the to end
	list         []joint
}

// joint is one that gives.
type joint struct {
	PlayJoint
	slot int
	half float64 // how far its center may lie off, run units
	// along is the direction in which it doesn't matter that it lies off: the axis of a
	// pivot, the direction of a slide; none of an end.
	along vec
}

// newJointSlots is the slots of a run with those of all joints that give.
func newJointSlots(run *linkage.Run) *slots {
	s := newSlots(run)
	k := &jointSlots{parts: make([]int, len(run.Parts)), rods: make([][2]int, len(run.Rods)), cables: make([][2]int, len(run.Cables))}
	s.joints = k
	add := func(j PlayJoint, play float64, along vec) int {
		if !(play > 0) {
			return -1
		}
		slot := s.count
		s.count += 3
		k.list = append(k.list, joint{j, slot, play / 2, along})
		return slot
	}
	for i, p := range run.Parts {
		along := p.Axis
		if p.Motion == linkage.Slides {
			along = p.Slide
		}
		k.parts[i] = add(PlayJoint{Part: p}, run.PivotPlay(p), along)
	}
	for i, r := range run.Rods {
		for e, side := range []string{"from", "to"} {
			k.rods[i][e] = add(PlayJoint{Rod: r, End: side}, run.EndPlay(r, side), vec{})
		}
	}
	for i, c := range run.Cables {
		for e, side := range []string{"from", "to"} {
			k.cables[i][e] = add(PlayJoint{Cable: c, End: side}, run.CablePlay(c), vec{})
		}
	}
	return s
}

func (k *jointSlots) pivot(p *linkage.Part) int {
	if k == nil || p == nil {
		return -1
	}
	return k.parts[p.Index]
}

func (k *jointSlots) rodEnd(r *linkage.Rod, which int) int {
	if k == nil {
		return -1
	}
	return k.rods[r.Index][which]
}

func (k *jointSlots) cableEnd(c *linkage.Cable, which int) int {
	if k == nil {
		return -1
	}
	return k.cables[c.Index][which]
}

// gives is how much a figure moves at most, either way, as a joint's center lies anywhere
// it may, by the derivatives of the figure.
func (j *joint) gives(drawn []float64) float64 {
	d := vec{X: drawn[j.slot], Y: drawn[j.slot+1], Z: drawn[j.slot+2]}
	if j.along != (vec{}) {
		d = perpendicular(d, j.along)
	}
	return float64(j.half * d.Norm())
}

// sortJoints puts those that give most first, ties in the file's order.
func sortJoints(list []JointShare) {
	slices.SortStableFunc(list, func(a, b JointShare) int {
		switch {
		case a.By > b.By:
			return -1
		case a.By < b.By:
			return 1
		}
		return 0
	})
}
