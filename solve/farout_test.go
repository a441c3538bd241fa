package solve_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/solve"
)

// TestDrawnFarOut: a run drawn a kilometer from its datum is the same as at
// it, to the digits that its dimensions keep there.
func TestDrawnFarOut(t *testing.T) {
	d := drawing{
		bodies: []body{
			hinge("crank", at(0, 0), spot{"p", at(20, 30)}),
			{name: "beam", points: []spot{{"a", at(60, 35)}, {"b", at(100, 40)}, {"c", at(80, 60)}}},
			{name: "air", fixed: true, points: []spot{{"g", at(105, -20)}, {"h", at(120, 90)}}},
		},
		bars: []bar{{name: "l1", from: "crank.p", to: "beam.a"}, {name: "l2", from: "air.g", to: "beam.b"}, {name: "l3", from: "air.h", to: "beam.c"}},
	}.with(control("crank", -60, 60), demand("rod-angle", "least = 1"))
	_, here := sweepOf(t, d.text())
	near(t, -52.70026, here.Low, 5e-6, "as computed at the datum")
	near(t, 15.29539, here.High, 5e-6, "as computed at the datum")

	for _, away := range []vec{at(999_800, -999_800), at(-999_000, 0), at(0, 1000)} {
		far := d.moved(motion{place: away.Add})
		result := check(t, far.text())
		assert.Equal(t, solve.FallsShort, result.Verdict, "flat at both ends")
		s := result.Sweeps[0]
		for i, end := range s.Ends {
			require.Equal(t, solve.ByToggle, end.Cause, "%v away", away)
			nearf(t, here.Ends[i].At, end.At, 1e-8, "%v away", away)
		}
		columns, rows := tableOf(t, s, 24)
		_, want := tableOf(t, here, 24)
		require.Len(t, rows, 25)
		for i := range rows[1:24] { // at the ends all goes as the root of what is left
			for j := range columns {
				nearf(t, want[i+1][j], rows[i+1][j], 1e-7, "%v away, row %d: %s", away, i+1, columns[j].Name)
			}
		}
	}
}
