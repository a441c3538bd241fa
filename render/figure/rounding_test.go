package figure

import (
	"fullfree/linkage"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestAgainstNeverContradictsTheLimit(t *testing.T) {
	for _, c := range []struct {
		v, limit float64
		unit     linkage.Unit
		want     string
	}{
		{0.31, 0.5, "deg", "0.3°"},
		{0.54, 0.5, "deg", "0.54°"},
		{0.46, 0.5, "deg", "0.46°"},
		{0.5, 0.5, "deg", "0.5°"},
		{0.5000001, 0.5, "deg", "0.5000001°"},
		{0.53, 0.52, "deg", "0.53°"}, // 0.5 would read as below 0.52
		{-0.04, 0, "deg", "-0.04°"},
		{0.04, 0, "mm", "0.04 mm"},
		{0.004, 0, "in", "0.004 in"},
		{0.5 + 1.0/128, 0.5, "in", "33/64 in"},
		{0.5 + 1.0/300, 0.5, "in", "0.503 in"},
		{1, 0, "", "1"},
		{0.003, 0, "mm/deg", "0.003 mm a degree"},
		{0.5 + 1e-13, 0.5, "deg", "0.5°"}, // closer than anything is located
	} {
		assert.Equal(t, c.want, Against(c.v, c.limit, c.unit), "%v against %v %s", c.v, c.limit, c.unit)
	}
}

func TestAgainstReadsOnTheRightSide(t *testing.T) {
	seed := uint64(7)
	rng := rand.New(rand.NewPCG(seed, seed))
	for range 2000 {
		limit := float64(rng.IntN(200)) / 10
		v := limit + (rng.Float64()-0.5)*[]float64{1, 1e-2, 1e-4, 1e-6}[rng.IntN(4)]
		text, ok := strings.CutSuffix(Against(v, limit, "deg"), "°")
		require.True(t, ok)
		shown, err := strconv.ParseFloat(text, 64)
		require.NoError(t, err)
		assert.Equal(t, v > limit, shown > limit, "%v against %v reads %s (seed %d)", v, limit, text, seed)
	}
}

func TestReadableTellsLittleFromNothing(t *testing.T) {
	assert.Equal(t, "0.04°", Readable(0.04, 0.5, "deg"))
	assert.Equal(t, "0.3°", Readable(0.31, 0.5, "deg"))
	assert.Equal(t, "0.0°", Readable(3e-8, 0.5, "deg"), "of no use to a builder")
	assert.Equal(t, "0.0°", Readable(0, 0.5, "deg"))
}

func TestRatio(t *testing.T) {
	for v, want := range map[float64]string{
		1: "1.00 in a degree", -0.925: "-0.925 in a degree", 0.0437: "0.0437 in a degree", -0.00371: "-0.00371 in a degree", 12.345: "12.35 in a degree",
		1e-9: "0.00 in a degree", 0: "0.00 in a degree",
	} {
		assert.Equal(t, want, Ratio(v, "in/deg"))
	}
}

func TestGivenRepeatsTheFile(t *testing.T) {
	for _, c := range []struct {
		v    float64
		unit linkage.Unit
		want string
	}{
		{12, "deg", "12°"}, {0.52, "deg", "0.52°"}, {-24, "deg", "-24°"},
		{0.25, "mm", "0.25 mm"}, {7.25, "in", "7 1/4 in"}, {0.3, "in", "0.3 in"},
		{0, "", "0"}, {1e-9, "mm", "0.000000001 mm"},
		{5.0 / 128, "in", "0.0390625 in"}, {7 + 5.0/128, "in", "7.0390625 in"}, {298.1525, "mm", "298.1525 mm"},
		{60 / 4.448, "lbf", "13.4892 lbf"}, {-1.0 / 3, "deg", "-0.333333°"}, {0.1 + 0.2, "mm", "0.3 mm"}, {2.0 / 3e5, "", "0.00000666667"},
	} {
		assert.Equal(t, c.want, Given(c.v, c.unit))
	}
}

func TestList(t *testing.T) {
	assert.Equal(t, "", List(nil))
	assert.Equal(t, "a", List([]string{"a"}))
	assert.Equal(t, "a, b and c", List([]string{"a", "b", "c"}))
}
