package solve

import (
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
)

// Every rate that a sweep follows agrees with differences of what it is the rate of.
func TestSpaceRates(t *testing.T) {
	text, err := os.ReadFile("../testdata/space/head.hcl")
	require.NoError(t, err)
	run, err := linkage.Read(&linkage.Source{Name: "head.hcl", Text: text})
	require.NoError(t, err)
	run.Requirements = nil
	m, err := Compile(run)
	require.NoError(t, err)
	for _, c := range run.Controls {
		s := m.newSweeper(c, nil)
		p := s.p
		for _, x := range []float64{-7, -3, 4, 6} {
			const h = 1e-3
			value := func(x float64) *sample {
				require.Equal(t, allClosed, p.solve(x, m.neutral.q))
				return p.take(x)
			}
			a, b, at := value(x-h), value(x+h), value(x)
			for i := range p.probes {
				assert.InDelta(t, (b.v[i]-a.v[i])/(2*h), at.dv[i], 1e-6*(1+math.Abs(at.dv[i])), "probe %d at %v", i, x)
			}
			for f := range at.q {
				assert.InDelta(t, (b.q[f]-a.q[f])/(2*h), at.d[f], 1e-7)
				assert.InDelta(t, (b.d[f]-a.d[f])/(2*h), at.dd[f], 1e-7)
			}
		}
	}
}
