package render

import (
	"strings"
	"testing"
	"unicode/utf8"

	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestSweepTable(t *testing.T) {
	r := sample.Levers()
	var b strings.Builder
	require.NoError(t, SweepTable(&b, r.Run, nil, r.Sweeps[0],
		[]solve.Column{{Name: "lever", Unit: "deg"}, {Name: "crank", Unit: "deg"}, {Name: "ram", Unit: "in"}},
		[][]float64{{-24, -23.62, 1.25}, {24.04, -0.01, -0.5}}))
	assert.Equal(t, `Levers
HAND: moves lever from -24.0° to 24.0°, stop to stop
Travel is told from the drawn position; outputs as their gauge reads.

lever  crank    ram
  deg    deg     in
-24.0  -23.6  1 1/4
 24.0    0.0   -1/2
`, b.String())
}

// A table that is too wide comes in several, each with the first column.
func TestSweepTableTooWide(t *testing.T) {
	r := sample.Levers()
	var columns []solve.Column
	row := []float64{}
	for _, name := range []string{"lever", "bellcrank-one", "bellcrank-two", "bellcrank-three", "bellcrank-four", "bellcrank-five", "bellcrank-six"} {
		columns = append(columns, solve.Column{Name: name, Unit: "deg"})
		row = append(row, float64(len(row)))
	}
	var b strings.Builder
	require.NoError(t, SweepTable(&b, r.Run, nil, r.Sweeps[0], columns, [][]float64{row}))
	assert.Equal(t, 2, strings.Count(b.String(), "lever  "), b.String())
	for _, line := range strings.Split(b.String(), "\n") {
		assert.LessOrEqual(t, utf8.RuneCountInString(line), pageWidth)
	}
	for _, c := range columns {
		assert.Contains(t, b.String(), c.Name)
	}
}

func TestTableWithLongLabels(t *testing.T) {
	long := strings.Repeat("very-", 13) + "long"
	table := table{head: []string{"part", "low", "high"}}
	table.add(long, "-24.0", "24.0")
	table.add("b", "1.0", "2.0")
	p := &page{}
	table.write(p, "  ")
	assert.Equal(t, "  part"+spaces(20)+"    low  high\n  "+long+"\n"+spaces(26)+"  -24.0  24.0\n  b"+spaces(23)+"    1.0   2.0\n", p.String())
}
