package find

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"fullfree/linkage"
	"fullfree/solve"
)

// valuesOf are the values of a setting by name.
func valuesOf(s *Setting) map[string]float64 {
	values := map[string]float64{}
	for i := range s.Values {
		values[s.Values[i].Name()] = s.Values[i].Is[0]
	}
	return values
}

// A four-bar whose follower is to stand at three angles where its crank does: F.
// Freudenstein, "Approximate synthesis of four-bar linkages", Trans. ASME 77, 1955. With a
// the crank, b the rod, c the follower, d between their pivots and both angles from the
// line of these, K1 cos(psi) - K2 cos(phi) + K3 = cos(phi - psi), where K1 = d/a, K2 = d/c
// and K3 = (a^2 - b^2 + c^2 + d^2) / 2ac: linear in the three, which three positions tell.
func TestThreePositionsAgainstFreudenstein(t *testing.T) {
	const d = 100.0
	for _, psi := range [][3]float64{{70, 90, 112}, {64, 90, 117}, {72, 90, 110.5}} {
		phi := [3]float64{60, 90, 120}
		matrix, right := mat.NewDense(3, 3, nil), mat.NewVecDense(3, nil)
		for i := range phi {
			p, q := phi[i]*math.Pi/180, psi[i]*math.Pi/180
			matrix.SetRow(i, []float64{math.Cos(q), -math.Cos(p), 1})
			right.SetVec(i, math.Cos(p-q))
		}
		var k mat.VecDense
		require.NoError(t, k.SolveVec(matrix, right))
		a, c := d/k.AtVec(0), d/k.AtVec(1)
		b := math.Sqrt(a*a + c*c + d*d - 2*a*c*k.AtVec(2))
		text := fmt.Sprintf(`run "Three positions" { units = "mm" }
part "crank" {
  pivot  = [0, 0]
  points = { pin = [0, %g] }
}
part "follower" {
  pivot  = [%g, 0]
  points = { pin = [%g, %g] }
}
rod "rod" {
  from   = crank.pin
  to     = follower.pin
  length = %g
}
control "hand" {
  of   = crank
  from = -32
  to   = 32
}
output "stands" { of = follower }
`, a*1.1, d, d, c*0.9, math.Hypot(d, a*1.1-c*0.9))
		for i := range phi {
			text += fmt.Sprintf("require \"reading\" \"%d\" {\n  of     = stands\n  at     = %g\n  wants  = %g\n  within = 0.5\n}\n", i, phi[i]-90, psi[i]-90)
		}
		m := mechanism(t, text, fmt.Sprintf("crank.pin.y=%g..%g", 0.7*a, 1.4*a), fmt.Sprintf("follower.pin.y=%g..%g", 0.7*c, 1.4*c), fmt.Sprintf("rod.length=%g..%g", 0.8*b, 1.4*b))
		found, err := Search(m, Options{})
		require.NoError(t, err)
		require.True(t, found.Found)
		best := &found.Settings[0]
		require.NotNil(t, best.Reserve)
		assert.Greater(t, *best.Reserve, 1-1e-4, "it passes through all three")
		values := valuesOf(best)
		assert.InEpsilon(t, a, values["crank.pin.y"], 1e-4, "%v", psi)
		assert.InEpsilon(t, c, values["follower.pin.y"], 1e-4, "%v", psi)
		assert.InEpsilon(t, b, values["rod.length"], 1e-4, "%v", psi)
		assert.False(t, found.Searched.Complete)
	}
}

// Two levers turn as one only where arms and rods make a parallelogram: it is found from
// wherever they are filed.
func TestParallelogramFromWrongStarts(t *testing.T) {
	for _, wrong := range []struct{ arm, length float64 }{{50, 103}, {72, 96}, {61, 109}, {45, 92}} {
		m := mechanism(t, fmt.Sprintf(`run "Two levers" { units = "mm" }
part "one" {
  pivot  = [0, 0]
  points = { pin = [0, 60] }
}
part "other" {
  pivot  = [100, 0]
  points = { pin = [100, %g] }
}
rod "rod" {
  from   = one.pin
  to     = other.pin
  length = %g
}
control "hand" {
  of   = one
  from = -40
  to   = 40
}
require "together" {
  of     = [one, other]
  within = 0.5
}
`, wrong.arm, wrong.length), "other.pin.y=40..80", "rod.length=88..112")
		found, err := Search(m, Options{})
		require.NoError(t, err)
		require.True(t, found.Found, "%v", wrong)
		values := valuesOf(&found.Settings[0])
		assert.InDelta(t, 60, values["other.pin.y"], 1e-4, "%v", wrong)
		assert.InDelta(t, 100, values["rod.length"], 1e-4, "%v", wrong)
		assert.InDelta(t, 1, *found.Settings[0].Reserve, 1e-6)
	}
}

// A crank of radius r with a rod of length l to a slide in line with its pivot goes from
// l - r to l + r: the radius for a stroke is half of it, by hand.
func TestStrokeOfASlider(t *testing.T) {
	const l, r = 100.0, 35.0
	at := math.Sqrt(l*l - 30*30)
	m := mechanism(t, fmt.Sprintf(`run "Slider" { units = "mm" }
part "crank" {
  pivot  = [0, 0]
  points = { pin = [0, 30] }
}
part "plunger" {
  slide  = [1, 0]
  points = { eye = [%.12f, 0] }
}
rod "rod" {
  from   = crank.pin
  to     = plunger.eye
  length = %g
}
control "hand" {
  of   = crank
  from = -120
  to   = 120
}
output "stroke" {
  of    = plunger.eye
  along = [1, 0]
}
require "travel" {
  of     = stroke
  low    = %.12f
  high   = %.12f
  within = 1
}
`, at, l, l-r-at, l+r-at), "crank.pin.y=20..60")
	found, err := Search(m, Options{})
	require.NoError(t, err)
	require.True(t, found.Found)
	assert.InDelta(t, r, valuesOf(&found.Settings[0])["crank.pin.y"], 1e-6)
}

// What takes no mechanism takes none.
func TestNothingToSearch(t *testing.T) {
	_, err := Search(nil, Options{})
	require.Error(t, err)
	_, err = Search(&solve.Mechanism{}, Options{})
	require.Error(t, err)
	_, err = Alone(nil, nil)
	require.Error(t, err)
	m := mechanism(t, demo(t, "pedals"))
	_, err = Search(m, Options{})
	assert.ErrorContains(t, err, "nothing varies")
}

// What is put together by hand may lack anything; what there is no room for is told.
func TestVariesByHand(t *testing.T) {
	m := mechanism(t, demo(t, "pedals"), "rocker.upper.x=280..300:0.000000001", "left-link.length=290..300:0.0000001")
	found, err := Search(m, Options{})
	require.NoError(t, err)
	assert.False(t, found.Searched.Complete)
	assert.Greater(t, found.Searched.Combinations, 1e17)
	n := m.Run().Varies[0].Numbers[0]
	for _, v := range []*linkage.Vary{
		nil, {}, {Numbers: []linkage.Number{n}}, {Numbers: []linkage.Number{n}, Low: 1, High: math.Inf(1)}, {Numbers: []linkage.Number{n}, Among: [][]float64{{1, 2}}},
		{Numbers: []linkage.Number{n, n}, Low: 1, High: 2}, {Numbers: []linkage.Number{n}, Low: math.NaN(), High: 2}, {Numbers: []linkage.Number{n}, Low: 1, High: 2, Step: math.NaN()},
	} {
		_, err := Search(m, Options{Varies: []*linkage.Vary{v}})
		assert.ErrorContains(t, err, "nothing varies")
	}
	_, err = Search(m, Options{Varies: []*linkage.Vary{{Numbers: make([]linkage.Number, 1), Low: 1, High: 2}}})
	assert.Error(t, err, "a number of no run")
}
