package hunt

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestRounds makes the same runs whatever the machine: a multiple of the few, each with
// randomness of its own.
func TestRounds(t *testing.T) {
	const few = 4
	before := *rounds
	defer func() { *rounds = before }()
	drawn := map[int][]uint64{}
	for _, n := range []int{1, 3} {
		*rounds = n
		Each(t, few, func(_ *testing.T, random *rand.Rand) { drawn[n] = append(drawn[n], random.Uint64()) })
		require.Len(t, drawn[n], n*few)
	}
	assert.Equal(t, drawn[1], drawn[3][:few])
	assert.NotContains(t, drawn[3][few:], drawn[3][0])
}
