package page

import (
	"bytes"
	"strings"
	"testing"

	"fullfree/render/internal/sample"
	"fullfree/solve"
	"fullfree/solve/recheck"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Low, middle and high collective with five places of the stick, of two blades: each with
// what is predicted beside a blank, over the tail, the right, the nose and the left.
func TestSheetOfARotor(t *testing.T) {
	r := sample.Rotor(t)
	s := sheetOf(r, sheetOptions{File: "rotor.hcl"})
	var pitch *sheetStep
	for i := range s.Steps {
		if s.Steps[i].step == recheck.StepPitch {
			pitch = &s.Steps[i]
		}
	}
	require.NotNil(t, pitch)
	assert.Equal(t, []string{"blade, controls", "over the tail", "as rigged", "over the right", "as rigged", "over the nose", "as rigged", "over the left", "as rigged"}, pitch.Table.Head)
	require.Len(t, pitch.Table.Rows, 2*3*5)
	for i, row := range pitch.Table.Rows {
		require.Len(t, row, 9)
		for k := 2; k < 9; k += 2 {
			assert.True(t, row[k].Blank)
			assert.True(t, strings.HasSuffix(row[k-1].Says, "°"), row[k-1].Says)
		}
		assert.Equal(t, r.Rotor.Blades[i/15].Output, pitch.Table.lines[i].About)
	}
	assert.Equal(t, "pitch-a: collective low, stick neutral", pitch.Table.Rows[0][0].Says)
	assert.Equal(t, "pitch-a: collective low, stick forward", pitch.Table.Rows[1][0].Says)
	assert.Contains(t, strings.Join(pitch.Says, " "), "Rotor held square to the mast, protractor at the station that the drawing says")
	assert.Contains(t, strings.Join(pitch.Says, " "), "what is predicted here is no limit")
	for i := range s.Steps {
		for _, row := range s.Steps[i].Table.Rows {
			if step := s.Steps[i].step; step == recheck.StepTravels || step == recheck.StepStops || step == recheck.StepSense {
				assert.False(t, strings.HasPrefix(row[0].Says, "azimuth") || strings.HasPrefix(row[0].Says, "hub"), "nothing is rigged at the ends of a whole turn: %s", row[0].Says)
			}
		}
	}
	// What recheck tells apart has the same lines.
	lines := 0
	for _, line := range SheetLines(r, nil) {
		if line.Step == recheck.StepPitch {
			lines++
		}
	}
	assert.Equal(t, 30, lines)
	_, ok := stepPitch(sample.Levers())
	assert.False(t, ok)
}

// The book shows a travel of each control, and the rotor going round with one control to one
// side; its pages tell the pitch of the blades.
func TestBookOfARotor(t *testing.T) {
	r := sample.Rotor(t)
	shown := shownSweeps(r, 0)
	assert.Len(t, shown, rotorTravels)
	seen := map[string]int{}
	for _, w := range shown {
		seen[w.Control.Name]++
	}
	for _, c := range r.Run.Controls {
		assert.Positive(t, seen[c.Name], c.Name)
	}
	var b bytes.Buffer
	require.NoError(t, Book(&b, []BookRun{{File: "rotor.hcl", Text: r.Run.Source.Text, Result: onlyFirst(r)}}, nil))
	assert.Contains(t, b.String(), "Pitch of the blades")
	assert.Contains(t, b.String(), "Not modeled: flapping")
}

// onlyFirst is a result with the first of its sweeps alone, for a page that is made fast.
func onlyFirst(r *solve.Result) *solve.Result {
	own := *r
	own.Sweeps = r.Sweeps[:1]
	own.Requirements = nil
	return &own
}
