package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage/hunt"
	"fullfree/solve"
)

// around returns a place within r of p, in the drawing.
func around(rng *rand.Rand, p vec, r float64) vec {
	return p.Add(at(r*(2*rng.Float64()-1), r*(2*rng.Float64()-1)))
}

// around3 is around, in space.
func around3(rng *rand.Rand, p vec, r float64) vec {
	return around(rng, p, r).Add(at3(0, 0, r*(2*rng.Float64()-1)))
}

// anyway returns a direction, evenly over the sphere.
func anyway(rng *rand.Rand) vec {
	for {
		v := at3(2*rng.Float64()-1, 2*rng.Float64()-1, 2*rng.Float64()-1)
		if n := v.Norm(); n > 0.1 && n < 1 {
			return v.Unit()
		}
	}
}

// skew is a hinge on the airframe about any axis.
func skew(rng *rand.Rand, name string, pivot vec, points ...spot) body {
	b := hinge(name, pivot, points...)
	b.axis = ref(anyway(rng))
	return b
}

// manyLoops are runs that no chain of dyads closes, with random dimensions
// about 100 wide. The control is "lever".
var manyLoops = []struct {
	name string
	draw func(*rand.Rand) drawing
}{
	{"a beam on three rods", func(r *rand.Rand) drawing {
		return drawing{
			bodies: []body{
				hinge("lever", around(r, at(0, 0), 10), spot{"pin", around(r, at(0, 60), 10)}),
				{name: "beam", points: []spot{{"a", around(r, at(60, 60), 10)}, {"b", around(r, at(120, 70), 15)}, {"c", around(r, at(90, 100), 15)}}},
				{name: "airframe", fixed: true, points: []spot{{"p", around(r, at(120, 0), 15)}, {"q", around(r, at(60, 150), 15)}}},
			},
			bars: []bar{{name: "r1", from: "lever.pin", to: "beam.a"}, {name: "r2", from: "beam.b", to: "airframe.p"}, {name: "r3", from: "airframe.q", to: "beam.c"}},
		}
	}},
	{"a beam on two rockers that are joined", func(r *rand.Rand) drawing {
		return drawing{
			bodies: []body{
				hinge("lever", around(r, at(0, 0), 10), spot{"pin", around(r, at(0, 60), 10)}),
				{name: "beam", points: []spot{{"a", around(r, at(60, 60), 10)}, {"b", around(r, at(120, 60), 10)}, {"c", around(r, at(90, 110), 15)}, {"d", around(r, at(130, 90), 10)}}},
				hinge("near", around(r, at(70, 0), 10), spot{"pin", around(r, at(100, 30), 10)}, spot{"horn", around(r, at(60, -40), 10)}),
				hinge("far", around(r, at(180, 30), 10), spot{"pin", around(r, at(180, 80), 10)}, spot{"horn", around(r, at(150, -30), 10)}),
				{name: "airframe", fixed: true, points: []spot{{"q", around(r, at(40, 150), 15)}}},
			},
			bars: []bar{
				{name: "r1", from: "lever.pin", to: "beam.a"}, {name: "r2", from: "near.pin", to: "beam.b"}, {name: "r3", from: "far.pin", to: "beam.d"},
				{name: "r4", from: "near.horn", to: "far.horn"}, {name: "r5", from: "airframe.q", to: "beam.c"},
			},
		}
	}},
	{"driven at a point of a rod", func(r *rand.Rand) drawing {
		return drawing{
			bodies: []body{
				hinge("lever", around(r, at(0, 0), 10), spot{"pin", around(r, at(10, 80), 10)}),
				hinge("near", around(r, at(60, 0), 10), spot{"pin", around(r, at(60, 60), 10)}),
				hinge("far", around(r, at(160, 0), 10), spot{"pin", around(r, at(150, 70), 10)}),
			},
			bars: []bar{
				{name: "coupler", from: "near.pin", to: "far.pin", points: []spot{{"lug", around(r, at(100, 110), 10)}}},
				{name: "drag", from: "lever.pin", to: "coupler.lug"},
			},
		}
	}},
	{"a beam on a slide", func(r *rand.Rand) drawing {
		return drawing{
			bodies: []body{
				hinge("lever", around(r, at(0, 0), 10), spot{"pin", around(r, at(0, 60), 10)}),
				{name: "beam", points: []spot{{"a", around(r, at(70, 60), 10)}, {"b", around(r, at(130, 50), 10)}, {"c", around(r, at(100, 110), 15)}, {"d", around(r, at(70, 100), 10)}}},
				{name: "guide", slide: ref(around(r, at(1, 0.3), 0.3)), points: []spot{{"low", around(r, at(140, -10), 10)}, {"high", around(r, at(200, 100), 15)}}},
				{name: "airframe", fixed: true, points: []spot{{"q", around(r, at(30, 160), 15)}}},
			},
			bars: []bar{{name: "r1", from: "lever.pin", to: "beam.a"}, {name: "r2", from: "guide.low", to: "beam.b"}, {name: "r3", from: "beam.c", to: "guide.high"}, {name: "r4", from: "airframe.q", to: "beam.d"}},
		}
	}},
	{"in space, one rod", func(r *rand.Rand) drawing {
		return drawing{
			bodies: []body{
				skew(r, "lever", around3(r, at(0, 0), 20), spot{"pin", around3(r, at3(0, 60, 20), 20)}),
				skew(r, "rocker", around3(r, at3(150, 0, 40), 20), spot{"pin", around3(r, at3(140, 70, 0), 20)}),
			},
			bars: []bar{{name: "link", from: "lever.pin", to: "rocker.pin"}},
		}
	}},
	{"in space, a carried arm held twice", func(r *rand.Rand) drawing {
		arm := body{name: "arm", on: "rocker.pin", axis: ref(anyway(r)), points: []spot{{"a", around3(r, at3(100, 110, 20), 20)}, {"b", around3(r, at3(180, 100, -30), 20)}}}
		return drawing{
			bodies: []body{
				skew(r, "lever", around3(r, at(0, 0), 20), spot{"pin", around3(r, at3(0, 60, 20), 20)}),
				skew(r, "rocker", around3(r, at3(150, 0, 40), 20), spot{"pin", around3(r, at3(140, 70, 0), 20)}),
				arm,
				{name: "airframe", fixed: true, points: []spot{{"q", around3(r, at3(220, 20, 30), 20)}}},
			},
			bars: []bar{{name: "link", from: "lever.pin", to: "arm.a"}, {name: "stay", from: "airframe.q", to: "arm.b"}},
		}
	}},
	{"in space, an arm on an arm on a slide", func(r *rand.Rand) drawing {
		return drawing{
			bodies: []body{
				skew(r, "lever", around3(r, at(0, 0), 20), spot{"pin", around3(r, at3(0, 60, 20), 20)}),
				{name: "guide", slide: ref(anyway(r)), points: []spot{{"eye", around3(r, at3(140, 0, 0), 20)}, {"lug", around3(r, at3(170, -30, 30), 20)}}},
				{name: "arm", on: "guide.eye", axis: ref(anyway(r)), points: []spot{{"tip", around3(r, at3(130, 70, 20), 20)}, {"ear", around3(r, at3(170, 40, -30), 20)}}},
				{name: "finger", on: "arm.tip", axis: ref(anyway(r)), points: []spot{{"a", around3(r, at3(80, 110, 0), 20)}, {"b", around3(r, at3(160, 120, 30), 20)}}},
				{name: "airframe", fixed: true, points: []spot{{"p", around3(r, at3(240, 20, 30), 20)}, {"q", around3(r, at3(230, 150, -30), 20)}, {"s", around3(r, at3(60, -60, 60), 20)}}},
			},
			bars: []bar{{name: "link", from: "lever.pin", to: "finger.a"}, {name: "stay", from: "airframe.q", to: "finger.b"}, {name: "brace", from: "airframe.p", to: "arm.ear"}},
		}
	}},
	{"a plate on a ball", func(r *rand.Rand) drawing {
		return drawing{
			bodies: []body{
				skew(r, "lever", around3(r, at(0, 0), 20), spot{"pin", around3(r, at3(0, 60, 20), 20)}),
				onBall(r, "plate", around3(r, at3(120, 60, 0), 10), spot{"a", around3(r, at3(70, 70, 10), 15)}, spot{"b", around3(r, at3(150, 60, 50), 15)}, spot{"c", around3(r, at3(130, 110, -20), 15)}),
				{name: "airframe", fixed: true, points: []spot{{"p", around3(r, at3(150, 0, 60), 20)}, {"q", around3(r, at3(60, 120, -60), 20)}}},
			},
			bars: []bar{{name: "link", from: "lever.pin", to: "plate.a"}, {name: "stay", from: "airframe.p", to: "plate.b"}, {name: "brace", from: "plate.c", to: "airframe.q"}},
		}
	}},
	{"a ring on a ball on a sleeve", func(r *rand.Rand) drawing {
		sleeve := skew(r, "sleeve", around3(r, at3(120, 20, 0), 10), spot{"center", around3(r, at3(120, 60, 0), 10)}, spot{"lug", around3(r, at3(150, 20, 20), 10)})
		sleeve.sleeve = true
		return drawing{
			bodies: []body{
				skew(r, "lever", around3(r, at(0, 0), 20), spot{"pin", around3(r, at3(0, 60, 20), 20)}),
				sleeve,
				{name: "ring", on: "sleeve.center", ball: true, axis: ref(anyway(r)), points: []spot{{"a", around3(r, at3(70, 60, 0), 15)}, {"b", around3(r, at3(150, 60, 50), 15)}, {"c", around3(r, at3(150, 60, -50), 15)}, {"d", around3(r, at3(140, 90, 0), 15)}}},
				{name: "airframe", fixed: true, points: []spot{{"p", around3(r, at3(150, -40, 60), 20)}, {"q", around3(r, at3(160, -40, -60), 20)}, {"s", around3(r, at3(140, 110, 90), 20)}, {"u", around3(r, at3(200, 0, 90), 20)}}},
			},
			bars: []bar{{name: "link", from: "lever.pin", to: "ring.a"}, {name: "stay", from: "airframe.p", to: "ring.b"}, {name: "brace", from: "airframe.q", to: "ring.c"}, {name: "anti", from: "airframe.s", to: "ring.d"}, {name: "hold", from: "sleeve.lug", to: "airframe.u"}},
		}
	}},
	{"a plate on six rods", func(r *rand.Rand) drawing {
		d := drawing{bodies: []body{skew(r, "lever", around3(r, at(0, 0), 20), spot{"pin", around3(r, at3(0, 60, 20), 20)})}}
		plate, air := body{name: "plate", roams: true, axis: ref(anyway(r))}, body{name: "airframe", fixed: true}
		for i := range 6 {
			p, q := polar(60, float64(i/2*120+i%2*40)), polar(90, float64((i+1)/2*120+i%2*-20))
			plate.points = append(plate.points, spot{fmt.Sprintf("p%d", i), around3(r, at3(120+p.X, 100, p.Y), 10)})
			bar := bar{name: fmt.Sprintf("r%d", i), from: "lever.pin", to: fmt.Sprintf("plate.p%d", i)}
			if i > 0 {
				air.points = append(air.points, spot{fmt.Sprintf("q%d", i), around3(r, at3(120+q.X, 0, q.Y), 10)})
				bar.from = fmt.Sprintf("airframe.q%d", i)
			}
			d.bars = append(d.bars, bar)
		}
		d.bodies = append(d.bodies, plate, air)
		return d
	}},
	{"a link joined in space", func(r *rand.Rand) drawing {
		pin := around3(r, at3(0, 60, 20), 20)
		return drawing{
			bodies: []body{
				skew(r, "lever", around3(r, at(0, 0), 20), spot{"pin", pin}),
				{name: "link", roams: true, axis: ref(anyway(r)), points: []spot{{"a", pin}, {"b", around3(r, at3(120, 60, 0), 15)}, {"c", around3(r, at3(90, 110, 20), 15)}, {"d", around3(r, at3(70, 60, -60), 15)}}},
				{name: "airframe", fixed: true, points: []spot{{"p", around3(r, at3(130, -20, 0), 20)}, {"q", around3(r, at3(150, 130, 60), 20)}, {"s", around3(r, at3(60, 0, -90), 20)}}},
			},
			bars: []bar{{name: "stay", from: "airframe.p", to: "link.b"}, {name: "brace", from: "link.c", to: "airframe.q"}, {name: "prop", from: "airframe.s", to: "link.d"}},
			pins: [][2]string{{"lever.pin", "link.a"}},
		}
	}},
	{"an arm on a part on a ball", func(r *rand.Rand) drawing {
		return drawing{
			bodies: []body{
				skew(r, "lever", around3(r, at(0, 0), 20), spot{"pin", around3(r, at3(0, 60, 20), 20)}),
				{name: "ball", on: "lever.pin", ball: true, axis: ref(anyway(r)), points: []spot{{"b", around3(r, at3(60, 90, 0), 15)}, {"c", around3(r, at3(40, 50, 60), 15)}, {"e", around3(r, at3(50, 60, -10), 10)}}},
				{name: "arm", on: "ball.e", axis: ref(anyway(r)), points: []spot{{"t", around3(r, at3(110, 70, -20), 15)}, {"u", around3(r, at3(80, 20, -60), 15)}}},
				{name: "airframe", fixed: true, points: []spot{{"p", around3(r, at3(140, 120, 0), 20)}, {"q", around3(r, at3(30, -30, 90), 20)}, {"s", around3(r, at3(180, 30, -10), 20)}, {"v", around3(r, at3(90, -40, -120), 20)}}},
			},
			bars: []bar{{name: "stay", from: "airframe.p", to: "ball.b"}, {name: "brace", from: "ball.c", to: "airframe.q"}, {name: "prop", from: "airframe.s", to: "arm.t"}, {name: "hold", from: "arm.u", to: "airframe.v"}},
		}
	}},
	{"scissors", func(r *rand.Rand) drawing {
		tip := around3(r, at3(60, 60, 0), 15)
		return drawing{
			bodies: []body{
				skew(r, "lever", around3(r, at(0, 0), 20), spot{"ear", around3(r, at3(0, 50, 10), 15)}, spot{"pin", around3(r, at3(10, 60, -60), 15)}),
				{name: "upper", on: "lever.ear", axis: ref(anyway(r)), points: []spot{{"tip", tip}}},
				onBall(r, "ring", around3(r, at3(120, 0, 0), 10), spot{"ear", around3(r, at3(110, 40, 0), 10)}, spot{"b", around3(r, at3(150, 20, 50), 15)}, spot{"c", around3(r, at3(100, 10, -50), 15)}),
				{name: "lower", on: "ring.ear", axis: ref(anyway(r)), points: []spot{{"tip", tip}}},
				{name: "airframe", fixed: true, points: []spot{{"p", around3(r, at3(200, -40, 60), 20)}}},
			},
			bars: []bar{{name: "stay", from: "airframe.p", to: "ring.b"}, {name: "link", from: "lever.pin", to: "ring.c"}},
			pins: [][2]string{{"upper.tip", "lower.tip"}},
		}
	}},
}

// onBall is a part on a ball on the airframe, its bolts anyhow.
func onBall(rng *rand.Rand, name string, center vec, points ...spot) body {
	b := skew(rng, name, center, points...)
	b.ball = true
	return b
}

// stiffEnough is the least singular value (both sides in sizes of the drawing)
// with which a random run is used: below it the minimizer is no judge, since
// its errors grow with the inverse.
const stiffEnough = 0.02

// TestHuntLoops compares every point of every run with the minimizer's
// places, through the travel.
func TestHuntLoops(t *testing.T) {
	const reach, stepped = 20.0, 2.5
	runs := hunt.Rounds()
	for kind, c := range manyLoops {
		compared := 0
		for seed := uint64(1); seed <= uint64(runs); seed++ {
			rng := rand.New(rand.NewPCG(seed, uint64(kind)))
			d := c.draw(rng)
			m := newModel(d, "lever")
			for m.stiffness(0, make([]float64, m.n)) < 2*stiffEnough {
				d = c.draw(rng)
				m = newModel(d, "lever")
			}
			about := fmt.Sprintf("%s, seed %d", c.name, seed)
			run, s := sweepOf(t, d.with(control("lever", -reach, reach)).text())
			for _, sign := range []float64{-1, 1} {
				var hands []float64
				for h := 0.0; h <= reach; h += stepped {
					hands = append(hands, sign*h)
				}
				for i, x := range m.follow(hands) {
					if m.stiffness(hands[i], x) < stiffEnough {
						break
					}
					st, ok := s.At(hands[i])
					require.True(t, ok, "%s: closes at %v, explored %v", about, hands[i], s.Explored)
					place := func(name string) vec { return st.Point(pointNamed(t, run, name)) }
					m.compare(t, place, hands[i], x, 1e-6, fmt.Sprintf("%s, at %v", about, hands[i]))
					compared++
				}
			}
			for i, end := range s.Ends {
				if end.Cause == solve.ByToggle {
					assertLocks(t, m, s, i, about)
				}
			}
		}
		assert.GreaterOrEqual(t, compared, runs*4, "%s: too few positions were compared", c.name)
	}
}

// assertLocks says that the curve of the rods' lengths, which the tracer follows, turns back at a
// toggle.
func assertLocks(t *testing.T, m *model, s *solve.Sweep, side int, about string) {
	t.Helper()
	end := s.Explored[side]
	tr := newTracer(m)
	out := tr.trace(make([]float64, m.n), 1.5*end)
	if out.lost || len(out.places) == 0 {
		return
	}
	assert.True(t, out.folds, "%s: no toggle at %v", about, end)
	near(t, end, tr.hand(out.places[len(out.places)-1]), foldPlace*math.Max(1, math.Abs(end)), about)
}

// TestRandomLoopsSetOff sets one rod of every run off its drawn length and
// compares the neutral pose.
func TestRandomLoopsSetOff(t *testing.T) {
	for kind, c := range manyLoops {
		rng := rand.New(rand.NewPCG(77, uint64(kind)))
		d := c.draw(rng)
		m := newModel(d, "lever")
		for m.stiffness(0, make([]float64, m.n)) < 5*stiffEnough {
			d = c.draw(rng)
			m = newModel(d, "lever")
		}
		d.bars[0].length = m.length(d.bars[0]) + 0.5
		xs := newModel(d, "lever").follow([]float64{0})
		require.Len(t, xs, 1, c.name)
		run, s := sweepOf(t, d.with(control("lever", -0.5, 0.5)).text())
		st := solveAt(t, s, 0)
		place := func(name string) vec { return st.Point(pointNamed(t, run, name)) }
		m.compare(t, place, 0, xs[0], 1e-6, c.name)
		// The parts' travel from the drawn position is the minimizer's unknown.
		for i, b := range d.bodies {
			if m.offset[i] >= 0 && b.pivot != nil && b.unknowns() == 1 {
				nearf(t, deg(xs[0][m.offset[i]]), partOf(t, s, b.name).Neutral, 1e-5, "%s: %s", c.name, b.name)
			}
		}
	}
}
