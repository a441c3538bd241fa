package main

import (
	"encoding/json"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"os"
	"strings"
	"testing"

	"fullfree/demo"
	"fullfree/linkage"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// threaded is bars with a rod end on each side of the link, the lever's too short
// of a maker's figure, and pins.
const threaded = `run "Bars" {
  units = "mm"
}
part "lever" {
  pivot  = [0, 0]
  points = { horn = [0, -60] }
}
part "crank" {
  pivot  = [200, 0]
  points = { horn = [200, -60] }
}
rod "link" {
  from   = lever.horn
  to     = crank.horn
  length = 199 + 1/2          # as it came
  end "from" {
    thread  = "M6x1"
    engaged = 10 + 1/2        # by the rule
    most    = 14
    shank   = 20
  }
  end "to" {
    thread  = "M6x1"
    hand    = "left"
    engaged = 11
    least   = 8
    most    = 14
  }
}
control "hand" {
  of   = lever
  from = -40
  to   = 40
}
output "tail" {
  of = crank
}
stop "low" {
  of = lever
  at = -24
}
stop "high" {
  of = lever
  at = 24
}
pin "lever-rig" {
  of = lever
}
pin "crank-rig" {
  of = crank
}
require "together" {
  of     = [lever, crank]
  within = 0.4
}
`

func decode(t *testing.T, text string, into any) {
	t.Helper()
	require.NoError(t, json.Unmarshal([]byte(text), into), text)
}

func TestCompareForMachines(t *testing.T) {
	got := fullfree(threaded, "compare", "-", "--with", "link.from=+1", "--with", "link.from=+0.5,link.to=-1.5", "--json")
	require.Equal(t, exitOK, got.status, got.err)
	var all struct {
		Schema   string
		Variants []struct {
			Name  string
			Turns map[string]float64
			Rods  []struct {
				Name    string
				Length  float64
				RodEnds []struct {
					Side           string
					Engaged, Spare float64
				} `json:"rod_ends"`
			}
			Check map[string]any
		}
	}
	decode(t, got.out, &all)
	assert.Equal(t, "fullfree.compare/1", all.Schema)
	require.Len(t, all.Variants, 3)
	assert.Equal(t, "as filed", all.Variants[0].Name)
	assert.Equal(t, map[string]float64{}, all.Variants[0].Turns)
	assert.Equal(t, map[string]float64{"link.from": 0.5, "link.to": -1.5}, all.Variants[2].Turns)
	// A turn of M6x1 out is 1 mm of length, and 1 mm of thread less in the rod.
	for i, want := range []struct{ length, from, to float64 }{{199.5, 10.5, 11}, {200.5, 9.5, 11}, {198.5, 10, 12.5}} {
		rod := all.Variants[i].Rods[0]
		assert.InDelta(t, want.length, rod.Length, 1e-12)
		require.Len(t, rod.RodEnds, 2)
		assert.InDelta(t, want.from, rod.RodEnds[0].Engaged, 1e-12)
		assert.InDelta(t, want.to, rod.RodEnds[1].Engaged, 1e-12)
		assert.InDelta(t, want.from-9, rod.RodEnds[0].Spare, 1e-12, "1.5 diameters of 6")
		assert.InDelta(t, want.to-8, rod.RodEnds[1].Spare, 1e-12)
	}
	// As filed it is what check tells.
	var checked map[string]any
	decode(t, fullfree(threaded, "check", "-", "--json").out, &checked)
	assert.Equal(t, checked, all.Variants[0].Check)
}

func TestCompareTellsWhatFallsShortOfThread(t *testing.T) {
	got := fullfree(threaded, "compare", "-", "--with", "link.from=+2", "--with", "link.to=-4", "--with", "link.from=0.3", "--with", "link.to=+12")
	require.Equal(t, exitOK, got.status, got.err)
	said := oneLine(got.out)
	assert.Contains(t, said, "link.from falls short of thread: in the rod 8.50 mm, wanted 9.00 mm, missed by 0.50 mm.")
	assert.Contains(t, said, "link.to falls short: it bottoms out at 14.00 mm, and 15.00 mm is asked for.")
	assert.Contains(t, said, "link.from can't be turned 0.3 turns out: it goes by half a turn at a time.")
	assert.Contains(t, said, "link.to comes out of the rod: 8.00 mm of thread wanted.")
	assert.Contains(t, said, "The maker's figure is missing for link.from:")
	assert.NotContains(t, said, "missing for link.from and link.to")
	assert.Contains(t, said, "If the wire passes, the thread doesn't reach the hole")
	assert.Contains(t, said, "Tighten the check nut against the rod last")
	for _, line := range strings.Split(got.out, "\n") {
		assert.LessOrEqual(t, len([]rune(line)), 72, line)
	}
}

// What changed is marked, and nothing else.
func TestCompareMarksWhatChanged(t *testing.T) {
	got := fullfree(threaded, "compare", "-", "--with", "link.from=+0.5")
	require.Equal(t, exitOK, got.status, got.err)
	assert.Contains(t, got.out, "link               mm  199.50  *200.00\n")
	assert.Contains(t, got.out, "link.from          mm  10.50  *10.00\n")
	assert.Contains(t, got.out, "link.to            mm  11.00   11.00\n")
	assert.Regexp(t, `together +SHORT 0\.5° +\*holds 0\.0°\n`, got.out)
	same := fullfree(threaded, "compare", "-", "--with", "link.from=0")
	assert.Equal(t, 1, strings.Count(same.out, "*"), "in its own heading alone")
}

func TestThreadIsToldInEveryCommand(t *testing.T) {
	short := strings.Replace(threaded, "engaged = 10 + 1/2 ", "engaged = 8 + 1/2 ", 1)
	for _, args := range []string{"check -", "sweep -", "effect -", "rods -", "compare - --with link.to=0", "rig -"} {
		assert.Contains(t, oneLine(fullfree(short, strings.Fields(args)...).out), "link.from falls short of thread: in the rod 8.50 mm, wanted 9.00 mm, missed by 0.50 mm.", args)
	}
	assert.Contains(t, oneLine(strings.Join(svgTexts(fullfree(short, "draw", "-", "-o", "-").out), " ")), "link.from falls short of thread")
}

func TestCompareDraws(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("bars.hcl", []byte(threaded), 0o644))
	got := fullfree("", "compare", "bars.hcl", "--with", "link.from=+1", "--draw", "over.svg")
	require.Equal(t, exitOK, got.status, got.err)
	assert.Contains(t, got.out, "COMPARED")
	svg, err := os.ReadFile("over.svg")
	require.NoError(t, err)
	for d := xml.NewDecoder(strings.NewReader(string(svg))); ; {
		_, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		require.NoError(t, err)
	}
	texts := strings.Join(svgTexts(string(svg)), "\n")
	for _, head := range []string{"Settings", "Neutral", "The low end of the travel", "The high end of the travel"} {
		assert.Contains(t, "\n"+texts+"\n", "\n"+head+"\n")
	}
	assert.Contains(t, texts, "link.from=+1")
	assert.NotContains(t, string(svg), "NaN")

	for args, want := range map[string]string{
		"compare bars.hcl --with link.from=1 --draw bars.hcl":                                                                          "fullfree compare: --draw bars.hcl is the file of the run itself, and would be lost\n",
		"compare bars.hcl --with link.from=1 --draw x.png":                                                                             "fullfree compare: --draw x.png: the drawing is SVG: name it x.svg\n",
		"compare bars.hcl --with link.from=1 --draw no/over.svg":                                                                       "fullfree compare: can't write no/over.svg: there is no such folder\n",
		"compare bars.hcl --with link.from=1 --draw -":                                                                                 "fullfree compare: --draw wants a file: --draw OUT.svg\n",
		"compare bars.hcl --with link.from=1 --with link.from=2 --with link.from=3 --with link.from=4 --with link.from=5 --draw x.svg": "fullfree compare: 5 settings over one another can't be read: draw at most 4 at once\n",
	} {
		got := fullfree("", strings.Fields(args)...)
		assert.Equal(t, outcome{exitFailed, "", want}, got, args)
	}
	kept, err := os.ReadFile("bars.hcl")
	require.NoError(t, err)
	assert.Equal(t, threaded, string(kept))
}

func TestWrongTurns(t *testing.T) {
	for args, want := range map[string]string{
		"compare -":                                           `fullfree compare: tell what to turn, --with left-link.from=+1 (out is plus), what to set, --with crank.in.y=52.5, or a second file`,
		"compare - --with link.from":                          `fullfree compare: --with link.from is no ROD.SIDE=TURNS or CABLE.END=TURNS, such as --with left-link.from=+1.5 (out is plus)`,
		"compare - --with link.form=1":                        `fullfree compare: there is no rod end "link.form"; did you mean "link.from"?`,
		"compare - --with link.from=NaN":                      `fullfree compare: --with link.from: "NaN" is no number of turns`,
		"compare - --with link.from=1,link.from=2":            `fullfree compare: --with tells link.from twice`,
		"compare - --with link.from=-200":                     `fullfree compare: --with link.from=-200: turned so, link would be -0.5 mm long`,
		"compare - --with link.from=+300":                     `fullfree compare: --with link.from=+300: the run can't be closed: the rod "link", set to 499.5 mm, is 230.7 mm too long to reach from lever.horn to crank.horn`,
		"rig - --write":                                       `fullfree rig: --write needs a file: standard input can't be written into`,
		"rig x.hcl --write --set link.length=200":             `fullfree rig: --write and --set at once: what --set tries out is not for the file`,
		"compare - --with link.from=1,link.to":                `fullfree compare: --with link.from=1,link.to is no ROD.SIDE=TURNS or CABLE.END=TURNS, such as --with left-link.from=+1.5 (out is plus)`,
		"compare - --with link.from=" + "1e9":                 `fullfree compare: --with link.from=1e9: turned so, link would be 1000000199.5 mm long`,
		"compare - --set link.length=oops --with link.from=1": `-: --set link.length=oops: a number is wanted here, not a name`,
	} {
		got := fullfree(threaded, strings.Fields(args)...)
		assert.Equal(t, exitFailed, got.status, args)
		assert.Empty(t, got.out, args)
		first, _, _ := strings.Cut(got.err, "\n")
		assert.Equal(t, want, first, args)
	}
	got := fullfree(bars, "compare", "-", "--with", "link.from=1")
	assert.Equal(t, exitFailed, got.status)
	assert.Contains(t, got.err, "no rod or cable of the file has an end to turn")
	got = fullfree(bars, "effect", "-")
	assert.Equal(t, exitFailed, got.status)
	assert.Contains(t, got.err, "no rod or cable of the file has an end to turn")
	assert.Empty(t, got.out)
	got = fullfree(barsHold, "rig", "-")
	assert.Equal(t, exitFailed, got.status)
	assert.Contains(t, got.err, "there is nothing to set")
}

func TestABarrelIsOne(t *testing.T) {
	barrel := strings.ReplaceAll(threaded, "    thread  = \"M6x1\"\n", "    thread  = \"M6x1\"\n    step    = 0\n")
	got := fullfree(barrel, "compare", "-", "--with", "link.from=0.25", "--json")
	require.Equal(t, exitOK, got.status, got.err)
	assert.Contains(t, got.out, `"length": 200,`)
	assert.Contains(t, oneLine(fullfree(barrel, "compare", "-", "--with", "link.from=0.25").out), "link is turned as one barrel: the hands of its ends are opposite, so a turn changes the length by the sum of the pitches, 2.00 mm.")
	got = fullfree(barrel, "compare", "-", "--with", "link.from=1,link.to=1")
	assert.Equal(t, exitFailed, got.status)
	assert.Contains(t, got.err, "--with tells link.from and link.to, which are one barrel: turn one of them")
	alike := strings.Replace(barrel, "    hand    = \"left\"\n", "", 1)
	assert.Contains(t, oneLine(fullfree(alike, "rods", "-").out), "the hands of its ends are alike, so a turn changes the length by the difference of the pitches alone, 0.00 mm.")
}

func TestEffectForMachines(t *testing.T) {
	got := fullfree(threaded, "effect", "-", "--json")
	require.Equal(t, exitOK, got.status, got.err)
	var all struct {
		Schema  string
		RodEnds []struct {
			Rod, Side string
			Sweep     int
			PerTurn   []struct {
				Name, Unit string
				Neutral    *float64
				AtLow      *float64 `json:"at_low"`
				AtHigh     *float64 `json:"at_high"`
			} `json:"per_turn"`
		} `json:"rod_ends"`
	}
	decode(t, got.out, &all)
	assert.Equal(t, "fullfree.effect/1", all.Schema)
	require.Len(t, all.RodEnds, 2)
	assert.Equal(t, "from", all.RodEnds[0].Side)
	per := all.RodEnds[0].PerTurn
	require.Len(t, per, 3)
	assert.Equal(t, []string{"lever", "crank", "tail"}, []string{per[0].Name, per[1].Name, per[2].Name})
	assert.Equal(t, 0.0, *per[0].Neutral, "the control stands where it is held")
	// 1 mm at an arm of 60, the arm nearly square to the rod.
	assert.InDelta(t, 180/math.Pi/60, *per[1].Neutral, 1e-3)
	assert.Equal(t, *per[1].AtHigh, *per[2].AtHigh)

	said := oneLine(fullfree(threaded, "effect", "-").out)
	assert.Contains(t, said, "To bring crank plus by 0.48° at neutral: turn link.from out by half a turn; in brings it minus. It costs elsewhere: tail +0.48°.")
}

func TestRodsForMachines(t *testing.T) {
	got := fullfree(threaded, "rods", "-", "--json")
	require.Equal(t, exitOK, got.status, got.err)
	var all map[string]any
	decode(t, got.out, &all)
	assert.Equal(t, map[string]any{"schema": "fullfree.rods/1", "cables": []any{}, "rods": []any{map[string]any{
		"name": "link", "length": 199.5,
		"rod_ends": []any{
			map[string]any{"side": "from", "engaged": 10.5, "spare": 1.5, "exposed": 9.5},
			map[string]any{"side": "to", "engaged": 11.0, "spare": 3.0, "exposed": nil},
		},
		"pinned": []any{map[string]any{"pin": "lever-rig", "length": 200.0}, map[string]any{"pin": "crank-rig", "length": 200.0}},
	}}, "assumed": []any{
		"The maker's figure is missing for link.from: 1.5 diameters of thread stand in for it (common practice, no source); the maker's figure rules.",
		"The file gives no step for link.from and link.to: half a turn stands in, after which the bolt goes in again (common practice, no source).",
		"The file gives no within for the pin \"lever-rig\" and \"crank-rig\": a bolt is taken to slide in where its rod is off by no more than 0.1 mm (common practice, no source).",
	}}, all)
	said := oneLine(fullfree(threaded, "rods", "-").out)
	assert.Contains(t, said, "link: 0.50 mm too short, its bolt does not slide in: turn link.from out by half a turn.")
	assert.Contains(t, said, "Tighten the check nut against the rod last")

	one := strings.Replace(threaded, "pin \"crank-rig\" {\n  of = crank\n}\n", "", 1)
	decode(t, fullfree(one, "rods", "-", "--json").out, &all)
	assert.Equal(t, []any{map[string]any{"pin": "lever-rig", "length": nil}}, all["rods"].([]any)[0].(map[string]any)["pinned"])
}

func TestRigWritesTheBest(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("bars.hcl", []byte(threaded), 0o644))
	got := fullfree("", "rig", "bars.hcl", "--json")
	require.Equal(t, exitOK, got.status, got.err)
	var all struct {
		Schema   string
		Found    bool
		Settings []struct {
			Turns, Stops map[string]float64
			Reserve      *float64
			Holds        *bool
			Check        map[string]any
		}
		Searched string
	}
	decode(t, got.out, &all)
	assert.Equal(t, "fullfree.rig/1", all.Schema)
	assert.True(t, all.Found)
	require.NotEmpty(t, all.Settings)
	best := all.Settings[0]
	// Half a turn makes the bars equal; of the two ends the one that keeps the
	// larger least spare thread: 1.5 and 3 are left, or 1 and 3.
	assert.Equal(t, map[string]float64{"link.to": 0.5}, best.Turns)
	assert.Equal(t, map[string]float64{}, best.Stops)
	assert.InDelta(t, 1, *best.Reserve, 1e-6)
	assert.True(t, *best.Holds)
	assert.NotEmpty(t, all.Searched)
	kept, err := os.ReadFile("bars.hcl")
	require.NoError(t, err)
	assert.Equal(t, threaded, string(kept), "without --write the file stays")

	got = fullfree("", "rig", "bars.hcl", "--write")
	require.Equal(t, exitOK, got.status, got.err)
	assert.Contains(t, oneLine(got.out), "FOUND: link.to half a turn out. It is written into the file.")
	written, err := os.ReadFile("bars.hcl")
	require.NoError(t, err)
	want := strings.Replace(strings.Replace(threaded, "length = 199 + 1/2 ", "length = 200 ", 1), "engaged = 11\n", "engaged = 10.5\n", 1)
	assert.Equal(t, want, string(written))
	// Written, there is nothing left to turn, and every thread is as it was told.
	assert.Contains(t, fullfree("", "rig", "bars.hcl").out, "FOUND: as filed.")
}

func TestRigFindsNone(t *testing.T) {
	t.Chdir(t.TempDir())
	none := threaded + "require \"travel\" {\n  of     = tail\n  low    = -24\n  high   = 30\n  within = 0.5\n}\n"
	require.NoError(t, os.WriteFile("bars.hcl", []byte(none), 0o644))
	got := fullfree("", "rig", "bars.hcl", "--write")
	assert.Equal(t, exitShort, got.status)
	assert.Empty(t, got.err)
	assert.Contains(t, got.out, "NO SETTING MEETS ALL")
	assert.Contains(t, oneLine(got.out), "travel: no setting that was searched meets it.")
	kept, err := os.ReadFile("bars.hcl")
	require.NoError(t, err)
	assert.Equal(t, none, string(kept), "nothing was found, so nothing is written")
	var all struct{ Found bool }
	got = fullfree(none, "rig", "-", "--json")
	assert.Equal(t, exitShort, got.status)
	decode(t, got.out, &all)
	assert.False(t, all.Found)
}

// What is written by rig is what compare foretold and what the next check finds.
func TestRigWriteCheckAgree(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("p.hcl", []byte(demoText(t, demo.Unequal)), 0o644))
	var foretold struct {
		Variants []struct{ Check map[string]any }
	}
	decode(t, fullfree("", "compare", "p.hcl", "--with", "right-link.from=-1.5", "--json").out, &foretold)
	require.Equal(t, exitOK, fullfree("", "rig", "p.hcl", "--write").status)
	var now map[string]any
	decode(t, fullfree("", "check", "p.hcl", "--json").out, &now)
	told, found := foretold.Variants[1].Check["requirements"].([]any), now["requirements"].([]any)
	require.Len(t, found, len(told))
	for i := range told {
		a, b := told[i].(map[string]any), found[i].(map[string]any)
		assert.Equal(t, a["holds"], b["holds"], a["kind"])
		assert.InDelta(t, a["worst"], b["worst"], 1e-6, a["kind"])
	}
	assert.True(t, now["holds"].(bool))
	run, err := linkage.Read(&linkage.Source{Name: "p.hcl", Text: readFile(t, "p.hcl")})
	require.NoError(t, err)
	assert.InDelta(t, 12.5, run.Rods[1].End("from").Engaged, 1e-9)
}

func readFile(t *testing.T, name string) []byte {
	t.Helper()
	text, err := os.ReadFile(name)
	require.NoError(t, err)
	return text
}

// A second path has no rod angle, and tells what it needs.
func TestCheckOfASecondPathForMachines(t *testing.T) {
	var all struct {
		Sweeps []struct {
			Rods []struct {
				Name       string
				Length     float64
				Angle      map[string]any
				SecondPath map[string]any `json:"second_path"`
			}
		}
	}
	decode(t, fullfree(demoText(t, demo.Dual), "check", "-", "--json").out, &all)
	for _, rod := range all.Sweeps[0].Rods {
		if rod.Name != "far-right-link" {
			assert.NotNil(t, rod.Angle, rod.Name)
			assert.Nil(t, rod.SecondPath, rod.Name)
			continue
		}
		assert.Nil(t, rod.Angle)
		assert.ElementsMatch(t, []string{"needs_least", "needs_most", "misfit", "at", "best_length"}, keys(rod.SecondPath))
		least, most := rod.SecondPath["needs_least"].(float64), rod.SecondPath["needs_most"].(float64)
		assert.InDelta(t, math.Max(math.Abs(most-rod.Length), math.Abs(least-rod.Length)), rod.SecondPath["misfit"], 1e-12)
	}
	said := oneLine(fullfree(strings.Replace(demoText(t, demo.Dual), "length       = 309.2", "length       = 310.2", 1), "check", "-").out)
	assert.Regexp(t, `far-right-link \(second path\) needs from 306\.\d\d mm to 306\.\d\d mm hole to hole as the run moves and is set to 307\.70 mm: 1\.\d\d mm out, with pedals at [-0-9.]+° \([a-z ]+\)\. That is 0\.\d\d mm more than its play of 0\.30 mm: there the two paths bind against each other\.`, said)
}

// A rod found too long asks for turns in: by its pitch, 1 mm.
func TestDiagnoseTellsTurns(t *testing.T) {
	text := taped(t, `rod "left-link" {`, "rod \"left-link\" {\n  end \"to\" {\n    thread  = \"M6x1\"\n    engaged = 11\n  }\n")
	var all struct {
		Candidates []struct {
			Dimension         string
			Nominal, Estimate float64
			Turns             map[string]float64
		}
	}
	decode(t, fullfree(text, "diagnose", "-", "--json").out, &all)
	seen := false
	for _, c := range all.Candidates {
		if c.Dimension != "left-link.length" {
			assert.Empty(t, c.Turns, c.Dimension)
			continue
		}
		seen = true
		assert.InDelta(t, c.Nominal-c.Estimate, c.Turns["left-link.to"], 1e-12)
		assert.Less(t, c.Turns["left-link.to"], -1.0)
	}
	assert.True(t, seen)
}

// A sketched drawing is compared as the survey adjusts it.
func TestCompareOfASketchedRun(t *testing.T) {
	text := taped(t, `rod "left-link" {`, "rod \"left-link\" {\n  end \"to\" {\n    thread  = \"M6x1\"\n    engaged = 11\n  }\n")
	for _, args := range []string{"compare - --with left-link.to=1", "effect -", "rig -", "rods -"} {
		assert.Contains(t, oneLine(fullfree(text, strings.Fields(args)...).out), "Drawing: adjusted by the survey, 14 measurements", args)
	}
}

// TestCompareSettingsFallShort: a setting that can't be made falls short, though
// everything required holds there.
func TestCompareSettingsFallShort(t *testing.T) {
	with := []string{"link.from=+0.3", "link.from=-5", "link.from=+2"}
	args := []string{"compare", "-"}
	for _, w := range with {
		args = append(args, "--with", w)
	}
	var all struct {
		Variants []struct {
			Check struct {
				Holds *bool `json:"holds"`
			} `json:"check"`
		} `json:"variants"`
	}
	decode(t, fullfree(threaded, append(args, "--json")...).out, &all)
	for i, w := range with {
		holds := all.Variants[i+1].Check.Holds
		require.NotNil(t, holds, w)
		assert.False(t, *holds, w)
	}
	said := oneLine(fullfree(threaded, args...).out)
	assert.Contains(t, said, "FALLS SHORT in the setting of link.from. Nothing required falls short. Which way was not judged: hand, tail. link.from can't be turned 0.3 turns out: it goes by half a turn at a time.")
	assert.Contains(t, said, "FALLS SHORT in the setting of link.from, and in 1 of 1 requirement: together. Which way was not judged: hand, tail. link.from falls short: it bottoms out at 14.00 mm, and 15.50 mm is asked for.")
	assert.Contains(t, said, "FALLS SHORT in the setting of link.from, and in 1 of 1 requirement: together. Which way was not judged: hand, tail. link.from falls short of thread: in the rod 8.50 mm, wanted 9.00 mm, missed by 0.50 mm.")
}

// TestSecondPathBindsUnasked: where nothing requires it, a second path that binds
// is told under the headline.
func TestSecondPathBindsUnasked(t *testing.T) {
	text, err := os.ReadFile("../../demo/pedals-dual.hcl")
	require.NoError(t, err)
	free := strings.Replace(string(text), `require "second-path" { most = 0 }`, "", 1)
	require.NotEqual(t, string(text), free)
	const longer = "far-right-link.length=308.0"
	assert.Contains(t, oneLine(fullfree(free, "check", "-", "--full", "--set", longer).out), "far-right-link (second path) binds below -6.0° of pedals: it is up to 0.49 mm out, with a play of 0.30 mm. REQUIRED")
	assert.NotContains(t, oneLine(fullfree(free, "check", "-", "--full").out), "binds")
	assert.Contains(t, oneLine(fullfree(string(text), "check", "-", "--full", "--set", longer).out), "It binds below -6.0° of pedals.")
}
