package paper

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

func randomPlace(r *rand.Rand) Place { return Place{r.Float64() * 60, r.Float64() * 60} }

// What is left of a line, against places tried along it.
func TestWindowCutsLines(t *testing.T) {
	const seed, cases, steps = 3, 400, 200
	r := rand.New(rand.NewPCG(seed, 0))
	w := Window{Place{20, 15}, Place{45, 40}}
	cut, missed := 0, 0
	for range cases {
		p, q := randomPlace(r), randomPlace(r)
		from, to, ok := w.cut(p, q)
		inside := 0
		for i := 0; i <= steps; i++ {
			if w.Holds(p.Add(q.Sub(p).Scale(float64(i) / steps))) {
				inside++
			}
		}
		if !ok {
			missed++
			assert.LessOrEqual(t, inside, 1, "seed %d", seed)
			continue
		}
		cut++
		assert.InDelta(t, float64(inside)/steps*p.Distance(q), from.Distance(to), 2*p.Distance(q)/steps, "seed %d", seed)
		if from != to {
			assert.InDelta(t, 1, p.To(q).Dot(from.To(to)), 1e-9, "it stays on the line, the same way round")
		}
	}
	assert.Greater(t, cut, 50)
	assert.Greater(t, missed, 50)
}

// A line that leaves and comes back is two; one that stays is itself.
func TestWindowLines(t *testing.T) {
	w := Window{Place{0, 0}, Place{10, 10}}
	within := []Place{{1, 1}, {5, 9}, {9, 1}}
	assert.Equal(t, [][]Place{within}, w.Lines(within))
	assert.Equal(t, [][]Place{{{1, 5}, {10, 5}}, {{10, 7}, {1, 7}}}, w.Lines([]Place{{1, 5}, {20, 5}, {20, 7}, {1, 7}}))
	assert.Empty(t, w.Lines([]Place{{20, 0}, {20, 10}}))
}

// The area of a cut polygon, against a net of places: in the window and in
// the triangle.
func TestWindowCutsPolygons(t *testing.T) {
	const seed, cases, steps = 4, 60, 60
	r := rand.New(rand.NewPCG(seed, 0))
	w := Window{Place{20, 15}, Place{45, 40}}
	seen := 0
	for range cases {
		corners := []Place{randomPlace(r), randomPlace(r), randomPlace(r)}
		count := 0
		for i := range steps {
			for k := range steps {
				at := w.Low.Add(Place{25 * (float64(i) + 0.5) / steps, 25 * (float64(k) + 0.5) / steps})
				if inTriangle(corners, at) {
					count++
				}
			}
		}
		got := area(w.Polygon(corners))
		assert.InDelta(t, float64(count)/(steps*steps)*25*25, got, 12, "seed %d: %v", seed, corners)
		if got > 30 {
			seen++
		}
	}
	assert.Greater(t, seen, 10)
}

func inTriangle(c []Place, p Place) bool {
	side := func(i int) bool { return c[(i+1)%3].Sub(c[i]).Square().Dot(p.Sub(c[i])) > 0 }
	return side(0) == side(1) && side(1) == side(2)
}

// area is that of a polygon (the shoelace formula).
func area(corners []Place) float64 {
	sum := 0.0
	for i, p := range corners {
		q := corners[(i+1)%len(corners)]
		sum += p.X*q.Y - q.X*p.Y
	}
	return math.Abs(sum) / 2
}
