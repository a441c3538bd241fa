package demo_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// A single cable keeps what is outside its conduit at both ends together: turned by
// what is told, its holes do that.
func TestThrottleCableKeepsItsCore(t *testing.T) {
	r := check(t, text(t, "throttle-cable"))
	d := drawing{t, r.Run}
	s := r.Sweeps[0]
	outside := func(grip, carburetor float64) float64 {
		return d.turned("grip", d.point("grip.horn"), grip).Sub(d.point("frame.grip-bracket")).Norm() +
			d.turned("carburetor", d.point("carburetor.hole"), carburetor).Sub(d.point("frame.carb-bracket")).Norm()
	}
	arm := travel(t, s, "carburetor")
	drawn := outside(0, 0)
	assert.InDelta(t, drawn, outside(s.Low, arm.AtLow), tight)
	assert.InDelta(t, drawn, outside(s.High, arm.AtHigh), tight)
	assert.Equal(t, "full", s.Ends[0].Stop.Name)
	assert.Nil(t, s.Cables[0].Neutral, "the tension of a lone cable isn't known")
	assert.Equal(t, "carburetor", s.Cables[0].Part.Name)
}

// On the side to which the cable pulls, a spring keeps nothing taut.
func TestThrottleCableSpringMustPullAgainstIt(t *testing.T) {
	_, err := solve.Compile(read(t, text(t, "throttle-cable", `spring  = "plus"`, `spring  = "minus"`)))
	assert.ErrorContains(t, err, `nothing keeps the cable taut; where the spring returns it to the other side, say spring = "plus"`)
}

// The crosshead slides in line with both cores, so that equal tensions hold it:
// it stands where both are stretched alike, at half of what the lever takes from one
// conduit and gives to the other, and their mean is what draws both up.
func TestLiftCablesBalance(t *testing.T) {
	r := check(t, text(t, "lift-cables"))
	d := drawing{t, r.Run}
	s := r.Sweeps[0]
	pair := r.Run.Pairs[0]
	takes := func(x float64) (up, down float64) {
		leg := func(arm, bracket string) float64 {
			at := d.point("frame." + bracket)
			return d.turned("lever", d.point("lever."+arm), x).Sub(at).Norm() - d.point("lever."+arm).Sub(at).Norm()
		}
		return leg("aft", "aft"), leg("fwd", "fwd")
	}
	crosshead := travel(t, s, "crosshead")
	most := pair.Pretension
	for _, at := range []struct{ x, slid float64 }{{0, crosshead.Neutral}, {s.Low, crosshead.AtLow}, {s.High, crosshead.AtHigh}} {
		up, down := takes(at.x)
		assert.InDelta(t, (up-down)/2, at.slid, tight, "lever at %g", at.x)
		most = math.Max(most, pair.Pretension+pair.Cables[0].Stiffness*(up+down)/2)
	}
	assert.InDelta(t, pair.Pretension, *s.Cables[0].Neutral, 1e-8)
	assert.InDelta(t, most, *s.Cables[0].Most, 1e-8)
	assert.InDelta(t, most, *s.Cables[1].Most, 1e-8)
	assert.Nil(t, s.LostMotion)
}

// Quadrants turn as the inverse of their radii. Steel in a boom of 6061-T6 gains
// 7.4 lbf for each 10 degrees F (worked out by hand from the figures in
// linkage/wire_test.go, which has their sources), so cold takes the pretension away.
func TestPedalsCableInTheCold(t *testing.T) {
	r := check(t, text(t, "pedals-cable"))
	s := r.Sweeps[0]
	assert.InDelta(t, s.High*60/55, travel(t, s, "tail-quadrant").AtHigh, tight)
	assert.InDelta(t, 220, *s.Cables[0].Least, 1e-6)

	const newtons, fahrenheit = 4.4482216152605, 1.8
	for _, c := range []struct {
		celsius float64
		want    solve.Verdict
	}{{40, solve.Holds}, {-15, solve.FallsShort}, {-25, solve.FallsShort}} {
		run, err := solve.Temper(read(t, text(t, "pedals-cable")), c.celsius)
		require.NoError(t, err)
		r := judge(t, run)
		s := r.Sweeps[0]
		left := 220 + 0.74*newtons*fahrenheit*(c.celsius-15)
		assert.InDelta(t, math.Max(left, 0), *s.Cables[1].Least, 2, "at %g", c.celsius)
		assert.Equal(t, c.want, judged(t, r, linkage.Taut).Verdict)
		if left < 0 {
			require.NotNil(t, s.LostMotion)
			assert.Equal(t, "tail-quadrant", s.LostMotion.Part.Name)
			assert.Equal(t, [][2]float64{{s.Low, s.High}}, s.Cables[0].Slack)
		}
	}
}
