package survey_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/linkage/hunt"
	"fullfree/solve/survey"
)

// within95 is how many standard deviations hold 95 % of a normal distribution.
const within95 = 1.959964

// TestHuntSurveyTellsItsErrors draws networks, sketches of them and measurements,
// and counts how often the truth lies within the stated errors: of coordinates,
// and of standardized residuals.
func TestHuntSurveyTellsItsErrors(t *testing.T) {
	for _, c := range []struct {
		name          string
		plane         bool
		draws         int
		taped, gauged int
	}{
		{"plane", true, 400, 18, 3},
		{"plane, little measured", true, 120, 7, 1},
		{"space", false, 80, 24, 3},
	} {
		t.Run(c.name, func(t *testing.T) {
			rng := rand.New(rand.NewPCG(3, uint64(c.taped)))
			held, of, calm, checked := 0, 0, 0, 0
			for range c.draws * hunt.Rounds() {
				n := newNetwork(rng, c.plane, 4)
				n.plan(rng, c.taped, c.gauged)
				n.draw(t, rng)
				n.measure(rng)
				s := surveyOf(t, n.run)
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

// TestHuntSurveyFindsTheBlunder plants one gross error and looks for it.
func TestHuntSurveyFindsTheBlunder(t *testing.T) {
	const blunder = 8.0 // mm: sixteen standard deviations
	draws := 300 * hunt.Rounds()
	rng := rand.New(rand.NewPCG(5, 8))
	found, planted, within := 0, 0, 0
	for range draws {
		n := newNetwork(rng, true, 20)
		n.plan(rng, 20, 2)
		n.draw(t, rng)
		n.measure(rng)
		at := rng.IntN(20)
		n.run.Measurements[at].Is += blunder
		s := surveyOf(t, n.run)
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

// TestHuntSurveyCovarianceIsTheScatter repeats one survey with new errors and
// compares the scatter of the coordinates with the stated covariance.
func TestHuntSurveyCovarianceIsTheScatter(t *testing.T) {
	draws := 500 * hunt.Rounds()
	rng := rand.New(rand.NewPCG(9, 1))
	n := newNetwork(rng, true, 3)
	n.plan(rng, 14, 2)
	n.measure(rng)
	n.move(t, n.truth)
	for _, m := range n.run.Measurements {
		m.Is = reading(m, n.of(m.From), n.of(m.To))
	}
	s := surveyOf(t, n.run)
	c := s.Cov()
	size := c.SymmetricDim()
	require.Len(t, s.Dimensions(), size)
	scatter := make([][]float64, size)
	for u := range scatter {
		scatter[u] = make([]float64, size)
	}
	for range draws {
		n.draw(t, rng)
		n.measure(rng)
		s := surveyOf(t, n.run)
		adjusted, err := s.Apply(n.run)
		require.NoError(t, err)
		off := make([]float64, size)
		for u, d := range s.Dimensions() {
			truth := n.of(linkage.PlaceRef{Part: d.Part, Point: d.Point})
			at, ok := adjusted.Dimension(d)
			require.True(t, ok)
			off[u] = at.Value() - []float64{truth.X, truth.Y}[d.Axis]
		}
		for u := range size {
			for v := range size {
				scatter[u][v] += off[u] * off[v] / float64(draws)
			}
		}
	}
	for u := range size {
		for v := range size {
			// The standard error of a covariance from so many draws (Wishart).
			se := math.Sqrt((c.At(u, u)*c.At(v, v) + c.At(u, v)*c.At(u, v)) / float64(draws))
			assert.InDelta(t, c.At(u, v), scatter[u][v], 5*se, "%s with %s", s.Dimensions()[u], s.Dimensions()[v])
		}
	}
}

// TestSurveyFromFarOut starts from sketches that are out by a third of what lies
// between two places: where enough is measured, the shape is found all the same.
func TestSurveyFromFarOut(t *testing.T) {
	const draws = 300
	rng := rand.New(rand.NewPCG(7, 30))
	right := 0
	for range draws {
		n := newNetwork(rng, true, 30)
		n.plan(rng, 22, 2)
		n.draw(t, rng)
		n.measure(rng)
		s := surveyOf(t, n.run)
		worst := 0.0
		for i, p := range s.Points {
			for j, q := range s.Points[:i] {
				worst = max(worst, p.At.Sub(q.At).Sub(n.truth[i].Sub(n.truth[j])).Norm())
			}
		}
		if worst < 8 {
			right++
		}
	}
	assert.Greater(t, float64(right)/draws, 0.98)
}

// TestSurveyKeepsNoOrder turns the file about.
func TestSurveyKeepsNoOrder(t *testing.T) {
	rng := rand.New(rand.NewPCG(2, 2))
	for range 20 {
		n := newNetwork(rng, true, 10)
		n.plan(rng, 14, 2)
		n.draw(t, rng)
		n.measure(rng)
		n.run.Parts[0].Exact = true
		s := surveyOf(t, n.run)
		turned := *n.run
		turned.Parts = slices.Clone(n.run.Parts)
		slices.Reverse(turned.Parts)
		for i, p := range turned.Parts {
			p.Index = i
		}
		turned.Measurements = nil
		for _, m := range slices.Backward(n.run.Measurements) {
			back := *m
			back.From, back.To = m.To, m.From
			if m.Kind == linkage.Gauged {
				back.Is += 180
			}
			turned.Measurements = append(turned.Measurements, &back)
		}
		w := surveyOf(t, &turned)
		for _, p := range s.Points {
			q := surveyedPoint(t, w, p.Name)
			assert.InDelta(t, 0, p.At.Sub(q.At).Norm(), 1e-9)
			assert.InDelta(t, 0, p.Sigma.Sub(q.Sigma).Norm(), 1e-9)
		}
		for i, m := range slices.Backward(w.Measurements) {
			of := s.Measurements[len(w.Measurements)-1-i]
			assert.InDelta(t, of.Residual, m.Residual, 1e-9)
			assert.Equal(t, of.Doubtful, m.Doubtful)
		}
		assert.Equal(t, s.DegreesOfFreedom, w.DegreesOfFreedom)
		assert.ElementsMatch(t, s.Undetermined, w.Undetermined)
	}
}

// TestSurveyOfManyPlaces takes the largest survey that isn't refused.
func TestSurveyOfManyPlaces(t *testing.T) {
	const rows, columns = 10, 20
	rng := rand.New(rand.NewPCG(1, 400))
	part := &linkage.Part{Name: "frame", Motion: linkage.Fixed}
	run := &linkage.Run{Source: &linkage.Source{}, Units: linkage.Millimeters, Sketch: 10, Plane: true, Parts: []*linkage.Part{part}}
	for i := range rows * columns {
		part.Points = append(part.Points, linkage.Point{Name: fmt.Sprint("p", i), At: vec{X: float64(i%columns) * 50, Y: float64(i/columns) * 50}})
	}
	for i := range rows * columns {
		for _, j := range []int{i + 1, i + columns, i + columns + 1} {
			if j < rows*columns {
				m := &linkage.Measurement{
					Kind: linkage.Taped, Name: fmt.Sprint(i, " ", j), Within: 1,
					From: linkage.PlaceRef{Part: part, Point: i}, To: linkage.PlaceRef{Part: part, Point: j},
				}
				m.Is = reading(m, m.From.At(), m.To.At()) + rng.NormFloat64()/2
				run.Measurements = append(run.Measurements, m)
			}
		}
	}
	s := surveyOf(t, run)
	// All but two shifts and a turn.
	assert.Equal(t, len(run.Measurements)-(2*rows*columns-3), s.DegreesOfFreedom)
	assert.Empty(t, s.Undetermined)
	sum, redundancy := 0.0, 0.0
	for _, m := range s.Measurements {
		sum += m.Residual * m.Residual / 0.25
		redundancy += m.Redundancy
	}
	// The redundancies sum to the degrees of freedom, and a little that the sketch
	// checks; the squares of the residuals are about as many.
	assert.InDelta(t, float64(s.DegreesOfFreedom), redundancy, 5)
	assert.InDelta(t, float64(s.DegreesOfFreedom), sum, 4*math.Sqrt(2*float64(s.DegreesOfFreedom)))
}

// TestHuntSurveyOfNonsense has blunders of any size, sketches out by more than the
// run is large, and places in one line: the survey ends, and tells numbers or
// which measurement is farthest off.
func TestHuntSurveyOfNonsense(t *testing.T) {
	settled, refused := 0, 0
	for draw := range 60 * hunt.Rounds() {
		rng := rand.New(rand.NewPCG(99, uint64(draw)))
		n := newNetwork(rng, draw%4 != 0, []float64{5, 30, 300}[draw%3])
		if draw%5 == 0 {
			for i := range n.truth {
				n.truth[i].X, n.truth[i].Y = float64(i)*50, 0
			}
		}
		n.plan(rng, rng.IntN(24), rng.IntN(4))
		n.draw(t, rng)
		n.measure(rng)
		for _, m := range n.run.Measurements {
			if rng.IntN(6) == 0 && m.Kind == linkage.Taped {
				m.Is = math.Abs(m.Is + 60*rng.NormFloat64())
			} else if rng.IntN(6) == 0 {
				m.Is += 180
			}
			if draw%2 == 0 {
				m.Within /= 1000
			}
		}
		s, err := survey.New(n.run)
		if err != nil {
			refused++
			var faults *linkage.Faults
			require.ErrorAs(t, err, &faults)
			require.Regexp(t, `can't be brought together with the sketch, and "m\d+" is farthest off`, err.Error())
			continue
		}
		settled++
		doubtful := 0
		for _, p := range s.Points {
			require.True(t, p.At.Finite() && p.Sigma.Finite(), "draw %d", draw)
			require.LessOrEqual(t, max(p.Sigma.X, p.Sigma.Y, p.Sigma.Z), n.run.Sketch*(1+1e-9), "no less sure than the sketch")
		}
		for _, m := range s.Measurements {
			require.GreaterOrEqual(t, m.Redundancy, 0.)
			require.LessOrEqual(t, m.Redundancy, 1.)
			require.InDelta(t, m.Measurement.Is, m.Adjusted+m.Residual, 1e-9)
			require.Equal(t, m.Redundancy < 0.01, m.Standardized == nil)
			if m.Standardized != nil {
				require.False(t, math.IsNaN(*m.Standardized-*m.Standardized))
			}
			if m.Doubtful {
				doubtful++
				require.Greater(t, math.Abs(*m.Standardized), 3.)
			}
		}
		require.LessOrEqual(t, doubtful, 1)
		require.GreaterOrEqual(t, s.DegreesOfFreedom, 0)
	}
	require.Positive(t, refused)
	require.Greater(t, settled, refused)
}
