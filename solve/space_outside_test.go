package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// turnedBy turns a place about a unit axis by an angle, radians (Rodrigues).
func turnedBy(p, axis vec, angle float64) vec {
	s, c := math.Sincos(angle)
	return p.Scale(c).Add(axis.Cross(p).Scale(s)).Add(axis.Scale(axis.Dot(p) * (1 - c)))
}

// placed is a place in HCL.
func placed(v vec) string { return fmt.Sprintf("[%.17g, %.17g, %.17g]", v.X, v.Y, v.Z) }

// Three actuators at 120 degrees under a rigid plate: for a height and a lean that are
// chosen, what each must be run out to follows in closed form from the length of its rod, and the
// solver, given those, finds the height and the lean (own derivation). The plate's small turn about the
// mast is what the anti-rotation link asks, found here by halving.
func TestThreeActuators(t *testing.T) {
	const radius, long, up = 80.0, 100.0, 100.0
	var b strings.Builder
	var low, high [3]vec
	b.WriteString("run \"plate\" {\n  units = \"mm\"\n}\nfixed \"frame\" {\n  points = { brace = [120, 100, -90] }\n}\n")
	b.WriteString("part \"sleeve\" {\n  slide = [0, 1, 0]\n  points = { center = [0, 100, 0] }\n}\n")
	for i := range 3 {
		s, c := math.Sincos(float64(i) * 2 * math.Pi / 3)
		low[i], high[i] = vec{X: radius * c, Z: radius * s}, vec{X: radius * c, Y: up, Z: radius * s}
		fmt.Fprintf(&b, "part \"ram%d\" {\n  slide = [0, 1, 0]\n  points = { top = %s }\n}\n", i, placed(low[i]))
	}
	fmt.Fprintf(&b, "part \"plate\" {\n  ball = sleeve.center\n  points = { p0 = %s, p1 = %s, p2 = %s, arm = [0, 100, -90] }\n}\n", placed(high[0]), placed(high[1]), placed(high[2]))
	for i := range 3 {
		fmt.Fprintf(&b, "rod \"rod%d\" {\n  from = ram%d.top\n  to = plate.p%d\n}\ncontrol \"c%d\" {\n  of = ram%d\n  from = -30\n  to = 30\n}\n", i, i, i, i, i)
	}
	b.WriteString("rod \"link\" {\n  from = frame.brace\n  to = plate.arm\n}\n")
	b.WriteString("output \"lean-x\" {\n  of = plate\n  tilts = [1, 0, 0]\n}\noutput \"lean-z\" {\n  of = plate\n  tilts = [0, 0, 1]\n}\n")
	run, m := compileText(t, b.String())
	center, brace, arm := vec{Y: up}, vec{X: 120, Y: up, Z: -90}, vec{Y: up, Z: -90}
	random := rand.New(rand.NewPCG(17, 1))
	for range 20 {
		h, lean, way := 10*random.NormFloat64(), 0.25*random.Float64(), 2*math.Pi*random.Float64()
		axis := vec{X: math.Cos(way), Z: math.Sin(way)}
		at := func(p vec, turn float64) vec {
			return turnedBy(turnedBy(p.Sub(center), vec{Y: 1}, turn), axis, lean).Add(center).Add(vec{Y: h})
		}
		lo, hi := -0.5, 0.5
		for range 100 {
			mid := (lo + hi) / 2
			if (at(arm, mid).Sub(brace).Norm() > 120) == (at(arm, lo).Sub(brace).Norm() > 120) {
				lo = mid
			} else {
				hi = mid
			}
		}
		var x [3]float64
		for i := range x {
			p := at(high[i], lo)
			aside := p.Sub(low[i])
			x[i] = p.Y - math.Sqrt(long*long-aside.X*aside.X-aside.Z*aside.Z)
		}
		if math.Max(math.Abs(x[0]), math.Max(math.Abs(x[1]), math.Abs(x[2]))) > 30 {
			continue
		}
		w, err := m.Sweep(run.Controls[0], []solve.Held{{Control: run.Controls[1], At: x[1]}, {Control: run.Controls[2], At: x[2]}})
		require.NoError(t, err)
		pose, ok := w.At(x[0])
		require.True(t, ok)
		normal := turnedBy(vec{Y: 1}, axis, lean)
		assert.InDelta(t, h, pose.Travel(run.Parts[1]), 1e-9)
		assert.InDelta(t, math.Asin(normal.X)*180/math.Pi, pose.Reading(run.Outputs[0]), 1e-9)
		assert.InDelta(t, math.Asin(normal.Z)*180/math.Pi, pose.Reading(run.Outputs[1]), 1e-9)
		for i := range 3 {
			assert.Less(t, pose.Point(run.Rods[i].To).Sub(at(high[i], lo)).Norm(), 1e-9)
			assert.InDelta(t, long, pose.Point(run.Rods[i].To).Sub(pose.Point(run.Rods[i].From)).Norm(), 1e-12*run.Size())
		}
	}
}

// hexapod is a plate loose in space on six rods as long as a pose asks, but drawn elsewhere.
func hexapod(random *rand.Rand, away float64) (text string, want []vec) {
	axis := vec{X: random.NormFloat64(), Y: random.NormFloat64(), Z: random.NormFloat64()}.Unit()
	turn, shift := away*(0.5+random.Float64()), vec{X: random.NormFloat64(), Y: random.NormFloat64(), Z: random.NormFloat64()}.Scale(away*50)
	var base, plate, rods strings.Builder
	for i := range 6 {
		// Two legs meet near each corner below, and the next two near each above.
		s, c := math.Sincos(float64((i+1)/2)*2*math.Pi/3 + 0.2*float64(i%2*2-1))
		below := vec{X: 120 * c, Z: 120 * s}
		s, c = math.Sincos(float64(i/2)*2*math.Pi/3 + math.Pi/3 + 0.2*float64(1-i%2*2))
		above := vec{X: 80 * c, Y: 110 + 5*random.NormFloat64(), Z: 80 * s}
		goal := turnedBy(above.Sub(vec{Y: 110}), axis, turn).Add(vec{Y: 110}).Add(shift)
		want = append(want, goal)
		fmt.Fprintf(&base, "    b%d = %s\n", i, placed(below))
		fmt.Fprintf(&plate, "    p%d = %s\n", i, placed(above))
		fmt.Fprintf(&rods, "rod \"leg%d\" {\n  from = base.b%d\n  to = plate.p%d\n  length = %.17g\n}\n", i, i, i, goal.Sub(below).Norm())
	}
	return fmt.Sprintf("run \"hexapod\" {\n  units = \"mm\"\n}\nfixed \"base\" {\n  points = {\n%s  }\n}\npart \"plate\" {\n  floats = \"space\"\n  points = {\n%s  }\n}\n%spart \"lever\" {\n  pivot = [500, 0]\n  points = { grip = [500, 50] }\n}\ncontrol \"hand\" {\n  of = lever\n  from = -5\n  to = 5\n}\n",
		base.String(), plate.String(), rods.String()), want
}

// A plate on six rods (Stewart platform), drawn about 10 % away from the pose that its rods' lengths
// were computed from, is found in that pose.
func TestHexapod(t *testing.T) {
	random := rand.New(rand.NewPCG(17, 2))
	for k := range 20 {
		text, want := hexapod(random, 0.1)
		run, w := sweepOf(t, text)
		pose, ok := w.At(0)
		require.True(t, ok)
		for i, p := range want {
			assert.Less(t, pose.Point(run.Rods[i].To).Sub(p).Norm(), 1e-9, "platform %d, leg %d", k, i)
			assert.InDelta(t, run.Rods[i].Length, pose.Point(run.Rods[i].To).Sub(pose.Point(run.Rods[i].From)).Norm(), 1e-12*run.Size())
		}
	}
}

// sphericalText is a spherical four-bar: every axis goes through the origin. coupler is a rod, or a part
// on a hinge of the crank and a joint.
func sphericalText(a, b vec, sides [4]float64, coupler string) string {
	return fmt.Sprintf(`run "spherical" {
  units = "mm"
}
part "crank" {
  pivot  = [0, 0, 0]
  axis   = [0, 0, 1]
  points = { tip = %s, middle = [0, 0, 0] }
}
part "rocker" {
  pivot  = [0, 0, 0]
  axis   = %s
  points = { tip = %s }
}
%s
control "hand" {
  of   = crank
  from = -100
  to   = 100
}
output "out" {
  of = rocker
}
`, placed(a), placed(vec{X: math.Sin(sides[0]), Z: math.Cos(sides[0])}), placed(b), coupler)
}

// A spherical four-bar goes by spherical trigonometry: two triangles on the diagonal (law of cosines for sides,
// textbook, from memory), whether its coupler is a rod or a part on a hinge and a joint.
func TestSphericalFourBar(t *testing.T) {
	sides := [4]float64{1.1, 0.5, 0.9, 0.8} // between the fixed axes, of the crank, of the coupler, of the rocker
	const radius, drawn = 100.0, 1.2
	rocker := func(theta float64) float64 {
		diagonal := math.Acos(math.Cos(sides[0])*math.Cos(sides[1]) + math.Sin(sides[0])*math.Sin(sides[1])*math.Cos(theta))
		near := math.Acos((math.Cos(sides[1]) - math.Cos(sides[0])*math.Cos(diagonal)) / (math.Sin(sides[0]) * math.Sin(diagonal)))
		far := math.Acos((math.Cos(sides[2]) - math.Cos(sides[3])*math.Cos(diagonal)) / (math.Sin(sides[3]) * math.Sin(diagonal)))
		return math.Copysign(near, math.Sin(theta)) + far
	}
	// The crank turns about z, from x; the rocker's angle is counted about its own axis from the arc to the crank's axis.
	fixed := vec{X: math.Sin(sides[0]), Z: math.Cos(sides[0])}
	crankTip := func(theta float64) vec {
		return vec{X: math.Sin(sides[1]) * math.Cos(theta), Y: math.Sin(sides[1]) * math.Sin(theta), Z: math.Cos(sides[1])}.Scale(radius)
	}
	rockerTip := func(psi float64) vec {
		toCrank := vec{Z: 1}.Sub(fixed.Scale(fixed.Z)).Unit()
		side := vec{Y: 1}
		return fixed.Scale(math.Cos(sides[3])).Add(toCrank.Scale(math.Sin(sides[3]) * math.Cos(psi))).Add(side.Scale(math.Sin(sides[3]) * math.Sin(psi))).Scale(radius)
	}
	a, b := crankTip(drawn), rockerTip(rocker(drawn))
	require.InDelta(t, math.Cos(sides[2]), a.Dot(b)/radius/radius, 1e-12)
	asPart := fmt.Sprintf("part \"coupler\" {\n  pivot = crank.middle\n  axis = %s\n  points = { tip = %s }\n}\njoint \"end\" {\n  of = [coupler.tip, rocker.tip]\n}\n", placed(a.Unit()), placed(b))
	for name, coupler := range map[string]string{"rod": "rod \"coupler\" {\n  from = crank.tip\n  to = rocker.tip\n}", "part": asPart} {
		t.Run(name, func(t *testing.T) {
			run, w := sweepOf(t, sphericalText(a, b, sides, coupler))
			sign := math.Copysign(1, vec{Z: 1}.Sub(fixed.Scale(fixed.Z)).Cross(vec{Y: 1}).Dot(fixed)) // which way it counts
			for share := 0.02; share < 1; share += 0.06 {
				x := w.Low + share*(w.High-w.Low)
				pose, ok := w.At(x)
				require.True(t, ok)
				want := sign * (rocker(drawn+x*math.Pi/180) - rocker(drawn)) * 180 / math.Pi
				assert.InDelta(t, 0, math.Remainder(want-pose.Reading(run.Outputs[0]), 360), 1e-9, "at %v", x)
			}
		})
	}
}

// A hinge, a rod between ball joints in space, and a hinge: the rocker's angle solves A cos t + B sin t = C, in the half
// angle u = tan t/2 a quadratic (textbook, from memory). The rod is a part here that is joined at both ends and spins
// idly about itself.
func TestRodPartInSpace(t *testing.T) {
	text := `run "in space" {
  units = "mm"
}
part "crank" {
  pivot  = [0, 0, 0]
  points = { pin = [5, 60, 10] }
}
part "rocker" {
  pivot  = [180, 20, -30]
  axis   = [0, 1, 0]
  points = { pin = [190, 25, 45] }
}
part "link" {
  floats = "space"
  points = { one = [5, 60, 10], two = [190, 25, 45] }
}
joint "near" {
  of = [crank.pin, link.one]
}
joint "far" {
  of = [link.two, rocker.pin]
}
control "hand" {
  of   = crank
  from = -60
  to   = 60
}
output "out" {
  of = rocker
}
`
	run, w := sweepOf(t, text)
	pivot, axis := vec{X: 180, Y: 20, Z: -30}, vec{Y: 1}
	drawn := vec{X: 190, Y: 25, Z: 45}
	pin := vec{X: 5, Y: 60, Z: 10}
	long := drawn.Sub(pin).Norm()
	last := 0.0
	for x := 0.0; x <= math.Min(w.High, 55); x += 5 {
		from := turnedBy(pin, vec{Z: 1}, x*math.Pi/180)
		arm, to := drawn.Sub(pivot), from.Sub(pivot)
		flat := arm.Sub(axis.Scale(axis.Dot(arm)))
		a, b := flat.Dot(to), axis.Cross(flat).Dot(to)
		c := (arm.Dot(arm)+to.Dot(to)-long*long)/2 - axis.Dot(arm)*axis.Dot(to)
		root := math.Sqrt(a*a + b*b - c*c)
		best := math.Inf(1)
		for _, sign := range []float64{-1, 1} {
			if t := 2 * math.Atan((b+sign*root)/(a+c)) * 180 / math.Pi; math.Abs(t-last) < math.Abs(best-last) {
				best = t
			}
		}
		pose, ok := w.At(x)
		require.True(t, ok)
		assert.InDelta(t, best, pose.Reading(run.Outputs[0]), 1e-9, "at %v", x)
		last = best
		for _, p := range run.Parts {
			if p.Motion == linkage.Roams {
				assert.InDelta(t, long, pose.Place(p, pin).Sub(pose.Place(p, drawn)).Norm(), 1e-12*run.Size())
				assert.Less(t, pose.Place(p, pin).Sub(from).Norm(), 1e-12*run.Size())
			}
		}
	}
}

// A Bennett linkage (four hinges in space whose twists and lengths are in proportion) moves though it has a freedom too
// few by count (textbook, from memory). It is told as held too much, never answered.
func TestBennettIsTold(t *testing.T) {
	// Sides a and b, twists with a/sin(alpha) = b/sin(beta); its hinges as axes in space, the last closed by two joints on one axis.
	const alpha, a = 0.6, 100.0
	beta := math.Asin(math.Sin(alpha) * 0.7)
	b := a * math.Sin(beta) / math.Sin(alpha)
	pivots := []vec{{}, {X: a}, {X: a + b*math.Cos(1.0), Y: b * math.Sin(1.0) * math.Cos(alpha), Z: b * math.Sin(1.0) * math.Sin(alpha)}}
	second := vec{Y: -math.Sin(alpha), Z: math.Cos(alpha)}
	text := fmt.Sprintf(`run "bennett" {
  units = "mm"
}
part "crank" {
  pivot  = [0, 0, 0]
  axis   = [0, 0, 1]
  points = { b = %s }
}
part "coupler" {
  pivot  = crank.b
  axis   = %s
  points = { one = %s, two = %s }
}
part "rocker" {
  pivot  = [10, 90, 0]
  axis   = [0, %.17g, %.17g]
  points = { one = %s, two = %s }
}
joint "upper" {
  of = [coupler.one, rocker.one]
}
joint "lower" {
  of = [coupler.two, rocker.two]
}
control "hand" {
  of   = crank
  from = -20
  to   = 20
}
`, placed(pivots[1]), placed(second), placed(pivots[2]), placed(pivots[2].Add(vec{X: 3, Y: 4, Z: 12})), math.Sin(beta), math.Cos(beta),
		placed(pivots[2]), placed(pivots[2].Add(vec{X: 3, Y: 4, Z: 12})))
	assert.Contains(t, refusal(t, text), `the joints "upper" and "lower" close the same loop`)
}
