package machine

import (
	"bytes"
	"encoding/json"
	"testing"

	"fullfree/render/internal/sample"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is written of a rotor is what was found of it, at full precision.
func TestARotorForMachines(t *testing.T) {
	r := sample.Rotor(t)
	var b bytes.Buffer
	require.NoError(t, CheckJSON(&b, "rotor.hcl", r))
	var out checkJSON
	require.NoError(t, json.Unmarshal(b.Bytes(), &out))
	require.NotNil(t, out.Rotor)
	assert.Equal(t, "anticlockwise", out.Rotor.Turns)
	assert.Equal(t, "azimuth", out.Rotor.Azimuth)
	assert.Equal(t, "collective", *out.Rotor.Collective)
	require.Len(t, out.Rotor.Blades, 2)
	require.Len(t, out.Rotor.Cyclic, 2)
	for i, b := range r.Rotor.Blades {
		require.Len(t, out.Rotor.Blades[i].Pitch, 15, "low, middle, high; neutral, forward, aft, left, right")
		for k, c := range b.Cells {
			told := out.Rotor.Blades[i].Pitch[k]
			require.True(t, c.Told)
			assert.Equal(t, c.Mean, *told.Mean)
			assert.Equal(t, c.At, [4]float64{*told.OverTail, *told.OverRight, *told.OverNose, *told.OverLeft})
		}
	}
	turning := 0
	for i, s := range r.Sweeps {
		for k, o := range s.Outputs {
			turn := out.Sweeps[i].Outputs[k].Turn
			if o.Cycle == nil {
				assert.Nil(t, turn)
				continue
			}
			turning++
			assert.Equal(t, o.Cycle.Mean, turn.Mean)
			assert.Equal(t, o.Cycle.Amplitude, turn.Amplitude)
			assert.Equal(t, o.Cycle.Residue, turn.Residue)
			assert.Equal(t, o.Cycle.Amplitude >= 0.2, turn.MostAt != nil, "no azimuth is told below a fifth of a degree")
		}
	}
	assert.Equal(t, 27*4, turning)

	b.Reset()
	require.NoError(t, CheckJSON(&b, "levers.hcl", sample.Levers()))
	assert.NotContains(t, b.String(), `"turn"`)
	assert.NotContains(t, b.String(), `"rotor"`)
}
