package main

import (
	"bytes"
	"context"
	"fmt"
	"net/http"
	"testing"
	"time"

	"fullfree/demo"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// longBars is a row of so many parallelograms, which takes its time to judge.
func longBars(many int) string {
	text := screwed
	for i := range many {
		text += fmt.Sprintf("part \"c%d\" {\n pivot = [%d, 0]\n points = { horn = [%d, -60] }\n}\n", i, 400+100*i, 400+100*i)
		from := "crank"
		if i > 0 {
			from = fmt.Sprintf("c%d", i-1)
		}
		text += fmt.Sprintf("rod \"r%d\" {\n from = %s.horn\n to = c%d.horn\n}\n", i, from, i)
	}
	return text
}

// A try that the page doesn't wait for any more is given up: nothing of it is
// remembered, and the next one is judged.
func TestAbandonedTryIsGivenUp(t *testing.T) {
	s := serveWorkbench(t, longBars(300))
	ctx, abandon := context.WithCancel(t.Context())
	gone := make(chan struct{})
	go func() {
		defer close(gone)
		r, err := http.NewRequestWithContext(ctx, http.MethodPost, s.url+"/try", bytes.NewReader([]byte(`{"turns":{"link.from":1}}`)))
		assert.NoError(t, err)
		r.Header.Set("Content-Type", "application/json")
		r.Header.Set(tokenHeader, s.token)
		_, err = http.DefaultClient.Do(r)
		assert.Error(t, err)
	}()
	require.Eventually(t, func() bool {
		free := s.mu.TryLock()
		if free {
			s.mu.Unlock()
		}
		return !free
	}, 10*time.Second, time.Millisecond/10, "it is being judged")
	abandon()
	<-gone
	s.mu.Lock()
	assert.Empty(t, s.lately, "it was not judged to the end")
	assert.False(t, s.unwanted(), "and what comes next is wanted")
	s.mu.Unlock()
	assert.Equal(t, "200.50 mm", s.try(`{"turns":{"link.from":1}}`).Ends[0].Length)
}

// Wherever it is given up, a setting that is asked for again is judged as if it never
// had been.
func TestGivenUpLeavesNothingBehind(t *testing.T) {
	for _, kind := range []string{"mixer", demo.Unequal} {
		t.Run(kind, func(t *testing.T) { givenUp(t, serveWorkbench(t, demoText(t, kind))) })
	}
}

func givenUp(t *testing.T, s *servedWorkbench) {
	ask := &asked{Turns: map[string]float64{}, At: map[string]float64{}}
	for i, c := range s.filed.in.run.Controls {
		ask.At[c.Name] = float64(3 - i)
	}
	for _, rod := range s.filed.in.run.Rods {
		for _, e := range rod.Ends {
			ask.Turns[e.String()] = e.Step
		}
	}
	want := s.alone(t.Context(), func() answer { return s.workbench.try(ask) })
	require.Equal(t, http.StatusOK, want.status, string(want.body))
	for after := 1; after < 20000; after *= 3 {
		s.lately, s.filed.swept = nil, nil
		left := after
		got := s.alone(t.Context(), func() answer {
			s.dropped = func() bool { left--; return left < 0 }
			return s.workbench.try(ask)
		})
		again := s.alone(t.Context(), func() answer { return s.workbench.try(ask) })
		require.Equal(t, string(want.body), string(again.body), "given up after %d", after)
		if left >= 0 {
			assert.Equal(t, string(want.body), string(got.body))
		}
	}
	for _, known := range s.lately {
		for _, swept := range known.swept {
			assert.NotErrorIs(t, swept.err, solve.ErrStopped)
		}
	}
}
