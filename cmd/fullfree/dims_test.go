package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// tapedBy is the taped run with a coordinate written with a named dimension.
func tapedBy(t *testing.T) string {
	text := taped(t)
	require.Equal(t, 1, strings.Count(text, "upper = [290, 0, 12]"))
	return strings.Replace(text, "upper = [290, 0, 12]", "upper = [sketched.upper, 0, 12]", 1) + "\ndims \"sketched\" {\n  upper = 290\n}\n"
}

// In a sketched run a named dimension that is set shifts what is written with it from
// where the survey puts that, and moves nothing else.
func TestASetDimIsNotAdjustedAway(t *testing.T) {
	var survey struct {
		Points []struct {
			Name string
			X    float64
		}
	}
	require.NoError(t, json.Unmarshal([]byte(fullfree(tapedBy(t), "survey", "-", "--json").out), &survey))
	x := 0.0
	for _, p := range survey.Points {
		if p.Name == "rocker.upper" {
			x = p.X
		}
	}
	require.NotZero(t, x)
	sweeps := func(text string, set ...string) any {
		got := fullfree(text, append([]string{"check", "-", "--json"}, set...)...)
		require.Empty(t, got.err)
		var result struct {
			Sweeps []struct{ Ends, Parts, Rods any }
		}
		require.NoError(t, json.Unmarshal([]byte(got.out), &result))
		return fmt.Sprintf("%.6v", result)
	}
	assert.Equal(t, sweeps(taped(t)), sweeps(tapedBy(t)))
	assert.Equal(t, sweeps(taped(t), "--set", fmt.Sprintf("rocker.upper.x=%.9f", x+5)), sweeps(tapedBy(t), "--set", "sketched.upper=295"))
}

// A survey doesn't write over a named dimension: it names it and writes nothing.
func TestSurveyKeepsDims(t *testing.T) {
	name := filepath.Join(t.TempDir(), "taped.hcl")
	require.NoError(t, os.WriteFile(name, []byte(tapedBy(t)), 0o644))
	got := fullfree("", "survey", name, "--write")
	assert.Equal(t, exitFailed, got.status)
	assert.Contains(t, got.err, `written with "sketched.upper", which is never overwritten`)
	text, err := os.ReadFile(name)
	require.NoError(t, err)
	assert.Equal(t, tapedBy(t), string(text))
}

// Nor does rig.
func TestRigKeepsDims(t *testing.T) {
	text := demoText(t, "pedals-unequal")
	require.Equal(t, 1, strings.Count(text, "engaged = 11\n"))
	name := filepath.Join(t.TempDir(), "unequal.hcl")
	text = strings.Replace(text, "engaged = 11\n", "engaged = rod.thread\n", 1) + "dims \"rod\" {\n  thread = 11\n}\n"
	require.NoError(t, os.WriteFile(name, []byte(text), 0o644))
	got := fullfree("", "rig", name, "--write")
	assert.Equal(t, exitFailed, got.status)
	assert.Contains(t, got.err, `written with "rod.thread", which is never overwritten`)
}
