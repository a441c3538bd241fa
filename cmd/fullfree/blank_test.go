package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"fullfree/demo"
	"fullfree/linkage"
	"fullfree/render/picture"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// filledIn returns the blank of a kind with what a faultless tape would read
// in the demo's own drawing, and that drawing.
func filledIn(t *testing.T, kind string) (text string, truth *linkage.Run) {
	t.Helper()
	own := []byte(demoText(t, kind))
	run, err := linkage.Read(&linkage.Source{Name: kind, Text: own})
	require.NoError(t, err)
	withDatum, err := picture.WithDatum(run)
	require.NoError(t, err)
	truth, err = linkage.Read(&linkage.Source{Name: kind, Text: withDatum})
	require.NoError(t, err)
	made, err := blankOf(kind, own, "")
	require.NoError(t, err)
	blanks, err := linkage.Read(&linkage.Source{Name: kind, Text: made.file})
	require.NoError(t, err, "a file with blanks reads")
	require.NotEmpty(t, blanks.Blanks())
	require.Len(t, blanks.Blanks(), len(blanks.Measurements))

	at := placesOf(truth)
	text = string(made.file)
	for _, m := range blanks.Measurements {
		d := at[m.To.String()].Sub(at[m.From.String()])
		is := d.Norm()
		if m.Kind == linkage.Gauged {
			is = math.Atan2(d.Y, d.X) * 180 / math.Pi
		}
		text = strings.Replace(text, "is     = blank", fmt.Sprintf("is     = %.9f", is), 1)
	}
	require.NotContains(t, text, "= blank")
	return text, truth
}

// placesOf are the places of a drawing, by name.
func placesOf(run *linkage.Run) map[string]linkage.Vec {
	at := map[string]linkage.Vec{}
	for _, p := range run.Parts {
		at[p.Name+".pivot"] = p.Pivot
		for _, q := range p.Points {
			at[p.Name+"."+q.Name] = q.At
		}
	}
	return at
}

// The distances on the page determine every hole: filled in from the demo's own
// drawing they give that drawing back, and the same verdict.
func TestBlanksFilledInGiveTheDrawingBack(t *testing.T) {
	for _, kind := range demo.Kinds() {
		if kind == "rotor" {
			got := fullfree("", "new", kind, "--blank")
			assert.Equal(t, exitFailed, got.status)
			assert.Contains(t, got.err, "distances from one place don't tell how these stand")
			continue
		}
		t.Run(kind, func(t *testing.T) {
			text, truth := filledIn(t, kind)
			got := fullfree(text, "survey", "-", "--json")
			require.Equal(t, exitOK, got.status, got.err)
			var s struct {
				Points []struct {
					Name    string
					X, Y, Z float64
				}
				Measurements []struct {
					Name         string
					Residual     float64
					Standardized *float64
					Doubtful     bool
				}
				Undetermined     []string
				DegreesOfFreedom int `json:"degrees_of_freedom"`
			}
			require.NoError(t, json.Unmarshal([]byte(got.out), &s))
			assert.Empty(t, s.Undetermined)
			assert.Positive(t, s.DegreesOfFreedom)
			at := placesOf(truth)
			// The sketch pulls a little: by the square of what the measurements
			// leave, over that of the sketch, of what it is out by.
			const near = 2e-3
			for _, p := range s.Points {
				want, known := at[p.Name]
				require.True(t, known, p.Name)
				off := linkage.Vec{X: p.X, Y: p.Y, Z: p.Z}.Sub(want).Norm()
				assert.Less(t, off, near*truth.Size(), p.Name)
			}
			unchecked := 0
			for _, m := range s.Measurements {
				assert.False(t, m.Doubtful, m.Name)
				if m.Standardized == nil {
					unchecked++
				}
			}
			assert.LessOrEqual(t, unchecked, 2, "all but the level is checked")

			// Rods are as long as they were taped, not as the demo sets them.
			own := regexp.MustCompile(`(?m)^  length .*\n`).ReplaceAllString(demoText(t, kind), "")
			want, is := judged(t, own), judged(t, text)
			require.Len(t, is, len(want))
			for i := range want {
				assert.Equal(t, want[i].Holds, is[i].Holds, "%s %s", want[i].Kind, want[i].Name)
				if want[i].Worst != nil {
					require.NotNil(t, is[i].Worst)
					assert.InDelta(t, *want[i].Worst, *is[i].Worst, 0.3, "%s %s", want[i].Kind, want[i].Name)
				}
			}
		})
	}
}

type judgement struct {
	Kind, Name  string
	Holds, Sure *bool
	Worst, Band *float64
}

// judged returns the requirements of a check.
func judged(t *testing.T, text string) []judgement {
	t.Helper()
	got := fullfree(text, "check", "-", "--json")
	require.Empty(t, got.err)
	var result struct{ Requirements []judgement }
	require.NoError(t, json.Unmarshal([]byte(got.out), &result))
	return result.Requirements
}

func TestNewBlank(t *testing.T) {
	t.Chdir(t.TempDir())
	got := fullfree("", "new", "pedals", "--blank", "-o", "mine")
	assert.Equal(t, outcome{}, got, "quiet")
	assert.Equal(t, []string{"mine.hcl", "mine.svg"}, names(t, "."))
	file, err := os.ReadFile("mine.hcl")
	require.NoError(t, err)
	page, err := os.ReadFile("mine.svg")
	require.NoError(t, err)
	assert.Contains(t, string(page), "mine.hcl")
	assert.Equal(t, outcome{exitOK, string(file), ""}, fullfree("", "new", "pedals", "--blank"), "the same file")
	assert.Equal(t, outcome{}, fullfree("", "new", "pedals", "--blank", "-o", "mine.hcl"), "NAME.hcl names the same; the same files may be made again")

	// What was filled in is never written over.
	filled := strings.Replace(string(file), "is     = blank", "is     = 205", 1)
	require.NoError(t, os.WriteFile("mine.hcl", []byte(filled), 0o644))
	require.NoError(t, os.Remove("mine.svg"))
	got = fullfree("", "new", "pedals", "--blank", "-o", "mine")
	assert.Equal(t, outcome{exitFailed, "", "fullfree new: mine.hcl is there already, and would be lost\n"}, got)
	assert.Equal(t, []string{"mine.hcl"}, names(t, "."), "neither is written")

	got = fullfree("", "new", "pedals", "--blank", "-o", filepath.Join("nowhere", "mine"))
	assert.Equal(t, exitFailed, got.status)
	assert.Contains(t, got.err, "there is no such folder")

	// Both or neither: the page can't be written where a folder has its name.
	require.NoError(t, os.Mkdir("other.svg", 0o755))
	got = fullfree("", "new", "pedals", "--blank", "-o", "other")
	assert.Equal(t, exitFailed, got.status)
	assert.Equal(t, []string{"mine.hcl", "other.svg"}, names(t, "."))
}

// "-" is standard output, and either file's name names both.
func TestNewBlankNames(t *testing.T) {
	t.Chdir(t.TempDir())
	plain := fullfree("", "new", "pedals", "--blank")
	assert.Equal(t, plain, fullfree("", "new", "pedals", "--blank", "-o", "-"))
	assert.Empty(t, names(t, "."))
	assert.Equal(t, outcome{}, fullfree("", "new", "pedals", "--blank", "-o", "mine.svg"))
	assert.Equal(t, []string{"mine.hcl", "mine.svg"}, names(t, "."))
	got := fullfree("", "new", "pedals", "--blank", "-o", "")
	assert.Equal(t, outcome{exitFailed, "", "fullfree new: tell the name after -o: -o NAME writes NAME.hcl and NAME.svg\n"}, got)
}

// What has measurements of its own is no run to be measured.
func TestNewBlankOfWhatIsMeasured(t *testing.T) {
	t.Chdir(t.TempDir())
	got := fullfree("", "new", "pedals-taped", "--blank", "-o", "pt")
	assert.Equal(t, exitFailed, got.status)
	assert.Contains(t, got.err, `pedals-taped is measured already; "fullfree new pedals-taped > FILE.hcl" writes it`)
	assert.Empty(t, names(t, "."))
}

func TestNewBlankUsage(t *testing.T) {
	for args, want := range map[string]string{
		"new pedals -o mine":           "fullfree new: -o goes with --blank; without it the file goes to standard output: fullfree new KIND > FILE.hcl",
		"new --blank":                  "fullfree new: --blank of what? there is pedals, pedals-swivel, throttle, sticks, chain, mixer, ailerons, elevator, flaps, throttle-cable, lift-cables, pedals-cable, aileron-cranks, rotor",
		"new pedls --blank":            `fullfree new: there is no kind "pedls"; did you mean "pedals"?`,
		"new pedals --blnk":            `fullfree new: there is no flag --blnk; did you mean "--blank"?`,
		"new pedals --blank -o":        "fullfree new: --output needs a value: --output NAME",
		"new pedals x --blank":         "fullfree new: one kind at a time, not 2",
		"survey":                       `fullfree survey: a file is missing; "fullfree new pedals > pedals.hcl" gives one to begin with`,
		"survey - --write":             "fullfree survey: --write needs a file: standard input can't be written into",
		"survey a --write --set b.x=1": "fullfree survey: --write and --set at once: what --set tries out is not for the file",
		"survey a b":                   "fullfree survey: one file at a time, not 2 (a and b)",
		"surwey a":                     `fullfree: there is no command "surwey"; did you mean "survey"?`,
		"diagnose":                     `fullfree diagnose: a file is missing; "fullfree new pedals > pedals.hcl" gives one to begin with`,
		"diagnose - --wrte":            "fullfree diagnose: there is no flag --wrte; there is --json, --set",
	} {
		got := fullfree(bars, strings.Fields(args)...)
		assert.Equal(t, exitFailed, got.status, args)
		assert.Empty(t, got.out, args)
		first, _, _ := strings.Cut(got.err, "\n")
		assert.Equal(t, want, first)
	}
}

// Blanks left in a file are told by name, each at its place, by all that can't
// do without.
func TestBlanksLeftAreTold(t *testing.T) {
	made, err := blankOf("throttle", []byte(demoText(t, "throttle")), "")
	require.NoError(t, err)
	for _, args := range [][]string{{"check", "-"}, {"survey", "-"}, {"sweep", "-"}, {"draw", "-", "-o", "-"}, {"diagnose", "-"}} {
		got := fullfree(string(made.file), args...)
		assert.Equal(t, exitFailed, got.status, args)
		assert.Empty(t, got.out, args)
		assert.Regexp(t, `(?m)^-:\d+,\d+: the distance "A to B" is still blank: tape it and write it in$`, got.err)
		assert.Regexp(t, `(?m)^-:\d+,\d+: the direction "[A-Z] to [A-Z], level" is still blank: gauge it and write it in$`, got.err)
	}
}
