package solve

import (
	"fmt"
	"math"
	"testing"

	"fullfree/linkage"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Of a point 100 from its pivot, drawn level with it, a gauge that reads 7 as drawn reads
// 7 + 100 sin x: elementary trigonometry.
func TestReadingOfADisc(t *testing.T) {
	for _, c := range []struct {
		at, wants float64
	}{{0, 7}, {30, 57}, {30, 50}, {-20, 7}, {60, 90}, {-60, -80}} {
		j := judgedKind(t, discs(t, -60, 60, fmt.Sprintf("require \"reading\" {\n of = a\n at = %g\n wants = %g\n within = 0.5\n}", c.at, c.wants)), linkage.Reading)
		reads := 7 + 100*math.Sin(c.at*math.Pi/180)
		require.NotNil(t, j.Worst)
		assert.InDelta(t, math.Abs(reads-c.wants), *j.Worst, 1e-9)
		assert.InDelta(t, reads, j.Reaches, 1e-9)
		assert.Equal(t, c.at, *j.At)
		assert.Equal(t, math.Abs(reads-c.wants) <= 0.5, j.Verdict == Holds)
	}
}

// A control that a stop holds before that place can't be set there: that falls short, and
// has no figure. At the stop itself it can.
func TestReadingBeyondTheTravel(t *testing.T) {
	const stop = "stop \"rest\" {\n of = disc\n at = %g\n}\nrequire \"reading\" {\n of = a\n at = 30\n wants = 57\n within = 0.5\n}"
	short := judgedKind(t, discs(t, -60, 60, fmt.Sprintf(stop, 29.0)), linkage.Reading)
	assert.Equal(t, FallsShort, short.Verdict)
	assert.Equal(t, NotReached, short.Why)
	assert.Nil(t, short.Worst)
	assert.Equal(t, 29.0, *short.At)
	at := judgedKind(t, discs(t, -60, 60, fmt.Sprintf(stop, 30.0)), linkage.Reading)
	assert.Equal(t, Holds, at.Verdict)
	assert.InDelta(t, 0, *at.Worst, 1e-9)
}

// ridingLever is a lever on the airframe that a rod set longer than drawn pushes away, and a
// lever that rides on it.
func ridingLever(t testing.TB, length float64, rest string) *Result {
	return checkedText(t, fmt.Sprintf(`
run "Levers" { units = "mm" }
part "hand-lever" {
  pivot  = [0, 0]
  points = { horn = [0, 60] }
}
part "arm" {
  pivot  = [300, 0]
  points = { horn = [300, 60], tip = [300, 200] }
}
part "tab" {
  pivot  = arm.tip
  points = { horn = [340, 200] }
}
fixed "frame" { points = { post = [340, 20] } }
rod "link" {
  from   = hand-lever.horn
  to     = arm.horn
  length = %g
}
rod "tab-rod" {
  from = frame.post
  to   = tab.horn
}
control "lever" {
  of   = hand-lever
  from = -20
  to   = 20
}
output "arm-gauge" {
  of    = arm
  reads = 10
}
output "tab-true" { of = tab }
output "tab-own" {
  of      = tab
  against = "carrier"
  reads   = 3
}
%s
`, length, rest))
}

// Where the lever stands at neutral is where a rod of that length reaches: its horn is on
// the circle about the other one's (Pythagoras).
func TestNeutralOffTheDrawing(t *testing.T) {
	for _, length := range []float64{300, 301, 298.5, 310} {
		result := ridingLever(t, length, "require \"neutral\" {\n of = arm\n within = 0.5\n}\nrequire \"neutral\" \"gauge\" {\n of = arm-gauge\n within = 0.5\n}")
		j, gauge := &result.Requirements[0], &result.Requirements[1]
		require.NotNil(t, j.Worst)
		turn := j.Reaches * math.Pi / 180
		assert.InDelta(t, length, math.Hypot(300-60*math.Sin(turn), 60*math.Cos(turn)-60), 1e-9)
		assert.Equal(t, math.Abs(j.Reaches), *j.Worst)
		assert.Equal(t, *j.Worst, *gauge.Worst, "what it reads as drawn doesn't count")
		assert.Equal(t, *j.Worst <= 0.5, j.Verdict == Holds)
		assert.Equal(t, 0.0, *j.At)
	}
}

// Against its carrier a part turns by what it turns against the drawing less what the
// carrier does: turns about parallel axes add up.
func TestOutputAgainstItsCarrier(t *testing.T) {
	result := ridingLever(t, 300, "")
	w := result.Sweeps[0]
	arm, own, whole := w.Outputs[0], w.Outputs[2], w.Outputs[1]
	for _, at := range []func(e Extent) float64{
		func(e Extent) float64 { return e.Neutral }, func(e Extent) float64 { return e.AtLow }, func(e Extent) float64 { return e.AtHigh },
	} {
		assert.InDelta(t, at(whole.Extent)-(at(arm.Extent)-10), at(own.Extent)-3, 1e-9)
	}
	assert.Greater(t, math.Abs(own.AtHigh-3-whole.AtHigh), 5.0, "the two differ")
}

// The bands of both kinds, held against runs that are built out by a little.
func TestBandsOfNeutralAndReading(t *testing.T) {
	const asked = "require \"neutral\" {\n of = tab-own\n within = 0.5\n}\nrequire \"reading\" {\n of = tab-own\n at = 12\n wants = 0\n within = 0.5\n}"
	run := ridingLever(t, 302, asked).Run
	m, err := Compile(run)
	require.NoError(t, err)
	result, err := m.Check()
	require.NoError(t, err)
	require.NoError(t, m.AddBands(result, nil))
	b := m.newBands(result.reading(), nil)
	for k := range result.Requirements {
		j := &result.Requirements[k]
		require.NotNil(t, j.Band)
		assert.Positive(t, *j.Band)
		told := b.of(j)
		by := append([]float64(nil), told.slope.drawn...)
		b.slots.alongArms(by)
		const h = 1e-3
		for i, d := range run.Dimensions() {
			at := func(by float64) float64 {
				moved, err := run.With(linkage.Shift(d, by))
				require.NoError(t, err)
				n, err := Compile(moved)
				require.NoError(t, err)
				r, err := n.Check()
				require.NoError(t, err)
				return *r.Requirements[k].Worst
			}
			if d.IsLength() && !d.Given() {
				continue
			}
			want := (at(h) - at(-h)) / (2 * h)
			assert.InDelta(t, want, told.per*by[i], 1e-4+1e-4*math.Abs(want), "%s %s", j.Requirement.Kind, d)
		}
	}
}
