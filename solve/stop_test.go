package solve_test

import (
	"os"
	"runtime"
	"testing"

	"fullfree/linkage"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Stopped wherever, solving ends at once and says so; not stopped, nothing is
// otherwise than without being asked.
func TestStop(t *testing.T) {
	text, err := os.ReadFile("../demo/mixer.hcl")
	require.NoError(t, err)
	run, err := linkage.Read(&linkage.Source{Name: "mixer.hcl", Text: text})
	require.NoError(t, err)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	want, err := m.Check()
	require.NoError(t, err)
	require.NoError(t, m.AddBands(want, nil))

	asked := 0
	m.StopWhen(func() bool { asked++; return false })
	got, err := m.Check()
	require.NoError(t, err)
	require.NoError(t, m.AddBands(got, nil))
	require.Positive(t, asked)
	for i := range want.Requirements {
		assert.Equal(t, want.Requirements[i].Worst, got.Requirements[i].Worst)
		assert.Equal(t, want.Requirements[i].Band, got.Requirements[i].Band)
	}

	// Each of the two sides that a sweep has asks once more, and what holds the
	// others; then whoever called asks. There are as many sweeps at once as processors.
	more := 8 * runtime.GOMAXPROCS(0)
	all := asked
	for after := 1; after < all; after += 1 + all/37 {
		asked = 0
		m.StopWhen(func() bool { asked++; return asked > after })
		got, err := m.Check()
		if err == nil { // it came to the bands
			assert.ErrorIs(t, m.AddBands(got, nil), solve.ErrStopped)
			assert.True(t, m.Stopped())
			for _, j := range got.Requirements {
				assert.Nil(t, j.Band)
			}
		} else {
			assert.ErrorIs(t, err, solve.ErrStopped)
			assert.Nil(t, got)
		}
		assert.LessOrEqual(t, asked, after+more)
	}
	m.StopWhen(func() bool { return true })
	_, err = m.Sweep(run.Controls[0], nil)
	assert.ErrorIs(t, err, solve.ErrStopped)
	m.StopWhen(nil)
	_, err = m.Sweep(run.Controls[0], nil)
	assert.NoError(t, err)
}
