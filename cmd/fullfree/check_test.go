package main

import (
	"crypto/sha256"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestCheckStatus(t *testing.T) {
	for _, c := range []struct {
		name, text string
		status     int
		holds      any
		headline   string
	}{
		{"holds", barsHold, exitOK, true, "HOLDS: the one requirement, stop to stop."},
		{"falls short", barsFallShort, exitShort, false, "FALLS SHORT in 1 of 1 requirement: travel."},
		{"nothing required", bars, exitFailed, nil, "NOTHING WAS REQUIRED, so there is no verdict."},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := fullfree(c.text, "check", "-")
			assert.Equal(t, c.status, got.status)
			assert.Empty(t, got.err)
			assert.True(t, strings.HasPrefix(oneLine(got.out), "Bars "+c.headline), got.out)
			assert.Contains(t, got.out, "HAND: moves lever from -24.0° to 24.0°, stop to stop", "results are told whatever the verdict")

			got = fullfree(c.text, "check", "-", "--json")
			assert.Equal(t, c.status, got.status)
			assert.Empty(t, got.err)
			var result map[string]any
			require.NoError(t, json.Unmarshal([]byte(got.out), &result))
			assert.Equal(t, c.holds, result["holds"])
			assert.Equal(t, "-", result["file"])
			assert.Len(t, result["sweeps"], 1)
		})
	}
}

func TestCheckTellsFaultsByPlace(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "bars.hcl")
	require.NoError(t, os.WriteFile(path, []byte(strings.Replace(bars, "crank.horn", "crank.hron", 1)), 0o644))
	got := fullfree("", "check", path)
	assert.Equal(t, exitFailed, got.status)
	assert.Empty(t, got.out)
	assert.True(t, strings.HasPrefix(got.err, path+":14,"), got.err)
	assert.Contains(t, got.err, "to   = crank.hron", "the line itself")
	assert.Contains(t, got.err, "horn", "what would be right")
	assert.True(t, strings.HasSuffix(got.err, "\n") && !strings.HasSuffix(got.err, "\n\n"))
}

// Faults found after reading carry a place too.
func TestCheckTellsFaultsOfSolvingByPlace(t *testing.T) {
	got := fullfree(barsHold, "check", "-", "--set", "link.length=900")
	assert.Equal(t, exitFailed, got.status)
	assert.Empty(t, got.out)
	assert.Regexp(t, `^-:\d+,\d+: `, got.err)
	assert.Contains(t, got.err, "link")
}

func TestCheckReadsNoMoreThanItMay(t *testing.T) {
	got := fullfree("# "+strings.Repeat("x", 2<<20), "check", "-")
	assert.Equal(t, exitFailed, got.status)
	assert.Contains(t, got.err, "the file is larger than 1048576 bytes")
}

func TestCheckOfANameWithoutItsEnding(t *testing.T) {
	_, file := folderWith(t, bars)
	got := fullfree("", "check", strings.TrimSuffix(file, ".hcl"))
	assert.Equal(t, exitFailed, got.status)
	assert.Contains(t, got.err, "there is no such file; did you mean \""+file+"\"?\n")
}

func TestSetChangesTheRun(t *testing.T) {
	got := fullfree(barsHold, "check", "-", "--full", "--set", "high.at=30", "--set", "low.at=-10")
	assert.Equal(t, exitOK, got.status, got.err)
	assert.Contains(t, got.out, "HAND: moves lever from -10.0° to 30.0°, stop to stop")
	assert.Contains(t, strings.Join(strings.Fields(got.out), " "), "as drawn in - with high.at = 30, low.at = -10;", "the report tells what was changed")

	got = fullfree(barsHold, "check", "-", "--set", "hihg.at=30")
	assert.Equal(t, exitFailed, got.status)
	assert.Empty(t, got.out)
	assert.Contains(t, got.err, "high")
}

// For machines a changed run is told under the same keys and the file's name.
func TestSetLeavesTheKeysOfJSON(t *testing.T) {
	keys := func(args ...string) (names []string, file any) {
		got := fullfree(barsHold, append([]string{"check", "-", "--json"}, args...)...)
		var result map[string]any
		require.NoError(t, json.Unmarshal([]byte(got.out), &result))
		for name := range result {
			names = append(names, name)
		}
		slices.Sort(names)
		return names, result["file"]
	}
	plain, _ := keys()
	changed, file := keys("--set", "high.at=30")
	assert.Equal(t, plain, changed)
	assert.Equal(t, "-", file)
}

// A rod without a length follows what was set, and that is told; one with a
// length keeps it.
func TestCheckTellsRodsRedrawnBySet(t *testing.T) {
	got := fullfree(barsHold, "check", "-", "--set", "crank.horn.x=230")
	assert.Contains(t, got.out, "\nThe rod link is redrawn by --set: 200.0 mm became 230.0 mm.\n")
	kept := strings.Replace(barsHold, "  to   = crank.horn\n", "  to   = crank.horn\n  length = 200\n", 1)
	assert.NotContains(t, fullfree(kept, "check", "-", "--set", "crank.horn.x=201").out, "redrawn")
	assert.NotContains(t, fullfree(barsHold, "check", "-", "--set", "high.at=30").out, "redrawn")
	assert.NotContains(t, fullfree(barsHold, "check", "-").out, "redrawn")
}

func TestCheckTellsTheFileAndTheProgram(t *testing.T) {
	hash := fmt.Sprintf("%x", sha256.Sum256([]byte(barsHold)))[:12]
	for _, set := range [][]string{nil, {"--set", "high.at=30"}} {
		got := fullfree(barsHold, append([]string{"check", "-"}, set...)...)
		assert.True(t, strings.HasSuffix(got.out, "\n  File, SHA-256 begins "+hash+"; fullfree "+version+".\n"), got.out)
	}
}
