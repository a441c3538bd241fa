package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"unicode/utf8"

	"fullfree/demo"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const (
	mostShortLines = 45 // of a demo that holds: what fits on one screen
	mostRotorLines = 55 // more of one with a rotor: what its controls do to the blades
	mostColumns    = 80 // of a terminal
)

// What there is to read before acting fits on a screen, and --full tells more.
func TestShortCheckFitsAScreen(t *testing.T) {
	for _, kind := range append(demo.Kinds(), demo.Taped, demo.Dual, demo.Unequal, demo.WrongHole) {
		text := demoText(t, kind)
		short, full := fullfreeOnce(text, "check", "-"), fullfreeOnce(text, "check", "-", "--full")
		assert.Equal(t, full.status, short.status, kind)
		lines := strings.Split(strings.TrimSuffix(short.out, "\n"), "\n")
		if short.status == exitOK {
			most := mostShortLines
			if strings.Contains(short.out, "\nROTOR, ") {
				most += mostRotorLines
			}
			assert.LessOrEqual(t, len(lines), most, kind)
		}
		assert.Less(t, len(lines), strings.Count(full.out, "\n"), kind)
		for _, line := range append(lines, strings.Split(full.out, "\n")...) {
			assert.LessOrEqual(t, utf8.RuneCountInString(line), mostColumns, kind)
		}
		assert.Equal(t, strings.Split(full.out, "\n\n")[0], strings.Split(short.out, "\n\n")[0], "%s: the verdict is the same", kind)
		assert.Contains(t, oneLine(short.out), "It is arithmetic on a drawing and approves nothing.")
		assert.Contains(t, oneLine(short.out), "--full tells")
		assert.Contains(t, full.out, "\nAS READ\n")
		assert.Contains(t, full.out, "\nWHAT THIS ANSWER IS\n")
	}
}

// What others follow from is told first: a stop that is forgotten before the travel that
// goes too far for want of it, words that the drawing contradicts before all else.
func TestShortCheckTellsRootsFirst(t *testing.T) {
	before, after, ok := strings.Cut(barsFallShort, "stop \"high\" {")
	require.True(t, ok)
	_, after, ok = strings.Cut(after, "\n}\n")
	require.True(t, ok)
	text := before + after
	said := oneLine(fullfree(text, "check", "-").out)
	assert.Contains(t, said, "TO ACT ON No stop ends the high side of hand. What falls short may follow from that. SHORT travel")
	required := oneLine(fullfree(text+"require \"stops\" {}\n", "check", "-").out)
	assert.Contains(t, required, "TO ACT ON SHORT stops No stop ends the high side of hand")
	assert.Less(t, strings.Index(required, "SHORT stops"), strings.Index(required, "SHORT travel"))

	hole := fullfree(demoText(t, demo.WrongHole), "check", "-").out
	assert.Less(t, strings.Index(hole, "SHORT  over-center"), strings.Index(hole, "SHORT  travel"))
}

func TestCheckOfSeveralFiles(t *testing.T) {
	folder := t.TempDir()
	write := func(name, text string) string {
		path := filepath.Join(folder, name)
		require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
		return path
	}
	holds, short, none := write("holds.hcl", barsHold), write("short.hcl", barsFallShort), write("none.hcl", bars)
	missing := filepath.Join(folder, "missing.hcl")
	for _, c := range []struct {
		files  []string
		status int
	}{
		{[]string{holds, holds}, exitOK},
		{[]string{short, holds}, exitShort},
		{[]string{holds, short}, exitShort},
		{[]string{short, none, holds}, exitFailed},
		{[]string{missing, holds}, exitFailed},
	} {
		got := fullfree("", append([]string{"check"}, c.files...)...)
		assert.Equal(t, c.status, got.status, c.files)
		want := ""
		for _, file := range c.files {
			if file == missing {
				assert.Contains(t, got.err, "there is no such file")
				continue
			}
			if want != "" {
				want += "\n"
			}
			want += file + ":\n" + fullfree("", "check", file).out
		}
		assert.Equal(t, want, got.out)
	}
}

// What is told of a rod in inches, set with --set, gives the same answer.
func TestToldLengthsInInchesGiveTheSameAnswer(t *testing.T) {
	for _, kind := range []string{"chain", "aileron-cranks"} {
		text := demoText(t, kind)
		filed := fullfree(text, "check", "-")
		told := regexp.MustCompile(`(?m)^  ([a-z-]+)  +in +(\d+\.\d{3})(?: \(\d+ \d+/\d+\))?$`).FindAllStringSubmatch(fullfree(text, "rods", "-").out, -1)
		require.NotEmpty(t, told, kind)
		args := []string{"check", "-"}
		for _, rod := range told {
			args = append(args, "--set", rod[1]+".length="+rod[2])
		}
		set := fullfree(text, args...)
		assert.Equal(t, filed.status, set.status, kind)
		// A length that is set may be out as any other, so that less is sure; the verdict, the
		// ends of the travel and what the outputs read are the same.
		figures := regexp.MustCompile(`(?m)^(?:HOLDS.*|  (?:low|high) end.*|\S+ reads .*)$`)
		assert.Equal(t, figures.FindAllString(filed.out, -1), figures.FindAllString(set.out, -1), kind)
	}
}
