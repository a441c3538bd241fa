package linkage

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestReadRodEnds(t *testing.T) {
	run := read(t, bench)
	spare, third := run.Rods[2], run.Rods[3]
	require.Len(t, spare.Ends, 2)
	from, to := spare.End("from"), spare.End("to")
	assert.Equal(t, "spare.from", from.String())
	assert.Equal(t, `end "from"`, bench[from.Span.Start:from.Span.End])
	assert.Equal(t, Thread{"1/4-28", 1.0 / 28, 0.25}, from.Thread)
	assert.False(t, from.Left)
	assert.Equal(t, []float64{0.4375, 0.375, 0.75, 0}, []float64{from.Engaged, from.Least, *from.Most, from.Step})
	assert.True(t, from.LeastGiven)
	assert.Equal(t, 0.0625, from.Spare())
	assert.Nil(t, from.Shank)
	assert.Nil(t, from.Exposed())

	// From fully home, half a turn out; a metric thread in inches.
	assert.Equal(t, "M6x1", to.Thread.Name)
	assert.True(t, to.Left)
	assert.InDelta(t, 0.75-0.5/25.4, to.Engaged, 1e-15)
	assert.InDelta(t, 9/25.4, to.Least, 1e-15)
	assert.False(t, to.LeastGiven)
	assert.Equal(t, 0.5, to.Step)
	assert.InDelta(t, 0.25+0.5/25.4, *to.Exposed(), 1e-15)

	// By what stands out of the rod, whose length isn't given.
	end := third.End("to")
	assert.Nil(t, third.End("from"))
	assert.False(t, third.LengthGiven)
	assert.Equal(t, []float64{0.5, 0.625, 1}, []float64{end.Engaged, *end.Exposed(), end.Step})
	assert.Nil(t, end.Most)
	assert.False(t, end.Left)
	assert.False(t, third.Barrel())
	assert.Empty(t, run.Rods[0].Ends)
}

// What is measured the same way round comes to the same thread in the rod.
func TestEngagedInAnyWay(t *testing.T) {
	for _, way := range []string{"engaged = 7/16", "most = 3/4\n home = 28 * 5/16", "shank = 1\n exposed = 9/16"} {
		text := strings.Replace(bench, "    engaged = 7/16\n    least   = 3/8\n    most    = 3/4\n", "    "+way+"\n", 1)
		require.NotEqual(t, bench, text)
		assert.InDelta(t, 0.4375, read(t, text).Rods[2].End("from").Engaged, 1e-15, way)
	}
	// As filed it may be more than bottoms out, or less than is enough: that
	// is judged, not refused.
	for _, engaged := range []string{"7/8", "1/64"} {
		read(t, strings.Replace(bench, "engaged = 7/16", "engaged = "+engaged, 1))
	}
}

func TestReadSecondPaths(t *testing.T) {
	run := read(t, bench)
	for _, rod := range run.Rods {
		assert.Equal(t, rod.Name == "spare", rod.SecondPath, rod.Name)
	}
	assert.Equal(t, 0.015625, run.Rods[2].Play)
	without := read(t, strings.Replace(bench, "  play        = 1/64\n", "", 1))
	assert.True(t, without.Rods[2].SecondPath)
	assert.Zero(t, without.Rods[2].Play)
	// A second path may be metal.
	text := strings.Replace(bench, "  play        = 1/64\n", "  diameter    = 3/8\n", 1)
	metal := read(t, strings.Replace(text, "[lever.heel, link]", "[frame.post, spare]", 1))
	assert.Same(t, metal.Rods[2], metal.Stops[2].Touch[1].Rod)
}

func TestReadAdjustableStops(t *testing.T) {
	run := read(t, bench)
	back, crank := run.Stops[3], run.Stops[4]
	assert.Equal(t, [2]float64{-25, -15}, *back.Adjust)
	assert.Equal(t, []float64{-20.5, 0.25}, []float64{back.At, back.Step})
	assert.Equal(t, [2]float64{-1, 1}, *crank.Adjust)
	assert.Equal(t, 0.5, crank.Step)
	assert.Nil(t, run.Stops[0].Adjust)

	list := faults(t, bench, Setting{"back.at", "-26"})
	require.Len(t, list, 1)
	assert.Equal(t, Fault{Says: "--set back.at=-26: at -26 is beyond what it can be set to, -25 to -15"}, list[0])
	assert.Equal(t, -25.0, read(t, bench, Setting{"back.at", "-25"}).Stops[3].At)
}

func TestReadPins(t *testing.T) {
	run := read(t, bench)
	require.Len(t, run.Pins, 2)
	rig, slide := run.Pins[0], run.Pins[1]
	assert.Equal(t, []string{"rig", "rig-slide"}, []string{rig.Name, slide.Name})
	assert.Same(t, find(t, run, "lever"), rig.Of)
	assert.Equal(t, []float64{0, 0.004}, []float64{rig.At, rig.Within})
	assert.Equal(t, []float64{0.5, 0.015625}, []float64{slide.At, slide.Within})
	assert.Equal(t, 0.1, read(t, strings.Replace(cross, `"in"`, `"mm"`, 1)+"pin \"rig\" {\n  of = bar\n}\n").Pins[0].Within)
	// A pin is nothing that a part's name is wanted for.
	list := faults(t, bench+"stop \"held\" {\n  of = rig\n  at = 1\n}\n")
	assert.Contains(t, list[0].Says, `a part is wanted here, and "rig" is a pin`)
}

// A turn out lengthens the rod by a pitch and takes a pitch from the thread in
// it; of a barrel both ends go.
func TestTurn(t *testing.T) {
	run := read(t, bench)
	third := run.Rods[3]
	end, drawn := third.End("to"), third.Drawn
	turned := edited(t, run, Turn(end, 1.5))
	assert.InDelta(t, drawn+1.5/32, turned.Rod(third).Length, 1e-14)
	assert.InDelta(t, 0.5-1.5/32, turned.RodEnd(end).Engaged, 1e-15)
	assert.Equal(t, 1.5, turned.RodEnd(end).Turned)
	assert.True(t, turned.Rod(third).LengthGiven)
	assert.Equal(t, []float64{drawn, 0.5, 0}, []float64{third.Length, end.Engaged, end.Turned})
	assert.False(t, third.LengthGiven)

	// Opposite hands: 1/28 in and 1 mm a turn together; the same hand: apart.
	for hand, by := range map[string]float64{"left": 1.0/28 + 1/25.4, "right": 1.0/28 - 1/25.4} {
		text := strings.Replace(bench, "    hand   = \"left\"\n", "    hand   = \""+hand+"\"\n    step   = 0\n", 1)
		run := read(t, text)
		spare := run.Rods[2]
		before := spare.End("to").Engaged
		require.True(t, spare.Barrel())
		spare = edited(t, run, Turn(spare.End("from"), 2)).Rod(spare)
		from, to := spare.End("from"), spare.End("to")
		assert.InDelta(t, 11.75+2*by, spare.Length, 1e-14, hand)
		assert.InDelta(t, 2*by, 2*from.PerTurn(), 1e-15, hand)
		assert.InDelta(t, 0.4375-2.0/28, from.Engaged, 1e-15)
		out := math.Copysign(2/25.4, map[string]float64{"left": -1, "right": 1}[hand])
		assert.InDelta(t, out, to.Engaged-before, 1e-15, hand)
	}
}

// The thread in a rod, its length and a stop are changed together, each where
// it stands and in the way that it is given.
func TestRewriteSettings(t *testing.T) {
	out := rewrite(t, bench,
		Change{"spare.from.engaged", 0.4}, Change{"spare.to.engaged", 0.75 - 2.0/25.4}, Change{"spare.length", 11.9},
		Change{"third.to.engaged", 0.53125}, Change{"third.length", 11.625}, Change{"back.at", -22.25})
	assert.Equal(t, strings.NewReplacer(
		"engaged = 7/16", "engaged = 0.4", "home   = 0.5", "home   = 2", "11 + 3/4", "11.9", "exposed = 5/8", "exposed = 0.59375",
		"  to   = crank.tip\n  end", "  to   = crank.tip\n  length = 11.625\n  end", "-(20 + 1/2)", "-22.25").Replace(bench), out)
	run := read(t, out)
	assert.InDelta(t, 0.75-2/25.4, run.Rods[2].End("to").Engaged, 1e-15)

	// What it is already stays as it is written.
	same := rewrite(t, bench, Change{"spare.from.engaged", 0.4375}, Change{"spare.to.engaged", 0.75 - 0.5/25.4}, Change{"third.to.engaged", 0.5000001})
	assert.Equal(t, bench, same)
	// Comments stay with a number given by turns.
	text := strings.Replace(bench, "home   = 0.5", "home   = 1/ /* a half */ 2 # turns", 1)
	assert.Equal(t, strings.Replace(text, "1/ /* a half */ 2 #", "3 /* a half */ #", 1), rewrite(t, text, Change{"spare.to.engaged", 0.75 - 3/25.4}))
}

func TestRewriteSettingsRefuses(t *testing.T) {
	for _, c := range []struct {
		change Change
		says   string
	}{
		{Change{"third.from.engaged", 1}, `no number for "third.from.engaged"`},
		{Change{"spare.from.engagd", 1}, `did you mean "spare.from.engaged"?`},
		{Change{"spare.from.engaged", 0}, "engaged is more than 0"},
		{Change{"spare.to.engaged", 0.8}, "home can't be smaller than 0"},
		{Change{"third.to.engaged", 1.5}, "exposed can't be smaller than 0"},
		{Change{"third.to.engaged", -0.5}, "no thread is left in the rod"},
		{Change{"back.at", -14}, "at -14 is beyond what it can be set to, -25 to -15"},
		{Change{"back.at", 20}, "beyond what it can be set to"},
	} {
		out, err := Rewrite(&Source{Name: "test.hcl", Text: []byte(bench)}, []Change{c.change})
		assert.Nil(t, out)
		assert.ErrorContains(t, err, c.says, "%v", c.change)
	}
}
