package linkage

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestReadMeasurements(t *testing.T) {
	run := read(t, bench)
	assert.Equal(t, 1.25, run.Sketch)
	assert.Equal(t, 0.04, run.Uncertain)
	for _, p := range run.Parts {
		assert.Equal(t, p.Name == "frame", p.Exact, p.Name)
	}
	require.Len(t, run.Measurements, 3)
	foot, leans, grip := run.Measurements[0], run.Measurements[1], run.Measurements[2]

	assert.Equal(t, Taped, foot.Kind)
	assert.Equal(t, "foot to crank", foot.Name)
	assert.Equal(t, `taped "foot to crank"`, bench[foot.Span.Start:foot.Span.End])
	assert.Equal(t, "lever.foot", foot.From.String())
	assert.Equal(t, "crank.pivot", foot.To.String())
	assert.Equal(t, Vec{0.5, 8, 0}, foot.From.At())
	assert.Equal(t, Vec{7, -1, 0}, foot.To.At())
	assert.Equal(t, 11.125, foot.Is)
	assert.Equal(t, "11 + 1/8", bench[foot.IsSpan.Start:foot.IsSpan.End])
	assert.Equal(t, 0.0625, foot.Within)
	assert.False(t, foot.Blank)

	assert.Equal(t, Gauged, leans.Kind)
	assert.Equal(t, -1, leans.From.Point)
	assert.Same(t, find(t, run, "lever"), leans.From.Part)
	assert.Equal(t, 86.5, leans.Is)

	// A pivot named after a point is that point.
	assert.Equal(t, "crank.tip", grip.From.String())
	assert.Same(t, find(t, run, "crank"), grip.From.Part)
	assert.True(t, grip.Blank)
	assert.Zero(t, grip.Is)
}

// A file tells how well its coordinates are known; otherwise they are exact,
// and each may be out by about a millimeter where no survey says.
func TestReadExactness(t *testing.T) {
	inches, millimeters := read(t, cross), read(t, strings.Replace(cross, `"in"`, `"mm"`, 1))
	assert.Zero(t, inches.Sketch)
	assert.Equal(t, []float64{0.04, 1}, []float64{inches.Uncertain, millimeters.Uncertain})
	with := func(line string) *Run {
		return read(t, strings.Replace(cross, "units = \"in\"\n", "units = \"in\"\n"+line+"\n", 1))
	}
	assert.Equal(t, 0.25, with("uncertain = 1/4").Uncertain)
	assert.Zero(t, with("uncertain = 0").Uncertain)
	assert.Equal(t, 2.0, with("sketch = 2").Sketch)
	// What is measured of an exact drawing is measured nonetheless.
	exact := read(t, cross+"taped \"x\" {\n  from = bar.left\n  to = bar.tip\n  is = 5\n  within = 1\n}\n")
	assert.Len(t, exact.Measurements, 1)
	assert.False(t, read(t, strings.Replace(bench, "exact  = true", "exact  = false", 1)).Parts[0].Exact)
}

// cross is about the least that reads.
const cross = `run "Cross" {
  units = "in"
}
part "bar" {
  pivot  = [0, 0]
  points = { left = [-2, 0], right = [2, 0], tip = [2, 3] }
}
control "hand" {
  of   = bar
  from = -10
  to   = 20
}
`

// What is left to be measured is told by name, at its line.
func TestBlanks(t *testing.T) {
	run := read(t, bench)
	require.Len(t, run.Blanks(), 1)
	assert.Equal(t, "grip", run.Blanks()[0].Name)
	assert.EqualError(t, run.BlankFaults().Err(), `test.hcl:190,12: the distance "grip" is still blank: tape it and write it in
  190 | is     = blank
      |          ^^^^^`)
	gauged := read(t, strings.Replace(bench, "86.5", "blank", 1))
	require.Len(t, gauged.Blanks(), 2)
	assert.Equal(t, `the direction "lever leans" is still blank: gauge it and write it in`, gauged.BlankFaults().List[0].Says)
	filled := read(t, strings.Replace(bench, "blank", "8", 1))
	assert.Empty(t, filled.Blanks())
	assert.NoError(t, filled.BlankFaults().Err())
}

func TestReadRiggings(t *testing.T) {
	run := read(t, bench)
	require.Len(t, run.Riggings, 2)
	first, again := run.Riggings[0], run.Riggings[1]
	assert.Equal(t, "first rigging", first.Name)
	assert.Equal(t, `measured "first rigging"`, bench[first.Span.Start:first.Span.End])
	assert.Equal(t, Subject{Output: run.Outputs[0]}, first.Of)
	assert.Same(t, run.Controls[0], first.Control)
	assert.Equal(t, [][2]float64{{-20, 19.1}, {0, 4.6}, {20, -18.4}}, first.Readings)
	assert.Equal(t, 0.4, first.Within)
	assert.Equal(t, "2026-05-01", first.Date)

	assert.Equal(t, Subject{Part: find(t, run, "grip")}, again.Of)
	assert.Same(t, run.Controls[1], again.Control)
	assert.Equal(t, [][2]float64{{0.5, 3}}, again.Readings)
	assert.Empty(t, again.Date)

	// With one control it goes without saying.
	alone := read(t, cross+"measured \"x\" {\n  of = bar\n  readings = [[-10, 1], [20, 2], [20, 2.5]]\n  within = 1\n}\n")
	assert.Same(t, alone.Controls[0], alone.Riggings[0].Control)
	assert.Len(t, alone.Riggings[0].Readings, 3)
}
