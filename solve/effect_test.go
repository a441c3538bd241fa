package solve_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// threaded gives a rod an end with a thread; step is in turns.
func threaded(rod *linkage.Rod, side string, pitch, step float64, left bool) *linkage.RodEnd {
	e := &linkage.RodEnd{Rod: rod, Side: side, Thread: linkage.Thread{Pitch: pitch}, Engaged: 100, Step: step, Left: left}
	rod.Ends = append(rod.Ends, e)
	return e
}

// effectsOf checks a run and returns its effects.
func effectsOf(t testing.TB, run *linkage.Run) (*solve.Result, []solve.Effect) {
	t.Helper()
	m, err := solve.Compile(run)
	require.NoError(t, err)
	result, err := m.Check()
	require.NoError(t, err)
	return result, turnEffects(t, m, result)
}

// effectOn returns what an effect is on a part or output.
func effectOn(t testing.TB, e solve.Effect, name string) solve.PerTurn {
	t.Helper()
	for _, p := range e.PerTurn {
		if p.Name == name {
			return p
		}
	}
	require.FailNow(t, "no effect on", name)
	return solve.PerTurn{}
}

// TestEffectOnAFourBar: with the crank held, a coupler b longer by db turns the
// rocker by -db / (c sin(rocker - coupler)): the loop's equation differentiated
// and taken along the coupler. At crank 40 that is -1.1893185 degrees for each
// unit of length (own value, recomputed; linkage a 40, b 120, c 80, d 100).
func TestEffectOnAFourBar(t *testing.T) {
	const pitch = 0.75
	for _, crossed := range []bool{false, true} {
		f := fourBar{ground: 100, crank: 40, coupler: 120, rocker: 80, crossed: crossed}
		run := read(t, f.draw(40, 1).with(control("crank", -30, 50)).text())
		end := threaded(run.Rods[0], "to", pitch, 0.5, false)
		result, effects := effectsOf(t, run)
		require.Len(t, effects, 1)
		require.Same(t, end, effects[0].End)
		require.Equal(t, 0, effects[0].Sweep)
		require.Equal(t, [2]float64{-30, 50}, [2]float64{result.Sweeps[0].Low, result.Sweeps[0].High})
		turns := func(crank float64) float64 {
			coupler, rocker := f.angles(crank)
			return pitch * deg(-1/(f.rocker*math.Sin(rad(rocker-coupler))))
		}
		if !crossed {
			near(t, -1.1893185*pitch, turns(40), 5e-8, "by the closed form")
		}
		for _, name := range []string{"rocker", "rocker-turn"} {
			on := effectOn(t, effects[0], name)
			require.EqualValues(t, "deg", on.Unit)
			nearAtf(t, turns(40), on.Neutral, exact, "%s at neutral", name)
			nearAtf(t, turns(10), on.AtLow, exact, "%s at the low end", name)
			nearAtf(t, turns(90), on.AtHigh, exact, "%s at the high end", name)
		}
		crank := effectOn(t, effects[0], "crank")
		for _, v := range []*float64{crank.Neutral, crank.AtLow, crank.AtHigh} {
			nearAt(t, 0, v, 0, "the control stands where it stands")
		}
		// The rod's own point keeps its place from the crank's pin, so it goes
		// square to the coupler, by what of the joint's way is square to it.
		coupler, rocker := f.angles(40)
		way := square(polar(f.rocker*math.Cos(rad(rocker-coupler)), coupler)).Scale(rad(turns(40)))
		require.EqualValues(t, "mm", effectOn(t, effects[0], "trace-x").Unit)
		nearAt(t, way.X, effectOn(t, effects[0], "trace-x").Neutral, exact, "its trace, along x")
		nearAt(t, way.Y, effectOn(t, effects[0], "trace-y").Neutral, exact, "its trace, along y")
	}
}

// TestEffectOnCenter: where the travel ends with the rocker on center there is
// no telling how far it would go; what doesn't hang on it has its figure.
func TestEffectOnCenter(t *testing.T) {
	f := fourBar{ground: 100, crank: 80, coupler: 60, rocker: 50}
	d := f.draw(40, 1)
	d.bodies = append(d.bodies,
		hinge("lever", at(0, 200), spot{"pin", at(40, 200)}),
		hinge("tail", at(300, 0), spot{"pin", at(300, 150)}))
	d.bars = append(d.bars,
		bar{name: "up", from: "crank.pin", to: "lever.pin"},
		bar{name: "on", from: "rocker.pin", to: "tail.pin"})
	run := read(t, d.with(control("crank", -20, 60)).text())
	for _, rod := range run.Rods {
		threaded(rod, "from", 1, 0.5, false)
	}
	result, effects := effectsOf(t, run)
	high := result.Sweeps[0].Ends[1]
	require.Equal(t, solve.ByToggle, high.Cause)
	require.Equal(t, "rocker", high.Part.Name)
	require.Len(t, effects, 3)
	coupler, up, on := effects[0], effects[1], effects[2]
	for _, name := range []string{"rocker", "tail", "rocker-turn", "trace-x", "trace-y"} {
		require.Nil(t, effectOn(t, coupler, name).AtHigh, name)
		require.NotNil(t, effectOn(t, coupler, name).AtLow, name)
		nearAt(t, 0, effectOn(t, up, name).AtHigh, 0, name)
	}
	for _, name := range []string{"crank", "lever"} {
		nearAt(t, 0, effectOn(t, coupler, name).AtHigh, 0, name)
	}
	require.NotZero(t, *effectOn(t, up, "lever").AtHigh)
	require.NotZero(t, *effectOn(t, on, "tail").AtHigh)
	nearAt(t, 0, effectOn(t, on, "rocker").AtHigh, 0, "rocker")
}

// TestEffectOfABarrel: with opposite hands a turn counts both pitches, whichever
// end is named; with the same hand the one takes what the other gives.
func TestEffectOfABarrel(t *testing.T) {
	f := fourBar{ground: 100, crank: 40, coupler: 120, rocker: 80}
	on := func(lefts [2]bool, steps [2]float64) (from, to float64) {
		run := read(t, f.draw(40, 1).with(control("crank", -30, 50)).text())
		threaded(run.Rods[0], "from", 1, steps[0], lefts[0])
		threaded(run.Rods[0], "to", 0.25, steps[1], lefts[1])
		_, effects := effectsOf(t, run)
		require.Len(t, effects, 2)
		for _, e := range effects {
			require.False(t, math.Signbit(*effectOn(t, e, "crank").Neutral), "no negative zero")
		}
		return *effectOn(t, effects[0], "rocker").Neutral, *effectOn(t, effects[1], "rocker").Neutral
	}
	from, to := on([2]bool{false, false}, [2]float64{0.5, 0.5})
	near(t, 4*to, from, exact, "each end by itself")
	one := from
	from, to = on([2]bool{false, true}, [2]float64{0, 0.5})
	near(t, one, from, exact, "an end in steps is no barrel's")
	near(t, one/4, to, exact, "an end in steps is no barrel's")
	from, to = on([2]bool{false, true}, [2]float64{0, 0})
	near(t, 1.25*one, from, exact, "opposite hands")
	near(t, 1.25*one, to, exact, "opposite hands")
	from, to = on([2]bool{true, true}, [2]float64{0, 0})
	near(t, 0.75*one, from, exact, "the same hand")
	near(t, -0.75*one, to, exact, "the same hand, from the other end")
}

// TestEffectOnCenterOfABlock: a beam that three rods hold locks as a whole, and
// what it drives with it.
func TestEffectOnCenterOfABlock(t *testing.T) {
	d := drawing{
		bodies: []body{
			{name: "frame", fixed: true, points: []spot{{"a", at(90, 0)}, {"b", at(150, -5)}}},
			hinge("crank", at(0, 0), spot{"pin", at(0, 60)}),
			{name: "beam", points: []spot{{"in", at(80, 65)}, {"a", at(95, 50)}, {"b", at(160, 60)}}},
			hinge("tail", at(300, 0), spot{"pin", at(300, 150)}),
			hinge("lever", at(0, 200), spot{"pin", at(40, 260)}),
		},
		bars: []bar{
			{name: "drive", from: "crank.pin", to: "beam.in"},
			{name: "leg-a", from: "frame.a", to: "beam.a"},
			{name: "leg-b", from: "frame.b", to: "beam.b"},
			{name: "on", from: "beam.b", to: "tail.pin"},
			{name: "up", from: "crank.pin", to: "lever.pin"},
		},
		rest: []string{control("crank", -170, 170)},
	}
	run := read(t, d.text())
	for _, rod := range run.Rods {
		threaded(rod, "from", 1, 0.5, false)
	}
	result, effects := effectsOf(t, run)
	for _, end := range result.Sweeps[0].Ends {
		require.Equal(t, solve.ByToggle, end.Cause)
		require.Equal(t, "beam", end.Part.Name)
	}
	for _, e := range effects {
		locked := e.End.Rod.Name == "drive" || e.End.Rod.Name == "leg-a" || e.End.Rod.Name == "leg-b"
		for _, p := range e.PerTurn {
			require.NotNil(t, p.Neutral)
			for _, v := range []*float64{p.AtLow, p.AtHigh} {
				if locked && p.Name != "crank" && p.Name != "lever" {
					require.Nil(t, v, "%s: %s", e.End, p.Name)
				} else {
					require.NotNil(t, v, "%s: %s", e.End, p.Name)
				}
			}
		}
	}
}

// TestEffectsAgainstRealTurns turns every rod end of every demo, and of a run
// with a rod that hangs on another, out and in by a little, compiles and sweeps
// the run again, and compares every figure.
func TestEffectsAgainstRealTurns(t *testing.T) {
	for _, name := range demoNames(t) {
		t.Run(name, func(t *testing.T) {
			compareTurns(t, read(t, demoText(t, name)))
		})
	}
	t.Run("a rod on a rod", func(t *testing.T) { compareTurns(t, read(t, hungText)) })
}

// hungText is a rod that hangs on another one's bracket, one of the two set off
// its drawn length.
const hungText = `run "hung" {
  units = "mm"
}
part "lever" {
  pivot  = [0, 0]
  points = { pin = [10, 60] }
}
part "rocker" {
  pivot  = [200, 10]
  points = { pin = [190, 80] }
}
part "tail" {
  pivot  = [120, 200]
  points = { pin = [160, 190] }
}
rod "link" {
  from   = lever.pin
  to     = rocker.pin
  length = 184
  points = { bracket = [110, 90] }
}
rod "hanger" {
  from = tail.pin
  to   = link.bracket
}
control "hand" {
  of   = lever
  from = -15
  to   = 15
}
output "bracket" {
  of    = link.bracket
  along = [1, 1]
}
`

// compareTurns gives every rod two ends and checks their effects. The turns are
// such that what bends the figures and what rounding does to them are both
// below a millionth of what a length of the run's size would do.
func compareTurns(t *testing.T, run *linkage.Run) {
	const pitch, share = 1.5, 1e-5
	for _, rod := range run.Rods {
		rod.Ends = nil
		threaded(rod, "from", pitch, 0.5, false)
		threaded(rod, "to", 2*pitch, 0.5, true)
	}
	turns := share * run.Size() / pitch
	result, effects := effectsOf(t, run)
	require.Len(t, effects, 2*len(run.Rods)*len(result.Sweeps))
	filed := make([][3]float64, len(result.Sweeps)) // control positions
	for i, w := range result.Sweeps {
		filed[i] = [3]float64{0, w.Low, w.High}
	}
	const differenced = 2e-6 // of a large effect the real turns leave as much in their difference
	tolerance := 1e-5 * (pitch / run.Size()) * math.Max(run.Size(), 360)
	for _, rod := range run.Rods {
		for _, e := range rod.Ends {
			out, in := afterTurning(t, run, e, turns, result.Sweeps, filed), afterTurning(t, run, e, -turns, result.Sweeps, filed)
			for _, effect := range effects {
				if effect.End != e {
					continue
				}
				w := result.Sweeps[effect.Sweep]
				require.Len(t, effect.PerTurn, len(w.Parts)+len(w.Outputs))
				for i, p := range effect.PerTurn {
					for k, got := range []*float64{p.Neutral, p.AtLow, p.AtHigh} {
						want := (out[w.Index][k][i] - in[w.Index][k][i]) / (2 * turns)
						nearAtf(t, want, got, tolerance+differenced*math.Abs(want), "%s: %s, sweep %d, at %v", e, p.Name, w.Index, filed[w.Index][k])
					}
				}
			}
		}
	}
}

// afterTurning returns what every part and output shows after a real turn: by sweep,
// by control position, in the order of an effect.
func afterTurning(t *testing.T, run *linkage.Run, e *linkage.RodEnd, turns float64, sweeps []*solve.Sweep, filed [][3]float64) (shown [][3][]float64) {
	t.Helper()
	run = edited(t, run, linkage.Turn(e, turns))
	m, err := solve.Compile(run)
	require.NoError(t, err)
	for i, was := range sweeps {
		w, err := m.Sweep(was.Control, was.Held)
		require.NoError(t, err)
		var rows [3][]float64
		for k, x := range filed[i] {
			st := solveAt(t, w, x)
			for _, p := range run.Parts {
				switch p.Motion {
				case linkage.Fixed:
				case linkage.Floats:
					var gone vec
					for j := range p.Points {
						now := st.Point(linkage.PointRef{Part: p, Point: j})
						gone = gone.Add(now.Sub(p.Points[j].At).Scale(1 / float64(len(p.Points))))
					}
					rows[k] = append(rows[k], gone.X, gone.Y, st.Travel(p))
				case linkage.Tilts: // its square-to is upright
					normal := st.Place(p, p.Pivot.Add(p.SquareTo)).Sub(st.Place(p, p.Pivot))
					rows[k] = append(rows[k], math.Asin(normal.X)*180/math.Pi, math.Asin(normal.Z)*180/math.Pi, st.Travel(p))
				default:
					rows[k] = append(rows[k], st.Travel(p))
				}
			}
			for _, o := range run.Outputs {
				rows[k] = append(rows[k], st.Reading(o))
			}
		}
		shown = append(shown, rows)
	}
	return shown
}
