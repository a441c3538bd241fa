package demo_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/demo"
	"fullfree/linkage"
	"fullfree/solve"
	"fullfree/solve/survey"
)

// truth is where the holes of the taped run are: its distances were worked out
// from these and rounded as a tape is read.
var truth = map[string]linkage.Vec{
	"airframe.shaft":   {},
	"left-pedal.horn":  {X: 3, Y: -60.5, Z: 30},
	"right-pedal.horn": {X: 2.5, Y: -59.8, Z: -30},
	"rocker.pivot":     {X: 302.2, Y: -57.6},
	"rocker.upper":     {X: 291.8, Y: 3.1, Z: 12},
	"rocker.lower":     {X: 292.6, Y: -118.4, Z: -12},
}

// newRod is by how much the left rod was longer at the second rigging.
const newRod = 1.2

func surveyed(t *testing.T) (*linkage.Run, *survey.Survey) {
	t.Helper()
	run := read(t, text(t, demo.Taped))
	s, err := survey.New(run)
	require.NoError(t, err)
	return run, s
}

func TestTapedRunIsWhereItWasMade(t *testing.T) {
	run, s := surveyed(t)
	for _, m := range run.Measurements {
		d := truth[m.To.String()].Sub(truth[m.From.String()])
		is := d.Norm()
		if m.Kind == linkage.Gauged {
			is = math.Atan2(d.Y, d.X) * 180 / math.Pi
		}
		assert.InDelta(t, is, m.Is, m.Within, m.Name)
	}
	assert.Empty(t, s.Undetermined)
	require.Len(t, s.Points, len(truth))
	for _, p := range s.Points {
		const deviations = 2
		off := p.At.Sub(truth[p.Name])
		assert.LessOrEqual(t, math.Abs(off.X), deviations*p.Sigma.X, p.Name)
		assert.LessOrEqual(t, math.Abs(off.Y), deviations*p.Sigma.Y, p.Name)
		assert.Equal(t, truth[p.Name].Z, p.At.Z)
	}
	for _, m := range s.Measurements {
		assert.False(t, m.Doubtful, m.Measurement.Name)
	}
}

func TestTapedRunHoldsAndItsReadingsAskForTheNewRod(t *testing.T) {
	run, s := surveyed(t)
	run, err := s.Apply(run)
	require.NoError(t, err)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	r, err := m.Check()
	require.NoError(t, err)
	assert.Equal(t, solve.Holds, r.Verdict)

	d, err := m.Diagnose()
	require.NoError(t, err)
	assert.False(t, d.Fits)
	best := map[string]solve.Candidate{}
	for _, c := range d.Candidates {
		if c.Group == 1 {
			best[c.Dimension] = c
		}
	}
	require.Contains(t, best, "left-link.length")
	assert.InDelta(t, newRod, best["left-link.length"].Estimate-best["left-link.length"].Nominal, 2*best["left-link.length"].SE)
	assert.Contains(t, best, "after the new left rod.zero", "a slipped gauge would read the same")
	require.NotNil(t, d.TellsApart)
	assert.Equal(t, "right-pedal", d.TellsApart.Of.Name())
	require.Len(t, d.Riggings, 1, "the later one")
}
