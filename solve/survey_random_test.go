package solve_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
)

// within95 is how many standard deviations hold 95 % of a normal distribution.
const within95 = 1.959964

// TestSurveyTellsItsErrors draws networks, sketches of them and measurements,
// and counts how often the truth lies within the stated errors: of coordinates,
// and of standardized residuals.
func TestSurveyTellsItsErrors(t *testing.T) {
	for _, c := range []struct {
		name          string
		plane         bool
		draws         int
		taped, gauged int
	}{
		{"plane", true, 2000, 18, 3},
		{"plane, little measured", true, 2000, 7, 1},
		{"space", false, 500, 24, 3},
	} {
		t.Run(c.name, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(3, uint64(c.taped)))
			held, of, calm, checked := 0, 0, 0, 0
			for range c.draws {
				n := newNetwork(rng, c.plane, 4)
				n.plan(rng, c.taped, c.gauged)
				n.draw(rng)
				n.measure(rng)
				s := survey(t, n.run)
				for i, p := range s.Points {
					truth, sigma := coordinates(n.truth[i], c.plane), coordinates(p.Sigma, c.plane)
					for axis, at := range coordinates(p.At, c.plane) {
						of++
						if math.Abs(at-truth[axis]) < within95*sigma[axis] {
							held++
						}
					}
					require.Equal(t, c.plane, p.PlaneOnly)
					if c.plane {
						require.Equal(t, n.truth[i].Z, p.At.Z)
						require.Zero(t, p.Sigma.Z)
					}
				}
				for _, m := range s.Measurements {
					if m.Standardized != nil {
						checked++
						if math.Abs(*m.Standardized) < within95 {
							calm++
						}
					}
				}
			}
			require.Positive(t, checked)
			assert.InDelta(t, 0.95, float64(held)/float64(of), 0.02, "coordinates within 95 %% of what is said")
			assert.InDelta(t, 0.95, float64(calm)/float64(checked), 0.02, "standardized residuals within 1.96")
		})
	}
}

// TestSurveyFindsTheBlunder plants one gross error and looks for it.
func TestSurveyFindsTheBlunder(t *testing.T) {
	const draws, blunder = 1000, 8.0 // mm: sixteen standard deviations
	rng := rand.New(rand.NewPCG(5, 8))
	found, planted, within := 0, 0, 0
	for range draws {
		n := newNetwork(rng, true, 20)
		n.plan(rng, 20, 2)
		n.draw(rng)
		n.measure(rng)
		at := rng.IntN(20)
		n.run.Measurements[at].Is += blunder
		s := survey(t, n.run)
		m := s.Measurements[at]
		if m.Redundancy < 0.3 {
			continue // the rest hardly check it
		}
		planted++
		doubtful := 0
		for _, m := range s.Measurements {
			if m.Doubtful {
				doubtful++
			}
		}
		require.LessOrEqual(t, doubtful, 1)
		if m.Doubtful {
			found++
		}
		// The misclosure of one error is the error, and its standard deviation
		// sigma over the root of the redundancy.
		if math.Abs(*m.Misclosure-blunder) < within95*0.5/math.Sqrt(m.Redundancy) {
			within++
		}
	}
	require.Greater(t, planted, draws/4)
	assert.Greater(t, float64(found)/float64(planted), 0.97)
	assert.InDelta(t, 0.95, float64(within)/float64(planted), 0.03)
}

// TestSurveyCovarianceIsTheScatter repeats one survey with new errors and
// compares the scatter of the coordinates with the stated covariance.
func TestSurveyCovarianceIsTheScatter(t *testing.T) {
	const draws = 3000
	rng := rand.New(rand.NewPCG(9, 1))
	n := newNetwork(rng, true, 3)
	n.plan(rng, 14, 2)
	n.measure(rng)
	n.run.Move(n.places, n.truth)
	for _, m := range n.run.Measurements {
		m.Is = reading(m, n.of(m.From), n.of(m.To))
	}
	s := survey(t, n.run)
	c := s.Cov()
	size := c.SymmetricDim()
	require.Len(t, s.Dimensions(), size)
	scatter := make([][]float64, size)
	for u := range scatter {
		scatter[u] = make([]float64, size)
	}
	for range draws {
		n.draw(rng)
		n.measure(rng)
		s := survey(t, n.run)
		s.Apply(n.run)
		off := make([]float64, size)
		for u, d := range s.Dimensions() {
			truth := n.of(linkage.PlaceRef{Part: d.Part, Point: d.Point})
			off[u] = d.Value() - []float64{truth.X, truth.Y}[d.Axis]
		}
		for u := range size {
			for v := range size {
				scatter[u][v] += off[u] * off[v] / draws
			}
		}
	}
	for u := range size {
		for v := range size {
			// The standard error of a covariance from so many draws (Wishart).
			se := math.Sqrt((c.At(u, u)*c.At(v, v) + c.At(u, v)*c.At(u, v)) / draws)
			assert.InDelta(t, c.At(u, v), scatter[u][v], 5*se, "%s with %s", s.Dimensions()[u], s.Dimensions()[v])
		}
	}
}

// TestSurveyFromFarOut starts from sketches as far out as half the arms are
// long: the search ends, and mostly at the truth; where it doesn't, a place
// lies on the other side of a line than it was sketched.
func TestSurveyFromFarOut(t *testing.T) {
	const draws = 400
	rng := rand.New(rand.NewPCG(7, 30))
	right := 0
	for range draws {
		n := newNetwork(rng, true, 30)
		n.plan(rng, 24, 4)
		n.draw(rng)
		n.measure(rng)
		s := survey(t, n.run)
		true_ := true
		for i, p := range s.Points {
			for j, q := range s.Points[:i] {
				got, want := p.At.Sub(q.At), n.truth[i].Sub(n.truth[j])
				true_ = true_ && got.Sub(want).Norm() < 10
			}
		}
		if true_ {
			right++
		}
	}
	t.Log(right)
}
