package solve_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

func TestWhatARotorDoes(t *testing.T) {
	m, err := solve.Compile(rotorRun(t, rotorHead))
	require.NoError(t, err)
	result, err := m.Check()
	require.NoError(t, err)
	require.NoError(t, m.AddRotor(result))
	r := result.Rotor
	require.NotNil(t, r)
	assert.Equal(t, "azimuth", r.Azimuth.Name)
	assert.Equal(t, "collective", r.Collective.Name)
	assert.Equal(t, [3]float64{-8, 2, 12}, r.At)
	require.Len(t, r.Sticks, 1)
	assert.Equal(t, [2]linkage.Direction{linkage.Forward, linkage.Aft}, r.Sticks[0].Toward)
	require.Len(t, r.Blades, 2)

	a := &r.Blades[0]
	for level, sleeve := range r.At {
		for end, plate := range []float64{-9, 7} {
			cell := a.Cell(level, 0, end)
			require.NotNil(t, cell)
			for i, azimuth := range r.Quarters() {
				assert.InDelta(t, headPitch(sleeve, plate, a.Control(azimuth)), cell.At[i], 1e-8)
			}
		}
	}
	// The horns stand 39.8 degrees ahead of the blades, so that a plate that leans to the
	// nose takes pitch off so much rotor turn before the nose (to the size of the leans).
	at, by := r.LeastWith(a, 0, 0)
	require.NotNil(t, at)
	assert.InDelta(t, 180-39.8, *at, 1)
	assert.InDelta(t, 14, by, 0.5)
	cyclic, ok := r.CyclicByCollective()
	assert.True(t, ok)
	assert.InDelta(t, 0, cyclic, 1e-9, "a level plate has no harmonic")
	_, ok = r.Differ()
	assert.True(t, ok)
	_, ok = r.CollectiveByCyclic()
	assert.True(t, ok)
	// Seen by azimuth both blades are read alike at neutral.
	for i := range 3 {
		for q := range 4 {
			assert.InDelta(t, a.Cell(i, -1, 0).At[q], r.Blades[1].Cell(i, -1, 0).At[q], 1e-9)
		}
	}
	assert.Error(t, m.AddRotor(nil))
}

// Half a turn of a link against a rod that is made so much longer.
func TestATurnOfAPitchLink(t *testing.T) {
	text := rotorHead + ""
	const wrong = "  to   = blade-a.horn\n}\n"
	text = replaceOnce(t, text, wrong, "  to   = blade-a.horn\n  end \"to\" {\n    thread = \"M6\"\n    engaged = 10\n  }\n}\n")
	mean := func(turns float64) float64 {
		m, err := solve.Compile(rotorRun(t, replaceOnce(t, text, "engaged = 10\n  }\n", "engaged = 10\n  }\n  length = "+num(200+turns)+"\n")))
		require.NoError(t, err)
		result, err := m.Check()
		require.NoError(t, err)
		return result.Sweeps[0].Outputs[0].Cycle.Mean
	}
	m, err := solve.Compile(rotorRun(t, text))
	require.NoError(t, err)
	result, err := m.Check()
	require.NoError(t, err)
	effects, err := m.Effects(result)
	require.NoError(t, err)
	for _, e := range effects {
		if e.Sweep != 0 {
			continue
		}
		for _, p := range e.PerTurn {
			switch p.Name {
			case "pitch-a":
				require.NotNil(t, p.Around)
				const h = 1e-3
				assert.InDelta(t, (mean(h)-mean(-h))/(2*h), *p.Around, 1e-5)
			case "pitch-b":
				require.NotNil(t, p.Around)
				assert.Zero(t, *p.Around)
			default:
				assert.Nil(t, p.Around)
			}
		}
	}
}
