package tolerance_test

import (
	"math"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/linkage/hunt"
	"fullfree/solve"
	"fullfree/solve/tolerance"
)

func answer(t testing.TB, text string, o tolerance.Options) *tolerance.Answer {
	t.Helper()
	a, err := tolerance.Run(compiled(t, text), o)
	require.NoError(t, err)
	return a
}

// adjusted is a lever that drives a flap by one rod, whose stops are set to the travel
// required: by number, and by the half degree.
const adjusted = `
run "Set to its travel" {
  units = "mm"
}
part "lever" {
  pivot  = [0, 0]
  arms   = { horn = polar(50, -110) }
}
part "flap" {
  pivot = [-600, 40]
  arms  = { horn = polar(60, -105) }
}
rod "push-rod" {
  from   = lever.horn
  to     = flap.horn
  length = 598
  end "to" {
    thread  = "M6x1"
    engaged = 13
  }
}
pin "lever-rig" {
  of = lever
  at = 0
}
pin "flap-rig" {
  of = flap
  at = 0
}
control "hand" {
  of   = lever
  from = -60
  to   = 60
}
output "flaps" { of = flap }
stop "up" {
  of     = lever
  at     = -20
  adjust = [-40, -5]
}
stop "down" {
  of     = lever
  at     = 30
  adjust = [5, 50]
}
require "travel" {
  of     = flaps
  low    = -15
  high   = 25
  within = 0.4
}
require "engagement" {}
require "stops" {}
require "over-center" { least = 5 }
tolerance {
  points = 0.4
  pivots = 0.6
  rods   = 1
  stops  = 2
}
`

// runsToBuild are runs with what a build may have: rig pins and rod ends, stops to be set,
// stops by number and by metal, several controls with held settings, parts that float.
func runsToBuild(t testing.TB) map[string]string {
	return map[string]string{
		"pedals":           demo(t, "pedals") + halfWidths,
		"pedals-tolerance": demo(t, "pedals-tolerance"),
		"adjusted":         adjusted,
		"sticks":           demo(t, "sticks") + halfWidths,
		"mixer":            demo(t, "mixer") + halfWidths,
		"ailerons":         demo(t, "ailerons") + halfWidths,
		"throttle-cable":   demo(t, "throttle-cable") + halfWidths,
	}
}

// What is drawn, rigged by numbers in one mechanism and judged at the places of the run as
// drawn comes to the same as builds that are each a run of their own, compiled and checked in
// every step: build by build, so in every share and percentile.
func TestHuntBuildsSolvedOneByOne(t *testing.T) {
	for name, text := range runsToBuild(t) {
		for _, asDrilled := range []bool{false, true} {
			o := tolerance.Options{Builds: 2 * hunt.Rounds(), Seed: 3, AsDrilled: asDrilled}
			if name == "throttle-cable" {
				o.Builds = hunt.Rounds()
			}
			// Once all builds are made it is stopped: what one dimension does alone, which takes
			// most of the time, isn't looked at here.
			made := false
			o.Progress = func(done, of int) { made = done == of }
			o.Stop = func() bool { return made }
			quick := answer(t, text, o)
			require.Equal(t, o.Builds, quick.Builds, name)
			o.Plain, o.Progress, o.Stop = true, nil, nil
			plain := answer(t, text, o)
			require.Equal(t, plain.Builds, quick.Builds, name)
			assert.Equal(t, plain.Open, quick.Open, name)
			assert.Zero(t, quick.Missed, name)
			require.Len(t, quick.Outcomes, len(plain.Outcomes), name)
			for i := range plain.Outcomes {
				want, got := &plain.Outcomes[i], &quick.Outcomes[i]
				about := name + " " + string(want.Requirement.Kind) + " " + want.Requirement.Name
				assert.Equal(t, want.Holds, got.Holds, about)
				assert.Equal(t, want.Untold, got.Untold, about)
				require.Equal(t, want.Percentiles == nil, got.Percentiles == nil, about)
				if want.Percentiles == nil {
					continue
				}
				for k := range want.Percentiles {
					assert.InDelta(t, want.Percentiles[k], got.Percentiles[k], 1e-6*math.Max(1, math.Abs(want.Percentiles[k])), about)
				}
				assert.InDelta(t, want.Worst.Value, got.Worst.Value, 1e-6*math.Max(1, math.Abs(want.Worst.Value)), about)
			}
		}
	}
}

// The worst build, set by its dimensions as --set would, is the one that is told.
func TestWorstBuildCanBeSet(t *testing.T) {
	for _, name := range []string{"pedals", "pedals-tolerance", "adjusted"} {
		text := runsToBuild(t)[name]
		a := answer(t, text, tolerance.Options{Builds: 60, Seed: 9})
		for i := range a.Outcomes {
			o := &a.Outcomes[i]
			if o.Worst == nil || o.Requirement.Kind == linkage.LabelKind || o.Requirement.Kind == linkage.Engagement {
				continue // thread in a rod end is no setting
			}
			var set []linkage.Setting
			for _, v := range o.Worst.Build {
				set = append(set, linkage.Setting{Dimension: v.Name, Value: exactly(v.Value)})
			}
			r, err := compiled(t, text, set...).Check()
			require.NoError(t, err)
			j := r.Requirements[o.Requirement.Index]
			assert.InDelta(t, o.Worst.Value, *j.Worst, 1e-6*math.Max(1, math.Abs(o.Worst.Value)), "%s %s", name, o.Requirement.Kind)
		}
	}
}

// The same seed gives the same answer on one processor and on many; another seed another.
func TestSameSeedSameAnswer(t *testing.T) {
	text := demo(t, "pedals-tolerance")
	o := tolerance.Options{Builds: 600, Seed: 5}
	many := answer(t, text, o)
	was := runtime.GOMAXPROCS(1)
	one := answer(t, text, o)
	runtime.GOMAXPROCS(was)
	assert.Equal(t, told(many), told(one))
	o.Seed = 6
	assert.NotEqual(t, told(many).Outcomes[0].Percentiles, told(answer(t, text, o)).Outcomes[0].Percentiles)
}

// told is an answer without the run that it is of, which another reading has again.
func told(a *tolerance.Answer) tolerance.Answer {
	b := *a
	b.Nominal, b.RiggedRods, b.RiggedStops = nil, nil, nil
	b.Outcomes = append([]tolerance.Outcome(nil), a.Outcomes...)
	for i := range b.Outcomes {
		b.Outcomes[i].Requirement = nil
	}
	b.Alone = append([]tolerance.Alone(nil), a.Alone...)
	for i := range b.Alone {
		b.Alone[i].MinusFails, b.Alone[i].PlusFails = nil, nil
	}
	return b
}

// One lever read off a point along a direction square to its arm at neutral: the reading's
// error is known in closed form, so are the share that holds, percentiles, blame and limits.
// A point drawn straight up at 100 goes by 100 sin 30 along -x as it turns to 30 degrees; out
// by dx and dy it goes (1 - cos 30) dx + sin 30 dy further.
func TestAgainstClosedForm(t *testing.T) {
	const text = `
run "One lever" {
  units = "mm"
}
part "lever" {
  pivot  = [0, 0]
  points = { tip = [0, 100] }
}
part "dummy" {
  pivot  = [300, 0]
  points = { eye = [300, 100] }
}
rod "link" {
  from = lever.tip
  to   = dummy.eye
  length = 300
}
control "hand" {
  of   = lever
  from = -40
  to   = 40
}
output "goes" {
  of    = lever.tip
  along = [-1, 0]
}
stop "low" {
  of        = lever
  at        = -10
  tolerance = 0
}
stop "high" {
  of        = lever
  at        = 30
  tolerance = 0
}
require "reading" {
  of     = goes
  at     = 30
  wants  = 50
  within = 0.1
}
tolerance {
  points = 0.3
}
`
	a := answer(t, text, tolerance.Options{Builds: 20000, Seed: 2})
	o := &a.Outcomes[0]
	// |(1 - cos 30) dx + sin 30 dy| <= 0.1 with both uniform within 0.3: a trapezoid, whose
	// half-widths are these.
	p, q := 0.3*(1-math.Cos(math.Pi/6)), 0.3*math.Sin(math.Pi/6)
	// For q > p the density is flat up to q - p at 1/(2 q).
	require.Greater(t, q-p, 0.1)
	want := 0.1 / q
	assert.Greater(t, want, o.Low)
	assert.Less(t, want, o.High)
	// Beyond q - p what is left above x is (p + q - x)^2/(4 p q).
	assert.InDelta(t, p+q-math.Sqrt(0.05*4*p*q), o.Percentiles[2], 0.002)
	alone := map[string]tolerance.Alone{}
	for _, k := range a.Alone {
		alone[k.Dimension] = k
	}
	assert.InDelta(t, 0.1/math.Sin(math.Pi/6), *alone["lever.tip.y"].Plus, 1e-6)
	assert.InDelta(t, 0.1/math.Sin(math.Pi/6), *alone["lever.tip.y"].Minus, 1e-6)
	assert.InDelta(t, 0.1/(1-math.Cos(math.Pi/6)), *alone["lever.tip.x"].Plus, 1e-6)
	assert.Equal(t, linkage.Reading, alone["lever.tip.x"].PlusFails.Kind)
	assert.Nil(t, alone["dummy.eye.x"].Plus)
}

// Blame is by how the worst figure goes with each dimension, each tried by itself: of one
// that goes straight it is the share of slope times half-width, squared.
func TestBlameAgainstOneAtATime(t *testing.T) {
	text := demo(t, "pedals") + halfWidths
	a := answer(t, text, tolerance.Options{Builds: 4000, Seed: 1, AsDrilled: true})
	for i := range a.Outcomes {
		o := &a.Outcomes[i]
		if o.Requirement.Kind != linkage.RodAngle && o.Requirement.Kind != linkage.Clearance {
			continue
		}
		require.NotNil(t, o.Linear)
		assert.Greater(t, *o.Linear, 0.999)
		whole, shares := 0.0, map[string]float64{}
		for _, d := range a.Dimensions {
			at := func(out float64) float64 {
				r, err := compiled(t, text, linkage.Setting{Dimension: d.Name, Value: exactly(d.Value + out)}).Check()
				require.NoError(t, err)
				return *r.Requirements[o.Requirement.Index].Worst
			}
			// An arm's coordinate is out by itself; a pivot takes its arms along.
			half := (at(d.By) - at(-d.By)) / 2
			shares[d.Name] = half * half
			whole += half * half
		}
		for _, b := range o.Blame {
			assert.InDelta(t, shares[b.Dimension]/whole, b.Share, 0.003, "%s: %s", o.Requirement.Kind, b.Dimension)
		}
		// What the shares are of: the spread of the builds (uniform: a third of the square).
		spread := math.Sqrt(whole/3) * 1.645
		assert.InDelta(t, spread, (o.Percentiles[2]-o.Percentiles[0])/2, 0.05*spread)
	}
}

// How far one dimension may be out by itself: just so far it holds, and a little farther not.
func TestAloneIsWhereItFails(t *testing.T) {
	text := demo(t, "pedals") + halfWidths
	a := answer(t, text, tolerance.Options{Builds: 1, AsDrilled: true})
	tried := 0
	for _, k := range a.Alone {
		for _, side := range []struct {
			sign  float64
			far   *float64
			fails *linkage.Requirement
		}{{-1, k.Minus, k.MinusFails}, {1, k.Plus, k.PlusFails}} {
			if side.far == nil || side.fails == nil || side.fails.Kind == linkage.LabelKind {
				continue
			}
			tried++
			for _, beside := range []float64{-1e-6, 1e-6} {
				value := 0.0
				for _, d := range a.Dimensions {
					if d.Name == k.Dimension {
						value = d.Value
					}
				}
				r, err := compiled(t, text, linkage.Setting{Dimension: k.Dimension, Value: exactly(value + side.sign*(*side.far+beside))}).Check()
				require.NoError(t, err)
				assert.Equal(t, beside < 0, r.Requirements[side.fails.Index].Verdict == solve.Holds, "%s %+g: %s", k.Dimension, side.sign**side.far, side.fails.Kind)
			}
		}
	}
	assert.Greater(t, tried, 10)
}

// Rigged, rods keep to the pins by half a step of their ends, and the stops to the travel by
// half a step of theirs; as drawn they don't.
func TestRiggingTakesItOut(t *testing.T) {
	rigged := answer(t, adjusted, tolerance.Options{Builds: 400, Seed: 4})
	asDrilled := answer(t, adjusted, tolerance.Options{Builds: 400, Seed: 4, AsDrilled: true})
	require.True(t, rigged.Rigged)
	require.Len(t, rigged.RiggedRods, 1)
	require.Len(t, rigged.RiggedStops, 2)
	assert.False(t, asDrilled.Rigged)
	// A stop of half degrees leaves a quarter degree of the lever at most, about 0.21 of the
	// flap by the arms, so that 0.4 holds always; without, 2 degrees of the stop alone fail it.
	assert.Equal(t, 400, rigged.Outcomes[0].Holds)
	assert.Less(t, asDrilled.Outcomes[0].Holds, 200)
	for _, d := range rigged.Dimensions {
		switch d.Name {
		case "push-rod.length":
			assert.True(t, d.Rigged)
			assert.InDelta(t, 0.25, d.By, 1e-12, "half of half a turn of a pitch of 1")
		case "up.at", "down.at":
			assert.True(t, d.Rigged)
			assert.InDelta(t, 0.25, d.By, 1e-12)
		default:
			assert.False(t, d.Rigged)
		}
	}
}

// A stop drawn at neutral, as of flaps that are up, is out only away from it.
func TestStopAtNeutral(t *testing.T) {
	text := strings.Replace(strings.Replace(adjusted, "at     = -20\n  adjust = [-40, -5]", "at   = 0\n  side = \"low\"", 1), "low    = -15", "low    = 0", 1)
	a := answer(t, text, tolerance.Options{Builds: 200, Seed: 4, AsDrilled: true})
	assert.Zero(t, a.Open)
}

func TestNothingMayBeOut(t *testing.T) {
	_, err := tolerance.Run(compiled(t, demo(t, "pedals")), tolerance.Options{})
	assert.ErrorIs(t, err, tolerance.ErrExact)
	_, err = tolerance.Run(compiled(t, demo(t, "pedals")+"tolerance {\n  joint-play = 0.1\n}\n"), tolerance.Options{})
	assert.ErrorIs(t, err, tolerance.ErrExact)
	_, err = tolerance.Run(nil, tolerance.Options{})
	assert.Error(t, err)
	_, err = tolerance.Run(&solve.Mechanism{}, tolerance.Options{})
	assert.Error(t, err)
	_, err = tolerance.Run(compiled(t, adjusted), tolerance.Options{Builds: -1})
	assert.Error(t, err)
}

// What is stopped tells of what was done, in whole blocks from the first on.
func TestStopped(t *testing.T) {
	stop := false
	o := tolerance.Options{Builds: 5000, Seed: 1, Progress: func(done, _ int) { stop = done >= 512 }, Stop: func() bool { return stop }}
	was := runtime.GOMAXPROCS(1)
	a := answer(t, demo(t, "pedals")+halfWidths, o)
	runtime.GOMAXPROCS(was)
	assert.Equal(t, 5000, a.Asked)
	assert.Equal(t, 512, a.Builds)
	whole := answer(t, demo(t, "pedals")+halfWidths, tolerance.Options{Builds: 512, Seed: 1})
	assert.Equal(t, whole.Outcomes[0].Percentiles, a.Outcomes[0].Percentiles)
}

// The interval of Clopper and Pearson: none of n fails, so the lower end is (0.025)^(1/n), and
// of half of ten it is that of the tables of the binomial (Documenta Geigy, from memory: 0.187
// to 0.813).
func TestInterval(t *testing.T) {
	low, high := tolerance.Interval(100, 100)
	assert.InDelta(t, math.Pow(0.025, 0.01), low, 1e-9)
	assert.Equal(t, 1.0, high)
	low, high = tolerance.Interval(0, 100)
	assert.Equal(t, 0.0, low)
	assert.InDelta(t, 1-math.Pow(0.025, 0.01), high, 1e-9)
	low, high = tolerance.Interval(5, 10)
	assert.InDelta(t, 0.187, low, 5e-4)
	assert.InDelta(t, 0.813, high, 5e-4)
	// By its definition, with the binomial summed: 7 of 40.
	low, high = tolerance.Interval(7, 40)
	assert.InDelta(t, 0.025, atLeast(7, 40, low), 1e-9)
	assert.InDelta(t, 0.025, 1-atLeast(8, 40, high), 1e-9)
}

// atLeast is the probability of k or more of n, each of probability p.
func atLeast(k, n int, p float64) (sum float64) {
	for i := k; i <= n; i++ {
		term := 1.0
		for j := range i {
			term *= float64(n-j) / float64(i-j) * p
		}
		sum += term * math.Pow(1-p, float64(n-i))
	}
	return sum
}

// The bell curve has the half-width as two standard deviations.
func TestBell(t *testing.T) {
	text := demo(t, "pedals") + halfWidths
	flat := answer(t, text, tolerance.Options{Builds: 3000, Seed: 1, AsDrilled: true})
	bell := answer(t, text, tolerance.Options{Builds: 3000, Seed: 1, AsDrilled: true, Bell: true})
	for i := range flat.Outcomes {
		if flat.Outcomes[i].Requirement.Kind != linkage.RodAngle {
			continue
		}
		f, b := flat.Outcomes[i].Percentiles, bell.Outcomes[i].Percentiles
		// Standard deviations 1/sqrt(3) and 1/2 of the half-width, most of it one dimension.
		assert.InDelta(t, 0.822/0.9, (b[2]-b[0])/(f[2]-f[0]), 0.06)
	}
}
