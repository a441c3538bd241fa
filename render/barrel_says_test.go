package render

import (
	"testing"

	"fullfree/linkage"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// A turn of a barrel changes the length by the sum of the pitches where the hands are
// opposite, as of a turnbuckle, 2 mm of two M6x1; where they are alike by the difference,
// 0.25 mm of M8x1.25 and M6x1. What is set by half turns is no barrel.
func TestBarrelSays(t *testing.T) {
	zero, half := 0.0, 0.5
	for _, c := range []struct {
		from  string
		left  bool
		step  *float64
		words []string
	}{
		{"M6x1", true, &zero, []string{"link is turned as one barrel: the hands of its ends are opposite, so a turn changes the length by the sum of the pitches, 2.00 mm."}},
		{"M8x1.25", false, &zero, []string{"link is turned as one barrel: the hands of its ends are alike, so a turn changes the length by the difference of the pitches alone, 0.25 mm."}},
		{"M6x1", true, &half, nil},
	} {
		b := linkage.NewBuilder("Barrel", linkage.RunSpec{Units: linkage.Millimeters})
		b.Part("lever", linkage.PartSpec{Pivot: &linkage.Vec{}, Points: []linkage.PointSpec{{Name: "eye", At: linkage.Vec{Y: 50}}}})
		b.Part("arm", linkage.PartSpec{Pivot: &linkage.Vec{X: 200}, Points: []linkage.PointSpec{{Name: "eye", At: linkage.Vec{X: 200, Y: 50}}}})
		b.Rod("link", linkage.RodSpec{From: "lever.eye", To: "arm.eye", Ends: []linkage.EndSpec{
			{Side: "from", Thread: c.from, Left: c.left, Engaged: 20, Step: c.step},
			{Side: "to", Thread: "M6x1", Engaged: 20, Step: &zero},
		}})
		b.Control("hand", linkage.ControlSpec{Of: "lever"})
		run, err := b.Run()
		require.NoError(t, err)
		assert.Equal(t, c.words, BarrelSays(run))
	}
}
