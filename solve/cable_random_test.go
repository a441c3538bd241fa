package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// withNuts is a random run with a pair whose cables have nuts at one end each.
func withNuts(r *rand.Rand) (string, [2]float64) {
	text, taken := spatialPair(r)
	return strings.ReplaceAll(text, "\n stiffness =", "\n end \"conduit-to\" {\n  thread = \"M6x1\"\n  engaged = 60\n }\n stiffness ="), taken
}

// TestWhatATurnOfNutsDoesIsWhatItWouldDo holds what effect tells of a turn, taut
// and slack, against the run really turned a little, both ways.
func TestWhatATurnOfNutsDoesIsWhatItWouldDo(t *testing.T) {
	const seed = 29
	taut, slack := 0, 0
	for n := uint64(0); taut < 60 || slack < 30; n++ {
		r := rand.New(rand.NewPCG(seed, n))
		text, taken := withNuts(r)
		run, err := linkage.Read(&linkage.Source{Name: "random.hcl", Text: []byte(text)})
		if err != nil {
			continue
		}
		for i, c := range run.Cables {
			c.Taken = taken[i]
		}
		m, err := solve.Compile(run)
		if err != nil {
			continue
		}
		result, err := m.Check()
		require.NoError(t, err)
		s := result.Sweeps[0]
		const by = 1e-4
		for i, c := range run.Cables {
			judged := func(turns float64) (*solve.Sweep, bool) {
				m, err := solve.Compile(edited(t, run, linkage.TurnCable(c.Ends[0], turns)))
				if err != nil {
					return nil, false
				}
				result, err := m.Check()
				require.NoError(t, err)
				return result.Sweeps[0], true
			}
			more, ok1 := judged(by)
			less, ok2 := judged(-by)
			if !ok1 || !ok2 {
				continue
			}
			about := fmt.Sprintf("seed %d, run %d, cable %d, taken %v:\n%s", seed, n, i, taken, text)
			effect := cableEffectsOf(t, m, result)[i]
			driven := partOf(t, s, "driven").Part
			for _, p := range effect.PerTurn {
				for _, end := range []struct {
					at    float64
					cause solve.Cause
					per   *float64
				}{{0, solve.ByLimit, p.Neutral}, {s.Low, s.Ends[0].Cause, p.AtLow}, {s.High, s.Ends[1].Cause, p.AtHigh}} {
					if p.Name != "driven" || end.cause != solve.ByLimit || end.at < more.Low || end.at < less.Low || end.at > more.High || end.at > less.High {
						continue
					}
					want := (solveAt(t, more, end.at).Travel(driven) - solveAt(t, less, end.at).Travel(driven)) / (2 * by)
					nearAt(t, want, end.per, 2e-3*math.Max(1, math.Abs(want)), about)
				}
				for _, k := range s.Cables {
					if k.Cable.Name != p.Name {
						continue
					}
					if *k.Neutral == 0 {
						slack++
					} else {
						taut++
					}
					want := (*cableOf(t, more, p.Name).Neutral - *cableOf(t, less, p.Name).Neutral) / (2 * by)
					nearAt(t, want, p.Neutral, 1e-3*math.Max(1, math.Abs(want)), about)
				}
			}
		}
	}
}
