package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage/hunt"
	"fullfree/solve"
)

// gauged returns the drawing with an output "of-..." on every part that moves,
// and two on every point of it.
func gauged(d drawing) drawing {
	for _, b := range d.bodies {
		if b.fixed {
			continue
		}
		tilts := ""
		if b.ball || b.roams {
			tilts = "  tilts = [1, 0.2, -0.3]\n"
		}
		d = d.with(fmt.Sprintf("output \"of-%s\" {\n  of = %s\n%s}\n", b.name, b.name, tilts))
		for _, p := range b.points {
			for _, along := range []string{"[1, 0]", "[0, 1]"} {
				d = d.with(fmt.Sprintf("output \"of-%s-%s-%d\" {\n  of = %s.%s\n  along = %s\n}\n", b.name, p.name, len(d.rest), b.name, p.name, along))
			}
		}
	}
	return d
}

// shortOfToggles returns a control's block that stays a little off the places
// where a sweep locked, where rates have no bound.
func shortOfToggles(s *solve.Sweep) string {
	const share = 0.99
	var limits [2]float64
	for i, end := range s.Ends {
		limits[i] = end.At
		if end.Cause != solve.ByLimit {
			limits[i] *= share
		}
	}
	return control("lever", limits[0], limits[1])
}

// TestHuntLoopsAreContinuous: whatever the dimensions, well shaped or nearly
// folding, between two rows of a table an output moves by a rate that it has
// somewhere between (the mean value theorem), so by no more than its greatest
// and no less than its least: the branch is never left. And the rows are the
// same whatever stands beside them.
func TestHuntLoopsAreContinuous(t *testing.T) {
	const (
		reach = 60.0
		steps = 120
	)
	seeds := 2 * hunt.Rounds()
	for kind, c := range manyLoops {
		far, locked := 0, 0
		for seed := uint64(1); seed <= uint64(seeds); seed++ {
			d := gauged(c.draw(rand.New(rand.NewPCG(seed, 900+uint64(kind)))))
			about := fmt.Sprintf("%s, seed %d", c.name, seed)
			_, whole := sweepOf(t, d.with(control("lever", -reach, reach)).text())
			require.False(t, whole.Lost, about)
			text := d.with(shortOfToggles(whole)).text()
			_, s := sweepOf(t, text)
			require.False(t, s.Lost, about)
			for i, end := range whole.Ends {
				if end.Cause != solve.ByLimit {
					locked++
				}
				assert.Equal(t, solve.ByLimit, s.Ends[i].Cause, "%s: it goes as far as before", about)
			}
			if s.High-s.Low > 10 {
				far++
			}
			assertWithinRates(t, s, steps, about)
			assertSameRows(t, whole, s, steps, about)
		}
		assert.Greater(t, far, seeds/3, "%s: too few that go far", c.name)
		t.Logf("%s: %d go far, %d ends lock", c.name, far, locked)
	}
}

// assertWithinRates says that no output moves between two rows by more or less
// than its rates over the travel allow.
func assertWithinRates(t *testing.T, s *solve.Sweep, steps int, about string) {
	t.Helper()
	columns, rows := tableOf(t, s, steps)
	require.Len(t, rows, steps+1, about)
	first := len(columns) - len(s.Outputs)
	for k, o := range s.Outputs {
		require.Equal(t, o.Output.Name, columns[first+k].Name)
		// What the extremes of the rates are known to, and what rounding makes of a move.
		low, high := o.Ratio.Low, o.Ratio.High
		slack := 1e-6*math.Max(math.Abs(low), math.Abs(high)) + 1e-7
		for i := range steps {
			rate := (rows[i+1][first+k] - rows[i][first+k]) / (rows[i+1][0] - rows[i][0])
			if rate < low-slack || rate > high+slack {
				assert.Fail(t, "jumps", "%s: %s from %v to %v: %v a unit, its rates are %v to %v", about, o.Output.Name, rows[i][0], rows[i+1][0], rate, low, high)
				break
			}
		}
	}
}

// assertSameRows says that the position at every row of one sweep is the one
// that another sweep of the same run tells there by itself.
func assertSameRows(t *testing.T, other, s *solve.Sweep, steps int, about string) {
	t.Helper()
	columns, rows := tableOf(t, s, steps)
	for i := 0; i < len(rows); i += 7 {
		st := solveAt(t, other, rows[i][0])
		for j, c := range columns {
			if name, ok := strings.CutPrefix(c.Name, "of-"); ok {
				nearf(t, st.Reading(outputOf(t, other, "of-"+name).Output), rows[i][j], 1e-6, "%s: %s at %v", about, c.Name, rows[i][0])
			}
		}
	}
}
