package main

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// ladder is a row of levers that turn as one, n columns of a table.
func ladder(n int) string {
	var b strings.Builder
	b.WriteString("run \"Ladder\" {\n  units = \"mm\"\n}\n")
	for i := range n {
		fmt.Fprintf(&b, "part \"p%d\" {\n  pivot = [%d, 0]\n  points = { a = [%d, 30] }\n}\n", i, 50*i, 50*i)
		if i > 0 {
			fmt.Fprintf(&b, "rod \"r%d\" {\n  from = p%d.a\n  to = p%d.a\n}\n", i, i-1, i)
		}
	}
	b.WriteString("control \"hand\" {\n  of = p0\n  from = -20\n  to = 20\n}\n")
	return b.String()
}

// A table too large to be made is refused, and told what would do.
func TestSweepRefusesWhatFillsTheMemory(t *testing.T) {
	text := ladder(60)
	for _, form := range [][]string{nil, {"--csv"}, {"--json"}} {
		got := fullfree(text, append([]string{"sweep", "-", "--steps", "100000"}, form...)...)
		assert.Equal(t, outcome{exitFailed, "", "fullfree sweep: --steps 100000: 100001 rows of 60 columns are more than the 5000000 figures that a table may hold; for this run at most --steps 83332\n"}, got)
	}
}

func TestRoomForATable(t *testing.T) {
	// The most that is told is let through, and one more is not.
	for _, columns := range []int{50, 60, 3000, 30_000} {
		most := mostFigures/columns - 1
		require.Positive(t, most)
		assert.NoError(t, roomFor(most, columns))
		assert.ErrorContains(t, roomFor(most+1, columns), fmt.Sprintf("at most --steps %d", most))
	}
	assert.NoError(t, roomFor(mostSteps, 49), "a run of usual size takes all the steps there are")
}
