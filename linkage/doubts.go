package linkage

import (
	"math"
	"slices"

	"fullfree/linkage/elementary"
)

// What of a drawing is hardly meant: a rod in the wrong hole, figures in another unit. It
// is told as a doubt, never as a fault, since a run may be so.

// OddRod is a rod that is hardly joined as it was meant.
type OddRod struct {
	Rod *Rod
	Why OddWhy
	// Part is whose pivot it crosses, or to whose bolt it stands out of square.
	Part *Part
	// Times is how many times as long as the next longest it is; Tilt by how many degrees
	// it stands out of square to the bolt at its end on Part, as drawn.
	Times, Tilt float64
	// Shared is the hole in which another rod ends too, and Free one of a part that turns
	// in which nothing does.
	Shared, Free *PointRef
	Other        *Rod
}

// OddWhy is what is odd of a rod.
type OddWhy int

// What may be odd.
const (
	CrossesPivot OddWhy = iota // its line passes over the pivot of a part that it ends on
	TooLong                    // far longer than every other rod
	OutOfSquare                // it leans farther than any rod end takes
	SharedHole                 // it shares a hole, and another is left empty
)

const (
	// crossesWithin is the share of an arm's length within which a rod's line passes a
	// pivot when it is told to cross it.
	crossesWithin = 0.25
	// timesLonger is from how many times the next longest a rod is told as too long, of
	// three rods at least.
	timesLonger = 2
	// mostTilt is how far a rod end may stand out of square to its bolt as drawn, degrees:
	// rod ends take about half of it (common practice, no source).
	mostTilt = 30
)

// OddRods lists the rods that are hardly joined as meant, in the file's order, each by the
// first thing that is odd of it.
func (run *Run) OddRods() (list []OddRod) {
	if run == nil {
		return nil
	}
	for _, rod := range run.Rods {
		for _, odd := range []func(*Rod) (OddRod, bool){run.crossing, run.tooLong, run.outOfSquare, run.sharing} {
			if found, ok := odd(rod); ok {
				list = append(list, found)
				break
			}
		}
	}
	return list
}

// bothEnds are a rod's two ends.
func (r *Rod) bothEnds() [2]PointRef { return [2]PointRef{r.From, r.To} }

func (run *Run) crossing(rod *Rod) (OddRod, bool) {
	a, b := rod.From.Get().At, rod.To.Get().At
	for _, end := range rod.bothEnds() {
		p := end.Part
		if p == nil || p.Motion != Turns {
			continue
		}
		flat := func(v Vec) Vec { // seen along the axis, from the pivot
			v = v.Sub(p.Pivot)
			return v.Sub(p.Axis.Scale(v.Dot(p.Axis)))
		}
		from, to := flat(a), flat(b)
		way := to.Sub(from)
		arm, n := flat(end.Get().At).Norm(), way.Dot(way)
		if n == 0 || arm == 0 {
			continue
		}
		t := -from.Dot(way) / n
		if t > 0 && t < 1 && from.Add(way.Scale(t)).Norm() < float64(crossesWithin*arm) {
			return OddRod{Rod: rod, Why: CrossesPivot, Part: p}, true
		}
	}
	return OddRod{}, false
}

func (run *Run) tooLong(rod *Rod) (OddRod, bool) {
	next := 0.0
	for _, other := range run.Rods {
		if other != rod {
			next = math.Max(next, other.Length)
		}
	}
	if len(run.Rods) < 3 || rod.Length < float64(timesLonger*next) || next == 0 {
		return OddRod{}, false
	}
	return OddRod{Rod: rod, Why: TooLong, Times: rod.Length / next}, true
}

func (run *Run) outOfSquare(rod *Rod) (OddRod, bool) {
	along := rod.To.Get().At.Sub(rod.From.Get().At)
	n := along.Norm()
	for _, end := range rod.bothEnds() {
		p := end.Part
		if p == nil || p.Motion != Turns || n == 0 {
			continue // of what is fixed mostly nobody says how its bolts lie
		}
		bolt := p.Axis
		if own := end.Get().Bolt; own != nil {
			bolt = *own
		}
		if bolt == (Vec{}) {
			continue
		}
		sine := math.Min(1, math.Abs(along.Dot(bolt))/n)
		if tilt := float64(elementary.Asin(sine) * (180 / math.Pi)); tilt > mostTilt {
			return OddRod{Rod: rod, Why: OutOfSquare, Part: p, Tilt: tilt}, true
		}
	}
	return OddRod{}, false
}

func (run *Run) sharing(rod *Rod) (OddRod, bool) {
	for _, end := range rod.bothEnds() {
		if end.Part == nil || end.Part.Motion != Turns {
			continue
		}
		for _, other := range run.Rods {
			if other == rod || other.From.Get() != end.Get() && other.To.Get() != end.Get() {
				continue
			}
			if free := run.freeHole(end.Part); free != nil {
				shared := end
				return OddRod{Rod: rod, Why: SharedHole, Part: end.Part, Shared: &shared, Free: free, Other: other}, true
			}
		}
	}
	return OddRod{}, false
}

// freeHole is an arm of a part in which nothing ends, and which nothing else names; nil
// where there is none.
func (run *Run) freeHole(part *Part) *PointRef {
	for i := range part.Points {
		ref := PointRef{Part: part, Point: i}
		if part.Points[i].Arm && !run.named(ref) {
			return &ref
		}
	}
	return nil
}

// named reports whether anything of the run is of a point.
func (run *Run) named(ref PointRef) bool {
	is := func(r *PointRef) bool { return r != nil && r.Get() == ref.Get() }
	for _, rod := range run.Rods {
		if is(&rod.From) || is(&rod.To) {
			return true
		}
	}
	for _, j := range run.Joints {
		if is(&j.Of[0]) || is(&j.Of[1]) {
			return true
		}
	}
	for _, c := range run.Cables {
		if c.Open() {
			continue
		}
		for _, leg := range c.Legs() {
			if is(&leg[0]) || is(&leg[1]) {
				return true
			}
		}
	}
	for _, p := range run.Parts {
		if is(p.Carrier) || is(p.NamedPivot) {
			return true
		}
	}
	for _, o := range run.Outputs {
		if is(o.Point) || is(o.SeenAt) || is(o.LeadingEdge) {
			return true
		}
	}
	for _, c := range run.Controls {
		if is(c.Grip) {
			return true
		}
	}
	for _, q := range run.Requirements {
		if is(&q.Points[0]) || is(&q.Points[1]) || slices.ContainsFunc(q.Places, func(p PlaceMotion) bool { return is(&p.Place) }) {
			return true
		}
	}
	return false
}

const (
	// smallestRun and largestRun are between which sizes a control run is: from a throttle
	// lever and its arm to the tail of a light aircraft, millimeters (common practice, no
	// source).
	smallestRun = 120
	largestRun  = 15_000
	// smallestArm is the shortest arm that a rod drives; a rod end has a hole of 4 mm at
	// least, and metal about it.
	smallestArm = 6
	// largestArm is what no control run's shortest arm is, millimeters: longer
	// than a stick (common practice, no source).
	largestArm = 800
	// perInch is a millimeter in inches.
	perInch = 25.4
)

// OddSize tells whether the run is hardly of the unit that it is in: its size, and its
// shortest arm that a rod or cable ends on, in millimeters. odd is -1 where it is too small, 1 where
// it is too large, 0 where it may be.
func (run *Run) OddSize() (size, arm float64, of *PointRef, odd int) {
	if run == nil {
		return 0, 0, nil, 0
	}
	scale := 1.0
	if run.Units == Inches {
		scale = perInch
	}
	arm = math.Inf(1)
	var ends []PointRef
	for _, rod := range run.Rods {
		ends = append(ends, rod.From, rod.To)
	}
	for _, c := range run.Cables {
		if !c.Open() {
			ends = append(ends, *c.From, *c.To)
		}
	}
	for _, end := range ends {
		if p := end.Part; p != nil && p.Motion == Turns {
			v := end.Get().At.Sub(p.Pivot)
			if n := float64(scale * v.Sub(p.Axis.Scale(v.Dot(p.Axis))).Norm()); n < arm {
				own := end
				arm, of = n, &own
			}
		}
	}
	size = float64(scale * run.Size())
	switch {
	case of == nil:
	case size > largestRun, arm > largestArm:
		odd = 1
	case size < smallestRun, arm < smallestArm && size < 10*smallestRun && run.Units == Millimeters:
		odd = -1
	}
	return size, arm, of, odd
}
