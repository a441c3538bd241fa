package recheck

import (
	"testing"

	"fullfree/linkage"

	"github.com/stretchr/testify/assert"
)

// An inch is 25.4 mm and a pound-force 4.4482216152605 N, both exactly (NIST SP 811,
// appendix B, from memory); what measures different things can't be told in one unit.
func TestConvert(t *testing.T) {
	for _, c := range []struct {
		v        float64
		from, to linkage.Unit
		want     float64
	}{
		{2, "in", "mm", 50.8}, {50.8, "mm", "in", 2}, {10, "lbf", "N", 44.482216152605},
		{1, "lbf/in", "N/mm", 4.4482216152605 / 25.4}, {7, "deg", "deg", 7},
	} {
		got, ok := convert(c.v, c.from, c.to)
		assert.True(t, ok)
		assert.InDelta(t, c.want, got, 1e-12*c.want)
	}
	_, ok := convert(1, "mm", "deg")
	assert.False(t, ok)
	assert.True(t, number(7+1.0/4, "in").same(number((7+1.0/4)*25.4, "mm")))
	assert.False(t, number(1, "mm").same(number(1+1e-15, "mm")), "one unit, two numbers")
	assert.False(t, number(1, "mm").same(words("1")))
	assert.True(t, words("a").same(words("a")))
}
