package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage/hunt"
	"fullfree/solve"
)

// sixRods is a plate on six rods (a Stewart platform), 100 wide: places of the base and of
// the plate as it really stands.
type sixRods struct{ base, plate [6]vec }

func newSixRods() (s sixRods) {
	for i := range 6 {
		side := float64(i%2*2 - 1)
		b, p := polar(100, float64(i/2*120)+side*18), polar(70, float64(i/2*120)+side*42)
		s.base[i], s.plate[i] = at3(b.X, 0, b.Y), at3(p.X, 90, p.Y)
	}
	return s
}

// displaced is a place of the plate when it is turned about its middle and shifted.
func displaced(p, turn, shift vec) vec {
	middle := at(0, 90)
	p = p.Sub(middle)
	if angle := turn.Norm(); angle > 0 {
		p = rotate(p, turn.Unit(), deg(angle))
	}
	return p.Add(middle).Add(shift)
}

// file draws the plate displaced, with its rods set as long as they are when it isn't. The
// first rod stands on a slide that is the control.
func (s sixRods) file(turn, shift vec) string {
	var b strings.Builder
	b.WriteString("run \"six rods\" {\n  units = \"mm\"\n}\n")
	fmt.Fprintf(&b, "part \"foot\" {\n  slide = [0, 1]\n  points = { p = %s }\n}\n", write(s.base[0]))
	b.WriteString("fixed \"base\" {\n  points = {\n")
	for i, p := range s.base[1:] {
		fmt.Fprintf(&b, "    p%d = %s\n", i+1, write(p))
	}
	b.WriteString("  }\n}\npart \"plate\" {\n  floats = \"space\"\n  points = {\n")
	for i, p := range s.plate {
		fmt.Fprintf(&b, "    p%d = %s\n", i, write(displaced(p, turn, shift)))
	}
	b.WriteString("  }\n}\n")
	for i := range s.base {
		from := fmt.Sprintf("base.p%d", i)
		if i == 0 {
			from = "foot.p"
		}
		fmt.Fprintf(&b, "rod \"r%d\" {\n  from = %s\n  to = plate.p%d\n  length = %s\n}\n", i, from, i, num(distance(s.base[i], s.plate[i])))
	}
	b.WriteString("control \"c\" {\n  of = foot\n  from = -5\n  to = 5\n}\noutput \"lean\" {\n  of = plate\n  tilts = [1, 0, 0]\n}\n")
	return b.String()
}

// The lengths of six rods that hold a plate are reckoned from where it stands; drawn a tenth of
// its size away and turned by a tenth of a radian, it is found where they put it (own derivation:
// lengths are distances of places).
func TestHuntStewart(t *testing.T) {
	s := newSixRods()
	hunt.Each(t, 20, func(t *testing.T, random *rand.Rand) {
		shift := at3(random.NormFloat64(), random.NormFloat64(), random.NormFloat64()).Unit().Scale(10)
		turn := at3(random.NormFloat64(), random.NormFloat64(), random.NormFloat64()).Unit().Scale(0.1)
		run := read(t, s.file(turn, shift))
		m, err := solve.Compile(run)
		require.NoError(t, err)
		result, err := m.Check()
		require.NoError(t, err)
		sweep := result.Sweeps[0]
		pose := solveAt(t, sweep, 0)
		for i, want := range s.plate {
			got := pose.Point(pointNamed(t, run, fmt.Sprintf("plate.p%d", i)))
			near(t, 0, distance(got, want), 1e-10, fmt.Sprintf("turned %v, shifted %v", turn, shift))
		}
		// As the foot goes the rods hold their length.
		for x := sweep.Low; x <= sweep.High; x += (sweep.High - sweep.Low) / 4 {
			pose := solveAt(t, sweep, x)
			for i := range s.plate {
				from := s.base[i]
				if i == 0 {
					from.Y += x
				}
				got := distance(from, pose.Point(pointNamed(t, run, fmt.Sprintf("plate.p%d", i))))
				near(t, distance(s.base[i], s.plate[i]), got, 1e-12*run.Size(), "length")
			}
		}
		// The plate's own three numbers say how it moved from as drawn: its middle, and by the
		// rotation from as drawn to as it stands.
		x, y, z := partOf(t, sweep, "plate.x"), partOf(t, sweep, "plate.y"), partOf(t, sweep, "plate.z")
		near(t, 0, distance(at3(x.Neutral, y.Neutral, z.Neutral), shift.Scale(-1)), 1e-10, "the plate's middle")
		up := rotate(at(0, 1), turn.Unit(), -deg(turn.Norm()))
		near(t, deg(math.Asin(up.X)), partOf(t, sweep, "plate.tilt-x").Neutral, 1e-10, "tilt")
		near(t, deg(math.Asin(up.Z)), partOf(t, sweep, "plate.tilt-z").Neutral, 1e-10, "tilt")
		half := turn.Scale(-0.5 / turn.Norm() * 2 * math.Sin(turn.Norm()/2))
		near(t, deg(2*math.Atan2(half.Y, math.Cos(turn.Norm()/2))), partOf(t, sweep, "plate.turn").Neutral, 1e-10, "turn")
	})
}
