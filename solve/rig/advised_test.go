package rig_test

import (
	"os"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/solve"
	"fullfree/solve/rig"
)

// pinBlocks are the rig pins of a file.
var pinBlocks = regexp.MustCompile(`(?m)^pin "[^"]*" \{(.|\n)*?^\}\n`)

// A second path that binds: turning its own rod is what a check advises, and it holds;
// turning the one beside it puts a part right at neutral too, which is better.
func TestAdvisedBesideTheBest(t *testing.T) {
	text, err := os.ReadFile("../../demo/pedals-dual.hcl")
	require.NoError(t, err)
	off := strings.Replace(pinBlocks.ReplaceAllString(string(text), ""), "length       = 309.2", "length       = 308.7", 1)
	m, err := solve.Compile(read(t, off))
	require.NoError(t, err)
	filed, err := m.Check()
	require.NoError(t, err)
	turn := filed.SecondPaths[0].Turn
	require.NotNil(t, turn)
	found, err := rig.Search(m, nil)
	require.NoError(t, err)
	require.True(t, found.Found)
	assert.Equal(t, "far-left-link.from", found.Settings[0].Turns[0].End.String())
	require.NotNil(t, found.Advised)
	require.Len(t, found.Advised.Turns, 1)
	assert.Equal(t, turn.End.String(), found.Advised.Turns[0].End.String())
	assert.InDelta(t, turn.Turns, found.Advised.Turns[0].Turns, 1e-12)
	assert.Equal(t, solve.Holds, found.Advised.Verdict)
	assert.Empty(t, found.Others, "something was found")
}
