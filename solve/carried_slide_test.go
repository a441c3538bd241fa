package solve_test

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/solve"
)

// A slider whose guide rides on a lever slides along the guide as that has turned: its
// tip, at (100, 0) as drawn and 10 further out, stands at 110 (cos 60, sin 60) once the
// lever has turned by 60 degrees. What is required to be steady is told by how far it is
// from neutral, wherever that reads.
func TestACarriedSliderSlidesAlongItsGuide(t *testing.T) {
	run := read(t, `
run "Guide" { units = "mm" }
part "lever" {
  pivot  = [0, 0]
  points = { guide = [80, 0] }
}
part "slider" {
  pivot  = lever.guide
  slide  = [1, 0]
  points = { tip = [100, 0] }
}
control "swing" {
  of   = lever
  from = -70
  to   = 70
}
control "push" {
  of   = slider
  from = -20
  to   = 20
  held = [0, 10]
}
output "gauge" {
  of    = lever
  reads = 30
}
require "steady" {
  of      = gauge
  within  = 100
  control = swing
}
`)
	m, err := solve.Compile(run)
	require.NoError(t, err)
	s, err := m.Sweep(run.Controls[0], []solve.Held{{Control: run.Controls[1], At: 10}})
	require.NoError(t, err)
	st, ok := s.At(60)
	require.True(t, ok)
	at := st.Point(linkage.PointRef{Part: run.Parts[1], Point: 0})
	assert.InDelta(t, 55, at.X, 1e-9)
	assert.InDelta(t, 95.26279441628824, at.Y, 1e-9)

	p, ok := s.Sample(60)
	require.True(t, ok)
	for i, k := range s.Series() {
		switch k.Kind {
		case solve.SeriesRequirement:
			assert.InDelta(t, 60, *p.Values[i], 1e-9, "from neutral")
		case solve.SeriesOutput:
			assert.InDelta(t, 90, *p.Values[i], 1e-9)
		}
	}
	for i, body := range s.Bodies() {
		f := p.Frames[i]
		if body.Part == run.Parts[1] {
			assert.InDelta(t, 55, f.Place(linkage.Vec{X: 100}).X, 1e-9)
			assert.InDelta(t, 95.26279441628824, f.Place(linkage.Vec{X: 100}).Y, 1e-9)
		}
	}
}
