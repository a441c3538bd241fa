package solve

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"fullfree/linkage"
	"fullfree/linkage/hunt"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// rodWith is a rod of 300 mm with two ends that are alike but for their side.
func rodWith(end linkage.RodEnd) *linkage.Run {
	rod := &linkage.Rod{Name: "link", Length: 300}
	for _, side := range []string{"from", "to"} {
		e := end
		e.Rod, e.Side = rod, side
		rod.Ends = append(rod.Ends, &e)
	}
	return &linkage.Run{Units: linkage.Millimeters, Rods: []*linkage.Rod{rod}}
}

// What an end can't be set to, on both sides of every limit: by hand.
func TestUnfitSettings(t *testing.T) {
	most, shank := 15.0, 14.0
	pitch := linkage.Thread{Pitch: 1}
	for _, c := range []struct {
		end          linkage.RodEnd
		why          Why
		worst, limit float64
		unit         linkage.Unit
	}{
		{end: linkage.RodEnd{Engaged: 9, Least: 9}},
		{end: linkage.RodEnd{Engaged: 9 - 1e-12, Least: 9}}, // what rounding leaves
		{linkage.RodEnd{Engaged: 8.99, Least: 9}, ThreadShort, 8.99, 9, "mm"},
		{linkage.RodEnd{Engaged: 0.01, Least: 9, LeastGiven: true}, ThreadShort, 0.01, 9, "mm"},
		{linkage.RodEnd{Engaged: 0, Least: 9}, ComesOut, 0, 9, "mm"},
		{linkage.RodEnd{Engaged: -2, Least: 9}, ComesOut, -2, 9, "mm"},
		{end: linkage.RodEnd{Engaged: 15, Least: 9, Most: &most}},
		{linkage.RodEnd{Engaged: 15.01, Least: 9, Most: &most}, BottomsOut, 15.01, 15, "mm"},
		{end: linkage.RodEnd{Engaged: 14, Least: 9, Most: &most, Shank: &shank}},
		{linkage.RodEnd{Engaged: 14.5, Least: 9, Most: &most, Shank: &shank}, PastShank, 14.5, 14, "mm"},
		{end: linkage.RodEnd{Engaged: 10, Least: 9, Step: 0.5, Turned: -1.5}},
		{end: linkage.RodEnd{Engaged: 10, Least: 9, Step: 0.5, Turned: 0.1 + 0.4}},
		{end: linkage.RodEnd{Engaged: 10, Least: 9, Turned: 0.123}}, // any
		{linkage.RodEnd{Engaged: 10, Least: 9, Step: 0.5, Turned: -0.75}, OffStep, -0.75, 0.5, "turns"},
	} {
		c.end.Thread = pitch
		about := fmt.Sprintf("%+v", c.end)
		run := rodWith(c.end)
		list := UnfitSettings(run)
		nut := &linkage.CableEnd{Side: "conduit-to", Engaged: c.end.Engaged, Least: c.end.Least, Most: c.end.Most, Step: c.end.Step, Turned: c.end.Turned}
		cable := &linkage.Cable{Name: "push", Ends: []*linkage.CableEnd{nut}}
		nut.Cable = cable
		nuts := UnfitSettings(&linkage.Run{Units: linkage.Millimeters, Cables: []*linkage.Cable{cable}})
		if c.why == Plain {
			assert.Empty(t, list, about)
			assert.Empty(t, nuts, about)
			continue
		}
		require.Len(t, list, 2, about)
		for i, side := range []string{"from", "to"} {
			j := list[i]
			assert.Equal(t, linkage.Requirement{Kind: linkage.AsSet, Name: "link." + side}, *j.Requirement, about)
			assert.Equal(t, []any{FallsShort, c.why, c.worst, c.limit, c.unit, run.Rods[0], side}, []any{j.Verdict, j.Why, *j.Worst, j.Limit, j.Unit, j.Rod, j.End}, about)
			assert.Nil(t, j.At, about)
			assert.Nil(t, j.Reserve(), about)
		}
		if c.why == PastShank {
			continue // nuts have none
		}
		require.Len(t, nuts, 1, about)
		assert.Equal(t, []any{"push.conduit-to", c.why, c.worst, cable}, []any{nuts[0].Requirement.Name, nuts[0].Why, *nuts[0].Worst, nuts[0].Cable}, about)
	}
}

// An end may be wrong in several ways at once.
func TestUnfitSettingsTellsAll(t *testing.T) {
	most, shank := 12.0, 11.0
	list := UnfitSettings(rodWith(linkage.RodEnd{Engaged: 13, Least: 9, Most: &most, Shank: &shank, Step: 0.5, Turned: 0.2}))
	require.Len(t, list, 6)
	assert.Equal(t, []Why{BottomsOut, PastShank, OffStep}, []Why{list[0].Why, list[1].Why, list[2].Why})
}

// screwedBars is two levers joined by a rod with an end, and what else is required.
func screwedBars(end, more string) string {
	return `run "Bars" { units = "mm" }
part "lever" {
  pivot  = [0, 0]
  points = { horn = [0, -60] }
}
part "crank" {
  pivot  = [200, 0]
  points = { horn = [200, -60] }
}
rod "link" {
  from = lever.horn
  to   = crank.horn
  end "from" {
    thread = "M6x1"
    ` + end + `
  }
}
control "hand" {
  of   = lever
  from = -20
  to   = 20
}
` + more
}

// What can't be set falls short whatever is required, also where nothing is, and is
// told once: by "engagement" where that is required.
func TestVerdictOfSettings(t *testing.T) {
	const (
		holds      = "require \"rod-angle\" { least = 30 }\n"
		short      = "require \"rod-angle\" { least = 89 }\n"
		engagement = "require \"engagement\" {}\n"
	)
	for _, c := range []struct {
		end, more string
		turns     float64
		verdict   Verdict
		settings  []Why
	}{
		{"engaged = 11", "", 0, CannotTell, nil},
		{"engaged = 11", holds, 0, Holds, nil},
		{"engaged = 11", engagement, 0, Holds, nil},
		{"engaged = 0.01", "", 0, FallsShort, []Why{ThreadShort}},
		{"engaged = 0.01", holds, 0, FallsShort, []Why{ThreadShort}},
		{"engaged = 0.01", short, 0, FallsShort, []Why{ThreadShort}},
		{"engaged = 0.01", engagement, 0, FallsShort, nil},
		{"engaged = 5\n    least = 4", holds, 0, Holds, nil},
		{"engaged = 5", holds, 0, FallsShort, []Why{ThreadShort}},
		{"engaged = 13\n    most = 12", holds, 0, FallsShort, []Why{BottomsOut}},
		{"engaged = 13\n    most = 12", engagement, 0, FallsShort, nil},
		{"engaged = 11\n    shank = 12", engagement, -2, FallsShort, []Why{PastShank}},
		{"engaged = 11", engagement, 0.25, FallsShort, []Why{OffStep}},
		{"engaged = 11", holds, 0.25, FallsShort, []Why{OffStep}},
		{"engaged = 11\n    step = 0", holds, 0.25, Holds, nil},
		{"engaged = 11", holds, 11.5, FallsShort, []Why{ComesOut}},
	} {
		about := fmt.Sprint(c)
		m := compiled(t, screwedBars(c.end, c.more))
		set, err := m.run.With(linkage.Turn(m.run.Rods[0].Ends[0], c.turns))
		require.NoError(t, err)
		n, err := Compile(set)
		require.NoError(t, err, about)
		result, err := n.Check()
		require.NoError(t, err, about)
		assert.Equal(t, c.verdict, result.Verdict, about)
		assert.Len(t, result.Requirements, len(m.run.Requirements), about)
		var whys []Why
		for _, j := range result.Settings() {
			whys = append(whys, j.Why)
		}
		assert.Equal(t, c.settings, whys, about)
		assert.Len(t, result.Judged(), len(result.Requirements)+len(c.settings), about)
	}
}

// TestHuntOneVerdictOnThread: with "engagement" required or without, a run as it is
// set at random falls short at the same settings, and these are what the limits say.
func TestHuntOneVerdictOnThread(t *testing.T) {
	hunt.Each(t, 60, func(t *testing.T, random *rand.Rand) {
		tenths := func(low, high int) float64 { return float64(low+random.IntN(high-low)) / 10 }
		engaged, least, most := tenths(1, 200), tenths(1, 150), tenths(150, 250)
		given := fmt.Sprintf("engaged = %g\n    least = %g\n    most = %g", engaged, least, most)
		if random.IntN(2) == 0 {
			least = 9 // 1.5 diameters
			given = fmt.Sprintf("engaged = %g\n    most = %g", engaged, most)
		}
		halves := random.IntN(41) - 20
		turns := float64(halves) / 2
		off := random.IntN(4) == 0
		if off {
			turns += 0.25
		}
		in := engaged - turns
		fits := in >= least-1e-6 && in <= most+1e-6
		for _, more := range []string{"", "require \"rod-angle\" { least = 1 }\n", "require \"engagement\" {}\n"} {
			m := compiled(t, screwedBars(given, more))
			set, err := m.run.With(linkage.Turn(m.run.Rods[0].Ends[0], turns))
			require.NoError(t, err)
			n, err := Compile(set)
			require.NoError(t, err)
			result, err := n.Check()
			require.NoError(t, err)
			require.Equal(t, !fits || off, result.Verdict == FallsShort, "%s, %g turns, %s", given, turns, more)
		}
	})
}

// A turn of an end that brings its rod to a length is made by the end with the thread
// for it, and leaves the run alone.
func TestNearestTurn(t *testing.T) {
	most := 15.0
	end := linkage.RodEnd{Thread: linkage.Thread{Pitch: 1}, Engaged: 12, Least: 9, Most: &most, Step: 0.5}
	run := rodWith(end)
	n := NearestTurn(run.Rods[0], -1.46)
	assert.Equal(t, []any{"link.from", -1.5, true}, []any{n.End.String(), n.Turns, n.HasThread})
	assert.InDelta(t, -0.04, n.Left, 1e-12)
	run.Rods[0].Ends[0].Engaged = 14 // has room for one
	n = NearestTurn(run.Rods[0], -1.5)
	assert.Equal(t, []any{"link.to", -1.5, 0.0, true}, []any{n.End.String(), n.Turns, n.Left, n.HasThread})
	n = NearestTurn(run.Rods[0], 9)
	assert.False(t, n.HasThread)
	assert.Equal(t, []float64{300, 14, 12}, []float64{run.Rods[0].Length, run.Rods[0].Ends[0].Engaged, run.Rods[0].Ends[1].Engaged})
	// Of a barrel with ends of one hand the other goes in as one comes out.
	end.Step, end.Thread.Pitch = 0, 1.25
	run = rodWith(end)
	run.Rods[0].Ends[1].Thread.Pitch = 1
	assert.True(t, NearestTurn(run.Rods[0], 0.25*2.4).HasThread, "2.4 turns: 3 mm out of the one, 2.4 mm into the other")
	assert.False(t, NearestTurn(run.Rods[0], 0.25*2.5).HasThread)
	run.Rods[0].Ends[1].Thread.Pitch = 1.25
	assert.Nil(t, NearestTurn(run.Rods[0], 1), "a turn changes nothing")
}
