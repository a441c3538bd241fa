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
	"time"

	"fullfree/demo"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// pair is the path of a file of testdata/recheck.
func pair(name string) string { return filepath.Join("..", "..", "testdata", "recheck", name+".hcl") }

// recheckOf is what the tests read of recheck --json.
type recheckOf struct {
	Schema     string
	Old, New   versionRead
	Dimensions []struct {
		Dimension string
		Old, New  any
	}
	Added, Removed, Disturbed []string
	Requirements              []struct {
		Kind, Name string
		Run        *string // of an aircraft
		Old, New   *struct {
			Holds *bool
			Worst *float64
		}
	}
	Ends []struct {
		Control, Side string
		Old, New      *struct {
			At    float64
			Cause string
			By    *string
		}
	}
	Redo    []struct{ Run, Line, Why string }
	Unmoved []struct{ Run, Line string }
}

type versionRead struct {
	File, SHA256 string
	Runs         []struct{ Name, File, SHA256, Units string } // of an aircraft
}

func (r recheckOf) redone() (list []string) {
	for _, l := range r.Redo {
		list = append(list, l.Line)
	}
	return list
}

func (r recheckOf) stands() (list []string) {
	for _, l := range r.Unmoved {
		list = append(list, l.Line)
	}
	return list
}

// recheckJSON compares two files, strictly as the schema has it.
func recheckJSON(t *testing.T, status int, args ...string) recheckOf {
	t.Helper()
	got := fullfree("", append(append([]string{"recheck"}, args...), "--json")...)
	require.Equal(t, status, got.status, got.err)
	require.Empty(t, got.err)
	var told recheckOf
	dec := json.NewDecoder(strings.NewReader(got.out))
	dec.DisallowUnknownFields()
	require.NoError(t, dec.Decode(&told))
	assert.Equal(t, "fullfree.recheck/1", told.Schema)
	assert.NotContains(t, got.out, ": null,\n  \"", "a list that is empty is empty")
	return told
}

// Every key of the schema stands there, and no other.
func TestRecheckSchema(t *testing.T) {
	got := fullfree("", "recheck", pair("signed"), pair("beyond"), "--json")
	assert.Equal(t, exitShort, got.status)
	var raw map[string]any
	require.NoError(t, json.Unmarshal([]byte(got.out), &raw))
	keys := func(of any) (list []string) {
		if all, ok := of.([]any); ok {
			require.NotEmpty(t, all)
			of = all[0]
		}
		for key := range of.(map[string]any) {
			list = append(list, key)
		}
		slices.Sort(list)
		return list
	}
	assert.Equal(t, []string{"added", "dimensions", "disturbed", "ends", "new", "old", "redo", "removed", "requirements", "schema", "unmoved"}, keys(raw))
	assert.Equal(t, []string{"file", "sha256"}, keys(raw["old"]), "runs are an aircraft's")
	assert.Equal(t, []string{"dimension", "new", "old"}, keys(raw["dimensions"]))
	assert.Equal(t, []string{"kind", "name", "new", "old"}, keys(raw["requirements"]))
	assert.Equal(t, []string{"holds", "worst"}, keys(raw["requirements"].([]any)[0].(map[string]any)["old"]))
	assert.Equal(t, []string{"control", "new", "old", "side"}, keys(raw["ends"]))
	assert.Equal(t, []string{"at", "by", "cause"}, keys(raw["ends"].([]any)[0].(map[string]any)["new"]))
	assert.Equal(t, []string{"line", "run", "why"}, keys(raw["redo"]))
	assert.Equal(t, []string{"line", "run"}, keys(raw["unmoved"]))
	assert.Equal(t, []any{}, raw["added"])
	assert.Equal(t, []any{}, raw["disturbed"])
}

// A rod longer by a tenth of what its output is allowed leaves the travels of that, and by
// more it doesn't; that of the lever, which nothing joins to it, stands in both.
func TestRecheckATenth(t *testing.T) {
	travel := "Travels, stop to stop: far-reads (plus is out), plus, with lever-travel at neutral"
	lever := "Travels, stop to stop: crank-turns, plus, with grip-travel at neutral"
	told := recheckJSON(t, exitShort, pair("signed"), pair("tenth"))
	assert.Contains(t, told.stands(), travel)
	assert.Contains(t, told.stands(), lever)
	assert.Contains(t, told.redone(), "Full and free, from both seats: grip-travel")
	assert.NotContains(t, told.redone(), "Full and free, from both seats: lever-travel")
	require.Len(t, told.Dimensions, 1)
	assert.Equal(t, "push.length", told.Dimensions[0].Dimension)
	assert.Equal(t, []any{200.0, 200.1}, []any{told.Dimensions[0].Old, told.Dimensions[0].New})
	require.Len(t, told.Requirements, 2)
	assert.InDelta(t, 0, *told.Requirements[0].Old.Worst, 1e-9)
	assert.InDelta(t, 0.1, *told.Requirements[0].New.Worst, 1e-9, "it reads 0.1 mm more at both ends")
	require.Len(t, told.Ends, 4)
	assert.Equal(t, "in", *told.Ends[0].New.By)
	assert.Equal(t, -20.0, told.Ends[0].New.At)
	assert.Nil(t, told.Ends[2].New.By)

	told = recheckJSON(t, exitShort, pair("signed"), pair("beyond"))
	assert.Contains(t, told.redone(), travel)
	assert.Contains(t, told.stands(), lever)
	i := slices.Index(told.redone(), travel)
	assert.Equal(t, "it moves from 20.0 mm to 20.1 mm, by 0.11 mm; of the 1 mm allowed it a tenth may be left", told.Redo[i].Why)
	assert.Equal(t, "Push rod and lever", told.Redo[i].Run)
}

// A rod that was opened and closed again at the same length: no figure moves, and its
// joints, its length and what is void whatever the figures are to be done again.
func TestRecheckOpenedAndClosed(t *testing.T) {
	told := recheckJSON(t, exitShort, pair("signed"), pair("signed"), "--disturbed", "push.from", "--disturbed", "push.from")
	assert.Empty(t, told.Dimensions)
	assert.Equal(t, []string{"push.from"}, told.Disturbed)
	for _, line := range []string{
		"Fit the rods: push", "Every joint: push at grip.eye", "Every joint: push at far.eye", "ALL PINS OUT: Counted out",
		"Breakout and friction, on a spring scale at the grip: grip-travel, plus", "Free play: far-reads",
		"Full and free, from both seats: grip-travel", "Sense, last: confirmed at the blade or surface: Signature",
		"Close up: Temporary hardware replaced, none still fitted", "Independent inspection: Joints: signature, date", "Rigged by, signature",
	} {
		assert.Contains(t, told.redone(), line)
	}
	assert.NotContains(t, told.redone(), "Every joint: link at lever.horn")
	assert.Contains(t, told.stands(), "Fit the rods: link")
	assert.NotContains(t, told.stands(), "Fit the rods: push")
	for _, l := range told.Redo {
		assert.Contains(t, l.Why, "push.from was opened")
	}
	text := fullfree("", "recheck", pair("signed"), pair("signed"), "--disturbed", "push.from").out
	assert.NotContains(t, text, "not known to this comparison")
	assert.Contains(t, text, "opened and closed again: push.from")
}

// Every line that is told is a line of the printed sheet, in its words.
func TestRecheckTellsLinesOfTheSheet(t *testing.T) {
	for _, kind := range append(demo.Kinds(), demo.More()...) {
		folder := t.TempDir()
		file := filepath.Join(folder, kind+".hcl")
		require.NoError(t, os.WriteFile(file, []byte(demoText(t, kind)), 0o644))
		got := fullfree("", "rods", file, "--json")
		if got.status != exitOK {
			continue // a sketch with blanks is no run yet
		}
		var rods struct{ Rods []struct{ Name string } }
		require.NoError(t, json.Unmarshal([]byte(got.out), &rods))
		if len(rods.Rods) == 0 {
			continue
		}
		name := rods.Rods[0].Name
		told := recheckJSON(t, exitShort, file, file, "--disturbed", name+".from")
		assert.Empty(t, told.Dimensions, kind)
		book := fullfree("", "report", file, "-o", "-").out
		for _, l := range append(told.redone(), told.stands()...) {
			title, _, _ := strings.Cut(l, ": ")
			assert.True(t, strings.Contains(book, strings.ReplaceAll(title, "'", "&#39;")), "%s: %s", kind, l)
		}
		seen := map[string]bool{}
		for _, l := range append(told.redone(), told.stands()...) {
			assert.False(t, seen[l], "%s: %s stands twice", kind, l)
			seen[l] = true
		}
	}
}

// Where nothing changed the status is 0, and that joints aren't known stands there.
func TestRecheckNothingChanged(t *testing.T) {
	_, file := folderWith(t, demoText(t, "pedals"))
	got := fullfree("", "recheck", file, file)
	assert.Equal(t, exitOK, got.status)
	assert.Contains(t, got.out, "NOTHING CHANGED that moves the run or is judged of it.")
	assert.Contains(t, got.out, "joints opened and closed again are not known to this comparison")
	assert.NotContains(t, got.out, "TO BE DONE AGAIN")

	folder, words := folderWith(t, demoText(t, "pedals")+"# Looked through on a Sunday.\n")
	got = fullfree("", "recheck", file, words)
	assert.Equal(t, exitOK, got.status)
	assert.Contains(t, strings.Join(strings.Fields(got.out), " "), "the files differ in words alone")
	assert.Empty(t, recheckJSON(t, exitOK, file, words).Redo)
	require.NotEmpty(t, folder)
}

// The signed file is told with its date and hash; the same files give the same bytes.
func TestRecheckTellsTheSignedFile(t *testing.T) {
	folder := t.TempDir()
	old, now := filepath.Join(folder, "signed.hcl"), filepath.Join(folder, "today.hcl")
	text := demoText(t, "pedals")
	require.NoError(t, os.WriteFile(old, []byte(text), 0o644))
	require.NoError(t, os.WriteFile(now, []byte(strings.ReplaceAll(text, "296.7 ", "296.9 ")), 0o644))
	day := time.Date(2026, 4, 17, 12, 0, 0, 0, time.Local)
	require.NoError(t, os.Chtimes(old, day, day))
	got := fullfree("", "recheck", old, now)
	assert.Equal(t, exitShort, got.status)
	begins := fmt.Sprintf("%x", sha256.Sum256([]byte(text)))[:12]
	assert.Contains(t, strings.Join(strings.Fields(got.out), " "), "signed.hcl of 2026-04-17, SHA-256 begins "+begins)
	assert.Contains(t, got.out, "unmoved by the drawing since "+begins+"; whoever signs decides")
	assert.Equal(t, got, fullfree("", "recheck", old, now))
	short, full := got.out, fullfree("", "recheck", old, now, "--full").out
	first, _, _ := strings.Cut(short, "WHAT CHANGED")
	assert.Less(t, strings.Count(first, "\n"), 36, "what is to be done again, on a screen")
	assert.Contains(t, full, "THEN AND NOW")
	for _, told := range []string{short, full} {
		assert.Less(t, strings.Index(told, "TO BE DONE AGAIN"), strings.Index(told, "WHAT CHANGED"))
		assert.NotRegexp(t, `(?i)\bsafe\b|NaN|Inf\b`, told)
		for line := range strings.Lines(told) {
			assert.LessOrEqual(t, len([]rune(strings.TrimSuffix(line, "\n"))), 80)
		}
	}
	assert.Equal(t, exitShort, fullfree(text, "recheck", "-", now).status)
	assert.NotContains(t, fullfree(text, "recheck", "-", now).out, " of 20", "standard input has no date")
}

// What can't be compared is told, all of it at once.
func TestRecheckFaults(t *testing.T) {
	_, faulty := folderWith(t, "run \"x\" {\n")
	for _, c := range []struct {
		args []string
		says []string
	}{
		{[]string{pair("signed")}, []string{"two files are compared", "not 1"}},
		{[]string{"-", "-"}, []string{"read only once"}},
		{[]string{pair("signed"), "none.hcl"}, []string{"can't read none.hcl: there is no such file"}},
		{[]string{"nothing.hcl", "none.hcl"}, []string{"can't read nothing.hcl", "can't read none.hcl"}},
		{[]string{faulty, pair("signed")}, []string{"bars.hcl:"}},
		{[]string{pair("signed"), "../../demo/sticks.hcl"}, []string{"no part, rod or cable of one name"}},
		{[]string{pair("signed"), pair("tenth"), "--disturbed", "push.form", "--disturbed", "lever.pivott"}, []string{`push.form: there is no such joint; did you mean "push.from"?`, `did you mean "lever.pivot"?`}},
		{[]string{pair("signed"), pair("tenth"), "--set", "push.lenght=3"}, []string{`did you mean "push.length"?`}},
	} {
		got := fullfree("", append([]string{"recheck"}, c.args...)...)
		assert.Equal(t, exitFailed, got.status, c.args)
		assert.Empty(t, got.out)
		for _, says := range c.says {
			assert.Contains(t, got.err, says)
		}
	}
}

// What was renamed, what follows, and another unit are told as they are.
func TestRecheckPairs(t *testing.T) {
	told := recheckJSON(t, exitShort, pair("signed"), pair("renamed"))
	assert.Equal(t, []string{"push-rod.from", "push-rod.to", "push-rod.length"}, told.Added)
	assert.Equal(t, []string{"push.from", "push.to", "push.length"}, told.Removed)
	assert.Empty(t, told.Dimensions)

	told = recheckJSON(t, exitShort, pair("signed"), pair("follows"))
	require.Len(t, told.Dimensions, 2)
	assert.Equal(t, "link.length", told.Dimensions[1].Dimension)
	assert.Equal(t, 203.0, told.Dimensions[1].New)

	inches := fullfree("", "recheck", pair("signed"), pair("inches")).out
	assert.Contains(t, inches, "Then it was in millimeters, now it is in inches")
	assert.Contains(t, inches, "run.units: mm then, in now")

	// So is a run of another name, as far as names agree.
	text, err := os.ReadFile(pair("signed"))
	require.NoError(t, err)
	_, other := folderWith(t, strings.Replace(string(text), "Push rod and lever", "Another run", 1))
	got := fullfree("", "recheck", pair("signed"), other)
	assert.Equal(t, exitOK, got.status, "a title is words")
	assert.Contains(t, got.out, `Then it was called "Push rod and lever".`)

	// What --set would change is told before it is made.
	told = recheckJSON(t, exitShort, pair("signed"), pair("signed"), "--set", "push.length=200.11")
	assert.Len(t, told.Dimensions, 1)
}

// Tension is void for the whole control, a rotor's track with what sets its pitch.
func TestRecheckTensionAndTrack(t *testing.T) {
	file := filepath.Join("..", "..", "demo", "pedals-cable.hcl")
	told := recheckJSON(t, exitShort, file, file, "--disturbed", "pitch-link.to")
	for _, line := range []string{"Cables, all pins out: tail-left", "Draw the cables up, and lock them: tail-right, turnbuckle", "After a change of pitch: track: Track"} {
		assert.Contains(t, told.redone(), line)
	}
	told = recheckJSON(t, exitShort, file, file, "--disturbed", "tail-left.from")
	assert.NotContains(t, told.redone(), "After a change of pitch: track: Track")
	assert.Contains(t, told.redone(), "Fit the cables, slack: tail-left")
	assert.NotContains(t, told.redone(), "Fit the cables, slack: tail-right")
	file = filepath.Join("..", "..", "demo", "mixer.hcl")
	assert.Contains(t, recheckJSON(t, exitShort, file, file, "--disturbed", "cyclic-link.to").redone(), "After a change of pitch: track: Track")
}

// The book prints what is unmoved as such, with the hash of the signed file, and leaves
// all else blank.
func TestReportSince(t *testing.T) {
	got := fullfree("", "report", pair("beyond"), "-o", "-", "--since", pair("signed"), "--disturbed", "lever.pivot")
	require.Equal(t, exitOK, got.status, got.err)
	text, err := os.ReadFile(pair("signed"))
	require.NoError(t, err)
	begins := fmt.Sprintf("%x", sha256.Sum256(text))[:12]
	told := recheckJSON(t, exitShort, pair("signed"), pair("beyond"), "--disturbed", "lever.pivot")
	assert.Equal(t, len(told.Unmoved), strings.Count(got.out, ">unmoved by the drawing since "+begins+"<"))
	assert.Contains(t, got.out, "whoever signs decides")
	assert.Contains(t, got.out, "push.length: 200 mm then, 200.11 mm now")
	assert.Contains(t, got.out, "Opened and closed again: lever.pivot.")
	assert.NotContains(t, fullfree("", "report", pair("beyond"), "-o", "-").out, "unmoved by the drawing")
	assert.Contains(t, fullfree("", "report", pair("signed"), "-o", "-", "--since", pair("signed")).out, "are not known to this comparison")

	for _, c := range []struct {
		args []string
		says string
	}{
		{[]string{pair("beyond"), "-o", "-", "--disturbed", "lever.pivot"}, "--disturbed goes with --since OLD"},
		{[]string{pair("beyond"), "-o", "-", "--since", ""}, "--since wants the file that was signed"},
		{[]string{pair("beyond"), pair("signed"), "-o", "-", "--since", pair("signed")}, "--since goes with one file, not 2"},
		{[]string{pair("beyond"), "-o", "-", "--since", "none.hcl"}, "can't read none.hcl"},
		{[]string{pair("beyond"), "-o", "-", "--since", pair("signed"), "--disturbed", "lever.pivt"}, `did you mean "lever.pivot"?`},
		{[]string{"-", "-o", "-", "--since", "-"}, "only once"},
	} {
		got := fullfree("", append([]string{"report"}, c.args...)...)
		assert.Equal(t, exitFailed, got.status, c.args)
		assert.Contains(t, got.err, c.says)
		assert.Empty(t, got.out)
	}
}

// A book is never written over the file that it is compared with.
func TestReportSinceKeepsTheSignedFile(t *testing.T) {
	folder, file := folderWith(t, demoText(t, "pedals"))
	signed := filepath.Join(folder, "signed")
	require.NoError(t, os.WriteFile(signed, []byte(demoText(t, "pedals")), 0o644))
	got := fullfree("", "report", file, "-o", signed, "--since", signed)
	assert.Equal(t, exitFailed, got.status)
	text, err := os.ReadFile(signed)
	require.NoError(t, err)
	assert.Equal(t, demoText(t, "pedals"), string(text))
}
