package solve

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The top of cos(x - 0.3) is 1, at 0.3. Over a short stretch the curve through three places
// tells it, on whichever half it lies; over a long one two orders of the curve disagree
// on where it is, which is told.
func TestSharedExtremeOfACosine(t *testing.T) {
	const top, noise = 0.3, 1e-15
	of := func(low, high float64) (v, x float64, ok bool) {
		at := func(x float64) *node { return &node{x, []float64{math.Cos(x - top)}, []float64{-math.Sin(x - top)}} }
		e := &sharedExtremes{p: &path{probes: []probe{{noise: noise}}}, probes: []int{0}}
		return e.of(at(low), at((low+high)/2), at(high), 0)
	}
	for _, c := range [][2]float64{{top - 0.0003, top + 0.0007}, {top - 0.0007, top + 0.0003}, {top - 0.00055, top + 0.00045}} {
		v, x, ok := of(c[0], c[1])
		assert.True(t, ok, "%v", c)
		assert.InDelta(t, 1, v, 1e-15)
		assert.InDelta(t, top, x, 1e-11)
	}
	for _, c := range [][2]float64{{top - 0.3, top + 0.7}, {top - 0.7, top + 0.3}, {top - 1.4, top + 1.1}} {
		_, _, ok := of(c[0], c[1])
		assert.False(t, ok, "%v", c)
	}
}
