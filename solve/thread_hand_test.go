package solve_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// A barrel with opposite hands comes out of both ends as it is turned, with hands alike
// out of one and further into the other. Four turns that way lengthen it by 4 (1.5 + 1)
// = 10, or by 4 (1.5 - 1) = 2, and leave 12 - 6 in the one and 10 - 4 or 10 + 4 in the
// other: which limit that passes tells the hands apart.
func TestABarrelHasThreadByItsHands(t *testing.T) {
	for _, c := range []struct {
		name        string
		otherLeft   bool
		longer      float64
		least, most float64 // of the other end
		has         bool
	}{
		{"opposite, with thread for it", true, 10, 6, 10, true},
		{"opposite, too little left", true, 10, 6.5, 20, false},
		{"alike, with thread for it", false, 2, 6.5, 14, true},
		{"alike, too far in", false, 2, 5, 13.5, false},
	} {
		rod := &linkage.Rod{Name: "link", Length: 200}
		one := &linkage.RodEnd{Rod: rod, Side: "from", Thread: linkage.Thread{Pitch: 1.5}, Engaged: 12, Least: 6}
		other := &linkage.RodEnd{Rod: rod, Side: "to", Thread: linkage.Thread{Pitch: 1}, Engaged: 10, Least: c.least, Most: &c.most, Left: c.otherLeft}
		rod.Ends = []*linkage.RodEnd{one, other}
		n := solve.NearestTurn(rod, c.longer)
		require.NotNil(t, n)
		assert.InDelta(t, 0, n.Left, 1e-12, c.name)
		assert.Equal(t, c.has, n.HasThread, c.name)
		if n.End == one {
			assert.InDelta(t, 4, n.Turns, 1e-12, c.name)
		}
	}
}
