package solve

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"fullfree/linkage/hunt"

	"math/rand/v2"
)

// Boxes leave out nothing: what is found is what holding every stretch against every
// other one finds.
func TestHuntNearestByBoxes(t *testing.T) {
	hunt.Each(t, 300, func(t *testing.T, random *rand.Rand) {
		feature := func() (l laid) {
			at := vec{X: random.Float64(), Y: random.Float64()}.Scale(20)
			for range 1 + random.IntN(80) {
				l = append(l, at)
				at = at.Add(vec{X: math.Round(8*random.NormFloat64()) / 8, Y: random.NormFloat64()})
			}
			return l
		}
		a, b := feature(), feature()
		all, some := nearest{dist: math.Inf(1)}, nearest{dist: math.Inf(1)}
		tried, left := 0, 0
		into := func(best *nearest, n *int) func(i, j int) {
			return func(i, j int) {
				*n++
				p0, p1 := a.stretch(i)
				q0, q1 := b.stretch(j)
				best.take(p0, p1, q0, q1, i, j, zAxis, true)
			}
		}
		try := into(&all, &tried)
		for i := range a.count() {
			for j := range b.count() {
				try(i, j)
			}
		}
		nearByBoxes(a, b, &some, into(&some, &left))
		require.Equal(t, all, some)
		require.LessOrEqual(t, left, tried)
	})
}
