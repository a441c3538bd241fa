package rig_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
	"fullfree/solve/rig"
)

// rigPedals is a pair of pedals with a reversing rocker, in millimeters, set as
// equal as half turns of the left rod make them: %s are the left rod's ends, the
// right rod's ends, and what follows.
const rigPedals = `
run "Pedals" { units = "mm" }
part "left" {
  pivot  = [0, 0]
  points = { horn = [0, -60] }
}
part "right" {
  pivot  = [0, 0]
  points = { horn = [0, -60] }
}
part "rocker" {
  pivot = [300, -60]
  arms  = { upper = [-10, 60], lower = [-10, -60] }
}
rod "left-link" {
  from   = left.horn
  to     = rocker.upper
  length = 295.4
%s
}
rod "right-link" {
  from   = right.horn
  to     = rocker.lower
  length = 296.7
%s
}
control "pedals" {
  of   = left
  from = -40
  to   = 40
}
stop "aft" {
  of = left
  at = -24
}
stop "forward" {
  of = left
  at = 24
}
%s
`

// opposite is what the pedals are there for.
const opposite = `
require "opposite" {
  of     = [left, right]
  within = 1.5
}
require "rod-angle" { least = 30 }
`

// rigEnd is an end with a pitch of 1 mm.
func rigEnd(side string, more ...string) string {
	return fmt.Sprintf("  end %q {\n    thread = \"M6x1\"\n    engaged = 12\n    least = 9\n    %s\n  }\n", side, strings.Join(more, "\n    "))
}

func rigOf(t testing.TB, text string) (*linkage.Run, *rig.Answer) {
	t.Helper()
	run := read(t, text)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	found, err := rig.Search(m, nil)
	require.NoError(t, err)
	return run, found
}

// told writes a setting's turns and stops.
func told(s *rig.Setting) string {
	var list []string
	for _, k := range s.Turns {
		list = append(list, fmt.Sprintf("%s=%+g", k.End, k.Turns))
	}
	for _, k := range s.Stops {
		list = append(list, fmt.Sprintf("%s@%g", k.Stop.Name, k.At))
	}
	return strings.Join(list, " ")
}

// TestRigFindsWhatWasTurned turns one rod of pedals that were right, and lets the
// other be fixed: the search must turn it back, to the half turn.
func TestRigFindsWhatWasTurned(t *testing.T) {
	right := fmt.Sprintf(rigPedals, rigEnd("from", "most = 18"), "", opposite)
	run := read(t, right)
	_, found := rigOf(t, right)
	require.True(t, found.Found)
	require.Empty(t, told(&found.Settings[0]), "they are right as they are")
	for _, wrong := range []float64{-3, -1.5, 0.5, 1.5, 2.5} {
		text := fmt.Sprintf(rigPedals, strings.Replace(rigEnd("from", "most = 18"), "12", num(12-wrong), 1), "", opposite)
		text = strings.Replace(text, "length = 295.4", "length = "+num(run.Rods[0].Length+wrong), 1)
		_, found := rigOf(t, text)
		require.True(t, found.Found)
		require.Equal(t, fmt.Sprintf("left-link.from=%+g", -wrong), told(&found.Settings[0]))
		require.True(t, found.Searched.Whole)
		require.Equal(t, float64(found.Searched.Checked), found.Searched.Poses)
		require.Equal(t, solve.Holds, found.Settings[0].Verdict)
	}
}

// TestRigAroundAgainstWhole lets the search check only part of a grid: what it
// finds must still be what all of it holds, and it must tell.
func TestRigAroundAgainstWhole(t *testing.T) {
	text := fmt.Sprintf(rigPedals, rigEnd("from", "most = 18"), rigEnd("to", "most = 18"), opposite)
	for _, length := range []float64{292.9, 295.4, 298.4} {
		run := read(t, text, set("left-link.length", length))
		m, err := solve.Compile(run)
		require.NoError(t, err)
		whole, err := rig.Search(m, nil)
		require.NoError(t, err)
		require.True(t, whole.Searched.Whole)
		part, err := rig.RigWithin(m, 160)
		require.NoError(t, err)
		require.False(t, part.Searched.Whole)
		require.Positive(t, part.Searched.Around)
		require.Less(t, part.Searched.Checked, 161)
		require.Contains(t, part.Searched.String(), "not those farther off")
		require.InDelta(t, *whole.Settings[0].Reserve, *part.Settings[0].Reserve, 1e-3)
		require.Equal(t, told(&whole.Settings[0]), told(&part.Settings[0]))
		for budget := 1; budget < 12; budget += 2 { // too few for a box: it still tells what it has
			few, err := rig.RigWithin(m, budget)
			require.NoError(t, err)
			require.NotEmpty(t, few.Settings)
			require.False(t, few.Searched.Whole)
			require.Contains(t, few.Searched.String(), "not ")
		}
	}
}

// TestRigLeavesTheRunAsItWas also sets the run as found, and checks it again.
func TestRigLeavesTheRunAsItWas(t *testing.T) {
	text := fmt.Sprintf(rigPedals, rigEnd("from", "most = 15"), rigEnd("to", "most = 15"), opposite)
	run := read(t, text, set("left-link.length", 298.2))
	m, err := solve.Compile(run)
	require.NoError(t, err)
	last := 0
	found, err := rig.Search(m, func(checked, most int) {
		require.Equal(t, last+1, checked)
		require.LessOrEqual(t, checked, most)
		last = checked
	})
	require.NoError(t, err)
	require.Positive(t, last)
	engaged := func(run *linkage.Run) []float64 {
		return []float64{run.Rods[0].Length, run.Rods[1].Length, run.Rods[0].Ends[0].Engaged, run.Rods[1].Ends[0].Engaged}
	}
	require.Equal(t, []float64{298.2, 296.7, 12, 12}, engaged(run))
	best := found.Settings[0]
	set := edited(t, run, best.Edits()...)
	require.NotEqual(t, []float64{298.2, 296.7, 12, 12}, engaged(set))
	require.Equal(t, engaged(set), engaged(best.Check.Run))
	again, err := solve.Compile(set)
	require.NoError(t, err)
	result, err := again.Check()
	require.NoError(t, err)
	require.Equal(t, *best.Check.Requirements[0].Worst, *result.Requirements[0].Worst)
	require.Equal(t, []float64{298.2, 296.7, 12, 12}, engaged(run))
	same, err := rig.Search(m, nil)
	require.NoError(t, err)
	for i := range found.Settings {
		require.Equal(t, told(&found.Settings[i]), told(&same.Settings[i]))
		require.Equal(t, *found.Settings[i].Reserve, *same.Settings[i].Reserve)
	}
}

func TestRigWithoutASolution(t *testing.T) {
	// The left link as it is suits "opposite"; "travel" wants it 2 mm shorter.
	text := fmt.Sprintf(rigPedals, rigEnd("from", "most = 15"), "", `
require "opposite" {
  of     = [left, right]
  within = 0.4
}
require "travel" "right pedal" {
  of     = right
  low    = -22
  high   = 26.7
  within = 0.5
}
`)
	_, found := rigOf(t, text)
	require.False(t, found.Found)
	require.NotEmpty(t, found.Settings)
	require.Negative(t, *found.Settings[0].Reserve)
	require.NotEmpty(t, found.InTheWay)
	for _, w := range found.InTheWay {
		require.False(t, w.Never)
		require.Len(t, w.Fails, 1)
		require.NotEqual(t, w.What.Requirement, w.Fails[0].Requirement)
	}
	never := fmt.Sprintf(rigPedals, rigEnd("from", "most = 15"), "", `require "rod-angle" { least = 89 }`)
	_, found = rigOf(t, never)
	require.False(t, found.Found)
	require.Len(t, found.InTheWay, 1)
	require.True(t, found.InTheWay[0].Never)
	require.Nil(t, found.InTheWay[0].Best)
}

func TestRigRefuses(t *testing.T) {
	fault := func(text string) string {
		m, err := solve.Compile(read(t, text))
		require.NoError(t, err)
		_, err = rig.Search(m, nil)
		require.Error(t, err)
		return err.Error()
	}
	require.Contains(t, fault(fmt.Sprintf(rigPedals, "", "", opposite)), "nothing to set")
	require.Contains(t, fault(fmt.Sprintf(rigPedals, rigEnd("from"), "", "")), "nothing is required")
	adjust := func(text string) string {
		return strings.Replace(text, "at = 24\n", "at = 24\n  adjust = [5, 24]\n", 1)
	}
	require.Contains(t, fault(adjust(fmt.Sprintf(rigPedals, "", "", opposite))), `the stop "forward" isn't moved while no travel is required`)

	_, found := rigOf(t, adjust(fmt.Sprintf(rigPedals, rigEnd("from", "most = 13"), "", opposite)))
	require.Len(t, found.StopsLeft, 1)
	for _, s := range found.Settings {
		require.Empty(t, s.Stops, "a shorter travel would be prettier")
	}
}

// TestRigKeepsToTheThread: an end goes no farther than its thread lets it.
func TestRigKeepsToTheThread(t *testing.T) {
	text := fmt.Sprintf(rigPedals, rigEnd("from"), "", opposite)
	// It would have to come 5 turns out, and lets go after 3.
	run := read(t, text, set("left-link.length", 290.4))
	m, err := solve.Compile(run)
	require.NoError(t, err)
	found, err := rig.Search(m, nil)
	require.NoError(t, err)
	require.False(t, found.Found)
	require.Equal(t, "left-link.from=+3", told(&found.Settings[0]))
	require.Equal(t, []*linkage.RodEnd{run.Rods[0].Ends[0]}, found.NoMost)
	require.Equal(t, 27, found.Searched.Checked, "10 turns in to 3 out, by half turns")

	// Nor farther in than it has thread: 1.2 mm more.
	m, err = solve.Compile(read(t, fmt.Sprintf(rigPedals, rigEnd("from", "shank = 13.2"), "", opposite), set("left-link.length", 298.9)))
	require.NoError(t, err)
	found, err = rig.Search(m, nil)
	require.NoError(t, err)
	require.Equal(t, "left-link.from=-1", told(&found.Settings[0]))

	// Already out too far by 0.2 mm: a half turn in is the least.
	text = fmt.Sprintf(rigPedals, strings.Replace(rigEnd("from", "most = 15"), "engaged = 12", "engaged = 8.8", 1), "", opposite)
	_, found = rigOf(t, text)
	require.True(t, found.Found)
	require.Equal(t, "left-link.from=-0.5", told(&found.Settings[0]))

	// A step that overshoots both limits.
	text = fmt.Sprintf(rigPedals, strings.Replace(rigEnd("from", "most = 9.3", "step = 1"), "engaged = 12", "engaged = 9.8", 1), "", opposite)
	run, found = rigOf(t, text)
	require.False(t, found.Found)
	require.Equal(t, []*linkage.RodEnd{run.Rods[0].Ends[0]}, found.Outside)
	require.NotEmpty(t, found.InTheWay)
	require.Equal(t, run.Rods[0].Ends[0], found.InTheWay[len(found.InTheWay)-1].What.End)
	require.Equal(t, solve.FallsShort, found.Settings[0].Verdict)
}

// TestRigBarrels: a barrel is one variable, and can be turned to any figure. The
// best is found again by a golden section of the lengths.
func TestRigBarrels(t *testing.T) {
	for _, c := range []struct {
		hand string
		per  float64
	}{{"left", 2.25}, {"right", 0.25}} {
		ends := strings.Replace(rigEnd("from", "most = 15", "step = 0"), "M6x1", "M8x1.25", 1) + rigEnd("to", "most = 15", "step = 0", fmt.Sprintf("hand = %q", c.hand))
		text := fmt.Sprintf(rigPedals, ends, "", opposite)
		const off = 0.43
		start := 295.4 + off
		run := read(t, text, set("left-link.length", start))
		reserve := func(turns float64) float64 {
			return *check(t, text, set("left-link.length", start+turns*c.per)).Reserve()
		}
		low, high := -2.4, 2.4
		for high-low > 1e-7 {
			a, b := low+(high-low)*0.382, low+(high-low)*0.618
			if reserve(a) < reserve(b) {
				low = a
			} else {
				high = b
			}
		}
		most := reserve(low)
		m, err := solve.Compile(run)
		require.NoError(t, err)
		found, err := rig.Search(m, nil)
		require.NoError(t, err)
		require.True(t, found.Found)
		best := found.Settings[0]
		require.Len(t, best.Turns, 1)
		require.Equal(t, "from", best.Turns[0].End.Side)
		require.InDelta(t, most-1e-3, *best.Reserve, 1e-3, "within a thousandth")
		require.GreaterOrEqual(t, *best.Reserve, most-1.1e-3)
		turns := best.Turns[0].Turns
		require.Less(t, reserve(turns-math.Copysign(1.0/1024, turns)), most-1e-3, "fewer turns would do")
		require.InDelta(t, start+turns*c.per, best.Check.Run.Rods[0].Length, 1e-9)
		require.Len(t, found.Searched.Any, 1)
		require.Equal(t, 0.5, found.Searched.Any[0].Step)
	}
}

// TestRigTwoBarrels: what two of them do together lies on a ridge.
func TestRigTwoBarrels(t *testing.T) {
	barrel := rigEnd("from", "most = 15", "step = 0") + rigEnd("to", "most = 15", "step = 0", `hand = "left"`)
	text := fmt.Sprintf(rigPedals, barrel, barrel, opposite)
	run := read(t, text, set("left-link.length", 298.1), set("right-link.length", 296.1))
	m, err := solve.Compile(run)
	require.NoError(t, err)
	found, err := rig.Search(m, nil)
	require.NoError(t, err)
	require.True(t, found.Found)
	best := 0.0
	for a := -1.5; a <= 1.5; a += 0.25 {
		for b := -1.5; b <= 1.5; b += 0.25 {
			result := check(t, text, set("left-link.length", 298.1+2*a), set("right-link.length", 296.1+2*b))
			best = math.Max(best, *result.Reserve())
		}
	}
	require.Greater(t, *found.Settings[0].Reserve, best-1e-3)
}

// TestRigKeepsToThePins: with the pins in, the left link measures as drawn, from
// (0, -60) to (290, 0).
func TestRigKeepsToThePins(t *testing.T) {
	const pins = `
pin "pedal-pin" {
  of     = left
  within = 0.3
}
pin "rocker-pin" {
  of     = rocker
  within = 0.4
}
`
	measures := math.Hypot(290, 60)
	text := fmt.Sprintf(rigPedals, rigEnd("from", "most = 15"), rigEnd("to", "most = 15"), opposite+pins)
	run := read(t, text, set("left-link.length", 297.9)) // half turns leave it 0.24 or 0.26 off
	m, err := solve.Compile(run)
	require.NoError(t, err)
	found, err := rig.Search(m, nil)
	require.NoError(t, err)
	require.True(t, found.Found)
	for _, s := range found.Settings {
		off := math.Abs(s.Check.Run.Rods[0].Length - measures)
		require.Equal(t, solve.Holds, s.Verdict)
		require.LessOrEqual(t, off, 0.3)
		require.Empty(t, s.Pinned)
	}
	part, err := rig.RigWithin(m, 30)
	require.NoError(t, err)
	require.True(t, part.Searched.Pins)
	require.True(t, part.Searched.Whole)
	require.Equal(t, 27, part.Searched.Checked, "two lengths of one rod, all of the other, and the file as it is")
	require.Equal(t, told(&found.Settings[0]), told(&part.Settings[0]))

	run = read(t, strings.Replace(text, "within = 0.3", "within = 0.1", 1), set("left-link.length", 297.9))
	m, err = solve.Compile(run)
	require.NoError(t, err)
	found, err = rig.Search(m, nil)
	require.NoError(t, err)
	require.False(t, found.Found)
	require.Len(t, found.InTheWay, 1)
	require.Equal(t, run.Rods[0], found.InTheWay[0].What.Pinned.Rod)
	require.True(t, found.InTheWay[0].Never)
	require.Len(t, found.Settings[0].Pinned, 1)
	require.Equal(t, solve.FallsShort, found.Settings[0].Verdict)
}

func TestReserve(t *testing.T) {
	worst := func(v float64) *float64 { return &v }
	for _, c := range []struct {
		kind         linkage.Kind
		worst, limit float64
		want         *float64
	}{
		{linkage.Opposite, 0.3, 0.5, worst(0.4)},
		{linkage.Together, 0.75, 0.5, worst(-0.5)},
		{linkage.Travel, 0, 1, worst(1)},
		{linkage.Steady, 0.5, 0.5, worst(0)},
		{linkage.Misalignment, 6, 8, worst(0.25)},
		{linkage.SecondPath, 0.1, 0.4, worst(0.75)},
		{linkage.RodAngle, 45, 30, worst(0.5)},
		{linkage.Clearance, 4, 5, worst(-0.2)},
		{linkage.Order, 3, 2, worst(0.5)},
		{linkage.OverCenter, 20, 10, worst(1)},
		{linkage.Taut, 90, 60, worst(0.5)},
		{linkage.Meets, 0.2, 0.5, worst(0.6)},
		{linkage.Misalignment, -2, 0, nil},
		{linkage.Opposite, 0.3, 0, nil},
		{linkage.Sense, 0.9, 0, nil},
		{linkage.Stops, 0, 0, nil},
		{linkage.Engagement, 1.5, 0, nil},
	} {
		j := solve.Judgement{Requirement: &linkage.Requirement{Kind: c.kind}, Worst: &c.worst, Limit: c.limit}
		got := j.Reserve()
		if c.want == nil {
			require.Nil(t, got, c.kind)
			continue
		}
		require.InDelta(t, *c.want, *got, 1e-12, c.kind)
	}
	none := solve.Judgement{Requirement: &linkage.Requirement{Kind: linkage.OverCenter}, Worst: worst(20), Limit: 10, NoneFound: true}
	require.Nil(t, none.Reserve())
	none = solve.Judgement{Requirement: &linkage.Requirement{Kind: linkage.Clearance}, Limit: 5}
	require.Nil(t, none.Reserve())
}
