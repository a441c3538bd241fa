package solve_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// rodsInARow is rods that each hang on the two before: whatever looks at both
// ends of each of them doubles its work with every one.
func rodsInARow(n int) string {
	d := drawing{}
	for i := range 4 {
		d.bodies = append(d.bodies, hinge(fmt.Sprintf("u%d", i), at(float64(20*i), 0), spot{"a", at(float64(20*i), 50)}))
	}
	for i := range n {
		r := bar{name: fmt.Sprintf("r%d", i), from: "u0.a", to: "u1.a", points: []spot{{"m", at(float64(10+37*i%90), float64(60+i))}}}
		switch {
		case i == 1:
			r.from, r.to = "u2.a", "u3.a"
		case i > 1:
			r.from, r.to = fmt.Sprintf("r%d.m", i-2), fmt.Sprintf("r%d.m", i-1)
		}
		d.bars = append(d.bars, r)
	}
	return d.with(control("u0", -5, 5)).text()
}

// TestRodsHungInARow: the first that hangs too deep is told, before any work
// that grows with the depth. Twenty in a row end soon in any case, and say
// whether sixty would.
func TestRodsHungInARow(t *testing.T) {
	for _, n := range []int{20, 60} {
		require.Contains(t, refusal(t, rodsInARow(n)), `the rod "r9" hangs on a rod that hangs in turn, more than 8 times over`, "%d in a row", n)
	}
}

// partsInARow is a lever that carries a lever that carries another, each held
// upright by a stay to the airframe.
func partsInARow(n int) drawing {
	d := drawing{bodies: []body{
		{name: "air", fixed: true, points: []spot{{"q", at(1000, 0)}}},
		hinge("p0", at(0, 0), spot{"tip", at(0, 1)}),
	}}
	for i := 1; i < n; i++ {
		y := float64(i)
		d.bodies = append(d.bodies, body{name: fmt.Sprintf("p%d", i), on: fmt.Sprintf("p%d.tip", i-1), points: []spot{{"tip", at(0, y+1)}, {"ear", at(30, y)}}})
		d.bars = append(d.bars, bar{name: fmt.Sprintf("r%d", i), from: fmt.Sprintf("p%d.ear", i), to: "air.q"})
	}
	return d.with(control("p0", -1, 1))
}

// TestPartsCarriedInARow: 64 are taken, more are refused, a thousand at once.
func TestPartsCarriedInARow(t *testing.T) {
	_, s := sweepOf(t, partsInARow(64).text())
	assert.Len(t, s.Parts, 64)
	for _, n := range []int{65, 1000} {
		assert.Contains(t, refusal(t, partsInARow(n).text()), `"p64" is carried by a part that is carried in turn, more than 64 times over`, "%d in a row", n)
	}
}
