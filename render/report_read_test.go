package render

import (
	"math"
	"strings"
	"testing"

	"fullfree/linkage"
	"fullfree/render/internal/sample"

	"github.com/stretchr/testify/assert"
)

// What was read is told so that a hole given in the wrong way shows.
func TestReportTellsWhatWasRead(t *testing.T) {
	chain := reported(t, sample.Checked(t, "chain.hcl", sample.DemoText(t, "chain")))
	assert.Contains(t, chain, "\nAS READ\n")
	assert.Contains(t, chain, "  lever turns on the airframe at [0.000, 0.000]\n    hand 13.757 in at 19.1°\n    horn 3.250 in (3 1/4) at -105.0°\n")
	assert.Contains(t, chain, "  plunger slides along [0.06, 0.998, 0]\n    eye  at [-19.750 (-19 3/4), 27.000]\n")
	mixer := reported(t, sample.Checked(t, "mixer.hcl", sample.DemoText(t, "mixer")))
	assert.Contains(t, mixer, "  airframe is fixed\n    mast-bracket at [240.0, 422.0]\n")
	assert.Contains(t, mixer, "  mixing-lever turns on collective-arm.pin, carried by it, at\n    [110.0, 0.0]\n    horn         60.0 mm at 90.0°, 20.0 mm nearer to you\n")
	assert.Contains(t, mixer, "  ring floats, held by rods alone\n    fore         at [180.0, 420.0]\n")
	sticks := reported(t, sample.Checked(t, "sticks.hcl", sample.DemoText(t, "sticks")))
	assert.Contains(t, sticks, "  roll-crank turns on the airframe at [0.0, -81.0, -30.0], about\n    [1, 0, 0]\n    in    48.0 mm off its axis, at [0.0, -33.0, -30.0]\n")
}

func TestHoleRead(t *testing.T) {
	run := &linkage.Run{Units: linkage.Millimeters, Plane: true}
	part := &linkage.Part{Motion: linkage.Turns, Axis: linkage.Vec{Z: 1}, Pivot: linkage.Vec{X: 10, Y: 20}}
	assert.Equal(t, "5.0 mm at 126.9°", holeRead(run, part, linkage.Vec{X: 7, Y: 24}))
	assert.Equal(t, "5.0 mm at -90.0°, 3.0 mm farther from you", holeRead(run, part, linkage.Vec{X: 10, Y: 15, Z: -3}))
	assert.Equal(t, "on its axis, 2.0 mm nearer to you", holeRead(run, part, linkage.Vec{X: 10, Y: 20, Z: 2}))
	part.Axis.Z = -1
	assert.Contains(t, partRead(run, part), ", about [0, 0, -1]", "plus is clockwise")
	part.Axis = linkage.Vec{X: math.Sqrt(0.5), Y: math.Sqrt(0.5)}
	run.Plane = false
	assert.Equal(t, "turns on the airframe at [10.0, 20.0, 0.0], about [0.707, 0.707, 0]", partRead(run, part))
	assert.Equal(t, "4.0 mm off its axis, at [13.0, 23.0, -4.0]", holeRead(run, part, linkage.Vec{X: 13, Y: 23, Z: -4}))
}

func TestPartReadNamesWhatCarriesIt(t *testing.T) {
	run := &linkage.Run{Units: linkage.Inches, Plane: true}
	base := &linkage.Part{Name: "base", Motion: linkage.Turns, Points: []linkage.Point{{Name: "eye"}}}
	ref := &linkage.PointRef{Part: base}
	part := &linkage.Part{Motion: linkage.Slides, Slide: linkage.Vec{X: 1}, Carrier: ref, NamedPivot: ref}
	assert.Equal(t, "slides along [1, 0, 0] on base.eye, carried by it, at [0.000, 0.000]", partRead(run, part))
	part = &linkage.Part{Motion: linkage.Turns, Axis: linkage.Vec{Z: 1}, NamedPivot: ref, Pivot: linkage.Vec{X: 1.5}}
	assert.Equal(t, "turns on base.eye at [1.500 (1 1/2), 0.000]", partRead(run, part), "a point of the airframe carries nothing")
}

func TestPageKeepsCoordinatesTogether(t *testing.T) {
	assert.Equal(t, []string{"at", "[1 1/2, 2, 3]", "and", "more"}, pieces("at [1 1/2, 2, 3] and more"))
	place := "[-300.125 (-300 1/8), 60.250 (60 1/4), 12.500 (12 1/2)]"
	assert.Equal(t, []string{"at", place, "and", "more"}, pieces("at "+place+" and more"))
	for _, piece := range pieces("[" + strings.Repeat("word ", 100)) {
		assert.Less(t, len(piece), 2*mostBracket, "a bracket that isn't closed is split")
	}
}
