package linkage

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// Each direction has the one that a person in the seat calls its opposite, and lies the
// other way in the drawing.
func TestDirectionsAndTheirOpposites(t *testing.T) {
	run := &Run{Forward: &Vec{X: -1}, Up: &Vec{Y: 1}, Right: &Vec{Z: -1}}
	for d, want := range map[Direction]struct {
		opposite Direction
		is       Vec
	}{
		Forward: {Aft, Vec{X: -1}}, Aft: {Forward, Vec{X: 1}}, Up: {Down, Vec{Y: 1}}, Down: {Up, Vec{Y: -1}}, Right: {Left, Vec{Z: -1}}, Left: {Right, Vec{Z: 1}},
	} {
		assert.Equal(t, want.opposite, d.Opposite())
		is, known := run.Direction(d)
		assert.True(t, known)
		assert.Zero(t, is.Sub(want.is).Norm(), d)
	}
	_, known := (&Run{Up: &Vec{Y: 1}}).Direction(Left)
	assert.False(t, known)
}
