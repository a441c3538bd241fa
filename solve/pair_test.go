package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/optimize"

	"fullfree/linkage"
	"fullfree/solve"
)

// symmetric is a pair with all arms 60 and level cables, so that either side is
// the other's mirror image.
const symmetric = `run "Lift" {
  units = "mm"
}
fixed "frame" {
  points = { up = [300, 60], down = [300, -60], aft = [700, 60], low = [700, -60], clevis = [980, 0] }
}
part "lever" {
  pivot  = [0, 0]
  points = { up = [0, 60], down = [0, -60] }
}
part "crosshead" {
  pivot = [1000, 0]
  arms  = { up = [0, 60], down = [0, -60], eye = [-20, 0] }
}
cable "up" {
  from      = lever.up
  to        = crosshead.up
  conduit   = [frame.up, frame.aft]
  stiffness = 38
  end "conduit-to" {
    thread  = "M6x1"
    engaged = 14
  }
}
cable "down" {
  from      = lever.down
  to        = crosshead.down
  conduit   = [frame.down, frame.low]
  stiffness = 38
  end "conduit-to" {
    thread  = "M6x1"
    engaged = 14
  }
}
pair "lift" {
  cables     = [up, down]
  pretension = 120
}
control "stick" {
  of   = lever
  from = -40
  to   = 40
}
output "pitch" {
  of = crosshead
}
`

// judgedAs compiles and checks a run as its numbers now are.
func judgedAs(t testing.TB, run *linkage.Run) (*solve.Mechanism, *solve.Result) {
	t.Helper()
	m, err := solve.Compile(run)
	require.NoError(t, err)
	result, err := m.Check()
	require.NoError(t, err)
	return m, result
}

func cableOf(t testing.TB, s *solve.Sweep, name string) solve.CableTravel {
	t.Helper()
	for _, c := range s.Cables {
		if c.Cable.Name == name {
			return c
		}
	}
	require.FailNow(t, "no such cable in the sweep", name)
	return solve.CableTravel{}
}

func TestSymmetricPairStandsAsDrawn(t *testing.T) {
	run, s := sweepOf(t, symmetric)
	near(t, 0, partOf(t, s, "crosshead").Neutral, 1e-12, "by symmetry")
	for _, name := range []string{"up", "down"} {
		c := cableOf(t, s, name)
		require.EqualValues(t, "N", c.Unit)
		nearAt(t, 120, c.Neutral, 1e-9, "the pretension")
		require.Empty(t, c.Slack)
	}
	require.Nil(t, s.LostMotion)
	for x := 1.0; x < 40; x += 3 { // turned over, it is the same run
		a, b := solveAt(t, s, x), solveAt(t, s, -x)
		near(t, -a.Travel(run.Parts[2]), b.Travel(run.Parts[2]), 1e-10, "the other way")
	}
	p := partOf(t, s, "crosshead")
	require.Greater(t, p.AtHigh, 39.0)
	near(t, -p.AtLow, p.AtHigh, 1e-10, "both ends")
}

func TestBothAdjustersAreTensionOneIsPosition(t *testing.T) {
	run := read(t, symmetric)
	for _, c := range run.Cables {
		run = edited(t, run, linkage.TurnCable(c.Ends[0], 1.5))
	}
	m, result := judgedAs(t, run)
	s := result.Sweeps[0]
	near(t, 0, partOf(t, s, "crosshead").Neutral, 1e-12, "both alike")
	nearAt(t, 120+38*1.5, cableOf(t, s, "up").Neutral, 1e-9, "stiffness times what is taken")

	// As drawn the arms stand square, so p'' = 0 and K = 2 k 60^2: a unit of one
	// cable turns it by k 60 / K and shares its pull with the other.
	effects := cableEffectsOf(t, m, result)
	require.Len(t, effects, 2)
	up := effects[0]
	require.Equal(t, "up.conduit-to", up.End.String())
	byName := map[string]solve.PerTurn{}
	for _, p := range up.PerTurn {
		byName[p.Name] = p
	}
	require.Len(t, up.PerTurn, 5)
	nearAt(t, deg(1.0/120), byName["crosshead"].Neutral, 1e-9, "degrees a turn")
	nearAt(t, deg(1.0/120), byName["pitch"].Neutral, 1e-9, "degrees a turn")
	nearAt(t, 0, byName["lever"].Neutral, 0, "the control stays")
	nearAt(t, 19, byName["up"].Neutral, 1e-9, "half of k")
	nearAt(t, 19, byName["down"].Neutral, 1e-9, "half of k")
	nearAt(t, 0, up.High, 0, "the travel is as explored")
}

func TestCenteringBringsThePartBackAsDrawn(t *testing.T) {
	text := replaceOnce(t, symmetric, "arms  = { up = [0, 60]", "arms  = { up = [3, 47]")
	run := read(t, text)
	run = edited(t, run, linkage.TurnCable(run.Cables[0].Ends[0], 1.25), linkage.TurnCable(run.Cables[1].Ends[0], -2))
	m, result := judgedAs(t, run)
	require.Greater(t, math.Abs(partOf(t, result.Sweeps[0], "crosshead").Neutral), 1.0)
	list := m.Centerings()
	require.Len(t, list, 1)
	c := list[0]
	near(t, 240, c.Tension[0]+c.Tension[1], 1e-9, "their mean is the pretension")
	for i, e := range c.Ends {
		run = edited(t, run, linkage.TurnCable(e, c.Turns[i]))
	}
	_, result = judgedAs(t, run)
	s := result.Sweeps[0]
	near(t, 0, partOf(t, s, "crosshead").Neutral, 1e-10, "as drawn")
	nearAt(t, c.Tension[0], cableOf(t, s, "up").Neutral, 1e-8, "tension")
	nearAt(t, c.Tension[1], cableOf(t, s, "down").Neutral, 1e-8, "tension")

	run.Cables[1].Ends = nil
	m, _ = judgedAs(t, run)
	require.Equal(t, []*solve.Centering{nil}, m.Centerings())
}

// randomLift is a pair of random dimensions, with the energy that is stored in its
// cables where the lever has turned by a and the crosshead by b, radians.
type randomLift struct {
	run    *linkage.Run
	text   string
	energy func(a, b float64) float64
}

func newRandomLift(t testing.TB, r *rand.Rand, slack float64) randomLift {
	some := func(of, spread float64) float64 { return of + spread*(2*r.Float64()-1) }
	type place struct{ x, y float64 }
	write := func(p place) string { return fmt.Sprintf("[%s, %s]", num(p.x), num(p.y)) }
	near := func(x, y float64) place { return place{some(x, 20), some(y, 20)} }
	lever := [2]place{near(0, 60), near(0, -60)}
	cross := [2]place{near(1000, 60), near(1000, -60)}
	in := [2]place{near(300, 60), near(300, -60)}
	out := [2]place{near(700, 60), near(700, -60)}
	k := [2]float64{some(40, 20), some(40, 20)}
	tension := some(120, 60)
	taken := [2]float64{some(0, 1) - slack, some(0, 1) - slack}
	text := fmt.Sprintf(`run "Lift" {
  units = "mm"
}
fixed "frame" {
  points = { up = %s, down = %s, aft = %s, low = %s }
}
part "lever" {
  pivot  = [0, 0]
  points = { up = %s, down = %s }
}
part "crosshead" {
  pivot  = [1000, 0]
  points = { up = %s, down = %s }
}
cable "up" {
  from      = lever.up
  to        = crosshead.up
  conduit   = [frame.up, frame.aft]
  stiffness = %s
}
cable "down" {
  from      = crosshead.down
  to        = lever.down
  conduit   = [frame.low, frame.down]
  stiffness = %s
}
pair "lift" {
  cables     = [down, up]
  pretension = %s
}
control "stick" {
  of   = lever
  from = -30
  to   = 30
}
`, write(in[0]), write(in[1]), write(out[0]), write(out[1]), write(lever[0]), write(lever[1]), write(cross[0]), write(cross[1]), num(k[0]), num(k[1]), num(tension))
	run := read(t, text)
	for i, c := range run.Cables {
		c.Taken = taken[i]
	}
	turned := func(p place, about, angle float64) place {
		s, c := math.Sincos(angle)
		x := p.x - about
		return place{about + c*x - s*p.y, s*x + c*p.y}
	}
	far := func(p, q place) float64 { return math.Hypot(p.x-q.x, p.y-q.y) }
	return randomLift{run, text, func(a, b float64) (sum float64) {
		for i := range 2 {
			unloaded := far(lever[i], in[i]) + far(cross[i], out[i]) - tension/k[i] - taken[i]
			e := far(turned(lever[i], 0, a), in[i]) + far(turned(cross[i], 1000, b), out[i]) - unloaded
			if e > 0 {
				sum += k[i] * e * e / 2
			}
		}
		return sum
	}}
}

// TestPairStandsWhereTheEnergyIsLeast compares where a pair stands with what a
// general minimizer finds for the energy in its cables, which can only pull.
func TestPairStandsWhereTheEnergyIsLeast(t *testing.T) {
	const seed = 6
	r := rand.New(rand.NewPCG(seed, seed))
	taut, slack := 0, 0
	for n := range 40 {
		l := newRandomLift(t, r, []float64{0, 5}[n%2])
		_, result := judgedAs(t, l.run)
		s := result.Sweeps[0]
		crosshead := partNamed(t, l.run, "crosshead")
		for x := s.Low; x <= s.High; x += (s.High - s.Low) / 6 {
			got := solveAt(t, s, x).Travel(crosshead)
			at, _ := s.Sample(x)
			var tension [2]float64
			free := 0.0
			for i, k := range s.Series() {
				switch {
				case k.Kind == solve.SeriesTension:
					tension[k.Cable.Index] = *at.Values[i]
				case k.Kind == solve.SeriesFree:
					free = *at.Values[i]
				}
			}
			about := fmt.Sprintf("seed %d, run %d, at %v:\n%s", seed, n, x, l.text)
			if l.energy(rad(x), rad(got)) == 0 {
				// It floats: nothing pulls, up to either end, and beyond them something does.
				slack++
				require.Equal(t, [2]float64{}, tension, about)
				require.Positive(t, free, about)
				for _, side := range []float64{-0.5, 0.5} {
					require.Zero(t, l.energy(rad(x), rad(got+side*free*(1-1e-9))), about)
					if x < s.High-1e-3 && x > s.Low+1e-3 { // where it ends on center, a cable just comes taut no more
						require.Positive(t, l.energy(rad(x), rad(got+side*free*(1+1e-9))), about)
					}
				}
				continue
			}
			taut++
			require.Zero(t, free, about)
			problem := optimize.Problem{Func: func(b []float64) float64 { return l.energy(rad(x), b[0]) }}
			found, err := optimize.Minimize(problem, []float64{rad(got) + 0.02}, nil, &optimize.NelderMead{SimplexSize: 0.01})
			require.NoError(t, err, about)
			near(t, deg(found.X[0]), got, 1e-4, about) // the root of rounding is all that a minimum tells
			require.LessOrEqual(t, l.energy(rad(x), rad(got)), found.F+1e-9*math.Max(1, found.F), about)
			// The moments balance: the slope of the energy is nothing.
			const h = 1e-5
			near(t, 0, (l.energy(rad(x), rad(got)+h)-l.energy(rad(x), rad(got)-h))/(2*h), 1e-3, about)
			// And both tensions store that energy.
			stored := 0.0
			for i, c := range l.run.Cables {
				stored += tension[i] * tension[i] / (2 * c.Stiffness)
			}
			near(t, l.energy(rad(x), rad(got)), stored, 1e-7*math.Max(1, stored), about)
		}
		for _, c := range s.Cables {
			for _, stretch := range c.Slack {
				require.True(t, s.Low <= stretch[0] && stretch[0] < stretch[1] && stretch[1] <= s.High, "%v", c.Slack)
			}
		}
	}
	require.Greater(t, taut, 100)
	require.Greater(t, slack, 60)
}

// quadrants are two quadrants with cables of which the one winds in other
// grooves than the other. In radians from t1 = 0, with p = 120/30 = 4:
//
//	e_a = 60 t1 - 60 t2 + p,  e_b = 60 t2 - 50 t1 + p
//
// and as 60 e_a = 60 e_b, t2 = 110/120 t1 and e_a = 5 t1 + p: nothing at t1 =
// -0.8. Beyond, the one comes taut at t2 = t1 + p/60 and the other at
// 5/6 t1 - p/60.
const quadrants = `run "Tail" {
  units     = "mm"
  rigged-at = 15
  airframe  = "6061-T6"
}
part "fore" {
  pivot  = [0, 0]
  points = { rim = [60, 0] }
}
part "tail" {
  pivot  = [3000, 0]
  points = { rim = [3060, 0] }
}
cable "left" {
  from      = fore
  to        = tail
  radius    = [60, 60]
  winds     = ["up", "down"]
  stiffness = 30
}
cable "right" {
  from      = fore
  to        = tail
  radius    = [50, 60]
  winds     = ["down", "up"]
  stiffness = 30
}
pair "tail-cables" {
  cables     = [left, right]
  pretension = 120
}
control "pedals" {
  of   = fore
  from = -60
  to   = 60
}
output "rudder" {
  of = tail
}
require "taut" {
  of    = tail-cables
  least = 20
}
require "taut" "anyhow" {
  of    = tail-cables
  least = 0
}
`

func TestSlackIsFoundWhereItBegins(t *testing.T) {
	result := check(t, quadrants)
	s := result.Sweeps[0]
	begins := deg(-0.8)
	low := rad(60.0)
	for _, name := range []string{"left", "right"} {
		c := cableOf(t, s, name)
		require.Len(t, c.Slack, 1)
		require.Equal(t, -60.0, c.Slack[0][0])
		near(t, begins, c.Slack[0][1], 1e-9*120, "where it begins")
		nearAt(t, 120, c.Neutral, 1e-9, "neutral")
		nearAt(t, 0, c.Least, 1e-9, "slack")
		nearAt(t, begins, c.At, 1e-7, "the first of it")
		nearAt(t, 30*(5*low+4), c.Most, 1e-8, "at the other end")
	}
	require.NotNil(t, s.LostMotion)
	require.Equal(t, "tail", s.LostMotion.Part.Name)
	require.EqualValues(t, "deg", s.LostMotion.Unit)
	near(t, deg(low/6-8.0/60), s.LostMotion.Most, 1e-9, "how far it floats")
	require.Equal(t, -60.0, s.LostMotion.At)

	tail := partOf(t, s, "tail")
	near(t, 60*110.0/120, tail.AtHigh, 1e-9, "taut")
	near(t, -60*(1+5.0/6)/2, tail.AtLow, 1e-9, "the middle")
	for x := -60.0; x <= 60; x += 7.5 {
		near(t, x*110/120, solveAt(t, s, x).Travel(tail.Part), 1e-9, "taut or the middle") // here both are the same
	}
	r := outputOf(t, s, "rudder").Ratio
	nearAt(t, 11.0/12, r.Least, 1e-10, "ratio")
	nearAt(t, 11.0/12, r.Most, 1e-10, "ratio")

	taut, anyhow := result.Requirements[0], result.Requirements[1]
	require.Equal(t, solve.FallsShort, taut.Verdict)
	nearAt(t, 0, taut.Worst, 1e-9, "worst")
	require.EqualValues(t, "N", taut.Unit)
	require.Equal(t, 20.0, taut.Limit)
	require.NotNil(t, taut.Cable)
	require.Equal(t, solve.Holds, anyhow.Verdict)
	require.NotContains(t, result.NotChecked, linkage.Taut)
}

func TestUnequalStiffnessKinksWhereItGoesSlack(t *testing.T) {
	// With k twice as much in left: 2 e_a = e_b asks 2 (60 t1 - 60 t2 + 2) =
	// 60 t2 - 50 t1 + 4, for the unloaded length goes by the same tension. So t2 =
	// 170/180 t1, e_a = 60/18 t1 + 2 is nothing at t1 = -0.6, and beyond the middle
	// goes by 11/12 and lies (2 - 4)/60/2 lower.
	_, s := sweepOf(t, replaceOnce(t, quadrants, "winds     = [\"up\", \"down\"]\n  stiffness = 30", "winds     = [\"up\", \"down\"]\n  stiffness = 60"))
	c := cableOf(t, s, "left")
	require.Len(t, c.Slack, 1)
	near(t, deg(-0.6), c.Slack[0][1], 1e-9*120, "where it begins")
	r := outputOf(t, s, "rudder").Ratio
	nearAt(t, 11.0/12, r.Least, 1e-10, "slack")
	nearAt(t, 17.0/18, r.Most, 1e-10, "taut")
	near(t, -60*11.0/12-deg(1.0/60), partOf(t, s, "tail").AtLow, 1e-9, "the middle")
	near(t, deg(-0.6*17/18), solveAt(t, s, deg(-0.6)).Travel(partOf(t, s, "tail").Part), 1e-9, "no jump")
}

func TestQuadrantsOfEqualGroovesKeepTheirTension(t *testing.T) {
	text := replaceOnce(t, quadrants, "radius    = [50, 60]", "radius    = [48, 60]")
	text = replaceOnce(t, text, "radius    = [60, 60]", "radius    = [48, 60]")
	_, s := sweepOf(t, text)
	for _, c := range s.Cables {
		nearAt(t, 120, c.Least, 1e-9, "least")
		nearAt(t, 120, c.Most, 1e-9, "most")
		require.Nil(t, c.At)
	}
	near(t, 48, partOf(t, s, "tail").AtHigh, 1e-12*60, "radius by radius")
	near(t, -48, partOf(t, s, "tail").AtLow, 1e-12*60, "radius by radius")
}

func TestReliefToNothingIsNoSlack(t *testing.T) {
	// Taken back by just what the pretension stretches: 4 mm. It lies on the border
	// everywhere, and rounding mustn't make stretches of it.
	run := read(t, strings.ReplaceAll(quadrants, "radius    = [50, 60]", "radius    = [60, 60]"))
	for _, c := range run.Cables {
		c.Taken = -4
	}
	_, result := judgedAs(t, run)
	s := result.Sweeps[0]
	require.Nil(t, s.LostMotion)
	for _, c := range s.Cables {
		require.Empty(t, c.Slack)
		nearAt(t, 0, c.Most, 1e-9, "nothing")
		require.Nil(t, c.At)
	}
	near(t, 60, partOf(t, s, "tail").AtHigh, 1e-9, "it still goes along")
}

func TestSlackEverywhereIsLostMotion(t *testing.T) {
	run := read(t, strings.ReplaceAll(quadrants, "radius    = [50, 60]", "radius    = [60, 60]"))
	for _, c := range run.Cables {
		c.Taken = -7 // 3 beyond what the pretension stretches
	}
	_, result := judgedAs(t, run)
	s := result.Sweeps[0]
	near(t, deg(2*3.0/60), s.LostMotion.Most, 1e-9, "3 to either side")
	for _, c := range s.Cables {
		require.Equal(t, [][2]float64{{-60, 60}}, c.Slack)
	}
	near(t, 60, partOf(t, s, "tail").AtHigh, 1e-9, "the middle")
}
