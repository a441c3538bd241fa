package solve_test

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
)

// barredText is the ring with metal on it: a bar that leans with it, beside a bar of the airframe and a rod.
func barredText() string {
	text := strings.Replace(swashText, "  ball   = sleeve.center\n", "  ball   = sleeve.center\n  edge \"rim\" {\n    through = [[60, 105, 30], [75, 108, -35]]\n    diameter = 6\n  }\n", 1)
	text = strings.Replace(text, "  points = { brace = [120, 100, -90] }\n", "  points = { brace = [120, 100, -90] }\n  edge \"bar\" {\n    through = [[95, 90, -60], [105, 120, 60]]\n    diameter = 8\n  }\n", 1)
	text = strings.Replace(text, "  from = frame.brace\n", "  diameter = 5\n  from = frame.brace\n", 1)
	return text + "require \"clearance\" \"rim\" {\n  between = [ring.rim, frame.bar]\n  least = 2\n}\nrequire \"clearance\" \"link\" {\n  between = [link, frame.bar]\n  least = 1\n}\n"
}

// Metal of a part that tilts meets as bars in space: the gap is that of two round-nosed bars, found here by trying
// pairs of places along both; and its gradient agrees with runs read again.
func TestBarsOfWhatTilts(t *testing.T) {
	run, m := compileText(t, barredText())
	result, err := m.Check()
	require.NoError(t, err)
	ring, frame := run.Parts[5], run.Parts[0]
	require.Equal(t, linkage.Tilts, ring.Motion)
	for _, w := range result.Sweeps {
		for _, x := range []float64{w.Low, -7, 0, 11, w.High} {
			pose, ok := w.At(x)
			require.True(t, ok)
			gap, onA, onB, ok := pose.Gap(linkage.FeatureRef{Part: ring}, linkage.FeatureRef{Part: frame})
			require.True(t, ok)
			a, b := ring.Features[0].Through, frame.Features[0].Through
			at := func(s, u float64) float64 {
				p := pose.Place(ring, a[0].Add(a[1].Sub(a[0]).Scale(s)))
				return p.Sub(b[0].Add(b[1].Sub(b[0]).Scale(u))).Norm()
			}
			best, s, u, step := math.Inf(1), 0.5, 0.5, 0.5
			for range 45 {
				ms, mu := s, u
				for i := -4; i <= 4; i++ {
					for k := -4; k <= 4; k++ {
						p, q := math.Max(0, math.Min(1, s+float64(i)*step/4)), math.Max(0, math.Min(1, u+float64(k)*step/4))
						if d := at(p, q); d < best {
							best, ms, mu = d, p, q
						}
					}
				}
				s, u, step = ms, mu, step/2
			}
			assert.InDelta(t, best-3-4, gap, 1e-6, "%s at %v", w.Control.Name, x)
			assert.InDelta(t, gap, onB.Sub(onA).Norm(), 1e-9)
		}
	}
	random := rand.New(rand.NewPCG(17, 3))
	require.Positive(t, compareGradients(t, random, drawnRun{text: barredText()}, 4, 3))
}

// A round on a part that tilts is refused with the reason.
func TestRoundOnWhatTiltsIsRefused(t *testing.T) {
	text := strings.Replace(barredText(), "  edge \"rim\" {\n    through = [[60, 105, 30], [75, 108, -35]]\n    diameter = 6\n  }\n", "  round \"rim\" {\n    at = [60, 105, 30]\n    radius = 3\n  }\n", 1)
	assert.Contains(t, refusal(t, text), "there only bars meet, rods and edges with a diameter")
}
