package main

import (
	"encoding/json"
	"strconv"
	"strings"
	"testing"

	"fullfree/demo"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What becomes of the builds of a demo, as a builder reads it.
func TestGoldenTolerance(t *testing.T) {
	golden(t, demo.Toleranced+".txt", demo.Toleranced, exitOK, "tolerance", "-", "--builds", "1000")
	golden(t, demo.Toleranced+"-full.txt", demo.Toleranced, exitOK, "tolerance", "-", "--builds", "1000", "--full", "--bell", "--as-drilled")
}

// toleranced is what is promised for machines.
type toleranced struct {
	Schema       string   `json:"schema"`
	Builds       int      `json:"builds"`
	Seed         uint64   `json:"seed"`
	Bell         bool     `json:"bell"`
	Rigged       []string `json:"rigged"`
	Requirements []struct {
		Kind        string             `json:"kind"`
		Name        string             `json:"name"`
		Share       float64            `json:"share"`
		Low         float64            `json:"low"`
		High        float64            `json:"high"`
		Percentiles map[string]float64 `json:"percentiles"`
		Worst       *struct {
			Value float64            `json:"value"`
			Build map[string]float64 `json:"build"`
		} `json:"worst"`
		Blame []struct {
			Dimension string  `json:"dimension"`
			Share     float64 `json:"share"`
		} `json:"blame"`
		Linear *float64 `json:"linear"`
		Says   string   `json:"says"`
	} `json:"requirements"`
	Alone []struct {
		Dimension string   `json:"dimension"`
		Minus     *float64 `json:"minus"`
		Plus      *float64 `json:"plus"`
		Fails     *string  `json:"fails"`
	} `json:"alone"`
}

func toleranceJSON(t *testing.T, text string, args ...string) toleranced {
	t.Helper()
	got := fullfree(text, append([]string{"tolerance", "-", "--json"}, args...)...)
	require.Equal(t, exitOK, got.status, got.err)
	assert.Empty(t, got.err)
	var told toleranced
	require.NoError(t, json.Unmarshal([]byte(got.out), &told))
	require.Equal(t, "fullfree.tolerance/1", told.Schema)
	return told
}

func TestToleranceJSON(t *testing.T) {
	text := demoText(t, demo.Toleranced)
	told := toleranceJSON(t, text, "--builds", "400", "--seed", "3", "--bell")
	assert.Equal(t, 400, told.Builds)
	assert.Equal(t, uint64(3), told.Seed)
	assert.True(t, told.Bell)
	assert.Equal(t, []string{"left-link", "right-link"}, told.Rigged)
	var kinds []string
	for _, r := range told.Requirements {
		kinds = append(kinds, r.Kind)
		assert.LessOrEqual(t, r.Low, r.Share)
		assert.GreaterOrEqual(t, r.High, r.Share)
		switch r.Kind {
		case "sense", "over-center", "stops", "engagement", "setting", "label":
			assert.Contains(t, r.Says, "FAILS in ", r.Kind)
			assert.NotContains(t, r.Says, "holds", r.Kind)
		default:
			assert.Contains(t, r.Says, "holds in ", r.Kind)
		}
		if r.Worst == nil {
			continue
		}
		assert.LessOrEqual(t, r.Percentiles["5"], r.Percentiles["50"])
		assert.LessOrEqual(t, r.Percentiles["50"], r.Percentiles["95"])
		assert.Contains(t, r.Worst.Build, "rocker.upper.x")
		assert.Contains(t, r.Worst.Build, "left-link.length")
		sum := 0.0
		for _, b := range r.Blame {
			sum += b.Share
		}
		if len(r.Blame) > 0 {
			assert.InDelta(t, 1, sum, 1e-3, r.Kind)
		}
	}
	assert.Equal(t, []string{"opposite", "sense", "travel", "over-center", "rod-angle", "misalignment", "clearance", "stops", "free-play", "engagement", "label", "setting"}, kinds)
	require.NotEmpty(t, told.Alone)
	tried := 0
	for _, k := range told.Alone {
		assert.Equal(t, k.Minus == nil && k.Plus == nil, k.Fails == nil, k.Dimension)
		if k.Minus != nil {
			tried++
			assert.Positive(t, *k.Minus)
		}
	}
	assert.Positive(t, tried)
}

// The worst build of each requirement, set by its dimensions, is judged so by check. (Which
// thread that leaves in rod ends no --set tells, so engagement aside.)
func TestWorstBuildIsWhatCheckTells(t *testing.T) {
	text := demoText(t, demo.Toleranced)
	for _, r := range toleranceJSON(t, text, "--builds", "300").Requirements {
		if r.Worst == nil || r.Kind == "label" || r.Kind == "engagement" {
			continue
		}
		args := []string{"check", "-", "--json"}
		for name, v := range r.Worst.Build {
			args = append(args, "--set", name+"="+strconv.FormatFloat(v, 'f', -1, 64))
		}
		got := fullfree(text, args...)
		require.NotEqual(t, exitFailed, got.status, got.err)
		var told struct {
			Requirements []struct {
				Kind  string  `json:"kind"`
				Name  string  `json:"name"`
				Worst float64 `json:"worst"`
			} `json:"requirements"`
		}
		require.NoError(t, json.Unmarshal([]byte(got.out), &told))
		found := false
		for _, j := range told.Requirements {
			if j.Kind == r.Kind && j.Name == r.Name {
				found = true
				assert.InDelta(t, r.Worst.Value, j.Worst, 1e-6, r.Kind)
			}
		}
		assert.True(t, found)
	}
}

func TestToleranceIsTheSameAgain(t *testing.T) {
	text := demoText(t, demo.Toleranced)
	args := []string{"tolerance", "-", "--json", "--builds", "600", "--seed", "11"}
	assert.Equal(t, fullfree(text, args...), fullfree(text, args...))
}

func TestToleranceThatCantBe(t *testing.T) {
	for _, c := range []struct {
		text, says string
		args       []string
	}{
		{demoText(t, "pedals"), "the file says of nothing how far it may be out", nil},
		{demoText(t, demo.Toleranced), "--builds is from 1 to 1000000, and 0 is not", []string{"--builds", "0"}},
		{demoText(t, demo.Toleranced), "--builds is from 1 to 1000000, and 2000000 is not", []string{"--builds", "2000000"}},
		{demoText(t, demo.Toleranced), "seed", []string{"--seed", "-1"}},
		{strings.Replace(demoText(t, demo.Toleranced), "points     = 0.15", "points     = -0.15", 1), "points can't be smaller than 0", nil},
	} {
		got := fullfree(c.text, append([]string{"tolerance", "-"}, c.args...)...)
		assert.Equal(t, exitFailed, got.status)
		assert.Empty(t, got.out)
		assert.Contains(t, got.err, c.says)
	}
}

// Free play is told by check, in words and for machines.
func TestFreePlayIsTold(t *testing.T) {
	text := demoText(t, demo.Toleranced)
	got := fullfree(text, "check", "-", "--json")
	var told struct {
		Sweeps []struct {
			FreePlay []struct {
				Of        string   `json:"of"`
				AtNeutral *float64 `json:"at_neutral"`
				Most      *float64 `json:"most"`
				At        *float64 `json:"at"`
				RSS       *float64 `json:"rss"`
			} `json:"free_play"`
		} `json:"sweeps"`
	}
	require.NoError(t, json.Unmarshal([]byte(got.out), &told))
	require.Len(t, told.Sweeps[0].FreePlay, 2)
	for i, of := range []string{"pedals", "tail-run"} {
		f := told.Sweeps[0].FreePlay[i]
		assert.Equal(t, of, f.Of)
		require.NotNil(t, f.Most)
		assert.Greater(t, *f.Most, *f.AtNeutral)
		assert.Less(t, *f.RSS, *f.Most)
		assert.NotNil(t, f.At)
	}
	assert.Contains(t, fullfree(text, "check", "-").out, "FREE PLAY, from one end of the rock to the other")
	assert.NotContains(t, fullfree(demoText(t, "pedals"), "check", "-", "--json").out, "free_play")
}
