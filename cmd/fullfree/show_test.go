package main

import (
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What show writes reads back to the same answers, to the last digit.
func TestShowReadsBackToTheSame(t *testing.T) {
	for _, kind := range allDemos {
		text := demoText(t, kind)
		shown := fullfree(text, "show", "-")
		require.Equal(t, exitOK, shown.status, shown.err)
		assert.NotRegexp(t, `(?m)^[^#]*\bmirror\b *=`, shown.out, kind)
		if !strings.Contains(text, "mirror") {
			assert.Equal(t, text, shown.out, kind)
		}
		assert.Equal(t, fullfreeOnce(text, "check", "-", "--json"), fullfreeOnce(shown.out, "check", "-", "--json"), kind)
		assert.Equal(t, fullfreeOnce(text, "sweep", "-", "--csv"), fullfreeOnce(shown.out, "sweep", "-", "--csv"), kind)
	}
	shown := fullfree(demoText(t, "ailerons"), "show", "-").out
	for _, kept := range []string{
		"# Look at: each aileron goes further up than down.", "dims \"crank\" {", `out = polar(crank.arm, 180 - crank.lead, "xz")`,
		"# the stick is its own mirror image: at -20", "at = -20", "axis  = [0, -1, 0]",
	} {
		assert.Contains(t, shown, kept)
	}
}

func TestShowTellsFaults(t *testing.T) {
	got := fullfree(strings.Replace(demoText(t, "ailerons"), "mirror = right-crank ", "mirror = right-cranc ", 1), "show", "-")
	assert.Equal(t, exitFailed, got.status)
	assert.Empty(t, got.out)
	assert.Contains(t, got.err, `there is no part called "right-cranc"; did you mean "right-crank"?`)
	assert.Contains(t, fullfree("", "show").err, "a file is missing")
	assert.Contains(t, fullfree("", "show", "nothing-there.hcl").err, "there is no such file")
}

// One side does at +x what its mirror image does at -x: an identity of the mirror,
// whatever the figures are.
func TestMirroredSidesAnswerAlike(t *testing.T) {
	for _, set := range [][]string{nil, {"--set", "crank.lead=175.5"}, {"--set", "right-aileron.horn.y=-71", "--set", "crank.arm=104"}, {"--set", "leftward.at=17"}} {
		text := strings.ReplaceAll(demoText(t, "ailerons"), `"stick-left"`, `"leftward"`)
		text = strings.ReplaceAll(text, "mirror = stick-left", "mirror = leftward")
		got := fullfree(text, append([]string{"sweep", "-", "--json", "--steps", "40"}, set...)...)
		require.Equal(t, exitOK, got.status, got.err)
		var sweep struct {
			Columns []struct{ Name string }
			Rows    [][]float64
		}
		require.NoError(t, json.Unmarshal([]byte(got.out), &sweep))
		at := map[string]int{}
		for i, c := range sweep.Columns {
			at[c.Name] = i
		}
		require.Len(t, sweep.Rows, 41)
		for i, row := range sweep.Rows {
			other := sweep.Rows[len(sweep.Rows)-1-i]
			for _, pair := range [][2]string{{"right-crank", "left-crank"}, {"right-aileron", "left-aileron"}, {"right", "left"}, {"right-te", "left-te"}} {
				require.Contains(t, at, pair[0])
				assert.InDelta(t, row[at[pair[0]]], other[at[pair[1]]], 1e-9, "%v %v at %d", set, pair, i)
				if set == nil && i == 40 {
					assert.Greater(t, math.Abs(row[at[pair[0]]]), 1.0)
				}
			}
		}
	}
}

// Where only one rod is made up wrongly, rig sets that one and writes it beside its
// mirror.
func TestRigWritesBesideMirror(t *testing.T) {
	name := filepath.Join(t.TempDir(), "ailerons.hcl")
	text := strings.Replace(demoText(t, "ailerons"), `rod "left-push-rod" { mirror = right-push-rod }`,
		"rod \"left-push-rod\" {\n  mirror = right-push-rod\n  length = 648\n}", 1)
	text = strings.ReplaceAll(text, "  within = 1\n", "  within = 0.7\n")
	require.NoError(t, os.WriteFile(name, []byte(text), 0o644))
	before := fullfree("", "check", name)
	require.Equal(t, exitShort, before.status, before.out)
	got := fullfree("", "rig", name, "--write")
	require.Equal(t, exitOK, got.status, got.out+got.err)
	written, err := os.ReadFile(name)
	require.NoError(t, err)
	assert.Regexp(t, `rod "left-push-rod" \{\n  mirror = right-push-rod\n  end "to" \{\n    thread  = "M6x1"\n    engaged = [\d.]+\n  \}\n  length = [\d.]+\n\}`, string(written))
	assert.Equal(t, exitOK, fullfree("", "check", name).status)
}
