package linkage

import (
	"fmt"
	"math"

	"fullfree/linkage/elementary"
)

// nothing is the share of a run's size below which a distance is none: a
// millionth of a millimeter on a meter. Coordinates that were meant to be
// equal, given as decimals or through polar, differ by less than 1e-15 of it;
// no hole is drilled so exactly. Taken too large it would refuse a drawing
// that could be built, taken too small leave the solver to divide by noise.
const nothing = 1e-9

// checkPlane finds whether everything moves at its own height, and tells of
// rods that may not carry points where it doesn't. It reports whether that is
// known: a part with a fault may have been meant to do either.
func (r *reader) checkPlane() bool {
	run, known := r.run, true
	run.Plane = true
	why := ""
	for i, p := range run.Parts {
		b := r.parts[i]
		switch {
		case r.bad[p] && (b.get("axis") != nil || b.get("slide") != nil) && !p.Spatial():
			known = false
		case p.Motion == Tilts || p.Motion == Roams:
			run.Plane, why = false, fmt.Sprintf("%s %s", shortName(p.Name), p.freely())
		case p.Motion == TurnsAndSlides && squareToDrawing(p.Axis):
			run.Plane, why = false, fmt.Sprintf("%s slides out of the drawing", shortName(p.Name))
		case p.Motion == TurnsAndSlides:
			run.Plane, why = false, fmt.Sprintf("%s turns about another axis", shortName(p.Name))
		case p.Motion == Turns && !squareToDrawing(p.Axis):
			run.Plane, why = false, fmt.Sprintf("%s turns about another axis", shortName(p.Name))
		case p.Motion == Slides && p.Slide.Z != 0:
			run.Plane, why = false, fmt.Sprintf("%s slides out of the drawing", shortName(p.Name))
		}
	}
	if run.Plane {
		return known
	}
	for _, b := range r.rods {
		if len(b.rod.Points) > 0 && !r.bad[b.rod] {
			r.faults.Add(b.rod.Points[0].Span, "a rod has points of its own only where everything moves in the plane of the drawing, and %s", why)
			r.bad[b.rod] = true
		}
	}
	return true
}

// squareToDrawing reports whether an axis, at length 1, is parallel to z.
func squareToDrawing(axis Vec) bool { return axis.X == 0 && axis.Y == 0 }

// checkEdges tells of edges that halt on a point. plane says that the run is
// known to be plane.
func (r *reader) checkEdges(plane bool) {
	none := float64(nothing * r.run.Size())
	for _, p := range r.run.Parts {
		if r.bad[p] {
			continue
		}
		for _, f := range p.Features {
			for i := 1; i < len(f.Through); i++ {
				d := f.Through[i].Sub(f.Through[i-1])
				switch {
				case d.Norm() <= none:
					r.faults.Add(f.throughSpans[i], "this point of the edge is the same as the one before it: leave it out")
				case plane && elementary.Hypot(d.X, d.Y) <= none:
					r.faults.Add(f.throughSpans[i], "here the edge goes straight up out of the drawing: what is seen end on is a round, with z = [low, high]")
				}
			}
		}
	}
}

// checkRods tells of rods that hold nothing or can't be told apart from
// nothing. plane says that the run is known to be plane.
func (r *reader) checkRods(plane bool) {
	none := float64(nothing * r.run.Size())
	for _, b := range r.rods {
		if r.bad[b.rod] || r.onOnePiece(b.rod) {
			continue
		}
		r.checkEnds(b.rod, plane, none)
		r.checkHeights(b.rod, plane, none)
	}
}

// onOnePiece tells of a rod between two points of one piece.
func (r *reader) onOnePiece(rod *Rod) bool {
	from, to := rod.From, rod.To
	switch {
	case from.Part != nil && to.Part != nil && from.Part.Motion == Fixed && to.Part.Motion == Fixed:
		r.faults.Add(rod.Span, "both ends of the rod %s are fixed, so it moves nothing", shortName(rod.Name))
	case from.Part != nil && from.Part == to.Part, from.Rod != nil && from.Rod == to.Rod:
		r.faults.Add(rod.Span, "both ends of the rod %s are on %s, so it moves nothing", shortName(rod.Name), shortName(from.Owner()))
	default:
		return false
	}
	return true
}

// checkEnds tells of ends that coincide, and of ends on their part's axis.
func (r *reader) checkEnds(rod *Rod, plane bool, none float64) {
	d := rod.To.Get().At.Sub(rod.From.Get().At)
	switch {
	case rod.Drawn <= none:
		r.faults.Add(rod.Span, "both ends of the rod %s are drawn at the same place, so it has no direction", shortName(rod.Name))
	case plane && elementary.Hypot(d.X, d.Y) <= none:
		r.faults.Add(rod.Span, "the rod %s stands square to the drawing, so it moves nothing in it", shortName(rod.Name))
	}
	for _, end := range []PointRef{rod.From, rod.To} {
		if end.Part != nil && end.Part.Motion == Tilts && end.Get().At.Sub(end.Part.Pivot).Norm() <= none {
			r.faults.Add(end.Span, "%s lies in the middle of the ball that %s is on, so a rod there can't tilt it", shortName(end.String()), shortName(end.Part.Name))
		}
		if end.Part == nil || end.Part.Motion != Turns {
			continue
		}
		if end.Get().At.Sub(end.Part.Pivot).Cross(end.Part.Axis).Norm() <= none {
			r.faults.Add(end.Span, "%s lies on the axis that %s turns about, so a rod there can't turn it", shortName(end.String()), shortName(end.Part.Name))
		}
	}
}

// checkHeights tells of rods between heights that can't be: too short for the
// climb, or on a part that floats.
func (r *reader) checkHeights(rod *Rod, plane bool, none float64) {
	climb := math.Abs(rod.To.Get().At.Z - rod.From.Get().At.Z)
	if plane && rod.LengthGiven && rod.Length > 0 && rod.Length <= climb {
		r.tellAt(rod.Name+".length", rod.LengthSpan, "the ends of the rod %s differ in height by %g, so it must be longer than that", shortName(rod.Name), climb)
	}
	ends := [2]PointRef{rod.From, rod.To}
	for i, end := range ends {
		if end.Part == nil || end.Part.Motion != Floats {
			continue
		}
		other := ends[1-i]
		if climb > none {
			r.faults.Add(rod.Span, "the rod %s goes to another height, and %s is held by rods alone: their ball ends would not keep it in its plane (floats = %q lets it leave it)", shortName(rod.Name), shortName(end.Part.Name), inSpace)
		} else if mover := leaves(other.Part); mover != nil {
			r.faults.Add(other.Span, "%s is held by rods alone, so they must stay in its plane, and %s moves out of it (floats = %q lets it leave it)", shortName(end.Part.Name), shortName(mover.Name), inSpace)
		} else {
			continue
		}
		return
	}
}

// leaves returns the part, of p and what carries it, that moves points of p
// out of their height; nil if none does.
func leaves(p *Part) *Part {
	for p != nil {
		switch {
		case p.Motion == Turns && !squareToDrawing(p.Axis), p.Motion == Slides && p.Slide.Z != 0, p.Spatial(), p.Motion == TurnsAndSlides:
			return p
		}
		if p.Carrier == nil {
			return nil
		}
		p = p.Carrier.Part
	}
	return nil
}
