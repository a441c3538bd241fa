package linkage

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// sized is a run whose numbers are written with named dimensions.
const sized = `run "Sized" {
  units = "in"
}
part "lever" {
  pivot = [0, bench.rise]
  arms  = { horn = [0, -bench.arm], tip = polar(2 * bench.arm, bench.angle) }
}
part "crank" {
  pivot = [bench.reach, 0]
  arms  = { horn = [0, -(bench.arm - 1/16)] }
}
rod "link" {
  from   = lever.horn
  to     = crank.horn
  length = bench.reach
}
control "hand" {
  of   = lever
  from = -30
  to   = bench.angle
}
output "valve" {
  of = crank
}
stop "end" {
  of = lever
  at = bench.angle - 10
}
# It stands behind what uses it, and so does what it uses.
dims "bench" {
  reach   = 3 * bench.arm-two
  arm     = 2 + 5/32
  arm-two = bench.arm + 1/32
  angle   = 30
  rise    = 0
}
`

// Named dimensions enter arithmetic wherever numbers stand, in any order.
func TestDimsEnterArithmetic(t *testing.T) {
	run := read(t, sized)
	lever, crank := find(t, run, "lever"), find(t, run, "crank")
	assert.Equal(t, Vec{0, -2.15625, 0}, at(t, lever, "horn"))
	assert.InDelta(t, 4.3125*0.8660254037844386, at(t, lever, "tip").X, 1e-15, "cos 30°")
	assert.InDelta(t, 4.3125/2, at(t, lever, "tip").Y, 1e-15)
	assert.Equal(t, 6.5625, crank.Pivot.X, "3 * (2 5/32 + 1/32)")
	assert.Equal(t, -2.09375, at(t, crank, "horn").Y)
	assert.Equal(t, 6.5625, run.Rods[0].Length)
	assert.True(t, run.Rods[0].LengthGiven)
	assert.Equal(t, 30.0, run.Controls[0].To)
	assert.Equal(t, 20.0, run.Stops[0].At)
}

// What is set follows through everything that is written with it; what is set of a
// coordinate itself goes before that.
func TestSetDims(t *testing.T) {
	set := func(settings ...Setting) *Run {
		run, err := Read(&Source{Name: "test.hcl", Text: []byte(sized)}, settings...)
		require.NoError(t, err)
		return run
	}
	// It is as if the file said so.
	follows := read(t, strings.Replace(sized, "2 + 5/32", "2.25", 1))
	run := set(Setting{"bench.arm", "2 + 1/4"})
	assert.Equal(t, follows.figures(), run.figures())
	assert.Equal(t, 3*(2.25+1.0/32), run.Rods[0].Length)

	run = set(Setting{"bench.arm", "2.25"}, Setting{"lever.horn.y", "-3"})
	assert.Equal(t, -3.0, at(t, find(t, run, "lever"), "horn").Y)
	assert.Equal(t, -(2.25 - 1.0/16), at(t, find(t, run, "crank"), "horn").Y)

	// One that rests on others, which stay.
	run = set(Setting{"bench.reach", "7"})
	assert.Equal(t, 7.0, find(t, run, "crank").Pivot.X)
	assert.Equal(t, -2.15625, at(t, find(t, run, "lever"), "horn").Y)

	// What With makes of it is the same thing still.
	other, err := run.With(Set(Dimension{Part: find(t, run, "lever"), Point: 0, Axis: 1}, -2.5))
	require.NoError(t, err)
	assert.Equal(t, -2.5, at(t, other.Part(find(t, run, "lever")), "horn").Y)

	for setting, says := range map[Setting]string{
		{"bench.amr", "2"}:          `did you mean "bench.arm"?`,
		{"bench.arm", "bench.rise"}: "a number is wanted here, not a name",
		{"bench.arm", "1e7"}:        "too large",
		{"bench.reach", "-1"}:       "a rod's length is more than 0",
	} {
		_, err := Read(&Source{Name: "test.hcl", Text: []byte(sized)}, setting)
		assert.ErrorContains(t, err, says, "%v", setting)
	}
}

// What is written with a named dimension is never written over.
func TestRewriteKeepsDims(t *testing.T) {
	for _, c := range []Change{{"lever.pivot.y", 1}, {"lever.horn.y", -2}, {"lever.tip.x", 3}, {"lever.tip.z", 1}, {"crank.pivot.x", 6}, {"link.length", 6.5}, {"end.at", 21}} {
		_, err := Rewrite(&Source{Name: "test.hcl", Text: []byte(sized)}, []Change{c})
		require.Error(t, err, c.Dimension)
		assert.ErrorContains(t, err, "never overwritten", c.Dimension)
		assert.Regexp(t, `"bench\.(arm|angle|reach|rise)"`, err.Error(), c.Dimension)
	}
	// What is beside it is, and what would be written as it is stays.
	assert.Equal(t, strings.Replace(sized, "pivot = [0, bench", "pivot = [0.5, bench", 1),
		rewrite(t, sized, Change{"lever.pivot.x", 0.5}, Change{"link.length", 6.5625}, Change{"end.at", 20}, Change{"lever.horn.x", 0.5}, Change{"lever.horn.y", -2.15625}, Change{"lever.tip.x", 4.3125*0.8660254037844386 + 0.5}))
}

// However named dimensions rest on one another, working them out ends, and what
// would not fit in a number is told.
func TestDimsHaveLimits(t *testing.T) {
	chain := func(n int, last string) string {
		var b strings.Builder
		b.WriteString("dims \"chain\" {\n")
		for i := range n {
			b.WriteString("  " + link(i) + " = chain." + link(i+1) + "*chain." + link(i+1) + "\n")
		}
		return bench + b.String() + "  " + link(n) + " = " + last + "\n}\n"
	}
	read(t, chain(99, "1"))
	read(t, chain(99, "1e-99"))
	for text, says := range map[string]string{
		chain(150, "1"):            "more than 100 named dimensions rest on one another",
		chain(100, "1"):            "more than 100 named dimensions rest on one another", // a hundred and one
		chain(9, "10"):             "too large",
		chain(90, "1.1"):           "too large",
		chain(5, "chain."+link(2)): `: "chain.abb", "chain.abbb", "chain.abbbb" and "chain.abbbbb" rest on one another in a circle`, // what leads there isn't named
	} {
		_, err := Read(&Source{Name: "test.hcl", Text: []byte(text)})
		assert.ErrorContains(t, err, says)
	}
}

func link(i int) string { return "a" + strings.Repeat("b", i%10) + strings.Repeat("c", i/10) }
