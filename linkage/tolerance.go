package linkage

import "slices"

// Tolerance is how far the parts made to a drawing may be out, and how much their joints
// give: what a file's tolerance block says of all that says nothing of its own. What it
// leaves out is exact.
type Tolerance struct {
	Span Span
	// Points, Pivots and Rods are half-widths, run units: of each coordinate of each
	// hole, of each pivot, and of each length that is set.
	Points, Pivots, Rods float64
	Stops                float64 // half-width of where a stop of a part that turns bites, degrees
	// JointPlay is the diametral play of each joint, run units: its center may lie
	// anywhere within half of that.
	JointPlay float64
}

// tolerance is what the tolerance block says of something of this run, in its own file;
// all exact where that has none.
func (run *Run) tolerance(in *Member) Tolerance {
	home := run.Home(in)
	if home == nil || home.Tolerance == nil {
		return Tolerance{}
	}
	return *home.Tolerance
}

// OutBy is how far a dimension may be out either way, run units: 0 where it is exact. A
// hole that a part turns on counts among the pivots. Of heights see hasHeights.
func (run *Run) OutBy(d Dimension) float64 {
	if run == nil || !d.whole() {
		return 0
	}
	t := run.tolerance(d.In())
	switch {
	case d.Cable != nil:
		return 0
	case d.IsLength():
		if own := d.Rod.Tolerance; own != nil {
			return *own
		}
		if !d.Rod.LengthGiven {
			return 0 // it is as long as its holes are apart
		}
		return t.Rods
	case d.Axis == 2 && !run.hasHeights(d):
		return 0
	case d.Rod != nil:
		return t.Points
	case d.Point >= 0 && !run.isUsed(PointRef{Part: d.Part, Point: d.Point}):
		return 0
	case d.Part.Tolerance != nil:
		return *d.Part.Tolerance
	case d.Part.Exact:
		return 0
	case d.Point < 0 || run.isPivot(d.Part, d.Point):
		return t.Pivots
	}
	return t.Points
}

// StopOutBy is how far a stop by number may bite from where it is set either way, degrees
// or run units: 0 where it is exact.
func (run *Run) StopOutBy(s *Stop) float64 {
	switch {
	case run == nil || s == nil || s.Of == nil:
		return 0
	case s.Tolerance != nil:
		return *s.Tolerance
	case s.Of.Angular():
		return run.tolerance(s.In).Stops
	}
	return 0
}

// isPivot reports whether some part turns on a point, or is carried by it.
func (run *Run) isPivot(p *Part, point int) bool {
	return slices.ContainsFunc(run.Parts, func(q *Part) bool {
		return q.NamedPivot != nil && q.NamedPivot.Part == p && q.NamedPivot.Point == point
	})
}

// isUsed reports whether anything hangs on where a part's point is: a rod, a cable, a
// part that turns on it, an output or a requirement. All points of a part that floats
// count, as its travel is told of their mean.
func (run *Run) isUsed(r PointRef) bool {
	is := func(other PointRef) bool { return other.Part == r.Part && other.Point == r.Point }
	at := func(other *PointRef) bool { return other != nil && is(*other) }
	if r.Part == nil || r.Part.Loose() || run.isPivot(r.Part, r.Point) {
		return true
	}
	for _, rod := range run.Rods {
		if is(rod.From) || is(rod.To) {
			return true
		}
	}
	for _, j := range run.Joints {
		if is(j.Of[0]) || is(j.Of[1]) {
			return true
		}
	}
	for _, c := range run.Cables {
		if at(c.From) || at(c.To) || c.Conduit != nil && (is(c.Conduit[0]) || is(c.Conduit[1])) {
			return true
		}
	}
	for _, o := range run.Outputs {
		if at(o.Point) {
			return true
		}
	}
	for _, q := range run.Requirements {
		if q.Kind == Meets && (is(q.Points[0]) || is(q.Points[1])) || slices.ContainsFunc(q.Places, func(p PlaceMotion) bool { return is(p.Place) }) {
			return true
		}
	}
	return false
}

// hasHeights reports whether the height of a place may be out: not in a run that is drawn
// without heights, and not where rods hold a part in the plane of the drawing, since they
// only do so at one height.
func (run *Run) hasHeights(d Dimension) bool {
	if run.Plane && !slices.ContainsFunc(run.Parts, func(p *Part) bool {
		return slices.ContainsFunc(p.Points, func(q Point) bool { return q.At.Z != 0 })
	}) {
		return false
	}
	if d.Rod != nil { // a rod's own points are in the plane of the drawing
		return false
	}
	if d.Part.Motion == Floats {
		return false
	}
	level := func(e PointRef) bool { return e.Rod != nil || e.Part != nil && e.Part.Motion == Floats }
	for _, rod := range run.Rods {
		if level(rod.From) || level(rod.To) {
			for _, end := range []PointRef{rod.From, rod.To} {
				if end.Part == d.Part && end.Point == d.Point {
					return false
				}
			}
		}
	}
	for _, j := range run.Joints { // a pin holds at any height
		if _, hinge := j.Hinge(); hinge {
			for _, end := range j.Of {
				if end.Part == d.Part && end.Point == d.Point && level(j.Of[0]) != level(j.Of[1]) {
					return false
				}
			}
		}
	}
	return true
}

// PivotPlay is the diametral play of the joint that a part turns or slides in, run units;
// 0 where it has none: what is fixed, and what rods alone hold.
func (run *Run) PivotPlay(p *Part) float64 {
	switch {
	case run == nil || p == nil || p.Motion == Fixed || p.Loose():
		return 0
	case p.JointPlay != nil:
		return *p.JointPlay
	}
	return run.tolerance(p.In).JointPlay
}

// EndPlay is the diametral play of a rod's joint on a side, "from" or "to", run units; 0
// for a second path, which drives nothing.
func (run *Run) EndPlay(r *Rod, side string) float64 {
	if run == nil || r == nil || r.SecondPath {
		return 0
	}
	if e := r.End(side); e != nil && e.JointPlay != nil {
		return *e.JointPlay
	}
	if r.JointPlay != nil {
		return *r.JointPlay
	}
	return run.tolerance(r.In).JointPlay
}

// PlayOf is the diametral play of a joint between two points, run units.
func (run *Run) PlayOf(j *Joint) float64 {
	switch {
	case run == nil || j == nil:
		return 0
	case j.JointPlay != nil:
		return *j.JointPlay
	}
	return run.tolerance(j.In).JointPlay
}

// CablePlay is the diametral play of the joint at either end of a cable in a conduit, run
// units; 0 for one that is wound on quadrants.
func (run *Run) CablePlay(c *Cable) float64 {
	if run == nil || c == nil || c.Open() {
		return 0
	}
	return run.tolerance(c.In).JointPlay
}

// HasPlay reports whether the file says of any joint that it gives.
func (run *Run) HasPlay() bool {
	if run == nil {
		return false
	}
	return slices.ContainsFunc(run.Parts, func(p *Part) bool { return run.PivotPlay(p) > 0 }) ||
		slices.ContainsFunc(run.Rods, func(r *Rod) bool { return run.EndPlay(r, "from") > 0 || run.EndPlay(r, "to") > 0 }) ||
		slices.ContainsFunc(run.Joints, func(j *Joint) bool { return run.PlayOf(j) > 0 }) ||
		slices.ContainsFunc(run.Cables, func(c *Cable) bool { return run.CablePlay(c) > 0 })
}
