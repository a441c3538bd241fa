package tolerance

import (
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// blindShop misses, at the places of the run as drawn, that the first requirement fails.
type blindShop struct{ shop }

func (s blindShop) judge(b *solve.Build, everywhere bool, into *solve.Judged) error {
	err := s.shop.judge(b, everywhere, into)
	if !everywhere && into.Closes {
		into.Requirements[0].Verdict = solve.Holds
	}
	return err
}

// Where a build that is looked at in every step comes out otherwise, all are looked at so,
// and that is told.
func TestMissedIsDoneAgain(t *testing.T) {
	text, err := os.ReadFile("../../demo/pedals.hcl")
	require.NoError(t, err)
	run, err := linkage.Read(&linkage.Source{Name: "pedals.hcl", Text: append(text, "tolerance {\n  points = 0.3\n  pivots = 0.5\n}\n"...)})
	require.NoError(t, err)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	options := Options{Builds: 600, Seed: 1, AsDrilled: true}
	want, err := Run(m, options)
	require.NoError(t, err)
	require.Positive(t, want.Outcomes[0].Fails())
	require.False(t, want.Redone)
	require.Equal(t, 2, want.Everywhere)

	s, err := newSearch(m, options)
	require.NoError(t, err)
	sighted := s.shops
	s.shops = func() shop { return blindShop{sighted()} }
	got, err := s.answered()
	require.NoError(t, err)
	assert.True(t, got.Redone)
	assert.Positive(t, got.Missed)
	assert.Equal(t, want.Outcomes[0].Fails(), got.Outcomes[0].Fails(), "found in the end")
}
