package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/solve"
)

// flatEnough is how near to lying flat (shortest + longest = the two others,
// relative) a random four-bar may be: a flat one has change points, which are
// tested elsewhere.
const flatEnough = 0.02

// randomFourBar returns a linkage that is not flat, and an angle of its crank
// at which it closes with a rod angle of at least some degrees.
func randomFourBar(rng *rand.Rand, leastMu float64) (f fourBar, crank float64) {
	for {
		f = fourBar{
			ground: 20 + 180*rng.Float64(), crank: 20 + 180*rng.Float64(),
			coupler: 20 + 180*rng.Float64(), rocker: 20 + 180*rng.Float64(),
			crossed: rng.IntN(2) == 1,
		}
		crank = 360*rng.Float64() - 180
		flat := false
		for _, e := range []float64{f.ground + f.crank - f.coupler - f.rocker, f.ground + f.coupler - f.crank - f.rocker, f.ground + f.rocker - f.crank - f.coupler} {
			flat = flat || math.Abs(e) < flatEnough*(f.ground+f.crank+f.coupler+f.rocker)
		}
		if _, ok := f.joint(crank); ok && !flat && f.mu(crank) > leastMu {
			return f, crank
		}
	}
}

// locks returns the crank angles, -180 to 180, at which the rocker locks: pin
// and far pivot are coupler + rocker, or their difference, apart (elementary).
func (f fourBar) locks() (out []float64) {
	for _, e := range []float64{f.coupler + f.rocker, math.Abs(f.coupler - f.rocker)} {
		cos := (f.ground*f.ground + f.crank*f.crank - e*e) / (2 * f.ground * f.crank)
		if math.Abs(cos) < 1 {
			out = append(out, deg(math.Acos(cos)), -deg(math.Acos(cos)))
		}
	}
	return out
}

// deadCenters returns the crank angles at which crank and coupler lie in line:
// the joint is coupler + crank, or their difference, from the crank's pivot
// (elementary: the triangle of that distance, ground and rocker).
func (f fourBar) deadCenters() (out []float64) {
	for i, e := range []float64{f.coupler + f.crank, f.coupler - f.crank} {
		cos := (f.ground*f.ground + e*e - f.rocker*f.rocker) / (2 * f.ground * math.Abs(e))
		if math.Abs(cos) >= 1 {
			continue
		}
		for _, crank := range []float64{deg(math.Acos(cos)), -deg(math.Acos(cos))} {
			if i == 1 && e > 0 { // the pin lies on the far side of the pivot
				crank += 180
			}
			// Each belongs to one of the two assemblies: in the other the rocker goes on.
			if _, rate := f.rates(crank); math.Abs(rate) < 1e-3 {
				out = append(out, crank)
			}
		}
	}
	return out
}

// expected returns how far a crank drawn at an angle can go, at most half a
// turn each way, and the dead centers between, as travel.
func (f fourBar) expected(crank float64) (low, high float64, dead []float64) {
	low, high = -180, 180
	for _, lock := range f.locks() {
		x := turnTo(lock-crank, 0)
		for _, x := range []float64{x - 360, x, x + 360} {
			if x < 0 {
				low = math.Max(low, x)
			} else {
				high = math.Min(high, x)
			}
		}
	}
	for _, d := range f.deadCenters() {
		x := turnTo(d-crank, 0)
		for _, x := range []float64{x - 360, x, x + 360} {
			if x >= low && x <= high {
				dead = append(dead, x)
			}
		}
	}
	slices.Sort(dead)
	return low, high, dead
}

// compareFourBar checks places, ends, critical points and the ratio of one
// four-bar against the closed forms.
func compareFourBar(t *testing.T, f fourBar, crank float64, about string) {
	t.Helper()
	run, s := sweepOf(t, f.draw(crank, 1).with(control("crank", -180, 180)).text())
	low, high, dead := f.expected(crank)
	const located = 360e-9 // 1e-9 of the longest travel
	near(t, low, s.Explored[0], located, about+": low")
	near(t, high, s.Explored[1], located, about+": high")
	for i, bound := range []float64{low, high} {
		want := solve.ByToggle
		if math.Abs(bound) == 180 {
			want = solve.ByLimit
		} else {
			assert.Equal(t, "rocker", s.Ends[i].Part.Name, about)
		}
		assert.Equal(t, want, s.Ends[i].Cause, about)
	}

	var found []float64
	for _, c := range s.Critical {
		if c.Kind == solve.DeadCenter && c.Output == nil {
			found = append(found, c.At)
			assert.Equal(t, "rocker", c.Part.Name, about)
		}
	}
	require.Len(t, found, len(dead), "%s: dead centers %v, found %v", about, dead, found)
	for i := range dead {
		near(t, dead[i], found[i], located, about+": dead center")
	}

	const steps = 60
	columns, rows := tableOf(t, s, steps)
	require.Equal(t, "crank", columns[0].Name)
	require.Equal(t, "rocker", columns[1].Name)
	require.Len(t, rows, steps+1)
	size := f.ground + f.crank + f.coupler + f.rocker
	_, drawn := f.angles(crank)
	for _, row := range rows {
		want, ok := f.joint(crank + row[0])
		if !ok { // the very end, to rounding
			continue
		}
		// Rounding grows with the inverse of the sine of mu, at the toggle to its root.
		allowed := 1e-13 / math.Max(math.Sin(rad(f.mu(crank+row[0]))), 1e-7)
		got := solveAt(t, s, row[0]).Point(pointNamed(t, run, "rocker.pin"))
		near(t, 0, distance(want, got)/size, allowed, fmt.Sprintf("%s: joint at %v", about, row[0]))
		_, rocker := f.angles(crank + row[0])
		near(t, 0, turnTo(rocker-drawn-row[1], 0), deg(allowed)*size/f.rocker, fmt.Sprintf("%s: rocker at %v", about, row[0]))
	}

	_, rate := f.rates(crank)
	sin := math.Sin(rad(f.mu(crank)))
	nearAt(t, rate, outputOf(t, s, "rocker-turn").Ratio.Neutral, 1e-12*size/f.rocker/(sin*sin*sin), about+": ratio")
}

func TestRandomFourBars(t *testing.T) {
	for seed := uint64(1); seed <= 100; seed++ {
		rng := rand.New(rand.NewPCG(seed, 1))
		f, crank := randomFourBar(rng, 3)
		compareFourBar(t, f, crank, fmt.Sprintf("seed %d: %+v at %v", seed, f, crank))
	}
}

// TestRandomFourBarsNearToggle draws them a little short of where they lock.
func TestRandomFourBarsNearToggle(t *testing.T) {
	count := 0
	for seed := uint64(1); seed <= 60; seed++ {
		rng := rand.New(rand.NewPCG(seed, 2))
		f, _ := randomFourBar(rng, 3)
		for _, lock := range f.locks() {
			short := math.Pow(10, -3*rng.Float64()) // 1 to 0.001 degree
			for _, crank := range []float64{lock - short, lock + short} {
				if _, ok := f.joint(crank); !ok {
					continue
				}
				count++
				compareFourBar(t, f, crank, fmt.Sprintf("seed %d: %+v at %v, %v short", seed, f, crank, short))
			}
		}
	}
	assert.Greater(t, count, 50)
}

// TestAlmostFlat: equal bars but for a hair lock near where they would lie
// flat, or get past there in the assembly they are in.
func TestAlmostFlat(t *testing.T) {
	for _, hair := range []float64{1e-2, 1e-4, 1e-6, 1e-8} {
		for _, sign := range []float64{1, -1} {
			for _, crossed := range []bool{false, true} {
				for _, crank := range []float64{60, -100, 179} {
					f := fourBar{ground: 2, crank: 1, coupler: 2 + sign*hair, rocker: 1, crossed: crossed}
					if _, ok := f.joint(crank); !ok {
						continue
					}
					compareFourBar(t, f, crank, fmt.Sprintf("%+v at %v", f, crank))
				}
			}
		}
	}
}

// TestRandomChains compares the last arm of chains of four-bars, each driven
// by the one before, with the closed form stage by stage.
func TestRandomChains(t *testing.T) {
	const stages = 8
	for seed := uint64(1); seed <= 20; seed++ {
		rng := rand.New(rand.NewPCG(seed, 3))
		about := fmt.Sprintf("seed %d", seed)
		fs, cranks, d := randomChain(rng, stages)
		_, s := sweepOf(t, d.with(control("arm-0", -3, 3)).text())
		_, rows := tableOf(t, s, 6)
		for k, row := range rows {
			if k%6 == 0 && s.Ends[k/6].Cause == solve.ByToggle { // known there to the root of rounding
				continue
			}
			x := row[0]
			for i := range stages {
				_, drawn := fs[i].angles(cranks[i])
				_, now := fs[i].angles(cranks[i] + x)
				x = turnTo(now-drawn, 0)
				near(t, x, row[i+1], 1e-9, fmt.Sprintf("%s: arm %d at %v", about, i+1, row[0]))
			}
		}
	}
}
