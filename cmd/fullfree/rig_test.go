package main

import (
	"bytes"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/render/machine"
	"fullfree/solve"
	"fullfree/solve/rig"
)

func TestRigTellsWhatNeutralLoses(t *testing.T) {
	text, err := os.ReadFile("../../testdata/answers/rig-neutral.hcl")
	require.NoError(t, err)
	report, answer := riggedOnce(t, string(text))
	said := oneLine(report)
	assert.Contains(t, said, "At neutral right-aileron then stands at -0.3° (up); as filed it stood right, at 0.0°.")
	assert.Contains(t, said, "IT WOULD ALSO HOLD With the most in reserve: right-rod.to 1 turn in, left-rod.to 1 turn in,")

	var all struct {
		Settings []struct {
			Turns   map[string]float64
			Neutral []struct {
				Name, Unit string
				At, Filed  float64
			}
		}
		MostReserve *struct{ Turns map[string]float64 } `json:"most_reserve"`
		FewestEnds  *struct{ Turns map[string]float64 } `json:"fewest_ends"`
		Cut         bool
	}
	decode(t, answer, &all)
	require.NotEmpty(t, all.Settings)
	best := all.Settings[0]
	assert.Len(t, best.Turns, 1)
	var names []string
	for _, n := range best.Neutral {
		names = append(names, n.Name)
		assert.Zero(t, n.Filed)
		assert.NotZero(t, n.At)
	}
	assert.Equal(t, []string{"right-aileron", "right", "right-te"}, names, "a part and the outputs that read it")
	require.NotNil(t, all.MostReserve)
	assert.Len(t, all.MostReserve.Turns, 2)
	require.NotNil(t, all.FewestEnds)
	assert.Empty(t, all.FewestEnds.Turns, "the stops alone would do")
	assert.False(t, all.Cut)
}

// riggedOnce is what "rig" tells of a text in words and with --json, of one search: that
// takes seconds.
func riggedOnce(t *testing.T, text string, set ...linkage.Setting) (report, answer string) {
	t.Helper()
	run, err := linkage.Read(&linkage.Source{Name: "run.hcl", Text: []byte(text)}, set...)
	require.NoError(t, err)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	found, err := rig.Search(m, nil)
	require.NoError(t, err)
	var words, numbers bytes.Buffer
	require.NoError(t, render.RigReport(&words, "run.hcl", run, found, render.RigOptions{}))
	require.NoError(t, machine.RigJSON(&numbers, "run.hcl", found))
	return words.String(), numbers.String()
}
