package linkage

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A nil *Faults must not become an error that is not nil.
func TestErrOfNoFaults(t *testing.T) {
	assert.True(t, (&Faults{}).Err() == nil)
}

func TestFaultsAreSortedAndToldOnce(t *testing.T) {
	f := &Faults{Source: &Source{Name: "a.hcl", Text: []byte("one\ntwo\nthree\n")}}
	f.Add(Span{3, 1, 8, 13, ""}, "third")
	f.Add(Span{1, 2, 1, 2, ""}, "second")
	f.Add(Span{3, 1, 8, 13, ""}, "third")
	f.Add(Span{1, 1, 0, 3, ""}, "first %d", 1)
	f.Add(Span{}, "without a place")
	require.Error(t, f.Err())
	assert.Equal(t, `a.hcl: without a place
a.hcl:1,1: first 1
  1 | one
    | ^^^
a.hcl:1,2: second
  1 | one
    |  ^
a.hcl:3,1: third
  3 | three
    | ^^^^^`, f.Error())
}

func TestManyFaultsAreCounted(t *testing.T) {
	f := &Faults{Source: &Source{Name: "a.hcl"}}
	for range maxFaults + 7 {
		f.Add(Span{}, "x%d", f.found())
	}
	require.Error(t, f.Err())
	assert.Len(t, f.List, maxFaults)
	assert.True(t, strings.HasSuffix(f.Error(), "a.hcl: and 7 more"))
}

// Whatever stands in a file or its name, only characters that can be seen, and
// line ends of our own, reach a terminal.
func TestUnprintable(t *testing.T) {
	f := &Faults{Source: &Source{Name: "a\x1b[31m\n\u202e.hcl", Text: []byte("x\x07\u200d\xffy\u00a0é\tz")}}
	f.Add(Span{1, 1, 0, 1, ""}, "name \x1b]0;x\x07 \u2066")
	assert.Equal(t, "a?[31m??.hcl:1,1: name ?]0;x? ?\n  1 | x???y?é    z\n    | ^", f.Error())
}

func TestExcerpt(t *testing.T) {
	long := strings.Repeat("ab ", 40) + "HERE" + strings.Repeat(" yz", 40)
	for name, c := range map[string]struct {
		text string
		at   Span
		want string
	}{
		"indented":       {"\n    ab cd\n", Span{2, 8, 8, 10, ""}, "  2 | ab cd\n    |    ^^\n"},
		"tabs":           {"\tab\tcd", Span{1, 5, 4, 6, ""}, "  1 | ab    cd\n    |       ^^\n"},
		"no width":       {"abc", Span{1, 2, 1, 1, ""}, "  1 | abc\n    |  ^\n"},
		"end of line":    {"abc\ndef", Span{1, 4, 3, 4, ""}, "  1 | abc\n    |    ^\n"},
		"over lines":     {"abc\ndef", Span{1, 2, 1, 6, ""}, "  1 | abc\n    |  ^^\n"},
		"carriage":       {"abc\r\ndef", Span{1, 4, 3, 5, ""}, "  1 | abc\n    |    ^\n"},
		"mark":           {"\xef\xbb\xbfabc", Span{1, 2, 4, 5, ""}, "  1 | abc\n    |  ^\n"},
		"blank line":     {"\n   \n", Span{2, 2, 2, 3, ""}, ""},
		"no place":       {"abc", Span{}, ""},
		"beyond":         {"abc", Span{9, 1, 99, 100, ""}, ""},
		"wide":           {"äöü x", Span{1, 5, 7, 8, ""}, "  1 | äöü x\n    |     ^\n"},
		"combining":      {"e\u0301e x", Span{1, 4, 5, 6, ""}, "  1 | e\u0301e x\n    |    ^\n"},
		"long, in front": {"HERE" + strings.Repeat(" yz", 40), Span{1, 1, 0, 4, ""}, "  1 | HERE yz yz yz yz yz yz yz yz yz yz yz yz yz yz yz yz yz ...\n    | ^^^^\n"},
		"long":           {long, Span{1, 121, 120, 124, ""}, "  1 | ...b ab ab ab ab ab ab HERE yz yz yz yz yz yz yz yz yz yz y...\n    |                        ^^^^\n"},
		"long, at end":   {strings.Repeat("ab ", 40) + "HERE", Span{1, 121, 120, 124, ""}, "  1 | ... ab ab ab ab ab ab ab ab ab ab ab ab ab ab ab ab ab HERE\n    |                                                        ^^^^\n"},
	} {
		t.Run(name, func(t *testing.T) {
			assert.Equal(t, c.want, excerpt(&Source{Text: []byte(c.text)}, c.at))
		})
	}
	huge := strings.Repeat("é", 500_000)
	assert.Less(t, len(excerpt(&Source{Text: []byte(huge)}, Span{1, 250_001, 500_000, 1_000_000, ""})), 400)
}

// Everything in a run knows where it stands in the file.
func TestSpans(t *testing.T) {
	run := read(t, bench)
	text := func(s Span) string {
		require.Equal(t, 1+strings.Count(bench[:s.Start], "\n"), s.Line)
		require.Equal(t, s.Start-strings.LastIndexByte(bench[:s.Start], '\n'), s.Column)
		return bench[s.Start:s.End]
	}
	lever, link := run.Parts[1], run.Rods[0]
	assert.Equal(t, `part "lever"`, text(lever.Span))
	assert.Equal(t, "foot", text(lever.Points[0].Span))
	assert.Equal(t, `edge "heel"`, text(lever.Features[0].Span))
	assert.Equal(t, "crank.tip", text(run.Parts[3].Carrier.Span))
	assert.Equal(t, `rod "link"`, text(link.Span))
	assert.Equal(t, "lever.horn", text(link.From.Span))
	assert.Equal(t, "7 + 1/4", text(link.LengthSpan))
	assert.Equal(t, `rod "push"`, text(run.Rods[1].LengthSpan))
	assert.Equal(t, `control "hand"`, text(run.Controls[0].Span))
	assert.Equal(t, `control "hand"`, text(run.Controls[0].HeldSpan))
	assert.Equal(t, "-35", text(run.Controls[0].FromSpan))
	assert.Equal(t, `output "valve"`, text(run.Outputs[0].Span))
	assert.Equal(t, "lever", text(run.Stops[0].OfSpan))
	assert.Equal(t, `stop "heel-stop"`, text(run.Stops[2].AtSpan))
	assert.Equal(t, "lever.heel", text(run.Stops[2].Touch[0].Span))
	assert.Equal(t, `require "sense" "right way round"`, text(run.Requirements[0].Span))
	assert.Equal(t, "slide", text(run.Requirements[3].ControlSpan))
}

func TestNearest(t *testing.T) {
	names := []string{"left-pedal", "right-pedal", "rocker", "horn", "x1", "rod"}
	for given, want := range map[string]string{
		"left-pedel":              "left-pedal",
		"leftpedal":               "left-pedal",
		"left_pedal":              "left-pedal",
		"rihgt-pedla":             "right-pedal",
		"rokcer":                  "rocker",
		"hron":                    "horn",
		"rocker":                  "",
		"x2":                      "x1",
		"zz":                      "",
		"throttle":                "",
		"":                        "",
		strings.Repeat("a", 1000): "",
	} {
		assert.Equal(t, want, Nearest(given, names), given)
	}
}
