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

// TestGrazingRounds: a boss passes a fixed round; nearest it is the difference
// of their distances from the pivot, less the radii. It must be met if that is
// below 0 by however little, over however short a stretch, and passed if not.
func TestGrazingRounds(t *testing.T) {
	for seed := uint64(1); seed <= 30; seed++ {
		rng := rand.New(rand.NewPCG(seed, 41))
		angle := 5 + 70*rng.Float64() // where they pass each other
		inner, outer := 40+10*rng.Float64(), 80+10*rng.Float64()
		ra := 5 + 5*rng.Float64()
		for _, clear := range []float64{1e-7, -1e-7, 1e-4, -1e-4, -1e-2} {
			about := fmt.Sprintf("seed %d: clear by %v at %v", seed, clear, angle)
			rb := outer - inner - ra - clear
			_, s := sweepOf(t, drawing{bodies: []body{
				{name: "lever", pivot: ref(at(0, 0)), points: []spot{{"tip", at(0, 100)}}, metal: []metal{{"boss", []vec{at(0, inner)}, ra}}},
				{name: "airframe", fixed: true, metal: []metal{{"tube", []vec{polar(outer, 90+angle)}, rb}}},
			}}.with(control("lever", -90, 90), "stop \"brush\" {\n  touch = [lever.boss, airframe.tube]\n}\n").text())
			if clear > 0 {
				assert.Equal(t, solve.ByLimit, s.Ends[1].Cause, about)
				continue
			}
			require.Equal(t, solve.ByStop, s.Ends[1].Cause, about)
			// The two circles of the triangle pivot, boss, tube: sides inner, outer, ra + rb.
			sum := ra + rb
			half := deg(math.Acos((inner*inner + outer*outer - sum*sum) / (2 * inner * outer)))
			near(t, angle-half, s.Ends[1].At, 180e-9, about)
			assert.Equal(t, "brush", s.Ends[1].Stop.Name, about)
		}
	}
}

// TestGrazingTheTop: the ladder's top rises to 1 with the foot at -3; a stop a
// little below that is met on the way, a little above never.
func TestGrazingTheTop(t *testing.T) {
	for _, below := range []float64{1e-3, 1e-6, 1e-9, 1e-11} {
		_, s := sweepOf(t, ladder(-4, 1).with("stop \"roof\" {\n  of = top\n  at = "+num(1-below)+"\n}\n").text())
		require.Equal(t, solve.ByStop, s.Ends[0].Cause, "%v below", below)
		foot := math.Sqrt(25 - (5-below)*(5-below))
		near(t, foot-3, s.Low, 5*1e-15/foot+8e-9, fmt.Sprintf("%v below", below))
		_, s = sweepOf(t, ladder(-4, 1).with("stop \"roof\" {\n  of = top\n  at = "+num(1+below)+"\n}\n").text())
		assert.Equal(t, solve.ByLimit, s.Ends[0].Cause, "%v above", below)
		assert.Nil(t, s.Stops[0].At)
	}
}

// spaceSegments returns the least distance of two segments in space: the
// distance of a place on the one from the other is convex along the one.
func spaceSegments(a, b, c, d vec) float64 {
	f := func(k float64) float64 { return toSegment(between(a, b, k), c, d) }
	low, high := 0.0, 1.0
	for range 100 {
		p, q := low+(high-low)/3, high-(high-low)/3
		if f(p) < f(q) {
			high = q
		} else {
			low = p
		}
	}
	return math.Min(f((low+high)/2), math.Min(f(0), f(1)))
}

// TestBarsInSpace: a rod with a diameter meets a bar of the airframe and a bar
// on a lever in space; compared by brute force.
func TestBarsInSpace(t *testing.T) {
	touched := 0
	for seed := uint64(1); seed <= 25; seed++ {
		rng := rand.New(rand.NewPCG(seed, 43))
		about := fmt.Sprintf("seed %d", seed)
		var d drawing
		for {
			d = manyLoops[4].draw(rng) // in space, one rod
			if m := newModel(d, "lever"); m.stiffness(0, make([]float64, m.n)) > 3*stiffEnough {
				break
			}
		}
		d.bars[0].diameter = 4 + 4*rng.Float64()
		// A post across the rod, a few millimeters clear of it.
		const thick = 6.0
		from, to := d.bodies[0].points[0].at, d.bodies[1].points[0].at
		across := anyway(rng)
		off := to.Sub(from).Cross(across).Unit().Scale(d.bars[0].diameter/2 + thick/2 + 2 + 6*rng.Float64())
		center := between(from, to, 0.3+0.4*rng.Float64()).Add(off)
		post := [2]vec{center.Add(across.Scale(60)), center.Sub(across.Scale(60))}
		text := d.with(control("lever", -40, 40), fmt.Sprintf(`
fixed "airframe" {
  edge "post" {
    through  = [%s, %s]
    diameter = %s
  }
}
stop "foul" {
  touch = [link, airframe.post]
}
`, write(post[0]), write(post[1]), num(thick))).text()
		run, s := sweepOf(t, text)
		rod, bar := metalNamed(t, run, "link"), metalNamed(t, run, "airframe.post")
		gapAt := func(x float64) (want, got float64) {
			st := solveAt(t, s, x)
			got, onA, onB, ok := st.Gap(rod, bar)
			require.True(t, ok, about)
			if got > 1e-3 {
				near(t, got, distance(onA, onB), 1e-9, about+": nearest places")
			}
			return spaceSegments(st.Point(run.Rods[0].From), st.Point(run.Rods[0].To), post[0], post[1]) - (d.bars[0].diameter+thick)/2, got
		}
		for i := range 21 {
			x := math.Min(s.High, s.Low+(s.High-s.Low)*float64(i)/20)
			want, got := gapAt(x)
			near(t, want, got, 1e-6, fmt.Sprintf("%s: at %v", about, x))
			assert.GreaterOrEqual(t, got, -1e-6, "%s: no metal inside metal between the stops", about)
		}
		for i, end := range s.Ends {
			if end.Cause == solve.ByStop {
				touched++
				_, got := gapAt(end.At)
				near(t, 0, got, 1e-7, fmt.Sprintf("%s: end %d", about, i))
				require.NotNil(t, end.Wear)
				const h, wild = 1e-4, 10
				inward := h * math.Copysign(1, -end.At)
				_, once := gapAt(end.At + inward)
				_, twice := gapAt(end.At + 2*inward)
				slope := (4*once - twice - 3*got) / (2 * h) // one-sided: beyond is metal
				if slope < wild {                           // near a toggle the difference quotient is no judge
					nearAt(t, 1/slope, end.Wear, 1e-3/slope, about+": wear")
				}
			}
		}
	}
	assert.Greater(t, touched, 5)
}

// TestHeights: features that share no height do not meet; without heights they
// meet at any.
func TestHeights(t *testing.T) {
	for _, c := range []struct {
		boss, tube string
		meet       bool
	}{
		{"", "", true},
		{"z = [0, 2]", "", true},
		{"z = [0, 2]", "z = [1, 3]", true},
		{"z = [0, 1]", "z = [2, 3]", false},
		{"z = [5, 6]", "z = [-6, -5]", false},
	} {
		_, s := sweepOf(t, `
run "heights" {
  units = "mm"
}
part "lever" {
  pivot = [0, 0]
  round "boss" {
    at     = [0, 50]
    radius = 5
    `+c.boss+`
  }
}
fixed "airframe" {
  round "tube" {
    at     = [-50, 0]
    radius = 5
    `+c.tube+`
  }
}
stop "touching" {
  touch = [lever.boss, airframe.tube]
}
`+control("lever", -45, 100))
		want := solve.ByLimit
		if c.meet {
			want = solve.ByStop
			near(t, 90-deg(2*math.Asin(0.1)), s.High, 1e-9, "two rounds 10 apart, 50 from the pivot")
		}
		assert.Equal(t, want, s.Ends[1].Cause, "%q %q", c.boss, c.tube)
	}
}
