package render

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"fullfree/linkage"
	"fullfree/render/internal/sample"
	"fullfree/solve/survey"
)

func surveyReport(t *testing.T, s *survey.Survey) string {
	t.Helper()
	var b strings.Builder
	require.NoError(t, SurveyReport(&b, "levers.hcl", s))
	for _, line := range strings.Split(b.String(), "\n") {
		assert.LessOrEqual(t, utf8.RuneCountInString(line), pageWidth, line)
		assert.Equal(t, strings.TrimRight(line, " "), line)
	}
	return b.String()
}

func TestSurveyReport(t *testing.T) {
	assert.Equal(t, `Levers
AGREE: 3 measurements, 1 more than it takes, and none disagrees with the
  rest more than it may.

LOOK AT
  Nothing checks "level": a slip there would not show.

  measured          is   fits   off  disagrees  sigmas
  link       mm  184.0  183.8   0.2        0.4     0.6
  level     deg    0.5    0.5   0.0          -       -
  diagonal   mm  193.5  193.9  -0.4       -1.6    -1.6
  (fits: what the adjusted drawing has; off: what was read less that,
  the residual; disagrees: with all the others together, the misclosure;
  sigmas: off by its standard deviation; -: nothing checks it)

  place               x      ±      y      ±  moved
  lever.horn  mm    0.0  exact  -60.0  exact    0.0
  crank.horn  mm  187.0    0.5  -56.0    1.2    5.0
  (±: two standard deviations: 19 of 20 lie within, if the measurements
  are as good as their "within" says; moved: from the sketch; open:
  nothing ties it)

NEXT
  What would help most: tape lever.horn to crank.pivot; it takes 25% off
  the sum of all variances.

WHAT THIS ANSWER IS
  Covered: the holes and pivots named in levers.hcl, in the one position
    in which they were measured; metal (rounds, edges) and stops are
    taken as written.
  Assumed: rigid parts; a sketch that is out by no more than about
    60.0 mm; measurements as good as their "within" says.
  Not checked: whether it moves as it should, which "fullfree check"
    tells of the adjusted drawing.
  It is arithmetic on a drawing and approves nothing: the designer's
    instructions, the local rules and a licensed inspector do. The last
    check is made on the aircraft, at the blade or surface, pins out, by
    a second person.
`, surveyReport(t, sample.Surveyed()))
}

func TestSurveyHeadlines(t *testing.T) {
	s := sample.Surveyed()
	s.Measurements[2].Doubtful, s.Measurements[2].Misclosure = true, sample.Is(-3.14)
	got := surveyReport(t, s)
	assert.Contains(t, got, "MEASURE AGAIN: \"diagonal\" disagrees with the rest.\n")
	assert.Contains(t, strings.Join(strings.Fields(got), " "), `The distance "diagonal" (lever.horn to crank.pivot) disagrees with the rest by 3.1 mm: measure it again before anything else.`)

	s = sample.Surveyed()
	s.Measurements[1].Doubtful, s.Measurements[1].Misclosure = true, sample.Is(2.5)
	assert.Contains(t, surveyReport(t, s), `The direction "level" (lever.horn to crank.horn) disagrees with`)

	s = sample.Surveyed()
	s.DegreesOfFreedom = 0
	assert.Contains(t, surveyReport(t, s), "NOTHING CHECKS: 3 measurements, just as many as it takes")

	s = sample.Surveyed()
	s.Run.Sketch = 0
	assert.Contains(t, surveyReport(t, s), "AGREE: 3 measurements, and none disagrees with the drawing more than it\n  may.\n")
	s.Measurements[2].Doubtful = true
	assert.Contains(t, surveyReport(t, s), "MEASURE AGAIN: \"diagonal\" disagrees with the drawing.")

	s = sample.Surveyed()
	s.Measurements, s.Next.OK, s.Run.Sketch = nil, false, 0
	got = surveyReport(t, s)
	assert.Contains(t, got, "NOTHING IS MEASURED")
	assert.NotContains(t, got, "NEXT")
	assert.NotContains(t, got, "LOOK AT")
}

// Where more than one can be the slip, no one is blamed alone.
func TestSurveyBlamesNoOneAlone(t *testing.T) {
	s := sample.Surveyed()
	s.Measurements[0].Standardized, s.Measurements[0].AsDoubtful = sample.Is(-11.3), true
	s.Measurements[2].Doubtful, s.Measurements[2].Misclosure, s.Measurements[2].Standardized = true, sample.Is(-3.14), sample.Is(11.4)
	said := strings.Join(strings.Fields(surveyReport(t, s)), " ")
	assert.Contains(t, said, `As doubtful, as nearly as can be told: "link".`)
	s.Measurements[0].Standardized, s.Measurements[0].AsDoubtful = sample.Is(2.9), false
	said = strings.Join(strings.Fields(surveyReport(t, s)), " ")
	assert.NotContains(t, said, "As doubtful")
}

func TestSurveyTellsTheMirrorImage(t *testing.T) {
	s := sample.Surveyed()
	s.Mirror, s.Mirrored = true, []survey.MirroredPlace{{Place: s.Points[1].Place, Name: "crank.horn", At: linkage.Vec{X: 187, Y: -64}}}
	said := strings.Join(strings.Fields(surveyReport(t, s)), " ")
	assert.Contains(t, said, "TWO DRAWINGS FIT: 3 measurements,")
	assert.Contains(t, said, "crank.horn (as well at [187.0, -64.0]). Sketch it on the side where it lies.")
	assert.Equal(t, "the mirror image fits as well", inDoubt(s))
}

func TestSurveyTellsWhatASlipOfTheLevelIs(t *testing.T) {
	s := sample.Surveyed()
	level := s.Measurements[1].Measurement
	for off, want := range map[float64]string{
		176: " From the other end it is -89.8°: if it was read so, write that, or exchange from and to. Or was it told clockwise,",
		-88: " If it was told from plumb, it is 180.2° from level: write that. Or was it told clockwise,",
		130: ": 130.0° from it. Or was it told clockwise,",
	} {
		level.Is = 90.2
		s.FarGauges = []survey.FarGauge{{Measurement: level, Drawn: 90.2 - off, Off: off}}
		said := strings.Join(strings.Fields(surveyReport(t, s)), " ")
		assert.Contains(t, said, `LOOK AGAIN: "level" was gauged far from the direction in which it is sketched.`)
		assert.Contains(t, said, want)
	}
}

// Inches are told in hundredths: 64ths are too coarse for what a tape disagrees by.
func TestSurveyInInches(t *testing.T) {
	s := sample.Surveyed()
	s.Run.Units = linkage.Inches
	s.Measurements[2].Doubtful, s.Measurements[2].Misclosure = true, sample.Is(0.0712)
	got := surveyReport(t, s)
	assert.Contains(t, strings.Join(strings.Fields(got), " "), "disagrees with the rest by 0.07 in: ")
	assert.Contains(t, got, "187.00")
}

func TestSurveyNote(t *testing.T) {
	assert.Empty(t, SurveyNote(nil))
	s := sample.Surveyed()
	assert.Equal(t, "Drawing: adjusted by the survey, 3 measurements, largest correction 5.0 mm (crank.horn).", SurveyNote(s))
	s.Points[1].Undetermined[1] = true
	assert.Equal(t, "Drawing: adjusted by the survey, 3 measurements, largest correction 5.0 mm (crank.horn). Nothing measured ties crank.horn (fullfree survey tells how).", SurveyNote(s))
}
