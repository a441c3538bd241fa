package picture

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/render"
	"fullfree/solve"
)

// A picture of nothing is an error that says so.
func TestPicturesOfNothing(t *testing.T) {
	b := linkage.NewBuilder("Lever", linkage.RunSpec{Units: linkage.Millimeters})
	b.Part("lever", linkage.PartSpec{Pivot: &linkage.Vec{}, Points: []linkage.PointSpec{{Name: "eye", At: linkage.Vec{Y: 50}}}})
	b.Control("hand", linkage.ControlSpec{Of: "lever"})
	run, err := b.Run()
	require.NoError(t, err)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	whole, err := m.Check()
	require.NoError(t, err)
	for _, r := range []*solve.Result{nil, {}, whole} {
		for _, w := range []*solve.Sweep{nil, {}} {
			var out bytes.Buffer
			assert.Error(t, Diagram(&out, r, w, DiagramOptions{}))
			assert.Error(t, Charts(&out, r, w, DiagramOptions{}))
			assert.Error(t, SheetsPDF(&out, "Sheets", []Sheet{{Result: r, Sweep: w}}, false))
			_, err := FullSize(r, w, FullSizeOptions{})
			assert.Error(t, err)
			assert.Empty(t, out.String())
		}
	}
	assert.Error(t, Overlay(&bytes.Buffer{}, []render.Variant{{}, {}}, DiagramOptions{}))

	// What a program put together is drawn like what was read, but there is no text to
	// write into.
	var out bytes.Buffer
	require.NoError(t, Diagram(&out, whole, whole.Sweeps[0], DiagramOptions{}))
	assert.Contains(t, out.String(), "lever")
	const says = "the run was not read from a file, so there is no text to write into"
	_, err = WithDatum(run)
	assert.EqualError(t, err, says)
	_, err = BlankFile(run, nil)
	assert.EqualError(t, err, says)
}
