package figure

import (
	"strconv"
	"testing"

	"fullfree/linkage"

	"github.com/stretchr/testify/assert"
)

// A caliper reads one decimal more than a rule; what is less than the last decimal shown
// of inches is told with as many as it takes.
func TestFineFigures(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{Calipers(12.345, "mm"), "12.35 mm"}, {Calipers(1.2344, "in"), "1.234 in (1 15/64)"}, {Calipers(1.2304, "in"), "1.230 in"}, {Fine(12.34, "mm"), "12.3 mm"}, {Fine(1.239, "in"), "1.24 in"},
		{Small(0.25, "in"), "1/4 in"}, {Small(0.0003, "in"), "0.0003 in"}, {Small(-0.0003, "in"), "-0.0003 in"}, {Small(0.26, "in"), "0.26 in"}, {Small(0.04, "mm"), "0.04 mm"},
		{UpTo(0.12346, 4), "0.1235"}, {UpTo(1.5, 2), "1.5"}, {UpTo(-0.006, 2), "-0.01"}, {StopAt(12.00004, "deg"), "12°"}, {StopAt(12.00006, "deg"), "12.0001°"},
		{Celsius(-25), "-25 °C"}, {Exactly(0.1), "0.1"},
		{Against(2.346, 2.348, ""), "2.346"}, {Against(2.346, 1, ""), "2.35"},
	} {
		assert.Equal(t, c.want, c.got)
	}
}

func TestUnitsOfParts(t *testing.T) {
	for _, units := range []linkage.Unit{linkage.Millimeters, linkage.Inches} {
		run := &linkage.Run{Units: units}
		assert.Equal(t, linkage.Degrees, PartUnit(run, &linkage.Part{Motion: linkage.Turns}))
		assert.Equal(t, units, PartUnit(run, &linkage.Part{Motion: linkage.Slides}))
	}
}

// What is told for each of the control's units is said in words.
func TestRatioUnits(t *testing.T) {
	for unit, want := range map[string]string{
		"deg/deg": "degrees a degree", "mm/deg": "mm a degree", "deg/mm": "degrees a mm", "mm/in": "mm an inch", "N/mm": "N a mm",
		"lbf in/deg": "in-lbf a degree", "N mm/deg": "N mm a degree", "lbf/in": "lbf an inch", "mm": "mm",
	} {
		assert.Equal(t, want, RatioUnit(linkage.Unit(unit)))
	}
}

// Letters go on as columns of a table do: after Z come AA, AB, and after ZZ comes AAA,
// the 26 + 26*26 before it counted from 0.
func TestLetters(t *testing.T) {
	for i, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 27: "AB", 51: "AZ", 52: "BA", 26 + 26*26 - 1: "ZZ", 26 + 26*26: "AAA"} {
		assert.Equal(t, want, Letter(i))
	}
}

func TestFirstOfAndCount(t *testing.T) {
	assert.Equal(t, []string{"0", "1", "2"}, FirstOf(3, 3, strconv.Itoa))
	assert.Equal(t, []string{"0", "1", "3 more"}, FirstOf(5, 2, strconv.Itoa))
	assert.Empty(t, FirstOf(0, 2, strconv.Itoa))
	assert.Equal(t, "0 holes", Count(0, "hole"))
	assert.Equal(t, "1 hole", Count(1, "hole"))
	assert.Equal(t, "2 holes", Count(2, "hole"))
	assert.Equal(t, "a, c", Joined(", ", "a", "", "c"))
}
