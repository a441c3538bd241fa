package main

import (
	"os"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
)

// The page of a file with blanks is the page for just those, what is read already written
// in; the file stays as it is.
func TestNewBlankOfOnesOwnRun(t *testing.T) {
	t.Chdir(t.TempDir())
	require.Equal(t, outcome{}, fullfree("", "new", "pedals", "--blank", "-o", "mine"))
	file, err := os.ReadFile("mine.hcl")
	require.NoError(t, err)
	partly := strings.Replace(string(file), "is     = blank\n", "is     = 205 + 1/4\n", 1)
	require.NoError(t, os.WriteFile("mine.hcl", []byte(partly), 0o644))

	got := fullfree("", "new", "--blank", "mine.hcl")
	require.Empty(t, got.err)
	assert.True(t, strings.HasPrefix(got.out, "<?xml"), "the page goes to standard output")
	assert.Contains(t, got.out, "205 + 1/4")
	assert.Contains(t, got.out, "mine.hcl")
	assert.Contains(t, got.out, "mm, check")
	blocks := strings.Count(partly, "\ntaped ")
	assert.Equal(t, blocks, strings.Count(got.out, ">mm<")+strings.Count(got.out, ">mm, check<"))

	require.NoError(t, os.Remove("mine.svg"))
	assert.Equal(t, outcome{}, fullfree("", "new", "mine.hcl", "--blank", "-o", "mine"))
	page, err := os.ReadFile("mine.svg")
	require.NoError(t, err)
	assert.Equal(t, got.out, string(page))
	after, err := os.ReadFile("mine.hcl")
	require.NoError(t, err)
	assert.Equal(t, partly, string(after))
	assert.Equal(t, exitOK, fullfree(partly, "new", "--blank", "-").status)
}

// A run that is drawn and not measured becomes a sketch with what is to be taped.
func TestNewBlankOfADrawing(t *testing.T) {
	t.Chdir(t.TempDir())
	require.NoError(t, os.WriteFile("flaps.hcl", []byte(demoText(t, "flaps")), 0o644))
	assert.Equal(t, outcome{}, fullfree("", "new", "--blank", "flaps.hcl", "-o", "taped"))
	assert.Equal(t, []string{"flaps.hcl", "taped.hcl", "taped.svg"}, names(t, "."))
	text, err := os.ReadFile("taped.hcl")
	require.NoError(t, err)
	run, err := linkage.Read(&linkage.Source{Name: "taped.hcl", Text: text})
	require.NoError(t, err)
	assert.InDelta(t, 1.2, run.Sketch, 0, "it is in inches")
	assert.NotEmpty(t, run.Blanks())
	assert.Len(t, run.Blanks(), len(run.Measurements))
	drawn, err := linkage.Read(&linkage.Source{Name: "flaps.hcl", Text: []byte(demoText(t, "flaps"))})
	require.NoError(t, err)
	for i, rod := range drawn.Rods {
		assert.InDelta(t, rod.Length, run.Rods[i].Length, 0, "what is set stays set")
	}
	assert.Equal(t, exitFailed, fullfree("", "new", "--blank", "flaps.hcl", "-o", "flaps").status, "it would be lost")
	assert.Equal(t, exitOK, fullfree("", "new", "--blank", "flaps.hcl").status)
}

func TestNewBlankOfWhatHasNoPage(t *testing.T) {
	t.Chdir(t.TempDir())
	require.Equal(t, exitOK, fullfree("", "new", "aircraft", "-o", "a").status)
	require.NoError(t, os.WriteFile("rotor.hcl", []byte(demoText(t, "rotor")), 0o644))
	for args, says := range map[string]string{
		"--blank a/aircraft.hcl": "is an aircraft, which is measured run by run",
		"--blank rotor.hcl":      "has parts that tilt any way",
		"--blank nowhere.hcl":    "there is no such file",
		"a/pedals.hcl":           "is a file that you have: --blank makes the page for taping it",
	} {
		got := fullfree("", append([]string{"new"}, strings.Fields(args)...)...)
		assert.Equal(t, exitFailed, got.status, args)
		assert.Contains(t, got.err, says, args)
		assert.Empty(t, got.out)
	}
	exact := "run \"x\" {\n  units = \"mm\"\n}\nfixed \"f\" {\n  exact = true\n  points = { a = [0, 0], b = [9, 9] }\n}\npart \"p\" {\n  exact = true\n  pivot = f.a\n  points = { h = [5, 5] }\n}\ncontrol \"c\" {\n  of = p\n}\n"
	got := fullfree(exact, "new", "--blank", "-")
	assert.Equal(t, exitFailed, got.status)
	assert.Contains(t, got.err, "every place that it has is exact")
}
