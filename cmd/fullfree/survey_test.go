package main

import (
	"encoding/json"
	"html"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"fullfree/demo"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// taped is the demo of a run that was taped, with pairs of old and new text
// exchanged.
func taped(t *testing.T, exchange ...string) string {
	t.Helper()
	s := demoText(t, demo.Taped)
	for i := 0; i+1 < len(exchange); i += 2 {
		require.Equal(t, 1, strings.Count(s, exchange[i]), exchange[i])
		s = strings.Replace(s, exchange[i], exchange[i+1], 1)
	}
	return s
}

// without takes the block with a header out of a text.
func without(t *testing.T, text, header string) string {
	t.Helper()
	from := strings.Index(text, header)
	require.GreaterOrEqual(t, from, 0, header)
	to := strings.Index(text[from:], "\n}\n")
	require.Positive(t, to)
	return text[:from] + text[from+to+len("\n}\n"):]
}

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

func TestSurveyTellsTheSlip(t *testing.T) {
	// The diagonal read 10 too long: the others tell by how much.
	slipped := taped(t, "is     = 298\n", "is     = 308\n")
	got := fullfree(slipped, "survey", "-")
	assert.Equal(t, exitOK, got.status)
	assert.Empty(t, got.err)
	lines := strings.Split(got.out, "\n")
	assert.Equal(t, []string{"Pedals, as taped", `MEASURE AGAIN: "diagonal" disagrees with the rest.`}, lines[:2])
	said := regexp.MustCompile(`The distance "diagonal" \(left-pedal.horn to rocker.lower\) disagrees with the rest by (\S+) mm: measure it again before anything else\.`).FindStringSubmatch(oneLine(got.out))
	require.NotNil(t, said, got.out)
	assert.NotContains(t, got.out, "Without it", "it was the only slip")
	twice := strings.Replace(slipped, "is     = 307.5\n", "is     = 317.5\n", 1)
	require.NotEqual(t, slipped, twice)
	assert.Regexp(t, `Without it \d+ of the others disagree still: more than one slipped,`, oneLine(fullfree(twice, "survey", "-").out))
	assert.InDelta(t, 10, number(t, said[1]), 2)

	var s struct {
		Measurements []struct {
			Name     string
			Doubtful bool
		}
	}
	require.NoError(t, json.Unmarshal([]byte(fullfree(slipped, "survey", "-", "--json").out), &s))
	for _, m := range s.Measurements {
		assert.Equal(t, m.Name == "diagonal", m.Doubtful, m.Name)
	}

	// What stands on the survey says so too.
	assert.Contains(t, oneLine(fullfree(slipped, "check", "-").out), `disagrees with the rest by `+said[1]+` mm: measure it again before anything else.`)
	assert.Contains(t, oneLine(strings.Join(svgTexts(fullfree(slipped, "draw", "-", "-o", "-").out), " ")), "measure it again before anything else.")
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, ok := parseNumber(text)
	require.True(t, ok, text)
	return v
}

// svgTexts returns what is written on a sheet, line by line.
func svgTexts(svg string) []string {
	var out []string
	for _, m := range regexp.MustCompile(`<text [^>]*>([^<]*)</text>`).FindAllStringSubmatch(svg, -1) {
		out = append(out, html.UnescapeString(m[1]))
	}
	return out
}

func TestSurveyTellsWhatNothingTies(t *testing.T) {
	text := taped(t)
	for _, name := range []string{"shaft to rocker", "shaft to upper", "left horn to rocker", "right horn to rocker", "left rod", "right rod", "diagonal", "other diagonal"} {
		text = without(t, text, `taped "`+name+`"`)
	}
	text = without(t, text, `gauged "rocker leans"`)
	got := fullfree(text, "survey", "-")
	assert.Equal(t, exitOK, got.status, got.err)
	assert.Contains(t, got.out, "NOT ALL IS TIED: 5 measurements")
	assert.Regexp(t, `Nothing ties rocker\.pivot sideways or up and down: tape it to \S+\.`, oneLine(got.out))
	var s struct {
		Undetermined []string
		Next         string
	}
	require.NoError(t, json.Unmarshal([]byte(fullfree(text, "survey", "-", "--json").out), &s))
	assert.Contains(t, s.Undetermined, "rocker.pivot.y")
	assert.Regexp(t, `^gauge \S+\.\S+ to \S+\.\S+$`, s.Next, "no tape tells how the whole lies")
	assert.Contains(t, oneLine(fullfree(text, "check", "-").out), "Nothing measured ties ")
}

// The keys of the results for machines, whatever their values.
func TestSurveyForMachines(t *testing.T) {
	got := fullfree(taped(t), "survey", "-", "--json")
	require.Equal(t, exitOK, got.status, got.err)
	var all map[string]any
	require.NoError(t, json.Unmarshal([]byte(got.out), &all))
	assert.ElementsMatch(t, []string{"schema", "points", "measurements", "undetermined", "next", "degrees_of_freedom"}, keys(all))
	assert.Equal(t, "fullfree.survey/1", all["schema"])
	assert.EqualValues(t, 4, all["degrees_of_freedom"])
	assert.Equal(t, []any{}, all["undetermined"])
	point := all["points"].([]any)[1].(map[string]any)
	assert.ElementsMatch(t, []string{"name", "x", "y", "z", "sx", "sy", "sz"}, keys(point))
	assert.Nil(t, point["sz"], "a plane run")
	assert.Equal(t, 30.0, point["z"])
	m := all["measurements"].([]any)[0].(map[string]any)
	assert.ElementsMatch(t, []string{"name", "is", "adjusted", "residual", "misclosure", "standardized", "doubtful"}, keys(m))
	assert.Nil(t, m["misclosure"], "nothing checks the level")
	assert.Nil(t, m["standardized"])
	assert.InDelta(t, m["is"].(float64), m["adjusted"].(float64)+m["residual"].(float64), 1e-9)
}

func keys(m map[string]any) []string {
	var out []string
	for k := range m {
		out = append(out, k)
	}
	return out
}

func TestSurveyOfAnExactDrawing(t *testing.T) {
	got := fullfree(barsHold, "survey", "-")
	assert.Equal(t, exitOK, got.status, got.err)
	assert.Contains(t, got.out, "NOTHING IS MEASURED: the drawing is as the file has it.")
	assert.Contains(t, oneLine(got.out), "the file has no sketch, so no coordinate is adjusted")
}

// Only the numbers are changed, whole or not at all, and the file then has what
// the survey found.
func TestSurveyWrites(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "taped.hcl")
	before := taped(t)
	require.NoError(t, os.WriteFile(path, []byte(before), 0o640))
	plain := fullfree("", "survey", path)
	got := fullfree("", "survey", path, "--write")
	assert.Equal(t, "fullfree survey: wrote 10 adjusted coordinates into "+path+"\n", got.err)
	got.err = ""
	assert.Equal(t, plain, got, "the same report")
	assert.Equal(t, []string{"taped.hcl"}, names(t, folder))
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	numbers := regexp.MustCompile(`\[-?[\d.]+, -?[\d.]+(, -?[\d.]+)?\]`)
	assert.Equal(t, numbers.ReplaceAllString(before, "[]"), numbers.ReplaceAllString(string(after), "[]"), "nothing but coordinates is changed")
	assert.NotEqual(t, before, string(after))
	assert.Contains(t, string(after), "shaft = [0, 0]", "what is exact stays")
	info, err := os.Stat(path)
	require.NoError(t, err)
	assert.Equal(t, os.FileMode(0o640), info.Mode(), "its permissions")

	var s struct {
		Points []struct {
			Name string
			X, Y float64
		}
	}
	require.NoError(t, json.Unmarshal([]byte(fullfree(before, "survey", "-", "--json").out), &s))
	// Without its sketch the file is exact: the numbers written are all there is.
	exact := regexp.MustCompile(`\n  sketch .*`).ReplaceAllString(string(after), "")
	var e struct {
		Points []struct {
			Name string
			X, Y float64
		}
	}
	require.NoError(t, json.Unmarshal([]byte(fullfree(exact, "survey", "-", "--json").out), &e))
	require.Len(t, e.Points, len(s.Points))
	for i := range s.Points {
		assert.InDelta(t, s.Points[i].X, e.Points[i].X, 1e-6, s.Points[i].Name)
		assert.InDelta(t, s.Points[i].Y, e.Points[i].Y, 1e-6, s.Points[i].Name)
	}
}

func TestSurveyWritesIntoFilesAlone(t *testing.T) {
	got := fullfree("", "survey", os.DevNull, "--write")
	assert.Equal(t, exitFailed, got.status)
	assert.Empty(t, got.out)
	assert.NotEmpty(t, got.err)

	// A link goes on pointing where it did, and what it points at is rewritten.
	folder := t.TempDir()
	path, link := filepath.Join(folder, "taped.hcl"), filepath.Join(folder, "link.hcl")
	require.NoError(t, os.WriteFile(path, []byte(taped(t)), 0o644))
	require.NoError(t, os.Symlink("taped.hcl", link))
	require.Equal(t, exitOK, fullfree("", "survey", link, "--write").status)
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.NotEqual(t, taped(t), string(after))
	info, err := os.Lstat(link)
	require.NoError(t, err)
	assert.NotZero(t, info.Mode()&os.ModeSymlink)
}

func TestSurveyWritesNothingOfAFault(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "taped.hcl")
	text := taped(t, "is     = 298\n", "is     = blank\n")
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	got := fullfree("", "survey", path, "--write")
	assert.Equal(t, exitFailed, got.status)
	assert.Empty(t, got.out)
	assert.Contains(t, got.err, `the distance "diagonal" is still blank`)
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, text, string(after))
}

// All else uses the adjusted drawing and says so.
func TestTheAdjustedDrawingIsUsed(t *testing.T) {
	got := fullfree(taped(t), "check", "-", "--full")
	assert.Equal(t, exitOK, got.status, got.err)
	said := oneLine(got.out)
	assert.Regexp(t, `Drawing: adjusted by the survey, 14 measurements, largest correction \S+ mm \(\S+\)\.`, said)
	assert.Contains(t, said, "exactly as the survey adjusts the drawing")
	assert.Contains(t, oneLine(fullfree(taped(t), "sweep", "-").out), "Drawing: adjusted by the survey, 14 measurements,")
	assert.NotContains(t, fullfree(taped(t), "sweep", "-", "--csv").out, "survey", "results for machines stay as they are")
	drawn := fullfree(taped(t), "draw", "-", "-o", "-")
	assert.Contains(t, oneLine(strings.Join(svgTexts(drawn.out), " ")), "Drawing: adjusted by the survey, 14 measurements,")

	// A rod without a length is as long as it was taped, not as sketched.
	rods := func(text string, set ...string) []float64 {
		var result struct {
			Sweeps []struct{ Rods []struct{ Length float64 } }
		}
		require.NoError(t, json.Unmarshal([]byte(fullfree(text, append([]string{"check", "-", "--json"}, set...)...).out), &result))
		var long []float64
		for _, r := range result.Sweeps[0].Rods {
			long = append(long, r.Length)
		}
		return long
	}
	adjusted := rods(taped(t))
	assert.InDeltaSlice(t, []float64{296.5, 296.5}, adjusted, 0.5)
	sketched := rods(regexp.MustCompile(`\n  sketch .*`).ReplaceAllString(taped(t), ""))
	assert.InDelta(t, 297.0, sketched[0], 1.0)
	assert.NotEqual(t, adjusted, sketched)

	// What --set tries out isn't adjusted away.
	assert.InDelta(t, math.Hypot(math.Hypot(300-3.236, 4.954+60.399), 18), rods(taped(t), "--set", "rocker.upper.x=300")[0], 0.01)
}

// A better tape makes the answers surer.
func TestBandsFollowTheSurvey(t *testing.T) {
	worse := judged(t, taped(t))
	better := judged(t, regexp.MustCompile(`within = (0\.5|1|1\.5)\n`).ReplaceAllString(taped(t), "within = 0.01\n"))
	compared := 0
	for i := range worse {
		if worse[i].Band != nil {
			compared++
			require.NotNil(t, better[i].Band)
			assert.Less(t, *better[i].Band, *worse[i].Band/5, worse[i].Kind)
		}
	}
	assert.GreaterOrEqual(t, compared, 3)
}

// Without a survey the run's own "uncertain" counts; 0 leaves no doubt.
func TestBandsFollowUncertain(t *testing.T) {
	text := demoText(t, "pedals")
	usual := judged(t, text)
	half := judged(t, strings.Replace(text, `  units   = "mm"`, "  units   = \"mm\"\n  uncertain = 0.5", 1))
	none := judged(t, strings.Replace(text, `  units   = "mm"`, "  units   = \"mm\"\n  uncertain = 0", 1))
	compared := 0
	for i := range usual {
		if usual[i].Band == nil {
			continue
		}
		compared++
		// Half as far out it is about half: what bends goes with the square.
		assert.InEpsilon(t, *usual[i].Band/2, *half[i].Band, 0.15, usual[i].Kind)
		assert.Zero(t, *none[i].Band)
		assert.True(t, *none[i].Sure)
	}
	assert.GreaterOrEqual(t, compared, 5)
	said := oneLine(fullfree(text, "check", "-", "--full").out)
	assert.Contains(t, said, "Holds, but not surely: with every hole out by up to about 1 mm this moves by about ")
	assert.Contains(t, said, "Surely so: with every hole out by up to about 1 mm this moves by about ")
	assert.Equal(t, 1, strings.Count(said, "stops count as exact"))
	assert.Equal(t, exitOK, fullfree(text, "check", "-").status, "the exit status doesn't change")
}
