package main

import (
	"encoding/csv"
	"encoding/json"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestSweepTable(t *testing.T) {
	got := fullfree(barsFallShort, "sweep", "-", "--steps", "2")
	assert.Equal(t, outcome{exitOK, `Bars
HAND: moves lever from -24.0° to 24.0°, stop to stop
Travel is told from the drawn position; outputs as their gauge reads.

lever  crank   tail
  deg    deg    deg
-24.0  -24.0  -24.0
  0.0    0.0    0.0
 24.0   24.0   24.0
`, ""}, got, "a verdict that falls short is no matter here")
}

// twin has two controls that don't touch each other.
const twin = bars + `
part "knob" {
  pivot  = [0, 300]
  points = { end = [0, 340] }
}
part "flap" {
  pivot  = [200, 300]
  points = { end = [200, 340] }
}
rod "bar" {
  from = knob.end
  to   = flap.end
}
control "trim" {
  of   = knob
  from = -30
  to   = 30
  held = [10, -10]
}
`

func TestSweepHolds(t *testing.T) {
	for _, c := range []struct {
		args string
		row  []string // of the first step
	}{
		{"", []string{"-24", "-24", "10", "10", "-24"}},
		{"--held trim=-7.5", []string{"-24", "-24", "-7.5", "-7.5", "-24"}},
		{"--control trim", []string{"-30", "0", "0", "-30", "0"}},
		{"--control trim --held hand=20", []string{"-30", "20", "20", "-30", "20"}},
	} {
		got := fullfree(twin, append([]string{"sweep", "-", "--steps", "1", "--csv"}, strings.Fields(c.args)...)...)
		require.Equal(t, exitOK, got.status, got.err)
		rows, err := csv.NewReader(strings.NewReader(got.out)).ReadAll()
		require.NoError(t, err)
		require.Len(t, rows, 3)
		for i, want := range c.row {
			v, err := strconv.ParseFloat(rows[1][i], 64)
			require.NoError(t, err)
			w, err := strconv.ParseFloat(want, 64)
			require.NoError(t, err)
			assert.InDelta(t, w, v, 1e-9, "%s, %s", c.args, rows[0][i])
		}
	}
}

func TestSweepTellsWhatCantBeHeld(t *testing.T) {
	got := fullfree(twin, "sweep", "-", "--held", "trim=50")
	assert.Equal(t, exitFailed, got.status)
	assert.Empty(t, got.out)
	assert.Regexp(t, `^fullfree sweep: --held: .*"trim".*50`, got.err)
	got = fullfree(twin, "sweep", "-", "--held", "trim=5", "--held", "trim=6")
	assert.Equal(t, outcome{exitFailed, "", "fullfree sweep: --held tells trim twice\n"}, got)
	got = fullfree(twin, "draw", "-", "-o", "-", "--control", "trim", "--held", "hand=30")
	assert.Equal(t, exitFailed, got.status)
	assert.Empty(t, got.out)
	assert.Contains(t, got.err, "hand")
}

func TestSweepForMachines(t *testing.T) {
	got := fullfree(bars, "sweep", "-", "--json")
	require.Equal(t, exitOK, got.status, got.err)
	var table struct {
		Schema  string
		Columns []struct{ Name, Unit string }
		Rows    [][]float64
	}
	require.NoError(t, json.Unmarshal([]byte(got.out), &table))
	assert.Equal(t, "fullfree.sweep/1", table.Schema)
	assert.Equal(t, []struct{ Name, Unit string }{{"lever", "deg"}, {"crank", "deg"}, {"tail", "deg"}}, table.Columns)
	require.Len(t, table.Rows, usualSteps+1)
	for i, row := range table.Rows {
		require.Len(t, row, 3)
		assert.InDelta(t, -24+2*float64(i), row[0], 1e-9)
		assert.InDelta(t, row[0], row[1], 1e-9, "a parallelogram")
		assert.Equal(t, row[1], row[2])
	}

	got = fullfree(bars, "sweep", "-", "--csv")
	require.Equal(t, exitOK, got.status, got.err)
	rows, err := csv.NewReader(strings.NewReader(got.out)).ReadAll()
	require.NoError(t, err)
	require.Len(t, rows, usualSteps+2)
	assert.Equal(t, []string{"lever [deg]", "crank [deg]", "tail [deg]"}, rows[0])
	for i, row := range rows[1:] {
		v, err := strconv.ParseFloat(row[1], 64)
		require.NoError(t, err)
		assert.Equal(t, table.Rows[i][1], v, "the same figures, at full precision")
	}
}
