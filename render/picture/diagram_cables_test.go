package picture

import (
	"math"
	"math/rand/v2"
	"testing"

	"fullfree/linkage"
	"fullfree/render/figure"
	"fullfree/render/internal/sample"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// An open cable leaves its quadrants square to their radii, at these, and from the
// sides from which a positive turn takes it up or pays it out as the file says.
func TestOpenCablesLeaveTheirQuadrantsAsTheyWind(t *testing.T) {
	r := rand.New(rand.NewPCG(6, 41))
	axis := linkage.Vec{Z: 1}
	for range 300 {
		quadrant := func() *linkage.Part {
			return &linkage.Part{Axis: axis.Scale(1 - 2*float64(r.IntN(2))), Pivot: linkage.Vec{X: 400 * r.Float64(), Y: 400 * r.Float64(), Z: 20 * r.Float64()}}
		}
		wind := func() float64 { return 1 - 2*float64(r.IntN(2)) }
		a, b := quadrant(), quadrant()
		c := &linkage.Cable{Quadrants: &[2]*linkage.Part{a, b}, Radius: [2]float64{10 + 40*r.Float64(), 10 + 40*r.Float64()}, Winds: [2]float64{wind(), wind()}}
		flat := b.Pivot.Sub(a.Pivot)
		flat.Z = 0
		tangent, ok := tangentOf(c)
		if flat.Norm() < c.Radius[0]+c.Radius[1] {
			continue
		}
		require.True(t, ok)
		cable := tangent.at[1].Sub(tangent.at[0])
		cable.Z = 0
		assert.InDelta(t, 1, cable.Unit().Dot(tangent.way), 1e-12, "it runs the way that it is said to")
		for i, part := range c.Quadrants {
			out := tangent.at[i].Sub(part.Pivot)
			assert.InDelta(t, c.Radius[i], out.Norm(), 1e-9)
			assert.InDelta(t, 0, out.Dot(tangent.way), 1e-9, "square to the radius")
			// Turned plus by a little, the rim goes away from the other quadrant
			// where the cable is taken up.
			goes := part.Axis.Cross(out).Dot(tangent.way) * [...]float64{-1, 1}[i]
			assert.Positive(t, goes*c.Winds[i])
			for _, p := range tangent.rim(c, i) {
				assert.InDelta(t, c.Radius[i], p.Sub(part.Pivot).Norm(), 1e-9)
			}
		}
	}
}

// How a cable runs between crossed quadrants isn't known, nor between two that lie
// within each other.
func TestOpenCablesThatHaveNoTangent(t *testing.T) {
	a, b := &linkage.Part{Axis: linkage.Vec{Z: 1}}, &linkage.Part{Axis: linkage.Vec{X: 1}, Pivot: linkage.Vec{Y: 200}}
	c := &linkage.Cable{Quadrants: &[2]*linkage.Part{a, b}, Radius: [2]float64{20, 20}, Winds: [2]float64{1, -1}}
	tangent, ok := tangentOf(c)
	assert.False(t, ok)
	assert.Equal(t, [2]linkage.Vec{a.Pivot, b.Pivot}, tangent.at)
	b.Axis, b.Pivot = a.Axis, linkage.Vec{Y: 30}
	c.Winds[1] = 1
	_, ok = tangentOf(c)
	assert.False(t, ok, "crossed within each other")
	b.Pivot = linkage.Vec{}
	_, ok = tangentOf(c)
	assert.False(t, ok, "one on the other")
}

// A conduit goes on from its core at either end.
func TestConduitsGoOnFromTheirCores(t *testing.T) {
	run := checkedOnce(t, "x", sample.DemoText(t, "lift-cables")).Run
	for _, c := range run.Cables {
		path := conduitPath(nil, c)
		last := len(path) - 1
		for i, leg := range c.Legs() {
			at, next := path[0], path[1]
			if i == 1 {
				at, next = path[last], path[last-1]
			}
			assert.InDelta(t, 0, at.Sub(leg[1].Get().At).Norm(), 1e-9)
			core := leg[1].Get().At.Sub(leg[0].Get().At).Unit()
			assert.Greater(t, next.Sub(at).Unit().Dot(core), 0.98)
		}
		for i := range last {
			assert.Less(t, path[i+1].Sub(path[i]).Norm(), 0.12*path[0].Sub(path[last]).Norm(), "smooth")
		}
	}
}

// Cables are numbered and listed after the rods, and what isn't drawn true is told.
func TestCablesAreListed(t *testing.T) {
	for kind, want := range map[string][]string{
		"lift-cables":    {"lift-up, cable in conduit, 186.9 mm of core", "Conduit, double line: path not drawn true."},
		"throttle-cable": {"throttle-cable, cable in conduit, 151.8 mm of core", "Conduit, double line: path not drawn true."},
		"pedals-cable":   {"tail-right, open cable, 7x19 1/8 galvanized"},
	} {
		r := checkedOnce(t, kind, sample.DemoText(t, kind))
		d, err := newDiagram(r, r.Sweeps[0], DiagramOptions{})
		require.NoError(t, err)
		said := texts(&d.scene)
		for _, words := range want {
			assert.Equal(t, 1, said[words], "%s: %s", kind, words)
			assert.Contains(t, d.story(), words)
		}
		for _, c := range r.Run.Cables {
			number := d.cableNumber(c)
			assert.Greater(t, number, len(r.Run.Parts)+len(r.Run.Rods))
			assert.Equal(t, 2, said[figure.Decimal(float64(number), 0)], "%s: a balloon and a row of the list", c.Name)
		}
		if kind == "pedals-cable" {
			assert.Empty(t, d.conduitNote())
		}
	}
}

// The rim of a quadrant has room in the picture, and in its detail.
func TestQuadrantsHaveRoom(t *testing.T) {
	r := checkedOnce(t, "x", sample.DemoText(t, "pedals-cable"))
	d, err := newDiagram(r, r.Sweeps[0], DiagramOptions{})
	require.NoError(t, err)
	assert.Equal(t, 60.0, d.rimOf(r.Run.Parts[0]))
	assert.Equal(t, 55.0, d.rimOf(r.Run.Parts[1]))
	assert.Equal(t, 0.0, d.rimOf(r.Run.Parts[2]))
	most := d.views[0].most.X
	assert.InDelta(t, 3150+55, most, 1e-9)
	assert.False(t, math.IsNaN(d.views[0].scale))
}
