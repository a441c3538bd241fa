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

// stiffLoops draws a run of every kind of manyLoops for some seeds.
func stiffLoops(salt, seeds uint64, use func(about string, rng *rand.Rand, d drawing)) {
	for kind, c := range manyLoops {
		for seed := uint64(1); seed <= seeds; seed++ {
			rng := rand.New(rand.NewPCG(seed, salt+uint64(kind)))
			d := c.draw(rng)
			for m := newModel(d, "lever"); m.stiffness(0, make([]float64, m.n)) < 2*stiffEnough; m = newModel(d, "lever") {
				d = c.draw(rng)
			}
			use(fmt.Sprintf("%s, seed %d", c.name, seed), rng, d)
		}
	}
}

// TestRandomStops: a stop on any part bites where the run without it first
// passes that value, on either side.
func TestRandomStops(t *testing.T) {
	bitten := 0
	stiffLoops(700, 4, func(about string, rng *rand.Rand, d drawing) {
		d = d.with(control("lever", -50, 50))
		run, free := sweepOf(t, d.text())
		for _, p := range free.Parts {
			part := partNamed(t, run, p.Part.Name)
			if part.Spatial() || p.Name != part.Name && p.Unit != "deg" || p.Most-p.Least < 0.1 {
				continue
			}
			value := p.Least + (p.Most-p.Least)*(0.03+0.94*rng.Float64())
			if math.Abs(value) < 0.01*(p.Most-p.Least) {
				continue
			}
			_, s := sweepOf(t, d.with(fmt.Sprintf("stop \"limit\" {\n  of = %s\n  at = %s\n}\n", part.Name, num(value))).text())
			beyond := func(x float64) float64 {
				v := solveAt(t, free, x).Travel(part) - value
				if value < 0 {
					v = -v
				}
				return v
			}
			const steps = 300
			for side, sign := range []float64{-1, 1} {
				want := math.NaN()
				reach := math.Abs(free.Explored[side])
				for i := range steps {
					a, b := reach*float64(i)/steps, reach*float64(i+1)/steps
					if beyond(sign*math.Min(b, reach)) > 0 {
						want = sign * bisect(func(x float64) float64 { return beyond(sign * x) }, a, math.Min(b, reach))
						break
					}
				}
				end := s.Ends[side]
				if math.IsNaN(want) {
					assert.NotEqual(t, solve.ByStop, end.Cause, "%s: %s at %v bites at %v", about, part.Name, value, end.At)
					continue
				}
				bitten++
				require.Equal(t, solve.ByStop, end.Cause, "%s: %s at %v should bite at %v", about, part.Name, value, want)
				near(t, want, end.At, 1e-7, fmt.Sprintf("%s: %s at %v", about, part.Name, value))
			}
		}
	})
	assert.Greater(t, bitten, 40)
}

// TestRandomDeadCenters: where a part on the airframe reverses, a dead center
// is told; and where one is told, the part that it names reverses, be it carried
// or floating.
func TestRandomDeadCenters(t *testing.T) {
	const steps = 1200
	seen := 0
	stiffLoops(800, 6, func(about string, rng *rand.Rand, d drawing) {
		run, s := sweepOf(t, d.with(control("lever", -90, 90)).text())
		at := func(k int) float64 {
			return math.Min(s.Explored[1], s.Explored[0]+(s.Explored[1]-s.Explored[0])*float64(k)/steps)
		}
		// turns is where the travel of a part is least or greatest among its neighbors.
		turns := map[string][]float64{}
		for _, b := range d.bodies {
			if b.fixed || b.name == "lever" {
				continue
			}
			part := partNamed(t, run, b.name)
			value := make([]float64, steps+1)
			for k := range value {
				value[k] = solveAt(t, s, at(k)).Travel(part)
			}
			for k := 1; k < steps; k++ {
				if (value[k]-value[k-1])*(value[k+1]-value[k]) < 0 {
					turns[b.name] = append(turns[b.name], at(k))
				}
			}
		}
		width := 2 * (s.Explored[1] - s.Explored[0]) / steps
		for _, b := range d.bodies {
			if b.on != "" || b.pivot == nil && b.slide == nil || b.unknowns() > 1 {
				continue // it may reverse without halting whole
			}
			name := b.name
			for _, x := range turns[name] {
				told := false
				for _, c := range s.Critical {
					told = told || c.Kind == solve.DeadCenter && math.Abs(c.At-x) < width
				}
				assert.True(t, told, "%s: %s reverses at %v", about, name, x)
				seen++
			}
		}
		for _, c := range s.Critical {
			if c.Kind != solve.DeadCenter || c.At < s.Explored[0]+width || c.At > s.Explored[1]-width {
				continue
			}
			reverses := false
			for _, x := range turns[c.Part.Name] {
				reverses = reverses || math.Abs(c.At-x) < width
			}
			assert.True(t, reverses, "%s: %s doesn't reverse at %v", about, c.Part.Name, c.At)
		}
	})
	assert.Greater(t, seen, 10)
}
