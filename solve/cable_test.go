package solve_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// pushPull is a lever and a crank with arms of 60 joined by a push-pull cable
// that enters its conduit at a distance from the pin, level with it.
func pushPull(distance float64) string {
	return fmt.Sprintf(`run "Throttle" {
  units = "mm"
}
fixed "frame" {
  points = { in = [%[1]s, 60], out = [%[2]s, 60] }
}
part "lever" {
  pivot  = [0, 0]
  points = { pin = [0, 60] }
}
part "crank" {
  pivot  = [%[3]s, 0]
  points = { pin = [%[3]s, 60] }
}
cable "push" {
  from    = lever.pin
  to      = crank.pin
  conduit = [frame.in, frame.out]
  pushes  = true
}
control "hand" {
  of   = lever
  from = -60
  to   = 60
}
`, num(distance), num(distance+100), num(2*distance+100))
}

// TestPushPullCableIsAlmostAParallelogram: so near to a parallelogram does a
// push-pull cable come as its conduit recedes. The figures were worked out by hand
// from the closed form that is asserted below them: no outside source.
func TestPushPullCableIsAlmostAParallelogram(t *testing.T) {
	for _, c := range []struct{ distance, off, tolerance float64 }{
		{1000, 0.0334, 0.00005},
		{10_000, 0.00333, 0.000005},
		{100_000, 0.000333, 0.0000005},
	} {
		_, s := sweepOf(t, pushPull(c.distance))
		crank := partOf(t, s, "crank").Part
		near(t, c.off, math.Abs(solveAt(t, s, 25).Travel(crank)-25), c.tolerance, "off the parallelogram")
		// And exactly: both legs together stay 2 x distance.
		for _, x := range []float64{-50, -25, 10, 25, 50} {
			leg := func(along, angle float64) float64 {
				return math.Hypot(along+60*math.Sin(rad(angle)), 60-60*math.Cos(rad(angle)))
			}
			b := solveAt(t, s, x).Travel(crank)
			near(t, 2*c.distance, leg(c.distance, x)+leg(c.distance, -b), 1e-12*2*c.distance*2, "the core")
		}
		cable := cableOf(t, s, "push")
		require.Nil(t, cable.Neutral)
		require.Nil(t, cable.Least)
		require.Empty(t, cable.Slack)
		require.Nil(t, s.LostMotion)
	}
}

func TestCoreAndAdjusterShiftALoneCable(t *testing.T) {
	text := replaceOnce(t, pushPull(1000), "  pushes  = true\n", "  pushes  = true\n  end \"conduit-to\" {\n    thread  = \"M6x1\"\n    engaged = 14\n  }\n")
	given := replaceOnce(t, text, "  pushes  = true\n", "  pushes  = true\n  core    = 1998.5\n")
	run := read(t, text)
	run = edited(t, run, linkage.TurnCable(run.Cables[0].Ends[0], 1.5))
	m, turned := judgedAs(t, run)
	_, s := sweepOf(t, given)
	a, b := partOf(t, turned.Sweeps[0], "crank"), partOf(t, s, "crank")
	near(t, b.Neutral, a.Neutral, 1e-12, "a turn takes a pitch from the core")
	near(t, b.AtHigh, a.AtHigh, 1e-10, "a turn takes a pitch from the core")
	leg := math.Hypot(1000-60*math.Sin(rad(a.Neutral)), 60-60*math.Cos(rad(a.Neutral)))
	near(t, 1998.5, 1000+leg, 1e-9, "what is left of the core")

	effects := cableEffectsOf(t, m, turned)
	require.Len(t, effects, 1)
	crank := effects[0].PerTurn[1]
	require.Equal(t, "crank", crank.Name)
	_, more := judgedAs(t, edited(t, run, linkage.TurnCable(run.Cables[0].Ends[0], 0.001)))
	_, less := judgedAs(t, edited(t, run, linkage.TurnCable(run.Cables[0].Ends[0], -0.001)))
	difference := func(of func(p solve.PartTravel) float64) float64 {
		return (of(partOf(t, more.Sweeps[0], "crank")) - of(partOf(t, less.Sweeps[0], "crank"))) / 0.002
	}
	nearAt(t, difference(func(p solve.PartTravel) float64 { return p.Neutral }), crank.Neutral, 1e-7, "a turn")
	nearAt(t, difference(func(p solve.PartTravel) float64 { return p.AtLow }), crank.AtLow, 1e-7, "a turn")
	nearAt(t, difference(func(p solve.PartTravel) float64 { return p.AtHigh }), crank.AtHigh, 1e-7, "a turn")
}

func TestEndsOfARunWithAPairMoveAsTheAdjustersTurn(t *testing.T) {
	text := symmetric + "stop \"nose-up\" {\n  of = crosshead\n  at = 20\n}\nrequire \"taut\" {\n  of    = lift\n  least = 50\n}\nrequire \"travel\" {\n  of     = pitch\n  low    = -30\n  high   = 20\n  within = 1\n}\nrequire \"meets\" {\n  of     = [crosshead.eye, frame.clevis]\n  within = 0.5\n}\n"
	run := read(t, text)
	run = edited(t, run, linkage.TurnCable(run.Cables[0].Ends[0], 0.8))
	m, result := judgedAs(t, run)
	for i, e := range []*linkage.CableEnd{run.Cables[0].Ends[0], run.Cables[1].Ends[0]} {
		effect := cableEffectsOf(t, m, result)[i]
		require.Equal(t, e, effect.End)
		const by = 0.001
		_, more := judgedAs(t, edited(t, run, linkage.TurnCable(e, by)))
		_, less := judgedAs(t, edited(t, run, linkage.TurnCable(e, -by)))
		difference := func(of func(s *solve.Result) float64) float64 { return (of(more) - of(less)) / (2 * by) }
		nearAt(t, difference(func(r *solve.Result) float64 { return r.Sweeps[0].High }), effect.High, 1e-3, "the stop")
		nearAt(t, 0, effect.Low, 0, "as far as explored")
		for k := range result.Requirements {
			nearAtf(t, difference(func(r *solve.Result) float64 { return *r.Requirements[k].Worst }), effect.Worst[k], 2e-3, "requirement %d", k)
		}
		for _, p := range effect.PerTurn {
			for _, c := range result.Sweeps[0].Cables {
				if c.Cable.Name == p.Name {
					nearAt(t, difference(func(r *solve.Result) float64 { return *cableOf(t, r.Sweeps[0], p.Name).Neutral }), p.Neutral, 1e-4, "tension")
				}
			}
		}
	}
	// The eye is 20 in front of a pivot that it turns about.
	meets := result.Requirements[2]
	turned := rad(partOf(t, result.Sweeps[0], "crosshead").Neutral)
	nearAt(t, 2*20*math.Abs(math.Sin(turned/2)), meets.Worst, 1e-9, "how far apart")
	nearAt(t, 0, meets.At, 0, "at neutral")
	require.EqualValues(t, "mm", meets.Unit)
	require.Equal(t, 0.5, meets.Limit)
}

// lone is one quadrant pulled by another through one cable, against a spring.
const lone = `run "Brake" {
  units = "in"
}
part "pedal" {
  pivot  = [0, 0]
  points = { rim = [2, 0] }
}
part "lever" {
  pivot  = [100, 0]
  points = { rim = [101, 0] }
}
cable "pull" {
  from   = pedal
  to     = lever
  radius = [2.25, 1.5]
  winds  = ["up", "down"]
  spring = "minus"
}
control "foot" {
  of   = pedal
  from = -20
  to   = 170
}
output "brake" {
  of = lever
}
`

func TestOneCableOnQuadrantsIsExact(t *testing.T) {
	_, s := sweepOf(t, lone)
	for x := -20.0; x <= 170; x += 9.5 {
		near(t, x*2.25/1.5, solveAt(t, s, x).Travel(partOf(t, s, "lever").Part), 1e-12*255, "t2 = -s1 r1 t1 / (s2 r2)")
	}
	near(t, 255, partOf(t, s, "lever").AtHigh, 1e-12*255, "more than half a turn")
	r := outputOf(t, s, "brake").Ratio
	nearAt(t, 1.5, r.Least, 1e-12, "ratio")
	nearAt(t, 1.5, r.Most, 1e-12, "ratio")
	c := cableOf(t, s, "pull")
	require.EqualValues(t, "lbf", c.Unit)
	require.Nil(t, c.Least)
	require.NotContains(t, check(t, lone).NotChecked, linkage.Taut)

	// One that a four-bar turns, past where its angle starts over.
	text := replaceOnce(t, lone, "control \"foot\" {\n  of   = pedal\n  from = -20\n  to   = 170", "part \"hand\" {\n  pivot  = [1, 0]\n  points = { pin = [1, 3] }\n}\nrod \"link\" {\n  from = hand.pin\n  to   = pedal.pin\n}\ncontrol \"foot\" {\n  of   = hand\n  from = -20\n  to   = 300")
	text = replaceOnce(t, text, "points = { rim = [2, 0] }", "points = { rim = [2, 0], pin = [-2.6, 3.04] }")
	_, s = sweepOf(t, text)
	for x := s.Low; x <= s.High; x += (s.High - s.Low) / 20 {
		st := solveAt(t, s, x)
		near(t, 1.5*st.Travel(partOf(t, s, "pedal").Part), st.Travel(partOf(t, s, "lever").Part), 1e-11*360, "radius by radius")
	}
}

func TestSpringMustPullAgainstTheCable(t *testing.T) {
	require.Contains(t, refusal(t, strings.Replace(lone, `spring = "minus"`, `spring = "plus"`, 1)),
		`the cable "pull" pulls "lever" to its plus side, and so does its spring: nothing keeps the cable taut; where the spring returns it to the other side, say spring = "minus"`)
	in := strings.Replace(pushPull(1000), "pushes  = true", `spring  = "plus"`, 1)
	// Pulled at its upper end to the left, the crank turns to plus.
	require.Contains(t, refusal(t, in), `the cable "push" pulls "crank" to its plus side`)
	check(t, strings.Replace(in, `"plus"`, `"minus"`, 1))
}

func TestCableThatComesInLineIsAToggle(t *testing.T) {
	// The crank's arm of 20 is all drawn out once the lever's of 60 has pulled: where
	// the crank's pin is nearest to its conduit, at [80, 60] of a pivot at [160, 0].
	text := replaceOnce(t, pushPull(1000), "points = { pin = [2100, 60] }", "points = { pin = [2100, 20] }")
	_, s := sweepOf(t, text)
	require.Equal(t, solve.ByToggle, s.Ends[1].Cause)
	require.Equal(t, "crank", s.Ends[1].Part.Name)
	var toggle *solve.Critical
	for i := range s.Critical {
		if s.Critical[i].Kind == solve.Toggle && s.Critical[i].At == s.High {
			toggle = &s.Critical[i]
		}
	}
	require.NotNil(t, toggle)
	require.Nil(t, toggle.Rod)
	require.Equal(t, "push", toggle.Cable.Name)
	// The lever's leg is then what the core leaves: the other is as short, or as
	// long, as it gets.
	mouth := math.Hypot(1000, 60)
	core := 1000 + math.Hypot(1000, 40)
	lever := math.Hypot(1000+60*math.Sin(rad(s.High)), 60-60*math.Cos(rad(s.High)))
	near(t, core, lever+mouth-20, 1e-9, "as short as it gets")
	lever = math.Hypot(1000+60*math.Sin(rad(s.Low)), 60-60*math.Cos(rad(s.Low)))
	near(t, core, lever+mouth+20, 1e-9, "as long as it gets")
}

// TestBandsOfTautAndMeets compares the bands with the run judged again with each
// dimension changed, both ways.
func TestBandsOfTautAndMeets(t *testing.T) {
	text := replaceOnce(t, symmetric, `units = "mm"`, "units = \"mm\"\n  uncertain = 0.5")
	text = replaceOnce(t, text, "up = [0, 60], down = [0, -60], eye = [-20, 0]", "up = [5, 55], down = [2, -66], eye = [-21, 3]")
	text = replaceOnce(t, text, "from = -40\n  to   = 40", "from = -10\n  to   = 10") // farther on they go slack
	text += "require \"taut\" {\n  of    = lift\n  least = 50\n}\nrequire \"meets\" {\n  of     = [crosshead.eye, frame.clevis]\n  within = 0.5\n}\n"
	run := read(t, text)
	run = edited(t, run, linkage.TurnCable(run.Cables[0].Ends[0], 0.7))
	m, result := judgedAs(t, run)
	require.NoError(t, m.AddBands(result, nil))
	for k := range result.Requirements {
		sum := 0.0
		for _, d := range run.Dimensions() {
			const by = 0.01
			judged := func(by float64) float64 {
				_, r := judgedAs(t, edited(t, run, linkage.Shift(d, by)))
				return *r.Requirements[k].Worst
			}
			slope := (judged(by) - judged(-by)) / (2 * by)
			sum += slope * slope
		}
		j := result.Requirements[k]
		require.NotNil(t, j.Band, "requirement %d", k)
		// What goes with the square, aside of the way between two points, comes on top.
		require.Greater(t, *j.Band, 0.99*0.5*math.Sqrt(sum), "requirement %d", k)
		require.Less(t, *j.Band, 1.3*0.5*math.Sqrt(sum), "requirement %d", k)
	}
}
