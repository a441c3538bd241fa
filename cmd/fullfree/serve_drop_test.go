package main

import (
	"bytes"
	"context"
	"fmt"
	"net/http"
	"testing"
	"time"

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
	assert.Zero(t, s.Remembered(), "it was not judged to the end")
	s.mu.Unlock()
	assert.Equal(t, "200.50 mm", s.try(`{"turns":{"link.from":1}}`).Ends[0].Length)
}
