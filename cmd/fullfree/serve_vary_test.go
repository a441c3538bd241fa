package main

import (
	"net/http"
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
)

// varying is a run with a row of each kind: a place among some, a range, a named dimension.
var varying = screwed + `
dims "bench" { low = 1 }
vary "the hole" {
  of    = crank.horn
  among = [[200, -50], [200, -60]]
}
vary "arm" {
  of   = lever.horn.y
  low  = -65
  high = -45
}
`

// What the file lets vary can be set on the workbench as any end can, and saved.
func TestVariesOnTheWorkbench(t *testing.T) {
	s := serveWorkbench(t, varying)
	text := s.ask("/workbench", "", nil).body
	for _, want := range []string{`"varies":[{"name":"crank.horn","label":"crank.horn, the hole"`, `"choices":["[200, -50]","[200, -60]"]`, `"name":"lever.horn.y"`, `"low":-65,"high":-45,"step":0.5,"filed":-60`} {
		assert.Contains(t, text, want)
	}
	filed := s.try(`{}`)
	got := s.try(`{"varies":{"crank.horn":0,"lever.horn.y":-55}}`)
	require.Empty(t, got.Fault)
	assert.NotEqual(t, filed.Stand, got.Stand)
	var writes []string
	for _, w := range got.Writes {
		writes = append(writes, w.Name)
	}
	assert.Equal(t, []string{"crank.horn.y", "lever.horn.y"}, writes)
	for _, refused := range []string{`{"varies":{"crank.horn":2}}`, `{"varies":{"crank.horn":0.5}}`, `{"varies":{"lever.horn.y":-66}}`, `{"varies":{"lever.horn.x":5}}`} {
		assert.Equal(t, http.StatusBadRequest, s.ask("/try", refused, nil).status, refused)
	}
	require.Equal(t, http.StatusOK, s.save(`{"varies":{"crank.horn":0,"lever.horn.y":-55}}`).status)
	saved, err := os.ReadFile(s.path)
	require.NoError(t, err)
	run, err := linkage.Read(&linkage.Source{Text: saved})
	require.NoError(t, err)
	n, ok := run.Number("lever.horn.y")
	require.True(t, ok)
	assert.InDelta(t, -55, n.Value(), 1e-12)
	assert.Contains(t, string(saved), strings.TrimSpace(varying[len(screwed):]), "nothing else is changed")
}
