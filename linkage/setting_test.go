package linkage

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A setting changes its number, and what is drawn from it follows.
func TestSettings(t *testing.T) {
	t.Run("rod length", func(t *testing.T) {
		run := read(t, bench, Setting{"link.length", "7 + 1/2"})
		assert.Equal(t, 7.5, run.Rods[0].Length)
		assert.Equal(t, read(t, bench).Rods[0].Drawn, run.Rods[0].Drawn)
	})
	t.Run("rod length where the file gives none", func(t *testing.T) {
		run := read(t, bench, Setting{"push.length", "10"})
		assert.Equal(t, 10.0, run.Rods[1].Length)
		assert.True(t, run.Rods[1].LengthGiven)
	})
	t.Run("point", func(t *testing.T) {
		run := read(t, bench, Setting{"plunger.eye.x", "-(4)"}, Setting{"plunger.eye.z", "2"})
		assert.Equal(t, Vec{-4, 5, 2}, at(t, find(t, run, "plunger"), "eye"))
		// The rod to it has no length of its own and keeps to its ends.
		assert.InDelta(t, math.Sqrt(49+49+4), run.Rods[1].Length, 1e-14)
		assert.Equal(t, run.Rods[1].Drawn, run.Rods[1].Length)
	})
	t.Run("pivot, and its arms with it", func(t *testing.T) {
		run := read(t, bench, Setting{"crank.pivot.x", "8"}, Setting{"crank.pivot.y", "0"})
		crank, grip := find(t, run, "crank"), find(t, run, "grip")
		assert.Equal(t, Vec{8, 0, 0}, crank.Pivot)
		assert.Equal(t, Vec{7.5, 0.25, 0}, at(t, crank, "upper"))
		assert.Equal(t, Vec{9, 0, 0}, grip.Pivot)
		assert.Equal(t, Vec{9, 1, 0}, at(t, grip, "end"))
	})
	t.Run("pivot, but not its points", func(t *testing.T) {
		lever := find(t, read(t, bench, Setting{"lever.pivot.x", "1"}), "lever")
		assert.Equal(t, Vec{0.5, 8, 0}, at(t, lever, "foot"))
		assert.Equal(t, Vec{1, -2, 0}, at(t, lever, "tab"))
	})
	t.Run("arm, at its place in the drawing", func(t *testing.T) {
		run := read(t, bench, Setting{"crank.tip.x", "9"})
		assert.Equal(t, Vec{9, -1, 0}, at(t, find(t, run, "crank"), "tip"))
		assert.Equal(t, Vec{9, -1, 0}, find(t, run, "grip").Pivot)
	})
	t.Run("fixed point, rod point, stop", func(t *testing.T) {
		run := read(t, bench, Setting{"frame.hook.y", "13"}, Setting{"link.bracket.x", "4"}, Setting{"forward.at", "25.5"})
		assert.Equal(t, Vec{20, 13, 0}, at(t, find(t, run, "frame"), "hook"))
		assert.Equal(t, Vec{4, -2, 0}, run.Rods[0].Points[0].At)
		assert.Equal(t, 25.5, run.Stops[0].At)
	})
	t.Run("fixed point that is a pivot", func(t *testing.T) {
		text := strings.Replace(bench, "pivot = [7, -1]", "pivot = frame.datum", 1)
		run := read(t, text, Setting{"frame.datum.y", "-2"})
		assert.Equal(t, Vec{0, -2, 0}, find(t, run, "crank").Pivot)
		assert.Equal(t, Vec{-0.5, -1.75, 0}, at(t, find(t, run, "crank"), "upper"))
	})
	t.Run("difference", func(t *testing.T) {
		assert.Equal(t, 7.5, read(t, bench, Setting{"link.length", "8 - 1/2"}).Rods[0].Length)
		metric := strings.Replace(bench, `"in"`, `"mm"`, 1)
		assert.Equal(t, 7.5, read(t, metric, Setting{"link.length", "8-1/2"}).Rods[0].Length)
	})
	t.Run("spaces around it", func(t *testing.T) {
		assert.Equal(t, 7.5, read(t, bench, Setting{" link.length ", " 7.5 "}).Rods[0].Length)
	})
	t.Run("setting what the file says changes nothing", func(t *testing.T) {
		plain, set := read(t, bench), read(t, bench, Setting{"lever.foot.x", "1/2"})
		assert.Equal(t, plain.Parts[1].Points, set.Parts[1].Points)
	})
}

func TestFaultySettings(t *testing.T) {
	for _, c := range []struct{ dimension, value, says string }{
		{"link.lenght", "7", `--set link.lenght=7: the file has no dimension "link.lenght"; did you mean "link.length"?`},
		{"lever.hron.x", "7", `did you mean "lever.horn.x"?`},
		{"nothing", "7", "dimensions are rod.length, part.point.x"},
		{"link.length", "abc", "--set link.length=abc: a number is wanted here, not a name"},
		{"link.length", "7 1/4", "write 7 + 1/4"},
		{"lever.horn.y", "-3 1/4", "write -(3 + 1/4)"},
		{"link.length", "7-1/4", "--set link.length=7-1/4: 7-1/4 is 6.75 here: for 7 and 1/4 write 7 + 1/4; if 6.75 is meant, 7 - 1/4 with spaces"},
		{"link.length", "7,25", "--set link.length=7,25: write 7.25: the decimal sign is a point"},
		{"lever.horn.y", "\u22123", "use the plain -"},
		{"link.length", "", "a number is missing"},
		{"link.length", "7 +", "a number is wanted"},
		{"link.length", "1e9", "too large"},
		{"link.length", "1/0", "divides by zero"},
		{"link.length", "((((", "a number is wanted"},
		{"link.length", "7\n8", "a number is wanted"},
		{"link.length", "\xff", "not UTF-8"},
		{"link.length", `"7"`, "without quotes"},
		{"link.length", "polar(1, 2)", "is a point"},
		{"link.length", "-1", "--set link.length=-1: a rod's length is more than 0"},
		{"link.length", "1", "--set link.length=1: the ends of the rod \"link\" differ in height by 1"},
		{"grip.pivot.x", "7", `the pivot of "grip" is carried by crank.tip: set crank.tip.x`},
		{"heel-stop.at", "7", `"heel-stop" stops where metal touches, so it has no at`},
		{"beam.pivot.x", "7", "no dimension"},
		{"forward.at", "0", "--set forward.at=0: this is where the control is drawn"},
	} {
		list := faults(t, bench, Setting{c.dimension, c.value})
		require.Len(t, list, 1, "%v: %v", c, list)
		assert.Equal(t, Span{}, list[0].Span)
		assert.Contains(t, list[0].Says, c.says)
	}
	list := faults(t, bench, Setting{"link.length", "7"}, Setting{"link.length", "8"})
	assert.Contains(t, list[0].Says, "twice")
}

// Faults of settings stand without a place, before those of the file.
func TestFaultySettingsAreToldFirst(t *testing.T) {
	list := faults(t, bench+"\nstop \"extra\" {\n}\n", Setting{"b.length", "1"}, Setting{"a.length", "1"})
	require.Len(t, list, 3)
	assert.Contains(t, list[0].Says, "--set a.length")
	assert.Contains(t, list[1].Says, "--set b.length")
	assert.Positive(t, list[2].Span.Line)
	_, err := Read(&Source{Name: "x.hcl", Text: []byte(bench)}, Setting{"a.length", "1\x1b[2J"})
	require.Error(t, err)
	assert.Contains(t, err.Error(), "x.hcl: --set a.length=1?[2J: ")
}
