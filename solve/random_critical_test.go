package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/diff/fd"
	"gonum.org/v1/gonum/mat"

	"fullfree/solve"
)

// TestRandomChainsDeadCenters: in a chain a dead center is told for the arm
// where it arises, not for what is behind it, and looking ends at the first
// toggle of any stage. Both are found here by following the closed form in
// small steps.
func TestRandomChainsDeadCenters(t *testing.T) {
	const stages, step = 3, 0.1
	told := 0
	for seed := uint64(1); seed <= 20; seed++ {
		rng := rand.New(rand.NewPCG(seed, 31))
		about := fmt.Sprintf("seed %d", seed)
		fs, cranks, d := randomChain(rng, stages)
		_, s := sweepOf(t, d.with(control("arm-0", -180, 180)).text())

		type event struct {
			at  float64
			arm string
		}
		var want []event
		var ends [2]float64
		// arms returns the turn of every arm; false where a stage no longer closes.
		arms := func(x float64) (out [stages + 1]float64, ok bool) {
			out[0] = x
			for i := range stages {
				if _, ok := fs[i].joint(cranks[i] + out[i]); !ok {
					return out, false
				}
				_, drawn := fs[i].angles(cranks[i])
				_, now := fs[i].angles(cranks[i] + out[i])
				out[i+1] = now - drawn
			}
			return out, true
		}
		for side, sign := range []float64{-1, 1} {
			ends[side] = sign * 180
			for x := step; x <= 180; x += step {
				if _, ok := arms(sign * x); !ok {
					ends[side] = bisect(func(x float64) float64 {
						if _, ok := arms(x); ok {
							return 1
						}
						return -1
					}, sign*(x-step), sign*x)
					break
				}
			}
			// The rate of a stage by what drives it changes sign where it halts.
			rate := func(i int, x float64) float64 {
				a, _ := arms(x)
				_, r := fs[i].rates(cranks[i] + a[i])
				return r
			}
			for x := 0.0; x+step < math.Abs(ends[side]); x += step {
				for i := range stages {
					if rate(i, sign*x)*rate(i, sign*(x+step)) < 0 {
						want = append(want, event{bisect(func(x float64) float64 { return rate(i, x) }, sign*x, sign*(x+step)), fmt.Sprintf("arm-%d", i+1)})
					}
				}
			}
		}
		slices.SortFunc(want, func(a, b event) int {
			if a.at < b.at {
				return -1
			}
			return 1
		})
		near(t, ends[0], s.Explored[0], 1e-6, about+": low")
		near(t, ends[1], s.Explored[1], 1e-6, about+": high")
		var found []event
		for _, c := range s.Critical {
			if c.Kind == solve.DeadCenter && c.At > ends[0]+step && c.At < ends[1]-step {
				found = append(found, event{c.At, c.Part.Name})
			}
		}
		want = slices.DeleteFunc(want, func(e event) bool { return e.at <= ends[0]+step || e.at >= ends[1]-step })
		require.Len(t, found, len(want), "%s: %v, found %v", about, want, found)
		for i := range want {
			assert.Equal(t, want[i].arm, found[i].arm, "%s: %v, found %v", about, want, found)
			near(t, want[i].at, found[i].at, 1e-6, about)
			told++
		}
	}
	assert.Greater(t, told, 20)
}

// randomChain returns four-bars of which each drives the next, where their
// cranks are drawn, and the drawing: arms "arm-0" to "arm-N".
func randomChain(rng *rand.Rand, stages int) (fs []fourBar, cranks []float64, d drawing) {
	d.bodies = append(d.bodies, hinge("arm-0", at(0, 0)))
	for i := range stages {
		f, crank := randomFourBar(rng, 35)
		fs, cranks = append(fs, f), append(cranks, crank)
		driver := &d.bodies[i]
		joint, _ := f.joint(crank)
		driver.points = append(driver.points, spot{"out", driver.pivot.Add(polar(f.crank, crank))})
		name := fmt.Sprintf("arm-%d", i+1)
		d.bars = append(d.bars, bar{name: fmt.Sprintf("rod-%d", i), from: driver.name + ".out", to: name + ".in"})
		d.bodies = append(d.bodies, hinge(name, driver.pivot.Add(at(f.ground, 0)), spot{"in", driver.pivot.Add(joint)}))
	}
	return fs, cranks, d
}

// atToggle returns the null motion and the left null vector of the rods'
// lengths, in the run's units (radians for turns).
func (m *model) atToggle(hand float64, x []float64) (motion, forces []float64) {
	jacobian := mat.NewDense(m.equations(), m.n, nil)
	lengths := make([]float64, len(m.d.bars))
	fd.Jacobian(jacobian, func(y, z []float64) { m.off(y, lengths, m.hand(hand), z) }, x, &fd.JacobianSettings{Formula: fd.Central})
	var svd mat.SVD
	svd.Factorize(jacobian, mat.SVDFull)
	var u, v mat.Dense
	svd.UTo(&u)
	svd.VTo(&v)
	return mat.Col(nil, m.n-1, &v), mat.Col(nil, m.n-1, &u)
}

// TestRandomToggleShares: a toggle of a larger block is told with the part
// whose points move fastest in the null motion and the rod with the largest
// component of the left null vector.
func TestRandomToggleShares(t *testing.T) {
	told := 0
	for kind, c := range manyLoops {
		for seed := uint64(1); seed <= 12; seed++ {
			rng := rand.New(rand.NewPCG(seed, uint64(600+kind)))
			d := c.draw(rng)
			m := newModel(d, "lever")
			for ; m.stiffness(0, make([]float64, m.n)) < 2*stiffEnough; m = newModel(d, "lever") {
				d = c.draw(rng)
			}
			run, s := sweepOf(t, d.with(control("lever", -70, 70)).text())
			for _, critical := range s.Critical {
				if critical.Kind != solve.Toggle {
					continue
				}
				about := fmt.Sprintf("%s, seed %d, at %v", c.name, seed, critical.At)
				// The unknowns there, from the solver's own places: only the names are judged.
				st := solveAt(t, s, critical.At)
				x := m.fromPose(st, run)
				require.Less(t, m.stiffness(critical.At, x), 1e-3, about)
				motion, forces := m.atToggle(critical.At, x)
				speeds := make([]float64, len(d.bodies))
				for i, b := range d.bodies {
					for _, p := range b.points {
						const h = 1e-6
						moved := slices.Clone(x)
						for k := range moved {
							moved[k] += h * motion[k]
						}
						now, then := m.end(b.name+"."+p.name, m.hand(critical.At), x), m.end(b.name+"."+p.name, m.hand(critical.At), moved)
						speeds[i] = math.Max(speeds[i], distance(now, then)/h)
					}
				}
				fastest, clear := largest(speeds)
				if clear {
					assert.Equal(t, d.bodies[fastest].name, critical.Part.Name, "%s: speeds %v", about, speeds)
					told++
				}
				for i := range forces {
					forces[i] = math.Abs(forces[i])
				}
				// Of a joint's three equations the solver may have taken others.
				if most, clear := largest(forces); clear && len(d.pins) == 0 {
					assert.Equal(t, d.bars[most].name, critical.Rod.Name, "%s: shares %v", about, forces)
					told++
				}
			}
		}
	}
	assert.Greater(t, told, 40)
}

// largest returns the largest of some numbers, and whether it is so by more
// than 1 percent.
func largest(v []float64) (index int, clear bool) {
	for i := range v {
		if v[i] > v[index] {
			index = i
		}
	}
	for i := range v {
		if i != index && v[i] > 0.99*v[index] {
			return index, false
		}
	}
	return index, true
}
