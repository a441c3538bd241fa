package linkage

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Pitches, major diameters and stress areas of the unified fine and metric
// series, as published tables of stress areas print them (read; whose tables was
// not noted). These name ASME B1.1 for 0.7854 (D - 0.9743/n)^2 in^2 and ISO 898-1
// for 0.7854 (D - 0.9382 P)^2 mm^2; the standards themselves were not opened. The
// pitch in millimeters is 25.4/n, by the definition of the inch. Lengths in the unit
// of the series, pitches in millimeters too.
func TestThreadsAgainstTables(t *testing.T) {
	for _, c := range []struct {
		name            string
		units           Unit
		pitch, diameter float64
		millimeters     float64 // the pitch, as printed
		digit           float64 // half of its last digit
		area, within    float64
	}{
		{"10-32", Inches, 1.0 / 32, 0.1900, 0.79375, 0.5e-5, 0.0200, 0.5e-4},
		{"1/4-28", Inches, 1.0 / 28, 0.2500, 0.90714, 0.5e-5, 0.0364, 0.5e-4},
		{"5/16-24", Inches, 1.0 / 24, 0.3125, 1.05833, 0.5e-5, 0.0580, 2e-4},
		{"1/2-20", Inches, 1.0 / 20, 0.5000, 1.27, 0.5e-5, 0.1599, 2e-4},
		{"M5x0.8", Millimeters, 0.8, 5, 0.8, 0, 14.183, 0.5e-3},
		{"M6x1", Millimeters, 1, 6, 1, 0, 20.123, 0.5e-3},
		{"M8x1.25", Millimeters, 1.25, 8, 1.25, 0, 36.609, 0.5e-3},
	} {
		own, err := ParseThread(c.name, c.units)
		require.NoError(t, err, c.name)
		assert.Equal(t, Thread{c.name, c.pitch, c.diameter}, own)
		depth := 0.9743
		if c.units == Millimeters {
			depth = 0.9382
		}
		assert.InDelta(t, c.area, 0.7854*math.Pow(own.Diameter-depth*own.Pitch, 2), c.within, c.name)

		millimeters, err := ParseThread(c.name, Millimeters)
		require.NoError(t, err, c.name)
		assert.InDelta(t, c.millimeters, millimeters.Pitch, c.digit+1e-15, c.name)
		inches, err := ParseThread(c.name, Inches)
		require.NoError(t, err, c.name)
		assert.InDelta(t, millimeters.Diameter, 25.4*inches.Diameter, 1e-14, c.name)
		assert.InDelta(t, millimeters.Pitch, 25.4*inches.Pitch, 1e-15, c.name)
	}
}

// Numbered sizes are 0.060 + 0.013 N inches across (the same tables).
func TestNumberedSizes(t *testing.T) {
	for name, diameter := range map[string]float64{"0-80": 0.060, "4-40": 0.112, "6-32": 0.138, "8-36": 0.164, "10-24": 0.190, "12-28": 0.216} {
		thread, err := ParseThread(name, Inches)
		require.NoError(t, err, name)
		assert.Equal(t, diameter, thread.Diameter, name)
	}
}

// A metric pitch left out is the coarse one; the coarse series from memory (ISO 261).
func TestCoarsePitch(t *testing.T) {
	for short, whole := range map[string]string{"M3": "M3x0.5", "M4": "M4x0.7", "M5": "M5x0.8", "M6": "M6x1", "M8": "M8x1.25", "M10": "M10x1.5", "M12": "M12x1.75"} {
		a, err := ParseThread(short, Millimeters)
		require.NoError(t, err, short)
		b, err := ParseThread(whole, Millimeters)
		require.NoError(t, err, whole)
		assert.Equal(t, Thread{short, b.Pitch, b.Diameter}, a)
	}
}

// What "did you mean" suggests is a thread.
func TestSuggestedThreadsAreThreads(t *testing.T) {
	assert.True(t, slices.IsSortedFunc(unifiedCounts, func(a, b int) int { return b - a }))
	for _, name := range rodEndThreads {
		_, err := ParseThread(name, Inches)
		assert.NoError(t, err, name)
	}
}

func TestFaultyThreads(t *testing.T) {
	for name, says := range map[string]string{
		"1/4-82":                  `no thread of the unified series has 82 threads to an inch; did you mean "1/4-28"?`,
		"1/4-82 ":                 `"1/4-82 " is no thread`,
		"1/4-28 UNF-3A":           `did you mean "1/4-28"?`,
		"1/4 - 28":                `did you mean "1/4-28"?`,
		"1/4–28":                  `did you mean "1/4-28"?`,
		"1/4x28":                  `did you mean "1/4-28"?`,
		"No. 10-32":               `did you mean "10-32"?`,
		"10-23":                   `23 threads to an inch; did you mean "10-24"?`,
		"13-32":                   "there is no numbered size 13: they go from 0 to 12",
		"10-8":                    "no pitch is more than a quarter of the diameter",
		"00-80":                   "is no thread",
		"6/4-20":                  "6/4 in is no size of thread",
		"1/5-20":                  "1/5 in is no size of thread",
		"1/4-0":                   "is no thread",
		"M6x1 LH":                 `did you mean "M6x1", with hand = "left"?`,
		"left M6x1":               `with hand = "left"`,
		"m6X1":                    `did you mean "M6x1"?`,
		"M6×1":                    `did you mean "M6x1"?`,
		"M8x1,25":                 `did you mean "M8x1.25"?`,
		"M6x1.2":                  `no metric thread has a pitch of 1.2; did you mean "M6x1"?`,
		"M6x2":                    "no pitch is more than a quarter of the diameter",
		"M7":                      "M7 needs its pitch after it, as in M6x1",
		"M0x1":                    "is no thread",
		"M6x0":                    "no metric thread has a pitch of 0",
		"M6x":                     "is no thread",
		"6x1":                     `did you mean "M6x1"?`,
		"":                        "is no thread",
		"M1e9x1":                  "is no thread",
		"quarter inch, fine":      "is no thread: one is written",
		"1/4-28\x00":              "is no thread",
		"M99999999999999999999x1": "is no thread",
	} {
		for _, units := range []Unit{Millimeters, Inches} {
			thread, err := ParseThread(name, units)
			assert.Zero(t, thread, name)
			assert.ErrorContains(t, err, says, name)
		}
	}
}

// Whatever is written, a thread is finite and not coarser than threads are.
func FuzzParseThread(f *testing.F) {
	for _, name := range append(rodEndThreads, "M6", "1/4-28 UNF", "#10-32", "M8x1,25", "0-80", "1/64-80", "") {
		f.Add(name)
	}
	f.Fuzz(func(t *testing.T, name string) {
		thread, err := ParseThread(name, Inches)
		if err != nil {
			require.Zero(t, thread)
			require.NotEmpty(t, err.Error())
			return
		}
		require.Equal(t, name, thread.Name)
		require.Positive(t, thread.Pitch)
		require.LessOrEqual(t, thread.Pitch, coarsest*thread.Diameter*(1+1e-15))
		require.Less(t, thread.Diameter, 100.0/millimetersInch)
	})
}
