package calls

import (
	"encoding/json"
	"testing"

	"fullfree/demo"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// benchOf is a bench over a demo, held in memory.
func benchOf(t testing.TB, kind string) *Bench {
	t.Helper()
	text, ok := demo.File(kind)
	require.True(t, ok, kind)
	files := NewTexts()
	files.Put("run.hcl", text)
	b, err := Open(files, "run.hcl")
	require.NoError(t, err)
	return b
}

// Wherever it is given up, a setting that is asked for again is judged as if it never
// had been.
func TestGivenUpLeavesNothingBehind(t *testing.T) {
	for _, kind := range []string{"mixer", demo.Unequal} {
		t.Run(kind, func(t *testing.T) { givenUp(t, benchOf(t, kind)) })
	}
}

func givenUp(t *testing.T, s *Bench) {
	ask := &Asked{Turns: map[string]float64{}, At: map[string]float64{}}
	for i, c := range s.filed.in.Run.Controls {
		ask.At[c.Name] = float64(3 - i)
	}
	for _, rod := range s.filed.in.Run.Rods {
		for _, e := range rod.Ends {
			ask.Turns[e.String()] = e.Step
		}
	}
	body, err := json.Marshal(ask)
	require.NoError(t, err)
	want := s.Answer("try", body, nil)
	require.Equal(t, Done, want.Status, string(want.Body))
	for after := 1; after < 20000; after *= 3 {
		s.lately, s.filed.swept = nil, nil
		left := after
		got := s.Answer("try", body, func() bool { left--; return left < 0 })
		again := s.Answer("try", body, nil)
		require.Equal(t, string(want.Body), string(again.Body), "given up after %d", after)
		if left >= 0 {
			assert.Equal(t, string(want.Body), string(got.Body))
		}
	}
	for _, known := range s.lately {
		for _, swept := range known.swept {
			assert.NotErrorIs(t, swept.err, solve.ErrStopped)
		}
	}
}
