// Layer: mechanism.

package solve

import "fullfree/linkage"

// slots gives every number that a run is drawn or set by its place in a gradient:
// first Run.Dimensions() in their order, then what a Setting knows by other
// names. A place stands by its x; y and z follow.
type slots struct {
	dimensions []linkage.Dimension
	pivots     []int       // by part: of its pivot, of a named one that of the point; -1: it has none
	points     []int       // by part: of its first point
	lengths    []int       // by rod
	own        []int       // by rod: of the first of its own points
	cores      []int       // by cable; -1: it has none to be set
	stops      int         // of the first stop's number
	taken      int         // of how far the first cable's adjusters take it up
	stiffness  int         // of the first cable's
	radii      int         // of the first cable's first quadrant; two each
	tensions   int         // of the first pair's pretension
	metal      [][]int     // by part and feature: of its first place; after its last place the radius
	diameters  int         // of the first rod's
	joints     *jointSlots // of the joints that may give; nil: not asked for
	arms       []arm
	count      int
}

func newSlots(run *linkage.Run) *slots {
	s := &slots{
		dimensions: run.Dimensions(),
		pivots:     make([]int, len(run.Parts)), points: make([]int, len(run.Parts)), metal: make([][]int, len(run.Parts)),
		lengths: make([]int, len(run.Rods)), own: make([]int, len(run.Rods)), cores: make([]int, len(run.Cables)),
	}
	for i := range s.pivots {
		s.pivots[i] = -1
	}
	for i := range s.cores {
		s.cores[i] = -1
	}
	for i, d := range s.dimensions {
		if d.Axis > 0 {
			continue
		}
		switch {
		case d.Cable != nil:
			s.cores[d.Cable.Index] = i
		case d.IsLength():
			s.lengths[d.Rod.Index] = i
		case d.Rod != nil && d.Point == 0:
			s.own[d.Rod.Index] = i
		case d.Part != nil && d.Point < 0:
			s.pivots[d.Part.Index] = i
		case d.Part != nil && d.Point == 0:
			s.points[d.Part.Index] = i
		}
	}
	for _, p := range run.Parts {
		if n := p.NamedPivot; n != nil {
			s.pivots[p.Index] = s.of(*n)
		}
	}
	s.addArms(run)
	s.count = len(s.dimensions)
	room := func(n int) (first int) { first, s.count = s.count, s.count+n; return first }
	s.stops = room(len(run.Stops))
	s.taken, s.stiffness, s.radii = room(len(run.Cables)), room(len(run.Cables)), room(2*len(run.Cables))
	s.tensions = room(len(run.Pairs))
	for _, p := range run.Parts {
		for i := range p.Features {
			s.metal[p.Index] = append(s.metal[p.Index], room(3*len(p.Features[i].Through)+1))
		}
	}
	s.diameters = room(len(run.Rods))
	return s
}

// of is the slot of a point's x.
func (s *slots) of(r linkage.PointRef) int {
	if r.Rod != nil {
		return s.own[r.Rod.Index] + 3*r.Point
	}
	return s.points[r.Part.Index] + 3*r.Point
}

// alongArms turns derivatives by what each number does by itself into those by what
// a Setting of it does: the arms of a part move along with its pivot.
func (s *slots) alongArms(g []float64) {
	for _, a := range s.arms {
		for axis := range 3 {
			g[a.pivot+axis] += g[a.point+axis]
		}
	}
}

// arm is a point that moves along with a pivot, by the slots of both.
type arm struct{ point, pivot int }

// addArms lists the arms. One may be the pivot of another part with arms of its own,
// so those of what is carried come first.
func (s *slots) addArms(run *linkage.Run) {
	done := make([]bool, len(run.Parts))
	hangs := make([][]*linkage.Part, len(run.Parts)) // by part: those that turn on one of its points
	for _, p := range run.Parts {
		if n := p.NamedPivot; n != nil {
			hangs[n.Part.Index] = append(hangs[n.Part.Index], p)
		}
	}
	var settle func(p *linkage.Part)
	settle = func(p *linkage.Part) {
		if done[p.Index] {
			return
		}
		done[p.Index] = true
		for _, q := range hangs[p.Index] {
			settle(q)
		}
		for i := range p.Points {
			if pivot := s.pivots[p.Index]; pivot >= 0 && p.Points[i].Arm {
				s.arms = append(s.arms, arm{s.points[p.Index] + 3*i, pivot})
			}
		}
	}
	for _, p := range run.Parts {
		settle(p)
	}
}
