package solve_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// TestBandsAtTheEndsAndBordersOfPairs has bands of random runs with a pair: where
// the travel ends at a toggle they are at least what the run judged again says of the
// worst, each coordinate a little out both ways, also where a cable comes in line; where a pair just goes slack, where a rate jumps, there are none.
func TestBandsAtTheEndsAndBordersOfPairs(t *testing.T) {
	for _, c := range []struct {
		run  uint64
		kind string
		none bool
	}{{10, "travel", false}, {70, "travel", false}, {42, "travel", false}, {56, "travel", false}, {104, "sense", true}, {111, "sense", true}} {
		text, taken := spatialPair(rand.New(rand.NewPCG(31, c.run)))
		if c.kind == "travel" {
			text += "require \"travel\" {\n  of = out\n  low = -10\n  high = 12\n  within = 1\n}\n"
		} else {
			text += "require \"sense\" {\n  of = [hand, out]\n  turns = \"same\"\n}\n"
		}
		run, err := linkage.Read(&linkage.Source{Name: "random.hcl", Text: []byte(text)})
		require.NoError(t, err)
		for i, c := range run.Cables {
			c.Taken = taken[i]
		}
		m, result := judgedAs(t, run)
		require.NoError(t, m.AddBands(result, nil))
		j := result.Requirements[0]
		if c.none {
			require.Nil(t, j.Band, "run %d", c.run)
			continue
		}
		sum := 0.0
		for _, d := range run.Dimensions() {
			judged := func(by float64) float64 {
				m, err := solve.Compile(edited(t, run, linkage.Shift(d, by)))
				require.NoError(t, err)
				s, err := m.Sweep(run.Controls[0], nil)
				require.NoError(t, err)
				out := outputOf(t, s, "out")
				return math.Max(math.Abs(out.Least+10), math.Abs(out.Most-12))
			}
			const by = 1e-3
			slope := (judged(by) - judged(-by)) / (2 * by)
			sum += slope * slope
		}
		require.NotNil(t, j.Band, "run %d", c.run)
		require.GreaterOrEqual(t, *j.Band, 0.99*run.Uncertain*math.Sqrt(sum), "run %d", c.run)
	}
}
