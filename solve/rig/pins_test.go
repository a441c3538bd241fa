package rig_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/solve"
	"fullfree/solve/rig"
)

// TestRigBeyondThePins: the left link can't be made to measure what its pins ask
// for, and a grid that is too large to be checked whole must not be cut down to
// what keeps to the other rod's: there the requirements hold.
func TestRigBeyondThePins(t *testing.T) {
	const pins = `
pin "pedal-pin" {
  of     = left
  within = 0.1
}
pin "rocker-pin" {
  of     = rocker
  within = 0.1
}
pin "right-pin" {
  of     = right
  within = 0.1
}
`
	// Lengths 0.95 mm off the pinned one, by steps of 2 mm.
	length := math.Round(math.Hypot(290, 60)*1000)/1000 + 0.95
	for _, c := range []struct {
		name  string
		step  string
		right float64
	}{
		{"one rod can't", "step = 2", length - 0.95},
		{"both can, but then the requirement fails", "step = 0.5", length - 0.95},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := fmt.Sprintf(rigPedals, rigEnd("from", "most = 16", c.step), rigEnd("to", "most = 16"), opposite+pins)
			if c.step == "step = 0.5" { // only a travel that the pinned lengths don't give
				text = strings.Replace(text, opposite, `
require "travel" {
  of     = right
  low    = -23
  high   = 25.8
  within = 0.5
}
`, 1)
			}
			run := read(t, text, set("left-link.length", length), set("right-link.length", c.right))
			m, err := solve.Compile(run)
			require.NoError(t, err)
			part, err := rig.RigWithin(m, 40)
			require.NoError(t, err)
			require.False(t, part.Found, "the left link misses its pins")
			require.False(t, part.Searched.Whole)
			require.False(t, part.Searched.Pins)
			require.NotContains(t, part.Searched.String(), "no better setting")
			require.LessOrEqual(t, part.Searched.Checked, 60)
			require.NotEmpty(t, part.Settings[0].Pinned)
			require.Equal(t, solve.Holds, part.Settings[0].Check.Verdict, "the requirements can be met")
			for _, w := range part.InTheWay {
				require.NotNil(t, w.What.Pinned, "only pins are missed")
				require.Equal(t, c.step == "step = 2" && w.What.Pinned.Rod == run.Rods[0], w.Never)
			}
			whole, err := rig.Search(m, nil)
			require.NoError(t, err)
			require.False(t, whole.Found)
			require.True(t, whole.Searched.Whole)
			require.Equal(t, solve.Holds, whole.Settings[0].Check.Verdict)
		})
	}
}

// TestRigTurnsABarrelToThePins: half turns of it are 1 mm, five times what the
// pins allow each way.
func TestRigTurnsABarrelToThePins(t *testing.T) {
	barrel := rigEnd("from", "most = 16", "step = 0") + rigEnd("to", "most = 16", "step = 0", `hand = "left"`)
	text := fmt.Sprintf(rigPedals, barrel, "", opposite+`
pin "pedal-pin" {
  of     = left
  within = 0.1
}
pin "rocker-pin" {
  of     = rocker
  within = 0.1
}
`)
	run := read(t, text, set("left-link.length", 299.3))
	m, err := solve.Compile(run)
	require.NoError(t, err)
	found, err := rig.Search(m, nil)
	require.NoError(t, err)
	require.True(t, found.Found)
	require.InDelta(t, math.Hypot(290, 60), found.Settings[0].Check.Run.Rods[0].Length, 0.1+1e-6)
}

// TestRigNeverOnlyOfTheWhole: what a part of a grid doesn't meet may be met
// elsewhere.
func TestRigNeverOnlyOfTheWhole(t *testing.T) {
	text := fmt.Sprintf(rigPedals, rigEnd("from", "most = 18"), rigEnd("to", "most = 18"), `require "rod-angle" { least = 89 }`)
	m, err := solve.Compile(read(t, text))
	require.NoError(t, err)
	for _, budget := range []int{40, 4000} {
		found, err := rig.RigWithin(m, budget)
		require.NoError(t, err)
		require.False(t, found.Found)
		require.Len(t, found.InTheWay, 1)
		require.Nil(t, found.InTheWay[0].Best)
		require.Equal(t, budget == 4000, found.Searched.Whole)
		require.Equal(t, found.Searched.Whole, found.InTheWay[0].Never)
	}
}

// TestRigLeavesABarrelThatMovesNothing: ends of one hand and pitch.
func TestRigLeavesABarrelThatMovesNothing(t *testing.T) {
	still := rigEnd("from", "most = 15", "step = 0") + rigEnd("to", "most = 15", "step = 0")
	run, found := rigOf(t, fmt.Sprintf(rigPedals, still, rigEnd("from", "most = 15"), opposite))
	require.Zero(t, run.Rods[0].Ends[0].PerTurn())
	require.Equal(t, 13.0, found.Searched.Poses)
	require.Empty(t, found.Searched.Any)
	for _, s := range found.Settings {
		for _, k := range s.Turns {
			require.Equal(t, run.Rods[1], k.End.Rod)
		}
	}
	m, err := solve.Compile(read(t, fmt.Sprintf(rigPedals, still, "", opposite)))
	require.NoError(t, err)
	_, err = rig.Search(m, nil)
	require.ErrorContains(t, err, "nothing to set")
}

// TestRigTellsOneOfTheAlike: settings of a barrel that nobody could tell apart.
func TestRigTellsOneOfTheAlike(t *testing.T) {
	barrel := rigEnd("from", "most = 15", "step = 0") + rigEnd("to", "most = 15", "step = 0", `hand = "left"`)
	run := read(t, fmt.Sprintf(rigPedals, barrel, "", opposite), set("left-link.length", 295.83))
	m, err := solve.Compile(run)
	require.NoError(t, err)
	found, err := rig.Search(m, nil)
	require.NoError(t, err)
	require.Len(t, found.Settings, 5)
	turns := func(s rig.Setting) float64 {
		if len(s.Turns) == 0 {
			return 0
		}
		return s.Turns[0].Turns
	}
	for i, s := range found.Settings {
		for _, other := range found.Settings[:i] {
			require.GreaterOrEqual(t, math.Abs(turns(s)-turns(other)), 0.01)
		}
	}
}

// TestRigOfALongRun: more rods make each check longer, so there must be fewer.
func TestRigOfALongRun(t *testing.T) {
	most := func(rods int) (most int) {
		var text strings.Builder
		text.WriteString("run \"Chain\" { units = \"mm\" }\n")
		for i := range rods + 1 {
			fmt.Fprintf(&text, "part \"p%d\" {\n  pivot = [%d, 0]\n  points = { a = [%d, 50] }\n}\n", i, i*100, i*100)
		}
		for i := range rods {
			fmt.Fprintf(&text, "rod \"r%d\" {\n  from = p%d.a\n  to = p%d.a\n", i, i, i+1)
			if i == 0 {
				text.WriteString(rigEnd("from", "most = 12.5"))
			}
			text.WriteString("}\n")
		}
		text.WriteString("control \"c\" {\n  of = p0\n  from = -20\n  to = 20\n}\nrequire \"rod-angle\" { least = 40 }\n")
		run := read(t, text.String())
		m, err := solve.Compile(run)
		require.NoError(t, err)
		_, err = rig.Search(m, func(_, of int) { most = of })
		require.NoError(t, err)
		return most
	}
	short, long, longer := most(14), most(42), most(126)
	require.InDelta(t, 3, float64(short)/float64(long), 1)
	require.InDelta(t, 3, float64(long)/float64(longer), 1)
}
