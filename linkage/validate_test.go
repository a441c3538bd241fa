package linkage

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every run that reads or is built is valid.
func TestWhatReadsIsValid(t *testing.T) {
	for path, run := range runFiles(t) {
		require.NoError(t, run.Validate(), path)
		built, err := rebuilt(run).Run()
		require.NoError(t, err)
		require.NoError(t, built.Validate(), path)
	}
}

// A run put together by hand says what it is about, without a file and line.
func TestValidateSaysWhatItIsAbout(t *testing.T) {
	var none *Run
	assert.EqualError(t, none.Validate(), "there is no run")
	assert.EqualError(t, (&Run{}).Validate(), `the run's unit is "", and it can be "mm" or "in"`)
	assert.EqualError(t, (&Run{Units: Inches, Parts: []*Part{nil}}).Validate(), "Parts[0] of the run is nil")
	lever := &Part{Name: "lever", Motion: Turns, Axis: Vec{Z: 1}, Points: []Point{{Name: "eye", At: Vec{Y: 60}}}}
	link := &Rod{Name: "link", From: PointRef{Part: lever}, To: PointRef{Part: lever, Point: 1}, Length: 3, Drawn: 3}
	run := &Run{Units: Millimeters, Parts: []*Part{lever}, Rods: []*Rod{link}}
	assert.EqualError(t, run.Validate(), `rod "link": its ends are not on points of the run`)
}
