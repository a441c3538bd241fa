package render

import (
	"testing"

	"fullfree/linkage"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
)

func TestTurnsInWords(t *testing.T) {
	for turns, want := range map[float64]string{
		0.5: "half a turn out", -0.5: "half a turn in", 1: "1 turn out", -1.5: "1.5 turns in",
		0.256: "0.26 turns out", 0.0004: "0.0004 turns out", 0: "0 turns out", 10: "10 turns out",
	} {
		assert.Equal(t, want, signedTurns(turns))
	}
}

// rodOf is a rod with two ends that are alike but for their side.
func rodOf(end linkage.RodEnd) *linkage.Run {
	rod := &linkage.Rod{Name: "link"}
	for _, side := range []string{"from", "to"} {
		e := end
		e.Rod, e.Side = rod, side
		rod.Ends = append(rod.Ends, &e)
	}
	return &linkage.Run{Units: linkage.Inches, Rods: []*linkage.Rod{rod}}
}

func TestThreadFaults(t *testing.T) {
	most := 0.75
	for _, c := range []struct {
		engaged float64
		want    string
	}{
		{0.375, ""},
		{0.375 - 1e-12, ""}, // what rounding leaves
		{0.36, "link.from falls short of thread: in the rod 0.360 in, wanted 0.375 in (3/8), missed by 0.015 in."},
		{0.75, ""},
		{0.76, "link.from falls short: it bottoms out at 0.750 in (3/4), and 0.760 in is asked for."},
		{0, "link.from comes out of the rod: 0.375 in (3/8) of thread wanted."},
		{-0.1, "link.from comes out of the rod: 0.375 in (3/8) of thread wanted."},
	} {
		run := rodOf(linkage.RodEnd{Engaged: c.engaged, Least: 0.375, Most: &most})
		got := UnfitSay(run, solve.UnfitSettings(run))
		if c.want == "" {
			assert.Empty(t, got, "%g", c.engaged)
			continue
		}
		assert.Len(t, got, 2)
		assert.Equal(t, c.want, got[0])
	}
}

func TestStepFaults(t *testing.T) {
	run := rodOf(linkage.RodEnd{Engaged: 1, Step: 0.5, Turned: -0.75})
	assert.Equal(t, "link.from can't be turned 0.75 turns in: it goes by half a turn at a time.", UnfitSay(run, solve.UnfitSettings(run))[0])
}

func TestTheMakersFigureIsMissing(t *testing.T) {
	run := rodOf(linkage.RodEnd{})
	assert.Contains(t, makerSays(run), "The maker's figure is missing for link.from and link.to:")
	run.Rods[0].Ends[0].LeastGiven = true
	assert.Contains(t, makerSays(run), "The maker's figure is missing for link.to:")
	run.Rods[0].Ends[1].LeastGiven = true
	assert.Empty(t, makerSays(run))
}
