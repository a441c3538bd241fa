package page

import (
	"bytes"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/internal/sample"
	"fullfree/render/machine"
	"fullfree/solve"
	"fullfree/solve/rig"
)

// leftOut is a demo with threads, pins and a stop's screw whose file leaves every
// figure out that has a default.
func leftOut(t *testing.T) string {
	t.Helper()
	text := sample.DemoText(t, "pedals-unequal")
	for _, line := range []string{`least   = 9\b.*`, `within = 0\.15.*`, `most    = 15.*`} {
		text = regexp.MustCompile(`(?m)^ *`+line+`\n`).ReplaceAllString(text, "")
	}
	return text + `
stop "pedal-screw" {
  of     = left-pedal
  at     = 40
  adjust = [35, 44]
}
`
}

// givenAll is the same with every figure told, by the file itself.
func givenAll(t *testing.T) string {
	t.Helper()
	text := leftOut(t)
	for old, new := range map[string]string{
		"units   = \"mm\"\n":  "units   = \"mm\"\n  uncertain = 1\n",
		"shank   = 22\n":      "shank   = 22\n    least   = 9\n    most = 15\n    step    = 0.5\n",
		"adjust = [35, 44]\n": "adjust = [35, 44]\n  step = 0.5\n",
		"at = 0\n}":           "at = 0\n  within = 0.1\n}",
		"at     = 0\n}":       "at     = 0\n  within = 0.1\n}",
	} {
		require.Contains(t, text, old)
		text = strings.ReplaceAll(text, old, new)
	}
	return text
}

// everywhere is all that tells figures of a run, by where it stands.
func everywhere(t *testing.T, text string) map[string]string {
	t.Helper()
	run, err := linkage.Read(&linkage.Source{Name: "f", Text: []byte(text)})
	require.NoError(t, err)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	r, err := m.Check()
	require.NoError(t, err)
	require.NoError(t, m.AddBands(r, nil))
	found, err := rig.Search(m, nil)
	require.NoError(t, err)
	written := map[string]*bytes.Buffer{}
	to := func(where string) *bytes.Buffer {
		written[where] = &bytes.Buffer{}
		return written[where]
	}
	require.NoError(t, render.Report(to("check"), "f", r, render.ReportOptions{}))
	require.NoError(t, machine.CheckJSON(to("check --json"), "f", r))
	require.NoError(t, render.RodsReport(to("rods"), "f", run, nil, m.Pinned()))
	require.NoError(t, machine.RodsJSON(to("rods --json"), run, m.Pinned()))
	require.NoError(t, render.EffectReport(to("effect"), "f", r, render.Effects{Rods: effectsOf(t, m, r)}, true))
	require.NoError(t, machine.EffectJSON(to("effect --json"), r, render.Effects{Rods: effectsOf(t, m, r)}))
	require.NoError(t, render.RigReport(to("rig"), "f", run, found, render.RigOptions{Full: true}))
	require.NoError(t, machine.RigJSON(to("rig --json"), "f", found))
	filed := render.Variant{Name: render.AsFiled, Result: r}
	require.NoError(t, render.CompareReport(to("compare"), "f", []render.Variant{filed}))
	require.NoError(t, machine.CompareJSON(to("compare --json"), "f", []render.Variant{filed}))
	require.NoError(t, Book(to("book"), []BookRun{{File: "f", Text: []byte(text), Result: r, Pinned: m.Pinned()}}, func(int, int) {}))
	to("serve").WriteString(strings.Join(workbenchScope(Workbench{File: "f", Filed: filed}), " "))
	sheet := sheetOf(r, sheetOptions{File: "f", Pinned: m.Pinned()})
	for _, step := range sheet.Steps {
		if step.Title == "Fit the rods" {
			to("sheet").WriteString(strings.Join(append(step.Says, step.rows()...), " "))
		}
	}
	said := map[string]string{}
	for where, b := range written {
		said[where] = strings.Join(strings.Fields(b.String()), " ")
	}
	return said
}

// Every figure that stands in for one that the file leaves out is told as what it
// is, wherever it is read: common practice, without a source. One that the file
// gives isn't.
func TestAssumedFiguresSayWhatTheyAre(t *testing.T) {
	const (
		hole  = "1 mm (two standard deviations; common practice, no source"
		least = "1.5 diameters of thread stand in for it (common practice, no source)"
		short = "(1.5 diameters, common practice, no source: the maker's figure rules)"
		step  = "half a turn stands in, after which the bolt goes in again (common practice, no source)"
		screw = "0.5, in the unit of its part, stands in (common practice, no source)"
		pin   = "is off by no more than 0.1 mm (common practice, no source)"
		most  = "taken to go in by 10 turns at most (common practice, no source)"
	)
	unescaped := strings.NewReplacer("&#39;", "'", "&#34;", `"`)
	said := everywhere(t, leftOut(t))
	for where, want := range map[string][]string{
		"check":          {hole, least, step},
		"check --json":   {hole, least, step, screw, pin},
		"compare":        {hole, least, step},
		"compare --json": {hole, least, step, screw, pin},
		"rods":           {least, step, pin},
		"rods --json":    {least, step, pin},
		"effect":         {step},
		"effect --json":  {step},
		"rig":            {least, step, screw, pin, most},
		"rig --json":     {least, step, screw, pin},
		"book":           {hole, least, step, screw, pin, short},
		"serve":          {hole, least, step, screw, pin},
		"sheet":          {short, pin},
	} {
		for _, words := range want {
			assert.Contains(t, unescaped.Replace(said[where]), words, where)
		}
	}
	for where, text := range everywhere(t, givenAll(t)) {
		assert.NotContains(t, text, render.NoSource, where)
	}
}
