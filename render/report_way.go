package render

import (
	"fmt"
	"math"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/solve"
)

// What is drawn is told beside the words of the file, where it says which way
// the aircraft lies in the drawing: words such as plus = "forward" are only
// words, and the drawing may go another way.

// The words for the two ways along a direction of the aircraft.
type axisWords struct{ plus, minus string }

// wayOf tells how a place moves in the directions of the aircraft that the
// file gives; empty where it gives none.
func wayOf(run *linkage.Run, moved linkage.Vec) string {
	var said []string
	named, last := 0, axisWords{}
	tell := func(along *linkage.Vec, words axisWords) {
		if along == nil {
			return
		}
		named, last = named+1, words
		far := moved.Dot(*along)
		if figure.Rounded(far, run.Units) == 0 {
			return
		}
		said = append(said, figure.Length(math.Abs(far), run.Units)+" "+sided(far, words.plus, words.minus))
	}
	tell(run.Forward, axisWords{"forward", "aft"})
	tell(run.Up, axisWords{"up", "down"})
	tell(run.Right, axisWords{"right", "left"})
	switch {
	case named == 0:
		return ""
	case len(said) > 0:
		return "goes " + figure.List(said)
	case named == 1:
		return "goes neither " + last.plus + " nor " + last.minus
	}
	return "stays where it is"
}

// mover is a place whose way is told.
type mover struct {
	name  string
	ends  [2]*linkage.Vec // how it moves from neutral to each end; nil: not known there
	after string          // what that is against, where it isn't the airframe
}

// stands is a run at neutral and at both ends of a travel; nil where it is not
// known how it stands there.
type poses struct {
	neutral *solve.Pose
	ends    [2]*solve.Pose
}

// standsOf is nil where nothing tells which way the aircraft lies in the
// drawing, or how the run stands at neutral.
func posesOf(run *linkage.Run, s *solve.Sweep) *poses {
	if run.Forward == nil && run.Up == nil && run.Right == nil {
		return nil
	}
	neutral, ok := s.At(0)
	if !ok {
		return nil
	}
	st := &poses{neutral: neutral}
	for i, end := range s.Ends {
		if pose, ok := s.At(end.At); ok {
			st.ends[i] = pose
		}
	}
	return st
}

// mostMoved finds, among the points of some parts, the one that moves most
// between neutral and the ends of a travel; nil where there is none. Against
// is a place that may move itself.
func (st *poses) mostMoved(run *linkage.Run, parts []*linkage.Part, against func(*solve.Pose) linkage.Vec) *mover {
	var best *mover
	most, apart := 0.0, float64(noticed*run.Size())
	for _, part := range parts {
		for i := range part.Points {
			m := st.followed(linkage.PointRef{Part: part, Point: i}, against)
			far := 0.0
			for _, moved := range m.ends {
				if moved != nil {
					far = max(far, moved.Norm())
				}
			}
			// One that moves more by rounding alone doesn't come before one that
			// stands first in the file.
			if best == nil || far > most+apart {
				best, most = m, far
			}
		}
	}
	return best
}

// noticed is the share of the drawing's size by which two distances must
// differ to be told apart.
const noticed = 1e-9

// followed follows a point from neutral to both ends of a travel, against a
// place that may move itself.
func (st *poses) followed(point linkage.PointRef, against func(*solve.Pose) linkage.Vec) *mover {
	m := &mover{name: point.String()}
	from := st.neutral.Point(point).Sub(against(st.neutral))
	for i, end := range st.ends {
		if end != nil {
			moved := end.Point(point).Sub(against(end)).Sub(from)
			m.ends[i] = &moved
		}
	}
	return m
}

// airframe is the place that nothing moves.
func airframe(*solve.Pose) linkage.Vec { return linkage.Vec{} }

// handled is the parts that a hand on a control moves with it: its own, and
// those of the controls that ride on it.
func handled(run *linkage.Run, c *linkage.Control) []*linkage.Part {
	parts := []*linkage.Part{c.Of}
	for _, other := range run.Controls {
		for p := other.Of; p.Carrier != nil && p.Carrier.Part != nil; p = p.Carrier.Part {
			if p.Carrier.Part == c.Of {
				parts = append(parts, other.Of)
				break
			}
		}
	}
	return parts
}

// outputMover is the place whose way is told of an output. Of a part that is
// carried or floats, whose turn the output is, the turn alone is told: how it
// goes against its pivot or the middle of its points.
func (st *poses) outputMover(run *linkage.Run, o *linkage.Output) *mover {
	if o.Point != nil {
		return st.followed(*o.Point, airframe)
	}
	against, after := airframe, ""
	switch part := o.Part; {
	case part.Loose():
		after = " against the middle of its holes"
		against = func(at *solve.Pose) linkage.Vec {
			sum := linkage.Vec{}
			for i := range part.Points {
				sum = sum.Add(at.Point(linkage.PointRef{Part: part, Point: i}))
			}
			return sum.Scale(1 / float64(len(part.Points)))
		}
	case part.HasPivot() && part.Carrier != nil:
		after = " against its pivot"
		against = func(at *solve.Pose) linkage.Vec { return at.Place(part, part.Pivot) }
	}
	m := st.mostMoved(run, []*linkage.Part{o.Part}, against)
	if m != nil {
		m.after = after
	}
	return m
}

// reportControlWays tells which way the part of a control goes to either end.
// Others tells where the other controls stand, where that isn't told beside it.
func reportControlWays(p *page, run *linkage.Run, s *solve.Sweep, others string) {
	home := run.Home(s.Control.In) // of another run's control, on its own drawing
	st := posesOf(home, s)
	if st == nil {
		return
	}
	m := st.mostMoved(home, handled(run, s.Control), airframe)
	if m == nil {
		return
	}
	for i, moved := range m.ends {
		if moved != nil && s.Ends[i].At != 0 {
			p.text("  ", "    ", fmt.Sprintf("%s%s: as drawn, %s %s", ControlPosition(s, s.Ends[i].At), others, m.name, wayOf(home, *moved)))
		}
	}
}

// reportOutputWays tells which way an output goes at either end.
func reportOutputWays(p *page, run *linkage.Run, st *poses, o solve.OutputTravel) {
	if st == nil {
		return
	}
	m := st.outputMover(run, o.Output)
	if m == nil {
		return
	}
	for i, moved := range m.ends {
		reading := [...]float64{o.AtLow, o.AtHigh}[i]
		if moved == nil || figure.Rounded(reading-o.Neutral, o.Unit) == 0 {
			continue
		}
		words := o.Output.Plus
		if reading < o.Neutral {
			words = o.Output.Minus
		}
		p.text("    ", "      ", fmt.Sprintf("%s%s, %s end: as drawn, %s %s%s",
			figure.Quantity(reading, o.Unit), figure.Bracketed(words), SideName(i), m.name, wayOf(run, *moved), m.after))
	}
}
