package linkage

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestEntryIsReadAsAPersonTypesIt(t *testing.T) {
	for _, c := range []struct {
		typed   string
		unit    Unit
		written string
		value   float64
	}{
		{"187.5", Millimeters, "187.5", 187.5},
		{" 187,5 mm", Millimeters, "187.5", 187.5},
		{"7 1/4", Inches, "7 + 1/4", 7.25},
		{"7-1/4", Inches, "7 + 1/4", 7.25},
		{"7¼\"", Inches, "7 + 1/4", 7.25},
		{"½", Inches, "1/2", 0.5},
		{"-2 5/16 in", Inches, "-(2 + 5/16)", -2.3125},
		{"−12", Degrees, "-12", -12},
		{"88.5°", Degrees, "88.5", 88.5},
		{"7 + 1/4", Inches, "7 + 1/4", 7.25},
		{"-1/4", Inches, "-1/4", -0.25},
		{"60 1/2", Millimeters, "60 + 1/2", 60.5},
	} {
		written, value, says := Entry(c.typed, c.unit)
		assert.Empty(t, says, c.typed)
		assert.Equal(t, c.written, written, c.typed)
		assert.InDelta(t, c.value, value, 0, c.typed)
		again, value, says := Entry(written, c.unit)
		assert.Empty(t, says, c.typed)
		assert.Equal(t, written, again, "what is written is typed as it is")
		assert.InDelta(t, c.value, value, 0, c.typed)
	}
}

func TestEntryRefusesWhatIsNoNumber(t *testing.T) {
	for _, c := range []struct {
		typed string
		unit  Unit
		says  string
	}{
		{"", Millimeters, "a number is missing"},
		{"1,250", Millimeters, "is the comma in 1,250 a decimal point? write 1.250 or 1250"},
		{"7 1/4 in", Millimeters, "this is in in, and mm is wanted"},
		{"abc", Millimeters, ""},
		{"1e9", Millimeters, ""},
		{"7 1/0", Inches, ""},
		{"blank", Millimeters, ""},
		{"1 2 3", Millimeters, ""},
		{"}\ntaped \"x\" {", Millimeters, ""},
		{"1 # 2", Millimeters, ""},
		{"[1]", Millimeters, ""},
		{"1\n2", Millimeters, ""},
		{"12x", Millimeters, "a number is wanted, as in 187.5 or 7 1/4"},
		{"12 cm", Millimeters, "a number is wanted, as in 187.5 or 7 1/4"},
		{"5'", Inches, "a number is wanted, as in 187.5 or 7 1/4"},
		{"1/4/2", Inches, "a number is wanted, as in 187.5 or 7 1/4"},
		{"--5", Inches, "a number is wanted, as in 187.5 or 7 1/4"},
		{"5 // 2", Inches, "a number is wanted, as in 187.5 or 7 1/4"},
		{"5 /* 2", Inches, "a number is wanted, as in 187.5 or 7 1/4"},
	} {
		written, _, says := Entry(c.typed, c.unit)
		assert.Empty(t, written, c.typed)
		assert.NotEmpty(t, says, c.typed)
		if c.says != "" {
			assert.Equal(t, c.says, says)
		}
	}
}
