package render

import (
	"testing"

	"fullfree/linkage"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// bench is a rod of 300 mm with two ends of 1 mm pitch, 12 mm in of 9 to 15, set
// by half turns.
func bench() *linkage.Run {
	most := 15.0
	run := rodOf(linkage.RodEnd{Thread: linkage.Thread{Pitch: 1}, Engaged: 12, Least: 9, Most: &most, Step: 0.5})
	run.Units = linkage.Millimeters
	rod := run.Rods[0]
	rod.Length, rod.LengthGiven = 300, true
	holes := &linkage.Part{Points: []linkage.Point{{}, {At: linkage.Vec{X: 300}}}}
	rod.From, rod.To = linkage.PointRef{Part: holes}, linkage.PointRef{Part: holes, Point: 1}
	return run
}

func TestPinnedSays(t *testing.T) {
	const within = 0.1
	shank := 12.0
	for _, c := range []struct {
		off    float64
		change func(from, to *linkage.RodEnd)
		want   string
	}{
		{0.04, nil, "link: its bolt slides in, 0.04 mm off."},
		{1.46, nil, "link: 1.46 mm too long, its bolt does not slide in: turn link.from in by 1.5 turns: then 0.04 mm short."},
		{-1.5, nil, "link: 1.50 mm too short, its bolt does not slide in: turn link.from out by 1.5 turns."},
		{1.27, nil, "link: 1.27 mm too long, its bolt does not slide in: turn link.from in by 1.5 turns: then 0.23 mm short, and it still does not slide in."},
		{0.2, nil, "link: 0.20 mm too long, its bolt does not slide in; as near as half turns come: as it is."},
		{0.2, func(_, to *linkage.RodEnd) { to.Step = 0.25 }, "link: 0.20 mm too long, its bolt does not slide in: turn link.to in by 0.25 turns: then 0.05 mm short."},
		{1.5, func(from, _ *linkage.RodEnd) { from.Engaged = 14 }, "link: 1.50 mm too long, its bolt does not slide in: turn link.to in by 1.5 turns."},
		{1.5, func(from, _ *linkage.RodEnd) { from.Most, from.Shank = nil, &shank }, "link: 1.50 mm too long, its bolt does not slide in: turn link.to in by 1.5 turns."},
		{-4, nil, "link: 4.00 mm too short, its bolt does not slide in: turn link.from out by 4 turns; but no end has the thread for it."},
		// A barrel turns both ends: by both pitches where the hands are opposite.
		{1.46, func(from, to *linkage.RodEnd) { from.Step, to.Step, to.Left = 0, 0, true }, "link: 1.46 mm too long, its bolt does not slide in: turn link.from in by 0.73 turns."},
		{1.46, func(from, to *linkage.RodEnd) { from.Step, to.Step = 0, 0 }, "link: 1.46 mm too long, its bolt does not slide in, and a turn changes nothing."},
	} {
		run := bench()
		rod := run.Rods[0]
		if c.change != nil {
			c.change(rod.Ends[0], rod.Ends[1])
		}
		was, length := rod.Ends[0].Engaged, rod.Length-c.off
		fit := solve.PinnedRod{Rod: rod, Pins: []*linkage.Pin{{Within: within}}, Length: &length, Off: c.off, Turn: solve.NearestTurn(rod, -c.off)}
		assert.Equal(t, c.want, pinnedSays("mm", &fit))
		assert.Equal(t, 300.0, rod.Length)
		assert.Equal(t, was, rod.Ends[0].Engaged)
	}
}

func TestShankFaults(t *testing.T) {
	run := bench()
	require.Empty(t, solve.UnfitSettings(run))
	shank := 11.5
	run.Rods[0].Ends[1].Shank = &shank
	assert.Equal(t, []string{"link.to falls short: its shank has 11.50 mm of thread, and 12.00 mm in the rod is asked for."}, UnfitSay(run, solve.UnfitSettings(run)))
}
