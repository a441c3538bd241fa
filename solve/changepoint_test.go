package solve_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/solve"
)

// parallel is a parallelogram with arms of 40, drawn along [1, 0], its pivots
// apart in the direction in degrees: it lies flat there.
func parallel(name string, apart, degrees float64) (body, bar) {
	pivot := polar(apart, degrees)
	return hinge(name, pivot, spot{"q", pivot.Add(at(40, 0))}), bar{name: "l" + name, from: "crank.p", to: name + ".q"}
}

var parallelCrank = hinge("crank", at(0, 0), spot{"p", at(40, 0)})

// TestFlatBetweenSamples: the change point is where the arms lie flat, also
// where no sample step ends there, and what is in hand before it is judged so.
func TestFlatBetweenSamples(t *testing.T) {
	for _, flat := range []float64{30.1, 30.2, 41.7} {
		b, l := parallel("b", 100, flat)
		d := drawing{bodies: []body{parallelCrank, b}, bars: []bar{l}}.with(
			control("crank", -20, 60),
			fmt.Sprintf("stop \"s\" {\n  of = crank\n  at = %s - 5\n}\n", num(flat)),
			demand("over-center", "least = 5"),
			demand("sense", "of = [crank, b]\n  turns = \"same\""),
		)
		result := check(t, d.text())
		assert.Equal(t, solve.Holds, result.Verdict, "flat at %v", flat)
		s := result.Sweeps[0]
		require.Len(t, s.Critical, 1, "flat at %v", flat)
		c := s.Critical[0]
		assert.Equal(t, solve.ChangePoint, c.Kind)
		nearf(t, flat, c.At, 1e-9, "flat")
		nearf(t, 5, c.Margin, 1e-9, "flat at %v: in hand", flat)
		nearf(t, s.High, partOf(t, s, "b").AtHigh, 1e-9, "flat at %v: they turn as one", flat)

		short := check(t, replaceOnce(t, d.text(), "least = 5", "least = 5.000001"))
		assert.Equal(t, solve.FallsShort, short.Verdict, "flat at %v: a millionth more than there is", flat)
	}
}

// TestTwoFlatsCloseTogether: of two parallelograms the first to lie flat ends
// the travel, though the other follows within the same sample step.
func TestTwoFlatsCloseTogether(t *testing.T) {
	a, la := parallel("a", 100, 30.2)
	b, lb := parallel("b", 120, 30.1)
	for _, d := range []drawing{
		{bodies: []body{parallelCrank, a, b}, bars: []bar{la, lb}},
		{bodies: []body{parallelCrank, b, a}, bars: []bar{lb, la}},
	} {
		_, s := sweepOf(t, d.with(control("crank", -20, 60)).text())
		assert.Equal(t, solve.ByChangePoint, s.Ends[1].Cause)
		require.NotNil(t, s.Ends[1].Part)
		assert.Equal(t, "b", s.Ends[1].Part.Name)
		near(t, 30.1, s.High, 1e-9, "flat")
		require.Len(t, s.Critical, 1)
		assert.Equal(t, "lb", s.Critical[0].Rod.Name)
	}
}
