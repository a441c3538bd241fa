package linkage

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A rod is a barrel where both ends are set to any part of a turn, and a turn of it then
// turns both: by hand, of pitches 1.25 and 1, opposite 2.25 and alike 0.25 of length. An
// end that is set by half turns is unbolted and turned alone.
func TestBarrel(t *testing.T) {
	rod := func(steps [2]float64, left bool) *Rod {
		r := &Rod{Name: "link"}
		r.Ends = []*RodEnd{
			{Rod: r, Side: "from", Thread: Thread{Pitch: 1.25}, Step: steps[0], Left: left},
			{Rod: r, Side: "to", Thread: Thread{Pitch: 1}, Step: steps[1]},
		}
		return r
	}
	for _, c := range []struct {
		steps    [2]float64
		left     bool
		barrel   bool
		from, to float64
	}{
		{[2]float64{0, 0}, true, true, 2.25, 2.25},
		{[2]float64{0, 0}, false, true, 0.25, -0.25},
		{[2]float64{0, 0.5}, true, false, 1.25, 1},
		{[2]float64{0.5, 0}, true, false, 1.25, 1},
		{[2]float64{0.5, 0.5}, false, false, 1.25, 1},
	} {
		r := rod(c.steps, c.left)
		assert.Equal(t, c.barrel, r.Barrel())
		assert.InDelta(t, c.from, r.Ends[0].PerTurn(), 1e-15)
		assert.InDelta(t, c.to, r.Ends[1].PerTurn(), 1e-15)
	}
	alone := rod([2]float64{0, 0}, true)
	alone.Ends = alone.Ends[:1]
	assert.False(t, alone.Barrel())
	assert.InDelta(t, 1.25, alone.Ends[0].PerTurn(), 1e-15)
}
