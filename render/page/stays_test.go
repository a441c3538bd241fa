package page

import (
	"testing"

	"fullfree/linkage"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
)

// What moves to one side of neutral alone moves; a tenth of a degree or millimeter, or
// 1/64 in, is what a builder reads.
func TestWhatStays(t *testing.T) {
	for _, c := range []struct {
		neutral, low, high float64
		unit               linkage.Unit
		stays              bool
	}{
		{0, 0, 0, "deg", true},
		{0, -0.09, 0.09, "deg", true},
		{0, -5, 0, "deg", false},
		{0, 0, 5, "deg", false},
		{3, -2, 3, "mm", false},
		{3, 3, 8, "mm", false},
		{40, 40.05, 39.95, "mm", true}, // its gauge reads 40 throughout
		{0, 0.0156, 0, "in", true},
		{0, 0.016, 0, "in", false},
		{0, 0, -0.016, "in", false},
	} {
		assert.Equal(t, c.stays, stays(solve.Extent{Neutral: c.neutral, AtLow: c.low, AtHigh: c.high}, c.unit), "%+v", c)
	}
}
