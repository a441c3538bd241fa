package solve

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage/hunt"
)

// unlikeChain draws a chain of bellcranks that each pass on about what they get, with
// rods that come square to their arms in as many places of the travel.
func unlikeChain(random *rand.Rand, stages int) string {
	var b strings.Builder
	b.WriteString("run \"chain\" {\n units = \"mm\"\n}\n")
	off := func(by float64) float64 { return by * (2*random.Float64() - 1) }
	const far, arm = 180.0, 60.0
	out := 90.0
	for i := range stages + 1 {
		in := out + off(0.5)
		out = 90 + off(7)
		hole := func(angle float64) string {
			y, x := math.Sincos(angle * degree)
			return fmt.Sprintf("[%v, %v]", float64(i)*far+arm*x, arm*y)
		}
		fmt.Fprintf(&b, "part \"crank-%d\" {\n pivot = [%v, 0]\n points = { in = %s, out = %s }\n}\n", i, float64(i)*far, hole(in), hole(out))
		if i > 0 {
			fmt.Fprintf(&b, "rod \"rod-%d\" {\n from = crank-%d.out\n to = crank-%d.in\n}\n", i, i-1, i)
		}
	}
	b.WriteString("control \"hand\" {\n of = crank-0\n from = -8\n to = 8\n}\n")
	return b.String()
}

// What many probes share has to tell each extreme as poses of its own do.
func TestHuntSharedExtremes(t *testing.T) {
	told := 0
	hunt.Each(t, 5, func(t *testing.T, random *rand.Rand) {
		m := compiled(t, unlikeChain(random, 20+random.IntN(200)))
		s := m.newSweeper(m.run.Controls[0], nil)
		p := s.p
		p.solve(0, m.neutral.q)
		w := newWalk(p, []float64{-1, 1}[random.IntN(2)], p.take(0), nil)
		w.between = func(_ *walk, a, b *sample) {
			var turning []int
			for i := range p.probes {
				// Where the rate is above its rounding at both ends.
				least := p.probes[i].noise / math.Abs(b.x-a.x)
				if a.dv[i]*b.dv[i] < 0 && math.Abs(a.dv[i]) > 1000*least && math.Abs(b.dv[i]) > 1000*least && !p.probes[i].slope {
					turning = append(turning, i)
				}
			}
			if len(turning) <= fewExtremes {
				return
			}
			found := 0
			p.extremes(a, b, turning, func(probe int, v, x float64) {
				own, at, ok := p.extreme(a, b, probe)
				require.True(t, ok)
				require.InDelta(t, own, v, 4*p.probes[probe].noise)
				// A place is known as the root of how well a value is, or as a rate is.
				require.InDelta(t, at, x, 1e-9*p.longest+1e4*p.probes[probe].noise/math.Abs(a.dv[probe]-b.dv[probe])*math.Abs(b.x-a.x))
				found++
			})
			require.Equal(t, len(turning), found)
			told += found
		}
		w.to(float64(w.dir * 8))
	})
	require.Positive(t, told)
}
