package solve_test

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/linkage/hunt"
	"fullfree/solve"
)

// noisy compiles a text with blocks and returns what diagnoses it with other
// readings.
func noisy(t *testing.T, text string, blocks ...rigged) func(read ...[]float64) *solve.Diagnosis {
	t.Helper()
	for _, b := range blocks {
		b.read = make([]float64, len(b.at))
		text += b.text()
	}
	run := read(t, text)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	return func(read ...[]float64) *solve.Diagnosis {
		for i, list := range read {
			for k, v := range list {
				run.Riggings[i].Readings[k][1] = v
			}
		}
		d, err := m.Diagnose()
		require.NoError(t, err)
		return d
	}
}

// blur returns readings with normal errors.
func blur(rng *rand.Rand, read []float64, sigma float64) []float64 {
	out := slices.Clone(read)
	for i := range out {
		out[i] += sigma * rng.NormFloat64()
	}
	return out
}

// TestHuntDiagnoseCoverage: over draws of the readings, the culprit is in the first
// group (as often as chi-square with one degree of freedom says, 95 %, or more:
// the best of the others beats it only by chance), its interval of 95 % holds the
// truth 95 % of the time, and what fits as drawn is said to, 95 % of the time.
// Five rounds of it are 300 draws, which leave a standard deviation of 1.3 %.
func TestHuntDiagnoseCoverage(t *testing.T) {
	const (
		seed   = 3
		sigma  = 0.1
		longer = 1.2
	)
	draws := 40 * hunt.Rounds()
	n := float64(draws)
	off95 := 2.75 * math.Sqrt(0.05*0.95/n)
	rng := rand.New(rand.NewPCG(seed, 1))
	b := rigged{name: "first", of: "rocker-turn", at: suspectedReads, within: 2 * sigma}
	with := noisy(t, suspectedText(), b)
	first, inside, fits, asks := 0, 0, 0, 0
	var mean, square float64
	for range draws {
		d := with(blur(rng, suspectedTurns(longer), sigma))
		c := suspectNamed(t, d, "coupler.length")
		off := (c.Estimate - suspected.coupler - longer) / c.SE
		mean += off / n
		square += off * off / n
		if c.Group == 1 {
			first++
		}
		if math.Abs(off) < 1.96 {
			inside++
		}
		if !d.Fits {
			asks++
		}
		if with(blur(rng, suspectedTurns(0), sigma)).Fits {
			fits++
		}
	}
	assert.Greater(t, first, draws*95/100, "seed %d", seed)
	assert.InDelta(t, 0.95, float64(inside)/n, off95, "seed %d", seed)
	assert.InDelta(t, 0.95, float64(fits)/n, off95, "seed %d", seed)
	assert.Equal(t, draws, asks, "seed %d: 1.2 mm are seen", seed)
	assert.InDelta(t, 0, mean, 3/math.Sqrt(n), "seed %d", seed)
	assert.InDelta(t, 1, square, 3*math.Sqrt(2/n), "seed %d", seed)
}

// rockerRun has what a pedal run has: a rod in, a rod out, and little to tell
// them apart by.
func rockerRun() string {
	return `
run "rocker" { units = "mm" }
part "pedal" {
  pivot = [0, 0]
  arms  = { horn = [0, -60] }
}
part "other" {
  pivot = [0, 5]
  arms  = { horn = [0, -60] }
}
part "rocker" {
  pivot = [300, -60]
  arms  = {
    upper = [-10, 60]
    lower = [-10, -60]
  }
}
rod "in" {
  from   = pedal.horn
  to     = rocker.upper
  length = 296.15
}
rod "out" {
  from   = rocker.lower
  to     = other.horn
  length = 297.3
}
control "pedals" {
  of   = pedal
  from = -30
  to   = 30
}
stop "aft" {
  of = pedal
  at = -24
}
stop "forward" {
  of = pedal
  at = 24
}
output "tail" {
  of    = rocker
  reads = 3
}
`
}

// TestDiagnoseTellsApart: a rod and the place of the pivot along it, which a few
// readings can't tell apart, are one group; the extra reading asked for, made
// as if any one of them were the culprit, rules others out and not it.
func TestDiagnoseTellsApart(t *testing.T) {
	text := rockerRun()
	truth := []linkage.Setting{set("in.length", read(t, text).Rods[0].Length+1)}
	b := rigged{name: "first", of: "tail", control: "pedals", at: []float64{-20, 0, 20}, within: 0.4}.readFrom(t, text, truth...)
	before := diagnosed(t, text, b)
	group := names(before, 1)
	for _, name := range []string{"in.length", "rocker.pivot.x", "first.zero"} {
		assert.Contains(t, group, name)
	}
	extra := before.TellsApart
	require.NotNil(t, extra)
	assert.Equal(t, "pedals", extra.Control.Name)
	assert.Equal(t, "other", extra.Of.Name(), "what moves with the pivot and not with the rod")
	assert.GreaterOrEqual(t, extra.At, -24.0)
	assert.LessOrEqual(t, extra.At, 24.0)
	assert.Equal(t, math.Round(extra.At), extra.At, "a figure to set the pedals to")
	assert.Greater(t, extra.Differs, extra.Within)
	for _, c := range before.Candidates[:len(group)] {
		if c.Dim == nil {
			continue // a zero makes no other reading
		}
		further := rigged{name: "extra", of: extra.Of.Name(), control: "pedals", at: []float64{extra.At}, within: 0.2}.
			readFrom(t, text, set(c.Dimension, c.Estimate))
		after := diagnosed(t, text, b, further)
		assert.Less(t, len(names(after, 1)), len(group), "if it is %s", c.Dimension)
		assert.Contains(t, names(after, 1), c.Dimension)
	}
}

// TestDiagnoseTellsApartFinely: a further reading is asked for only where what it
// would show differs by more than it reads to.
func TestDiagnoseTellsApartFinely(t *testing.T) {
	text := rockerRun()
	asked := 0
	for _, within := range []float64{0.05, 0.4, 1, 2, 4, 8} {
		b := rigged{name: "first", of: "tail", control: "pedals", at: []float64{-20, 0, 20}, within: within}.
			readFrom(t, text, set("in.length", read(t, text).Rods[0].Length+1))
		d := diagnosed(t, text, b)
		require.Greater(t, len(names(d, 1)), 1, "within %v", within)
		if x := d.TellsApart; x != nil {
			asked++
			assert.Greater(t, x.Differs, x.Within)
		} else {
			assert.Greater(t, within, 0.4)
		}
	}
	assert.Less(t, asked, 6, "eight degrees tell nothing")
	assert.Greater(t, asked, 1)
}

// TestDiagnoseOneAndTheSame: the place of a slide's eye along its guide and the
// zero of the gauge on the slide are one and the same to every reading.
func TestDiagnoseOneAndTheSame(t *testing.T) {
	d := sliderCrank(50, 150, 60)
	d.bars[0].length = 150
	text := d.with(control("crank", -90, 90)).text()
	b := rigged{name: "first", of: "place", at: []float64{-80, -40, 0, 40, 80}, within: 0.05}.readFrom(t, text)
	for i := range b.read {
		b.read[i] -= 3
	}
	got := diagnosed(t, text, b)
	assert.Equal(t, []string{"block.eye.x", "first.zero"}, names(got, 1), "in the file's order")
	near(t, -3, suspectNamed(t, got, "first.zero").Estimate, 1e-9, "zero")
	eye := suspectNamed(t, got, "block.eye.x")
	near(t, eye.Nominal+3, eye.Estimate, 1e-6, "eye")
	assert.Nil(t, got.TellsApart)
}

// TestDiagnoseTrend: a rod that gets shorter from rigging to rigging; what has
// no date is told as left out.
func TestDiagnoseTrend(t *testing.T) {
	text := suspectedText()
	dates := []string{"2026-03-01", "2026-05-01", "2027-01-15"}
	worn := []float64{0, -0.9, -2.1}
	var blocks []rigged
	for _, i := range []int{2, 0, 1} { // the file's order isn't the dates'
		blocks = append(blocks, rigged{name: dates[i], of: "rocker-turn", at: suspectedReads, read: suspectedTurns(worn[i]), within: 0.1, date: dates[i]})
	}
	blocks = append(blocks, rigged{name: "undated", of: "rocker", at: []float64{0}, read: []float64{30}, within: 0.1})
	d := diagnosed(t, text, blocks...)
	require.Len(t, d.Riggings, 1)
	assert.Equal(t, "2027-01-15", d.Riggings[0].Name)
	require.Len(t, d.LeftOut, 1)
	assert.Equal(t, "undated", d.LeftOut[0].Name)
	assert.Equal(t, []string{"coupler.length"}, names(d, 1))
	require.Len(t, d.Trend, 3)
	for i, p := range d.Trend {
		assert.Equal(t, "coupler.length", p.Dimension)
		assert.Equal(t, dates[i], p.Date, "in order of time")
		near(t, suspected.coupler+worn[i], p.Estimate, 1e-6, p.Date)
		near(t, d.Candidates[0].SE, p.SE, 0.1*p.SE, "as many readings as good")
	}
	near(t, d.Candidates[0].Estimate, d.Trend[2].Estimate, 1e-9, "the last is the diagnosis")

	one := diagnosed(t, text, blocks[0])
	assert.Empty(t, one.Trend, "one date is no trend")
}

// TestDiagnoseTrendOfZero: a gauge that is knocked out of true between riggings.
func TestDiagnoseTrendOfZero(t *testing.T) {
	off := func(by float64) []float64 {
		turns := suspectedTurns(0)
		for i := range turns {
			turns[i] += by
		}
		return turns
	}
	d := diagnosed(t, suspectedText(),
		rigged{name: "old", of: "rocker-turn", at: suspectedReads, read: off(0.2), within: 0.1, date: "2026-01-01"},
		rigged{name: "new", of: "rocker", at: suspectedReads, read: off(2), within: 0.1, date: "2026-02-01"})
	assert.Equal(t, "new.zero", d.Candidates[0].Dimension)
	require.Len(t, d.Trend, 2)
	assert.Equal(t, "new.zero", d.Trend[0].Dimension)
	near(t, 0.2, d.Trend[0].Estimate, 1e-9, "before")
	near(t, 2, d.Trend[1].Estimate, 1e-9, "after")
}

// TestDiagnoseJoint: where every dimension and zero is off as it was taken to be
// known beforehand, the joint estimate's intervals of 95 % hold the truth 95 %
// of the time, over all of them, and it fits far better than the run as drawn.
func TestDiagnoseJoint(t *testing.T) {
	const (
		draws, seed = 60, 5
		sigma       = 0.02
	)
	rng := rand.New(rand.NewPCG(seed, 2))
	text := rockerRun()
	blocks := []rigged{
		{name: "tail", of: "tail", control: "pedals", at: []float64{-24, -12, 0, 12, 24}, within: 2 * sigma},
		{name: "right", of: "other", control: "pedals", at: []float64{-24, -12, 0, 12, 24}, within: 2 * sigma},
	}
	with := noisy(t, text, blocks...)
	estimates := with(make([]float64, 5), make([]float64, 5)).Joint.Estimates
	require.NotEmpty(t, estimates)
	run := read(t, text)
	inside, all, better := 0, 0, 0
	for range draws {
		truth := map[string]float64{}
		var edits []linkage.Edit
		for _, lengths := range []bool{false, true} {
			for _, e := range estimates {
				switch {
				case e.Dim == nil && !lengths:
					truth[e.Dimension] = sigma * rng.NormFloat64()
				case e.Dim != nil && e.Dim.IsLength() == lengths:
					off := 0.5 * rng.NormFloat64()
					for _, d := range run.Dimensions() {
						if d.String() == e.Dimension {
							edits = append(edits, linkage.Shift(d, off))
						}
					}
					truth[e.Dimension] = e.Nominal + off
				}
			}
		}
		m, err := solve.Compile(edited(t, run, edits...))
		require.NoError(t, err)
		s, err := m.Sweep(run.Controls[0], nil)
		require.NoError(t, err)
		var tail, right []float64
		for _, x := range blocks[0].at {
			st := solveAt(t, s, x)
			tail = append(tail, st.Reading(run.Outputs[0])+truth["tail.zero"])
			right = append(right, st.Travel(partNamed(t, run, "other"))+truth["right.zero"])
		}
		d := with(blur(rng, tail, sigma), blur(rng, right, sigma))
		require.GreaterOrEqual(t, d.Joint.Directions, 2)
		require.Len(t, d.Joint.Estimates, len(estimates))
		for _, e := range d.Joint.Estimates {
			all++
			if math.Abs(e.Estimate-truth[e.Dimension]) < 1.96*e.SE {
				inside++
			}
			assert.LessOrEqual(t, e.SE, e.Prior)
		}
		if d.Joint.RMS < 0.5*d.RMS0 {
			better++
		}
	}
	assert.InDelta(t, 0.95, float64(inside)/float64(all), 0.03, "seed %d", seed)
	assert.Greater(t, better, draws*9/10, "seed %d", seed)
}

// TestDiagnoseTwoCulprits: a rod and a gauge that are both off, which nothing by
// itself explains, come out of the joint estimate.
func TestDiagnoseTwoCulprits(t *testing.T) {
	const longer, zero, within = 1.5, 0.5, 0.4
	up, down := suspectedTurns(longer), suspectedTurns(longer)
	for i := range up {
		up[i] += zero
		down[i] -= zero
	}
	text := replaceOnce(t, suspectedText(), "units = \"mm\"", "units = \"mm\"\n  uncertain = 4")
	d := diagnosed(t, text,
		rigged{name: "up", of: "rocker", at: suspectedReads, read: up, within: within},
		rigged{name: "down", of: "rocker", at: suspectedReads, read: down, within: within})
	require.False(t, d.Fits)
	assert.Greater(t, d.Candidates[0].SumOfSquares, 21.0, "nothing explains it alone: 95 % of chi-square with 12")
	assert.GreaterOrEqual(t, d.Joint.Directions, 2)
	assert.Less(t, d.Joint.RMS, within/2)
	assert.Less(t, d.Joint.RMS, 0.5*d.Candidates[0].RMS)
	at := func(name string) solve.JointEstimate {
		i := slices.IndexFunc(d.Joint.Estimates, func(e solve.JointEstimate) bool { return e.Dimension == name })
		require.GreaterOrEqual(t, i, 0, name)
		return d.Joint.Estimates[i]
	}
	rod := at("coupler.length")
	near(t, suspected.coupler+longer, rod.Estimate, 2*rod.SE, "rod")
	near(t, 2.0, rod.Prior, 1e-12, "half of uncertain")
	for name, want := range map[string]float64{"up.zero": zero, "down.zero": -zero} {
		e := at(name)
		near(t, 0.2, e.Prior, 1e-12, "half of within")
		near(t, want, e.Estimate, 2*e.SE, name)
	}
	assert.Empty(t, diagnosed(t, suspectedText(), rigged{name: "one", of: "rocker", at: []float64{10}, read: []float64{12}, within: within}).Joint.Estimates, "one reading is one direction")
}
