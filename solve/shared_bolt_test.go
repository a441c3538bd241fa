package solve_test

import (
	"bytes"
	"math"
	"os"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// sharedBolt is the run of testdata/aircraft/shared-bolt with texts replaced in its files.
func sharedBolt(t *testing.T, replace map[string]string) *solve.Result {
	t.Helper()
	const folder = "../testdata/aircraft/shared-bolt/"
	open := func(name string) (*linkage.Source, error) {
		text, err := os.ReadFile(folder + name)
		for old, now := range replace {
			text = bytes.ReplaceAll(text, []byte(old), []byte(now))
		}
		return &linkage.Source{Name: name, Text: text}, err
	}
	source, err := open("aircraft.hcl")
	require.NoError(t, err)
	run, err := linkage.ReadWith(source, open)
	require.NoError(t, err)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	return checkedAll(t, m)
}

// playOf is the free play of an output of a result with one sweep.
func playOf(t *testing.T, r *solve.Result, output string) *solve.FreePlay {
	t.Helper()
	require.Len(t, r.Sweeps, 1)
	for i := range r.Sweeps[0].FreePlay {
		if f := &r.Sweeps[0].FreePlay[i]; f.Of.Name() == output {
			require.NotNil(t, f.Most)
			return f
		}
	}
	require.Fail(t, "no free play of "+output)
	return nil
}

// The crank's arms are as long as the horn's and the lever's, one up and one down: as its
// pivot lies off by a distance along the rods, at neutral the first rod turns it by that over
// the arm, and the second rod takes that and the distance itself to the horn, so it rocks by
// twice the play over the arm, one arm up and one down, and by nothing with both down.
func TestOneBoltOnTwoDrawingsGivesOnce(t *testing.T) {
	const play, arm = 0.5, 60.0
	const within = 1e-9
	required := func(r *solve.Result) *solve.Judgement { return &r.Requirements[len(r.Requirements)-1] }
	opposite := sharedBolt(t, nil)
	f := playOf(t, opposite, "b.blade")
	assert.InDelta(t, 2*play/arm*180/math.Pi, *f.AtNeutral, within)
	assert.Nil(t, f.Least)
	assert.Equal(t, solve.FallsShort, required(opposite).Verdict)
	assert.InDelta(t, *f.Most, *f.RSS, within, "it is one joint")
	assert.Len(t, f.Joints, 1)

	same := sharedBolt(t, map[string]string{"-60": "60"})
	assert.InDelta(t, 0, *playOf(t, same, "b.blade").Most, within)
	assert.Equal(t, solve.Holds, required(same).Verdict)

	// The second drawing from the other side, in inches, and saying the play too, or less.
	seen := map[string]string{
		"units   = \"mm\"\n  forward = [1, 0]\n  up      = [0, 1]\n}\npart \"bell\" {\n  pivot      = [250, 0]\n": "units   = \"in\"\n  forward = [-1, 0]\n  up      = [0, 1]\n}\npart \"bell\" {\n  pivot      = [1, 0]\n  joint-play = 0.3/25.4\n",
		"low = [0, -60]": "low = [0, -60/25.4]", "pivot = [500, 0]\n  arms  = { in = [0, -60] }": "pivot = [1 - 250/25.4, 0]\n  arms  = { in = [0, -60/25.4] }",
		`turns = "same"`: `turns = "opposite"`,
	}
	mirrored := sharedBolt(t, seen)
	assert.InDelta(t, *f.Most, *playOf(t, mirrored, "b.blade").Most, within)

	// Where the drawings don't say how they lie to each other, it is between two bounds, and
	// no verdict is made up.
	for _, down := range []string{"-60", "60"} {
		blind := sharedBolt(t, map[string]string{"  forward = [1, 0]\n  up      = [0, 1]\n": "", "-60": down})
		f := playOf(t, blind, "b.blade")
		assert.InDelta(t, 2*play/arm*180/math.Pi, *f.AtNeutral, within)
		require.NotNil(t, f.Least)
		assert.InDelta(t, 0, *f.Least, within)
		assert.Equal(t, solve.CannotTell, required(blind).Verdict)
		assert.Equal(t, solve.PlayOfTwoDrawings, required(blind).Why)
	}
}
