package picture

import (
	"testing"

	"fullfree/linkage"

	"github.com/stretchr/testify/assert"
)

func TestRoundLength(t *testing.T) {
	for most, want := range map[float64]float64{130: 100, 99: 50, 49: 20, 19.9: 10, 0.3: 0.2, 1: 1} {
		assert.InDelta(t, want, roundLength(most, linkage.Millimeters), 1e-12*want, "%v", most)
	}
	assert.Equal(t, 0.5, roundLength(0.9, linkage.Inches))
	assert.Equal(t, 0.0625, roundLength(0.1, linkage.Inches))
}
