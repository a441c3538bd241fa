package survey_test

import (
	"os"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/mat"

	"fullfree/linkage"
	"fullfree/solve/survey"
)

// tapedPedals is the demo that is taped.
func tapedPedals(t *testing.T) *linkage.Run {
	t.Helper()
	text, err := os.ReadFile("../../demo/pedals-taped.hcl")
	require.NoError(t, err)
	return read(t, string(text))
}

// with returns a survey of a run and one measurement more, which reads just what the
// adjusted drawing has, so that nothing moves.
func with(t *testing.T, run *linkage.Run, was *survey.Survey, m *linkage.Measurement) (*linkage.Run, *survey.Survey) {
	t.Helper()
	exact, more := *m, *run
	exact.Is = reading(m, surveyedPoint(t, was, m.From.String()).At, surveyedPoint(t, was, m.To.String()).At)
	more.Measurements = append(slices.Clone(run.Measurements), &exact)
	return &more, surveyOf(t, &more)
}

// What Order tells of each step is what surveys with and without it tell, and none of those
// that are left would have told more.
func TestOrderIsWhatSurveysOneAfterAnotherTell(t *testing.T) {
	for _, taken := range []int{0, 4, 9} {
		run := tapedPedals(t)
		all := run.Measurements
		run.Measurements = all[:taken]
		s := surveyOf(t, run)
		order := s.Order(all[taken:])
		require.Len(t, order, len(all)-taken)
		for i, h := range order {
			told := func(m *linkage.Measurement) (settles int, removes float64) {
				_, next := with(t, run, s, m)
				return len(s.Undetermined) - len(next.Undetermined), 1 - mat.Trace(next.Cov())/mat.Trace(s.Cov())
			}
			settles, removes := told(h.Measurement)
			assert.Equal(t, settles, h.Settles, h.Measurement.Name)
			assert.InDelta(t, removes, h.Removes, 1e-3, h.Measurement.Name)
			for _, other := range order[i:] {
				fewer, lesser := told(other.Measurement)
				assert.True(t, fewer < settles || fewer == settles && lesser <= 1.05*removes+1e-3, "%s before %s", h.Measurement.Name, other.Measurement.Name)
			}
			run, s = with(t, run, s, h.Measurement)
		}
		assert.Empty(t, s.Undetermined)
	}
}

func TestOrderTakesNothingOfAnotherRun(t *testing.T) {
	s := surveyOf(t, tapedPedals(t))
	assert.Empty(t, s.Order(tapedPedals(t).Measurements))
	assert.Empty(t, s.Order([]*linkage.Measurement{nil, {}}))
	assert.Empty(t, (*survey.Survey)(nil).Order(nil))
}
