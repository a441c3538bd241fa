package render

import (
	"strings"
	"testing"

	"fullfree/linkage"
	"fullfree/render/internal/sample"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What a control without held leaves unlooked at is told as not checked.
func TestReportTellsWhatHeldLeavesOut(t *testing.T) {
	text := sample.DemoText(t, "mixer")
	assert.NotContains(t, reported(t, sample.Checked(t, "mixer.hcl", text)), "anywhere but at neutral")
	var kept []string
	for _, line := range strings.Split(text, "\n") {
		if !strings.HasPrefix(strings.TrimSpace(line), "held") || strings.Contains(text[:strings.Index(text, line)], "control \"cyclic\"") {
			kept = append(kept, line)
		}
	}
	got := reported(t, sample.Checked(t, "mixer.hcl", strings.Join(kept, "\n")))
	assert.Contains(t, got, "  Not checked: cyclic with collective anywhere but at neutral (give\n    collective held = [...]).\n")
	assert.NotContains(t, got, "collective with cyclic anywhere")
}

func TestReportTellsWhatItWasMadeFrom(t *testing.T) {
	var b strings.Builder
	opts := ReportOptions{Hash: strings.Repeat("0a1b", 16), Version: "1.2.3", Redrawn: []Redrawn{{Rod: "link", Filed: 59.328125, Now: 81.3125, Unit: linkage.Inches}}}
	r := sample.Levers()
	r.Run.Units = linkage.Inches
	require.NoError(t, Report(&b, "levers.hcl", r, opts))
	assert.True(t, strings.HasSuffix(b.String(), "\n  File, SHA-256 begins 0a1b0a1b0a1b; fullfree 1.2.3.\n"), b.String())
	assert.Equal(t, "The rod link is redrawn by --set: 59.328 in (59 21/64) became 81.312 in", strings.Split(b.String(), "\n")[2])
	assert.Equal(t, "  (81 5/16).", strings.Split(b.String(), "\n")[3])
}

func TestTitlesTellRequirementsApart(t *testing.T) {
	r := sample.Levers()
	lever, crank := linkage.Subject{Part: r.Run.Parts[0]}, linkage.Subject{Part: r.Run.Parts[1]}
	hand := r.Run.Controls[0]
	for _, req := range []linkage.Requirement{
		{Kind: linkage.Sense, Of: []linkage.Subject{{Control: hand}, lever}},
		{Kind: linkage.Sense, Of: []linkage.Subject{lever, crank}},
		{Kind: linkage.Sense, Name: "named"},
		{Kind: linkage.Steady, Of: []linkage.Subject{lever}},
		{Kind: linkage.OverCenter}, {Kind: linkage.OverCenter, Control: hand},
		{Kind: linkage.Order, First: r.Run.Stops[0], Then: r.Run.Stops[1]}, {Kind: linkage.Order, First: r.Run.Stops[1], Then: r.Run.Stops[2]},
		{Kind: linkage.Clearance, Between: [2]linkage.FeatureRef{{Rod: r.Run.Rods[0]}, {Rod: r.Run.Rods[0]}}}, {Kind: linkage.Clearance, Between: [2]linkage.FeatureRef{{Rod: r.Run.Rods[0]}, {Rod: r.Run.Rods[0]}}},
	} {
		r.Requirements = append(r.Requirements, solve.Judgement{Requirement: &req, Verdict: solve.FallsShort})
	}
	var titles []string
	for i := range r.Requirements {
		titles = append(titles, RequirementTitle(r, r.Requirements[i].Requirement))
	}
	assert.Equal(t, []string{"sense of hand and lever", "sense of lever and crank", `sense "named"`, "steady", "over-center", "over-center under hand",
		"order of aft and bolt", "order of bolt and far", "clearance of link and link", "clearance of link and link"}, titles)
	assert.Contains(t, Headline(r), "sense of hand and lever, sense of lever and crank, ")
}

func TestReportTellsWhereARatioTurnsRound(t *testing.T) {
	got := reported(t, sample.Checked(t, "chain.hcl", sample.DemoText(t, "chain")))
	assert.Contains(t, got, "  rod-in-hole: plus is up, minus is down; moves -0.0150 in a degree at\n    neutral, -0.0150 to 0.0156 over the travel (ratio); it halts and\n    reverses at 14.7° (lever up)\n")
	assert.Contains(t, got, "0.0351\n    to 0.0378 over the travel (ratio)\n", "three figures")
	got = reported(t, sample.Checked(t, "sticks.hcl", sample.DemoText(t, "sticks")))
	assert.Contains(t, got, "hardly moves at neutral,\n    -0.0225 to 0.0262 degrees a degree over the travel (ratio); it halts\n    and reverses at neutral\n")
}

// With several controls the sentence tells how to ask it of one.
func TestSaysOverCenterOfOneControl(t *testing.T) {
	r := sample.Levers()
	r.Sweeps[0].Critical[0].Kind = solve.DeadCenter
	short := solve.Judgement{Verdict: solve.FallsShort, Worst: sample.Is(31.2 - 24.04), At: sample.Is(31.2), Limit: 9, Unit: "deg", End: "high"}
	const asked = " It is asked of every control: with control = NAME it is asked of that one alone."
	assert.NotContains(t, judged(r, linkage.Requirement{Kind: linkage.OverCenter, Least: 9}, short), asked)
	r.Run.Controls = append(r.Run.Controls, &linkage.Control{Name: "other"})
	assert.Contains(t, judged(r, linkage.Requirement{Kind: linkage.OverCenter, Least: 9}, short), asked)
	assert.NotContains(t, judged(r, linkage.Requirement{Kind: linkage.OverCenter, Least: 9, Control: r.Run.Controls[0]}, short), asked)
}

// Words about opening and closing stand only where the file's words are such.
func TestMeaningUsesTheFilesWords(t *testing.T) {
	r := sample.Levers()
	s := r.Sweeps[0]
	c := s.Critical[0]
	for _, word := range []struct{ plus, minus, toggle, dead string }{
		{"open", "closed", "thrown past that point, a pull the closing way opens it.", "moving on (open) drives it back: a pull the closing way opens it."},
		{"shut", "", "thrown past that point, a pull the opening way closes it.", "moving on (shut) drives it back: a pull the opening way closes it."},
		{"flaps down", "flaps up", "thrown past that point, a pull back (flaps up) drives it further on.", "moving on (flaps down) drives it back."},
		{"", "", "thrown past that point, a pull back drives it further on.", "past this point, moving on drives it back."},
	} {
		s.Control.Plus, s.Control.Minus = word.plus, word.minus
		c.Kind = solve.Toggle
		assert.Contains(t, meaning(s, c), word.toggle)
		c.Kind = solve.DeadCenter
		assert.Contains(t, meaning(s, c), word.dead)
	}
}

// Sense tells what was compared: turns in the drawing where the axes agree.
func TestSaysWhatSenseCompares(t *testing.T) {
	r := sample.Levers()
	say := func() string {
		return judged(r, linkage.Requirement{Kind: linkage.Sense, Of: parts(r)}, solve.Judgement{Verdict: solve.Holds, Worst: sample.Is(1), Unit: "deg/deg"})
	}
	assert.Contains(t, say(), "as drawn it turns the opposite way to lever")
	r.Run.Parts[1].Axis.Z = -1
	assert.Contains(t, say(), "it goes minus where lever goes plus", "plus of the crank is clockwise")
}
