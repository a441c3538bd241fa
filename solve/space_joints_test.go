package solve_test

import (
	"math"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A rod and a part joined at both its ends are the same, whether the part may move in space
// or in the plane of the drawing: its ends, its critical points, its readings and ratios.
func TestJointsAgainstRod(t *testing.T) {
	for name, texts := range map[string][2]string{
		"in plane": {barText(barAsRod), barText(barInPlane)}, "in space": {barText(barAsRod), barText(barInSpace)},
		"flat in plane": {flat(barText(barAsRod)), flat(barText(barInPlane))}, "flat in space": {flat(barText(barAsRod)), flat(barText(barInSpace))},
	} {
		t.Run(name, func(t *testing.T) {
			run, rod := sweepOf(t, texts[0])
			other, got := sweepOf(t, texts[1])
			assert.InDelta(t, rod.Low, got.Low, 1e-9)
			assert.InDelta(t, rod.High, got.High, 1e-9)
			for i := range rod.Ends {
				assert.Equal(t, rod.Ends[i].Cause, got.Ends[i].Cause)
			}
			assert.False(t, got.Lost)
			if assert.Len(t, got.Critical, len(rod.Critical)) {
				for i, c := range rod.Critical {
					assert.Equal(t, c.Kind, got.Critical[i].Kind)
					assert.InDelta(t, c.At, got.Critical[i].At, 1e-9)
				}
			}
			for share := 0.0; share <= 1; share += 1.0 / 16 {
				x := rod.Low + share*(rod.High-rod.Low)
				a, ok := rod.At(x)
				require.True(t, ok)
				b, ok := got.At(x)
				require.True(t, ok)
				near := 1e-9
				if share == 0 || share == 1 {
					near = 1e-4 // where it ends on center an angle is known to the root of rounding
				}
				assert.InDelta(t, a.Reading(run.Outputs[0]), b.Reading(other.Outputs[0]), near, "at %v", x)
			}
			assert.InDelta(t, *rod.Outputs[0].Ratio.Neutral, *got.Outputs[0].Ratio.Neutral, 1e-9)
		})
	}
}

// A universal joint turns its shaft by tan a = tan b cos(bend), where the arm of its cross
// that the driven shaft holds stands square to both shafts as drawn (textbook, from memory). The
// cross may be a hinge on the driving shaft, or on a ball where the shafts cross.
func TestCardan(t *testing.T) {
	for name, text := range map[string]string{"hinge": cardanText(crossOnShaft), "ball": cardanText(crossOnBall) + crossDriven} {
		run, w := sweepOf(t, text)
		assert.Equal(t, [2]float64{-180, 180}, [2]float64{w.Low, w.High}, name)
		assert.Empty(t, w.Critical, name)
		for x := -180.0; x <= 180; x += 7.5 {
			pose, ok := w.At(x)
			require.True(t, ok)
			b, a := pose.Reading(run.Outputs[0])*math.Pi/180, x*math.Pi/180
			assert.InDelta(t, math.Sin(a)*math.Cos(b), math.Sin(b)*math.Cos(a)*math.Cos(math.Pi/6), 1e-12, "%s at %v", name, x)
			assert.InDelta(t, x, b*180/math.Pi, 10, "%s at %v", name, x)
		}
	}
}

// A ring on a ball that nothing keeps from turning is told by name, with its motion and what is missing.
func TestLooseRingIsTold(t *testing.T) {
	loose := regexp.MustCompile(`(?s)rod "link" \{.*?\n\}\n`).ReplaceAllString(swashText, "")
	assert.Contains(t, refusal(t, loose), `"ring" is left loose with the controls held: it turns about the axis of "sleeve": an anti-rotation link or a rod that holds it is missing`)
}
