package solve

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
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
		m.differentiateAtLarge(&p.st, space, p.input)
		require.Equal(t, space.valid, flat.valid)
		if !flat.valid || math.Min(flat.sine[0], flat.sine[1]) < 0.01 {
			continue
		}
		tried++
		sameRates(t, space, flat, fmt.Sprintf("%s\nat %g", text, x))
	}
	assert.Greater(t, tried, 100)
}

// differentiateAtLarge is differentiate by the way that does for every step.
func (m *Mechanism) differentiateAtLarge(st *state, r *rates, input int) {
	r.d[input], r.valid = 1, true
	for i := range m.steps {
		if m.steps[i].kind == closePull {
			m.differentiatePull(st, r, i, nil)
		} else {
			m.differentiateMany(st, r, i)
		}
	}
	m.moveAll(st, r, m.remains)
}

func sameRates(t *testing.T, want, got *rates, about string) {
	near := func(want, got []float64, what string) {
		for i := range want {
			assert.InDelta(t, want[i], got[i], 1e-9*math.Max(1, math.Abs(want[i])), "%s: %s", about, what)
		}
	}
	near(want.d, got.d, "rates")
	near(want.dd, got.dd, "second rates")
	near(want.sine, got.sine, "sines")
	near(want.dsine, got.dsine, "rates of sines")
	near(want.sign, got.sign, "signs")
	for b := range want.moving {
		w, g := &want.moving[b], &got.moving[b]
		for _, k := range [][2]vec{{w.rate, g.rate}, {w.rate2, g.rate2}, {w.spin, g.spin}, {w.spin2, g.spin2}} {
			assert.InDelta(t, 0, k[0].Sub(k[1]).Norm(), 1e-9*math.Max(1, k[0].Norm()), "%s: body %d", about, b)
		}
	}
}

// What each demo's steps come to is what the way that does for every step comes to, with
// levers about any axis, slides, parts carried by others and rods on rods.
func TestRatesOfDemosAreThoseAtLarge(t *testing.T) {
	files, err := filepath.Glob("../demo/*.hcl")
	require.NoError(t, err)
	kinds := map[stepKind]int{}
	for _, name := range files {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		run, err := linkage.Read(&linkage.Source{Name: name, Text: text})
		require.NoError(t, err)
		m, err := Compile(run)
		require.NoError(t, err)
		for i := range m.steps {
			kinds[m.steps[i].kind]++
		}
		for _, c := range run.Controls {
			p := m.newPath(c)
			for _, share := range []float64{-0.15, 0.01, 0.1} {
				x := float64(share * (c.To - c.From))
				if p.solve(x, m.neutral.q) != allClosed {
					continue
				}
				got, want := m.newRates(), m.newRates()
				m.differentiate(&p.st, got, p.input)
				m.differentiateAtLarge(&p.st, want, p.input)
				require.Equal(t, want.valid, got.valid)
				sameRates(t, want, got, fmt.Sprintf("%s at %g", name, x))
			}
		}
	}
	assert.Positive(t, kinds[closeCrank])
	assert.Positive(t, kinds[closeGuide])
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
