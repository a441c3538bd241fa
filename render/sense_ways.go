package render

import (
	"math"
	"strings"

	"fullfree/linkage"
	"fullfree/solve"
)

// clearShare is the least share of a motion along a direction for that to be told: the
// cosine of 60 degrees, by which labels are held against the drawing. Of three
// directions square to one another one has always as much.
const clearShare = 0.5

// ControlWays tells for each end of a sweep where the control is held and which way
// that place goes from neutral, in the aircraft's directions: "left-pedal.foot goes
// forward". Empty where the file doesn't say how the aircraft lies in the drawing, or
// nothing moves.
// A control that twists is told as its file has it seen.
func ControlWays(run *linkage.Run, s *solve.Sweep) [2]string {
	if twist := s.Control.Twist; twist != nil {
		ways := [2]string{"clockwise", "counterclockwise"} // of minus, of plus
		if twist.Clockwise {
			ways[0], ways[1] = ways[1], ways[0]
		}
		for i := range ways {
			ways[i] = s.Control.Of.Name + " turns " + ways[i] + ", seen from " + twist.SeenFrom
		}
		return ways
	}
	home := run.Home(s.Control.In) // of another run's control, on its own drawing
	st := posesOf(home, s)
	if st == nil {
		return [2]string{}
	}
	if grip := s.Control.Grip; grip != nil {
		return st.followed(*grip, airframe).ways(home)
	}
	return st.mostMoved(home, handled(run, s.Control), airframe).ways(home)
}

// OutputWays tells the same of the place where an output is watched.
func OutputWays(run *linkage.Run, s *solve.Sweep, o *linkage.Output) [2]string {
	home := run.Home(o.In)
	st := posesOf(home, s)
	switch {
	case st == nil:
		return [2]string{}
	case o.SeenAt != nil:
		return st.followed(*o.SeenAt, airframe).ways(home)
	}
	return st.outputMover(home, o).ways(home)
}

// ways tells both motions of a place.
func (m *mover) ways(run *linkage.Run) (said [2]string) {
	if m == nil {
		return said
	}
	for i, moved := range m.ends {
		if moved == nil {
			continue
		}
		if words := directionWords(run, *moved); words != "" {
			said[i] = m.name + " goes " + words + m.after
		}
	}
	return said
}

// directionWords are the directions in which a place clearly moves; empty where it
// doesn't move, or along none that the file gives.
func directionWords(run *linkage.Run, moved linkage.Vec) string {
	whole := moved.Norm()
	if whole <= noticed*run.Size() {
		return ""
	}
	var said []string
	tell := func(along *linkage.Vec, plus, minus string) {
		if along == nil {
			return
		}
		if share := moved.Dot(*along) / whole; math.Abs(share) >= clearShare {
			said = append(said, sided(share, plus, minus))
		}
	}
	tell(run.Forward, "forward", "aft")
	tell(run.Up, "up", "down")
	tell(run.Right, "right", "left")
	return strings.Join(said, " and ")
}
