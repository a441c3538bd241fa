package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What was made read-only stays as it is, and a slip is told with what is
// written.
func TestSurveyMindsWhatItWrites(t *testing.T) {
	path := filepath.Join(t.TempDir(), "taped.hcl")
	slipped := taped(t, "is     = 298\n", "is     = 308\n")
	require.NoError(t, os.WriteFile(path, []byte(slipped), 0o444))
	got := fullfree("", "survey", path, "--write")
	assert.Equal(t, outcome{exitFailed, "", "fullfree survey: can't write " + path + ": it may only be read\n"}, got)
	after, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, slipped, string(after))

	require.NoError(t, os.Chmod(path, 0o644))
	got = fullfree("", "survey", path, "--write")
	assert.Equal(t, exitOK, got.status)
	assert.Contains(t, got.err, `, though the survey is in doubt ("diagonal" disagrees with the rest): measure, and write again`)
}

// On a survey that contradicts itself, or leaves something open, nothing is
// told as sure.
func TestNothingIsSureOnASurveyInDoubt(t *testing.T) {
	slipped := taped(t, "is     = 298\n", "is     = 308\n")
	loose := taped(t)
	for _, name := range []string{"left horn to rocker", "left rod", "shaft to upper", "diagonal"} {
		loose = without(t, loose, `taped "`+name+`"`)
	}
	for text, why := range map[string]string{
		slipped: `THE SURVEY IS IN DOUBT: "diagonal" disagrees with the rest, so nothing here is sure. `,
		loose:   "THE SURVEY IS IN DOUBT: nothing measured ties ",
	} {
		got := fullfree(text, "check", "-", "--full")
		require.Empty(t, got.err)
		said := oneLine(got.out)
		assert.True(t, strings.HasPrefix(said, "Pedals, as taped "+why), said)
		assert.NotContains(t, said, "Surely")
		assert.Contains(t, said, "not surely, since the survey is in doubt: ")
		assert.Contains(t, oneLine(strings.Join(svgTexts(fullfree(text, "draw", "-", "-o", "-").out), " ")), why, "the sheet too")
	}
	assert.Contains(t, oneLine(strings.Join(svgTexts(fullfree(taped(t), "draw", "-", "-o", "-").out), " ")), "Not surely in 1: opposite.")
}

// A level told from plumb turns the whole over and disagrees with nothing: it
// is told by the sketch.
func TestSurveyTellsALevelReadFromPlumb(t *testing.T) {
	got := fullfree(taped(t, "is     = 90.5\n", "is     = 0.5\n"), "survey", "-")
	assert.Equal(t, exitOK, got.status, got.err)
	said := oneLine(got.out)
	assert.Contains(t, said, `LOOK AGAIN: "rocker leans" was gauged far from the direction in which it is sketched.`)
	assert.Contains(t, said, `was gauged at 0.5°, and is sketched at 90.0°: 89.5° from it. If it was told from plumb, it is 90.5° from level: write that.`)
	assert.Contains(t, said, "Far from where they are sketched, with a sketch that is out by 30 mm")
}

func TestSurveyWithoutADirection(t *testing.T) {
	text := without(t, taped(t), `gauged "rocker leans"`)
	got := fullfree(text, "survey", "-")
	assert.Equal(t, exitOK, got.status, got.err)
	said := oneLine(got.out)
	assert.Contains(t, said, "NOT ALL IS TIED: 13 measurements, and none that tells how the whole lies.")
	assert.Equal(t, 1, strings.Count(said, "no tape can: gauge one line, or make a second place exact."))
	assert.NotContains(t, said, "Nothing ties")
	assert.Contains(t, said, "What would help most: gauge ")
}

func TestSurveyOfNothingExact(t *testing.T) {
	got := fullfree(taped(t, "  exact  = true\n", ""), "survey", "-")
	assert.Equal(t, exitOK, got.status, got.err)
	assert.Contains(t, oneLine(got.out), "No place is exact, so nothing tells where the whole lies but the sketch, to within 60.0 mm,")
	assert.NotContains(t, oneLine(fullfree(taped(t), "survey", "-").out), "No place is exact")
}

// Measurements that a forgotten sketch leaves without use are told.
func TestCheckTellsUnusedMeasurements(t *testing.T) {
	text := regexp.MustCompile(`\n  sketch .*`).ReplaceAllString(taped(t), "")
	assert.Regexp(t, `Drawing: as the file has it, not adjusted by its 14 measurements, since the run has no sketch\. Further off the drawing than it reads to: \d+ of them \(fullfree survey tells which\)\.`, oneLine(fullfree(text, "check", "-").out))
	assert.NotContains(t, fullfree(taped(t), "check", "-").out, "not adjusted")
}

// What --set tries out is put into the adjusted drawing: no other hole moves.
func TestSetIsTriedInTheAdjustedDrawing(t *testing.T) {
	reads := func(set ...string) []string {
		got := fullfree(taped(t), append([]string{"check", "-", "--full"}, set...)...)
		require.Empty(t, got.err)
		var holes []string
		for _, line := range strings.Split(got.out, "\n") {
			if regexp.MustCompile(`^    (horn|upper|lower) `).MatchString(line) {
				holes = append(holes, line)
			}
		}
		return holes
	}
	was, is := reads(), reads("--set", "rocker.upper.x=300")
	require.Len(t, was, 4)
	require.Len(t, is, 4)
	moved := 0
	for i := range was {
		if was[i] != is[i] {
			moved++
			assert.Contains(t, was[i], "upper")
		}
	}
	assert.Equal(t, 1, moved)
}

// A hole that was never taped makes nothing unsure on which nothing hangs; the survey
// tells it all the same. What hangs on an open hole isn't sure, and what doesn't is.
func TestAnOpenPlaceMakesUnsureWhatHangsOnIt(t *testing.T) {
	file, err := os.ReadFile(filepath.Join("..", "..", "testdata", "answers", "v2-survey.hcl"))
	require.NoError(t, err)
	text := string(file)
	said := oneLine(fullfree(text, "check", "-", "--full").out)
	assert.True(t, strings.HasPrefix(said, "Lever and crank, taped HOLDS: all 3 requirements, stop to stop. Which way was not judged: lever-hand, crank-out. REQUIRED"), said)
	assert.Contains(t, said, "Surely so: with the holes out by what the survey leaves, up to about 0.13 in, this moves by about")
	assert.NotContains(t, said, "not surely")
	assert.Contains(t, said, "Nothing measured ties lever.hand (fullfree survey tells how).")
	assert.Contains(t, oneLine(fullfree(text, "survey", "-").out), "Nothing ties lever.hand sideways or up and down: tape it to airframe.bolt.")

	part := text + `
output "lever-out" {
  of = lever
}
require "travel" "of the lever" {
  of     = lever-out
  low    = -22
  high   = 22
  within = 3
}
`
	for _, name := range []string{"t3", "t4", "t6", "t8"} { // all that tie crank.in
		part = without(t, part, `taped "`+name+`"`)
	}
	said = oneLine(fullfree(part, "check", "-", "--full").out)
	assert.NotContains(t, said, "THE SURVEY IS IN DOUBT")
	assert.Contains(t, said, `Not surely in`)
	assert.Contains(t, said, "since it hangs on what the survey leaves open: ")
	assert.Contains(t, said, "Not to be told surely: it may hang on what the survey leaves open.", "whether a stop bites")
	assert.Contains(t, said, "Surely so: with the holes out by what the survey leaves")
}
