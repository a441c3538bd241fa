package figure

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"fullfree/linkage"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestExact(t *testing.T) {
	for _, c := range []struct {
		v    float64
		want string
	}{
		{21.96875, "21.969 in (21 31/32)"},
		{21.9693, "21.969 in"}, // 0.00055 in from 21 31/32
		{7.693, "7.693 in"},
		{24, "24.000 in"},
		{0, "0.000 in"},
		{-19.75, "-19.750 in (-19 3/4)"},
		{0.0156, "0.016 in (1/64)"},
		{math.NaN(), "? in"},
	} {
		assert.Equal(t, c.want, Exact(c.v, linkage.Inches))
	}
	assert.Equal(t, "21.969 (21 31/32)", ExactNumber(21.96875, linkage.Inches))
	assert.Equal(t, "21.969", Thousandths(21.96875, linkage.Inches))
	assert.Equal(t, "296.7 mm", Exact(296.71, linkage.Millimeters))
	assert.Equal(t, "12.0°", Exact(12, linkage.Degrees))
	assert.Equal(t, "12.25°", ExactGiven(12.25, linkage.Degrees))
	assert.Equal(t, "0.484 in (31/64)", StopAt(0.484375, linkage.Inches))
	assert.Equal(t, "7.693 in", Calipers(7.693, linkage.Inches))
}

// What is told is, to half a thousandth, what it tells of; and where a fraction stands
// beside it, that names the same length.
func TestExactTellsTheLength(t *testing.T) {
	random := rand.New(rand.NewPCG(7, 64))
	for range 20000 {
		v := (random.Float64() - 0.5) * 100
		if random.IntN(2) == 0 {
			v = math.Round(v*InchParts)/InchParts + (random.Float64()-0.5)*0.002
		}
		said, beside, fraction := strings.Cut(ExactNumber(v, linkage.Inches), " (")
		shown, err := strconv.ParseFloat(said, 64)
		require.NoError(t, err)
		assert.InDelta(t, v, shown, 0.0005+1e-12)
		nearest := math.Round(v*InchParts) / InchParts
		assert.Equal(t, math.Abs(v-nearest) <= exactWithin && nearest != math.Trunc(nearest), fraction)
		if fraction {
			assert.Equal(t, InchNumber(nearest)+")", beside)
		}
	}
}
