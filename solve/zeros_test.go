package solve

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A figure that dips below 0 between two samples, (x - 3.05)^2 - 0.01^2, is 0 at 3.04 and
// at 3.06, told in the order in which the walk comes to them; one that only dips toward 0
// is 0 nowhere, and neither is one that has yet to come to its dip.
func TestADipBetweenSamplesHasTwoZeros(t *testing.T) {
	m := compiled(t, `
run "Lever" { units = "mm" }
part "lever" { pivot = [0, 0] }
control "hand" {
  of   = lever
  from = -10
  to   = 10
}
`)
	s := m.newSweeper(m.run.Controls[0], nil)
	p := s.p
	dip := func(depth float64) int {
		return p.add(probe{noise: 1e-13, value: func(p *path) (float64, float64) {
			d := p.x - 3.05
			return d*d - depth, 2 * d
		}})
	}
	below, above := dip(0.0001), dip(-0.0001)
	sampled := func(x float64) *sample {
		require.Equal(t, allClosed, p.solve(x, m.neutral.q))
		return p.take(x)
	}
	low, mid, high := sampled(2.95), sampled(3), sampled(3.1)
	out := newWalk(p, 1, low, nil)
	zeros := out.zeros(mid, high, below)
	require.Len(t, zeros, 2)
	assert.InDelta(t, 3.04, zeros[0], 1e-12)
	assert.InDelta(t, 3.06, zeros[1], 1e-12)
	back := newWalk(p, -1, high, nil).zeros(high, mid, below)
	require.Len(t, back, 2)
	assert.InDelta(t, 3.06, back[0], 1e-12)
	assert.InDelta(t, 3.04, back[1], 1e-12)
	assert.Empty(t, out.zeros(mid, high, above))
	assert.Empty(t, out.zeros(low, mid, below))
}
