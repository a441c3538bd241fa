package solve_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// Three actuators at 120 degrees carry a plate on a ball, which slides on a mast. Where the
// plane stands is chosen; how far the plate is turned about it by its anti-rotation link,
// and how high each actuator then stands, is one square root each (own derivation: each rod
// is the long side of a right triangle whose foot is how far its upper end stands aside).
const plateText = `run "plate" {
  units   = "mm"
  up      = [0, 1]
  forward = [-1, 0]
}
part "sleeve" {
  pivot  = [0, 0, 0]
  axis   = [0, 1, 0]
  slides = true
  points = { center = [0, 100, 0] }
}
part "ring" {
  ball   = sleeve.center
  points = { f = [-80, 100, 0], l = [40, 100, 69.28203230275509], r = [40, 100, -69.28203230275509], arm = [90, 100, 0] }
}
part "af" {
  slide  = [0, 1]
  points = { top = [-80, 0, 0] }
}
part "al" {
  slide  = [0, 1]
  points = { top = [40, 0, 69.28203230275509] }
}
part "ar" {
  slide  = [0, 1]
  points = { top = [40, 0, -69.28203230275509] }
}
fixed "deck" {
  points = { anti = [90, 100, -120] }
}
rod "rf" {
  from = af.top
  to   = ring.f
}
rod "rl" {
  from = al.top
  to   = ring.l
}
rod "rr" {
  from = ar.top
  to   = ring.r
}
rod "anti" {
  from = deck.anti
  to   = ring.arm
}
control "f" {
  of   = af
  from = %s
  to   = %s
}
control "l" {
  of   = al
  from = -60
  to   = 60
  held = [%s]
}
control "r" {
  of   = ar
  from = -60
  to   = 60
  held = [%s]
}
output "fore-and-aft" {
  of    = ring
  tilts = "forward"
}
output "aside" {
  of    = ring
  tilts = [1, 0, 1]
}
output "height" {
  of    = sleeve.center
  along = [0, 1]
}
`

// platePose is where the plate of plateText stands: the ball at a height over the drawn one,
// its plane square to normal.
type platePose struct {
	height float64
	normal vec
}

// platePoint is where a point of the plate is, drawn at v from the ball: turned about the
// mast by twist, then leaned over the shortest way.
func (p platePose) platePoint(v vec, twist float64) vec {
	v = rotate(v, at(0, 1), deg(twist))
	if axis := at(0, 1).Cross(p.normal); axis.Norm() > 0 {
		v = rotate(v, axis.Unit(), deg(math.Asin(axis.Norm())))
	}
	return v.Add(at(0, 100+p.height))
}

// twist is how far the anti-rotation link turns the plate: its length, squared, is that of
// A cos t + B sin t = C.
func (p platePose) twist() float64 {
	anti, length := at3(90, 100, -120), 120.0
	x, z := p.platePoint(at(90, 0), 0), p.platePoint(at(90, 0), math.Pi/2)
	center := at(0, 100+p.height)
	x, z, away := x.Sub(center), z.Sub(center), anti.Sub(center)
	a, b := x.Dot(away), z.Dot(away)
	c := (90*90 + away.Dot(away) - length*length) / 2
	middle, wide := math.Atan2(b, a), math.Acos(c/math.Hypot(a, b))
	one, other := math.Remainder(middle+wide, 2*math.Pi), math.Remainder(middle-wide, 2*math.Pi)
	if math.Abs(one) < math.Abs(other) {
		return one
	}
	return other
}

// actuators are how far the three stand from as drawn.
func (p platePose) actuators() (stand [3]float64) {
	twist := p.twist()
	for i, foot := range []vec{at(-80, 0), at3(40, 0, 69.28203230275509), at3(40, 0, -69.28203230275509)} {
		end := p.platePoint(foot, twist)
		aside := end.Sub(foot)
		stand[i] = end.Y - math.Sqrt(100*100-aside.X*aside.X-aside.Z*aside.Z)
	}
	return stand
}

func TestPlateOnThreeActuators(t *testing.T) {
	for _, p := range []platePose{
		{0, at(0, 1)}, {14, at(0, 1)}, {-9, at3(0.1, 1, 0)}, {3, at3(-0.2, 1, 0.1)}, {12, at3(0.05, 1, -0.3)}, {-20, at3(0.25, 1, 0.25)},
	} {
		p.normal = p.normal.Unit()
		stand := p.actuators()
		f := stand[0]
		run := read(t, fmt.Sprintf(plateText, num(math.Min(f, -1)), num(math.Max(f, 1)), num(stand[1]), num(stand[2])))
		m, err := solve.Compile(run)
		require.NoError(t, err)
		sweep, err := m.Sweep(run.Controls[0], nil)
		require.NoError(t, err)
		pose := solveAt(t, sweep, f)
		about := fmt.Sprintf("%+v", p)
		near(t, p.height, pose.Reading(run.Outputs[2]), exact, about)
		near(t, deg(math.Asin(-p.normal.X)), pose.Reading(run.Outputs[0]), exact, about)
		near(t, deg(math.Asin(p.normal.Dot(at3(1, 0, 1).Unit()))), pose.Reading(run.Outputs[1]), exact, about)
		for _, point := range partNamed(t, run, "ring").Points {
			got := pose.Point(pointNamed(t, run, "ring."+point.Name))
			want := p.platePoint(point.At.Sub(at(0, 100)), p.twist())
			near(t, 0, distance(want, got), exact, about)
		}
		told := map[string]float64{
			"ring.tilt-x": deg(math.Asin(p.normal.X)), "ring.tilt-z": deg(math.Asin(p.normal.Z)), "ring.turn": deg(p.twist()),
			"sleeve.slide": p.height, "sleeve.turn": 0, "al": stand[1], "ar": stand[2],
		}
		for name, want := range told {
			part := partOf(t, sweep, name)
			got := part.AtHigh
			if f < 1 {
				got = part.AtLow
			}
			if f > -1 && f < 1 {
				continue
			}
			near(t, want, got, exact, about+" "+name)
		}
	}
}

// As drawn every rod is upright, so that the heights of the plate's three corners follow
// their actuators: a third of each goes into the middle, and the plane through three points
// says how it leans.
func TestPlateRatios(t *testing.T) {
	result := check(t, fmt.Sprintf(plateText, "-20", "20", "0", "0"))
	require.Len(t, result.Sweeps, 3)
	perDegree := 180 / math.Pi
	for i, want := range []struct{ lean, height float64 }{{-1 / 120.0, 1 / 3.0}, {0.5 / 120, 1 / 3.0}, {0.5 / 120, 1 / 3.0}} {
		sweep := result.Sweeps[i]
		nearAt(t, want.lean*perDegree, outputOf(t, sweep, "fore-and-aft").Ratio.Neutral, exact, "lean")
		nearAt(t, want.height, outputOf(t, sweep, "height").Ratio.Neutral, exact, "height")
	}
}

// The sleeve may turn about the mast as it likes: nothing hangs on that. Where something does,
// it is told.
func TestPlateSleeveTurns(t *testing.T) {
	text := fmt.Sprintf(plateText, "-20", "20", "0", "0")
	run := read(t, text)
	require.Equal(t, linkage.TurnsAndSlides, partNamed(t, run, "sleeve").Motion)
	told := refusal(t, text+"output \"sleeve-turn\" {\n  of = sleeve\n}\n")
	require.Contains(t, told, `"sleeve"`)
	require.Contains(t, told, "turns about")
}
