// Layer: mechanism.

package solve

import (
	"math"
	"slices"

	"fullfree/linkage"
)

// PlayJoint is one that may give: a part's own, or that at an end of a rod or of a cable in a
// conduit.
type PlayJoint struct {
	Part  *linkage.Part  // exactly one of Part, Rod, Cable and Joint is set
	Rod   *linkage.Rod   // its joint at End
	Cable *linkage.Cable // its joint at End
	Joint *linkage.Joint // itself
	End   string         // "from" or "to"
}

// String returns its name: "rocker.pivot", "plunger.slide", "ring.ball", "left-link.from", "apex".
func (j PlayJoint) String() string {
	switch {
	case j.Rod != nil:
		return j.Rod.Name + "." + j.End
	case j.Cable != nil:
		return j.Cable.Name + "." + j.End
	case j.Joint != nil:
		return j.Joint.Name
	case j.Part == nil:
		return ""
	case j.Part.Motion == linkage.Slides:
		return j.Part.Name + ".slide"
	case j.Part.Motion == linkage.Tilts:
		return j.Part.Name + ".ball"
	}
	return j.Part.Name + ".pivot"
}

// jointSlots are the slots of by how much the pieces of a joint lie off each other, three
// coordinates each: of a part's own joint as what carries it sees them, of an end as
// everything is drawn. -1: the joint doesn't give.
type jointSlots struct {
	parts        []int    // by Part.Index
	rods, cables [][2]int // by Rod.Index and Cable.Index: at the from end, at the to end
	pins         []int    // by linkage.Joint.Index: the points of one
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
	// others are, for a part that several drawings of an aircraft show, the places in the
	// list of its joint on the others; first is false of these, which count with it.
	others []int
	first  bool
	// aircraft are forward, up and right on the drawing, nil where that doesn't say.
	aircraft *[3]vec
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
		k.list = append(k.list, joint{PlayJoint: j, slot: slot, half: play / 2, along: along, first: true})
		return slot
	}
	metal := run.OnePiece()
	at := map[*linkage.Part]int{} // by the first drawing of a part, its place in the list
	for i, p := range run.Parts {
		along := p.Axis
		switch {
		case p.Motion == linkage.Slides:
			along = p.Slide
		case p.Spatial():
			along = vec{}
		}
		k.parts[i] = add(PlayJoint{Part: p}, pivotPlay(run, p, metal[p]), along)
		if all := metal[p]; len(all) > 1 && k.parts[i] >= 0 {
			own := len(k.list) - 1
			k.list[own].aircraft = directionsOf(run.Home(p.In))
			if first, ok := at[all[0]]; ok {
				k.list[own].first = false
				k.list[first].others = append(k.list[first].others, own)
			} else {
				at[all[0]] = own
			}
		}
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
	for _, j := range run.Joints {
		k.pins = append(k.pins, add(PlayJoint{Joint: j}, run.PlayOf(j), vec{}))
	}
	return s
}

func (k *jointSlots) pin(j *linkage.Joint) int {
	if k == nil {
		return -1
	}
	return k.pins[j.Index]
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

// gives is how much a figure moves, either way, as a joint's center lies anywhere it may, by
// the derivatives of the figure: at most, and at least where the drawings that show it
// don't tell how they lie to each other. Nothing of a joint that counts with another.
func (k *jointSlots) gives(n int, drawn []float64) (most, least float64) {
	j := &k.list[n]
	if !j.first {
		return 0, 0
	}
	own := j.moves(drawn)
	most = own.Norm()
	if len(j.others) == 0 {
		return most, most
	}
	// One center lies off, and what that does on one drawing and on the other is one sum.
	sum, largest, known := inAircraft(own, j.aircraft), most, j.aircraft != nil
	for _, other := range j.others {
		o := &k.list[other]
		by := o.moves(drawn)
		sum = sum.Add(inAircraft(by, o.aircraft))
		known = known && o.aircraft != nil
		most += by.Norm()
		largest = math.Max(largest, by.Norm())
	}
	if known {
		return sum.Norm(), sum.Norm()
	}
	return most, math.Max(0, 2*largest-most)
}

// moves is by how much a figure moves as the center lies off by all it may, in the direction
// in which that is most.
func (j *joint) moves(drawn []float64) vec {
	d := vec{X: drawn[j.slot], Y: drawn[j.slot+1], Z: drawn[j.slot+2]}
	if j.along != (vec{}) {
		d = perpendicular(d, j.along)
	}
	return d.Scale(j.half)
}

// directionsOf are forward, up and right on a run's drawing; nil where it doesn't say.
func directionsOf(run *linkage.Run) *[3]vec {
	if run == nil || run.Forward == nil || run.Up == nil || run.Right == nil {
		return nil
	}
	return &[3]vec{*run.Forward, *run.Up, *run.Right}
}

// inAircraft is a vector of a drawing in the directions of the aircraft.
func inAircraft(v vec, directions *[3]vec) vec {
	if directions == nil {
		return vec{}
	}
	return vec{X: v.Dot(directions[0]), Y: v.Dot(directions[1]), Z: v.Dot(directions[2])}
}

// pivotPlay is the diametral play of a part's own joint, units of its run. Where several
// drawings show the joint it is the most that one of them says.
func pivotPlay(run *linkage.Run, p *linkage.Part, drawings []*linkage.Part) float64 {
	most := run.PivotPlay(p)
	unit := run.UnitsOf(p.In)
	for _, same := range drawings {
		if other := run.UnitsOf(same.In); same != p {
			most = math.Max(most, run.PivotPlay(same)*other.Millimeters(1)/unit.Millimeters(1))
		}
	}
	return most
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
