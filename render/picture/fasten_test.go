package picture

import (
	"math"
	"testing"

	"fullfree/linkage"
	"fullfree/solve"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What is fastened on a part at neutral is there at neutral, and goes along as the part
// turns: with a rod set so long that the arm stands at 40 degrees at neutral, which is a
// place of the arm that was drawn 40 degrees back (a turn, reckoned here by itself).
func TestFastenedWhereItIsSeen(t *testing.T) {
	b := linkage.NewBuilder("Set", linkage.RunSpec{Units: linkage.Millimeters})
	b.Part("lever", linkage.PartSpec{Pivot: &linkage.Vec{}, Points: []linkage.PointSpec{{Name: "eye", At: linkage.Vec{Y: 100}}}})
	b.Part("arm", linkage.PartSpec{Pivot: &linkage.Vec{X: 200}, Points: []linkage.PointSpec{{Name: "eye", At: linkage.Vec{X: 200, Y: 100}}}})
	const turned = 40 * math.Pi / 180
	sin, cos := math.Sincos(turned)
	// The arm's eye at (200, 0) + 100 (-sin, cos); the lever's stays at (0, 100).
	b.Rod("link", linkage.RodSpec{From: "lever.eye", To: "arm.eye", Length: math.Hypot(200-100*sin, 100*cos-100)})
	low, high := -5.0, 5.0
	b.Control("hand", linkage.ControlSpec{Of: "lever", From: &low, To: &high})
	run, err := b.Run()
	require.NoError(t, err)
	mechanism, err := solve.Compile(run)
	require.NoError(t, err)
	result, err := mechanism.Check()
	require.NoError(t, err)
	l, err := newLive(result, result.Sweeps[0], LiveOptions{})
	require.NoError(t, err)
	arm := l.bodies.of(run.Parts[1])
	for _, drawn := range []linkage.Vec{{X: 200}, {X: 200, Y: 100}, {X: 230, Y: -40, Z: 7}} {
		x, y := drawn.X-200, drawn.Y
		now := linkage.Vec{X: 200 + cos*x - sin*y, Y: sin*x + cos*y, Z: drawn.Z}
		m := l.fasten(arm, now)
		const rounded = 1e-3 // places are written rounded
		assert.InDelta(t, 0, m.At.Sub(drawn).Norm(), rounded)
		assert.InDelta(t, 0, placeOf(m, l.neutral).Sub(now).Norm(), rounded)
	}
	assert.Equal(t, linkage.Vec{X: 1, Y: 2, Z: 3}, l.fasten(fixedBody, linkage.Vec{X: 1, Y: 2, Z: 3}).At)
}
