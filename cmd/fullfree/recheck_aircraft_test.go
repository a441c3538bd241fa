package main

import (
	"encoding/json"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"fullfree/cmd/internal/calls"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// inDemo is the path of a file of the demo's aircraft.
func inDemo(name string) string { return filepath.Join("..", "..", "demo", "aircraft", name+".hcl") }

// chainIn writes the chain of testdata that is split over three runs, the middle one in
// inches, into a folder of its own, changed as told, and returns its aircraft file.
func chainIn(t *testing.T, change func(files map[string]string)) string {
	t.Helper()
	folder := t.TempDir()
	from := filepath.Join("..", "..", "testdata", "aircraft", "split3")
	files := map[string]string{}
	for _, name := range []string{"aircraft", "front", "middle", "rear"} {
		text, err := os.ReadFile(filepath.Join(from, name+".hcl"))
		require.NoError(t, err)
		files[name] = string(text)
	}
	if change != nil {
		before := maps.Clone(files)
		change(files)
		require.NotEqual(t, before, files)
	}
	for name, text := range files {
		require.NoError(t, os.WriteFile(filepath.Join(folder, name+".hcl"), []byte(text), 0o644))
	}
	return filepath.Join(folder, "aircraft.hcl")
}

// voidIn are the lines of a run that are to be done again.
func (r recheckOf) voidIn(run string) (list []string) {
	for _, l := range r.Redo {
		if l.Run == run {
			list = append(list, l.Line)
		}
	}
	return list
}

// Of an aircraft the schema has besides each version's runs, and of each requirement the
// run, which is null across runs.
func TestRecheckAircraftSchema(t *testing.T) {
	told := recheckJSON(t, exitShort, inDemo("aircraft"), inDemo("changed"), "--disturbed", "cyclic.roll-rod.from")
	assert.Equal(t, []string{"cyclic.roll-rod.from"}, told.Disturbed)
	for i, version := range []versionRead{told.Old, told.New} {
		var names, files, units []string
		for _, r := range version.Runs {
			names, files, units = append(names, r.Name), append(files, r.File), append(units, r.Units)
			text, err := os.ReadFile(filepath.Join("..", "..", "demo", "aircraft", r.File))
			require.NoError(t, err)
			assert.Equal(t, calls.HashOf(text), r.SHA256)
		}
		assert.Equal(t, []string{"pedals", "tail", "cyclic", "collective", "mixing", "head"}, names)
		assert.Equal(t, []string{"mm", "in", "mm", "mm", "mm", "mm"}, units)
		assert.Equal(t, [...]string{"pedals.hcl", "changed-pedals.hcl"}[i], files[0])
	}
	seen := map[string]bool{}
	for _, r := range told.Requirements {
		if r.Run == nil {
			seen["across"] = true
		} else {
			seen[*r.Run] = true
		}
	}
	assert.Len(t, seen, 7)
	require.Len(t, told.Dimensions, 2)
	assert.Equal(t, "pedals.far-right-link.length", told.Dimensions[0].Dimension)
	assert.Equal(t, []any{321.0, 321.5}, []any{told.Dimensions[0].Old, told.Dimensions[0].New})
	assert.Equal(t, "pedals.pedals", told.Ends[0].Control)

	chain := chainIn(t, nil)
	var raw map[string]any
	require.NoError(t, json.Unmarshal([]byte(fullfree("", "recheck", chain, chain, "--json").out), &raw))
	assert.Equal(t, []string{"file", "runs", "sha256"}, slices.Sorted(maps.Keys(raw["old"].(map[string]any))))
	requirement := raw["requirements"].([]any)[0].(map[string]any)
	assert.Equal(t, []string{"kind", "name", "new", "old", "run"}, slices.Sorted(maps.Keys(requirement)))
}

// What a builder wouldn't expect of half a turn at the right seat: the tail's checks are
// void to the blade, while its figures stand and the other controls are left alone.
func TestRecheckAircraftFromHandToBlade(t *testing.T) {
	told := recheckJSON(t, exitShort, inDemo("aircraft"), inDemo("changed"))
	assert.Contains(t, told.voidIn("pedals"), "Every joint: pedals.far-right-link at pedals.rocker.far-lower")
	assert.Contains(t, told.voidIn("tail"), "Free play: tail.pitch")
	assert.NotContains(t, told.redone(), "Fit the rods: tail.boom-rod")
	assert.Contains(t, told.stands(), "Fit the rods: tail.boom-rod")
	for _, run := range []string{"cyclic", "collective", "mixing", "head"} {
		assert.Empty(t, told.voidIn(run), run)
	}
	assert.Contains(t, told.stands(), "Fit the rods: mixing.collar-rod")

	// A change at the blade is void at the hand.
	told = recheckJSON(t, exitShort, chainIn(t, nil), chainIn(t, func(files map[string]string) {
		files["rear"] = strings.Replace(files["rear"], "279", "279.2", 1)
	}))
	assert.Contains(t, told.voidIn("front"), "Full and free, from both seats: front.hand")
	assert.Contains(t, told.voidIn("rear"), "Fit the rods: rear.last-rod")
	assert.NotContains(t, told.redone(), "Fit the rods: middle.boom-rod")
}

// A rod opened and closed in the run in inches: no figure moves, all is void to both sides.
func TestRecheckAircraftOpened(t *testing.T) {
	file := chainIn(t, nil)
	told := recheckJSON(t, exitShort, file, file, "--disturbed", "middle.boom-rod.from")
	assert.Empty(t, told.Dimensions)
	assert.Contains(t, told.voidIn("middle"), "Every joint: middle.boom-rod at middle.boom-crank.in")
	assert.Contains(t, told.voidIn("rear"), "Free play: rear.angle")
	assert.Contains(t, told.voidIn("front"), "Full and free, from both seats: front.hand")
	for _, l := range told.Redo {
		assert.Contains(t, l.Why, "middle.boom-rod.from was opened")
	}
	text := fullfree("", "recheck", file, file, "--disturbed", "middle.boom-rod.from").out
	assert.Contains(t, text, "opened and closed again: middle.boom-rod.from")
	assert.NotContains(t, text, "Nothing reaches")

	// The bolt of a crank on two drawings is one.
	told = recheckJSON(t, exitShort, file, file, "--disturbed", "rear.boom-crank.pivot")
	assert.Contains(t, told.voidIn("middle"), "Every joint: middle.boom-crank, pivot")
}

// The words tell each file by its hash then and now, with the date of the last one; each
// figure in its run's unit. The same files give the same bytes.
func TestRecheckAircraftInWords(t *testing.T) {
	old := chainIn(t, nil)
	now := chainIn(t, func(files map[string]string) {
		files["front"] = strings.Replace(files["front"], "244.3", "244.5", 1)
		files["middle"] = strings.Replace(files["middle"], "rod \"boom-rod\" {", "rod \"boom-rod\" {\n  length = 15.16", 1)
	})
	for name, day := range map[string]int{"aircraft": 3, "front": 4, "middle": 17, "rear": 5} {
		at := time.Date(2026, 4, day, 12, 0, 0, 0, time.Local)
		require.NoError(t, os.Chtimes(filepath.Join(filepath.Dir(old), name+".hcl"), at, at))
	}
	got := fullfree("", "recheck", old, now)
	assert.Equal(t, exitShort, got.status, got.err)
	assert.Equal(t, got, fullfree("", "recheck", old, now))
	said := strings.Join(strings.Fields(got.out), " ")
	assert.Contains(t, said, "of 2026-04-17, SHA-256 begins")
	begins := func(aircraft, name string) string {
		text, err := os.ReadFile(filepath.Join(filepath.Dir(aircraft), name+".hcl"))
		require.NoError(t, err)
		return calls.HashOf(text)[:12]
	}
	assert.Contains(t, said, "front front.hcl mm "+begins(old, "front")+" *"+begins(now, "front"))
	assert.Contains(t, said, "middle middle.hcl in "+begins(old, "middle")+" *"+begins(now, "middle"))
	assert.Contains(t, said, "rear rear.hcl mm "+begins(old, "rear")+" "+begins(now, "rear"))
	assert.Contains(t, said, "front.floor-rod.length: 244.3 mm then, 244.5 mm now")
	assert.Regexp(t, `middle\.boom-rod\.length: 15\.\d+ in then, 15\.16 in now`, said)
	full := fullfree("", "recheck", old, now, "--full").out
	assert.Contains(t, full, "rod-angle (middle)")
	for _, told := range []string{got.out, full} {
		assert.Less(t, strings.Index(told, "RUN FRONT"), strings.Index(told, "RUN MIDDLE"))
		assert.NotRegexp(t, `(?i)\bsafe\b|NaN|Inf\b`, told)
		for line := range strings.Lines(told) {
			assert.LessOrEqual(t, len([]rune(strings.TrimSuffix(line, "\n"))), 80)
		}
	}
}

// A run whose file is called otherwise is the same run; one that came or went is told as
// one, with what it was joined to.
func TestRecheckRunsThatCameOrWent(t *testing.T) {
	file := chainIn(t, nil)
	renamed := chainIn(t, func(files map[string]string) {
		files["aircraft"] = strings.Replace(files["aircraft"], "middle.hcl", "between.hcl", 1)
		files["between"] = files["middle"]
	})
	got := fullfree("", "recheck", file, renamed)
	assert.Equal(t, exitOK, got.status, got.err)
	assert.Contains(t, strings.Join(strings.Fields(got.out), " "), "the files differ in words alone")
	assert.Contains(t, got.out, "Then middle was in middle.hcl.")
	assert.Contains(t, got.out, "*between.hcl")
	edited := chainIn(t, func(files map[string]string) { files["rear"] += "# checked\n" })
	got = fullfree("", "recheck", file, edited)
	assert.Equal(t, exitOK, got.status, got.err)
	assert.Contains(t, got.out, "words alone", "though the aircraft's own file is the same")

	shorter := chainIn(t, func(files map[string]string) {
		before, _, _ := strings.Cut(files["aircraft"], "run \"rear\"")
		files["aircraft"] = before + "same-part \"floor crank\" {\n  of = [front.floor-crank, middle.floor-crank]\n}\n"
	})
	said := strings.Join(strings.Fields(fullfree("", "recheck", file, shorter).out), " ")
	assert.Regexp(t, `the run rear went, with \d+ dimensions`, said)
	assert.Regexp(t, `rear rear\.hcl mm [0-9a-f]{12} \*not there`, said)
	told := recheckJSON(t, exitShort, file, shorter)
	assert.Contains(t, told.Removed, "rear.last-rod.length")
	assert.Contains(t, told.Removed, "rear.boom-crank.same-part")
	assert.Contains(t, told.voidIn("middle"), "Every joint: middle.boom-crank, pivot", "it was one piece with the other's")
	said = strings.Join(strings.Fields(fullfree("", "recheck", shorter, file).out), " ")
	assert.Regexp(t, `the run rear came, with \d+ dimensions`, said)

	// What nothing joined leaves the rest as it was.
	bare := func(files map[string]string) {
		files["aircraft"], _, _ = strings.Cut(files["aircraft"], "require ")
	}
	beside := chainIn(t, func(files map[string]string) {
		bare(files)
		files["aircraft"] += "run \"other\" {\n  file = \"other.hcl\"\n}\n"
		files["other"] = files["front"]
	})
	file = chainIn(t, bare)
	got = fullfree("", "recheck", beside, file)
	assert.Equal(t, exitShort, got.status, got.err)
	assert.Regexp(t, `NOTHING THAT IS LEFT IS VOID: what changed reaches none of the runs; \d+ measured figures may stand`, strings.Join(strings.Fields(got.out), " "))
	assert.Empty(t, recheckJSON(t, exitShort, beside, file).Redo)
}

// What can't be compared is told, all of it at once.
func TestRecheckAircraftFaults(t *testing.T) {
	file := chainIn(t, nil)
	run := filepath.Join(filepath.Dir(file), "front.hcl")
	for _, c := range []struct {
		args []string
		says []string
	}{
		{[]string{file, run}, []string{"aircraft.hcl is the file of an aircraft and ", "front.hcl that of a single run: compare an aircraft with an aircraft"}},
		{[]string{run, file}, []string{"aircraft.hcl is the file of an aircraft and "}},
		{[]string{file, file, "--disturbed", "front.flor-rod.from", "--disturbed", "floor-rod.to", "--disturbed", "rear.surface.pivt"}, []string{
			`front.flor-rod.from: there is no such joint; did you mean "front.floor-rod.from"?`, `did you mean "front.floor-rod.to"?`, `did you mean "rear.surface.pivot"?`}},
		{[]string{file, file, "--set", "frnt.floor-rod.length=3"}, []string{`did you mean "front.floor-rod.length"?`}},
		{[]string{file, filepath.Join("..", "..", "testdata", "aircraft", "eight", "aircraft.hcl")}, []string{"no part, rod or cable of one name"}},
	} {
		got := fullfree("", append([]string{"recheck"}, c.args...)...)
		assert.Equal(t, exitFailed, got.status, c.args)
		assert.Empty(t, got.out)
		for _, says := range c.says {
			assert.Contains(t, got.err, says)
		}
	}
	got := fullfree("", "report", run, "-o", "-", "--since", file)
	assert.Equal(t, exitFailed, got.status)
	assert.Contains(t, got.err, "front.hcl that of a single run")
}

// The book of an aircraft prints what is unmoved as such, on its one sheet, with the hashes
// of the aircraft's file and of the run's, and leaves all else blank.
func TestReportAircraftSince(t *testing.T) {
	old := chainIn(t, nil)
	now := chainIn(t, func(files map[string]string) {
		files["front"] = strings.Replace(files["front"], "244.3", "244.31", 1)
	})
	told := recheckJSON(t, exitShort, old, now, "--disturbed", "rear.last-rod.to")
	require.NotEmpty(t, told.Unmoved)
	got := fullfree("", "report", now, "-o", "-", "--since", old, "--disturbed", "rear.last-rod.to")
	require.Equal(t, exitOK, got.status, got.err)
	assert.Equal(t, len(told.Unmoved), strings.Count(got.out, ">unmoved by the drawing since "+told.Old.SHA256[:12]))
	assert.Contains(t, got.out, ">unmoved by the drawing since "+told.Old.SHA256[:12]+", middle "+told.Old.Runs[1].SHA256[:12]+"<")
	assert.Contains(t, got.out, "of its runs front "+told.Old.Runs[0].SHA256[:12])
	assert.Contains(t, got.out, "Opened and closed again: rear.last-rod.to.")
	assert.NotContains(t, fullfree("", "report", now, "-o", "-").out, "unmoved by the drawing")
	for _, l := range append(told.redone(), told.stands()...) {
		title, _, _ := strings.Cut(l, ": ")
		assert.Contains(t, got.out, strings.ReplaceAll(title, "'", "&#39;"))
	}
}
