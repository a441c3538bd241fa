package demo_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/demo"
	"fullfree/linkage"
	"fullfree/solve"
	"fullfree/solve/tolerance"
)

// The pedals that are made and worn hold as drawn, mostly as made if the rods are set to the
// pins, and mostly not if nobody sets them: that is what the file is there to show.
func TestTolerancedShowsWhatRiggingIsFor(t *testing.T) {
	r := check(t, text(t, demo.Toleranced))
	assert.Equal(t, solve.Holds, r.Verdict)
	require.Len(t, r.Sweeps[0].FreePlay, 2)
	assert.Equal(t, "left-pedal.pivot", r.Sweeps[0].FreePlay[0].Joints[0].String())

	m, err := solve.Compile(r.Run)
	require.NoError(t, err)
	share := func(asDrilled bool) (opposite float64, hazards int) {
		a, err := tolerance.Run(m, tolerance.Options{Builds: 1000, Seed: 1, AsDrilled: asDrilled})
		require.NoError(t, err)
		assert.Zero(t, a.Missed)
		for i := range a.Outcomes {
			o := &a.Outcomes[i]
			if o.Requirement.Kind == linkage.Opposite {
				opposite = o.Share
			}
			if o.Hazard {
				hazards += o.Fails()
			}
		}
		return opposite, hazards
	}
	rigged, hazards := share(false)
	assert.Greater(t, rigged, 0.93)
	assert.Zero(t, hazards)
	asMade, _ := share(true)
	assert.Less(t, asMade, 0.8)
}
