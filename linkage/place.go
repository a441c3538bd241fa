package linkage

import (
	"math"
	"slices"
)

// place works out where everything is, once every number and name is known.
func (r *reader) place() {
	done := make([]bool, len(r.parts))
	for i := range r.parts {
		r.placePart(i, done)
	}
	for _, b := range r.rods {
		r.placeRod(b.rod)
	}
	for _, j := range r.run.Joints {
		if j.Of[0].Part == nil || j.Of[1].Part == nil || r.bad[j.Of[0].Part] || r.bad[j.Of[1].Part] {
			r.bad[j] = true
		} else {
			j.measure()
		}
	}
	for _, b := range r.cables {
		r.placeCable(b.cable)
	}
}

// placePart places part i, its carriers first.
func (r *reader) placePart(i int, done []bool) {
	if done[i] {
		return
	}
	done[i] = true
	p := r.parts[i].part
	if named := p.NamedPivot; named != nil {
		r.placePart(named.Part.Index, done)
		if r.bad[named.Part] {
			r.bad[p] = true
		}
		p.Pivot = named.Get().At
	}
	for j := range p.Points {
		point := &p.Points[j]
		if point.Arm && r.parts[i].isImage("arms") {
			r.placeImage(i, j, done)
		} else if point.Arm {
			point.At = p.Pivot.Add(point.offset)
			r.setVector(p.Name+"."+point.Name, &point.At)
			point.offset = point.At.Sub(p.Pivot)
		}
		if beyond(point.At) && !r.bad[p] {
			r.faults.Add(point.Span, "%s lies too far out: coordinates go to %s", shortName(point.Name), sizeLimit)
			r.bad[p] = true
		}
	}
}

// placeImage places arm j of part i, which is the mirror image of another's: where
// that is set otherwise than it is written, the image is the image of that.
func (r *reader) placeImage(i, j int, done []bool) {
	p := r.parts[i].part
	point := &p.Points[j]
	if of, ok := original[*Part](r, r.parts[i].block); ok && len(r.set.values) > 0 {
		r.placePart(of.Index, done)
		signs := r.signs()
		at := slices.IndexFunc(of.Points, func(q Point) bool { return q.Name == point.Name && q.Arm })
		for k, axis := range axes {
			var ignored float64
			if r.setNumber(p.Name+"."+point.Name+axis, &ignored) && at >= 0 {
				*point.offset.axis(k) = float64(*signs.axis(k) * *of.Points[at].offset.axis(k))
			}
		}
	}
	point.At = p.Pivot.Add(point.offset)
}

// beyond reports whether a place is out of range.
func beyond(v Vec) bool {
	return max(math.Abs(v.X), math.Abs(v.Y), math.Abs(v.Z)) > MaxSize
}

// placeRod measures a rod as drawn.
func (r *reader) placeRod(rod *Rod) {
	for _, end := range []PointRef{rod.From, rod.To} {
		if end.Part == nil && end.Rod == nil || r.bad[end.Part] || r.bad[end.Rod] {
			r.bad[rod] = true
			return
		}
	}
	rod.measure()
}

// placeCable measures a cable as drawn.
func (r *reader) placeCable(c *Cable) {
	switch {
	case c.Open():
		r.bad[c] = r.bad[c.Quadrants[0]] || r.bad[c.Quadrants[1]]
		return
	case c.From == nil || c.To == nil || c.Conduit == nil:
		r.bad[c] = true
		return
	}
	for _, leg := range c.Legs() {
		if r.bad[leg[0].Part] || r.bad[leg[1].Part] {
			r.bad[c] = true
			return
		}
	}
	c.measure()
}

// refuseCarrierCircles tells of parts that carry each other in a circle.
func (r *reader) refuseCarrierCircles() {
	circles(len(r.parts), func(i int) []int {
		if ref := r.parts[i].part.NamedPivot; ref != nil {
			return []int{ref.Part.Index}
		}
		return nil
	}, func(circle []int) {
		names := make([]string, len(circle))
		for i, at := range circle {
			names[i] = r.parts[at].part.Name
			r.bad[r.parts[at].part] = true
		}
		first := r.parts[circle[0]]
		r.faults.Add(first.part.NamedPivot.Span, "%s carry each other in a circle: one of them must pivot on the airframe", allOf(names))
		first.part.NamedPivot, first.part.Carrier = nil, nil
	})
}

// refuseRodCircles tells of rods that hang on themselves.
func (r *reader) refuseRodCircles() {
	circles(len(r.rods), func(i int) []int {
		var on []int
		rod := r.rods[i].rod
		for _, end := range []PointRef{rod.From, rod.To} {
			if end.Rod != nil {
				on = append(on, end.Rod.Index)
			}
		}
		return on
	}, func(circle []int) {
		names := make([]string, len(circle))
		for i, at := range circle {
			names[i] = r.rods[at].rod.Name
			r.bad[r.rods[at].rod] = true
		}
		first := r.rods[circle[0]].rod
		if len(circle) == 1 {
			r.faults.Add(first.Span, "the rod %s hangs on a point of its own", shortName(first.Name))
		} else {
			r.faults.Add(first.Span, "the rods %s hang on each other in a circle", allOf(names))
		}
	})
}

// circles finds circles among n things, each of which rests on others, and
// tells each from its least member on. Of circles that share a member one is
// told.
func circles(n int, rests func(i int) []int, tell func(circle []int)) {
	const (
		unseen = iota
		open   // on the path being followed
		closed
	)
	state := make([]int, n)
	depth := make([]int, n) // of an open one in the path
	told := make([]bool, n)
	type step struct {
		at   int
		next []int
	}
	for start := range n {
		if state[start] != unseen {
			continue
		}
		state[start], depth[start] = open, 0
		path := []step{{start, rests(start)}}
		for len(path) > 0 {
			top := &path[len(path)-1]
			if len(top.next) == 0 {
				state[top.at] = closed
				path = path[:len(path)-1]
				continue
			}
			i := top.next[0]
			top.next = top.next[1:]
			switch {
			case state[i] == unseen:
				state[i], depth[i] = open, len(path)
				path = append(path, step{i, rests(i)})
			case state[i] == open && !told[i]:
				var circle []int
				for _, s := range path[depth[i]:] {
					circle = append(circle, s.at)
					told[s.at] = true
				}
				tell(fromLeast(circle))
			}
		}
	}
}

// fromLeast turns a circle so that it begins with its least member.
func fromLeast(circle []int) []int {
	least := slices.Index(circle, slices.Min(circle))
	return slices.Concat(circle[least:], circle[:least])
}
