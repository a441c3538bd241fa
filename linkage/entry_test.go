package linkage

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage/hunt"
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
		{"0,125", Inches, "0.125", 0.125},
		{"1250,125", Millimeters, "1250.125", 1250.125},
		{"7-½", Inches, "7 + 1/2", 7.5},
		{"7 63/64", Inches, "7 + 63/64", 7.984375},
		{"3/4-1/8", Inches, "3/4-1/8", 0.625},
		{"7.5 - 1/4", Inches, "7.5 - 1/4", 7.25},
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
		{strings.Repeat("1", 1000000), Inches, "a number is wanted, as in 187.5 or 7 1/4"},
		{"½7", Inches, "a number is wanted, as in 187.5 or 7 1/4"},
		{"1½4", Inches, "a number is wanted, as in 187.5 or 7 1/4"},
		{"7 - 1/4", Inches, "is 7 and 1/4 meant, or 7 less 1/4? write 7 1/4, or what the difference is"},
		{"7 -1/4", Millimeters, "is 7 and 1/4 meant, or 7 less 1/4? write 7 1/4, or what the difference is"},
		{"7-1/4-1/8", Millimeters, "is 7 and 1/4 meant, or 7 less 1/4? write 7 1/4, or what the difference is"},
		{"2 * (7-1/4)", Millimeters, "is 7 and 1/4 meant, or 7 less 1/4? write 7 1/4, or what the difference is"},
		{"7 5/4", Inches, "the fraction behind a whole number is less than 1: look at 5/4"},
		{"7 16/16", Inches, "the fraction behind a whole number is less than 1: look at 16/16"},
	} {
		written, _, says := Entry(c.typed, c.unit)
		assert.Empty(t, written, c.typed)
		assert.NotEmpty(t, says, c.typed)
		if c.says != "" {
			assert.Equal(t, c.says, says)
		}
	}
}

// TestHuntEntries types whole numbers and fractions in every way that people do, right and
// wrong: what is read is what was meant, and what could be read two ways is asked.
func TestHuntEntries(t *testing.T) {
	hunt.Each(t, 400, func(t *testing.T, random *rand.Rand) {
		whole, over, under := 1+random.IntN(99), 1+random.IntN(70), []int{2, 3, 4, 8, 10, 16, 32, 64}[random.IntN(8)]
		between := []string{" ", "-", "  ", "\u00a0", "–", " - ", "- ", " -", "+", " + "}[random.IntN(10)]
		sign := []string{"", "-", "− "}[random.IntN(3)]
		typed := fmt.Sprintf("%s%d%s%d/%d", sign, whole, between, over, under)
		written, value, says := Entry(typed, Inches)
		minus := strings.TrimSpace(strings.NewReplacer("\u00a0", "", "–", "-").Replace(between))
		doubtful := minus == "-" && strings.Contains(between, " ")
		if adds := strings.Contains(between, "+"); doubtful || !adds && over >= under {
			assert.NotEmpty(t, says, typed)
			assert.Empty(t, written, typed)
			return
		}
		require.Empty(t, says, typed)
		want := float64(whole) + float64(over)/float64(under)
		if sign != "" {
			want = -want
			if strings.Contains(between, "+") { // as arithmetic has it
				want = -float64(whole) + float64(over)/float64(under)
			}
		}
		assert.InDelta(t, want, value, 1e-12, typed)
		_, again, says := Entry(written, Inches)
		assert.Empty(t, says, written)
		assert.InDelta(t, value, again, 0, written)
	})
}
