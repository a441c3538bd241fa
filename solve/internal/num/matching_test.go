package num

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// A chain with a loop of two in the middle: 0, then 1 and 2 at once, then 3.
func TestBlocksComeInSolvingOrder(t *testing.T) {
	in := Incidence{{2, 3}, {0}, {0, 1, 2}, {1, 2}}
	m := Match(in, 4)
	require.Equal(t, [][]int{{0}, {1, 2}, {3}}, m.Blocks(in))
	require.Empty(t, m.Loose(in))
	require.Empty(t, m.Excess(in))
}

// Equation 2 says again what 0 and 1 say; unknown 3 is in no equation.
func TestLooseAndExcess(t *testing.T) {
	in := Incidence{{0}, {0, 1}, {1}, {2}}
	m := Match(in, 4)
	require.Equal(t, []int{3}, m.Loose(in))
	require.Equal(t, []int{0, 1, 2}, m.Excess(in))
}

// What could be left over in place of another counts, the very first too.
func TestLooseAndExcessOfTheFirst(t *testing.T) {
	in := Incidence{{0, 1}}
	require.Equal(t, []int{0, 1}, Match(in, 2).Loose(in))
	in = Incidence{{0}, {0}}
	require.Equal(t, []int{0, 1}, Match(in, 1).Excess(in))
}

// The Matching must give up its first choice to be complete.
func TestMatchAugments(t *testing.T) {
	in := Incidence{{0, 1}, {0}, {1, 2}}
	m := Match(in, 3)
	require.Equal(t, []int{1, 0, 2}, m.UnknownOf)
}
