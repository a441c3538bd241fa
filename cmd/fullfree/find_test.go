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

	"fullfree/linkage"
)

// foundJSON is what other programs read of "find --json".
type foundAnswer struct {
	Schema   string
	Found    bool
	Settings []struct {
		Values       map[string]any
		Changed      []string
		Holds        *bool
		Reserve      *float64
		Limits       *string
		Requirements []struct {
			Kind, Name string
			Holds      *bool
			Worst      *float64
			Sure       *bool
		}
		Ratios []struct {
			Output     string
			Now, Filed struct{ Neutral, Least *float64 }
		}
	}
	Against []struct {
		Drop   struct{ Kind, Name string }
		Values map[string]any
	}
	Searched struct {
		Settings int
		Complete bool
		LeftOut  float64 `json:"left_out"`
	}
}

// findIn writes a text into a file and searches it.
func findIn(t *testing.T, text string, args ...string) (outcome, foundAnswer, string) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "run.hcl")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	out := fullfree("", append([]string{"find", path}, args...)...)
	var answer foundAnswer
	if out.status != exitFailed && strings.HasPrefix(out.out, "{") {
		require.NoError(t, json.Unmarshal([]byte(out.out), &answer))
	}
	return out, answer, path
}

// The wrong hole of the throttle: every combination of what the file lets vary.
func TestFindMendsTheThrottle(t *testing.T) {
	out, answer, _ := findIn(t, demoText(t, "throttle-wrong-hole"), "--json")
	require.Equal(t, exitOK, out.status, out.err)
	assert.Equal(t, "fullfree.find/1", answer.Schema)
	assert.True(t, answer.Found && answer.Searched.Complete)
	assert.Equal(t, 166, answer.Searched.Settings, "5 places, 33 lengths, and as filed")
	best := answer.Settings[0]
	assert.Equal(t, map[string]any{"grip-lever.hole-2": []any{-26.0, 40.0}, "link.length": 254.0}, best.Values)
	assert.Equal(t, []string{"grip-lever.hole-2", "link.length"}, best.Changed)
	assert.True(t, *best.Holds)
	assert.Equal(t, "travel", *best.Limits)
	assert.Len(t, best.Requirements, 6)
	assert.Equal(t, "butterfly", best.Ratios[0].Output)
	assert.InDelta(t, 0.549, *best.Ratios[0].Filed.Neutral, 1e-3)
	least := 1.0
	for _, s := range answer.Settings {
		assert.LessOrEqual(t, *s.Reserve, least)
		least = *s.Reserve
	}

	// What it tells is what a check of just that tells.
	path := filepath.Join(t.TempDir(), "run.hcl")
	require.NoError(t, os.WriteFile(path, []byte(demoText(t, "throttle-wrong-hole")), 0o644))
	checked := fullfree("", "check", path, "--set", "grip-lever.hole-2.x=-26", "--set", "grip-lever.hole-2.y=40", "--set", "link.length=254")
	assert.Equal(t, exitOK, checked.status)
}

// Written, the file holds and has changed in those numbers alone.
func TestFindWrites(t *testing.T) {
	text := demoText(t, "throttle-wrong-hole")
	out, _, path := findIn(t, text, "--write")
	require.Equal(t, exitOK, out.status, out.err)
	assert.Contains(t, out.out, "is written into the file.")
	written, err := os.ReadFile(path)
	require.NoError(t, err)
	changed := changedLinesOf(text, string(written))
	require.Len(t, changed, 2)
	assert.Contains(t, changed[0], "hole-2 = polar(47.707442, 123.023868)")
	assert.Contains(t, changed[1], "length = 254 ")
	assert.Equal(t, exitOK, fullfree("", "check", path).status)
}

// changedLinesOf are the lines of a text that another hasn't got at their place.
func changedLinesOf(was, now string) (list []string) {
	old := strings.Split(was, "\n")
	for i, line := range strings.Split(now, "\n") {
		if i >= len(old) || line != old[i] {
			list = append(list, line)
		}
	}
	return list
}

// Named dimensions and metal vary, are told and are written.
func TestFindVariesNamedDimensionsAndMetal(t *testing.T) {
	text := `run "Lever" { units = "mm" }
dims "bench" { arm = 40 }
fixed "frame" {
  round "bolt" {
    at     = [60, -20]
    radius = 5
  }
}
part "lever" {
  pivot  = [0, 0]
  points = { horn = [0, bench.arm] }
  edge "tail" {
    through = [[0, 0], [40, 0], [60, 0]] # flat bar
    thick   = 4
  }
}
part "arm" {
  pivot  = [200, 0]
  points = { horn = [200, 50] }
}
rod "link" {
  from = lever.horn
  to   = arm.horn
}
control "hand" {
  of   = lever
  from = -40
  to   = 20
}
stop "bolt" { touch = [lever.tail, frame.bolt] }
require "together" {
  of     = [lever, arm]
  within = 0.5
}
require "travel" {
  of     = lever
  low    = -10
  high   = 20
  within = 0.5
}
`
	out, answer, path := findIn(t, text, "--vary", "bench.arm=40..60:1", "--vary", "frame.bolt.y=-30..-10", "--json")
	require.Equal(t, exitOK, out.status, out.err+out.out)
	best := answer.Settings[0].Values
	assert.Equal(t, 50.0, best["bench.arm"], "a parallelogram")
	bolt := best["frame.bolt.y"].(float64)
	// By hand: turned by 10 degrees the tail's end, round by 2, is 7 from the bolt's center, of
	// radius 5, at x = 60.
	s, c := math.Sincos(10 * math.Pi / 180)
	assert.InDelta(t, -60*s-math.Sqrt(49-(60-60*c)*(60-60*c)), bolt, 1e-4)
	out = fullfree("", "find", path, "--vary", "bench.arm=40..60:1", "--vary", "frame.bolt.y=-30..-10", "--write")
	require.Equal(t, exitOK, out.status, out.err)
	written, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Contains(t, string(written), `dims "bench" { arm = 50 }`)
	assert.Contains(t, string(written), "# flat bar")
	assert.Equal(t, exitOK, fullfree("", "check", path).status)
	run, err := linkage.Read(&linkage.Source{Text: written})
	require.NoError(t, err)
	n, _ := run.Number("frame.bolt.y")
	assert.InDelta(t, bolt, n.Value(), 1e-6)

	// The third place of the tail, by --set as by find.
	set := fullfree("", "check", path, "--set", "lever.tail.2.x=50", "--set", "frame.bolt.radius=6", "--json")
	assert.NotEqual(t, exitFailed, set.status, set.err)
	assert.Contains(t, fullfree("", "check", path, "--set", "lever.tail.3.x=50").err, "no dimension")
	assert.Contains(t, fullfree("", "check", path, "--set", "frame.bolt.radius=0").err, "a radius is more than 0")
}

// Nothing meets all: the closest, what stands against what, and exit status 1.
func TestFindTellsWhatStandsAgainstWhat(t *testing.T) {
	text := strings.Replace(demoText(t, "pedals"), "within = 0.5", "within = 0.05", 1)
	out, answer, _ := findIn(t, text, "--vary", "rocker.upper.x=286..294:1", "--json")
	require.Equal(t, exitShort, out.status, out.err)
	assert.False(t, answer.Found)
	require.NotEmpty(t, answer.Against)
	assert.Equal(t, "opposite", answer.Against[0].Drop.Kind)
	assert.False(t, *answer.Settings[0].Holds)
	plain := fullfree(text, "find", "-", "--vary", "rocker.upper.x=286..294:1")
	assert.Contains(t, plain.out, "NO SETTING MEETS ALL")
	assert.Contains(t, plain.out, "Without opposite all others would be met by everything as filed.")
	assert.Contains(t, plain.out, "Drill nothing on this alone")
}

// What can't be searched is told, and exit status 2.
func TestFindRefuses(t *testing.T) {
	pedals := demoText(t, "pedals")
	for name, c := range map[string]struct {
		text string
		args []string
		says string
	}{
		"nothing varies":    {pedals, nil, "nothing varies"},
		"unknown":           {pedals, []string{"--vary", "rocker.uper.x=1..2"}, `did you mean "rocker.upper.x"?`},
		"none closes":       {pedals, []string{"--vary", "left-link.length=3..4"}, "no position closes from 3 to 4"},
		"step over range":   {pedals, []string{"--vary", "left-link.length=290..291:5"}, "the step, 5, is larger than the range"},
		"off its plane":     {pedals, []string{"--vary", "rocker.upper=[290,0,15]"}, "off its plane"},
		"on its axis":       {pedals, []string{"--vary", "rocker.upper=[300,-60]"}, "on the axis"},
		"mirrored":          {demoText(t, "ailerons"), []string{"--vary", "left-crank.in.x=1..2"}, "is mirrored from"},
		"write and set":     {pedals, []string{"--vary", "left-link.length=290..291", "--write", "--set", "left-link.length=297"}, "--write and --set at once"},
		"nothing required":  {"run \"r\" { units = \"mm\" }\npart \"a\" { pivot = [0, 0] }\ncontrol \"c\" { of = a }\n", []string{"--vary", "a.pivot.x=1..2"}, "nothing is required"},
		"no range":          {pedals, []string{"--vary", "left-link.length"}, "a dimension and its range are wanted"},
		"the same at twice": {pedals, []string{"--vary", "left-link.length=290..291", "--vary", "left-link.length=290..292"}, "varies already"},
	} {
		out, _, _ := findIn(t, c.text, c.args...)
		assert.Equal(t, exitFailed, out.status, name)
		assert.Contains(t, out.err, c.says, name)
		assert.Empty(t, out.out, name)
	}
}

// More combinations than are gone through: told, with how many are left out.
func TestFindTellsWhatIsLeftOut(t *testing.T) {
	out, answer, _ := findIn(t, demoText(t, "throttle-wrong-hole"), "--vary", "grip-lever.pivot.x=-2..2:0.01", "--json")
	require.NotEqual(t, exitFailed, out.status, out.err)
	assert.False(t, answer.Searched.Complete)
	assert.Equal(t, 165*401.0, answer.Searched.LeftOut+float64(answer.Searched.Settings))
}

// rig names single dimensions where no rod end will do.
func TestRigNamesOtherDimensions(t *testing.T) {
	text, err := os.ReadFile("../../testdata/answers/p1-pedals.hcl")
	require.NoError(t, err)
	plain, out := riggedOnce(t, string(text), linkage.Setting{Dimension: "tail-crank.in.y", Value: "-5.2"})
	var answer struct {
		Others []struct {
			Dimension string
			Value     float64
		}
	}
	require.NoError(t, json.Unmarshal([]byte(out), &answer))
	require.NotEmpty(t, answer.Others)
	assert.Equal(t, "tail-crank.in.y", answer.Others[0].Dimension)
	assert.InDelta(t, -6.2, answer.Others[0].Value, 0.1, "an arm of 2.15 in would do")
	for _, o := range answer.Others {
		set := fullfree(string(text), "check", "-", "--set", "tail-crank.in.y=-5.2", "--set", o.Dimension+"="+jsonNumber(o.Value))
		if o.Dimension == "tail-crank.in.y" {
			set = fullfree(string(text), "check", "-", "--set", o.Dimension+"="+jsonNumber(o.Value))
		}
		assert.Contains(t, set.out, "HOLDS", o.Dimension)
	}
	assert.Contains(t, plain, "tail-crank.in.y -6.2")
	assert.NotContains(t, plain, "\n2. ", "what misses the same and more is not told")
}

func jsonNumber(v float64) string {
	text, _ := json.Marshal(v)
	return string(text)
}
