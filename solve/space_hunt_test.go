package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/optimize"

	"fullfree/linkage/hunt"
	"fullfree/solve"
)

// astray is a place at random about another one.
func astray(random *rand.Rand, at vec, size float64) vec {
	return at.Add(vec{X: random.NormFloat64(), Y: random.NormFloat64(), Z: random.NormFloat64()}.Scale(size))
}

// TestHuntSpatial holds random plates loose in space on six rods, of which levers move some, against a search for the
// pose that fits the raw distances best (gonum/optimize): a general library that knows no mechanism.
func TestHuntSpatial(t *testing.T) {
	compared := 0
	hunt.Each(t, 12, func(t *testing.T, random *rand.Rand) {
		var below, above [6]vec
		text := "run \"random\" {\n  units = \"mm\"\n}\n"
		plate, rods, bases := "", "", ""
		pivot := vec{X: 200, Y: -10}
		for i := range 6 {
			s, c := math.Sincos(float64((i+1)/2)*2*math.Pi/3 + 0.3*float64(i%2*2-1))
			below[i] = astray(random, vec{X: 120 * c, Z: 120 * s}, 8)
			s, c = math.Sincos(float64(i/2)*2*math.Pi/3 + math.Pi/3 + 0.3*float64(1-i%2*2))
			above[i] = astray(random, vec{X: 80 * c, Y: 110, Z: 80 * s}, 8)
			plate += fmt.Sprintf("    p%d = %s\n", i, placed(above[i]))
			from := "lever.tip"
			if i > 0 {
				bases += fmt.Sprintf("    b%d = %s\n", i, placed(below[i]))
				from = fmt.Sprintf("base.b%d", i)
			}
			rods += fmt.Sprintf("rod \"leg%d\" {\n  from = %s\n  to = plate.p%d\n}\n", i, from, i)
		}
		text += fmt.Sprintf("fixed \"base\" {\n  points = {\n%s  }\n}\npart \"plate\" {\n  floats = \"space\"\n  points = {\n%s  }\n}\npart \"lever\" {\n  pivot = %s\n  axis = [0, 0, 1]\n  points = { tip = %s }\n}\n%scontrol \"hand\" {\n  of = lever\n  from = -12\n  to = 12\n}\n",
			bases, plate, placed(pivot), placed(below[0]), rods)
		run := read(t, text)
		m, err := solve.Compile(run)
		if err != nil {
			return // it stands on center as drawn
		}
		w, err := m.Sweep(run.Controls[0], nil)
		require.NoError(t, err, text)
		guess := make([]float64, 6)
		for x := 0.0; x < w.Explored[1]-0.5; x += 1.5 {
			pose, ok := w.At(x)
			require.True(t, ok, text)
			tip := turnedBy(below[0].Sub(pivot), vec{Z: 1}, x*math.Pi/180).Add(pivot)
			place := func(y []float64, i int) vec {
				v := vec{X: y[0], Y: y[1], Z: y[2]}
				p := above[i].Sub(vec{Y: 110})
				if n := v.Norm(); n > 0 {
					p = turnedBy(p, v.Scale(1/n), n)
				}
				return p.Add(vec{X: y[3] * 100, Y: 110 + y[4]*100, Z: y[5] * 100})
			}
			off := func(y []float64) (sum float64) {
				for i := range above {
					from := below[i]
					if i == 0 {
						from = tip
					}
					d := place(y, i).Sub(from).Norm() - above[i].Sub(below[i]).Norm()
					sum += d * d
				}
				return sum
			}
			found, err := optimize.Minimize(optimize.Problem{Func: off, Grad: func(g, y []float64) { gradientOf(g, y, off) }}, guess,
				&optimize.Settings{GradientThreshold: 1e-9, MajorIterations: 400}, &optimize.BFGS{})
			if err != nil && found == nil || found.F > 1e-13 {
				return // the search went astray, or the run nears its end
			}
			for i := range above {
				apart := pose.Point(run.Rods[i].To).Sub(pose.Point(run.Rods[i].From)).Norm()
				require.InDelta(t, run.Rods[i].Length, apart, 1e-12*run.Size(), text)
				require.Less(t, pose.Point(run.Rods[i].To).Sub(place(found.X, i)).Norm(), 1e-5, "leg %d at %v\n%s", i, x, text)
			}
			guess = found.X
			compared++
		}
	})
	assert.Positive(t, compared)
	t.Logf("%d poses compared", compared)
}

// gradientOf fills in the slopes, by differences of the fourth order.
func gradientOf(g, y []float64, f func([]float64) float64) {
	const h = 1e-3
	for i := range y {
		at := y[i]
		value := func(by float64) float64 {
			y[i] = at + by
			return f(y)
		}
		g[i] = (8*(value(h)-value(-h)) - (value(2*h) - value(-2*h))) / (12 * h)
		y[i] = at
	}
}

// TestHuntBallsAgainstHinges holds random plane four-bars against the same written with a part loose in space for the rod
// and a rocker on a ball, kept on its way by a joint to a hinge.
func TestHuntBallsAgainstHinges(t *testing.T) {
	hunt.Each(t, 12, func(t *testing.T, random *rand.Rand) {
		plane := func(size float64) vec { return vec{X: size * random.NormFloat64(), Y: size * random.NormFloat64()} }
		pivot := vec{X: 150}.Add(plane(30))
		crank, rocker := vec{Y: 40}.Add(plane(20)), pivot.Add(vec{Y: 70}).Add(plane(25))
		head := fmt.Sprintf("run \"bar\" {\n  units = \"mm\"\n}\npart \"crank\" {\n  pivot = [0, 0, 0]\n  points = { pin = %s }\n}\n", placed(crank))
		tail := "control \"hand\" {\n  of = crank\n  from = -175\n  to = 175\n}\noutput \"out\" {\n  of = rocker.pin\n  along = [1, 0, 0]\n}\n"
		hinges := head + fmt.Sprintf("part \"rocker\" {\n  pivot = %s\n  points = { pin = %s }\n}\nrod \"bar\" {\n  from = crank.pin\n  to = rocker.pin\n}\n", placed(pivot), placed(rocker)) + tail
		balls := head + fmt.Sprintf("part \"rocker\" {\n  ball = %s\n  points = { pin = %s }\n}\npart \"guide\" {\n  pivot = %s\n  points = { pin = %s }\n}\npart \"bar\" {\n  floats = \"space\"\n  points = { one = %s, two = %s }\n}\njoint \"a\" {\n  of = [crank.pin, bar.one]\n}\njoint \"b\" {\n  of = [bar.two, guide.pin]\n}\njoint \"c\" {\n  of = [guide.pin, rocker.pin]\n}\n",
			placed(pivot), placed(rocker), placed(pivot), placed(rocker), placed(crank), placed(rocker)) + tail
		run, want := sweepOf(t, hinges)
		other, got := sweepOf(t, balls)
		near := func(a, b float64) bool { return math.Abs(a-b) <= 1e-7 }
		require.True(t, near(want.Explored[0], got.Explored[0]) && near(want.Explored[1], got.Explored[1]), "%v and %v\n%s", want.Explored, got.Explored, balls)
		for i := range want.Ends {
			require.Equal(t, want.Ends[i].Cause, got.Ends[i].Cause, balls)
		}
		for share := 0.05; share < 1; share += 0.09 {
			x := want.Low + share*(want.High-want.Low)
			a, ok := want.At(x)
			require.True(t, ok)
			b, ok := got.At(x)
			require.True(t, ok)
			require.InDelta(t, a.Reading(run.Outputs[0]), b.Reading(other.Outputs[0]), 1e-9*run.Size(), "at %v of %v\n%s", x, want.Explored, balls)
		}
	})
}
