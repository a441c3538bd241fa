package solve

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
)

// What a fourbar in the drawing comes to by plane geometry is what it comes to by vectors in
// space, as for any other step: of random chains of levers at random poses.
func TestFlatRatesAreThoseInSpace(t *testing.T) {
	random := rand.New(rand.NewPCG(16, 1))
	around := func() float64 { return 100 * (2*random.Float64() - 1) }
	tried := 0
	for range 400 {
		text := "run \"Levers\" {\n  units = \"mm\"\n}\n"
		for i := range 3 {
			text += fmt.Sprintf("part \"p%d\" {\n  pivot = [%g, %g]\n  points = {\n    a = [%g, %g, %g]\n    b = [%g, %g, %g]\n  }\n}\n",
				i, around(), around(), around(), around(), around(), around(), around(), around())
		}
		text += "rod \"r0\" {\n  from = p0.a\n  to = p1.a\n}\nrod \"r1\" {\n  from = p2.a\n  to = p1.b\n}\n"
		text += "control \"c\" {\n  of = p0\n  from = -60\n  to = 60\n}\n"
		run, err := linkage.Read(&linkage.Source{Name: "levers", Text: []byte(text)})
		require.NoError(t, err)
		m, err := Compile(run)
		if err != nil {
			continue // it stands on center, or goes nowhere
		}
		require.True(t, m.flats[0].is && m.flats[1].is)
		p := m.newPath(run.Controls[0])
		x := 20 * (2*random.Float64() - 1)
		if p.solve(x, m.neutral.q) != allClosed {
			continue
		}
		flat, space := m.newRates(), m.newRates()
		m.differentiate(&p.st, flat, p.input)
		for i := range m.flats {
			m.flats[i].is = false
		}
		m.differentiate(&p.st, space, p.input)
		require.Equal(t, space.valid, flat.valid)
		if !flat.valid || math.Min(flat.sine[0], flat.sine[1]) < 0.01 {
			continue
		}
		tried++
		near := func(want, got []float64, what string) {
			for i := range want {
				assert.InDelta(t, want[i], got[i], 1e-9*math.Max(1, math.Abs(want[i])), "%s\n%s at %g", text, what, x)
			}
		}
		near(space.d, flat.d, "rates")
		near(space.dd, flat.dd, "second rates")
		near(space.sine, flat.sine, "sines")
		near(space.dsine, flat.dsine, "rates of sines")
		near(space.sign, flat.sign, "signs")
		for b := range space.moving {
			w, g := &space.moving[b], &flat.moving[b]
			for _, k := range [][2]vec{{w.rate, g.rate}, {w.rate2, g.rate2}, {w.spin, g.spin}, {w.spin2, g.spin2}} {
				assert.InDelta(t, 0, k[0].Sub(k[1]).Norm(), 1e-9*math.Max(1, k[0].Norm()), "%s\nbody %d", text, b)
			}
		}
	}
	assert.Greater(t, tried, 100)
}

// Two features in the drawing come nearest where they do in the plane at large.
func TestNearestInDrawingIsThatInThePlane(t *testing.T) {
	random := rand.New(rand.NewPCG(16, 2))
	place := func() vec { return vec{X: float64(random.IntN(9)), Y: float64(random.IntN(9))} }
	for range 20000 {
		a, b := laid{place(), place(), place()}, laid{place(), place()}
		if random.IntN(3) == 0 {
			b = b[:1]
		}
		flat, plane := nearest{dist: math.Inf(1)}, nearest{dist: math.Inf(1)}
		flat.takeAllInDrawing(a, b)
		for i := range a.count() {
			for j := range b.count() {
				p0, p1 := a.stretch(i)
				q0, q1 := b.stretch(j)
				plane.take(p0, p1, q0, q1, i, j, zAxis, true)
			}
		}
		require.Equal(t, plane, flat, "%v and %v", a, b)
	}
}
