package solve_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// cardanFile is a universal joint: two shafts that cross at an angle, and a cross of which
// one arm lies in the fork of each. The arm of the driving shaft is drawn square to both shafts.
func cardanFile(bend float64, cross, joints string) string {
	s, c := math.Sincos(rad(bend))
	v := strings.NewReplacer("OUT", write(at3(c, 0, s)), "ARM", write(at3(-20*s, 0, 20*c)), "END", write(at3(20*s, 0, -20*c)))
	return v.Replace(`run "cardan" {
  units = "mm"
}
part "driving" {
  pivot  = [0, 0, 0]
  axis   = [1, 0, 0]
  points = { ear = [0, 20, 0], other = [0, -20, 0], middle = [0, 0, 0] }
}
part "driven" {
  pivot  = [0, 0, 0]
  axis   = OUT
  points = { ear = ARM, other = END, middle = [0, 0, 0] }
}
part "cross" {
` + cross + `
  points = { a = [0, 20, 0], b = [0, -20, 0], c = ARM, d = END }
}
` + joints + `
control "shaft" {
  of   = driving
  from = -180
  to   = 180
}
output "angle" {
  of = driven
}
`)
}

// tan b = tan a cos(bend), where the driving arm starts square to both shafts (textbook, from
// memory), however the cross is held: on a hinge of either shaft, on a ball where the shafts
// cross, or by joints alone.
func TestCardanAllRound(t *testing.T) {
	joint := func(name, a, b string) string {
		return fmt.Sprintf("joint %q {\n  of = [%s, %s]\n}\n", name, a, b)
	}
	for name, cross := range map[string][2]string{
		"hinge on the driving shaft": {"  pivot = driving.middle\n  axis = [0, 1, 0]", joint("j", "driven.ear", "cross.c")},
		"hinge on the driven shaft":  {"  pivot = driven.middle\n  axis = ARM", joint("j", "driving.ear", "cross.a")},
		"ball":                       {"  ball = [0, 0, 0]", joint("j", "driving.ear", "cross.a") + joint("k", "driven.ear", "cross.c")},
		"ball on a shaft":            {"  ball = driving.middle", joint("j", "driving.ear", "cross.a") + joint("k", "driven.ear", "cross.c")},
		"joints alone":               {"  floats = \"space\"", joint("j", "driving.ear", "cross.a") + joint("k", "driven.ear", "cross.c")},
	} {
		for _, bend := range []float64{0.5, 20, 45, 70, 85} {
			run, sweep := sweepOf(t, cardanFile(bend, cross[0], cross[1]))
			about := fmt.Sprintf("%s, bent %v", name, bend)
			require.Equal(t, [2]float64{-180, 180}, [2]float64{sweep.Low, sweep.High}, about)
			require.Empty(t, sweep.Critical, about)
			require.False(t, sweep.Lost, about)
			c := math.Cos(rad(bend))
			for x := -180.0; x <= 180; x += 11.25 {
				s, k := math.Sincos(rad(x))
				want := turnTo(deg(math.Atan2(s*c, k)), x)
				near(t, want, solveAt(t, sweep, x).Reading(run.Outputs[0]), exact, about)
			}
			// db/da goes from cos(bend), as drawn, to 1 over that a quarter turn on.
			ratio := outputOf(t, sweep, "angle").Ratio
			nearAt(t, c, ratio.Neutral, 1e-9, about)
			least, most := math.Min(c, 1/c), math.Max(c, 1/c)
			nearAt(t, least, ratio.Least, 1e-9*most, about)
			nearAt(t, most, ratio.Most, 1e-9*most, about)
		}
	}
}

// A rod beside two joints holds nothing more than they do, and is told so; no verdict is made of it.
func TestCardanRodTooMany(t *testing.T) {
	told := refusal(t, cardanFile(30, "  floats = \"space\"", `joint "ja" {
  of = [driving.ear, cross.a]
}
joint "jc" {
  of = [driven.ear, cross.c]
}
rod "rb" {
  from = driving.other
  to   = cross.c
}`))
	require.Contains(t, told, `"rb"`)
	require.Contains(t, told, "close the same loop")
}
