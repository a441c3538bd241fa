package solve_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/solve"
)

// sphericalFourBar is a four-bar whose axes all go through one place: sides are angles.
type sphericalFourBar struct{ ground, crank, coupler, rocker float64 }

// rockerAt is the angle at the rocker's axis from the ground to the rocker, degrees, for that at
// the crank's from the ground to the crank: by the law of cosines of the triangle of crank,
// ground and diagonal, and that of diagonal, coupler and rocker (textbook spherical trigonometry,
// from memory). hand is on which side of the diagonal the rocker lies.
func (f sphericalFourBar) rockerAt(crank, hand float64) (angle float64, ok bool) {
	g, a, c, b := rad(f.ground), rad(f.crank), rad(f.coupler), rad(f.rocker)
	cosine := math.Cos(g)*math.Cos(a) + math.Sin(g)*math.Sin(a)*math.Cos(rad(crank))
	diagonal := math.Acos(cosine)
	// sin(first) sin(diagonal) and cos(first) sin(diagonal), by the laws of sines and cosines.
	first := math.Atan2(math.Sin(a)*math.Sin(rad(crank)), math.Sin(g)*math.Cos(a)-math.Cos(g)*math.Sin(a)*math.Cos(rad(crank)))
	second := (math.Cos(c) - math.Cos(b)*cosine) / (math.Sin(b) * math.Sin(diagonal))
	if math.Abs(second) > 1 {
		return 0, false
	}
	return deg(first + hand*math.Acos(second)), true
}

// onAxis is the direction at an arc from an axis in the plane of x and y, which stands at an
// angle from x, turned about that axis from the other side of that plane.
func onAxis(axis, arc, turn float64) vec {
	k := polar(1, axis)
	toward := polar(1, axis+90) // along the ground, towards the other axis
	return k.Scale(math.Cos(rad(arc))).Add(rotate(toward, k, turn).Scale(math.Sin(rad(arc))))
}

// file draws it with radius 100 and its axes in the plane of x and y: the crank's along x,
// the rocker's at the ground's angle from it.
func (f sphericalFourBar) file(crank, hand float64, coupler string) string {
	rocker, _ := f.rockerAt(crank, hand)
	p := onAxis(0, f.crank, crank).Scale(100)
	// From the rocker's axis the ground leads the other way.
	k := polar(1, f.ground)
	q := k.Scale(math.Cos(rad(f.rocker))).Add(rotate(polar(1, f.ground-90), k, -rocker).Scale(math.Sin(rad(f.rocker)))).Scale(100)
	v := strings.NewReplacer("P1", write(p), "P2", write(q), "AXIS1", write(at(1, 0)), "AXIS2", write(k))
	return v.Replace(`run "spherical" {
  units = "mm"
}
part "crank" {
  pivot  = [0, 0, 0]
  axis   = AXIS1
  points = { pin = P1 }
}
part "rocker" {
  pivot  = [0, 0, 0]
  axis   = AXIS2
  points = { pin = P2 }
}
` + coupler + `
control "hand" {
  of   = crank
  from = -360
  to   = 360
}
output "angle" {
  of = rocker
}
`)
}

func TestSphericalFourBarsTurn(t *testing.T) {
	couplers := map[string]string{
		"rod":  "rod \"coupler\" {\n  from = crank.pin\n  to = rocker.pin\n}\n",
		"ball": "part \"coupler\" {\n  ball = [0, 0, 0]\n  points = { a = P1, b = P2 }\n}\njoint \"ja\" {\n  of = [crank.pin, coupler.a]\n}\njoint \"jb\" {\n  of = [coupler.b, rocker.pin]\n}\n",
		"hinge": "part \"coupler\" {\n  pivot = crank.pin\n  axis = P1\n  points = { b = P2 }\n}\n" +
			"joint \"jb\" {\n  of = [coupler.b, rocker.pin]\n}\n",
		"space": "part \"coupler\" {\n  floats = \"space\"\n  points = { a = P1, b = P2 }\n}\njoint \"ja\" {\n  of = [crank.pin, coupler.a]\n}\njoint \"jb\" {\n  of = [coupler.b, rocker.pin]\n}\n",
	}
	for _, c := range []struct {
		sphericalFourBar
		at, hand float64
	}{
		{sphericalFourBar{90, 25, 80, 70}, 60, 1}, {sphericalFourBar{60, 20, 55, 45}, 100, -1}, // cranks that go round
		{sphericalFourBar{50, 75, 40, 60}, 40, 1}, {sphericalFourBar{110, 60, 75, 50}, 50, 1}, // rockers
	} {
		f := c.sphericalFourBar
		drawn, ok := f.rockerAt(c.at, c.hand)
		require.True(t, ok)
		for name, coupler := range couplers {
			about := fmt.Sprintf("%+v %s", c, name)
			run, sweep := sweepOf(t, f.file(c.at, c.hand, coupler))
			require.False(t, sweep.Lost, about)
			// The rocker is drawn turned the other way about its axis: seen from the center the ground
			// leads back from it.
			for k := range 41 {
				x := sweep.Low + (sweep.High-sweep.Low)*float64(k)/40
				if x > sweep.Low+1e-6 && x < sweep.High-1e-6 { // at the ends themselves a rounding decides
					want, ok := f.rockerAt(c.at+x, c.hand)
					require.True(t, ok, "%s at %v", about, x)
					got := solveAt(t, sweep, x).Reading(run.Outputs[0])
					near(t, 0, math.Remainder(got-(drawn-want), 360), 1e-9, fmt.Sprintf("%s at %v", about, x))
				}
			}
			// Ends are where coupler and rocker lie in one great circle; the rocker turns back where crank and
			// coupler do.
			var dead int
			for _, critical := range ofParts(sweep.Critical) {
				var off float64
				if critical.Kind == solve.DeadCenter {
					off = f.nearestDeadCenter(critical.At + c.at)
					dead++
				} else {
					require.Equal(t, solve.Toggle, critical.Kind, about)
					off = f.nearestEnd(critical.At + c.at)
				}
				near(t, 0, off, 1e-9, about)
			}
			if sweep.High == 360 {
				require.Equal(t, 4, dead, about)
			} else {
				require.Equal(t, [2]solve.Cause{solve.ByToggle, solve.ByToggle}, [2]solve.Cause{sweep.Ends[0].Cause, sweep.Ends[1].Cause}, about)
			}
		}
	}
}

// between is the angle between two sides of a triangle whose third side is opposite, degrees,
// by the law of cosines; not a number where there is no such triangle.
func (f sphericalFourBar) between(one, other, opposite float64) float64 {
	one, other, opposite = rad(one), rad(other), rad(opposite)
	return deg(math.Acos((math.Cos(opposite) - math.Cos(one)*math.Cos(other)) / (math.Sin(one) * math.Sin(other))))
}

// nearestEnd is how far the crank is from where coupler and rocker lie in one great circle.
func (f sphericalFourBar) nearestEnd(crank float64) float64 {
	return nearestOf(crank, f.between(f.ground, f.crank, f.coupler+f.rocker), f.between(f.ground, f.crank, f.coupler-f.rocker))
}

// nearestDeadCenter is that from where crank and coupler do, on one side or on opposite ones.
func (f sphericalFourBar) nearestDeadCenter(crank float64) float64 {
	return nearestOf(crank, f.between(f.ground, f.crank+f.coupler, f.rocker), 180-f.between(f.ground, f.coupler-f.crank, f.rocker))
}

// nearestOf is how far an angle is from the nearest of others, to either side of the ground.
func nearestOf(angle float64, others ...float64) float64 {
	best := math.Inf(1)
	for _, other := range others {
		for _, side := range []float64{-1, 1} {
			if off := math.Abs(math.Remainder(angle-side*other, 360)); off < best {
				best = off
			}
		}
	}
	return best
}
