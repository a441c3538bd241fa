package solve_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/linkage/hunt"
	"fullfree/solve"
	"fullfree/solve/survey"
)

// surveyedChain is a chain whose first part is exact, all other places of which but
// one are taped to each other; of every part a travel is required, and a hole
// "spare" of the last has nothing on it.
func surveyedChain(rng *rand.Rand, c chain) (text, open string) {
	text = strings.Replace(c.text(), "units = \"mm\"", "units = \"mm\"\n  sketch = 4", 1)
	text = strings.Replace(text, "part \"a\" {", "part \"a\" {\n  exact = true", 1)
	last := len(c.pivots) - 1
	from := vec{}
	if c.arms {
		from = c.pivots[last]
	}
	spare := c.pivots[last].Add(at(11, 17))
	in := fmt.Sprintf("in = %s }", write(c.in[last].Sub(from)))
	text = strings.Replace(text, in, strings.TrimSuffix(in, " }")+", spare = "+write(spare.Sub(from))+" }", 1)

	names, places := []string{"a.pivot", "a.out"}, []vec{c.pivots[0], c.out[0]}
	for i := 1; i <= last; i++ {
		part := chainPart(i)
		names, places = append(names, part+".pivot", part+".in"), append(places, c.pivots[i], c.in[i])
		if i < last {
			names, places = append(names, part+".out"), append(places, c.out[i])
		}
	}
	names, places = append(names, chainPart(last)+".spare"), append(places, spare)
	// Nothing is taped to the open one.
	left := 2 + rng.IntN(len(names)-2)
	for i := range names {
		for j := range i {
			if i != left && j != left && i > 1 {
				text += fmt.Sprintf("taped \"t%d-%d\" {\n  from = %s\n  to = %s\n  is = %s\n  within = 0.3\n}\n", j, i, names[j], names[i], num(distance(places[i], places[j])))
			}
		}
	}
	for i := range c.pivots {
		text += fmt.Sprintf("output \"o%d\" {\n  of = %s\n}\nrequire \"travel\" {\n  of = o%d\n  low = -20\n  high = 20\n  within = 3\n}\n", i, chainPart(i), i)
	}
	return text + "require \"stops\" {}\n", names[left]
}

// judgedOnSurvey adjusts a run to its tapes and judges it.
func judgedOnSurvey(t *testing.T, text string) *solve.Result {
	run := read(t, text)
	s, err := survey.New(run)
	require.NoError(t, err)
	run, err = s.Apply(run)
	require.NoError(t, err)
	m, err := solve.Compile(run)
	require.NoError(t, err, text)
	result, err := m.Check()
	require.NoError(t, err, text)
	result.Survey = s
	require.NoError(t, m.AddBands(result, s))
	return result
}

// TestHuntSurveyOpen: a place that nothing measured ties leaves a requirement unsure
// where it moves its figure, and nowhere else: told by drawing the place elsewhere,
// by as much as the sketch may be out, and judging anew.
func TestHuntSurveyOpen(t *testing.T) {
	untied, tied := 0, 0
	hunt.Each(t, 12, func(t *testing.T, rng *rand.Rand) {
		un, all := openPlace(t, rng)
		untied, tied = untied+un, tied+all-un
	})
	assert.Greater(t, untied, 0)
	assert.Greater(t, tied, 0)
}

// TestOpenPlaceMovesWhereNotHowMuch has a part that reverses next to neutral: an open
// place before it moves where it does, and not how far it goes.
func TestOpenPlaceMovesWhereNotHowMuch(t *testing.T) {
	untied, all := openPlace(t, rand.New(rand.NewPCG(1, 12)))
	assert.Equal(t, 2, untied)
	assert.Equal(t, 4, all)
}

// openPlace draws a chain with an open place. It returns how many of its travels hang
// on that, of how many.
func openPlace(t *testing.T, rng *rand.Rand) (untied, all int) {
	c := newChain(rng)
	c.given = false // the survey adjusts no set length
	text, open := surveyedChain(rng, c)
	result := judgedOnSurvey(t, text)
	run := result.Run
	moved := make([]float64, len(c.pivots))
	for _, p := range result.Survey.Points {
		for _, by := range []vec{{X: -4}, {X: 0.5}, {X: 4}, {Y: -4}, {Y: 0.5}, {Y: 4}} {
			if p.Name != open {
				continue
			}
			m, err := solve.Compile(edited(t, run, linkage.Move([]linkage.PlaceRef{p.Place}, []vec{p.At.Add(by)})))
			require.NoError(t, err)
			other, err := m.Check()
			require.NoError(t, err)
			for i := range moved {
				moved[i] = math.Max(moved[i], math.Abs(*other.Requirements[i].Worst-*result.Requirements[i].Worst))
			}
		}
	}
	for i, most := range moved {
		j := &result.Requirements[i]
		require.NotNil(t, j.Untied)
		if most < 1e-7 || most > 1e-5 { // between, it makes no difference to anybody
			assert.Equal(t, most > 1e-5, *j.Untied, "%s open, requirement %d moves by %g\n%s", open, i, most, text)
		}
		if *j.Untied {
			untied++
			assert.False(t, j.Sure != nil && *j.Sure, "not sure of what is open")
		}
	}
	stops := result.Requirements[len(moved)]
	require.NotNil(t, stops.Untied)
	assert.Equal(t, !strings.HasSuffix(open, ".spare"), *stops.Untied, "without a figure it hangs on whatever anything hangs on")
	return untied, len(moved)
}
