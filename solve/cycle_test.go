package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage/hunt"
	"fullfree/solve"
)

// crankSlider is a crank that goes all the way round and pushes a block along x by a rod,
// with the travel of its pin along x as another output: a scotch yoke reads that.
func crankSlider(crank, rod, begin float64) string {
	return fmt.Sprintf(`run "Engine" {
  units = "mm"
}
part "crank" {
  pivot = [0, 0]
  arms  = { pin = polar(%[1]v, %[3]v) }
}
part "block" {
  slide  = [1, 0]
  points = { pin = [%[4]v, 0] }
}
rod "rod" {
  from = crank.pin
  to   = block.pin
}
control "turns" {
  of   = crank
  from = -180
  to   = 180
}
output "stroke" {
  of = block
}
output "yoke" {
  of    = crank.pin
  along = [1, 0]
}
output "wheel" {
  of = crank
}
`, crank, rod, begin, crank*math.Cos(begin*math.Pi/180)+math.Sqrt(rod*rod-math.Pow(crank*math.Sin(begin*math.Pi/180), 2)))
}

// ellipticE is the complete elliptic integral of the second kind of parameter m, by the
// arithmetic-geometric mean (Abramowitz and Stegun, 17.6.3 and 17.6.4).
func ellipticE(m float64) float64 {
	a, b, c := 1.0, math.Sqrt(1-m), math.Sqrt(m)
	sum, power := c*c/2, 0.5
	for range 40 {
		a, b, c = (a+b)/2, math.Sqrt(a*b), (a-b)/2
		power *= 2
		sum += power * c * c
	}
	return math.Pi / (2 * a) * (1 - sum)
}

// The block stands at r cos t + sqrt(l^2 - r^2 sin^2 t). The root has half the period, so
// that the first harmonic is r cos t alone, and its mean over the turn is 2/pi l E(r^2/l^2);
// what is left is the most of the root's departure, at the ends of the stroke or half way.
func TestHuntACrankAndSliderAroundATurn(t *testing.T) {
	hunt.Each(t, 20, func(t *testing.T, random *rand.Rand) {
		crank := 20 + 60*random.Float64()
		rod := crank * (1.02 + 3*random.Float64())
		begin := 360*random.Float64() - 180
		_, w := sweepOf(t, crankSlider(crank, rod, begin))
		require.True(t, w.GoesRound())
		a := begin * math.Pi / 180
		root := math.Sqrt(rod*rod - math.Pow(crank*math.Sin(a), 2))
		mean := 2 / math.Pi * rod * ellipticE(crank*crank/(rod*rod))
		block := w.Outputs[0].Cycle
		require.NotNil(t, block, "crank %v rod %v begin %v", crank, rod, begin)
		assert.InDelta(t, mean-crank*math.Cos(a)-root, block.Mean, 1e-9)
		assert.InDelta(t, crank, block.Amplitude, 1e-9)
		assert.InDelta(t, crank*math.Cos(a), block.Cosine, 1e-9)
		assert.InDelta(t, -crank*math.Sin(a), block.Sine, 1e-9)
		assert.InDelta(t, math.Max(rod-mean, mean-math.Sqrt(rod*rod-crank*crank)), block.Residue, 1e-9)
		require.NotNil(t, block.MostAt)
		apart := math.Mod(*block.MostAt+begin, 360)
		assert.InDelta(t, 0, math.Min(math.Abs(apart), 360-math.Abs(apart)), 1e-7)

		yoke := w.Outputs[1].Cycle
		require.NotNil(t, yoke)
		assert.InDelta(t, -crank*math.Cos(a), yoke.Mean, 1e-9)
		assert.InDelta(t, crank, yoke.Amplitude, 1e-9)
		assert.InDelta(t, 0, yoke.Residue, 1e-9)

		assert.Nil(t, w.Outputs[2].Cycle, "a crank that turns on doesn't come round again")
	})
}

func TestNoCycleWithoutAFullTurn(t *testing.T) {
	text := crankSlider(30, 90, 20)
	_, w := sweepOf(t, text+"stop \"short\" {\n  of = crank\n  at = 179.9\n}\n")
	assert.False(t, w.GoesRound())
	assert.Nil(t, w.Outputs[0].Cycle)
	var none *solve.Sweep
	assert.False(t, none.GoesRound())
}
