package find

import (
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// mechanism compiles a run in which more varies than it says.
func mechanism(t testing.TB, text string, vary ...string) *solve.Mechanism {
	t.Helper()
	run, err := linkage.ReadVarying(&linkage.Source{Name: "find.hcl", Text: []byte(text)}, vary)
	require.NoError(t, err)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	return m
}

func demo(t testing.TB, name string) string {
	t.Helper()
	text, err := os.ReadFile("../../demo/" + name + ".hcl")
	require.NoError(t, err)
	return string(text)
}

func TestTry(t *testing.T) {
	for _, varies := range [][]string{
		{"rocker.upper.x=280..300", "rocker.lower.x=280..300", "left-link.length=290..300"},
		{"rocker.upper.x=280..300"},
		{"rocker.upper=[290,0],[288,0],[292,0]", "rocker.lower=[290,-120],[288,-121],[292,-120]"},
		{"rocker.upper.x=280..298:2", "rocker.lower.x=280..298:2", "left-link.length=292..301:1", "right-link.length=292..301:1"},
	} {
		m := mechanism(t, demo(t, "pedals"), varies...)
		start := time.Now()
		a, err := Search(m, Options{})
		require.NoError(t, err)
		t.Log(time.Since(start), a.Found, a.Searched)
		for _, s := range a.Settings {
			for _, v := range s.Values {
				t.Log(v.Name(), v.Is, v.Filed)
			}
			if s.Reserve != nil {
				t.Log(*s.Reserve, s.Limits.Requirement.Kind, s.Verdict)
			}
		}
	}
}
