package figure

import (
	"math"
	"testing"

	"fullfree/linkage"

	"github.com/stretchr/testify/assert"
)

func TestLengthInInches(t *testing.T) {
	for v, want := range map[float64]string{
		0:               "0 in",
		7.25:            "7 1/4 in",
		21 + 31.0/32:    "21 31/32 in",
		1.0 / 64:        "1/64 in",
		-1.0 / 64:       "-1/64 in",
		-2.5:            "-2 1/2 in",
		0.001:           "0 in",
		-0.001:          "0 in",
		2.999:           "3 in",
		1e6 + 0.5:       "1000000 1/2 in",
		5.0 + 63.0/64.0: "5 63/64 in",
	} {
		assert.Equal(t, want, Length(v, linkage.Inches))
	}
}

func TestNumbersRoundForTheBench(t *testing.T) {
	assert.Equal(t, "183.7 mm", Length(183.66, linkage.Millimeters))
	assert.Equal(t, "0.0 mm", Length(-0.04, linkage.Millimeters))
	assert.Equal(t, "-24.0°", Degrees(-24))
	assert.Equal(t, "0.0°", Degrees(math.Copysign(0, -1)))
	assert.Equal(t, "0.0°", Degrees(-0.049))
	for unit, want := range map[linkage.Unit]string{"deg": "2.5°", "mm": "2.5 mm", "in": "2 1/2 in", "N": "2 N", "lbf": "2 lbf", "": "2.50"} {
		assert.Equal(t, want, Quantity(2.5, unit))
	}
	assert.Equal(t, "3", Quantity(3, ""), "a count")
	assert.Equal(t, "?°", Degrees(math.NaN()))
	assert.Equal(t, "? in", Length(math.Inf(1), linkage.Inches))
}
