package render

import (
	"strings"
	"testing"

	"fullfree/linkage"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// turnedNuts checks a demo with its adjusters turned.
func turnedNuts(t testing.TB, kind string, turns map[string]float64) *solve.Result {
	t.Helper()
	run, err := linkage.Read(&linkage.Source{Name: kind, Text: []byte(sample.DemoText(t, kind))})
	require.NoError(t, err)
	for _, e := range CableEnds(run) {
		run, err = run.With(linkage.TurnCable(e, turns[e.String()]))
		require.NoError(t, err)
	}
	m, err := solve.Compile(run)
	require.NoError(t, err)
	r, err := m.Check()
	require.NoError(t, err)
	return r
}

// saysOf is what is said of the first requirement of a kind.
func saysOf(t testing.TB, r *solve.Result, kind linkage.Kind) string {
	t.Helper()
	for i := range r.Requirements {
		if j := &r.Requirements[i]; j.Requirement.Kind == kind {
			return Says(r, j)
		}
	}
	require.Fail(t, "no such requirement")
	return ""
}

// Both cables of the demo pull alike, 120 N and 19 N more for each turn out of one
// nut: half of the millimeter goes into either, at 38 N a mm.
func TestSaysTaut(t *testing.T) {
	for _, c := range []struct {
		turns float64 // out, of both
		want  string
	}{
		{0, "Both cables of lift stay taut: at the least lift-up pulls 120 N, with collective at neutral. 60 N wanted, 60 N in hand."},
		{-2, "The cables of lift don't stay tight enough: at the least lift-up pulls 44 N, with collective at neutral. 60 N wanted, missed by 16 N."},
	} {
		r := turnedNuts(t, "lift-cables", map[string]float64{"lift-up.conduit-from": c.turns, "lift-down.conduit-from": c.turns})
		assert.Equal(t, c.want, saysOf(t, r, linkage.Taut), "%g", c.turns)
	}
	assert.Equal(t, "Both cables of tail stay taut: at the least tail-left pulls 220 N, wherever the run stands. 80 N wanted, 140 N in hand.",
		saysOf(t, sample.Checked(t, "x", sample.DemoText(t, "pedals-cable")), linkage.Taut))

	// 120/38 turns in leave nothing; a little more, and they are slack about
	// neutral but not at the ends, where the lever draws both up.
	slack := turnedNuts(t, "lift-cables", map[string]float64{"lift-up.conduit-from": -3.165, "lift-down.conduit-from": -3.165})
	s := slack.Sweeps[0]
	require.Len(t, s.Cables[0].Slack, 1)
	assert.Greater(t, s.Cables[0].Slack[0][0], s.Low)
	assert.Less(t, s.Cables[0].Slack[0][1], s.High)
	said := saysOf(t, slack, linkage.Taut)
	assert.Regexp(t, `^Both cables of lift hang slack with collective from -\d\.\d° to \d\.\d°\. Then nothing holds crosshead: it floats, 0\.01 mm at most from one end to the other, with collective at neutral\. 60 N wanted, missed by 60 N\.$`, said)
	assert.Regexp(t, `lift-up and lift-down hang slack with collective from -\d\.\d° to \d\.\d°\. Then nothing holds crosshead`, sample.Flat(reported(t, slack)))
}

func TestStretchesAreToldUpToAFew(t *testing.T) {
	s := &solve.Sweep{Unit: "deg", Low: -20, High: 20}
	assert.Equal(t, "anywhere", Stretches(s, [][2]float64{{-20, 20}}))
	assert.Equal(t, "from -20.0° to -5.0° and from 5.0° to 20.0°", Stretches(s, [][2]float64{{-20, -5}, {5, 20}}))
	many := [][2]float64{{-9, -8}, {-7, -6}, {-5, -4}, {-3, -2}, {-1, 0}}
	assert.NotContains(t, Stretches(s, many), "more")
	assert.Contains(t, Stretches(s, append(many, [2]float64{1, 2})), "from -3.0° to -2.0° and 2 more stretches")
}

func TestSaysMeets(t *testing.T) {
	assert.Equal(t, "crosshead.rod-end meets mast.clevis at neutral to within 0.0 mm. 0.5 mm allowed, 0.5 mm in hand.",
		saysOf(t, sample.Checked(t, "x", sample.DemoText(t, "lift-cables")), linkage.Meets))
	off := turnedNuts(t, "lift-cables", map[string]float64{"lift-up.conduit-from": 2.4})
	assert.Equal(t, "crosshead.rod-end doesn't meet mast.clevis at neutral: it stands 1.2 mm off, 1.2 mm up. 0.5 mm allowed, missed by 0.7 mm.",
		saysOf(t, off, linkage.Meets))
	assert.Equal(t, `meets "rod end into the clevis"`, RequirementTitle(off, off.Requirements[3].Requirement))
	twice := sample.Checked(t, "x", sample.DemoText(t, "lift-cables")+"require \"taut\" {\n  of = lift\n  least = 5\n}\n")
	assert.Equal(t, "taut of lift", RequirementTitle(twice, twice.Requirements[2].Requirement))
}

// With its stops away the throttle is turned until its core is in line with its
// arms: the words tell of the cable, and nothing takes it for a rod.
func TestCablesOnCenter(t *testing.T) {
	r := sample.Checked(t, "x", sample.OverCable(t))
	s := r.Sweeps[0]
	require.NotEmpty(t, s.Critical)
	for _, c := range s.Critical {
		require.NotNil(t, c.Cable)
		assert.Contains(t, CenterInShort(s, c), ", by the cable throttle-cable (")
		assert.Contains(t, meaning(s, c), "There the core of throttle-cable ")
	}
	report := reported(t, r)
	assert.Contains(t, sample.Flat(report), "by the cable throttle-cable")

	pair := solve.Critical{Kind: solve.Toggle, At: 3, Part: s.Critical[0].Part, Cable: &linkage.Cable{Name: "a", Pair: &linkage.Pair{Name: "lift"}}}
	assert.Equal(t, "carburetor locks up, by the pair lift (toggle)", CenterInShort(s, pair))
	assert.Equal(t, "There the pair lift holds carburetor no more: it goes over center, away from where it is wanted.", meaning(s, pair))
	other := &linkage.Cable{Name: "b", Pair: pair.Cable.Pair}
	pair.Cable.Pair.Cables = [2]*linkage.Cable{pair.Cable, other}
	pair.InLine = other
	assert.Equal(t, "There the cable b is in line with the arm of carburetor that it drives, and a goes slack: carburetor locks up and is driven no further.", meaning(s, pair))
}

func TestReportTellsWhatItTakesOfCables(t *testing.T) {
	said := sample.Flat(reported(t, sample.Checked(t, "x", sample.DemoText(t, "throttle-cable"))))
	assert.Contains(t, said, "Taken: a spring returns carburetor to its plus side and keeps throttle-cable taut; the spring is not reckoned with.")
	assert.Contains(t, said, "cables without friction or load, a spring keeping throttle-cable taut, no play.")
	assert.NotContains(t, said, "cable, tension")

	said = sample.Flat(reported(t, sample.Checked(t, "x", sample.DemoText(t, "pedals-cable"))))
	// 111 600 lbf (E A) over 3150 mm.
	assert.Contains(t, said, "Assumed of tail-left and tail-right: 7x19 1/8 galvanized, 3150.0 mm of it free, pulls 157.6 N a mm (elastic stretch from a rope maker's technical table; one source); it breaks at 8896 N (FAA AC 43.13-1B, table 7-3).")
	assert.Contains(t, said, "tail-left is an open cable; on pedals, at a radius of 60.0 mm, it is paid out as that turns plus; on tail-quadrant, at a radius of 55.0 mm, it is taken up as that turns plus; 3150.0 mm of 7x19 1/8 galvanized")

	said = sample.Flat(reported(t, sample.Checked(t, "x", sample.Replaced(t, "lift-cables", "require \"taut\" {\n  of    = lift\n  least = 60\n}\n", ""))))
	assert.Contains(t, said, "that the cables stay taut (taut)")
	assert.Contains(t, said, "lift is a pair, lift-up and lift-down, drawn up to 120 N in each with what it holds as drawn")
	assert.Contains(t, said, "Assumed of the pair lift: each cable as stiff as the file says, 38 N a mm.")
	assert.Contains(t, said, "lift-up N 120 120 0.0° 121")
}

func TestTemperatureHeadsTheReport(t *testing.T) {
	run, err := linkage.Read(&linkage.Source{Name: "x", Text: []byte(sample.DemoText(t, "pedals-cable"))})
	require.NoError(t, err)
	assert.Empty(t, temperatureSays(run))
	run, err = solve.Temper(run, -25)
	require.NoError(t, err)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	r, err := m.Check()
	require.NoError(t, err)
	// 3150 mm x 6.6e-6 x 72 degrees F = 1.497 mm.
	assert.Equal(t, "AT -25 °C; the cables were drawn up at 15 °C. So tail-left and tail-right are 1.50 mm too long for the airframe.", temperatureSays(run))
	said := sample.Flat(reported(t, r))
	assert.Contains(t, said, temperatureSays(run)+" REQUIRED")

	steel, err := linkage.Read(&linkage.Source{Name: "x", Text: []byte(sample.Replaced(t, "pedals-cable", `"6061-T6" `, `"steel" `))})
	require.NoError(t, err)
	steel, err = solve.Temper(steel, -25)
	require.NoError(t, err)
	assert.Equal(t, "AT -25 °C; the cables were drawn up at 15 °C. The airframe grows as they do, so that changes nothing.", temperatureSays(steel))
	assert.Contains(t, said, "for each degree Fahrenheit cables grow by 6.5 and the airframe, of 6061-T6, by 13.1 millionths of their length")
	assert.Contains(t, said, "Both cables of tail hang slack with pedals-control anywhere. Then nothing holds tail-quadrant: it floats, 0.2° at most from one end to the other. 80 N wanted")

}

// With several controls each sweep in which cables hang slack is told.
func TestSlackIsToldOfEverySweep(t *testing.T) {
	text := sample.DemoText(t, "pedals-cable") + `
part "brake" {
  pivot = [0, 400]
  arms  = { grip = [0, 60] }
}
control "brakes" {
  of   = brake
  from = -5
  to   = 20
  held = [0, 12]
}
`
	run, err := linkage.Read(&linkage.Source{Name: "x", Text: []byte(text)})
	require.NoError(t, err)
	run, err = solve.Temper(run, -25)
	require.NoError(t, err)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	r, err := m.Check()
	require.NoError(t, err)
	said := sample.Flat(reported(t, r))
	assert.Contains(t, said, "With brakes at neutral: tail-left and tail-right hang slack with pedals-control anywhere.")
	assert.Contains(t, said, "With brakes at 12.0°: tail-left and tail-right hang slack with pedals-control anywhere.")
	assert.Contains(t, said, "hang slack with brakes anywhere.")
	assert.Contains(t, said, "cable, tension least most tail-left N 0 0 tail-right N 0 0")
}

// Inches have pounds.
func TestCablesInInches(t *testing.T) {
	text := sample.Replaced(t, "pedals-cable", `units     = "mm"`, `units     = "in"`)
	said := sample.Flat(reported(t, sample.Checked(t, "x", text)))
	assert.Contains(t, said, "at the least tail-left pulls 220 lbf, wherever the run stands. 80 lbf wanted, 140 lbf in hand.")
	assert.Contains(t, said, "tail-left lbf 220 220 - 220")
	assert.Contains(t, said, "lbf an inch")
}

// A cable that a hot day or unequal radii draw up harder than it stands is told
// under the verdict, which asks only for what is required.
func TestReportTellsWhereACableWouldBreak(t *testing.T) {
	says := "would break: it pulls up to"
	assert.NotContains(t, sample.Flat(reported(t, sample.Checked(t, "x", sample.DemoText(t, "pedals-cable")))), says)
	run, err := linkage.Read(&linkage.Source{Name: "x", Text: []byte(sample.Replaced(t, "pedals-cable", "pretension = 220", "pretension = 8700"))})
	require.NoError(t, err)
	run, err = solve.Temper(run, 60)
	require.NoError(t, err)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	r, err := m.Check()
	require.NoError(t, err)
	// 3150 mm x 6.6e-6 x 81 degrees F x 157.6 N a mm = 265 N more; 2000 lbf are 8896 N.
	said := sample.Flat(reported(t, r))
	for _, name := range []string{"tail-left", "tail-right"} {
		assert.Contains(t, said, name+" would break: it pulls up to 8965 N in the travel of pedals-control, and 7x19 1/8 galvanized takes 8896 N (FAA AC 43.13-1B, table 7-3).")
	}
}

// A conduit whose two ends are written the wrong way round closes and may hold: it
// shows by how much core is left outside.
func TestReportTellsOfConduitEndsSwapped(t *testing.T) {
	assert.NotContains(t, sample.Flat(reported(t, sample.Checked(t, "x", sample.DemoText(t, "lift-cables")))), "Look at the conduit")
	run, err := linkage.Read(&linkage.Source{Name: "x", Text: []byte(sample.Replaced(t, "throttle-cable", "[frame.grip-bracket, frame.carb-bracket]", "[frame.carb-bracket, frame.grip-bracket]"))})
	require.NoError(t, err)
	// 151.75 mm is what the demo leaves outside.
	words := swappedSays(run)
	require.Len(t, words, 1)
	assert.Regexp(t, `^Look at the conduit of throttle-cable: held at frame.carb-bracket at the from end and at frame.grip-bracket at the to end it leaves \d+\.\d mm of core outside, and the other way round 151\.8 mm\.$`, words[0])
}

// A stop on what a lone cable moves, on the side of its spring, holds that and not
// the control, which goes on and leaves the cable slack; where the cable pulls
// against the stop it holds both, and so does one of the control's own part.
func TestStopOnTheSpringsSideDoesNotHoldTheControl(t *testing.T) {
	r := sample.Checked(t, "x", sample.Replaced(t, "throttle-cable", sample.GripStop, ""))
	ends := r.Sweeps[0].Ends
	assert.Nil(t, ends[0].Slack)
	require.NotNil(t, ends[1].Slack)
	assert.True(t, ends[0].HoldsControl())
	assert.False(t, ends[1].HoldsControl())
	words := `The stop "idle" doesn't hold throttle itself: past it the cable throttle-cable, which only pulls, goes slack.`
	said := sample.Flat(reported(t, r))
	assert.Contains(t, said, "FALLS SHORT in 1 of 5 requirements: stops.")
	assert.Contains(t, said, `The stop "idle" ends it at 0.0°. Without it nothing else was met, looking to 30.0°. `+words)
	assert.Contains(t, said, "No stop holds the high side of throttle: "+words+" throttle goes on alone; no other stop was met, looking to 30.0°. Put a stop on grip itself.")
	for _, j := range r.Requirements {
		if j.Requirement.Kind == linkage.Stops {
			assert.Equal(t, solve.FallsShort, j.Verdict)
			assert.Equal(t, 1.0, *j.Worst)
		}
	}
	for _, change := range [][]string{
		nil, // the demo as it is
		{sample.GripStop, "", "of   = carburetor\n  at   = 0", "of   = grip\n  at   = 0"},
		{sample.GripStop, "", `spring  = "plus" `, `pushes  = true `},
	} {
		r := sample.Checked(t, "x", sample.Replaced(t, "throttle-cable", change...))
		for _, end := range r.Sweeps[0].Ends {
			assert.Equal(t, solve.ByStop, end.Cause)
			assert.True(t, end.HoldsControl())
		}
		assert.Contains(t, sample.Flat(reported(t, r)), "A stop ends the travel on each side.")
	}
	for _, kind := range []string{"lift-cables", "pedals-cable", "pedals"} {
		for _, end := range sample.Checked(t, kind, sample.DemoText(t, kind)).Sweeps[0].Ends {
			assert.Nil(t, end.Slack)
		}
	}
}

// The thread in nuts is told with that in rods.
func TestEngagementTellsNuts(t *testing.T) {
	text := sample.SlackRun + "require \"engagement\" {}\n"
	r := sample.Checked(t, "slack.hcl", text)
	j := &r.Requirements[1]
	said := Says(r, j)
	assert.Equal(t, "Every end has thread enough. Least to spare has c-up.conduit-from: in the nuts 10.00 mm, wanted 9.00 mm, to spare 1.00 mm. "+
		"The maker's figure is missing for c-up.conduit-from: 1.5 diameters of thread stand in for it (common practice, no source); the maker's figure rules.", said)
	r = sample.Checked(t, "slack.hcl", strings.Replace(text, "engaged = 10", "engaged = 8", 1))
	assert.Contains(t, Says(r, &r.Requirements[1]), "c-up.conduit-from falls short of thread: in the nuts 8.00 mm, wanted 9.00 mm, missed by 1.00 mm.")
	assert.Equal(t, "the nuts of conduits", threadsOf(r.Run))
}
