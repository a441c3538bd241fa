package linkage_test

import (
	"os"
	"reflect"
	"testing"

	"fullfree/linkage"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func demoRun(t *testing.T, name string) *linkage.Run {
	t.Helper()
	text, err := os.ReadFile("../demo/" + name + ".hcl")
	require.NoError(t, err)
	run, err := linkage.Read(&linkage.Source{Name: name + ".hcl", Text: text})
	require.NoError(t, err)
	return run
}

// A copy is the run again, and changing it changes nothing of the run.
func TestWithoutNothing(t *testing.T) {
	for _, name := range []string{"pedals", "pedals-dual", "sticks", "mixer", "chain", "throttle"} {
		run, same := demoRun(t, name), demoRun(t, name)
		left := run.Without()
		require.Len(t, left.Parts, len(run.Parts))
		for i, p := range left.Parts {
			assert.NotSame(t, run.Parts[i], p)
			assert.Equal(t, run.Parts[i], p)
		}
		for i, r := range left.Rods {
			assert.Equal(t, run.Rods[i], r)
			require.False(t, r.From.Part != nil && r.From.Part != left.Parts[r.From.Part.Index], "of the copy")
			for _, e := range r.Ends {
				assert.Same(t, r, e.Rod)
			}
		}
		assert.Equal(t, run.Controls, left.Controls)
		assert.Equal(t, run.Outputs, left.Outputs)
		assert.Equal(t, run.Stops, left.Stops)
		assert.Empty(t, left.Requirements, "they are about the whole")
		for _, d := range left.Dimensions() {
			left.Set(d, d.Value()+1)
		}
		for _, r := range left.Rods {
			r.SecondPath = !r.SecondPath
		}
		same.Source, run.Source = nil, nil
		assert.True(t, reflect.DeepEqual(same, run), name)
	}
}

func namesLeft(run *linkage.Run) (names []string) {
	for _, p := range run.Parts {
		names = append(names, p.Name)
	}
	for _, r := range run.Rods {
		names = append(names, r.Name)
	}
	for _, c := range run.Controls {
		names = append(names, c.Name)
	}
	for _, o := range run.Outputs {
		names = append(names, o.Name)
	}
	for _, s := range run.Stops {
		names = append(names, s.Name)
	}
	return names
}

// What can't be there without what is gone goes with it.
func TestWithoutWhatRestsOnIt(t *testing.T) {
	for _, c := range []struct {
		demo, gone string
		left       []string
	}{
		// A shaft takes what it carries with it, the controls of both, and stops.
		{"sticks", "cross-shaft", []string{"airframe", "roll-crank", "pitch-crank", "fore-and-aft", "side-to-side"}},
		{"sticks", "roll-crank", []string{"airframe", "cross-shaft", "left-stick", "right-stick", "pitch-crank", "tie-tube", "pitch-rod", "pitch", "roll", "fore-and-aft", "forward", "aft", "left", "right"}},
		// A rod takes the output that reads a point of it.
		{"chain", "floor-rod", []string{"airframe", "lever", "floor-crank", "mast-crank", "plunger", "mast-rod", "link", "collective", "plunger-rule", "lever-down", "lever-up", "guide-top"}},
		// A pedal takes the stop that its lug touches.
		{"pedals", "right-pedal", []string{"airframe", "left-pedal", "rocker", "left-link", "pedals", "tail-run", "left-stop"}},
	} {
		run := demoRun(t, c.demo)
		var gone []any
		for _, p := range run.Parts {
			if p.Name == c.gone {
				gone = append(gone, p)
			}
		}
		for _, r := range run.Rods {
			if r.Name == c.gone {
				gone = append(gone, r)
			}
		}
		require.Len(t, gone, 1)
		left := run.Without(gone...)
		assert.Equal(t, c.left, namesLeft(left), "%s without %s", c.demo, c.gone)
		for i, p := range left.Parts {
			assert.Equal(t, i, p.Index)
		}
		for i, r := range left.Rods {
			assert.Equal(t, i, r.Index)
		}
	}
}

// Of a pair one cable is left by itself, as long as it is unloaded.
func TestWithoutOneOfAPair(t *testing.T) {
	run := demoRun(t, "lift-cables")
	require.Len(t, run.Pairs, 1)
	gone, stays := run.Pairs[0].Cables[0], run.Pairs[0].Cables[1]
	left := run.Without(gone)
	require.Len(t, left.Cables, 1)
	assert.Empty(t, left.Pairs)
	assert.Nil(t, left.Cables[0].Pair)
	assert.Equal(t, stays.Grown-run.Pairs[0].Pretension/stays.Stiffness, left.Cables[0].Grown)
	assert.Zero(t, stays.Grown, "of the run itself it stays")
	assert.Same(t, run.Pairs[0], stays.Pair)
	assert.Empty(t, run.Without(gone, stays).Cables)
}
