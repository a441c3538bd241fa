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
