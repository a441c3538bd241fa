package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/solve"
)

// shape is metal in a position: a line through points with half a thickness; a
// round has one point.
type shape struct {
	through []vec
	half    float64
}

// toSegment returns the distance of p from a segment.
func toSegment(p, a, b vec) float64 {
	ab := b.Sub(a)
	k := 0.0
	if n := ab.Dot(ab); n > 0 {
		k = math.Max(0, math.Min(1, p.Sub(a).Dot(ab)/n))
	}
	return distance(p, between(a, b, k))
}

// crosses says that two segments in the drawing cross.
func crosses(a, b, c, d vec) bool {
	side := func(p, q, r vec) float64 { return q.Sub(p).Cross(r.Sub(p)).Z }
	return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
}

func (s shape) segments() (out [][2]vec) {
	for i := range s.through {
		if i+1 < len(s.through) {
			out = append(out, [2]vec{s.through[i], s.through[i+1]})
		}
	}
	if len(s.through) == 1 {
		out = append(out, [2]vec{s.through[0], s.through[0]})
	}
	return out
}

// gap returns the clearance of two shapes: two segments are nearest at an end
// of one of them, unless they cross.
func gap(a, b shape) float64 {
	least := math.Inf(1)
	for _, p := range a.segments() {
		for _, q := range b.segments() {
			if crosses(p[0], p[1], q[0], q[1]) {
				least = 0
			}
			least = math.Min(least, math.Min(
				math.Min(toSegment(p[0], q[0], q[1]), toSegment(p[1], q[0], q[1])),
				math.Min(toSegment(q[0], p[0], p[1]), toSegment(q[1], p[0], p[1]))))
		}
	}
	return least - a.half - b.half
}

// sampled returns the least distance of n points along each of the two.
func sampled(a, b shape, n int) float64 {
	least := math.Inf(1)
	for _, p := range a.segments() {
		for _, q := range b.segments() {
			for i := range n + 1 {
				for j := range n + 1 {
					least = math.Min(least, distance(between(p[0], p[1], float64(i)/float64(n)), between(q[0], q[1], float64(j)/float64(n))))
				}
			}
		}
	}
	return least - a.half - b.half
}

// touching is a random run in which something may meet, and where its two
// shapes are with the control at x.
type touching struct {
	d     drawing
	names [2]string
	pose  func(x float64) [2]shape
}

// contacts makes runs of each pair of kinds of metal. The linkage is a
// parallelogram-like four-bar with its crank drawn upright.
var contacts = []struct {
	name string
	make func(*rand.Rand) touching
}{
	{"round to round", func(r *rand.Rand) touching { return leverMetal(r, 1, 1) }},
	{"round to edge", func(r *rand.Rand) touching { return leverMetal(r, 1, 3) }},
	{"edge to round", func(r *rand.Rand) touching { return leverMetal(r, 3, 1) }},
	{"edge to edge", func(r *rand.Rand) touching { return leverMetal(r, 2, 3) }},
	{"rod to round", func(r *rand.Rand) touching { return rodMetal(r, 1) }},
	{"rod to edge", func(r *rand.Rand) touching { return rodMetal(r, 2) }},
	{"round to round, both moving", bothMove},
}

// leverMetal is a lever with metal through so many points, and such on the airframe.
func leverMetal(rng *rand.Rand, moving, fixed int) touching {
	var tail, block []vec
	for i := range moving {
		tail = append(tail, around(rng, at(0, 30+25*float64(i)), 12))
	}
	a := 100*rng.Float64() - 50 // where the fixed metal stands, from upright
	for i := range fixed {
		block = append(block, rotate(around(rng, at(0, 30+25*float64(i)), 12), at3(0, 0, 1), a))
	}
	m := shape{tail, 1 + 5*rng.Float64()}
	f := shape{block, 1 + 5*rng.Float64()}
	width := func(s shape) float64 {
		if len(s.through) == 1 {
			return s.half
		}
		return 2 * s.half
	}
	return touching{
		d: drawing{bodies: []body{
			{name: "lever", pivot: ref(at(0, 0)), points: []spot{{"tip", at(0, 100)}}, metal: []metal{{"tail", tail, width(m)}}},
			{name: "airframe", fixed: true, metal: []metal{{"block", block, width(f)}}},
		}}.with(control("lever", -90, 90)),
		names: [2]string{"lever.tail", "airframe.block"},
		pose: func(x float64) [2]shape {
			out := shape{half: m.half}
			for _, p := range tail {
				out.through = append(out.through, rotate(p, at3(0, 0, 1), x))
			}
			return [2]shape{out, f}
		},
	}
}

// rodMetal is a four-bar whose rod has a diameter, and metal on the airframe.
func rodMetal(rng *rand.Rand, fixed int) touching {
	f := fourBar{ground: 100 + 20*rng.Float64(), crank: 50 + 20*rng.Float64(), coupler: 100 + 20*rng.Float64(), rocker: 50 + 20*rng.Float64()}
	const crank = 90.0
	d := f.draw(crank, 1)
	d.bars[0].diameter = 2 + 6*rng.Float64()
	var block []vec
	side := 1.0
	if rng.IntN(2) == 1 {
		side = -1
	}
	for range fixed {
		block = append(block, around(rng, at(50, 60+25*side), 20))
	}
	s := shape{block, 0.5 + 4*rng.Float64()}
	width := s.half
	if fixed > 1 {
		width *= 2
	}
	d.bodies = append(d.bodies, body{name: "airframe", fixed: true, metal: []metal{{"block", block, width}}})
	return touching{
		d:     d.with(control("crank", -60, 60)),
		names: [2]string{"coupler", "airframe.block"},
		pose: func(x float64) [2]shape {
			j, ok := f.joint(crank + x)
			if !ok {
				return [2]shape{{through: []vec{at(math.NaN(), 0)}}, s}
			}
			return [2]shape{{[]vec{polar(f.crank, crank+x), j}, d.bars[0].diameter / 2}, s}
		},
	}
}

// bothMove is a four-bar with a round on each of its arms.
func bothMove(rng *rand.Rand) touching {
	f := fourBar{ground: 90 + 20*rng.Float64(), crank: 50 + 20*rng.Float64(), coupler: 90 + 20*rng.Float64(), rocker: 60 + 20*rng.Float64(), crossed: true}
	const crank = 90.0
	d := f.draw(crank, 1)
	a, b := around(rng, at(20, 45), 12), around(rng, at(f.ground-40, 25), 12)
	ra, rb := 4+8*rng.Float64(), 4+8*rng.Float64()
	d.bodies[0].metal = []metal{{"boss", []vec{a}, ra}}
	d.bodies[1].metal = []metal{{"boss", []vec{b}, rb}}
	_, drawn := f.angles(crank)
	return touching{
		d:     d.with(control("crank", -60, 60)),
		names: [2]string{"crank.boss", "rocker.boss"},
		pose: func(x float64) [2]shape {
			if _, ok := f.joint(crank + x); !ok {
				return [2]shape{{through: []vec{at(math.NaN(), 0)}}, {through: []vec{b}}}
			}
			_, now := f.angles(crank + x)
			far := at(f.ground, 0)
			return [2]shape{
				{[]vec{rotate(a, at3(0, 0, 1), x)}, ra},
				{[]vec{far.Add(rotate(b.Sub(far), at3(0, 0, 1), now-drawn))}, rb},
			}
		},
	}
}

// TestRandomContacts looks for the first contact on each side by brute force,
// in steps of 1/50 degree, and compares where, and the gap before it.
func TestRandomContacts(t *testing.T) {
	const step = 0.02
	for kind, c := range contacts {
		touched := 0
		for seed := uint64(1); seed <= 25; seed++ {
			rng := rand.New(rand.NewPCG(seed, uint64(100+kind)))
			about := fmt.Sprintf("%s, seed %d", c.name, seed)
			m := c.make(rng)
			g := func(x float64) float64 { p := m.pose(x); return gap(p[0], p[1]) }
			for !(g(0) > 0.1) {
				m = c.make(rng)
			}
			run, s := sweepOf(t, m.d.with(fmt.Sprintf("stop \"metal\" {\n  touch = [%s, %s]\n}\n", m.names[0], m.names[1])).text())
			a, b := metalNamed(t, run, m.names[0]), metalNamed(t, run, m.names[1])
			for side, sign := range []float64{-1, 1} {
				contact, graze := math.NaN(), false
				for x := step; x <= sign*s.Explored[side]; x += step {
					v := g(sign * x)
					graze = graze || math.Abs(v) < 1e-5
					if v <= 0 {
						contact = bisect(func(x float64) float64 { return g(sign * x) }, x-step, x)
						break
					}
				}
				if graze && math.IsNaN(contact) { // too near to call by brute force
					continue
				}
				end := s.Ends[side]
				if math.IsNaN(contact) {
					assert.NotEqual(t, solve.ByStop, end.Cause, "%s: a stop at %v, where the gap is %v", about, end.At, g(end.At))
					continue
				}
				touched++
				require.Equal(t, solve.ByStop, end.Cause, "%s: contact at %v, end %+v", about, sign*contact, end)
				near(t, sign*contact, end.At, 1e-8, about)
				// Wear: how far the control goes on for each unit worn off.
				const h = 1e-4
				slope := (g(end.At+h) - g(end.At-h)) / (2 * h)
				if math.Abs(slope) > 0.05 {
					nearAt(t, 1/math.Abs(slope), end.Wear, 1e-4/math.Abs(slope), about+": wear")
				}
			}
			for i := range 9 {
				x := min(s.Low+(s.High-s.Low)*float64(i)/8, s.High)
				if i%8 == 0 && s.Ends[i/8].Cause == solve.ByToggle { // places are known there to the root of rounding
					continue
				}
				p := m.pose(x)
				want := gap(p[0], p[1])
				got, onA, onB, ok := solveAt(t, s, x).Gap(a, b)
				require.True(t, ok, about)
				near(t, want, got, 1e-7, about+": gap")
				if got > 1e-6 {
					near(t, got, distance(onA, onB), 1e-9, about+": the nearest places are the gap apart")
				}
				if i == 4 {
					coarse := sampled(p[0], p[1], 200)
					assert.LessOrEqual(t, got, coarse+1e-7, about)
					near(t, coarse, got, 1, about+": sampled densely")
				}
			}
		}
		assert.Greater(t, touched, 5, "%s: hardly anything met", c.name)
	}
}

// bisect returns where f changes sign between a and b.
func bisect(f func(float64) float64, a, b float64) float64 {
	positive := f(a) > 0
	for range 60 {
		m := (a + b) / 2
		if (f(m) > 0) == positive {
			a = m
		} else {
			b = m
		}
	}
	return (a + b) / 2
}
