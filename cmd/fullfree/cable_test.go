package main

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestCheckAtATemperature(t *testing.T) {
	pedals := demoText(t, "pedals-cable")
	for celsius, want := range map[string]struct {
		status int
		says   string
	}{
		"35":    {exitOK, "AT 35 °C; the cables were drawn up at 15 °C. So tail-left and tail-right are 0.75 mm too short for the airframe."},
		"-15":   {exitShort, "at the least tail-left pulls 43 N, wherever the run stands. 80 N wanted, missed by 37 N."},
		"-25.5": {exitShort, "Both cables of tail hang slack with pedals-control anywhere."},
	} {
		got := fullfree(pedals, "check", "-", "--temperature", celsius)
		assert.Equal(t, want.status, got.status, celsius)
		assert.Contains(t, oneLine(got.out), want.says)
		assert.Empty(t, got.err)
	}
	as, at := fullfree(pedals, "check", "-", "--json"), fullfree(pedals, "check", "-", "--json", "--temperature", "15")
	// But for the temperature, and what is assumed of it.
	same := strings.Replace(at.out, "  \"temperature\": 15,\n", "", 1)
	same = regexp.MustCompile(`(?m)^ *"Assumed of the temperature: .*\n`).ReplaceAllString(same, "")
	assert.Equal(t, as.out, same, "as rigged")
}

func TestCheckAtNoTemperature(t *testing.T) {
	pedals := demoText(t, "pedals-cable")
	for _, c := range []struct{ text, celsius, want string }{
		{pedals, "warm", "fullfree check: --temperature warm is no temperature: degrees Celsius from -60 to 60, such as --temperature 35\n"},
		{pedals, "61", "fullfree check: --temperature 61 is no temperature: degrees Celsius from -60 to 60, such as --temperature 35\n"},
		{pedals, "-61", "fullfree check: --temperature -61 is no temperature: degrees Celsius from -60 to 60, such as --temperature 35\n"},
		{pedals, "NaN", "fullfree check: --temperature NaN is no temperature: degrees Celsius from -60 to 60, such as --temperature 35\n"},
		{pedals, "", "fullfree check: --temperature  is no temperature: degrees Celsius from -60 to 60, such as --temperature 35\n"},
		{demoText(t, "lift-cables"), "35", `: what the temperature does to the conduit cable "lift-up" can't be told: no figures are known of how core and conduit grow together`},
		{bars, "35", ": there is no open cable in this run, so the temperature changes nothing that could be told"},
		{strings.Replace(pedals, "  rigged-at = 15 ", "  #", 1), "35", "without the one at which the cables were drawn up: say rigged-at = 15 (degrees Celsius) in the run"},
	} {
		got := fullfree(c.text, "check", "-", "--temperature", c.celsius)
		assert.Equal(t, exitFailed, got.status, c.want)
		assert.Empty(t, got.out)
		assert.Contains(t, got.err, c.want)
	}
}

func TestCompareTurnsNuts(t *testing.T) {
	lift := demoText(t, "lift-cables")
	got := fullfree(lift, "compare", "-", "--with", "lift-up.conduit-from=+1", "--with", "lift-up.conduit-from=-6,lift-down.conduit-from=+5.5", "--json")
	require.Equal(t, exitOK, got.status, got.err)
	var all struct {
		Variants []struct {
			Turns  map[string]float64
			Cables []struct {
				Name        string
				Core, Drawn float64
				Ends        []struct {
					Side           string
					Engaged, Spare float64
				} `json:"cable_ends"`
			}
			Check struct {
				Holds  *bool
				Sweeps []struct {
					Parts  []struct{ Neutral float64 }
					Cables []struct{ Neutral float64 }
				}
			}
		}
	}
	decode(t, got.out, &all)
	require.Len(t, all.Variants, 3)
	filed, one := all.Variants[0], all.Variants[1]
	assert.Equal(t, map[string]float64{"lift-up.conduit-from": 1}, one.Turns)
	assert.InDelta(t, filed.Cables[0].Core-1, one.Cables[0].Core, 1e-12, "a pitch of core")
	assert.InDelta(t, filed.Cables[0].Drawn-120.0/38, filed.Cables[0].Core, 1e-12, "with no load on it")
	assert.Equal(t, 13.0, one.Cables[0].Ends[0].Engaged)
	assert.Equal(t, 4.0, one.Cables[0].Ends[0].Spare)
	assert.InDelta(t, 0.5, one.Check.Sweeps[0].Parts[1].Neutral, 1e-9, "half of it moves the crosshead")
	assert.InDelta(t, 139, one.Check.Sweeps[0].Cables[1].Neutral, 1e-6, "and half draws both up")
	assert.False(t, *all.Variants[2].Check.Holds)

	got = fullfree(lift, "compare", "-", "--with", "lift-down.conduit-from=+5.5")
	said := oneLine(got.out)
	assert.Contains(t, said, " and engagement. lift-down.conduit-from falls short of thread: in the nuts 8.50 mm, wanted 9.00 mm, missed by 0.50 mm.")
	assert.Regexp(t, `lift-down pulls, at neutral N 120 \*22[45]`, said)
	assert.Contains(t, said, "out is plus, and takes slack up.")
	assert.NotContains(t, said, "witness hole")

	for with, want := range map[string]string{
		"lift-up.conduit-to=1":                           `there is no rod end or conduit end "lift-up.conduit-to"; did you mean "lift-up.conduit-from"?`,
		"lift-up.conduit-from=1,lift-up.conduit-from=2":  "--with tells lift-up.conduit-from twice",
		"lift-up.conduit-from=all":                       `--with lift-up.conduit-from: "all" is no number of turns`,
		"lift-up.conduit-from=1e7":                       "turned so, lift-up would be taken up by 1e+07 mm",
		"lift-up.conduit-from=-40,lift-up.conduit-from=": "is no number of turns",
	} {
		got := fullfree(lift, "compare", "-", "--with", with)
		assert.Equal(t, exitFailed, got.status, with)
		assert.Contains(t, got.err, want)
	}
}

func TestNutsThatGoByHalfTurns(t *testing.T) {
	lift := strings.Replace(demoText(t, "lift-cables"), "    engaged = 14\n", "    engaged = 14\n    step    = 0.5\n", 1)
	said := oneLine(fullfree(lift, "compare", "-", "--with", "lift-up.conduit-from=0.3").out)
	assert.Contains(t, said, "lift-up.conduit-from can't be turned 0.3 turns out: it goes by half a turn at a time.")
	said = oneLine(fullfree(lift, "effect", "-").out)
	assert.Contains(t, said, "crosshead mm lift-up.conduit-from +0.50 +0.50 +0.50 +0.25 mm lift-down.conduit-from -0.50 -0.50 -0.50 - pitch")
}

// One nut a turn in and the other as filed: the turns that center are those that
// undo it. At other arms the tensions that balance differ, and are told.
func TestEffectTellsTheTurnsThatCenter(t *testing.T) {
	lift := demoText(t, "lift-cables")
	got := fullfree(lift, "effect", "-", "--json", "--set", "lift.pretension=101")
	require.Equal(t, exitOK, got.status, got.err)
	var all struct {
		CableEnds []struct {
			Cable, Side  string
			PerTurn      []struct{ Name, Unit string } `json:"per_turn"`
			Low, High    *float64
			Requirements []struct {
				Kind, Unit string
				PerTurn    *float64 `json:"per_turn"`
			}
		} `json:"cable_ends"`
		Pairs []struct {
			Pair, Part string
			Tension    map[string]float64
			Turns      map[string]float64
		}
	}
	decode(t, got.out, &all)
	require.Len(t, all.CableEnds, 2)
	var names []string
	for _, per := range all.CableEnds[0].PerTurn {
		names = append(names, per.Name+" "+per.Unit)
	}
	assert.Equal(t, []string{"lever deg", "crosshead mm", "pitch mm", "lift-up N", "lift-down N"}, names)
	require.Len(t, all.CableEnds[0].Requirements, 7)
	assert.InDelta(t, 19, *all.CableEnds[0].Requirements[2].PerTurn, 1e-6)
	require.Len(t, all.Pairs, 1)
	assert.Equal(t, "lift crosshead", all.Pairs[0].Pair+" "+all.Pairs[0].Part)
	assert.Len(t, all.Pairs[0].Turns, 2)
	assert.InDelta(t, 101, all.Pairs[0].Tension["lift-up"], 1e-9)

	// Of a pair whose lower arm on the lever is shorter nothing changes at neutral:
	// both act along the slide. Move the lower core out of line, and they do.
	out := strings.Replace(lift, "down    = [-34, -24]", "down    = [-74, -24]", 1)
	said := oneLine(fullfree(out, "effect", "-").out)
	assert.Regexp(t, `lift: for crosshead to stand exactly as drawn at neutral, with 11\d N in lift-up and 12\d N in lift-down, their mean the pretension, turn lift-up\.conduit-from 0\.\d+ turns in and lift-down\.conduit-from 0\.\d+ turns out\.`, said)
	assert.Contains(t, said, "WHICH NUT, AND WHICH WAY")

	lone := strings.Replace(lift, "cable \"lift-down\" {\n  from      = crosshead.down\n  to        = lever.fwd\n  conduit   = [mast.down, frame.fwd]\n  stiffness = 38\n  end \"conduit-from\" {\n    thread  = \"M6x1\"\n    engaged = 14\n  }\n}",
		"cable \"lift-down\" {\n  from      = crosshead.down\n  to        = lever.fwd\n  conduit   = [mast.down, frame.fwd]\n  stiffness = 38\n}", 1)
	assert.Contains(t, oneLine(fullfree(lone, "effect", "-").out), "lift: not both of its cables have a nut, so it can't be centered by turning.")
	assert.Contains(t, fullfree(lone, "effect", "-", "--json").out, `"turns": null`)
}

// Every command gets through every demo of cables, without a word amiss.
func TestEveryCommandTakesCables(t *testing.T) {
	workFolder(t)
	for _, kind := range []string{"throttle-cable", "lift-cables", "pedals-cable"} {
		for _, args := range []string{"sweep %s", "sweep %s --json", "draw %s -o out.svg", "rods %s", "rods %s --json"} {
			got := fullfree("", strings.Fields(fmt.Sprintf(args, kind+".hcl"))...)
			assert.Equal(t, exitOK, got.status, "%s %s: %s", kind, args, got.err)
			assert.NotRegexp(t, `NaN|Inf|%!|<nil>`, got.out)
		}
		got := fullfree("", "rig", kind+".hcl")
		assert.Equal(t, exitFailed, got.status)
		assert.Contains(t, got.err, "there is nothing to set")
		assert.Equal(t, kind != "pedals-cable", strings.Contains(got.err, `the nuts of cables are left alone, and "fullfree effect" tells what they do`))
	}
	said := oneLine(fullfree("", "rods", "lift-cables.hcl").out)
	assert.Contains(t, said, "CABLE LIST: 2 cables.")
	assert.Contains(t, said, "lift-up.conduit-from M6x1 mm 14.00 9.00? 5.00")
	got := fullfree("", "compare", "lift-cables.hcl", "--with", "lift-up.conduit-from=2", "--draw", "over.svg")
	assert.Equal(t, exitOK, got.status, got.err)
	adjustable := strings.Replace(demoText(t, "lift-cables"), "  at = -11\n", "  at = -11\n  adjust = [-11.5, -10.5]\n", 1)
	assert.Contains(t, oneLine(fullfree(adjustable, "rig", "-").out), "Cables were left as they are filed")
}
