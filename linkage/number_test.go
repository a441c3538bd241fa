package linkage

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// valueOf reads a number written as text.
func valueOf(t *testing.T, text string) float64 {
	t.Helper()
	return read(t, strings.Replace(bench, "reads = 4.5", "reads = "+text, 1)).Outputs[0].Reads
}

// Arithmetic is rounded once: what a decimal or fraction means is what is
// read, to the last bit.
func TestNumbers(t *testing.T) {
	for text, want := range map[string]float64{
		"7 + 1/4":             7.25,
		"7 + 7/16":            7.4375,
		"0.1 + 0.2":           0.3,
		"(2 + 5/16)*2":        4.625,
		"10 - 1/3":            10 - 1.0/3,
		"1/3 + 1/3 + 1/3":     1,
		"- -7":                7,
		"-(1 - 8)":            7,
		"184e-1":              18.4,
		"1E+2":                100,
		"25.4*0.5":            12.7,
		"1e6":                 1e6,
		"2*3/4":               1.5,
		"((((((7))))))":       7,
		"1e-30*1e30":          1,
		"999999999 / 1000000": 999.999999,
	} {
		assert.Equal(t, want, valueOf(t, text), text)
	}
}

// What isn't a number, or not a sensible one, is told at its place.
func TestNotNumbers(t *testing.T) {
	for text, says := range map[string]string{
		"1000000.5":          "too large",
		"-1e7":               "too large",
		"1e99*1e99":          "too large",
		"5/0":                "divides by zero",
		"0/0":                "divides by zero",
		"1/(1/(1/0))":        "divides by zero",
		"5/(3 - 3)":          "divides by zero",
		"1e-400":             "out of range",
		"1e400":              "out of range",
		`"7"`:                "without quotes",
		`"${7}"`:             "filled into text",
		"true":               "not true",
		"null":               "not nothing",
		"[7]":                "not a list",
		"{ a = 7 }":          "not a table",
		"a-b":                "one name, dashes and all",
		"lever":              "is a part",
		"lever.horn":         "is a part",
		"7 + x":              "not a name",
		"-\"7\"":             "without quotes",
		"polar(1, 2)":        "is a point",
		"max(1, 2)":          "no max(...) here",
		"min(1)...":          "three dots",
		"7 1/4":              "write 7 + 1/4",
		"7,25":               "write 7.25: the decimal sign is a point",
		".5":                 "write 0.5",
		"+5":                 "no plus sign",
		"0x10":               "a number stands alone",
		"1_000":              "a number stands alone",
		"30deg":              "angles are in degrees already",
		"7'":                 "quotes",
		"7 %2":               "only + - * and /",
		"1 == 1":             "comparisons",
		"!true":              "only + - * and /",
		"1 ? 2 : 3":          "no conditions",
		"[for x in [1] : x]": "no for",
		"lever[0]":           "an = belongs",
		"lever.*.x":          "one by one",
		"a::b(1)":            "one dot",
		"7 ":                 "",
	} {
		if says == "" {
			assert.Equal(t, 7.0, valueOf(t, text))
			continue
		}
		list := faults(t, strings.Replace(bench, "7 + 1/4", text, 1))
		assert.Contains(t, list[0].Says, says, text)
		assert.Equal(t, 1+strings.Count(bench[:strings.Index(bench, "7 + 1/4")], "\n"), list[0].Span.Line, text)
		assert.Len(t, list, 1, "%s: told once: %v", text, list)
	}
}

// A dash between a whole number and a fraction of an inch is refused only where
// it would be read otherwise than a tape is.
func TestDashedFractions(t *testing.T) {
	for text, want := range map[string]float64{
		"3 - 1/2":    2.5,
		"3 -1/2":     2.5,
		"-3-1/2":     -3.5, // either way
		"0-1/2":      -0.5,
		"3-1/3":      3 - 1.0/3,
		"3-5/4":      1.75,
		"3.5-1/2":    3,
		"3-(1/2)":    2.5,
		"3-1/2*4":    1,
		"3-2":        1,
		"10 - 3-1/2": 6.5, // either way
	} {
		assert.Equal(t, want, valueOf(t, text), text)
	}
	for _, text := range []string{"3-1/2", "-(3-1/2)", "2*(3-1/2)", "3-1/2 + 1", "12-63/64"} {
		list := faults(t, strings.Replace(bench, "7 + 1/4", text, 1))
		assert.Len(t, list, 1, text)
		assert.Contains(t, list[0].Says, "with spaces", text)
	}
	metric := strings.Replace(bench, `"in"`, `"mm"`, 1)
	assert.Equal(t, 2.5, read(t, strings.Replace(metric, "4.5", "3-1/2", 1)).Outputs[0].Reads)
}

// Commas in a list are taken as they stand unless their spacing says otherwise.
func TestCommas(t *testing.T) {
	for text, want := range map[string]Vec{
		"[22,5,-5]":      {22, 5, -5},
		"[22, 5, -5]":    {22, 5, -5},
		"[22 ,5 ,-5]":    {22, 5, -5},
		"[22,5,\n-5]":    {22, 5, -5},
		"[22,5,-5 ]":     {22, 5, -5},
		"[22,5,-5, ]":    {22, 5, -5},
		"[22.5,5, -5]":   {22.5, 5, -5},
		"[1/2,5, -5]":    {0.5, 5, -5},
		"[2,1/2, -5]":    {2, 0.5, -5},
		"[22,-5, 1]":     {22, -5, 1},
		"[22,5]":         {22, 5, 0},
		"polar(5,180)":   {-5, 0, 0},
		"[22, /**/5,-5]": {22, 5, -5},
	} {
		run := read(t, strings.Replace(bench, "[10, 5]", text, 1))
		assert.Equal(t, want, at(t, find(t, run, "plunger"), "eye"), text)
	}
	for _, text := range []string{"[22,5, -5]", "[-22,5, -5]", "[1, 22,5]", "[ 22,5, -5]", "[22,5, -5,5]", "polar(22,5, 30)"} {
		list := faults(t, strings.Replace(bench, "[10, 5]", text, 1))
		assert.Len(t, list, 1, text)
		assert.Contains(t, list[0].Says, "22,5 looks like 22.5", text)
	}
	for text, says := range map[string]string{
		"22,5":        "write 22.5: the decimal sign is a point",
		"-22,5":       "write 22.5",
		"0,125":       "write 0.125: the decimal sign is a point",
		"1,200":       "write 1.200 or 1200",
		"22, 5":       "no comma here",
		"1,2,3":       "no comma here",
		"22,5.5":      "no comma here",
		"22,5 # note": "write 22.5",
	} {
		list := faults(t, strings.Replace(bench, "7 + 1/4", text, 1))
		assert.Len(t, list, 1, text)
		assert.Contains(t, list[0].Says, says, text)
	}
}

// Every character that stands in for a plain one is told with the plain one.
func TestPastedCharacters(t *testing.T) {
	for _, p := range plainFor {
		for _, c := range p.odd {
			list := faults(t, strings.Replace(bench, "7 + 1/4", string(c)+"1", 1))
			assert.Len(t, list, 1, "%q", c)
			assert.Contains(t, list[0].Says, p.instead, "%q", c)
		}
	}
	for _, c := range oddQuotes {
		assert.Contains(t, faults(t, strings.Replace(bench, `"in"`, string(c)+"in"+string(c), 1))[0].Says, "straight double quotes", "%q", c)
	}
	assert.Contains(t, faults(t, strings.Replace(bench, "7 + 1/4", "7.25”", 1))[0].Says, "no inch mark")
}

// polar is exact at every whole multiple of 90 degrees, and mirrored angles
// give mirrored points exactly.
func TestPolar(t *testing.T) {
	for turn := -3; turn <= 3; turn++ {
		for quarter, want := range []Vec{{2.5, 0, 0}, {0, 2.5, 0}, {-2.5, 0, 0}, {0, -2.5, 0}} {
			degrees := float64(360*turn + 90*quarter)
			got := polar(2.5, degrees)
			assert.Equal(t, want, got, "at %g", degrees)
			assert.False(t, math.Signbit(got.X) && got.X == 0 || math.Signbit(got.Y) && got.Y == 0, "no -0 at %g", degrees)
		}
	}
	for degrees := -400.0; degrees < 400; degrees += 7.3 {
		got := polar(3, degrees)
		radians := degrees * math.Pi / 180
		// Against the textbook formula, whose argument is off by up to 4 ulp
		// of 7 radians.
		assert.InDelta(t, 3*math.Cos(radians), got.X, 1e-14, "at %g", degrees)
		assert.InDelta(t, 3*math.Sin(radians), got.Y, 1e-14, "at %g", degrees)
	}
	for _, degrees := range []float64{12, 30, 45, 60, 89.5} {
		a := polar(3, degrees)
		assert.Equal(t, Vec{a.X, -a.Y, 0}, polar(3, -degrees))
		assert.Equal(t, Vec{-a.X, a.Y, 0}, polar(3, 180-degrees))
		assert.Equal(t, Vec{-a.X, -a.Y, 0}, polar(3, degrees+180))
		assert.Equal(t, a, polar(3, degrees-360))
	}
}

func TestPolarInFiles(t *testing.T) {
	run := read(t, strings.NewReplacer("slide  = [3, 4]", "slide = polar(5, 180)", "eye = [10, 5]", "eye = polar(10 + 1/2, -(45 + 45))").Replace(bench))
	assert.Equal(t, Vec{-1, 0, 0}, find(t, run, "plunger").Slide)
	assert.Equal(t, Vec{0, -10.5, 0}, at(t, find(t, run, "plunger"), "eye"))
}

// In another plane the angle counts from the first axis named to the second. By hand:
// sin 30° = 1/2, and of a right angle nothing is left along the other axis.
func TestPolarInPlanes(t *testing.T) {
	const root3 = 1.7320508075688772
	for text, want := range map[string]Vec{
		`polar(4, 30)`:        {2 * root3, 2, 0},
		`polar(4, 30, "xy")`:  {2 * root3, 2, 0},
		`polar(4, 30, "yx")`:  {2, 2 * root3, 0},
		`polar(4, 30, "xz")`:  {2 * root3, 0, 2},
		`polar(4, 30, "zx")`:  {2, 0, 2 * root3},
		`polar(4, 30, "yz")`:  {0, 2 * root3, 2},
		`polar(4, 30, "zy")`:  {0, 2, 2 * root3},
		`polar(4, -90, "zx")`: {-4, 0, 0},
		`polar(0, 77, "zx")`:  {},
	} {
		got := at(t, find(t, read(t, strings.Replace(bench, "polar(2, -90)", text, 1)), "lever"), "tab")
		assert.InDelta(t, 0, got.Sub(want).Norm(), 1e-15, text)
	}
}

// An arm given by distance and angle in a plane that its part doesn't turn in lies
// partly along the axis: by cos 30° of 4 it is 3.46 about an upright one.
func TestOddArms(t *testing.T) {
	odd := func(axis, arm string, set ...Setting) []OddArm {
		text := strings.NewReplacer("axis  = [0, 0, -4]", "axis = "+axis, "upper = [-0.5, 0.25]", "upper = "+arm, `  points       = { bracket = [3, -2] }
`, "", "from = link.bracket", "from = lever.foot").Replace(bench)
		run, err := Read(&Source{Name: "test.hcl", Text: []byte(text)}, set...)
		require.NoError(t, err)
		return run.OddArms()
	}
	got := odd("[0, 1, 0]", "polar(4, 30)")
	require.Len(t, got, 1)
	assert.Equal(t, "upper", got[0].Part.Points[got[0].Point].Name)
	assert.Equal(t, "xy", got[0].Plane)
	assert.Equal(t, "xz", got[0].Suitable)
	assert.Equal(t, 4.0, got[0].Length)
	assert.InDelta(t, 3.4641016151377544, got[0].Arm, 1e-15)

	assert.Empty(t, odd("[0, 1, 0]", `polar(4, 30, "xz")`))
	assert.Empty(t, odd("[0, 0, 1]", "polar(4, 30)"))
	assert.Empty(t, odd("[0, 1, 0]", "[3.5, 2]"), "a place by coordinates is meant")
	assert.Empty(t, odd("[0, 1, 0]", "polar(4, 30)", Setting{"crank.upper.y", "-1"}), "it is set otherwise")
	// The cosine of 8.1 degrees is 0.990, that of 8.2 is 0.9898.
	assert.Empty(t, odd("[0, 1, 0]", "polar(4, 8.1)"))
	assert.Len(t, odd("[0, 1, 0]", "polar(4, 8.2)"), 1)
	// About a leaning axis no plane of the drawing fits.
	got = odd("[1, 1, 0]", "polar(4, 30)")
	require.Len(t, got, 1)
	assert.Empty(t, got[0].Suitable)
	assert.InDelta(t, 4*0.25881904510252074, got[0].Arm, 1e-14, "sin 15°")
}

// A direction may have any length but none, however small or large.
func TestDirections(t *testing.T) {
	for text, want := range map[string]Vec{
		"[1e-90, 0]":                {1, 0, 0},
		"[0, -1000000]":             {0, -1, 0},
		"[0, 5e-99*1e-99*1e-99, 0]": {0, 1, 0},
		"[3e-50, 4e-50]":            {0.6, 0.8, 0},
		"[30000, 40000]":            {0.6, 0.8, 0},
	} {
		got := find(t, read(t, strings.Replace(bench, "[3, 4]\n", text+"\n", 1)), "plunger").Slide
		assert.InDelta(t, want.X, got.X, 1e-15, text)
		assert.InDelta(t, want.Y, got.Y, 1e-15, text)
		assert.InDelta(t, 1, got.Norm(), 4e-16, text)
	}
	assert.Contains(t, faults(t, strings.Replace(bench, "[3, 4]\n", "[0, 0, 0]\n", 1))[0].Says, "no length")
}

// A value too small for a float64 is zero, and told where zero is wrong.
func TestVanishingNumbers(t *testing.T) {
	tiny := "1" + strings.Repeat("*1e-99", 5)
	list := faults(t, strings.Replace(bench, "7 + 1/4", tiny, 1))
	assert.Contains(t, list[0].Says, "more than 0")
}

func TestLongSums(t *testing.T) {
	assert.Equal(t, 900.0, valueOf(t, "1"+strings.Repeat(" + 1", 899)))
	list := faults(t, strings.Replace(bench, "7 + 1/4", "1"+strings.Repeat("+1", 5000), 1))
	require.Len(t, list, 1)
	assert.Contains(t, list[0].Says, fmt.Sprint(maxTerms))
}
