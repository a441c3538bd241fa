package main

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"fullfree/cmd/internal/calls"
	"fullfree/demo"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// bars is a run that a test can reckon with: a lever drives a crank over a
// parallelogram, so that the two turn as one.
const bars = `run "Bars" {
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
  from = lever.horn
  to   = crank.horn
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
`

const barsHold = bars + `
require "together" {
  of     = [lever, crank]
  within = 0.5
}
`

const barsFallShort = bars + `
require "travel" {
  of     = tail
  low    = -24
  high   = 30
  within = 0.5
}
`

// outcome is what a command did.
type outcome struct {
	status   int
	out, err string
}

// fullfree runs a command as the shell would.
func fullfree(stdin string, args ...string) outcome {
	var out, err bytes.Buffer
	status := run(args, strings.NewReader(stdin), &out, &err)
	return outcome{status, out.String(), err.String()}
}

// toldOnce are the outcomes of fullfreeOnce, by what was typed and given.
var toldOnce = map[string]outcome{}

// fullfreeOnce is fullfree for commands that read standard input alone and write no file:
// several tests look at what is told of the same demos.
func fullfreeOnce(stdin string, args ...string) outcome {
	key := strings.Join(append(args[:len(args):len(args)], stdin), "\x00")
	told, known := toldOnce[key]
	if !known {
		told = fullfree(stdin, args...)
		toldOnce[key] = told
	}
	return told
}

// demoText is the text of a demo.
func demoText(t testing.TB, kind string) string {
	t.Helper()
	text, ok := demo.File(kind)
	require.True(t, ok, kind)
	return string(text)
}

func TestWithoutArguments(t *testing.T) {
	got := fullfree("")
	assert.Equal(t, outcome{exitFailed, "", helpOverview}, got)
}

func TestHelpFitsATerminal(t *testing.T) {
	for _, name := range append(commandNames(), "help") {
		for _, line := range strings.Split(fullfree("", "help", name).out, "\n") {
			assert.LessOrEqual(t, len(line), 80, line)
		}
	}
	for _, line := range strings.Split(overview(), "\n") {
		assert.LessOrEqual(t, len(line), 80, line)
	}
}

func TestWrongUsage(t *testing.T) {
	for _, c := range []struct {
		args string
		want string
	}{
		{"chek x.hcl", `fullfree: there is no command "chek"; did you mean "check"?`},
		{"frobnicate", `fullfree: there is no command "frobnicate"; there is check, sweep, draw, report, compare, recheck, effect, rig, find, rods, show, fail, tolerance, serve, survey, diagnose, new, completion, version, help`},
		{"--json check x.hcl", `fullfree: the command comes first, then its flags: fullfree check FILE --json`},
		{"help chek", `fullfree help: there is no command or topic "chek"; did you mean "check"?`},
		{"help check sweep", `fullfree help: one command or topic at a time`},
		{"version now", `fullfree version: nothing follows it, but there is "now"`},
		{"check", `fullfree check: a file is missing; "fullfree new pedals > pedals.hcl" gives one to begin with`},
		{"check a.hcl b.hcl --json", `fullfree check: --json and --set go with one file, not with 2`},
		{"check a.hcl b.hcl --set link.length=200", `fullfree check: --json and --set go with one file, not with 2`},
		{"effect a.hcl b.hcl", `fullfree effect: one file at a time, not 2 (a.hcl and b.hcl)`},
		{"check --jsn a.hcl", `fullfree check: there is no flag --jsn; did you mean "--json"?`},
		{"check -1", `fullfree check: there is no flag -1; a file name that begins with "-" is written "./-1"`},
		{"check - --set", `fullfree check: --set needs a value: --set DIMENSION=VALUE`},
		{"check - --set link.length", `fullfree check: --set link.length is no DIMENSION=VALUE, such as --set left-link.length=184.5`},
		{"sweep - --steps 0", `fullfree sweep: --steps 0: a whole number from 1 to 100000 is wanted`},
		{"sweep - --steps 100001", `fullfree sweep: --steps 100001: a whole number from 1 to 100000 is wanted`},
		{"sweep - --steps 0x10", `fullfree sweep: --steps 0x10: a whole number from 1 to 100000 is wanted`},
		{"sweep - --steps 2.5", `fullfree sweep: --steps 2.5: a whole number from 1 to 100000 is wanted`},
		{"sweep - --csv --json", `fullfree sweep: --csv and --json at once: choose one`},
		{"draw -", `fullfree draw: tell where to draw: -o OUT.pdf, or OUT.svg`},
		{"draw - -o - --view zz", `fullfree draw: --view zz: there is xy, xz, yz`},
		{"draw - -o - --view=", `fullfree draw: --view : there is xy, xz, yz`},
		{"sweep - --control hnad", `fullfree sweep: there is no control "hnad"; did you mean "hand"?`},
		{"sweep - --held hand=3", `fullfree sweep: hand is the control that moves; --held is for the others`},
		{"sweep - --held hand", `fullfree sweep: --held hand is no NAME=AT, such as --held collective=-8`},
		{"sweep - --held hand=NaN", `fullfree sweep: --held hand: "NaN" is no number`},
		{"sweep - --held hand=0x1p3", `fullfree sweep: --held hand: "0x1p3" is no number`},
		{"sweep - --held foot=3", `fullfree sweep: there is no control "foot"; there is hand`},
		{"new thottle", `fullfree new: there is no kind "thottle"; did you mean "throttle"?`},
		{"new pedals sticks", `fullfree new: one kind at a time, not 2`},
		{"check nowhere.hcl", `fullfree check: can't read nowhere.hcl: there is no such file`},
		{"check mixer", `fullfree check: can't read mixer: there is no such file; "fullfree new mixer > mixer.hcl" writes it`},
		{"check .", `fullfree check: can't read .: it is a folder`},
		{"check \x1b[2J", `fullfree check: can't read ?[2J: there is no such file`},
	} {
		t.Run(c.args, func(t *testing.T) {
			got := fullfree(bars, strings.Fields(c.args)...)
			assert.Equal(t, exitFailed, got.status)
			assert.Empty(t, got.out, "nothing on standard output")
			first, _, _ := strings.Cut(got.err, "\n")
			assert.Equal(t, c.want, first)
		})
	}
}

type brokenWriter struct{}

func (brokenWriter) Write([]byte) (int, error) { return 0, errors.New("no room") }

func TestStandardOutputThatCantBeWritten(t *testing.T) {
	for _, args := range []string{"check -", "check - --json", "sweep -", "draw - -o -", "new pedals", "version", "help", "help check"} {
		var err bytes.Buffer
		status := run(strings.Fields(args), strings.NewReader(barsHold), brokenWriter{}, &err)
		assert.Equal(t, exitFailed, status, args)
		assert.Contains(t, err.String(), "can't write to standard output: no room\n", args)
	}
}

func TestVersion(t *testing.T) {
	for _, word := range []string{"version", "--version"} {
		got := fullfree("", word)
		assert.Equal(t, exitOK, got.status)
		assert.Empty(t, got.err)
		assert.Regexp(t, `^fullfree \d+\.\d+\.\d+ .*\n$`, got.out)
		assert.Equal(t, 1, strings.Count(got.out, "\n"))
	}
}

func TestDidYouMean(t *testing.T) {
	known := []string{"pedals", "pedals-swivel", "sticks"}
	assert.Equal(t, `; did you mean "pedals"?`, calls.DidYouMean("pedls", known))
	assert.Equal(t, `; did you mean "sticks"?`, calls.DidYouMean("stikcs", known))
	assert.Equal(t, "; there is pedals, pedals-swivel, sticks", calls.DidYouMean("throttle", known))
	assert.Equal(t, `; there is pedals, pedals-swivel, sticks`, calls.DidYouMean(strings.Repeat("p", 1<<20), known))
	assert.Empty(t, calls.DidYouMean("x", nil))
}
