package solve_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// Metal of no thickness and metal that is small beside the run.

// gapAt returns the gap of a run's two features.
func gapAt(t *testing.T, run *linkage.Run, s *solve.Sweep, x float64, a, b string) float64 {
	t.Helper()
	gap, _, _, ok := solveAt(t, s, x).Gap(metalNamed(t, run, a), metalNamed(t, run, b))
	require.True(t, ok)
	return gap
}

// thinEdges is a lever of 100 whose edge meets another 3.37 above it; neither
// has any thickness.
const thinEdges = `
run "test" {
  units = "mm"
}
fixed "air" {
  edge "e" {
    through = [[50, 3.37], [150, 3.37]]
  }
}
part "lever" {
  pivot = [0, 0]
  edge "f" {
    through = [[0, 0], [100, 0]]
  }
}
control "hand" {
  of   = lever
  from = -40
  to   = 40
}
stop "s" {
  touch = [lever.f, air.e]
}
require "clearance" {
  between = [lever.f, air.e]
  least   = 0
}
`

// TestThinEdges: the lever's tip meets the edge, and what comes after is an
// overlap, not a gap again.
func TestThinEdges(t *testing.T) {
	result := check(t, thinEdges)
	assert.Equal(t, solve.Holds, result.Verdict, "they touch and no more")
	run, s := result.Run, result.Sweeps[0]
	meets := deg(math.Asin(3.37 / 100))
	near(t, 1.93123343, meets, 5e-9, "by hand")
	require.Equal(t, solve.ByStop, s.Ends[1].Cause)
	near(t, meets, s.High, 1e-9, "where the tip is as high as the edge")

	const h = 1e-4 // degrees: the gap is smooth short of where it touches
	slope := (gapAt(t, run, s, s.High-h, "lever.f", "air.e") - gapAt(t, run, s, s.High-2*h, "lever.f", "air.e")) / h
	nearAt(t, 1/math.Abs(slope), s.Ends[1].Wear, 1e-6, "degrees per mm, by differences")
	nearAt(t, 1/(100*math.Cos(rad(meets))*rad(1)), s.Ends[1].Wear, 1e-9, "degrees per mm, the tip's own speed")

	// The nearest of the lever's tip to the edge and the edge's near end to the
	// lever; and where they cross the shorter of the two ways out.
	tip := func(x float64) float64 { return 3.37 - 100*math.Sin(rad(x)) }
	corner := func(x float64) float64 { return 3.37*math.Cos(rad(x)) - 50*math.Sin(rad(x)) }
	for _, x := range []float64{-40, -10, 0, 1, 1.93} {
		nearf(t, math.Min(tip(x), corner(x)), gapAt(t, run, s, x, "lever.f", "air.e"), 1e-9, "gap at %v", x)
	}
	for _, x := range []float64{1.94, 2, 3, 3.8} {
		nearf(t, -math.Min(-tip(x), corner(x)), gapAt(t, run, s, x, "lever.f", "air.e"), 1e-9, "overlap at %v", x)
	}
}

// TestEdgesDrawnCrossed are refused: they overlap at neutral by the least way
// out, here 2 over the end of the lever.
func TestEdgesDrawnCrossed(t *testing.T) {
	told := refusal(t, replaceOnce(t, thinEdges, "[[50, 3.37], [150, 3.37]]", "[[98, -30], [98, 30]]"))
	assert.Regexp(t, `"s" is past contact at neutral, by 2 mm`, told)
}

// comb slides under a pin of the airframe at (20, 0); its near tooth, the point
// at (8, 1.5), meets it first. The datum lies far off, and makes the run large.
const comb = `
run "test" {
  units = "mm"
}
fixed "air" {
  points = { far = [5000, 0] }
  round "pin" {
    at     = [20, 0]
    radius = 2
  }
}
part "comb" {
  slide  = [1, 0]
  points = { e = [0, 0] }
  edge "teeth" {
    through = [[-12, 9], [-10, 1.5], [-8, 9], [6, 9], [8, 1.5], [10, 9], [14, 9]]
    thick   = 1
  }
}
control "hand" {
  of   = comb
  from = -5
  to   = 21
}
stop "s" {
  touch = [comb.teeth, air.pin]
}
`

// TestSmallMetalOnALargeRun isn't stepped over: the tooth's tip meets the pin
// where their middles are 2.5 apart, 2 along and 1.5 across.
func TestSmallMetalOnALargeRun(t *testing.T) {
	run, s := sweepOf(t, comb)
	require.Equal(t, solve.ByStop, s.Ends[1].Cause)
	near(t, 10, s.High, 1e-9, "the tip at (18, 1.5)")
	nearAt(t, 2.5/2, s.Ends[1].Wear, 1e-9, "mm per mm: the contact lies 3-4-5 to the slide")
	near(t, 0, gapAt(t, run, s, s.High, "comb.teeth", "air.pin"), 1e-9, "they touch")
	for i := range 101 {
		x := s.Low + (s.High-s.Low)*float64(i)/100
		assert.GreaterOrEqual(t, gapAt(t, run, s, x, "comb.teeth", "air.pin"), -1e-9, "before that they don't, at %v", x)
	}
}

// TestTooFarForItsMetal: where small metal would have to be looked for over a
// hundred meters the run is refused, and told what to change.
func TestTooFarForItsMetal(t *testing.T) {
	told := refusal(t, `
run "test" {
  units = "mm"
}
fixed "air" {
  round "pin" {
    at     = [333.3, 0]
    radius = 0.04
  }
}
part "comb" {
  slide  = [1, 0]
  points = { e = [0, 0] }
  edge "teeth" {
    through = [[0, 5], [1, 0.05], [2, 5], [3, 0.05], [4, 5]]
    thick   = 0.02
  }
}
control "hand" {
  of   = comb
  from = -100000
  to   = 100000
}
stop "s" {
  touch = [comb.teeth, air.pin]
}
`)
	assert.Contains(t, told, "test.hcl:22,")
	assert.Regexp(t, `"hand".*too far for metal as small as 0\.02 mm: give from and to nearer to its travel`, told)
}

// TestGrazingAtASample: a boss that just touches a tube in passing, where a
// sample step ends and where none does: wear there goes as a root, so no figure.
func TestGrazingAtASample(t *testing.T) {
	for _, angle := range []float64{10, 10.1, 25.25, 60} {
		_, s := sweepOf(t, drawing{bodies: []body{
			{name: "lever", pivot: ref(at(0, 0)), points: []spot{{"tip", at(0, 100)}}, metal: []metal{{"boss", []vec{at(0, 50)}, 8}}},
			{name: "airframe", fixed: true, metal: []metal{{"tube", []vec{polar(80, 90+angle)}, 22 + 1e-12}}},
		}}.with(control("lever", -90, 90), "stop \"brush\" {\n  touch = [lever.boss, airframe.tube]\n}\n").text())
		require.Equal(t, solve.ByStop, s.Ends[1].Cause, "at %v", angle)
		nearf(t, angle, s.High, 1e-3, "it is met about there")
		assert.Nil(t, s.Ends[1].Wear, "at %v", angle)
	}
}
