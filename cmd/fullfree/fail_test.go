package main

import (
	"encoding/json"
	"regexp"
	"slices"
	"strings"
	"testing"

	"fullfree/demo"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// The report of the demo with two paths, as a builder reads it.
func TestGoldenFail(t *testing.T) {
	golden(t, demo.Dual+"-fail.txt", demo.Dual, exitOK, "fail", "-", "--full")
	golden(t, demo.Dual+"-fail-short.txt", demo.Dual, exitOK, "fail", "-")
}

// failed is what the issue promises of each case, and some more.
type failed struct {
	Schema string       `json:"schema"`
	Cases  []failedCase `json:"cases"`
}

type failedCase struct {
	Element    string   `json:"element"`
	How        string   `json:"how"`
	Loose      []string `json:"loose"`
	Follows    []string `json:"follows"`
	Lost       []string `json:"lost"`
	OverCenter *bool    `json:"over_center"`
	Severity   *int     `json:"severity"`
	Says       string   `json:"says"`
	OnCenter   []struct {
		Beyond bool `json:"beyond"`
	} `json:"on_center"`
}

func failJSON(t *testing.T, text string, args ...string) failed {
	t.Helper()
	got := fullfreeOnce(text, append([]string{"fail", "-", "--json"}, args...)...)
	require.Equal(t, exitOK, got.status, got.err)
	assert.Empty(t, got.err)
	var told failed
	require.NoError(t, json.Unmarshal([]byte(got.out), &told))
	require.Equal(t, "fullfree.fail/1", told.Schema)
	return told
}

// What is told for machines of a lever, a rod and a crank.
func TestFailJSON(t *testing.T) {
	told := failJSON(t, bars)
	var elements []string
	for _, c := range told.Cases {
		elements = append(elements, c.How+" "+c.Element)
		require.NotNil(t, c.OverCenter)
		require.NotNil(t, c.Severity)
		assert.NotEmpty(t, c.Says)
		for _, list := range [][]string{c.Loose, c.Follows, c.Lost} {
			assert.NotNil(t, list, "an empty list, never null")
		}
		switch c.Element {
		case "rod link":
			assert.Equal(t, []string{"crank"}, c.Loose)
			assert.Equal(t, []string{"lever"}, c.Follows)
			assert.Equal(t, []string{"hand", "tail"}, c.Lost)
			assert.False(t, *c.OverCenter)
			assert.Equal(t, 2, *c.Severity)
		case "stop low", "stop high":
			assert.True(t, *c.OverCenter, "farther than the file explores, but that is what comes next")
			assert.Equal(t, 1, *c.Severity)
			assert.Contains(t, c.Says, "beyond what the file explores")
			require.Len(t, c.OnCenter, 1)
			assert.True(t, c.OnCenter[0].Beyond)
			assert.Equal(t, []string{"lever", "crank", "tail"}, c.Follows)
			assert.Empty(t, c.Lost)
		}
	}
	assert.Equal(t, []string{
		"parted stop low", "parted stop high",
		"seized part lever", "seized part crank", "seized rod end link.from", "seized rod end link.to",
		"parted rod link", "parted pivot of lever", "parted pivot of crank",
	}, elements, "worst first, then in the order of the file")
	stopped := failJSON(t, bars, "--set", "high.at=30")
	low := stopped.Cases[slices.IndexFunc(stopped.Cases, func(c failedCase) bool { return c.Element == "stop low" })]
	assert.Contains(t, low.Says, "as filed -24.0")
	assert.Contains(t, low.Says, "to 30.0", "what --set changes is what is judged")
}

// Every demo is told for machines and for people, to the width of a page.
func TestFailDemos(t *testing.T) {
	for _, kind := range allDemos {
		text := demoText(t, kind)
		told := failJSON(t, text)
		assert.True(t, slices.IsSortedFunc(told.Cases, func(a, b failedCase) int {
			return *a.Severity - *b.Severity
		}), kind)
		got := fullfreeOnce(text, "fail", "-", "--full")
		assert.Equal(t, exitOK, got.status)
		for line := range strings.Lines(got.out) {
			assert.LessOrEqual(t, len([]rune(strings.TrimRight(line, "\n"))), 72, line)
		}
		again := fullfree(string(text), "fail", "-", "--full")
		assert.Equal(t, got.out, again.out, "the same file, the same bytes")
	}
}

// What leaves the same is one line, which names every element once, and all fits a screen.
func TestShortFailNamesEveryElement(t *testing.T) {
	for _, kind := range demo.Kinds() {
		text := demoText(t, kind)
		short, full := fullfreeOnce(text, "fail", "-"), fullfreeOnce(text, "fail", "-", "--full")
		assert.Equal(t, exitOK, short.status)
		most := mostShortLines
		if kind == "rotor" {
			most += 5 // more than fifty cases
		}
		assert.LessOrEqual(t, strings.Count(short.out, "\n"), most, kind)
		said := oneLine(short.out)
		cases := regexp.MustCompile(`(?m)^  (\S.*) (parted|seized):$`).FindAllStringSubmatch(full.out, -1)
		require.NotEmpty(t, cases)
		for _, c := range cases {
			what, name := c[1], ""
			if at := strings.LastIndex(what, " "); at >= 0 {
				what, name = what[:at], what[at+1:]
			}
			// Those of a kind stand together under one word: "rods a, b and c".
			kinds := strings.Replace(regexp.QuoteMeta(what), " of", "s? of", 1)
			assert.Regexp(t, kinds+`s? ([^;:]*(, | and ))?`+regexp.QuoteMeta(name)+`(, | and |; | `+c[2]+`: )`, said, kind)
		}
	}
}

// What can't be done is refused with exit status 2 and nothing on standard output.
func TestFailRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		text string
		args []string
		says string
	}{
		"a faulty file":     {strings.Replace(bars, "lever.horn", "lever.hron", 1), nil, "lever.hron"},
		"a loose run":       {strings.Replace(bars, "control", "#control", 1), nil, ""},
		"a setting":         {bars, []string{"--set", "link.width=3"}, "link.width"},
		"a held setting":    {strings.Replace(bars, "  to   = 40\n", "  to   = 40\n  held = [90]\n", 1) + "part \"other\" {\n  pivot = [0, 300]\n}\ncontrol \"second\" {\n  of   = other\n  from = -10\n  to   = 10\n}\n", nil, "held at"},
		"no file of a name": {"", []string{"no-such-file.hcl"}, "one file at a time"},
	} {
		got := fullfree(c.text, append([]string{"fail", "-", "--full"}, c.args...)...)
		assert.Equal(t, exitFailed, got.status, name)
		assert.Empty(t, got.out, name)
		assert.Contains(t, got.err, c.says, name)
	}
}

// Titles and words of the file go into the report as what they are.
func TestFailHostileWords(t *testing.T) {
	text := strings.Replace(bars, `run "Bars"`, `run "Bars %s%n <script>"`, 1)
	text = strings.Replace(text, "  to   = 40\n", "  to   = 40\n  plus  = \"up %d </script>\"\n  minus = \"%s%n\"\n", 1)
	for _, args := range [][]string{{"fail", "-", "--full"}, {"fail", "-", "--json"}} {
		got := fullfree(text, args...)
		require.Equal(t, exitOK, got.status, got.err)
		assert.Contains(t, got.out, "(up %d </script>)")
		assert.Contains(t, got.out, "(%s%n)")
		assert.NotContains(t, got.out, "MISSING")
	}
	got := fullfree(strings.Replace(text, "up %d", "up \x1b[31m", 1), "fail", "-", "--full")
	assert.NotContains(t, got.out+got.err, "\x1b")
}
