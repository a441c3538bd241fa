package solve_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/solve"
)

// A lever at the origin, of length a, pulls an arm at (c, 0), of length b, through a
// rod of length l, until arm and rod lie in line: D = l + b, with D the distance of the
// lever's eye from the arm's pivot. By the law of cosines the arm stands at an angle
// beta to that line with
//
//	cos beta = (D^2 + b^2 - l^2) / (2 D b),
//
// so it stops with an infinite rate: no largest ratio. The travel of its eye along the
// arm as it then stands goes as cos beta, and its rate has a limit, l/D dD/dphi, that it
// comes nearer to without end.
func TestRatioAtAToggleIsInfiniteOnlyWhereItIs(t *testing.T) {
	const a, b, c, l = 60.0, 40.0, 160.0, 95.0
	eye := func(phi float64) (x, y float64) { sin, cos := math.Sincos(phi); return -a * sin, a * cos } // up as drawn
	distance := func(phi float64) float64 { x, y := eye(phi); return math.Hypot(c-x, y) }
	// The arm as drawn, its eye above the line to the lever's.
	direction := func(phi float64) float64 {
		x, y := eye(phi)
		d := distance(phi)
		return math.Atan2(y, x-c) - math.Acos((d*d+b*b-l*l)/(2*d*b))
	}
	toggle := bisect(func(phi float64) float64 { return distance(phi) - (l + b) }, -1, 1)
	drawn := direction(start(toggle))
	sin, cos := math.Sincos(drawn)
	x, y := eye(start(toggle))
	xt, yt := eye(toggle)
	dt := distance(toggle)
	ux, uy := (xt-c)/dt, yt/dt // along the arm where it locks
	text := fmt.Sprintf(`
run "Lock" { units = "mm" }
part "lever" {
  pivot  = [0, 0]
  points = { eye = [%.17g, %.17g] }
}
part "arm" {
  pivot  = [%g, 0]
  points = { eye = [%.17g, %.17g] }
}
rod "link" {
  from   = lever.eye
  to     = arm.eye
  length = %g
}
control "hand" {
  of   = lever
  from = -60
  to   = 60
}
output "turns" { of = arm }
output "goes" {
  of    = arm.eye
  along = [%.17g, %.17g]
}
`, x, y, c, c+b*cos, b*sin, l, ux, uy)
	_, s := sweepOf(t, text)
	require.Equal(t, solve.ByToggle, s.Ends[1].Cause)
	assert.InDelta(t, 0.3*180/math.Pi, s.Ends[1].At, 1e-6)

	assert.Nil(t, s.Outputs[0].Ratio.Most, "it locks")
	most := s.Outputs[1].Ratio.Most
	require.NotNil(t, most, "it goes on to a limit")
	const step = 1e-6
	limit := l / dt * (distance(toggle+step) - distance(toggle-step)) / (2 * step) * math.Pi / 180
	// Largest over the travel: of the closed form by differences, and its limit.
	travel := func(phi float64) float64 { d := direction(phi); return b*math.Cos(d)*ux + b*math.Sin(d)*uy }
	want := math.Abs(limit)
	low, high := start(toggle)+s.Low*math.Pi/180, start(toggle)+s.High*math.Pi/180
	const many = 20000
	for i := 1; i < many; i++ {
		phi := low + (high-low)*float64(i)/many
		if near := math.Min(phi-low, high-phi); near > 10*step {
			want = math.Max(want, math.Abs((travel(phi+step)-travel(phi-step))/(2*step)*math.Pi/180))
		}
	}
	assert.InDelta(t, want, math.Abs(*most), 2e-4*want)
	assert.InDelta(t, math.Abs(limit), want, 1e-3*want, "the limit is the largest here, as what is tested needs")
}

// start is where the lever of that test is drawn: so far before it locks.
func start(toggle float64) float64 { return toggle - 0.3 }
